"""What was mixed: mixes, what of our own went into each, what was bought for it."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import bought_parts, mix_parts, mixes

MIXES = Sheet(
    name="Mixes",
    purpose="What was made of dried food: blends, powders, packs filled anew, dishes.",
    tab="record",
    blocks=(
        TableBlock(
            mixes,
            (
                Group("Write down", ("product", "date", "out", "labor")),
                Group("Its own reading", ("water_activity", "moisture_meter")),
                Group("Notes", ("note",), printed=False),
                Group("Weight", ("weight_own", "weight_bought", "weight_in", "weight_out", "loss")),
                Group("Is in", ("packed", "passed_on", "left")),
                Group("Cost", (
                    "bought_cost", "running_cost", "full_cost", "running_by_weight",
                    "full_by_weight",
                )),
                Group("Keeping", ("dryness", "best_by", "days_left")),
            ),
            spare=8,
        ),
    ),
)  # fmt: skip

MIXED_FROM = Sheet(
    name="Mixed from",
    purpose="What of our own went into each mix: bulk by weight, packs that were opened, another "
    "mix. A row for each.",
    tab="record",
    blocks=(
        TableBlock(
            mix_parts,
            (
                Group("Write down", ("into", "product", "pack", "count", "mix", "weight")),
                Group("Notes", ("note",), printed=False),
                Group("Worked out", ("weight_in", "running_cost", "full_cost")),
                Group("Keeping", ("dryness", "best_by", "days_left")),
            ),
            spare=15,
        ),
    ),
)

BOUGHT_FOR = Sheet(
    name="Bought for mixes",
    purpose="What was bought and went into a mix as it was. Allergens as the package names them; "
    "the word none where it names none.",
    tab="record",
    blocks=(
        TableBlock(
            bought_parts,
            (
                Group("Write down", ("into", "item", "weight", "price", "allergens", "best_by")),
                Group("A reading", ("water_activity", "moisture_meter")),
                Group("Notes", ("note",), printed=False),
                Group("Worked out", ("dryness", "days_left")),
            ),
            spare=8,
        ),
    ),
)
