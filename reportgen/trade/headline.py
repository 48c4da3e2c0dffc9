"""Each product in a sentence."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, join, plain
from reportgen.algebra.tables import TEXT
from reportgen.algebra.views import SingleRow
from reportgen.trade.constants import HUNDRED, MONEY_PLACES
from reportgen.trade.tables import products


@products.derived(TEXT)
def said_of_cost(cash_per_packed: Expr, season: SingleRow) -> Expr:
    """What it cost, in words."""
    return join(plain(cash_per_packed, MONEY_PLACES), " ", season.money_by_weight, " packed")


@products.derived(TEXT)
def said_of_shops(cash_to_retail: Expr) -> Expr:
    """How that compares with the shops, in words."""
    return join(", ", plain(cash_to_retail * HUNDRED, 0), " % of the shops' median")


@products.derived(TEXT)
def said_of_estimates(estimated_share: Expr) -> Expr:
    """How sure it is, in words."""
    return join("; ", plain(estimated_share * HUNDRED, 0), " % of it rests on estimates")


@products.derived(TEXT)
def headline(name: Expr, said_of_cost: Expr, said_of_shops: Expr, said_of_estimates: Expr) -> Expr:
    """The product in a sentence."""
    cost = first_known(said_of_cost, "no cost by packed weight yet")
    return join(
        name, ": ", cost, first_known(said_of_shops, ""), first_known(said_of_estimates, "")
    )
