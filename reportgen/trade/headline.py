"""Each product in a sentence."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, plain, sentence, where
from reportgen.algebra.tables import FLAG, TEXT
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.constants import FINE_COST, FINE_PLACES, HUNDRED, MONEY_PLACES
from reportgen.trade.tables import products


def _told(pattern: str, cost: Expr, season: SingleRow) -> Expr:
    """A cost by weight in words, with as many places as it needs."""

    def told(places: Expr) -> Expr:
        return sentence(pattern, cost=plain(cost, places), unit=season.money_by_weight)

    return where(cost < FINE_COST, told(FINE_PLACES), told(MONEY_PLACES))


@products.derived(TEXT)
def said_of_cost(running_per_packed: Expr, season: SingleRow) -> Expr:
    """What it cost, in words: which of the two costs is meant, too."""
    return _told("running cost {cost} {unit} packed", running_per_packed, season)


@products.derived(TEXT)
def mixed_told(running_mixed: Expr, season: SingleRow) -> Expr:
    """What its mixes cost, with its unit."""
    return _told("{cost} {unit}", running_mixed, season)


@products.derived(TEXT)
def said_of_mixing(mixed_told: Expr) -> Expr:
    """What its mixes cost, in words."""
    return sentence("running cost {cost} mixed, packaging apart", cost=mixed_told)


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


@products.derived(FLAG)
def only_mixed(lots: Children, mixes_made: Expr) -> Expr:
    """It came out of mixes, and no lot of it was bought."""
    return (count(lots) <= 0) & (mixes_made > 0)


@products.derived(TEXT)
def headline(
    name: Expr,
    said_of_cost: Expr,
    said_of_shops: Expr,
    said_of_estimates: Expr,
    said_of_mixing: Expr,
    only_mixed: Expr,
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
    of_mixes = first_known(said_of_mixing, "mixed; what it costs is not known yet")
    mixed = sentence("{name}: {cost}", name=name, cost=of_mixes)
    return where(only_mixed, mixed, told)
