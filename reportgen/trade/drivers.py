"""What weighs most: each driver of the season's cash cost, changed by a share."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import per_row, rank, total
from reportgen.algebra.tables import COUNT, SHARE
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.tables import drivers, season
from reportgen.units import MONEY

DRIVERS = (
    "price of produce and driving",
    "price of electricity",
    "price of upkeep",
    "price of packaging",
    "dried weight that comes out",
)
"""The rows of the table, in the order of the expressions below."""


@season.derived(MONEY)
def cost_bulk_cash(products: Children) -> Expr:
    """Cash cost of the bulk of all products, packaging apart."""
    return total(products.cost_bulk_cash)


@drivers.derived(MONEY)
def effect(change: Expr, season: SingleRow) -> Expr:
    """What the change adds to the season's cash cost; less weight makes the same pack dearer."""
    return per_row(
        season.cost_ingredients * change,
        season.cost_energy * change,
        season.cost_upkeep * change,
        season.cost_packaging * change,
        season.cost_bulk_cash * change / (1 - change),
    )


@drivers.derived(SHARE)
def effect_share(effect: Expr, season: SingleRow) -> Expr:
    """The same as a share of the cash cost."""
    return effect / season.cash_cost


@drivers.derived(COUNT, label="rank, highest weighs most")
def place_up(effect: Expr, group: Expr) -> Expr:
    """Its place from the smallest effect: the highest number weighs most."""
    return rank(effect, group)
