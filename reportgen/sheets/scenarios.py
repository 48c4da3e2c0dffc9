"""What would change the cost: the outcomes to read, and the scenarios as they are written."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import changes, scenarios

SCENARIOS = Sheet(
    name="Scenarios",
    purpose="What each product would cost under each scenario of the sheet What if.",
    tab="read",
    blocks=(
        TableBlock(
            scenarios,
            (
                Group("Scenario", ("called", "product_called")),
                Group(
                    "Cost by weight, packed",
                    (
                        "running_per_packed", "full_per_packed", "change_of_running",
                        "change_of_full", "running_to_retail", "full_to_retail",
                    ),
                ),
                Group(
                    "Parts under the scenario",
                    (
                        "ingredients", "energy", "upkeep", "packaging", "wear", "labor",
                        "pack_labor", "overhead",
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip


WHAT_IF = Sheet(
    name="What if",
    purpose="Scenarios as written: change a part or a rate, and the sheet Scenarios follows.",
    tab="record",
    blocks=(
        TableBlock(
            changes,
            (
                Group("Scenario", ("name",)),
                Group(
                    "A part of the cost, times",
                    (
                        "ingredients_factor", "energy_factor", "upkeep_factor", "wear_factor",
                        "labor_factor", "packaging_factor", "overhead_factor",
                    ),
                ),
                Group("A rate instead", ("labor_rate", "electricity", "travel")),
                Group("A container instead", ("container", "net")),
            ),
            spare=3,
        ),
    ),
)  # fmt: skip
