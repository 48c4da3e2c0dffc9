"""Dryers and their upkeep, containers and their parts, overheads, bulk carried over, trips."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, known, total, unknown, where
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.tables import (
    carried_over,
    containers,
    dryers,
    overheads,
    parts,
    products,
    trips,
    upkeep,
)
from reportgen.units import AREA, DRIED, ENERGY, HOUR, MONEY


@upkeep.derived(MONEY)
def cost_per_run(cost: Expr, every: Expr) -> Expr:
    """Share of one run in the item's cost."""
    return cost / every


@dryers.derived(MONEY)
def upkeep_per_run(upkeep: Children) -> Expr:
    """Upkeep of one run: each item's cost over the runs between two times."""
    return total(upkeep.cost_per_run)


@dryers.derived(MONEY, source="units-of-production depreciation, a method of cost accounting")
def wear_per_run(price: Expr, resale: Expr, life: Expr) -> Expr:
    """Wear of one run: what the dryer loses in value over its life, by the run."""
    return (price - resale) / life


@dryers.derived(AREA)
def trays_area(trays: Expr, tray_area: Expr) -> Expr:
    """Area of all trays."""
    return trays * tray_area


@dryers.derived(COUNT, label="runs done, of all seasons")
def runs_done(runs_before: Expr, runs: Children) -> Expr:
    """Runs it has done, those of earlier seasons included."""
    return runs_before + count(runs, runs.done)


@dryers.derived(HOUR, label="hours run this season")
def hours_run(runs: Children) -> Expr:
    """Hours it ran this season, in runs that are done or lost."""
    return total(runs.hours, runs.over)


@dryers.derived(ENERGY, label="energy used this season")
def energy_used(runs: Children) -> Expr:
    """Energy it took this season."""
    return total(runs.energy_used, runs.counted)


@parts.derived(MONEY)
def cost_each(cost: Expr, uses: Expr) -> Expr:
    """What one use of the part costs."""
    return cost / uses


@containers.derived(MONEY)
def parts_cost(parts: Children) -> Expr:
    """All parts of one filled container."""
    return total(parts.cost_each)


@containers.derived(MONEY)
def packaging_each(parts_cost: Expr, spoiled: Expr) -> Expr:
    """Packaging of one good container: the parts of those lost in sealing are borne by the rest."""
    return parts_cost / (1 - spoiled)


@overheads.derived(DRIED)
def spread_over(over: Expr, season: SingleRow) -> Expr:
    """The dried weight it is spread over: the weight given, else all that was dried."""
    return first_known(over, season.dried)


@overheads.derived(MONEY / DRIED)
def by_weight(cost: Expr, spread_over: Expr) -> Expr:
    """The overhead by dried weight."""
    return where(spread_over > 0, cost / spread_over, unknown())


@overheads.derived(MONEY, label="borne by the products")
def charged(by_weight: Expr, season: SingleRow) -> Expr:
    """What the products bear of it: more than was paid, where more was dried than it was spread
    over."""
    return by_weight * season.dried


@carried_over.derived(MONEY)
def running_cost(dried: Expr, running: Expr) -> Expr:
    """The running cost of the carried-over bulk."""
    return dried * running


@carried_over.derived(MONEY)
def full_cost(dried: Expr, full: Expr) -> Expr:
    """What the carried-over bulk cost in full."""
    return dried * full


@products.derived(DRIED, label="left from last season")
def carried(carried_over: Children) -> Expr:
    """Bulk left from last season."""
    return total(carried_over.dried)


@products.derived(MONEY, label="running cost of what was carried over")
def carried_running(carried_over: Children) -> Expr:
    """Running cost of the bulk left from last season."""
    return total(carried_over.running_cost)


@products.derived(MONEY, label="full cost of what was carried over")
def carried_full(carried_over: Children) -> Expr:
    """Full cost of the bulk left from last season."""
    return total(carried_over.full_cost)


@trips.derived(MONEY, label="bought on it")
def purchases(lots: Children) -> Expr:
    """What was bought on the trip."""
    return total(lots.purchase_cost)


@trips.derived(COUNT)
def lots_fetched(lots: Children) -> Expr:
    """How many lots the trip fetched."""
    return count(lots)


@trips.derived(FLAG)
def price_open(purchases: Expr) -> Expr:
    """What was bought on it is not known in all."""
    return ~known(purchases)


@trips.check("caution", "Write the prices of all lots it fetched, or grown: true.")
def shared_evenly(price_open: Expr, lots_fetched: Expr) -> Expr:
    """A lot it fetched has no price: driving and time are shared in equal parts, not by price."""
    return price_open & (lots_fetched > 1)


@trips.check("caution", "Name the trip in the lots it fetched, or take it out.")
def fetched_nothing(lots_fetched: Expr) -> Expr:
    """A trip that no lot names: its cost is in no product."""
    return lots_fetched <= 0
