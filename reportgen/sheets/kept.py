"""What became of each product: sold, eaten or on the shelf, and what that saved."""

from reportgen.layout.blocks import Group, Sheet, TableBlock, Use
from reportgen.sheets.deciding import SOLD
from reportgen.trade.tables import products

SHEET = Sheet(
    name="Sold and saved",
    purpose="What became of it: sold, eaten or on the shelf, and what that saved.",
    tab="read",
    aside=True,
    # Where all of it is kept, the first sheet says what that saved.
    used_by=(*SOLD, Use(products, "mixed_instead")),
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Sold", ("sold_weight", "sales_got")),
                Group("Kept", ("kept_taken", "kept_on_hand", "kept_weight")),
                Group("A shop would have got", ("instead_taken", "instead_on_hand", "instead")),
                Group("It cost us", ("kept_cost_taken", "kept_cost_on_hand", "kept_cost")),
                Group("Saved", ("saving_taken", "saving_on_hand", "saving")),
                Group("Worth by weight", ("worth", "gain")),
                Group("Packs of mixes", (
                    "mixed_instead", "mixed_saving_taken", "mixed_saving_on_hand",
                ), quiet=True),
            ),
            rest=False,
            keys=False,
        ),
    ),
)  # fmt: skip
