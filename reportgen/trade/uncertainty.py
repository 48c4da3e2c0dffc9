"""How sure is the cost by weight: the law of propagation (JCGM 100:2008, 5.1), part by part.

A product's cash cost by packed weight is c = (B ÷ W × P + K) ÷ G: bulk cost, bulk weight, weight
packed, packaging, good weight. Each contribution is a sensitivity times a standard uncertainty.
Weighings are independent of each other; energy by a dryer's mean power is off by the same share in
each of its runs.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    no,
    on_estimates,
    size,
    square_root,
    total,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT, Kind
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import COVERAGE, POWER_SPREAD, RECTANGULAR
from reportgen.trade.tables import dryers, loads, lots, packs, products, runs, scale
from reportgen.units import DRIED, MONEY

_GUM = "law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2"
BY_DRIED = MONEY / DRIED
FINE = Kind("number", BY_DRIED, "fine")
SQUARE_MONEY = MONEY * MONEY


@scale.derived(DRIED, source="JCGM 100:2008 (GUM), 4.3.7")
def weighing(resolution: Expr) -> Expr:
    """Standard uncertainty of one weighing: the smallest step over the root of twelve."""
    return resolution * RECTANGULAR


@loads.derived(MONEY, source=_GUM)
def wet_u(first_pass: Expr, lot: Link, scale: SingleRow) -> Expr:
    """What the weighing of the wet load adds to its ingredients' uncertainty."""
    return where(first_pass, lot.cost_per_prepped * scale.weighing, 0)


@loads.derived(SQUARE_MONEY, source=_GUM)
def wet_u_squared(wet_u: Expr) -> Expr:
    """The same, squared."""
    return wet_u * wet_u


@loads.derived(MONEY)
def energy_estimated(cost_energy: Expr) -> Expr:
    """Its energy cost, where that rests on the dryer's mean power."""
    return cost_energy * on_estimates(cost_energy)


@dryers.derived(SHARE)
def power_spread(mean_power_spread: Expr) -> Expr:
    """How far the mean power may be off, as a standard uncertainty."""
    return first_known(mean_power_spread, POWER_SPREAD)


@runs.derived(SHARE)
def power_spread(dryer: Link) -> Expr:
    """How far the dryer's mean power may be off."""
    return dryer.power_spread


@loads.derived(MONEY, source=_GUM)
def energy_u(energy_estimated: Expr, run: Link) -> Expr:
    """Standard uncertainty of its energy cost."""
    return energy_estimated * run.power_spread


@lots.derived(MONEY)
def cost_loaded(loaded: Expr, cost_per_prepped: Expr) -> Expr:
    """Produce and travel of what went into dryers."""
    return loaded * cost_per_prepped


@lots.derived(COUNT)
def prepped_weighings(prepped_weighed: Expr) -> Expr:
    """One where the prepped weight was weighed, none where it was worked out."""
    return where(first_known(prepped_weighed, 0) > 0, 1, 0)


@lots.derived(MONEY, source=_GUM)
def prepped_u(cost_loaded: Expr, usable: Expr, scale: SingleRow, prepped_weighings: Expr) -> Expr:
    """What the weighing of the prepped lot adds to its ingredients' uncertainty."""
    return cost_loaded / usable * scale.weighing * prepped_weighings


@lots.derived(MONEY)
def paid(purchase_cost: Expr, travel_cost: Expr) -> Expr:
    """What it cost to buy and to fetch."""
    return purchase_cost + travel_cost


@lots.derived(MONEY, source=_GUM)
def weighed_u(price_by_weight: Expr, scale: SingleRow, cost_loaded: Expr, paid: Expr) -> Expr:
    """What weighing the purchase adds, where it was paid by weight."""
    return first_known(price_by_weight * scale.weighing * cost_loaded / paid, 0)


@lots.derived(SQUARE_MONEY, source=_GUM)
def lot_u_squared(prepped_u: Expr, weighed_u: Expr) -> Expr:
    """Squares of what weighing the lot adds."""
    return prepped_u * prepped_u + weighed_u * weighed_u


@lots.derived(FLAG)
def spread_unknown(prepped: Expr) -> Expr:
    """Its prepped weight rests on a recipe's yield, whose spread nobody states."""
    return on_estimates(prepped)


@packs.derived(COUNT)
def count_squared(count: Expr) -> Expr:
    """The count, squared: one weighing of the net stands for all of them."""
    return count * count


@products.derived(COUNT)
def dry_weighings(loads: Children) -> Expr:
    """Weighings behind the dried weight: what came out, and what went back in."""
    return count(loads, loads.finished) + count(loads, loads.finished, loads.second_pass)


@products.derived(COUNT)
def net_weighings(packs: Children) -> Expr:
    """Weighings behind the packed weight, each as often as it counts, squared."""
    return total(packs.count_squared, packs.of_season)


@products.derived(SQUARE_MONEY, source=_GUM)
def produce_u_squared(loads: Children, lots: Children) -> Expr:
    """Squares of what weighing loads and lots adds to the bulk's cost."""
    return total(loads.wet_u_squared, loads.finished) + total(lots.lot_u_squared)


@products.derived(SHARE, source=_GUM)
def produce_u(produce_u_squared: Expr, bulk_paid: Expr) -> Expr:
    """What weighing produce adds, as a share of the bulk's cost."""
    return square_root(produce_u_squared / (bulk_paid * bulk_paid))


@products.derived(SHARE, source=_GUM)
def energy_u(loads: Children, bulk_paid: Expr) -> Expr:
    """What estimated energy adds, as a share of the bulk's cost."""
    return total(loads.energy_u, loads.finished) / bulk_paid


@products.derived(SHARE, source=_GUM)
def dried_u(dry_weighings: Expr, scale: SingleRow, bulk: Expr) -> Expr:
    """What weighing the dry food adds, as a share of the bulk's weight."""
    return square_root(dry_weighings) * scale.weighing / bulk


@products.derived(BY_DRIED)
def bulk_in_packed(cash_bulk: Expr, packed: Expr, packed_good: Expr) -> Expr:
    """The bulk's part of the cost by packed weight."""
    return cash_bulk * packed / packed_good


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


@products.derived(FINE, source=_GUM, label="weighing the packs")
def u_net(
    cash_per_packed: Expr, cash_bulk: Expr, net_weighings: Expr, scale: SingleRow, packed_good: Expr
) -> Expr:
    """Standard uncertainty of the cost by weight from weighing the packs."""
    apart = size(cash_per_packed - cash_bulk)
    return apart * square_root(net_weighings) * scale.weighing / packed_good


@products.derived(SHARE, source=_GUM)
def u_of_bulk(u_produce: Expr, u_energy: Expr, u_dried: Expr, cash_per_packed: Expr) -> Expr:
    """The parts from the bulk together, as a share of the cost by weight, squared."""
    squares = u_produce * u_produce + u_energy * u_energy + u_dried * u_dried
    return squares / (cash_per_packed * cash_per_packed)


@products.derived(SHARE, source=_GUM)
def u_share(u_of_bulk: Expr, u_net: Expr, cash_per_packed: Expr) -> Expr:
    """Standard uncertainty of the cost by weight, as a share of it."""
    return square_root(u_of_bulk + u_net * u_net / (cash_per_packed * cash_per_packed))


@products.derived(FINE, source=_GUM, label="plus or minus")
def cash_per_packed_u(u_share: Expr, cash_per_packed: Expr) -> Expr:
    """Expanded uncertainty of the cash cost by packed weight, k = 2."""
    return COVERAGE * u_share * cash_per_packed


@products.derived(COUNT, label="lots by recipe")
def spreads_unknown(lots: Children) -> Expr:
    """Lots that rest on a recipe's yield: their spread is not in the uncertainty."""
    return count(lots, lots.spread_unknown)


@products.derived(TEXT)
def worth_weighing(spreads_unknown: Expr, u_dried: Expr, u_produce: Expr) -> Expr:
    """Where no energy is estimated: what would make the figure surer."""
    scales = where(first_known(u_dried > u_produce, no()), "a finer scale", "weighing produce")
    return where(spreads_unknown > 0, "weigh the prepped lots", scales)


@products.derived(TEXT)
def worth_measuring(u_energy: Expr, u_dried: Expr, worth_weighing: Expr) -> Expr:
    """What would make the figure surer first."""
    metering = first_known(u_energy > u_dried, no())
    return where(metering, "a power meter", worth_weighing)
