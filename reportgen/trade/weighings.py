"""What each weighing, and energy that was not metered, adds to the uncertainty of a cost.

A sensitivity times a standard uncertainty (JCGM 100:2008, 5.1): of a lot's purchased and prepped
weight, of a load's wet weight, of a pack's net weight, of a dryer's mean power. Weighings are
independent of each other; energy by a dryer's mean power is off by the same share in each of its
runs. What product data adds is in ``spreads.py``, how weighing moves the shares of a run's cost in
``moved.py``. A trip's shares among lots are taken as they stand.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    first_known,
    join,
    known,
    no,
    on_estimates,
    own_place,
    place_of,
    same,
    total,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT, Kind
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import POWER_SPREAD, RECTANGULAR
from reportgen.trade.tables import dryers, loads, lots, packs, runs, scale
from reportgen.units import DRIED, FRESH, MONEY

_GUM = "law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2"
SQUARE_MONEY = Kind("number", MONEY * MONEY, "fine")


@scale.derived(
    Kind("number", DRIED, "fine"),
    source="JCGM 100:2008 (GUM), 4.3.7",
    label="uncertainty of one weighing",
)
def weighing(resolution: Expr) -> Expr:
    """Standard uncertainty of one weighing: the smallest step over the root of twelve."""
    return resolution * RECTANGULAR


@lots.derived(MONEY)
def cost_dried(loads: Children) -> Expr:
    """Produce and travel of its finished loads."""
    return total(loads.cost_ingredients, loads.finished)


@lots.derived(FLAG)
def some_dried(dried_from: Expr) -> Expr:
    """Something of it is in finished loads: what is not adds nothing to their cost."""
    return first_known(dried_from > 0, no())


@lots.derived(MONEY / FRESH)
def cost_by_usable(some_dried: Expr, cost_dried: Expr, usable: Expr) -> Expr:
    """How much that falls where the usable weight rises."""
    return where(some_dried, cost_dried / usable, 0)


@lots.derived(FLAG)
def by_the_loads(prepped_weighed: Expr, waiting: Expr) -> Expr:
    """Its prepped weight is what was loaded, set aside and lost."""
    return ~known(prepped_weighed) & first_known(waiting <= 0, no())


@lots.derived(FLAG)
def by_the_recipe(prepped_weighed: Expr, waiting: Expr) -> Expr:
    """Its prepped weight is that of the purchase, by the recipe's yield."""
    return ~known(prepped_weighed) & first_known(waiting > 0, no())


@lots.derived(MONEY / FRESH)
def cost_by_loads(by_the_loads: Expr, cost_by_usable: Expr) -> Expr:
    """How much the cost falls where the weight of one load rises, with the lot's."""
    return where(by_the_loads, cost_by_usable, 0)


@lots.derived(MONEY / FRESH)
def cost_by_yield(by_the_recipe: Expr, cost_by_usable: Expr, product: Link) -> Expr:
    """How much the cost falls where the purchased weight rises, by the recipe's yield."""
    return where(by_the_recipe, cost_by_usable * product.prep_yield, 0)


@lots.derived(FLAG)
def paid_by_weight(
    some_dried: Expr, price_total: Expr, price_each: Expr, price_by_weight: Expr
) -> Expr:
    """What finished loads cost to buy goes by the lot's weight."""
    return some_dried & known(price_by_weight) & ~known(price_total) & ~known(price_each)


@lots.derived(FRESH)
def dried_from(loads: Children) -> Expr:
    """Wet weight of its finished loads; what went back in is not counted again."""
    return total(loads.weight_in, loads.first_pass, loads.finished)


@lots.derived(MONEY / FRESH)
def cost_by_price(
    paid_by_weight: Expr, price_by_weight: Expr, dried_from: Expr, usable: Expr
) -> Expr:
    """How much the cost rises where the purchased weight rises, by its price."""
    return where(paid_by_weight, price_by_weight * dried_from / usable, 0)


@lots.derived(MONEY, source=_GUM, label="uncertainty from weighing it prepped")
def prepped_u(prepped_weighed: Expr, cost_by_usable: Expr, scale: SingleRow) -> Expr:
    """What weighing the prepped lot adds to the uncertainty of its loads' cost."""
    return where(known(prepped_weighed), cost_by_usable * scale.weighing, 0)


@lots.derived(SHARE)
def times_weighed(weighed_all: Expr, weighed: Expr) -> Expr:
    """How often the weighing of a few containers counts for all."""
    return weighed_all / weighed


@lots.derived(MONEY, source=_GUM, label="uncertainty from weighing the purchase")
def weighed_u(
    weighed: Expr,
    cost_by_price: Expr,
    cost_by_yield: Expr,
    scale: SingleRow,
    times_weighed: Expr,
) -> Expr:
    """What weighing the purchase adds to the uncertainty of its loads' cost."""
    each = (cost_by_price - cost_by_yield) * scale.weighing
    return where(known(weighed), each * times_weighed, 0)


@lots.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing the lot, squared")
def lot_u_squared(
    prepped_u: Expr, prepped_weighings: Expr, weighed_u: Expr, weighed_weighings: Expr
) -> Expr:
    """Squares of what weighing the lot adds, for each weighing that was made."""
    return prepped_u * prepped_u * prepped_weighings + weighed_u * weighed_u * weighed_weighings


@loads.derived(MONEY / FRESH)
def cost_by_own(finished: Expr, lot: Link) -> Expr:
    """How much the load's own cost rises where its weight does, once its run is done."""
    return where(finished, lot.cost_per_prepped, 0)


@loads.derived(MONEY / FRESH)
def cost_by_wet(first_pass: Expr, cost_by_own: Expr, lot: Link) -> Expr:
    """How much the cost of the lot's finished loads rises where its weight does."""
    return where(first_pass, cost_by_own - lot.cost_by_loads, 0)


@loads.derived(MONEY, source=_GUM, label="uncertainty from weighing it wet")
def wet_u(cost_by_wet: Expr, cost_moved: Expr, scale: SingleRow) -> Expr:
    """What weighing the wet load adds to the uncertainty of its product's cost; of what went back
    in, see the dry weights."""
    return (cost_by_wet + cost_moved) * scale.weighing


@loads.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing it wet, squared")
def wet_u_squared(first_pass: Expr, wet_u: Expr, wet_weighings: Expr) -> Expr:
    """The same, squared, for each weighing that it was made of."""
    return where(first_pass, wet_u * wet_u * wet_weighings, 0)


@dryers.derived(SHARE)
def power_spread(mean_power_spread: Expr) -> Expr:
    """How far the mean power may be off, as a standard uncertainty."""
    return first_known(mean_power_spread, POWER_SPREAD)


@runs.derived(SHARE)
def power_spread(energy_used: Expr, dryer: Link) -> Expr:
    """How far its energy may be off: as the dryer's mean power, not at all where it was metered."""
    return where(on_estimates(energy_used), dryer.power_spread, 0)


@loads.derived(MONEY, source=_GUM, label="uncertainty of its energy cost")
def energy_u(cost_energy: Expr, run: Link) -> Expr:
    """Standard uncertainty of its energy cost."""
    return cost_energy * run.power_spread


@loads.derived(TEXT)
def product_dryer(product: Link, dryer: Link) -> Expr:
    """Product and dryer, whose loads are off together."""
    return join(product, "/", dryer)


@loads.derived(COUNT, label="place of the first of them")
def dryer_place(loads: Children, product_dryer: Expr) -> Expr:
    """Where the first load of its product in its dryer stands among the loads."""
    return place_of(loads.product_dryer, product_dryer)


@loads.derived(FLAG)
def dryer_first(dryer_place: Expr) -> Expr:
    """The first load of its product in its dryer: it speaks for all of them."""
    return own_place(dryer_place)


@loads.derived(MONEY, source=_GUM, label="uncertainty of energy, all loads together")
def energy_u_together(loads: Children, dryer_place: Expr, dryer_first: Expr) -> Expr:
    """Standard uncertainty of the energy cost of all loads of its product in its dryer."""
    rows = same(loads.dryer_place, dryer_place)
    return where(dryer_first, total(rows.energy_u, rows.finished), 0)


@loads.derived(SQUARE_MONEY, source=_GUM, label="uncertainty of energy, squared")
def energy_u_squared(energy_u_together: Expr) -> Expr:
    """The square of that: what differs from dryer to dryer adds up in squares."""
    return energy_u_together * energy_u_together


@packs.derived(COUNT)
def spoiled_count(uses: Children) -> Expr:
    """How many of them spoiled."""
    return total(uses.containers, uses.spoiled)


@packs.derived(MONEY, source=_GUM, label="uncertainty from weighing the net")
def net_u(intact: Expr, product: Link, spoiled_count: Expr, scale: SingleRow) -> Expr:
    """What weighing the net of one, which counts for all of them, adds to what good ones cost."""
    kept = (intact - spoiled_count) * product.running_per_packed
    return (kept - intact * product.running_bulk) * scale.weighing


@packs.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing the net, squared")
def net_u_squared(net_u: Expr, net_weighings: Expr) -> Expr:
    """The same, squared, for each weighing that it was made of."""
    return net_u * net_u * net_weighings
