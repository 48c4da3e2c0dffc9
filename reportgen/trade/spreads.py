"""What the spread of product data adds to the uncertainty of a cost: prep yield, container weights.

Low and high are the ends of a rectangle (JCGM 100:2008, 4.3.7): u is (high - low) over the root of
twelve. One yield stands behind all lots of a product, one container weight behind all lots bought
in it: what they move goes the same way and is added up before it is squared.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, known, no, on_estimates, total, where
from reportgen.algebra.tables import FLAG, SHARE
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import RECTANGULAR
from reportgen.trade.tables import loads, lots, nominal_weights, packs, products
from reportgen.trade.weighings import SQUARE_MONEY
from reportgen.units import FRESH, MONEY

_GUM = "law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2"
_RECTANGLE = "JCGM 100:2008 (GUM), 4.3.7"


@products.derived(SHARE, source=_RECTANGLE, label="uncertainty of the prep yield")
def prep_yield_u(prep_yield_high: Expr, prep_yield_low: Expr) -> Expr:
    """Standard uncertainty of the recipe's prep yield, from its low and high."""
    return (prep_yield_high - prep_yield_low) * RECTANGULAR


@nominal_weights.derived(FRESH, source=_RECTANGLE, label="uncertainty of the nominal weight")
def weight_u(weight_high: Expr, weight_low: Expr) -> Expr:
    """Standard uncertainty of a container's nominal weight, from its low and high."""
    return (weight_high - weight_low) * RECTANGULAR


@lots.derived(MONEY)
def moved_by_yield(by_the_recipe: Expr, cost_by_usable: Expr, as_purchased: Expr) -> Expr:
    """How much the cost of its finished loads falls for one of prep yield."""
    return where(by_the_recipe, cost_by_usable * as_purchased, 0)


@lots.derived(FLAG)
def by_container(weighed_all: Expr, cost_by_price: Expr, cost_by_yield: Expr) -> Expr:
    """Its cost by weight rests on the nominal weight of its containers."""
    return ~known(weighed_all) & ((cost_by_price > 0) | (cost_by_yield > 0))


@lots.derived(MONEY / FRESH)
def moved_by_weight(
    by_container: Expr, count: Expr, cost_by_price: Expr, cost_by_yield: Expr
) -> Expr:
    """How much the cost of its finished loads rises where a container weighs more."""
    return where(by_container, (cost_by_price - cost_by_yield) * count, 0)


@lots.derived(FLAG)
def yield_open(by_the_recipe: Expr, cost_by_usable: Expr, product: Link) -> Expr:
    """It rests on a recipe's yield of which nobody says how far it may be off."""
    return by_the_recipe & (cost_by_usable > 0) & ~known(product.prep_yield_u)


@lots.derived(FLAG)
def weight_open(by_container: Expr, bought_in: Link) -> Expr:
    """It rests on a container weight of which nobody says how far it may be off."""
    return by_container & ~known(bought_in.weight_u)


@lots.derived(FLAG)
def written_as_about(
    some_dried: Expr, weighed: Expr, prepped_weighed: Expr, set_aside: Expr, lost: Expr
) -> Expr:
    """A weight of it is written as about, and something of it is in finished loads."""
    bought = on_estimates(weighed) | on_estimates(prepped_weighed)
    return some_dried & (bought | on_estimates(set_aside) | on_estimates(lost))


@lots.derived(FLAG)
def spread_unknown(yield_open: Expr, weight_open: Expr, written_as_about: Expr) -> Expr:
    """It rests on a yield or a weight of which nobody says how far it may be off."""
    # Without a cost nobody knows what a yield or a container moves; what was written as about is.
    return first_known(yield_open, no()) | first_known(weight_open, no()) | written_as_about


@loads.derived(FLAG)
def spread_unknown(finished: Expr, guessed: Expr) -> Expr:
    """Its run is done, and a weight of it is an estimate: how far that is off, nobody says."""
    return finished & guessed


@packs.derived(FLAG)
def spread_unknown(net: Expr, of_runs: Expr) -> Expr:
    """Its net weight is written as about."""
    return on_estimates(net) & of_runs


@products.derived(MONEY, source=_GUM, label="uncertainty from the prep yield")
def yield_u(lots: Children, prep_yield_u: Expr) -> Expr:
    """What the recipe's prep yield adds to the uncertainty of the bulk's cost, over all lots."""
    return total(lots.moved_by_yield) * prep_yield_u


@nominal_weights.derived(MONEY, source=_GUM, label="uncertainty from the nominal weight")
def container_u(lots: Children, weight_u: Expr) -> Expr:
    """What a container's nominal weight adds, all lots bought in it together."""
    return total(lots.moved_by_weight) * weight_u


@nominal_weights.derived(
    SQUARE_MONEY, source=_GUM, label="uncertainty from nominal weights, squared"
)
def container_u_squared(container_u: Expr) -> Expr:
    """The same, squared; what is not known of is not in it."""
    return first_known(container_u * container_u, 0)


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from the prep yield, squared")
def yield_u_squared(yield_u: Expr) -> Expr:
    """The square of what the prep yield adds; what is not known of is not in it."""
    return first_known(yield_u * yield_u, 0)


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from product data, squared")
def recipe_u_squared(yield_u_squared: Expr, nominal_weights: Children) -> Expr:
    """Squares of what the product data add to the uncertainty of the bulk's cost."""
    return yield_u_squared + total(nominal_weights.container_u_squared)
