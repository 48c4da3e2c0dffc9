"""Shop prices: the offers seen, and their middle."""

from reportgen.layout.blocks import Group, Sheet, TableBlock, Use
from reportgen.sheets.deciding import FEW, SOLD
from reportgen.trade.tables import offers, products

SHEET = Sheet(
    name="Shop prices",
    purpose="What shops ask by weight, from the sheet Offers, and how ours compares.",
    tab="read",
    aside=True,
    # The first sheet compares with the shops, too: this one is for many prices and other forms.
    used_by=(*SOLD, Use(offers, "unit_price", above=FEW), Use(products, "alternatives_median")),
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name",), echo=True),
                Group("Shops", ("offers_count", "retail_lowest", "retail_median")),
                Group("Ours", ("running_per_packed", "full_per_packed"), echo=True),
                Group("Ours to theirs", ("running_to_retail", "full_to_retail")),
                Group(
                    "Frozen, canned, fresh: by fresh equivalent",
                    ("alternatives_median", "running_per_fresh", "running_to_alternatives"),
                ),
            ),
            rest=False,
            keys=False,
        ),
    ),
)

OFFERS = Sheet(
    name="Offers",
    purpose="What shops ask, as seen on a day. Add a row when you see a price.",
    tab="record",
    blocks=(
        TableBlock(
            offers,
            (
                Group(
                    "Write down",
                    (
                        "product", "seller", "date", "net", "price", "shipping", "on_sale", "form",
                    ),
                ),
                Group("Worked out", ("unit_price", "ours_to_theirs", "price_fresh")),
            ),
            spare=10,
        ),
    ),
)  # fmt: skip
