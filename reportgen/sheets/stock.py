"""Where packs and bulk went."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import uses

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
