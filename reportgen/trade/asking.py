"""Asked prices: what we ask for a pack from a day on, and what of it holds on the day of a sale.

The prices of one product, container and net weight are numbered by their first days; on a day the
last one holds whose first day has come. Of prices from one day the one written last holds.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    join,
    known,
    plain,
    rank,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, SINCE_EVER
from reportgen.trade.tables import asking, market_packs, packs, plan, prices, uses
from reportgen.units import DRIED, MONEY


@asking.derived(TEXT)
@packs.derived(TEXT)
@plan.derived(TEXT)
def priced_as(product: Link, container: Link, net: Expr) -> Expr:
    """The row of prices it belongs to: product, container and net weight."""
    return join(product, "/", container, "/", plain(net))


@asking.derived(DATE, label="asked from")
def first_day(since: Expr, season: SingleRow) -> Expr:
    """The first day it is asked; long ago, where none is given."""
    return first_known(since, season.as_of - SINCE_EVER)


@asking.derived(COUNT, label="number among the prices of its size")
def turn(first_day: Expr, priced_as: Expr) -> Expr:
    """Its number among those of its product, container and net weight, by their first days."""
    return rank(first_day, priced_as)


@asking.derived(TEXT)
def place(priced_as: Expr, turn: Expr) -> Expr:
    """Its product, container, net weight and number."""
    return join(priced_as, "/", plain(turn))


@asking.check(
    "caution",
    "Fill in a spare row of the prices with its product, container and net.",
    lacking=(prices,),
)
def not_listed(prices: Children, priced_as: Expr) -> Expr:
    """An asked price that no row of the prices stands for."""
    return known(priced_as) & (total(same(prices.key, priced_as).exists) <= 0)


# What holds on a day, of a size: on the day the season is judged on, of a sale, of a market.


@prices.derived(TEXT)
def priced_as(key: Expr) -> Expr:
    """Its product, container and net weight, by which asked prices are found."""
    return join(key)


@market_packs.derived(TEXT)
@uses.derived(TEXT)
def priced_as(pack: Link) -> Expr:
    """The row of prices its pack belongs to."""
    return pack.priced_as


@prices.derived(DATE, label="asked before")
def day_after(season: SingleRow) -> Expr:
    """The day after that on which the season is judged."""
    return season.as_of + ONE_DAY


@uses.derived(DATE, label="asked before")
def day_after(date: Expr) -> Expr:
    """The day after it."""
    return date + ONE_DAY


@market_packs.derived(DATE, label="asked before")
def day_after(market: Link) -> Expr:
    """The day after the market."""
    return market.date + ONE_DAY


@prices.derived(COUNT, label="number of the price that holds")
@uses.derived(COUNT, label="number of the price that held")
@market_packs.derived(COUNT, label="number of the price that held")
def times_asked(asking: Children, priced_as: Expr, day_after: Expr) -> Expr:
    """How many prices of its size had come to be asked that day: the last of them holds."""
    return count(same(asking.priced_as, priced_as).first_day.before(day_after))


@prices.derived(TEXT)
@uses.derived(TEXT)
@market_packs.derived(TEXT)
def asked_place(priced_as: Expr, times_asked: Expr) -> Expr:
    """Its size and the number of the price that holds."""
    return join(priced_as, "/", plain(times_asked))


@prices.derived(MONEY, label="we ask")
@uses.derived(MONEY, label="asked that day")
@market_packs.derived(MONEY, label="asked that day")
def asked(asking: Children, asked_place: Expr, times_asked: Expr) -> Expr:
    """What is asked for one on the day that is meant; unknown where nothing is asked yet."""
    found = total(same(asking.place, asked_place).price)
    return where(times_asked > 0, found, unknown())


@uses.derived(MONEY, label="asked there that day")
@market_packs.derived(MONEY, label="asked there that day")
def asked_there(asked: Expr, channel: Link) -> Expr:
    """What was asked for one that day, less the channel's discount."""
    return asked * (1 - channel.discount)


# Against the floor and the shops.


@prices.derived(
    MONEY / DRIED, source="unit price: price over net quantity", label="we ask by weight"
)
def asked_by_weight(asked: Expr, net: Expr) -> Expr:
    """What we ask, by net weight."""
    return asked / net


@prices.derived(SHARE, label="we ask, of the floor")
def asked_to_floor(asked: Expr, price_floor: Expr) -> Expr:
    """What we ask over the floor price: below 1 each sale is a loss."""
    return asked / price_floor


@prices.derived(SHARE, label="we ask, of shops'")
def asked_to_retail(asked: Expr, retail_equivalent: Expr) -> Expr:
    """What we ask over what shops ask for as much."""
    return asked / retail_equivalent


@prices.derived(MONEY, label="earned on one, as we ask")
def asked_earned(asked: Expr, season: SingleRow, running_each: Expr) -> Expr:
    """What a sale at the stall at what we ask leaves after tax, fees and running cost."""
    return asked * season.stall_left - running_each
