"""Market days: what each left, what was taken along, what was taken in."""

from reportgen.layout.blocks import (
    ChartBlock,
    ChartSpec,
    Group,
    InWordsBlock,
    ListBlock,
    Sheet,
    TableBlock,
)
from reportgen.trade.tables import market_packs, market_takings, markets, season

_SPARE = 10
"""Free rows: as many where the days are written down as where they are worked out."""

MARKET_DAYS = Sheet(
    name="Market days",
    purpose="What each day at a market was to take in, what it took in, and what it left.",
    tab="read",
    blocks=(
        TableBlock(
            markets,
            (
                Group("Day", ("day",)),
                Group("Sold through", ("channel",), echo=True),
                Group("In the purse", ("packs_sold", "expected", "takings", "difference")),
                Group("Off it", (
                    "tax_in_it", "fees", "place_cost", "travel_cost", "running_out",
                )),
                Group("Left", ("left", "left_per_hour")),
                Group("With full cost and time", ("cost_out", "labor_cost", "left_full")),
            ),
            spare=_SPARE,
            rest=False,
            keys=False,
            note="Left is before the hours of the day and the wear of the machine; left after full "
            "cost and time is after both. A day not written up counts all as sold. What sells: "
            "Pricing.",
        ),
        ChartBlock((
            ChartSpec(
                "bar", "Taken in against what was to be", markets, ("expected", "takings"), "key",
                "by market day",
            ),
        )),
        InWordsBlock(
            "How these come about", markets, ("expected", "left", "left_full", "left_per_hour")
        ),
        ListBlock(
            "All market days",
            ((season, ("market_days", "market_fees", "market_driving", "market_labor",
                       "market_difference")),),
        ),
    ),
)  # fmt: skip

MARKETS = Sheet(
    name="Markets",
    purpose="A row for each day at a market; what was taken along stands on the next sheet.",
    tab="record",
    blocks=(
        TableBlock(
            markets,
            (
                Group("Write down", ("date", "channel", "fee", "travel", "labor")),
                Group("Notes", ("note",), printed=False),
            ),
            spare=_SPARE,
        ),
    ),
)

MARKET_PACKS = Sheet(
    name="At markets",
    purpose="What was taken to each market day, what came back and what was opened to taste.",
    tab="record",
    blocks=(
        TableBlock(
            market_packs,
            (
                Group("Write down", ("market", "pack", "took", "back", "samples",
                                     "price_written")),
                Group("Worked out", (
                    "sold", "price", "paid", "revenue", "cost_out", "profit", "there",
                    "pack_dryness",
                )),
            ),
            spare=30,
        ),
    ),
)  # fmt: skip

TAKINGS = Sheet(
    name="Takings",
    purpose="What was taken in on each market day: a row for cash, one for cards.",
    tab="record",
    blocks=(
        TableBlock(
            market_takings,
            (Group("Write down", ("market", "kind", "amount")),),
            spare=20,
        ),
    ),
)
