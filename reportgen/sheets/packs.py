"""What was packed: packs, the runs they came from, the absorbers they need."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import absorber_needs, draws, packs

PACKS = Sheet(
    name="Packs",
    purpose="What was packed, what one costs, and how many are left.",
    tab="record",
    blocks=(
        TableBlock(
            packs,
            (
                Group("Write down", ("product", "date", "container", "count", "net", "labor")),
                Group("Left from last season", (
                    "carried_running", "carried_full", "carried_best_by", "carried_dryness",
                    "carried_from",
                )),
                Group("Notes", ("note",), printed=False),
                Group("Worked out", (
                    "dried_content", "running_each", "full_each", "on_hand",
                )),
                Group("Went into mixes", ("opened",), quiet=True),
                Group("Keeping", (
                    "dryness", "best_by", "best_by_basis", "days_left", "water_to_add", "oxygen",
                    "absorber_share",
                )),
            ),
            spare=10,
        ),
    ),
)  # fmt: skip


PACKED_FROM = Sheet(
    name="Packed from",
    purpose="Which runs, or mixes, each pack came from. Add a row for each that went into a pack.",
    tab="record",
    blocks=(
        TableBlock(
            draws,
            (
                Group("Write down", ("pack", "run")),
                Group("Or the mix", ("mix",)),
                Group("Worked out", ("pack_dryness",)),
            ),
            spare=15,
        ),
    ),
)


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
