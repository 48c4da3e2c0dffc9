"""Dryers with their upkeep, containers with their parts."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import absorbers, containers, dryers, parts, upkeep

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
                Group(
                    "Worth",
                    (
                        "price",
                        "resale",
                        "life",
                        "runs_before",
                        "runs_when_bought",
                        "saved_before",
                        "runs_per_year",
                    ),
                ),
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
                        "payback_without",
                        "payback_before",
                    ),
                ),
                Group("Notes", ("note",), printed=False),
            ),
            spare=2,
            note=(
                "How far power may be off is common practice, no published source, where nothing "
                "else was written."
            ),
        ),
        TableBlock(
            upkeep,
            (
                Group("Write down", ("dryer", "item", "cost", "every")),
                Group("Worked out", ("cost_per_run", "due_in")),
                Group("Notes", ("note",)),
            ),
            heading="Upkeep",
            spare=5,
        ),
        TableBlock(
            containers,
            (
                Group("Write down", ("name", "volume", "absorber", "spoiled", "keeps")),
                Group("Worked out", ("parts_cost", "packaging_each")),
                Group("Notes", ("note",)),
            ),
            heading="Containers",
            spare=3,
        ),
        TableBlock(
            parts,
            (
                Group("Write down", ("container", "item", "cost", "uses")),
                Group("Worked out", ("cost_each",)),
                Group("Notes", ("note",)),
            ),
            heading="Parts of a filled container",
            spare=6,
        ),
        TableBlock(
            absorbers,
            (Group("Write down", ("oxygen", "cost")), Group("Notes", ("note",))),
            heading="Absorber sizes at hand",
            spare=3,
        ),
    ),
)
