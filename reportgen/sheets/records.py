"""The sheets for recording: lots, runs, loads, packs, stock. A table that grows with the season
has a sheet of its own, so that its headings are repeated on every page."""

from reportgen.sheets.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import (
    absorber_needs,
    draws,
    loads,
    lots,
    packs,
    recall,
    runs,
    trace,
    trips,
    uses,
)

LOTS = Sheet(
    name="Lots",
    purpose="What was bought or picked at one time, what it weighed and what it cost.",
    tab="record",
    blocks=(
        TableBlock(
            lots,
            (
                Group(
                    "Write down",
                    (
                        "product", "date", "source", "grown", "count", "container",
                        "price_each", "price_by_weight", "price_total",
                    ),
                ),
                Group(
                    "Weights",
                    (
                        "weighed", "prepped_weighed", "set_aside", "lost", "water", "finished",
                    ),
                ),
                Group("Distance and time", ("travel", "labor")),
                Group("Worked out: weight", ("as_purchased", "prepped", "waiting")),
                Group("Worked out: cost", ("purchase_cost", "cost_per_prepped")),
                Group("Seldom needed", ("weighed_count", "trip")),
                Group(
                    "Further figures",
                    (
                        "weighed_all", "nominal_all", "prepped_by_recipe", "prep_yield", "loaded",
                        "travel_cost", "labor_cost",
                    ),
                    printed=False,
                ),
            ),
            spare=10,
        ),
    ),
)  # fmt: skip

TRIPS = Sheet(
    name="Trips",
    purpose="Trips that fetched several lots: their distance and time are shared among these.",
    tab="record",
    blocks=(
        TableBlock(
            trips,
            (
                Group("Write down", ("distance", "labor")),
                Group("Worked out", ("purchases", "lots_fetched")),
            ),
            spare=5,
            note="Filled by a trip that several lots name. A lot fetched alone has its own.",
        ),
    ),
)

RUNS = Sheet(
    name="Runs",
    purpose="One row for each time a dryer ran: hours, energy, and the water it took out.",
    tab="record",
    blocks=(
        TableBlock(
            runs,
            (
                Group("Write down", ("dryer", "started", "ended", "duration", "labor")),
                Group("Energy", ("energy", "meter_from", "meter_to", "meter")),
                Group("Worked out: time and energy", (
                    "hours", "metered", "log_energy", "energy_by_power", "energy_used",
                )),
                Group("Worked out: water", (
                    "done", "weight_in", "water_removed", "specific_energy", "tray_loading",
                )),
                Group("Worked out: cost", (
                    "energy_cost", "upkeep_cost", "wear_cost", "labor_cost",
                )),
            ),
            spare=10,
        ),
    ),
)  # fmt: skip

LOADS = Sheet(
    name="Loads",
    purpose="What each lot put into a run, what came out, and its share of the run's cost.",
    tab="record",
    blocks=(
        TableBlock(
            loads,
            (
                Group("Write down", ("run", "lot", "again", "wet", "dry", "id")),
                Group("Dryness", (
                    "weighing_before", "weighing_last", "water_activity", "moisture_meter",
                )),
                Group("Worked out: weight", (
                    "product", "weight_out", "water_removed", "dried_yield", "drying_ratio",
                    "moisture_left", "moisture_left_low", "moisture_left_high",
                )),
                Group("Dry enough?", ("evidence", "dryness_verdict", "dryness_reason")),
                Group("Worked out: cost", (
                    "cost_ingredients", "cost_energy", "cost_upkeep", "cost_wear", "cost_labor",
                ), printed=False),
            ),
            spare=20,
        ),
    ),
)  # fmt: skip

PACKS = Sheet(
    name="Packs",
    purpose="What was packed, what one costs, and how many are left.",
    tab="record",
    blocks=(
        TableBlock(
            packs,
            (
                Group("Write down", ("product", "date", "container", "count", "net", "labor")),
                Group("Left from last season", ("carried_running", "carried_full")),
                Group("Worked out", (
                    "dried_content", "running_each", "full_each", "on_hand",
                )),
                Group("Keeping", (
                    "dryness", "best_by", "water_to_add", "oxygen", "absorber_share",
                )),
            ),
            spare=10,
        ),
    ),
)  # fmt: skip

PACKED_FROM = Sheet(
    name="Packed from",
    purpose="Which runs each pack came from. Add a row for each run that went into a pack.",
    tab="record",
    blocks=(
        TableBlock(
            draws,
            (Group("Write down", ("pack", "run")), Group("Worked out", ("pack_dryness",))),
            spare=15,
        ),
    ),
)  # fmt: skip

ABSORBERS = Sheet(
    name="Absorbers",
    purpose="How many absorbers of each size at hand one container of a pack needs.",
    tab="record",
    blocks=(
        TableBlock(
            absorber_needs,
            (
                Group("For", ("pack", "absorber")),
                Group("Worked out", ("count_needed", "cost_each", "pack_dryness")),
            ),
            note="Filled for each pack by the absorber sizes at hand, on the sheet Equipment.",
        ),
    ),
)

STOCK = Sheet(
    name="Stock",
    purpose="Where packs and bulk went. Add a row when something leaves the shelf.",
    tab="record",
    blocks=(
        TableBlock(
            uses,
            (
                Group("Write down", (
                    "date", "pack", "count", "product", "weight", "purpose", "price",
                )),
                Group("Worked out", ("revenue", "cost_out", "profit", "pack_dryness")),
            ),
            spare=20,
        ),
    ),
)  # fmt: skip

TRACE = Sheet(
    name="Trace",
    purpose="From each pack back to its loads, runs, lots and sources.",
    tab="record",
    blocks=(
        TableBlock(
            trace,
            (
                Group("Pack", ("pack", "packed", "on_hand", "pack_dryness")),
                Group("Came from", ("load", "run", "lot", "bought", "source")),
            ),
        ),
    ),
)

RECALL = Sheet(
    name="Recall",
    purpose="From each lot to its packs: what to look for if a lot must come back.",
    tab="record",
    blocks=(
        TableBlock(
            recall,
            (
                Group("Lot", ("lot", "bought", "source")),
                Group("Is in", ("pack", "packed", "filled", "taken", "on_hand", "pack_dryness")),
            ),
        ),
    ),
)
