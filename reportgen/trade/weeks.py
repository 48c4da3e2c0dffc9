"""Weeks and dryers: of each week, the hours that the plan takes, those closed, those free.

What lies before the begin of a week is worked out once, on the dryer's clock of open hours; what
lies in a week is the difference to the next. The last row is all that comes after.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    join,
    missing,
    plain,
    round_up,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.closed import lain_back
from reportgen.trade.constants import MONDAY, ONE_DAY, ONE_WEEK
from reportgen.trade.tables import dryers, season, weeks
from reportgen.units import HOUR


@season.derived(DATE, label="first week of the plan")
def plan_week(plan_start: Expr) -> Expr:
    """The Monday of the week in which the plan begins."""
    return round_up(plan_start - ONE_WEEK - ONE_DAY, ONE_WEEK) + MONDAY


@weeks.derived(DATE, label="week from")
def week(number: Expr, season: SingleRow) -> Expr:
    """Its Monday."""
    return season.plan_week + (number - 1) * ONE_WEEK


@weeks.derived(TEXT, label="dryer and week")
def called(dryer: Link, number: Expr) -> Expr:
    """Dryer and number of the week."""
    return join(dryer, " ", plain(number))


@weeks.derived(HOUR)
def begins(week: Expr, season: SingleRow) -> Expr:
    """When it begins, in hours from the plan's first start."""
    return week - season.plan_start


@weeks.derived(HOUR, label="since it closed")
def closed_since(closed: Children, dryer: Link, begins: Expr) -> Expr:
    """Hours from each time that the dryer closed before it until then, added up."""
    return lain_back(same(closed.dryer, dryer).closes.before(begins), "closes", begins)


@weeks.derived(HOUR, label="since it opened")
def opened_since(closed: Children, dryer: Link, begins: Expr) -> Expr:
    """Hours from each time that it opened again before it until then, added up."""
    return lain_back(same(closed.dryer, dryer).opens.before(begins), "opens", begins)


@weeks.derived(HOUR, label="hours closed before it")
def closed_before(closed_since: Expr, opened_since: Expr) -> Expr:
    """Hours that the dryer was closed before it."""
    return closed_since - opened_since


@weeks.derived(HOUR, label="begins, in open hours")
def open_at(begins: Expr, closed_before: Expr) -> Expr:
    """When it begins, in open hours of the dryer."""
    return begins - closed_before


@weeks.derived(HOUR, label="since rows began")
def begun_since(plan: Children, dryer: Link, open_at: Expr) -> Expr:
    """Open hours from the begin of each row that began before it until then, added up."""
    return lain_back(same(plan.dryer, dryer).open_begin.before(open_at), "open_begin", open_at)


@weeks.derived(HOUR, label="since rows were done")
def done_since(plan: Children, dryer: Link, open_at: Expr) -> Expr:
    """Open hours from the end of each row that was done before it until then, added up."""
    return lain_back(same(plan.dryer, dryer).open_finish.before(open_at), "open_finish", open_at)


@dryers.derived(COUNT, label="rows of the plan without an end")
def rows_unknown(plan: Children) -> Expr:
    """Rows of the plan of which it is not known when they are done."""
    return missing(plan.open_finish)


@weeks.derived(HOUR, label="hours taken before it")
def taken_before(begun_since: Expr, done_since: Expr, dryer: Link) -> Expr:
    """Hours that the plan takes before it; not known where a row may take any."""
    return where(dryer.rows_unknown == 0, begun_since - done_since, unknown())


@dryers.derived(HOUR, label="hours of the plan")
def hours_planned(plan: Children) -> Expr:
    """Hours that the rows of the plan take it."""
    return total(plan.elapsed)


@weeks.derived(FLAG, label="after the last week")
def later(next: Link) -> Expr:
    """It stands for all that comes after the last week."""
    return next == ""


@weeks.derived(HOUR, label="hours taken until its end")
def taken_by_end(later: Expr, dryer: Link, next: Link) -> Expr:
    """Hours that the plan takes until its end; for the last row all there are."""
    return where(later, dryer.hours_planned, next.taken_before)


@weeks.derived(HOUR, label="hours taken")
def taken(taken_by_end: Expr, taken_before: Expr) -> Expr:
    """Hours that the plan takes, from a run's start until the next may start; of the last row all
    that come after."""
    return taken_by_end - taken_before


@weeks.derived(HOUR, label="hours closed")
def closed_hours(next: Link, closed_before: Expr) -> Expr:
    """Hours that the dryer is closed."""
    return next.closed_before - closed_before


@weeks.derived(HOUR, label="hours free")
def free(next: Link, open_at: Expr, taken: Expr) -> Expr:
    """Hours that are neither taken nor closed."""
    return next.open_at - open_at - taken


@dryers.derived(COUNT, label="weeks in the list")
def weeks_listed(weeks: Children) -> Expr:
    """How many of its weeks are in the list of weeks."""
    return count(weeks)


@season.derived(FLAG, label="the plan by the week")
def by_the_week(plan: Children, closed: Children) -> Expr:
    """Weeks are of use: something is gone some day, or a dryer is closed some time."""
    return (count(plan, plan.goes) > 0) | (count(closed) > 0)
