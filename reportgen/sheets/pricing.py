"""What to ask for a pack, and what the stall has to sell."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import prices, pricing, season, uses

PRICING = Sheet(
    name="Pricing",
    purpose="What a pack has to bring in, what to ask for it, and what the stall needs to sell.",
    tab="read",
    used_by=((uses, "sold"), (pricing, "stall")),
    blocks=(
        TableBlock(
            prices,
            (
                Group("Write down", ("product", "container", "net")),
                Group("Packs", ("packed", "on_hand", "doubtful", "running_each", "full_each")),
                Group("Price", ("price_floor", "price_asked", "margin_kept", "markup")),
                Group("Against shops", ("retail_equivalent", "asked_to_retail")),
                Group("If it stood alone", ("earned_each", "break_even_count")),
            ),
            spare=8,
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
