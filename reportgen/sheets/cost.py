"""Costs by product: from what came out to the cost by weight."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import products, season

RUNNING = ("cost_ingredients", "cost_energy", "cost_upkeep", "cost_packaging")
"""The parts of the running cost."""
BEYOND = ("cost_wear", "cost_labor", "cost_pack_labor", "cost_overhead")
"""What comes on top of it in the full cost."""

SHEET = Sheet(
    name="Cost",
    purpose="How the cost by weight of each product comes about, part by part.",
    tab="read",
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group(
                    "Came out",
                    ("loaded", "dried", "overall_yield", "drying_ratio"),
                ),
                Group(
                    "Running cost",
                    (*RUNNING, "running_cost"),
                ),
                Group(
                    "Beyond the running cost",
                    (*BEYOND, "full_cost"),
                ),
                Group("Through mixes", (
                    "mixes_running", "running_to_mixes", "mixes_full", "cost_to_mixes",
                    "bulk_mixed", "opened", "running_mixed", "full_mixed",
                ), quiet=True),
                Group("In bulk", ("bulk", "running_bulk", "full_bulk")),
                Group("Packed", ("packed", "packed_good", "unpacked")),
                Group(
                    "Cost by weight, packed",
                    ("running_per_packed", "full_per_packed", "estimated_share"),
                ),
            ),
            keys=False,
        ),
        ListBlock(
            "All products",
            (
                (
                    season,
                    (*RUNNING, *BEYOND),
                ),
            ),
        ),
        ListBlock(
            "What was paid, and where it is",
            (
                (
                    season,
                    (
                        "purchase_cost", "travel_cost", "labor_cost", "energy_cost",
                        "waiting_cost", "set_aside_cost", "in_process_cost", "failed_cost",
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip
