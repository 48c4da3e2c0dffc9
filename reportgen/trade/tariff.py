"""Time of use: the windows of the week, and what the hours of a run cost by the clock.

A window is a stretch of the week in which one period of the tariff holds; windows do not overlap.
From its start and hours a run's weeks and its two parts of a week follow, whenever it is moved.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, round_up, total, unknown, until, where
from reportgen.algebra.tables import COUNT, DATE, FLAG
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, ONE_SECOND, ONE_WEEK
from reportgen.trade.tables import periods, rates, run_energy, runs, windows
from reportgen.units import ENERGY, HOUR, MONEY

PRICE = MONEY / ENERGY
PRICED = PRICE * HOUR
"""Hours, each times its price."""


@windows.derived(PRICE)
def price(period: Link) -> Expr:
    """Price in the window."""
    return period.price


@windows.derived(HOUR)
def hours(begin: Expr, end: Expr) -> Expr:
    """Its hours, each week."""
    return end - begin


@windows.derived(PRICED, label="hours by price")
def priced(hours: Expr, price: Expr) -> Expr:
    """Its hours, times their price."""
    return hours * price


@windows.check(
    "caution", "Write the times into season.yaml and build again: prices follow, times do not."
)
def times_changed(period: Link, from_built: Expr, to_built: Expr, days_built: Expr) -> Expr:
    """The times of the period are no longer those that this was built with."""
    same = (period.from_clock == from_built) & (period.to_clock == to_built)
    return ~(same & (period.days == days_built))


@periods.derived(COUNT, label="windows of the week")
def windows_held(windows: Children) -> Expr:
    """How many windows of the week are its own."""
    return count(windows)


@periods.check(
    "caution",
    "Put it above those that hold its hours; one that was added in the workbook goes into "
    "season.yaml: build again.",
)
def never_holds(windows_held: Expr) -> Expr:
    """No hour of the week is left for it, or it was added since this was built."""
    return windows_held <= 0


@rates.derived(HOUR, label="hours of the week with a price")
def week_hours(windows: Children) -> Expr:
    """Hours of a week that a period of the tariff holds."""
    return total(windows.hours)


@rates.derived(PRICED, label="a week's hours by price")
def week_priced(windows: Children) -> Expr:
    """The hours of a week, each times its price."""
    return total(windows.priced)


@runs.derived(FLAG, label="start with a time")
def start_timed(started: Expr, at_midnight: Expr) -> Expr:
    """A time is written beside the day of its start."""
    return (round_up(started, ONE_DAY) - started > 0) | at_midnight


@runs.derived(DATE, label="week of its start, to")
def start_week(started: Expr) -> Expr:
    """The Saturday at which the week of its start ends."""
    return round_up(started, ONE_WEEK)


@runs.derived(HOUR, label="start, in the week")
def start_in_week(started: Expr, start_week: Expr, start_timed: Expr) -> Expr:
    """Hours from Saturday 0:00 to its start; unknown where a day is written without a time."""
    return where(start_timed, ONE_WEEK - (start_week - started), unknown())


@runs.derived(DATE, label="end by its hours")
def end_by_hours(started: Expr, hours: Expr) -> Expr:
    """Its start and its hours, as if the clocks were not changed."""
    return started + hours


@runs.derived(DATE, label="week of its end, to")
def end_week(end_by_hours: Expr) -> Expr:
    """The Saturday at which the week of its end ends."""
    return round_up(end_by_hours, ONE_WEEK)


@runs.derived(HOUR, label="end, in the week")
def end_in_week(end_by_hours: Expr, end_week: Expr) -> Expr:
    """Hours from Saturday 0:00 to its end, as if the clocks were not changed."""
    return ONE_WEEK - (end_week - end_by_hours)


@runs.derived(COUNT, label="weeks begun")
def weeks_begun(start_week: Expr, end_week: Expr) -> Expr:
    """How many times a week begins while it runs."""
    return (end_week - start_week) / ONE_WEEK


@run_energy.derived(FLAG)
def clock_changed(changed: Expr, run: Link) -> Expr:
    """The clocks are changed while it runs."""
    return (changed > run.started) & (run.end_by_hours > changed)


@run_energy.derived(PRICED, label="clock change by price")
def clock_priced(clock_change: Expr, period: Link) -> Expr:
    """What the clock change adds or takes, times its price."""
    return clock_change * period.price


@runs.derived(HOUR, label="clock change")
def clock_hours(run_energy: Children) -> Expr:
    """Hours with a price that a clock change adds or takes."""
    return total(run_energy.clock_change, run_energy.clock_changed)


@runs.derived(PRICED, label="clock change by price")
def clock_hours_priced(run_energy: Children) -> Expr:
    """What a clock change adds or takes, times its price."""
    return total(run_energy.clock_priced, run_energy.clock_changed)


@runs.derived(HOUR, label="hours with a price, to its start")
def held_to_start(start_in_week: Expr, windows: Children) -> Expr:
    """Hours of the week of its start that a period holds, until it starts."""
    return until(windows.begin, windows.end, start_in_week)


@runs.derived(HOUR, label="hours with a price, to its end")
def held_to_end(end_in_week: Expr, windows: Children) -> Expr:
    """Hours of the week of its end that a period holds, until it ends."""
    return until(windows.begin, windows.end, end_in_week)


@runs.derived(PRICED, label="hours by price, to its start")
def priced_to_start(start_in_week: Expr, windows: Children) -> Expr:
    """Hours of the week of its start until it starts, each times its price."""
    return until(windows.begin, windows.end, start_in_week, windows.price)


@runs.derived(PRICED, label="hours by price, to its end")
def priced_to_end(end_in_week: Expr, windows: Children) -> Expr:
    """Hours of the week of its end until it ends, each times its price."""
    return until(windows.begin, windows.end, end_in_week, windows.price)


@runs.derived(HOUR, label="hours with a price")
def hours_held(
    weeks_begun: Expr, held_to_end: Expr, held_to_start: Expr, clock_hours: Expr, rates: SingleRow
) -> Expr:
    """Its hours that a period of the tariff holds."""
    return weeks_begun * rates.week_hours + held_to_end - held_to_start + clock_hours


@runs.derived(PRICED, label="hours by price")
def hours_priced(
    weeks_begun: Expr, priced_to_end: Expr, priced_to_start: Expr, clock_hours_priced: Expr,
    rates: SingleRow,
) -> Expr:  # fmt: skip
    """Its hours, each times its price."""
    whole_weeks = weeks_begun * rates.week_priced
    return whole_weeks + priced_to_end - priced_to_start + clock_hours_priced


@runs.derived(MONEY)
def cost_by_hours(energy_used: Expr, hours: Expr, hours_held: Expr, hours_priced: Expr) -> Expr:
    """What the energy cost, as much in each hour, by its start and end; unknown where some hours
    have no price."""
    whole = hours - hours_held < ONE_SECOND
    return where(whole, energy_used * hours_priced / hours_held, unknown())
