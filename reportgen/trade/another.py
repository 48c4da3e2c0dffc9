"""One more dryer beside one that is there: what would fit then, and how soon it pays for itself.

The rows of that dryer are done by both, two runs at a time, at the same pace; it is closed on the
same days. So a row takes the time of half as many runs, rounded up.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    ahead,
    count,
    first_known,
    greatest,
    least,
    lowest,
    round_up,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, RUNS, YEARS
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import SIDE_BY_SIDE
from reportgen.trade.tables import another, plan, queue, season
from reportgen.units import FRESH, HOUR, MONEY


@plan.derived(COUNT, label="turns of two dryers")
def turns_of_two(runs_needed: Expr) -> Expr:
    """How often two dryers are filled, side by side."""
    return round_up(runs_needed / SIDE_BY_SIDE, 1)


@plan.derived(HOUR, label="hours of two dryers")
def elapsed_of_two(turns_of_two: Expr, slot: Expr) -> Expr:
    """Hours that its runs take two dryers, closed days left out."""
    return turns_of_two * slot


@plan.derived(HOUR, label="hours before it, of two dryers")
def before_of_two(elapsed_of_two: Expr, dryer: Link, turn: Expr) -> Expr:
    """Hours of the rows ahead of it, with two dryers."""
    return ahead(elapsed_of_two, dryer, turn)


@queue.derived(HOUR, label="hours ahead, of two dryers")
def slack_of_two(in_its_way: Expr, before: Link) -> Expr:
    """The same as the hours ahead, with two dryers."""
    return where(in_its_way, before.before_of_two - before.open_start, unknown())


@plan.derived(HOUR, label="slack of two dryers")
def slack_of_two(queue: Children) -> Expr:
    """Hours that two dryers stand still for want of a start, taken off."""
    return lowest(queue.slack_of_two)


@plan.derived(HOUR, label="hours until two dryers are free")
def until_of_two(before_of_two: Expr, slack_of_two: Expr) -> Expr:
    """Open hours from the plan's first start until two dryers are done with the rows before it."""
    return before_of_two - first_known(slack_of_two, 0)


@plan.derived(HOUR, label="done, by two dryers")
def done_by_two(open_start: Expr, until_of_two: Expr, elapsed_of_two: Expr) -> Expr:
    """When two dryers are done with it, in open hours."""
    return greatest(open_start, until_of_two) + elapsed_of_two


@plan.derived(COUNT, label="turns that fit")
def turns_fit(turns_of_two: Expr, done_by_two: Expr, open_gone: Expr, slot: Expr) -> Expr:
    """Turns of two dryers that end by the last day on which it is to be had."""
    late = round_up(greatest(done_by_two - open_gone, 0) / slot, 1)
    return turns_of_two - least(turns_of_two, late)


@plan.derived(COUNT, label="runs that fit two dryers")
def fit_of_two(runs_needed: Expr, turns_fit: Expr) -> Expr:
    """Runs that end by then, with two dryers."""
    return least(runs_needed, turns_fit * SIDE_BY_SIDE)


@plan.derived(FLAG, label="one more dryer would take it")
def shared_by_two(dryer: Link, another: SingleRow, goes: Expr) -> Expr:
    """It is dried where one more dryer is thought of, and is gone some day."""
    return (dryer == another.like) & goes


@plan.derived(COUNT, label="runs more, with one more dryer")
def runs_more(shared_by_two: Expr, fit_of_two: Expr, runs_fit: Expr) -> Expr:
    """Runs more that fit, with one more dryer."""
    return where(shared_by_two, fit_of_two - runs_fit, unknown())


@plan.derived(FRESH, label="weight over, with one more dryer")
def over_of_two(to_run: Expr, fit_of_two: Expr, run_weight: Expr) -> Expr:
    """Prepped weight that is left over all the same."""
    return greatest(to_run - fit_of_two * run_weight, 0)


@plan.derived(MONEY, label="earned more, with one more dryer")
def earned_more(runs_more: Expr, weight_over: Expr, over_of_two: Expr, product: Link) -> Expr:
    """What the runs more are worth, above their running cost."""
    weight = weight_over - over_of_two
    return where(runs_more == 0, 0, weight / product.ratio_used * product.gain_packed)


@season.derived(FLAG, label="one more dryer would take some of the plan")
def shared_by_two(plan: Children) -> Expr:
    """Something is dried where one more dryer is thought of, and is gone some day."""
    return count(plan, plan.shared_by_two) > 0


@another.derived(COUNT, label="runs more that fit")
def runs_more(season: SingleRow, plan: Children) -> Expr:
    """Runs of the plan that fit with it and do not without."""
    return where(season.shared_by_two, total(plan.runs_more, plan.shared_by_two), unknown())


@another.derived(MONEY, label="what they earn a year")
def earned_year(season: SingleRow, plan: Children) -> Expr:
    """What these runs are worth above their running cost, in a season a year."""
    return where(season.shared_by_two, total(plan.earned_more, plan.shared_by_two), unknown())


@another.derived(MONEY, label="what each of them earns")
def earned_per_run(earned_year: Expr, runs_more: Expr) -> Expr:
    """What one of these runs earns, where that is more than nothing."""
    return where(earned_year > 0, earned_year / runs_more, unknown())


@another.derived(
    RUNS,
    source="payback: price over what each run saves, undiscounted",
    label="runs to pay for itself",
)
def payback_runs(price: Expr, earned_per_run: Expr) -> Expr:
    """Runs until it has paid for itself."""
    return price / earned_per_run


@another.derived(
    YEARS,
    source="payback: price over what it saves a year, undiscounted",
    label="years to pay for itself",
)
def payback_years(payback_runs: Expr, runs_more: Expr) -> Expr:
    """Years until then, with as many runs more in each."""
    return payback_runs / runs_more
