"""What the dryers did: runs, and the loads in them."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import loads, runs

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
                Group("Seldom needed", ("failed", "dry", "dry_about", "note"), printed=False),
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
                    "product", "weight_in", "weight_out", "water_removed", "dried_yield",
                    "drying_ratio",
                )),
                Group("Moisture left (below 0: see the note)", (
                    "moisture_left", "moisture_left_low", "moisture_left_high",
                )),
                Group("Dry enough?", ("evidence", "dryness_verdict", "dryness_reason")),
                Group("Worked out: cost", (
                    "cost_ingredients", "cost_energy", "cost_upkeep", "cost_wear", "cost_labor",
                ), printed=False),
                Group("Estimates", (
                    "wet_about", "dry_about", "wet_by_lot", "dry_estimated",
                ), printed=False),
                Group("Notes", ("note",), printed=False),
            ),
            spare=20,
            note=(
                "Moisture left below 0: fewer solids than product data expect, or a weighing is "
                "off. 'At least' is often below 0."
            ),
        ),
    ),
)  # fmt: skip
