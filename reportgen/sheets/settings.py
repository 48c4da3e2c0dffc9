"""The sheets of what holds all season: rates, equipment, product data, constants."""

from reportgen.sheets.blocks import Block, ConstantsBlock, Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import (
    absorbers,
    carried_over,
    containers,
    dryers,
    maker,
    nominal_weights,
    overheads,
    parts,
    periods,
    place,
    pricing,
    products,
    rates,
    scale,
    season,
    upkeep,
)

RATES = Sheet(
    name="Rates",
    purpose="Prices and shares that all sheets use. Change one and everything follows.",
    tab="record",
    blocks=(
        ListBlock("Rates", ((rates, (*rates.inputs, "electricity_paid")),)),
        ListBlock("Pricing", ((pricing, tuple(pricing.inputs)),)),
        ListBlock(
            "Scale, place and day",
            (
                (scale, ("resolution", "weighing")),
                (place, ("altitude", "air_at_height", "air")),
                (season, ("as_of",)),
            ),
        ),
        ListBlock("Maker, for labels", ((maker, tuple(maker.inputs)),)),
        TableBlock(
            periods,
            (Group("Write down", ("from_clock", "to_clock", "days", "price")),),
            heading="Electricity by time of use",
            spare=4,
        ),
        TableBlock(
            overheads,
            (
                Group("Write down", ("item", "cost", "over")),
                Group("Worked out", ("spread_over", "by_weight", "charged")),
            ),
            heading="Overheads",
            spare=5,
        ),
        TableBlock(
            carried_over,
            (
                Group("Write down", ("product", "dried", "running", "full")),
                Group("Worked out", ("running_cost", "full_cost")),
            ),
            heading="Bulk carried over from last season",
            spare=5,
        ),
    ),
)

EQUIPMENT = Sheet(
    name="Equipment",
    purpose="Dryers with their upkeep, containers with their parts.",
    tab="record",
    blocks=(
        TableBlock(
            dryers,
            (
                Group("Size", ("trays", "tray_area", "load_limit", "turnaround")),
                Group("Power", ("mean_power", "mean_power_spread")),
                Group("Worth", ("price", "resale", "life", "runs_before", "runs_per_year")),
                Group("Worked out: a run", ("upkeep_per_run", "wear_per_run")),
                Group("Worked out: the season", ("runs_done", "hours_run", "energy_used")),
                Group(
                    "Paid for itself?",
                    (
                        "saving_per_run",
                        "payback_runs",
                        "payback_left",
                        "payback_date",
                        "payback_word",
                    ),
                ),
            ),
            spare=2,
        ),
        TableBlock(
            upkeep,
            (
                Group("Write down", ("dryer", "item", "cost", "every")),
                Group("Worked out", ("cost_per_run",)),
            ),
            heading="Upkeep",
            spare=5,
        ),
        TableBlock(
            containers,
            (
                Group("Write down", ("name", "volume", "absorber", "spoiled")),
                Group("Worked out", ("parts_cost", "packaging_each")),
            ),
            heading="Containers",
            spare=3,
        ),
        TableBlock(
            parts,
            (
                Group("Write down", ("container", "item", "cost", "uses")),
                Group("Worked out", ("cost_each",)),
            ),
            heading="Parts of a filled container",
            spare=6,
        ),
        TableBlock(
            absorbers,
            (Group("Write down", ("oxygen", "cost")),),
            heading="Absorber sizes at hand",
            spare=3,
        ),
    ),
)

PRODUCT_DATA = Sheet(
    name="Product data",
    purpose="What the recipes say of each product; measured values on other sheets come first.",
    tab="record",
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name", "kind")),
                Group("Water", ("water", "water_low", "water_high")),
                Group("Prep yield", ("prep_yield", "prep_yield_low", "prep_yield_high")),
                Group(
                    "To aim for",
                    ("target_moisture", "target_moisture_low", "target_moisture_high"),
                ),
                Group("Run time", ("run_time", "run_time_low", "run_time_high")),
                Group("On a tray", ("tray_loading", "tray_loading_low", "tray_loading_high")),
                Group(
                    "Density",
                    ("skeletal_density", "skeletal_density_low", "skeletal_density_high"),
                ),
                Group("How long it keeps", ("best_by", "best_by_low", "best_by_high")),
                Group(
                    "Labels",
                    ("cook_before_eating", "ingredients", "rehydrate", "storage"),
                ),
            ),
            rest=False,
        ),
        TableBlock(
            nominal_weights,
            (Group("Write down", ("product", "container", "weight", "weight_low", "weight_high")),),
            heading="Nominal weights of containers as bought",
            spare=5,
        ),
    ),
)


def constants(*others: Block) -> Sheet:
    """The sheet of the constants, below whatever else is for auditing alone."""
    return Sheet(
        name="Constants",
        purpose="Named numbers and unit factors that formulas use, each with its source.",
        tab="audit",
        blocks=(*others, ConstantsBlock("Constants and unit factors")),
    )
