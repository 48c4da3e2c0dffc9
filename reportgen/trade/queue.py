"""Until when: the order of plan rows, the hours of each, and rows on one dryer that follow each
other.

There is one order for all dryers: by start, then as written; rows without a start come last. A row
begins at its start, and not before the rows ahead of it on the dryer are done. With H the hours of
the rows ahead and S the start, counted from the plan's first, row i begins at the latest of
S(j) - H(j) over the rows j up to it, and H(i) on top; ``slack`` is H(j) - S(j). All of these are
hours in which the dryer is open (``closed.py``); only begin and end are days of the calendar.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    ahead,
    earliest,
    first_known,
    greatest,
    known,
    latest,
    lowest,
    unknown,
    where,
)
from reportgen.algebra.tables import DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import plan, queue, season
from reportgen.units import HOUR


@plan.derived(HOUR)
def time_each(product: Link, dryer: Link) -> Expr:
    """Hours of a run, the turnaround after it included."""
    return product.run_time_used + dryer.turnaround


@plan.derived(TEXT, label="hours of a run by")
def hours_basis(product: Link) -> Expr:
    """Whether this season's runs tell how long a run takes."""
    measured = known(product.run_time_measured)
    return where(measured, "your own runs", "rule of thumb, until you have run it")


@plan.derived(HOUR)
def machine_time(runs_needed: Expr, time_each: Expr) -> Expr:
    """Hours of the machine."""
    return runs_needed * time_each


@plan.derived(HOUR)
def paced_time(pace: Expr) -> Expr:
    """Hours from run to run at the pace given."""
    return 1 / pace


@plan.derived(HOUR, label="hours from run to run")
def slot(paced_time: Expr, time_each: Expr) -> Expr:
    """Hours from the start of a run to that of the next: at the pace, and no faster than the
    machine."""
    return first_known(greatest(paced_time, time_each), time_each)


@plan.derived(HOUR)
def elapsed(runs_needed: Expr, slot: Expr) -> Expr:
    """Hours that its runs take, closed days left out."""
    return runs_needed * slot


@plan.check("caution", "Lower the pace: here the machine's own hours count.")
def pace_too_fast(paced_time: Expr, time_each: Expr) -> Expr:
    """More runs a week than the machine can do."""
    return time_each - paced_time > ONE_MINUTE


@plan.derived(HOUR)
def time_before(elapsed: Expr, dryer: Link, turn: Expr) -> Expr:
    """Hours of the rows ahead of it on the same dryer."""
    return ahead(elapsed, dryer, turn)


@season.derived(DATE)
def plan_start(plan: Children) -> Expr:
    """When the plan begins."""
    return earliest(plan.start)


@season.derived(DATE)
def plan_last_start(plan: Children) -> Expr:
    """When its last row can begin."""
    return latest(plan.start)


@season.derived(HOUR)
def plan_span(plan_start: Expr, plan_last_start: Expr) -> Expr:
    """Hours from the first start to the last."""
    return plan_last_start - plan_start


@plan.derived(HOUR)
def turn(start: Expr, season: SingleRow) -> Expr:
    """What the order goes by: hours from the plan's first start to its own; without one, last."""
    return first_known(start - season.plan_start, season.plan_span + ONE_DAY, 0)


@queue.link(plan)
def row(position: Expr) -> Expr:
    """The plan row."""
    return position


@queue.derived(FLAG, label="its turn comes before")
def comes_before(row: Link, before: Link, written_before: Expr) -> Expr:
    """Its start is earlier, or the same and it is written above."""
    return (before.turn < row.turn) | ((before.turn <= row.turn) & written_before)


@queue.derived(FLAG, label="on the same dryer")
def in_its_way(row: Link, before: Link, comes_before: Expr) -> Expr:
    """Both are to be dried in the same dryer, and it is not behind."""
    return (row.dryer == before.dryer) & comes_before


@queue.derived(HOUR, label="hours ahead")
def slack(in_its_way: Expr, before: Link) -> Expr:
    """Hours of work ahead of the row before it, less those until that may start."""
    return where(in_its_way, before.time_before - before.open_start, unknown())


@plan.derived(HOUR)
def slack(queue: Children) -> Expr:
    """Hours that the dryer stands still for want of a start, taken off: the least of its queue."""
    return lowest(queue.slack)


@plan.derived(HOUR)
def time_until(time_before: Expr, slack: Expr) -> Expr:
    """Open hours from the plan's first start until the rows before it on the dryer are done."""
    return time_before - first_known(slack, 0)


@plan.derived(HOUR, label="begins, in open hours")
def open_begin(open_start: Expr, time_until: Expr) -> Expr:
    """When its first run begins, in open hours: at its start, and not before the rows before it are
    done."""
    return greatest(open_start, time_until)


@plan.derived(HOUR, label="done, in open hours")
def open_finish(open_begin: Expr, elapsed: Expr) -> Expr:
    """When it is done, in open hours."""
    return open_begin + elapsed


@plan.derived(DATE, label="begins")
def begin(season: SingleRow, open_begin: Expr, closed_by_begin: Expr) -> Expr:
    """When its first run begins, on a day that is not closed."""
    return season.plan_start + open_begin + closed_by_begin


@plan.derived(DATE, label="done by")
def finish(begin: Expr, season: SingleRow, open_finish: Expr, closed_by_finish: Expr) -> Expr:
    """When it is done."""
    return greatest(begin, season.plan_start + open_finish + closed_by_finish)
