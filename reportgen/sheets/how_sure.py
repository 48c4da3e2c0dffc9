"""How far the cost by weight may be off, and what weighs most in it."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Group, Sheet, TableBlock, Use
from reportgen.sheets.deciding import DECIDING
from reportgen.trade.tables import drivers, products, ranking

HOW_SURE = Sheet(
    name="How sure",
    purpose="How far the cost by weight may be off, what that comes from, and what weighs most.",
    tab="read",
    aside=True,
    # Of an estimate whose spread is unknown it must be said that it is in no figure.
    used_by=(*DECIDING, Use(products, "spreads_unknown")),
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Cost by weight, packed", ("running_per_packed",), echo=True),
                Group("Within", ("running_per_packed_u",)),
                Group(
                    "Standard uncertainty from",
                    ("u_produce", "u_energy", "u_dried", "u_net", "u_beside", "u_recipe"),
                ),
                Group("Not in it", ("spreads_unknown",)),
                Group("What would help", ("worth_measuring", "worth_share")),
            ),
            rest=False,
            keys=False,
            note=(
                "Plus or minus: about 95 of 100 such figures are no further off (coverage factor "
                "k = 2; JCGM 100:2008, GUM, 6.3.3)."
            ),
        ),
        TableBlock(
            ranking,
            (
                Group("Driver", ("place", "what", "change")),
                Group("On the season's running cost", ("effect", "effect_back", "effect_share")),
            ),
            heading="What weighs most: each driver changed by a share, the weightiest first",
            ids=False,
        ),
        TableBlock(
            drivers,
            (
                Group("Driver", ("what",)),
                Group("Change it by", ("change",)),
                Group("Worked out", ("weighs",)),
            ),
            heading="By how much each driver is changed: type here, the order above follows",
            ids=False,
        ),
        ChartBlock(
            (
                ChartSpec(
                    "stacked bar", "What the running cost hangs on", ranking,
                    ("effect", "effect_back"), "what", "by the change up and down",
                ),
            )
        ),
    ),
)  # fmt: skip
