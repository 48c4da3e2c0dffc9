"""Each product in a sentence."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, plain, sentence, where
from reportgen.algebra.tables import TEXT
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.constants import FINE_COST, FINE_PLACES, HUNDRED, MONEY_PLACES
from reportgen.trade.tables import products


@products.derived(TEXT)
def said_of_cost(running_per_packed: Expr, season: SingleRow) -> Expr:
    """What it cost, in words."""

    def told(places: Expr) -> Expr:
        cost = plain(running_per_packed, places)
        return sentence("{cost} {unit} packed", cost=cost, unit=season.money_by_weight)

    return where(running_per_packed < FINE_COST, told(FINE_PLACES), told(MONEY_PLACES))


@products.derived(TEXT)
def said_of_shops(running_to_retail: Expr) -> Expr:
    """How that compares with the shops, in words."""
    percent = plain(running_to_retail * HUNDRED, 0)
    return sentence(", {percent} % of the shops' median", percent=percent)


@products.derived(TEXT)
def said_of_estimates(estimated_share: Expr) -> Expr:
    """How sure it is, in words."""
    percent = plain(estimated_share * HUNDRED, 0)
    return sentence("; {percent} % of it rests on estimates", percent=percent)


@products.derived(TEXT)
def headline(
    name: Expr,
    said_of_cost: Expr,
    said_of_shops: Expr,
    said_of_estimates: Expr,
    lots: Children,
    mixes_made: Expr,
) -> Expr:
    """The product in a sentence; of what is only mixed the cost is its mixes'."""
    cost = first_known(said_of_cost, "no cost by packed weight yet")
    told = sentence(
        "{name}: {cost}{shops}{estimates}",
        name=name,
        cost=cost,
        shops=first_known(said_of_shops, ""),
        estimates=first_known(said_of_estimates, ""),
    )
    mixed = sentence("{name}: mixed; what it costs is said of each mix", name=name)
    return where((count(lots) <= 0) & (mixes_made > 0), mixed, told)
