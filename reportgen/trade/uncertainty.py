"""How sure is the cost by weight: the law of propagation (JCGM 100:2008, 5.1), part by part.

A product's running cost by packed weight is c = (B ÷ W × P + K) ÷ G: bulk cost, bulk weight, weight
packed, packaging, good weight. ``weighings.py`` has what each weighing adds to B and to the cost
of the packs.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    greatest,
    known,
    no,
    square_root,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT, Kind
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.constants import COVERAGE
from reportgen.trade.tables import products
from reportgen.trade.weighings import SQUARE_MONEY
from reportgen.units import DRIED, MONEY, ONE

_GUM = "law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2"
BY_DRIED = MONEY / DRIED
FINE = Kind("number", BY_DRIED, "fine")
SQUARE_SHARE = Kind("number", ONE, "fine")


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing produce, squared")
def produce_u_squared(loads: Children, lots: Children) -> Expr:
    """Squares of what weighing loads and lots adds to the bulk's cost."""
    return total(loads.wet_u_squared) + total(lots.lot_u_squared)


@products.derived(SHARE, source=_GUM, label="relative uncertainty from weighing produce")
def produce_u(produce_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What weighing produce adds, as a share of the bulk's cost."""
    return square_root(produce_u_squared / (bulk_paid * bulk_paid))


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from energy, squared")
def energy_u_squared(loads: Children) -> Expr:
    """Squares of what energy that was not metered adds to the bulk's cost, dryer by dryer."""
    return total(loads.energy_u_squared, loads.dryer_first)


@products.derived(SHARE, source=_GUM, label="relative uncertainty from energy")
def energy_u(energy_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What estimated energy adds, as a share of the bulk's cost."""
    return square_root(energy_u_squared / (bulk_paid * bulk_paid))


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing dry food, squared")
def dried_u_squared(loads: Children) -> Expr:
    """Squares of what weighing what came out, and went back in, adds to the bulk's cost."""
    return total(loads.dry_u_squared)


@products.derived(SHARE, source=_GUM, label="relative uncertainty from weighing dry food")
def dried_u(dried_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What weighing the dry food adds, as a share of the bulk's cost."""
    return square_root(dried_u_squared / (bulk_paid * bulk_paid))


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from food beside it, squared")
def beside_u_squared(loads: Children) -> Expr:
    """Squares of what weighing the other food in its runs adds to the bulk's cost."""
    return total(loads.beside_u_squared)


@products.derived(SHARE, source=_GUM, label="relative uncertainty from food beside it")
def beside_u(beside_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What weighing the other food in its runs adds, as a share of the bulk's cost."""
    return square_root(beside_u_squared / (bulk_paid * bulk_paid))


@products.derived(SHARE, source=_GUM, label="relative uncertainty from product data")
def recipe_u(recipe_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What the spread of the product data adds, as a share of the bulk's cost."""
    return square_root(recipe_u_squared / (bulk_paid * bulk_paid))


@products.derived(BY_DRIED)
def bulk_in_packed(running_bulk: Expr, packed_intact: Expr, packed_bearing: Expr) -> Expr:
    """The bulk's part of the cost by packed weight."""
    return running_bulk * packed_intact / packed_bearing


@products.derived(FINE, source=_GUM, label="weighing produce")
def u_produce(bulk_in_packed: Expr, produce_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from weighing produce."""
    return bulk_in_packed * produce_u


@products.derived(FINE, source=_GUM, label="energy not metered")
def u_energy(bulk_in_packed: Expr, energy_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from energy that was not metered."""
    return bulk_in_packed * energy_u


@products.derived(FINE, source=_GUM, label="weighing the dry food")
def u_dried(bulk_in_packed: Expr, dried_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from weighing the dry food."""
    return bulk_in_packed * dried_u


@products.derived(FINE, source=_GUM, label="weighing what was beside it")
def u_beside(bulk_in_packed: Expr, beside_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from weighing the other food in its runs."""
    return bulk_in_packed * beside_u


@products.derived(FINE, source=_GUM, label="yield and container weights")
def u_recipe(bulk_in_packed: Expr, recipe_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from the spread of the product data."""
    return bulk_in_packed * recipe_u


@products.derived(MONEY)
def cost_of_good(running_per_packed: Expr, packed_good: Expr) -> Expr:
    """What the good packs cost in all."""
    return running_per_packed * packed_good


@products.derived(SQUARE_MONEY, source=_GUM, label="uncertainty from weighing packs, squared")
def net_u_squared(packs: Children) -> Expr:
    """Squares of what weighing the packs adds to what the good ones cost."""
    return total(packs.net_u_squared, packs.of_runs)


@products.derived(SHARE, source=_GUM, label="relative uncertainty from weighing packs")
def net_u(net_u_squared: Expr, cost_of_good: Expr) -> Expr:
    """What weighing the packs adds, as a share of what the good ones cost."""
    return square_root(net_u_squared / (cost_of_good * cost_of_good))


@products.derived(FINE, source=_GUM, label="weighing the packs")
def u_net(running_per_packed: Expr, net_u: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from weighing the packs."""
    return running_per_packed * net_u


@products.derived(FINE, source=_GUM, label="weighing dry food and packs")
def u_scale(u_dried: Expr, u_net: Expr, running_per_packed: Expr) -> Expr:
    """Standard uncertainty of the cost by weight from weighing the dry food and the packs."""
    squares = (u_dried * u_dried + u_net * u_net) / (running_per_packed * running_per_packed)
    return square_root(squares) * running_per_packed


@products.derived(SQUARE_SHARE, source=_GUM, label="relative uncertainty of the bulk, squared")
def bulk_u_squared(
    produce_u: Expr, energy_u: Expr, dried_u: Expr, beside_u: Expr, recipe_u: Expr
) -> Expr:
    """The parts from the bulk together, as a share of its cost, squared."""
    scales = produce_u * produce_u + dried_u * dried_u + beside_u * beside_u
    return scales + energy_u * energy_u + recipe_u * recipe_u


@products.derived(SQUARE_SHARE, source=_GUM, label="relative uncertainty from the bulk, squared")
def u_of_bulk(bulk_in_packed: Expr, bulk_u_squared: Expr, running_per_packed: Expr) -> Expr:
    """The parts from the bulk together, as a share of the cost by weight, squared."""
    squares = bulk_in_packed * bulk_in_packed * bulk_u_squared
    return squares / (running_per_packed * running_per_packed)


@products.derived(SHARE, source=_GUM, label="relative uncertainty")
def u_share(u_of_bulk: Expr, u_net: Expr, running_per_packed: Expr) -> Expr:
    """Standard uncertainty of the cost by weight, as a share of it."""
    return square_root(u_of_bulk + u_net * u_net / (running_per_packed * running_per_packed))


@products.derived(FINE, source=_GUM, label="plus or minus")
def running_per_packed_u(u_share: Expr, running_per_packed: Expr) -> Expr:
    """How far the running cost by packed weight may be off: about 95 of 100 such figures are no
    further off (expanded uncertainty, coverage factor k = 2)."""
    return COVERAGE * u_share * running_per_packed


@products.derived(COUNT, label="lots, loads and packs of unknown spread")
def spreads_unknown(lots: Children, loads: Children, packs: Children) -> Expr:
    """Lots, loads and packs that rest on an estimated weight, or on product data without low and
    high: how far these may be off is not in the uncertainty."""
    found = count(lots, lots.spread_unknown) + count(loads, loads.spread_unknown)
    return found + count(packs, packs.spread_unknown)


@products.derived(FLAG)
def recipe_weighs_most(u_recipe: Expr, u_scale: Expr, u_produce: Expr) -> Expr:
    """The product data add more than weighing does."""
    return first_known(u_recipe > greatest(u_scale, u_produce), no())


@products.derived(FLAG)
def scale_weighs_most(u_scale: Expr, u_produce: Expr) -> Expr:
    """Weighing the dry food and the packs adds more than weighing produce."""
    return first_known(u_scale > u_produce, no())


@products.derived(FLAG)
def energy_weighs_most(u_energy: Expr, u_scale: Expr, u_produce: Expr, u_recipe: Expr) -> Expr:
    """Energy that was not metered adds more than weighing and the product data do."""
    return first_known(u_energy > greatest(u_scale, u_produce, u_recipe), no())


@products.derived(TEXT)
def worth_weighing(
    spreads_unknown: Expr, recipe_weighs_most: Expr, scale_weighs_most: Expr
) -> Expr:
    """Where no energy is estimated: what would make the figure surer."""
    scales = where(scale_weighs_most, "a finer scale", "weighing produce")
    return where((spreads_unknown > 0) | recipe_weighs_most, "weigh what is estimated", scales)


@products.derived(TEXT)
def uncertainty_lacks(running_per_packed: Expr, scale: SingleRow) -> Expr:
    """What is missing to say how far the figure may be off; nothing where there is no figure."""
    step = where(known(scale.resolution), unknown(), "the scale's resolution, not written down")
    return where(known(running_per_packed), step, unknown())


@products.derived(TEXT)
def worth_measuring(
    running_per_packed_u: Expr,
    energy_weighs_most: Expr,
    worth_weighing: Expr,
    uncertainty_lacks: Expr,
) -> Expr:
    """What would make the figure surer first; what is missing where it is not known how far it may
    be off."""
    first = where(energy_weighs_most, "a power meter", worth_weighing)
    return where(known(running_per_packed_u), first, uncertainty_lacks)


@products.derived(FINE, source=_GUM, label="largest uncertainty from weighing")
def u_of_scales(scale_weighs_most: Expr, u_scale: Expr, u_produce: Expr) -> Expr:
    """What the weighing that adds most adds."""
    return where(scale_weighs_most, u_scale, u_produce)


@products.derived(FINE, source=_GUM, label="largest uncertainty from weights")
def u_of_weights(
    recipe_weighs_most: Expr, u_recipe: Expr, spreads_unknown: Expr, u_of_scales: Expr
) -> Expr:
    """What the weights that add most add; unknown where it is not known how far estimates are
    off."""
    scales = where(spreads_unknown > 0, unknown(), u_of_scales)
    return where(recipe_weighs_most, u_recipe, scales)


@products.derived(FINE, source=_GUM, label="uncertainty from what is worth measuring")
def u_worth(energy_weighs_most: Expr, u_energy: Expr, u_of_weights: Expr) -> Expr:
    """What the part that is worth measuring adds."""
    return where(energy_weighs_most, u_energy, u_of_weights)


@products.derived(SHARE, source=_GUM, label="its share of the uncertainty")
def worth_share(u_worth: Expr, u_share: Expr, running_per_packed: Expr) -> Expr:
    """How much of the plus or minus comes of what is worth measuring, by squares, as they add up;
    empty where it is not known how far estimates are off."""
    whole = u_share * running_per_packed
    return u_worth * u_worth / (whole * whole)
