"""Closed days: a clock for each dryer that stands still on them.

It counts the hours since the plan's first start in which the dryer is open. By a moment they are
the hours until then, less those by which each closed time that had begun lies back, plus those by
which each that was over does. The moment at which so many of them have passed is as many hours on,
and on top all closed times that begin before, on that clock. A row begins after a closed time that
ends at its turn, and is done before one that begins as it ends.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, known, same, total, total_known, unknown, where
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import closed, plan
from reportgen.units import HOUR


@closed.derived(HOUR, label="closes")
def closes(from_day: Expr, to_day: Expr, season: SingleRow) -> Expr:
    """When it closes, in hours from the plan's first start; not yet, where its last day is not
    known."""
    return where(known(to_day), from_day - season.plan_start, unknown())


@closed.derived(HOUR, label="opens")
def opens(closes: Expr, to_day: Expr, season: SingleRow) -> Expr:
    """When it opens again, in hours from the plan's first start."""
    return where(known(closes), to_day + ONE_DAY - season.plan_start, unknown())


@closed.check("error", "Write its first and its last day.")
def half_written(from_day: Expr, to_day: Expr) -> Expr:
    """Its first or its last day is missing: it is not counted."""
    return ~(known(from_day) & known(to_day))


@closed.derived(HOUR, label="hours closed")
def hours(opens: Expr, closes: Expr) -> Expr:
    """How long it is closed."""
    return opens - closes


@closed.derived(HOUR, label="hours closed before")
def hours_before(closed: Children, dryer: Link, closes: Expr) -> Expr:
    """Hours that the same dryer was closed before."""
    return total(same(closed.dryer, dryer).closes.before(closes).hours)


@closed.derived(HOUR, label="closes, in open hours")
def open_at(closes: Expr, hours_before: Expr) -> Expr:
    """When it closes, in open hours of its dryer."""
    return closes - hours_before


@closed.derived(HOUR, label="a minute before")
def just_before(open_at: Expr) -> Expr:
    """A minute before it: what begins as it closes, begins after it."""
    return open_at - ONE_MINUTE


@closed.derived(HOUR, label="a minute after")
def just_after(open_at: Expr) -> Expr:
    """A minute after it: what is done as it closes, is done before it."""
    return open_at + ONE_MINUTE


def lain_back(begun: Children, name: str, moment: Expr) -> Expr:
    """By how much moments that have come lie back, all added up. What is not known has not come."""
    return moment * count(begun) - total_known(getattr(begun, name))


@plan.derived(HOUR)
def starts(start: Expr, season: SingleRow) -> Expr:
    """When it may start, in hours from the plan's first start."""
    return start - season.plan_start


@plan.derived(HOUR, label="since it closed, at the start")
def closed_since(closed: Children, dryer: Link, starts: Expr) -> Expr:
    """Hours from each time that the dryer closed before the start until then, added up."""
    return lain_back(same(closed.dryer, dryer).closes.before(starts), "closes", starts)


@plan.derived(HOUR, label="since it opened, at the start")
def opened_since(closed: Children, dryer: Link, starts: Expr) -> Expr:
    """Hours from each time that it opened again before the start until then, added up."""
    return lain_back(same(closed.dryer, dryer).opens.before(starts), "opens", starts)


@plan.derived(HOUR, label="start, in open hours")
def open_start(starts: Expr, closed_since: Expr, opened_since: Expr) -> Expr:
    """When it may start, in open hours of its dryer."""
    return starts - closed_since + opened_since


@plan.derived(HOUR, label="hours closed until it begins")
def closed_by_begin(closed: Children, dryer: Link, open_begin: Expr) -> Expr:
    """Hours that the dryer is closed from the plan's first start until its first run."""
    return total(same(closed.dryer, dryer).just_before.before(open_begin).hours)


@plan.derived(HOUR, label="hours closed until it is done")
def closed_by_finish(closed: Children, dryer: Link, open_finish: Expr) -> Expr:
    """Hours that the dryer is closed from the plan's first start until it is done."""
    return total(same(closed.dryer, dryer).just_after.before(open_finish).hours)


@plan.derived(HOUR, label="closed in between")
def closed_within(closed_by_finish: Expr, closed_by_begin: Expr) -> Expr:
    """Hours that the dryer is closed between its begin and its end; a run that they would cut goes
    on after them."""
    within = closed_by_finish - closed_by_begin
    return where(within > ONE_MINUTE, within, unknown())


@closed.check("error", "Correct from or to.")
def turned_round(hours: Expr) -> Expr:
    """It opens again before it closes."""
    return hours < ONE_DAY


@closed.check("error", "Make one closed time of those that overlap.")
def closed_twice(closed: Children, dryer: Link, closes: Expr, just_on: Expr) -> Expr:
    """Days on which the dryer is closed already: their hours are taken off twice."""
    begun = count(same(closed.dryer, dryer).closes.before(just_on))
    return begun - count(same(closed.dryer, dryer).opens.before(just_on)) > 1


@closed.derived(HOUR, label="a minute after it closes")
def just_on(closes: Expr) -> Expr:
    """A minute after it closes: by then it has."""
    return closes + ONE_MINUTE
