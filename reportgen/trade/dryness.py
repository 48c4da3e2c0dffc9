"""Dry enough? What the weights say, what readings say, and one verdict for each load."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    first_known,
    greatest,
    join,
    known,
    no,
    place_of,
    size,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import (
    ACTIVITY_LIMIT,
    COARSE,
    MOIST,
    STEADY,
)
from reportgen.trade.tables import bought_parts, loads, mixes
from reportgen.units import DRIED


@loads.derived(SHARE)
def water_at_start_low(lot: Link, product: Link) -> Expr:
    """Least water to expect in the prepped food: measured in the lot, else the recipe's low."""
    return first_known(lot.water, product.water_low)


@loads.derived(SHARE)
def water_at_start_high(lot: Link, product: Link) -> Expr:
    """Most water to expect in the prepped food: measured in the lot, else the recipe's high."""
    return first_known(lot.water, product.water_high)


@loads.derived(
    SHARE,
    source="solids balance (Earle, Unit Operations in Food Processing, ch. 2)",
    label="moisture left, at least",
)
def moisture_left_low(weights_tell: Expr, water_at_start_low: Expr, concentration: Expr) -> Expr:
    """Least water left that the weights allow, wet basis: with the least water that the product
    data expect in fresh food. Below 0 is no fault: this lot had more water than that."""
    return where(weights_tell, 1 - (1 - water_at_start_low) * concentration, unknown())


@loads.derived(
    SHARE,
    source="solids balance (Earle, Unit Operations in Food Processing, ch. 2)",
    label="moisture left, at most",
)
def moisture_left_high(weights_tell: Expr, water_at_start_high: Expr, concentration: Expr) -> Expr:
    """Most water left that the weights allow, wet basis: with the most water that the product data
    expect in fresh food. Below 0 no lot is as light as that: a weighing is off."""
    return where(weights_tell, 1 - (1 - water_at_start_high) * concentration, unknown())


@loads.derived(FLAG)
def dried_again(times_again: Expr) -> Expr:
    """It went back in; its own evidence then no longer counts."""
    return times_again > 0


@loads.derived(DRIED)
def weight_change(weights_tell: Expr, weighing_before: Expr, weighing_last: Expr) -> Expr:
    """How far the last two weighings are apart; where other weights of it are estimates, they say
    nothing."""
    return where(weights_tell, size(weighing_before - weighing_last), unknown())


@loads.derived(DRIED)
def step(scale: SingleRow, weighing_step: Expr) -> Expr:
    """One step of the scale; where nothing is said of it, the last digit that was written."""
    return first_known(scale.resolution, weighing_step)


@loads.derived(FLAG)
def too_coarse(weight_change: Expr, step: Expr, weighing_last: Expr) -> Expr:
    """It was weighed twice, and a step of the scale is too coarse to tell anything of it."""
    return known(weight_change) & first_known(step > weighing_last * COARSE, no())


@loads.derived(DRIED)
def change_allowed(weighing_last: Expr, step: Expr) -> Expr:
    """How far they may be apart: the stated share, and not less than one step of the scale."""
    return greatest(weighing_last * STEADY, first_known(step, 0))


@loads.derived(FLAG)
def steady(weight_change: Expr, change_allowed: Expr, too_coarse: Expr) -> Expr:
    """Constant weight: the last two weighings agree, on a scale that can tell."""
    return first_known(weight_change <= change_allowed, no()) & ~too_coarse


@loads.derived(FLAG)
def drifting(weight_change: Expr, change_allowed: Expr) -> Expr:
    """The last two weighings do not agree: water is still leaving."""
    return first_known(weight_change > change_allowed, no())


@loads.check("caution", "Correct one of the two, or write them after the same drying.")
def dry_not_last_weighing(dry: Expr, weighing_last: Expr, step: Expr) -> Expr:
    """The dry weight is not what the load weighed last."""
    return size(dry - weighing_last) > first_known(step, 0)


@bought_parts.derived(FLAG)
@mixes.derived(FLAG)
@loads.derived(FLAG)
def has_reading(water_activity: Expr, moisture_meter: Expr) -> Expr:
    """A meter was used."""
    return known(water_activity) | known(moisture_meter)


@bought_parts.derived(FLAG)
@mixes.derived(FLAG)
@loads.derived(FLAG)
def active(water_activity: Expr) -> Expr:
    """Water activity above what keeps microbes from growing."""
    return first_known(water_activity > ACTIVITY_LIMIT, no())


@bought_parts.derived(FLAG)
@mixes.derived(FLAG)
@loads.derived(FLAG)
def metered_moist(moisture_meter: Expr) -> Expr:
    """The moisture meter says too moist."""
    return first_known(moisture_meter > MOIST, no())


@bought_parts.derived(FLAG)
@mixes.derived(FLAG)
@loads.derived(FLAG)
def read_moist(active: Expr, metered_moist: Expr) -> Expr:
    """A reading says that it is not dry."""
    return active | metered_moist


@loads.derived(FLAG)
def weighed_moist(moisture_left_low: Expr) -> Expr:
    """Even the least water that the weights allow is too much."""
    return first_known(moisture_left_low > MOIST, no())


@loads.derived(FLAG)
def shown_dry(has_reading: Expr, read_moist: Expr, steady: Expr, weighed_moist: Expr) -> Expr:
    """A reading supports it, or a constant weight that leaves no more water than dry food has."""
    return (has_reading | steady & ~weighed_moist) & ~read_moist


@loads.derived(FLAG)
def current(finished: Expr, dried_again: Expr) -> Expr:
    """Its run is done, and it did not go back in."""
    return finished & ~dried_again


@loads.derived(FLAG)
def speaks_against(read_moist: Expr, drifting: Expr, weighed_moist: Expr, shown_dry: Expr) -> Expr:
    """Something speaks against its being dry, and no better evidence for it."""
    return read_moist | (drifting | weighed_moist) & ~shown_dry


@loads.derived(FLAG)
def doubtful(current: Expr, speaks_against: Expr) -> Expr:
    """It may not be dry enough to keep."""
    return current & speaks_against


@loads.derived(FLAG)
def dry_enough(current: Expr, speaks_against: Expr, shown_dry: Expr) -> Expr:
    """It is shown to be dry."""
    return current & shown_dry & ~speaks_against


@loads.derived(FLAG)
def not_shown(dried_again: Expr, doubtful: Expr, dry_enough: Expr) -> Expr:
    """Nothing but its weight shows that it is dry, or it is not out of the dryer yet."""
    return ~dried_again & ~doubtful & ~dry_enough


@loads.derived(TEXT)
def by_weight(moisture_left: Expr) -> Expr:
    """Whether there is at least a weight to judge by."""
    return where(known(moisture_left), "weight only", "none")


@loads.derived(TEXT, label="rests on")
def evidence(has_reading: Expr, weight_change: Expr, by_weight: Expr) -> Expr:
    """What its dryness rests on: a reading, two weighings, weight only, none."""
    return where(has_reading, "a reading", where(known(weight_change), "two weighings", by_weight))


@loads.derived(TEXT)
def dryness_pending(finished: Expr, given_up: Expr) -> Expr:
    """Where its run is not done: still in it, or lost."""
    return where(finished, "", where(given_up, "lost", "in process"))


@loads.derived(TEXT)
def dryness_open(dried_again: Expr, dryness_pending: Expr) -> Expr:
    """Why there is no verdict on it."""
    return where(dried_again, "dried again", dryness_pending)


@loads.derived(TEXT, label="verdict")
def dryness_verdict(
    current: Expr, speaks_against: Expr, shown_dry: Expr, dryness_open: Expr
) -> Expr:
    """Dry, not shown, or doubtful. Plausibility, not safety."""
    shown = where(shown_dry, "dry", "not shown")
    return where(current, where(speaks_against, "doubtful", shown), dryness_open)


@loads.derived(TEXT)
def run_product(run: Link, product: Link) -> Expr:
    """Run and product, by which packs find their loads."""
    return join(run, "/", product)


@loads.derived(COUNT, label="place of the first of them")
def run_place(loads: Children, run_product: Expr) -> Expr:
    """Where the first load of its product in its run stands among the loads."""
    return place_of(loads.run_product, run_product)


@loads.check("caution", "Put it back in, and weigh until the weight no longer falls.")
def doubtful_load(doubtful: Expr) -> Expr:
    """A load that may not be dry enough to keep."""
    return first_known(doubtful, no())
