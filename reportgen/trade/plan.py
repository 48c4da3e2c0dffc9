"""What next: how much to buy, how many runs, what it will cost."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    estimate,
    first_known,
    join,
    known,
    least,
    mean_known,
    own_place,
    round_up,
    same,
    total,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import loads, lots, plan, products
from reportgen.units import ENERGY, FRESH, HOUR, MONEY, ONE


@lots.derived(FLAG)
def both_weighed(weighed: Expr, prepped_weighed: Expr) -> Expr:
    """Weighed as purchased and as prepped: it tells the prep yield."""
    return known(weighed) & known(prepped_weighed)


@products.derived(FRESH)
def purchased_weighed(lots: Children) -> Expr:
    """Weight as purchased, over the lots where both were weighed."""
    return total(lots.as_purchased, lots.both_weighed)


@products.derived(SHARE)
def prep_yield_measured(lots: Children, purchased_weighed: Expr) -> Expr:
    """Prepped from purchased, over the lots where both were weighed."""
    return total(lots.prepped, lots.both_weighed) / purchased_weighed


@products.derived(SHARE)
def prep_yield_used(prep_yield_measured: Expr, prep_yield: Expr) -> Expr:
    """Prepped from purchased: measured this season, else the recipe's."""
    return first_known(prep_yield_measured, prep_yield)


@products.derived(ONE)
def ratio_by_recipe(target_moisture: Expr, water: Expr) -> Expr:
    """Wet weight for one of dried, by the recipe's water and the moisture to aim for."""
    return (1 - target_moisture) / (1 - water)


@products.derived(ONE)
def ratio_used(drying_ratio: Expr, ratio_by_recipe: Expr) -> Expr:
    """Wet weight for one of dried: measured this season, else by the recipe."""
    return first_known(drying_ratio, ratio_by_recipe)


@loads.derived(FLAG)
def run_first(run_place: Expr) -> Expr:
    """The first load of its product in its run: it speaks for the run."""
    return own_place(run_place)


@loads.derived(HOUR)
def run_hours(run: Link) -> Expr:
    """How long its run took."""
    return run.hours


@loads.derived(FRESH)
def run_weight(run: Link) -> Expr:
    """What its run held in all."""
    return run.weight_in


@products.derived(HOUR)
def run_time_measured(loads: Children) -> Expr:
    """Mean hours of the season's runs that hold it."""
    return mean_known(loads.run_hours, loads.finished, loads.run_first)


@products.derived(HOUR)
def run_time_used(run_time_measured: Expr, run_time: Expr) -> Expr:
    """Hours a run takes: measured this season, else the recipe's."""
    return first_known(run_time_measured, run_time)


@plan.derived(FRESH, label="weight to buy")
def buy_weight(prepped_planned: Expr, product: Link) -> Expr:
    """As much as leaves the prepped weight that is planned."""
    return prepped_planned / product.prep_yield_used


@plan.derived(TEXT, label="the weight to buy rests on")
def buy_basis(product: Link) -> Expr:
    """Which prep yield it is bought by. What lots cost rests on each lot's own yield instead, of a
    finished lot by what was loaded."""
    return where(
        known(product.prep_yield_measured),
        "yield of lots weighed as bought and prepared",
        "yield by product data: no lot was weighed both ways",
    )


@plan.derived(FRESH)
def tray_capacity(product: Link, dryer: Link) -> Expr:
    """What the trays take at the recipe's loading."""
    return product.tray_loading * dryer.trays_area


@plan.derived(TEXT)
def dried_in(product: Link, dryer: Link) -> Expr:
    """Product and dryer."""
    return join(product, "/", dryer)


@plan.derived(FRESH, label="run weight, as this season's")
def run_weight_measured(loads: Children, dried_in: Expr) -> Expr:
    """Mean wet weight of the finished runs that held the product in this dryer."""
    alike = same(loads.product_dryer, dried_in)
    return mean_known(alike.run_weight, alike.finished, alike.run_first)


@plan.derived(FRESH, label="run weight wanted")
def run_weight_wanted(run_weight_measured: Expr, tray_capacity: Expr) -> Expr:
    """Wet weight of a run: as this season's in this dryer, else what its trays take."""
    return first_known(run_weight_measured, tray_capacity)


@plan.derived(FRESH)
def run_weight(run_weight_wanted: Expr, dryer: Link) -> Expr:
    """Wet weight of a run, never above the dryer's limit; one without a limit takes it all."""
    return first_known(least(run_weight_wanted, dryer.load_limit), run_weight_wanted)


@plan.check("caution", "Plan more runs, as here, or correct the dryer's limit.")
def above_limit(run_weight_wanted: Expr, run_weight: Expr) -> Expr:
    """Runs as this season's, or what the trays take, would be above the dryer's limit: it is
    planned at the limit."""
    return run_weight_wanted > run_weight


@plan.derived(COUNT, label="runs")
def runs_needed(to_run: Expr, run_weight: Expr) -> Expr:
    """Runs, those for what is waiting included."""
    return round_up(to_run / run_weight, 1)


@plan.derived(MONEY)
def packaging_needed(count_filled: Expr, container: Link) -> Expr:
    """Packaging of what will be filled."""
    return count_filled * container.packaging_each


@plan.derived(MONEY)
def bulk_needed(dried_planned: Expr, product: Link) -> Expr:
    """Running cost of the bulk that will be made, at this season's cost by weight."""
    return dried_planned * product.running_bulk


@plan.derived(ENERGY)
def energy_each(dryer: Link, product: Link) -> Expr:
    """Energy of a run by the dryer's mean power."""
    return estimate(dryer.mean_power * product.run_time_used)


@plan.derived(MONEY)
def run_cost(energy_each: Expr, rates: SingleRow, dryer: Link) -> Expr:
    """Energy and upkeep of a run, from rates and the recipe."""
    return energy_each * rates.electricity_paid + dryer.upkeep_per_run


@plan.derived(MONEY)
def bulk_by_recipe(runs_needed: Expr, run_cost: Expr) -> Expr:
    """Energy and upkeep of the runs: all that is known before a first lot has a price."""
    return estimate(runs_needed * run_cost)


@plan.derived(MONEY, label="running cost of the bulk")
def bulk_running(bulk_needed: Expr, bulk_by_recipe: Expr) -> Expr:
    """Running cost of the bulk: at this season's cost by weight, else energy and upkeep alone."""
    return first_known(bulk_needed, bulk_by_recipe)


@plan.derived(MONEY, label="running cost of it")
def running_needed(bulk_running: Expr, packaging_needed: Expr) -> Expr:
    """Running cost it will take: bulk and packaging."""
    return bulk_running + packaging_needed


@plan.derived(TEXT, label="the running cost rests on")
def running_basis(bulk_needed: Expr) -> Expr:
    """Whether this season has a cost by weight of it, or only rates and product data speak."""
    return where(
        known(bulk_needed),
        "this season's cost",
        "energy and upkeep; no produce price yet",
    )


@plan.check(
    "caution", "Write prices and weights of a first lot and run; then the running cost is known."
)
def running_unknown(running_needed: Expr) -> Expr:
    """What it will cost is not known: the season has no cost by weight of it yet."""
    return ~known(running_needed)
