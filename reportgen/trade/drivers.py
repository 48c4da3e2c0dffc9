"""What weighs most: each driver of the season's running cost, changed by a share.

The drivers keep their rows; ``ranking`` has the places, each of which finds its driver by its rank.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import find, first_known, per_row, rank, total
from reportgen.algebra.tables import COUNT, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import drivers, ranking, season
from reportgen.units import MONEY

DRIVERS = (
    "price of produce",
    "price of driving",
    "price of electricity",
    "price of upkeep",
    "price of packaging",
    "dried weight that comes out",
)
"""The rows of the table, in the order of :func:`_added`."""


@season.derived(MONEY, label="running cost of the bulk")
def cost_bulk_running(products: Children) -> Expr:
    """Running cost of the bulk of all products, packaging apart."""
    return total(products.cost_bulk_running)


@season.derived(MONEY)
def cost_travel(products: Children) -> Expr:
    """Driving for all products, a part of the ingredients."""
    return total(products.cost_travel)


@season.derived(MONEY)
def cost_produce(cost_ingredients: Expr, cost_travel: Expr) -> Expr:
    """Produce of all products, driving apart."""
    return cost_ingredients - cost_travel


def _added(season: SingleRow, change: Expr) -> Expr:
    """What each driver adds to the season's running cost, in the order of ``DRIVERS``."""
    return per_row(
        season.cost_produce * change,
        season.cost_travel * change,
        season.cost_energy * change,
        season.cost_upkeep * change,
        season.cost_packaging * change,
        season.cost_bulk_running * change / (1 - change),
    )


@drivers.derived(MONEY, label="added cost")
def effect(change: Expr, season: SingleRow) -> Expr:
    """What it adds to the season's running cost when a price rises by the share, or when so much
    less dried weight comes out: the same packs are then dearer."""
    return _added(season, change)


@drivers.derived(MONEY, label="cost taken off")
def effect_back(change: Expr, season: SingleRow) -> Expr:
    """The same the other way: a price falls by the share, or so much more dried weight comes out;
    what it takes off the season's running cost, below 0."""
    return _added(season, 0 - change)


@drivers.derived(SHARE, label="added, of the running cost")
def effect_share(effect: Expr, season: SingleRow) -> Expr:
    """What it adds, as a share of the running cost."""
    return effect / season.running_cost


@drivers.derived(MONEY)
def weight(effect: Expr) -> Expr:
    """What it is ranked by: what it adds; one whose effect is unknown comes last."""
    return first_known(effect, 0)


@drivers.derived(COUNT, label="rank")
def weighs(weight: Expr, group: Expr) -> Expr:
    """Its place, 1 for the one that weighs most."""
    return rank(weight, group, highest=True)


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
    """What it adds to the season's running cost: a price up, the dried weight down."""
    return driver.effect


@ranking.derived(MONEY, label="cost taken off")
def effect_back(driver: Link) -> Expr:
    """What it takes off the season's running cost the other way, below 0."""
    return driver.effect_back


@ranking.derived(SHARE, label="added, of the running cost")
def effect_share(driver: Link) -> Expr:
    """What it adds, as a share of the running cost."""
    return driver.effect_share
