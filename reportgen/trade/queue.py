"""Until when: the order of plan rows, the hours of each, and rows on one dryer that follow each
other.

There is one order for all dryers: by start, then as written; rows without a start come last. A row
begins at its start, and not before the rows ahead of it on the dryer are done. With H the hours of
the rows ahead and S the start, counted from the plan's first, row i begins at the latest of
S(j) - H(j) over the rows j up to it, and H(i) on top; ``slack`` is H(j) - S(j).
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
def paced_time(runs_needed: Expr, pace: Expr) -> Expr:
    """Hours at the pace given."""
    return runs_needed / pace


@plan.derived(HOUR)
def elapsed(paced_time: Expr, machine_time: Expr) -> Expr:
    """Hours from start to end: at the pace, and no faster than the machine."""
    return first_known(greatest(paced_time, machine_time), machine_time)


@plan.check("caution", "Lower the pace: here the machine's own hours count.")
def pace_too_fast(paced_time: Expr, machine_time: Expr, season: SingleRow) -> Expr:
    """More runs a week than the machine can do."""
    return machine_time - paced_time > ONE_MINUTE


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
def slack(in_its_way: Expr, before: Link, season: SingleRow) -> Expr:
    """Hours of work ahead of the row before it, less those until that may start."""
    until_start = before.start - season.plan_start
    return where(in_its_way, before.time_before - until_start, unknown())


@plan.derived(HOUR)
def slack(queue: Children) -> Expr:
    """Hours that the dryer stands still for want of a start, taken off: the least of its queue."""
    return lowest(queue.slack)


@plan.derived(HOUR)
def time_until(time_before: Expr, slack: Expr) -> Expr:
    """Hours from the plan's first start until the rows before it on the dryer are done."""
    return time_before - first_known(slack, 0)


@plan.derived(DATE)
def begins(start: Expr, season: SingleRow, time_until: Expr) -> Expr:
    """When its first run begins: at its start, and not before the rows before it are done."""
    return greatest(start, season.plan_start + time_until)


@plan.derived(DATE, label="done by")
def finish(begins: Expr, elapsed: Expr) -> Expr:
    """When it is done."""
    return begins + elapsed
