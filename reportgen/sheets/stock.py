"""Where packs and bulk went, and what is left of them, by its best-by day."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock, Use
from reportgen.trade.tables import counts, eat_first, rest_steps, season, uses

STOCK = Sheet(
    name="Stock",
    purpose="Where packs and bulk went. Add a row when something leaves the shelf.",
    tab="record",
    blocks=(
        TableBlock(
            uses,
            (
                Group("Write down", (
                    "date", "pack", "count", "product", "weight", "rest", "purpose",
                    "channel", "price", "total",
                )),
                Group("Notes", ("note",), printed=False),
                Group("Worked out", (
                    "bulk_weight", "revenue", "cost_out", "profit", "pack_dryness",
                )),
            ),
            spare=20,
        ),
    ),
)  # fmt: skip

COUNTS = Sheet(
    name="Counts",
    purpose="What was really there. From that day on the count holds; what is missing is a loss.",
    tab="record",
    blocks=(
        TableBlock(
            counts,
            (
                Group("Write down", ("date", "pack", "counted", "product", "weight")),
                Group("Notes", ("note",), printed=False),
                Group("Worked out", ("missing", "missing_weight", "cost", "pack_dryness")),
            ),
            note="Below 0: found.",
            spare=20,
        ),
        ListBlock("What is missing", ((season, ("shrinkage",)),)),
    ),
)

RESTS = Sheet(
    name="Left in bulk",
    purpose="What was left in bulk on the days on which all of it was taken, by the books.",
    tab="record",
    blocks=(
        TableBlock(
            rest_steps,
            (
                Group("Taken", ("taken",)),
                Group("Into bulk, or out of it", ("load", "pack", "other", "day", "weight")),
                Group("Into a mix", ("part",)),
                Group("Up to that day", ("moved",)),
            ),
        ),
    ),
)

EAT_FIRST = Sheet(
    name="Whole shelf",
    purpose="What is on the shelf and has a best-by day, by that day, where the first sheet's list "
    "leaves some out.",
    tab="read",
    # The first sheet has the list, too: this one is for what that leaves out.
    used_by=(Use(season, "shelf_not_listed"), Use(season, "shelf_without_day")),
    blocks=(
        TableBlock(
            eat_first,
            (
                Group("", ("place",)),
                Group("On the shelf", ("what", "pack", "container", "net", "on_hand")),
                Group("Best-by day", ("best_by", "days_left", "best_by_basis", "pack_dryness")),
            ),
            ids=False,
        ),
        ListBlock(
            "The whole shelf",
            ((season, ("shelf_packs", "shelf_without_day", "shelf_not_listed")),),
        ),
    ),
)
