"""How weighing moves the shares of a run's cost.

The share of product p in a run is its water over all water, S = Wp / W. A weighing of p moves S by
(1 - S) / W for each unit of weight, one of anything else in the run by S / W: the derivative of
``run_share`` (JCGM 100:2008, 5.1). Where a run holds one product only, nothing moves.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, same, total, unknown, where
from reportgen.algebra.tables import COUNT, SHARE
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import loads, runs
from reportgen.trade.weighings import SQUARE_MONEY
from reportgen.units import DRIED, FRESH, MONEY

_GUM = "law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2"


@runs.derived(MONEY)
def running_cost(energy_cost: Expr, upkeep_cost: Expr) -> Expr:
    """Energy and upkeep: what its loads share by water."""
    return energy_cost + upkeep_cost


@runs.derived(MONEY / FRESH)
def cost_by_water(running_cost: Expr, water_removed: Expr) -> Expr:
    """Its running cost by the water it took out."""
    return where(water_removed > 0, running_cost / water_removed, unknown())


@runs.derived(COUNT)
def loads_held(loads: Children) -> Expr:
    """How many loads it held."""
    return count(loads)


@loads.derived(SHARE)
def product_share(loads: Children, run_place: Expr, run: Link) -> Expr:
    """The share of its product in its run, all loads of it together."""
    return where(run.loads_held > 1, total(same(loads.run_place, run_place).run_share), 1)


@loads.derived(COUNT)
def loads_alike(loads: Children, run_place: Expr, run: Link) -> Expr:
    """Loads of its product in its run."""
    return where(run.loads_held > 1, count(same(loads.run_place, run_place)), 1)


@loads.derived(MONEY / FRESH)
def cost_moved(finished: Expr, run: Link, product_share: Expr) -> Expr:
    """How much more of the run's cost its product bears where the load gave up more water."""
    return where(finished, run.cost_by_water * (1 - product_share), 0)


@loads.derived(MONEY / DRIED)
def cost_by_dry(cost_moved: Expr, product: Link) -> Expr:
    """How much the bulk's cost, weight for weight, falls where more came out: it is shared by more,
    and less water was given up."""
    return cost_moved + product.running_bulk


@loads.derived(MONEY, source=_GUM, label="uncertainty from weighing it dry")
def dry_u(cost_by_dry: Expr, scale: SingleRow) -> Expr:
    """What weighing the load dry adds to the uncertainty of its product's cost; as much adds what
    went back in."""
    return cost_by_dry * scale.weighing


@loads.derived(COUNT)
def weighed_dry(second_pass: Expr, wet_weighings: Expr, dry_weighings: Expr) -> Expr:
    """Weighings of dried food: what came out, and what went back in."""
    return where(second_pass, wet_weighings, 0) + dry_weighings


@loads.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing it dry, squared")
def dry_u_squared(finished: Expr, dry_u: Expr, weighed_dry: Expr) -> Expr:
    """The same, squared, for each of these weighings."""
    return where(finished, dry_u * dry_u * weighed_dry, 0)


@loads.derived(MONEY, source=_GUM, label="uncertainty from food beside it")
def beside_u(run: Link, product_share: Expr, scale: SingleRow) -> Expr:
    """What one weighing of other food in the run moves of its product's cost."""
    return run.cost_by_water * product_share * scale.weighing


@loads.derived(COUNT)
def weighed_beside(run: Link, loads_alike: Expr) -> Expr:
    """Weighings of other food in the run: each load wet, and dry."""
    beside = run.loads_held - loads_alike
    return beside + beside


@loads.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from food beside it, squared")
def beside_u_squared(finished: Expr, run_first: Expr, beside_u: Expr, weighed_beside: Expr) -> Expr:
    """Squares of what all of them move, once for each product in a run."""
    return where(finished & run_first, beside_u * beside_u * weighed_beside, 0)
