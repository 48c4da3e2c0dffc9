"""Offers: what shops ask, and how ours compares."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import known, lowest, median, unknown, where
from reportgen.algebra.tables import COUNT, FLAG, SHARE
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import STALE_AFTER
from reportgen.trade.tables import offers, products
from reportgen.units import DRIED, MONEY


@offers.derived(MONEY / DRIED, label="price by weight")
def unit_price(price: Expr, shipping: Expr, net: Expr) -> Expr:
    """Price by weight, shipping included."""
    return (price + shipping) / net


@offers.derived(FLAG)
def alike(form: Expr) -> Expr:
    """It is freeze-dried as ours is."""
    return (form == "") | (form == "freeze-dried")


@offers.derived(MONEY / DRIED)
def price_alike(alike: Expr, unit_price: Expr) -> Expr:
    """Price by weight of what is freeze-dried as ours is."""
    return where(alike, unit_price, unknown())


@offers.derived(SHARE, label="ours, of theirs")
def ours_to_theirs(alike: Expr, product: Link, unit_price: Expr) -> Expr:
    """Our running cost over their price: by packed weight, or, of food in another form, by fresh
    equivalent."""
    return where(
        alike, product.running_per_packed / unit_price, product.running_per_fresh / unit_price
    )


@offers.check("caution", "Look at the shop's price again and write it as a new offer.")
def stale(date: Expr, season: SingleRow) -> Expr:
    """An offer older than half a year on the day this was judged on."""
    return season.as_of - date > STALE_AFTER


@offers.check("caution", "Write price and net weight.")
def unit_price_missing(unit_price: Expr) -> Expr:
    """An offer without a price by weight."""
    return ~known(unit_price)


@offers.check("caution", "Correct the date, or wait until it has come.")
def seen_to_come(date: Expr, season: SingleRow) -> Expr:
    """Dated after the day this was judged on."""
    return date > season.as_of


@products.derived(MONEY / DRIED, label="shops' median price")
def retail_median(offers: Children) -> Expr:
    """The middle one of the shops' prices by weight."""
    return median(offers.price_alike)


@products.derived(MONEY / DRIED, label="shops' lowest price")
def retail_lowest(offers: Children) -> Expr:
    """The lowest of the shops' prices by weight."""
    return lowest(offers.price_alike)


@products.derived(COUNT, label="offers seen")
def offers_count(price_alike_known: Expr) -> Expr:
    """How many prices by weight there are."""
    return price_alike_known
