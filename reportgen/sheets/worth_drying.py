"""Which product is worth the machine's hours, from the one that earns most."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Group, Sheet, TableBlock
from reportgen.trade.tables import worth_drying

SHEET = Sheet(
    name="Worth drying",
    purpose="What an hour of the machine brought: what to dry when there is one run left.",
    tab="read",
    blocks=(
        TableBlock(
            worth_drying,
            (
                Group("Place", ("place", "called")),
                Group("Earned above its running cost", ("earned", "machine_hours")),
                Group("Earned by", (
                    "earned_per_machine_hour", "earned_per_run", "earned_per_hour", "hours_said",
                )),
            ),
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
    ),
)  # fmt: skip
