"""The records of market days: what was taken there, what came back, what was taken in."""

from __future__ import annotations

from reportgen.model.fields import Count, Day, Id, Quantity, Record, Ref, Text
from reportgen.model.kinds import Across, Named
from reportgen.units import DISTANCE, HOUR, MONEY

markets = Record(
    "markets",
    "A day on which packs were taken to a market.",
    (
        Id("id", "The market day's id."),
        Day("date", "The day.", required=True),
        Ref("channel", "The channel it is sold through.", table="channels", required=True),
        Quantity("fee", "What the place costs that day.", MONEY, zero=True, head="fee of the day"),
        Quantity("travel", "Distance driven.", DISTANCE, zero=True, head="distance"),
        Quantity("labor", "Time spent.", HOUR, zero=True, head="time"),
        Across("took", "How many of each pack were taken there.", record="market_packs"),
        Across("back", "How many of each came back.", record="market_packs"),
        Across("samples", "How many of each were opened to taste.", record="market_packs"),
        Across(
            "prices",
            "Price of one of a pack; left out, what was asked that day.",
            record="market_packs",
            value="price",
        ),
        Named(
            "takings",
            "What was taken in, as cash, card.",
            record="market_takings",
            value="amount",
            label="kind",
        ),
    ),
)

market_packs = Record(
    "market_packs",
    "What became of a pack on a market day.",
    (
        Ref("pack", "The pack.", table="packs", required=True),
        Count("took", "How many were taken there."),
        Count("back", "How many came back.", zero=True),
        Count("samples", "How many were opened to taste.", zero=True),
        Quantity(
            "price",
            "Price of one; left out, what was asked that day.",
            MONEY,
            column="price_written",
            head="price, if not as asked",
        ),
    ),
    key="derived",
    owner="markets",
)

market_takings = Record(
    "market_takings",
    "What was taken in on a market day, by how it was paid.",
    (
        Text("kind", "How it was paid.", required=True, head="how paid"),
        Quantity("amount", "How much.", MONEY, required=True, head="taken in"),
    ),
    key="position",
    owner="markets",
)
