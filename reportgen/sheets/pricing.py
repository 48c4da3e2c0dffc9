"""What to ask for a pack, and what the stall has to sell."""

from reportgen.layout.blocks import Group, InWordsBlock, ListBlock, Sheet, TableBlock, Use
from reportgen.sheets.deciding import SOLD
from reportgen.trade.tables import (
    asking,
    channels,
    price_list,
    prices,
    pricing,
    season,
)

_ASKED = Use(asking, "price")
_CHANNELS = tuple(Use(channels, name) for name in ("fees", "tax", "discount"))

PRICING = Sheet(
    name="Pricing",
    purpose="What a pack has to bring in, what to ask for it, and what the stall needs to sell.",
    tab="read",
    used_by=(*SOLD, Use(pricing, "stall"), _ASKED),
    blocks=(
        TableBlock(
            prices,
            (
                Group("Write down", ("product", "container", "net")),
                Group("Packs", (
                    "packed", "on_hand", "doubtful", "past_best_by", "running_each", "full_each",
                )),
                Group("Price", ("price_floor", "price_asked", "margin_kept", "markup")),
                Group("Against shops", ("retail_equivalent", "price_to_retail")),
                Group("We ask", (
                    "asked", "asked_by_weight", "asked_to_floor", "asked_to_retail", "asked_earned",
                )),
                Group("At markets", ("taken", "sold_there", "sold_of_taken"), quiet=True),
                Group("If it stood alone", ("earned_each", "break_even_count")),
            ),
            spare=8,
        ),
        InWordsBlock(
            "How these come about",
            prices,
            ("full_each", "price_floor", "price_asked", "earned_each", "break_even_count"),
        ),
        ListBlock(
            "The whole stall",
            (
                (
                    season,
                    (
                        "stall_cost", "sales", "sales_left", "left_after_stall", "sales_left_share",
                        "break_even_sales",
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip

CHANNELS = Sheet(
    name="Channels",
    purpose="Where packs are sold, and what is taken of a price. Add a row for another.",
    tab="record",
    used_by=_CHANNELS,
    blocks=(
        TableBlock(
            channels,
            (
                Group("Write down", ("fees", "tax", "discount")),
                Group("Worked out", ("fees_taken", "net_share", "left_share")),
                Group("Notes", ("note",), printed=False),
            ),
            spare=5,
        ),
    ),
)


ASKED = Sheet(
    name="Asked",
    purpose="What we ask for one, from a day on. Add a row when a price changes.",
    tab="record",
    blocks=(
        TableBlock(
            asking,
            (
                Group("Write down", ("product", "container", "net", "price", "since")),
                Group("Notes", ("note",), printed=False),
            ),
            spare=10,
        ),
    ),
)

PRICE_LIST = Sheet(
    name="Price list",
    purpose="Each size in each channel: the floor there, and the price on the list.",
    tab="read",
    used_by=(_ASKED, *_CHANNELS),
    blocks=(
        TableBlock(
            price_list,
            (
                Group("Write down", ("channel", "place")),
                Group("Size", ("size",)),
                Group("Price there", ("floor", "price_to_ask", "asked")),
                Group("On the list", ("price", "unit_price")),
            ),
            spare=12,
        ),
    ),
)
