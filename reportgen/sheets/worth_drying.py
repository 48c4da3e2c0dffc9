"""Which product is worth the machine's hours, and what each mix brings, from the most down."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Group, ListBlock, Sheet, TableBlock, Use
from reportgen.sheets.deciding import DECIDING
from reportgen.trade.tables import season, worth_drying, worth_mixing

SHEET = Sheet(
    name="Worth drying",
    purpose="What an hour of the machine brought: what to dry when there is one run left.",
    tab="read",
    aside=True,
    used_by=DECIDING,
    blocks=(
        TableBlock(
            worth_drying,
            (
                Group("", ("place",)),
                Group("Product", ("called",)),
                Group("Earned above its running cost", ("earned", "machine_hours")),
                Group("Earned by", (
                    "earned_per_machine_hour", "earned_per_run", "earned_per_hour", "hours_said",
                )),
            ),
            ids=False,
            note="Of what was sold or kept. What is in bulk took its hours and earned nothing yet.",
        ),
        ChartBlock(
            (
                ChartSpec(
                    "bar", "What is worth drying", worth_drying, ("earned_per_machine_hour",),
                    "called", "by hour of the machine",
                ),
            )
        ),
        ListBlock("Not known", ((season, ("worth_unranked",)),)),
    ),
)  # fmt: skip

MIXES = Sheet(
    name="What mixes bring",
    purpose="What each mix brought above what went into it: which to make again.",
    tab="read",
    used_by=(Use(worth_mixing, "called"),),
    blocks=(
        TableBlock(
            worth_mixing,
            (
                Group("", ("place",)),
                Group("Mix", ("called", "mix")),
                Group("Brought above its parts", ("brought", "parts_cost", "earned")),
                Group("For the work", ("hours", "earned_per_hour")),
            ),
            ids=False,
            note="Parts stand in it at what they cost. Packaging of its packs is not taken off.",
        ),
        ChartBlock(
            (
                ChartSpec(
                    "bar", "What mixes bring above their parts", worth_mixing, ("earned",),
                    "mix", "above its parts",
                ),
            )
        ),
        ListBlock("Of all mixes", ((season, ("cost_bought", "mix_labor_cost")),)),
    ),
)  # fmt: skip
