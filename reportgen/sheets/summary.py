"""The first sheet: what it cost, what shops ask, and whether it can be relied on."""

from reportgen.sheets.blocks import (
    ChartBlock,
    ChartSpec,
    Group,
    LegendBlock,
    ListBlock,
    SentencesBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.trade.tables import products, season

CAUTIONS = (
    "Freeze-drying does not make food safe: what was unsafe before is unsafe after.",
    "Moist food sealed without oxygen can carry botulism. Seal only what is dry throughout.",
    "Weight alone cannot prove dryness; a constant weight or a water-activity reading can.",
    "Raw meat, egg and dairy stay raw: keep, label and cook them as such.",
    "Sale and labels follow the local food code; a licensed authority has the last word. "
    "The figures here judge plausibility, not safety.",
)

SHEET = Sheet(
    name="Summary",
    purpose="What each product cost, what shops ask for it, and how far to trust the figures.",
    tab="read",
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Came out", ("dried", "packed_good"), echo=True),
                Group("Cost by weight, packed", ("cash_per_packed", "full_per_packed"), echo=True),
                Group("Against shops", ("retail_median", "cash_to_retail", "saving"), echo=True),
                Group("How sure", ("estimated_share",), echo=True),
            ),
            rest=False,
            keys=False,
        ),
        SentencesBlock("In a sentence", products, "headline"),
        TextBlock("Before you eat, give or sell it", CAUTIONS, caution=True),
        ChartBlock((
        ChartSpec(
            "bar", "Ours against the shops", products,
            ("cash_per_packed", "full_per_packed", "retail_median"), "name", "by packed weight",
        ),
        ChartSpec(
            "stacked bar", "What the cost is made of", products,
            (
                "cost_ingredients", "cost_energy", "cost_upkeep", "cost_packaging",
                "cost_wear", "cost_labor", "cost_pack_labor", "cost_overhead",
            ),
            "name", "for the season",
        ),
        )),
        ListBlock(
            "The season",
            (
                (
                    season,
                    (
                        "verdict_of_all", "spent", "cash_cost", "full_cost", "saving", "revenue",
                        "profit", "estimated_share",
                    ),
                ),
            ),
        ),
        ListBlock(
            "From purchase to shelf",
            (
                (
                    season,
                    (
                        "as_purchased", "prepped", "loaded", "water_removed", "dried", "packed",
                        "unpacked", "waiting", "lots_open", "runs_open", "energy_used",
                        "saving_missing", "errors", "failing",
                    ),
                ),
            ),
        ),
        LegendBlock("How to read this workbook"),
    ),
)  # fmt: skip
