"""Loads: what one lot gave in one run, and its share of the run's cost."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, join, known, on_estimates, unknown, where
from reportgen.algebra.tables import FLAG, SHARE, TEXT
from reportgen.algebra.views import Link
from reportgen.trade.tables import loads, products
from reportgen.units import DRIED, FRESH, MONEY, ONE


@loads.derived(TEXT)
def key(id: Expr, run: Link, lot: Link) -> Expr:
    """The load's own id, else run and lot."""
    return where(id == "", join(run, "/", lot), id)


@loads.link(products)
def product(lot: Link) -> Expr:
    """The lot's product."""
    return lot.product


@loads.derived(FLAG)
def first_pass(again: Link) -> Expr:
    """It went in for the first time."""
    return again == ""


@loads.derived(FLAG)
def second_pass(again: Link) -> Expr:
    """It went back in, not yet dry."""
    return again != ""


@loads.derived(FLAG)
def finished(run: Link) -> Expr:
    """Its run is done."""
    return run.done


@loads.derived(FLAG)
def unfinished(run: Link) -> Expr:
    """Its run is not done yet, nor given up."""
    return ~run.done & ~run.given_up


@loads.derived(FRESH, label="wet weight used")
def weight_in(wet_exact: Expr, again: Link, wet_by_lot: Expr) -> Expr:
    """Wet weight: as written, here or as the dry weight of the load it was, else estimated."""
    return first_known(wet_exact, again.dry_between, wet_by_lot)


@loads.derived(DRIED)
def dry_estimated(dry_shared: Expr, dry_by_hours: Expr, dry_by_packs: Expr) -> Expr:
    """Dry weight that was not written: shared out, between two dryings, or by the packs."""
    return first_known(dry_shared, dry_by_hours, dry_by_packs)


@loads.derived(DRIED, label="dry weight out")
def weight_out(dry_exact: Expr, dry_estimated: Expr) -> Expr:
    """Dry weight: as written, here or as the wet weight of the load it became, else estimated."""
    return first_known(dry_exact, dry_estimated)


@loads.derived(FLAG)
def guessed(weight_in: Expr, weight_out: Expr) -> Expr:
    """Its wet or dry weight was estimated or shared out."""
    return on_estimates(weight_in) | on_estimates(weight_out)


@loads.derived(FRESH)
def water_removed(weight_in: Expr, weight_out: Expr) -> Expr:
    """Water that left it."""
    return weight_in - weight_out


@loads.derived(SHARE, label="dry from wet")
def dried_yield(weight_out: Expr, weight_in: Expr) -> Expr:
    """Dry weight out of one of wet."""
    return weight_out / weight_in


@loads.derived(ONE)
def drying_ratio(weight_in: Expr, weight_out: Expr) -> Expr:
    """Wet weight for one of dry."""
    return weight_in / weight_out


@loads.derived(SHARE)
def water_at_start(lot: Link, product: Link) -> Expr:
    """Water in the prepped food: measured in the lot, else the recipe's."""
    return first_known(lot.water, product.water)


@loads.derived(ONE)
def concentration(first_pass: Expr, drying_ratio: Expr, again: Link) -> Expr:
    """How many times lighter it is than what was prepped, earlier drying included."""
    return where(first_pass, drying_ratio, again.drying_ratio * drying_ratio)


@loads.derived(FLAG)
def weights_tell(concentration: Expr) -> Expr:
    """All weights behind it are weighed: an estimate says nothing of dryness."""
    return ~on_estimates(concentration)


@loads.derived(SHARE, source="solids balance (Earle, Unit Operations in Food Processing, ch. 2)")
def moisture_left(weights_tell: Expr, water_at_start: Expr, concentration: Expr) -> Expr:
    """Water left, wet basis, from the solids balance. Below 0: fewer solids than product data say,
    or a weighing is off. Weight alone cannot prove dryness; an estimated weight says nothing of
    it."""
    return where(weights_tell, 1 - (1 - water_at_start) * concentration, unknown())


@loads.derived(SHARE)
def run_share(water_removed: Expr, run: Link) -> Expr:
    """Its share of the run's cost, by the water each load gave up."""
    return where(run.water_removed > 0, water_removed / run.water_removed, unknown())


@loads.derived(FRESH)
def as_purchased_share(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """The purchased weight behind it; none for what went back in."""
    return where(first_pass, weight_in * lot.as_purchased / lot.usable, 0)


@loads.derived(MONEY, label="produce")
def cost_ingredients(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Its produce and travel; they stay with the first pass."""
    return where(first_pass, weight_in * lot.cost_per_prepped, 0)


@loads.derived(SHARE, label="dried yield")
def yield_drawn(second_pass: Expr, dried_yield: Expr) -> Expr:
    """Its dried yield as charts show it; not of what went back in, which had little water left."""
    return where(second_pass, unknown(), dried_yield)


@loads.derived(MONEY, label="energy")
def cost_energy(run: Link, run_share: Expr) -> Expr:
    """The run's energy, shared among its loads by the water each gave up."""
    return run.energy_cost * run_share


@loads.derived(MONEY, label="upkeep")
def cost_upkeep(run: Link, run_share: Expr) -> Expr:
    """The run's upkeep, shared likewise."""
    return run.upkeep_cost * run_share


@loads.derived(MONEY, label="wear")
def cost_wear(run: Link, run_share: Expr) -> Expr:
    """The run's wear, shared likewise."""
    return run.wear_cost * run_share


@loads.derived(MONEY)
def labor_from_lot(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Its share of the lot's time."""
    return where(first_pass, weight_in * lot.labor_per_prepped, 0)


@loads.derived(MONEY)
def labor_carried(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Its share of what the lot's time cost last season."""
    return where(first_pass, weight_in * lot.labor_carried / lot.usable, 0)


@loads.derived(MONEY, label="time")
def cost_labor(labor_from_lot: Expr, run: Link, run_share: Expr) -> Expr:
    """Its share of the lot's time and of the run's."""
    return labor_from_lot + run.labor_cost * run_share


@loads.derived(MONEY)
def parts_estimated(cost_ingredients: Expr, cost_energy: Expr, run: Link) -> Expr:
    """The running cost parts that rest on estimates of the lot or of the run's energy."""
    energy = cost_energy * run.energy_estimate
    return cost_ingredients * on_estimates(cost_ingredients) + energy


@loads.derived(MONEY, label="running cost on estimates")
def running_estimated(
    run: Link, parts_estimated: Expr, cost_ingredients: Expr, cost_energy: Expr, cost_upkeep: Expr
) -> Expr:
    """The running cost that rests on estimates: all of it where a weight of the run was estimated,
    for the run's cost is shared by the water that each load gave up."""
    all_of_it = cost_ingredients + cost_energy + cost_upkeep
    return where(run.loads_guessed > 0, all_of_it, parts_estimated)


@loads.check("error", "Check both weights and their units.")
def dry_above_wet(water_removed: Expr) -> Expr:
    """Dry weight above wet weight."""
    return water_removed < 0


@loads.check(
    "caution",
    "Check the weights, the recipe's water, and that all of it was weighed.",
)
def solids_missing(moisture_left: Expr) -> Expr:
    """Lighter than its own solids: the solids balance gives less than no water."""
    return moisture_left < 0


@loads.check("caution", "Write what went in.")
def wet_missing(weight_in: Expr) -> Expr:
    """A load without a wet weight."""
    return ~known(weight_in)


_WEIGH = "Weigh it next time: its cost is an estimate, and only a reading shows that it is dry."


@loads.check("caution", _WEIGH)
def wet_guessed(weight_in: Expr) -> Expr:
    """A wet weight that is an estimate."""
    return known(weight_in) & on_estimates(weight_in)


@loads.check("caution", _WEIGH)
def dry_guessed(weight_out: Expr) -> Expr:
    """A dry weight that is an estimate, or a share of several loads weighed together."""
    return known(weight_out) & on_estimates(weight_out)
