"""The drivers in their order, the one that weighs most first: each place finds its driver."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import find
from reportgen.algebra.tables import SHARE, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import drivers, ranking
from reportgen.units import MONEY


@ranking.link(drivers)
def driver(drivers: Children, place: Expr) -> Expr:
    """The driver in this place."""
    return find(drivers.weighs, place)


@ranking.derived(TEXT, label="driver")
def what(driver: Link) -> Expr:
    """What may change."""
    return driver.what


@ranking.derived(SHARE, label="changed by")
def change(driver: Link) -> Expr:
    """By how much it is changed."""
    return driver.change


@ranking.derived(MONEY, label="added cost")
def effect(driver: Link) -> Expr:
    """What it adds to the season's cash cost: a price up, the dried weight down."""
    return driver.effect


@ranking.derived(MONEY, label="cost taken off")
def effect_back(driver: Link) -> Expr:
    """What it takes off the season's cash cost the other way, below 0."""
    return driver.effect_back


@ranking.derived(SHARE, label="added, of the cash cost")
def effect_share(driver: Link) -> Expr:
    """What it adds, as a share of the cash cost."""
    return driver.effect_share
