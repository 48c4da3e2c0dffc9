"""The sheets that answer: what to ask for it, what would change it, how sure, what next."""

from reportgen.sheets.blocks import ChartBlock, ChartSpec, Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import (
    changes,
    drivers,
    plan,
    prices,
    products,
    queue,
    ranking,
    scenarios,
    season,
)

PRICING = Sheet(
    name="Pricing",
    purpose="What a pack has to bring in, what to ask for it, and what the stall needs to sell.",
    tab="read",
    blocks=(
        TableBlock(
            prices,
            (
                Group("Write down", ("product", "container", "net")),
                Group("Packs", ("packed", "on_hand", "doubtful", "running_each", "full_each")),
                Group("Price", ("price_floor", "price_asked", "margin_kept", "markup")),
                Group("Against shops", ("retail_equivalent", "asked_to_retail")),
                Group("If it stood alone", ("earned_each", "break_even_count")),
            ),
            spare=8,
        ),
        ListBlock(
            "The whole stall",
            (
                (
                    season,
                    (
                        "stall_cost", "sales", "sales_left", "left_after_stall", "sales_left_share",
                        "break_even_sales",
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip

SCENARIOS = Sheet(
    name="Scenarios",
    purpose="What each product would cost under each scenario of the sheet What if.",
    tab="read",
    blocks=(
        TableBlock(
            scenarios,
            (
                Group("Scenario", ("scenario", "product")),
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

HOW_SURE = Sheet(
    name="How sure",
    purpose="How far the cost by weight may be off, what that comes from, and what weighs most.",
    tab="read",
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Cost by weight, packed", ("running_per_packed",), echo=True),
                Group("Within (k = 2)", ("running_per_packed_u",)),
                Group(
                    "Standard uncertainty from",
                    ("u_produce", "u_energy", "u_dried", "u_net"),
                ),
                Group("Not in it", ("spreads_unknown",)),
                Group("What would help", ("worth_measuring",)),
            ),
            rest=False,
            keys=False,
        ),
        TableBlock(
            ranking,
            (
                Group("Driver", ("what", "change")),
                Group("On the season's running cost", ("effect", "effect_back", "effect_share")),
            ),
            heading="What weighs most: each driver changed by a share, the weightiest first",
        ),
        TableBlock(
            drivers,
            (
                Group("Driver", ("what",)),
                Group("Change it by", ("change",)),
                Group("Worked out", ("weighs",)),
            ),
            heading="By how much each driver is changed: type here, the order above follows",
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

PLAN = Sheet(
    name="Plan",
    purpose="What is still to be made: how much to buy, how many runs, until when, for how much.",
    tab="read",
    blocks=(
        TableBlock(
            plan,
            (
                Group(
                    "Write down",
                    (
                        "product", "container", "count", "net", "start", "dryer", "buy", "pace",
                    ),
                ),
                Group("On the shelf", ("on_shelf", "doubtful", "count_left", "dried_needed")),
                Group("To buy", ("prepped_needed", "buy_weight", "buy_count")),
                Group("Runs", ("runs_needed", "machine_time", "begins", "finish")),
                Group("Running", ("running_needed", "running_basis")),
            ),
            spare=5,
        ),
        ListBlock("All rows", ((season, ("plan_start",)),)),
        TableBlock(
            queue,
            (Group("Row", ("row", "before")), Group("Time", ("in_its_way", "slack"))),
            heading="The queue: rows on one dryer follow each other by their start",
        ),
    ),
)  # fmt: skip
