"""The first sheet: what it cost, what shops ask, whether it can be relied on, what comes next."""

from reportgen.layout.blocks import (
    ChartBlock,
    ChartSpec,
    Group,
    LegendBlock,
    ListBlock,
    NewPage,
    SentencesBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.sheets.cost import BEYOND, RUNNING
from reportgen.trade.tables import dryers, eat_first, products, season

CAUTIONS = (
    "Freeze-drying does not make food safe: what was unsafe before is unsafe after.",
    "Moist food sealed without oxygen can carry botulism. Seal only what is dry throughout.",
    "Weight alone cannot prove dryness; a constant weight or a water-activity reading can.",
    "Raw meat, egg and dairy stay raw: keep, label and cook them as such.",
    "Sale and labels follow the local food code; a licensed authority has the last word.",
    "The figures here judge plausibility, not safety.",
)

BESIDE_A_CASH_BOOK = (
    "Lines marked as reckoned follow from weights, hours, distances and rates, not from receipts.",
    "Machines bought are in none of the lines.",
    "What is eaten at home brings no money in; what it saved stands above.",
    "Money out is more than what was spent so far: fees, overheads, the stall, paid time, and runs "
    "not done.",
    "Each of these has its line. Stall days to come are in neither.",
)

SHEET = Sheet(
    name="Summary",
    purpose="What each product cost, what shops ask for it, and how far to trust the figures.",
    tab="read",
    landscape=False,
    blocks=(
        SentencesBlock("In a sentence", products, "headline"),
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Came out", ("dried", "packed_good"), echo=True),
                Group(
                    "Cost by weight, packed", ("running_per_packed", "full_per_packed"), echo=True
                ),
                Group(
                    "Against shops", ("retail_median", "running_to_retail", "saving_taken"),
                    echo=True,
                ),
                Group("How sure", ("estimated_share",), echo=True),
            ),
            heading="In figures",
            rest=False,
            keys=False,
            ids=False,
        ),
        ListBlock(
            "What to do next",
            (
                (
                    season,
                    (
                        "look_at", "look_first", "look_do", "look_besides", "plan_next",
                        "waiting", "runs_open", "unpacked",
                    ),
                ),
            ),
        ),
        TextBlock("Before you eat, give or sell it", CAUTIONS, caution=True),
        TableBlock(
            eat_first,
            (
                Group("On the shelf", ("what", "on_hand", "net"), echo=True),
                Group("Best-by day", ("best_by", "days_left"), echo=True),
                Group("Pack", ("pack", "container", "pack_dryness"), echo=True),
            ),
            heading="Eat first",
            rest=False,
            keys=False,
            ids=False,
        ),
        ListBlock(
            "Can it be relied on?",
            ((season, ("verdict_of_all", "errors", "failing", "lots_open", "plan_open")),),
        ),
        ChartBlock((
            ChartSpec(
                "bar", "Ours against the shops", products,
                ("running_per_packed", "full_per_packed", "retail_median"), "name",
                "by packed weight", width=19.0,
            ),
            ChartSpec(
                "stacked bar", "What the cost is made of", products,
                (*RUNNING, *BEYOND),
                "name", "for the season", width=19.0,
            ),
        )),
        NewPage(),
        ListBlock(
            "What it cost, saved and earned",
            (
                (
                    season,
                    (
                        "spent", "running_cost", "full_cost", "saving_taken", "saving_on_hand",
                        "saving", "instead", "kept_cost", "saving_missing", "revenue", "profit",
                        "estimated_share",
                    ),
                ),
            ),
        ),
        SentencesBlock("Has the dryer paid for itself?", dryers, "payback_said"),
        ListBlock(
            "Money: what came in, what was paid, what is left",
            (
                (
                    season,
                    (
                        "money_in", "market_difference", "money_purchases", "money_bought",
                        "money_driving", "money_packaging", "money_energy", "money_upkeep",
                        "money_fees", "money_tax", "money_overheads", "money_stall",
                        "money_to_market", "money_labor", "money_out", "money_left",
                        "paid_beyond_spent", "paid_for_going", "stall_ahead",
                    ),
                ),
            ),
        ),
        TextBlock("Beside a cash book", BESIDE_A_CASH_BOOK),
        ListBlock(
            "From purchase to shelf",
            (
                (
                    season,
                    (
                        "as_purchased", "prepped", "loaded", "water_removed", "dried", "packed",
                        "energy_used",
                    ),
                ),
            ),
        ),
        NewPage(),
        LegendBlock("How to read this workbook"),
    ),
)  # fmt: skip
