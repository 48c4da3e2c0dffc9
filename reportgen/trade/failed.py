"""Runs that failed: what they cost is a loss of the season by itself, and in no unit cost.

A run whose loads did not go in again is over. One some of whose loads did is like any other.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, total, where
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import draws, loads, runs, season
from reportgen.units import MONEY


@runs.derived(COUNT)
def loads_again(loads: Children) -> Expr:
    """Its loads that went back in, in another run."""
    return count(loads, loads.dried_again)


@runs.derived(FLAG, label="lost")
def given_up(failed: Expr, loads_again: Expr) -> Expr:
    """It failed, and nothing of it went in again: all that was in it is lost."""
    return failed & (loads_again <= 0)


@runs.derived(FLAG)
def over(done: Expr, given_up: Expr) -> Expr:
    """It is done, or lost."""
    return done | given_up


@loads.derived(FLAG, label="lost")
def given_up(run: Link) -> Expr:
    """Its run failed, and it is lost."""
    return run.given_up


@loads.derived(FLAG)
def gone(finished: Expr, given_up: Expr) -> Expr:
    """It is out of the dryer, dried or lost."""
    return finished | given_up


@loads.derived(MONEY)
def lost_with_it(given_up: Expr, cost_ingredients: Expr) -> Expr:
    """Its produce and travel, where it is lost."""
    return where(given_up, cost_ingredients, 0)


@loads.derived(MONEY)
def hours_lost_with_it(given_up: Expr, labor_from_lot: Expr) -> Expr:
    """The time of its lot, where it is lost."""
    return where(given_up, labor_from_lot, 0)


@runs.derived(MONEY, label="lost, running cost")
def failed_running(given_up: Expr, loads: Children, energy_cost: Expr, upkeep_cost: Expr) -> Expr:
    """Running cost of a run that failed and is over: produce, driving, energy, upkeep."""
    return where(given_up, total(loads.lost_with_it) + energy_cost + upkeep_cost, 0)


@runs.derived(MONEY, label="lost")
def failed_cost(
    given_up: Expr, failed_running: Expr, loads: Children, wear_cost: Expr, labor_cost: Expr
) -> Expr:
    """What a run that failed and is over cost in full: time and wear too."""
    time = total(loads.hours_lost_with_it) + labor_cost
    return where(given_up, failed_running + wear_cost + time, 0)


@season.derived(MONEY, label="lost in failed runs")
def failed_cost(runs: Children) -> Expr:
    """What runs that failed cost in full: a loss of the season, in no product's cost."""
    return total(runs.failed_cost)


@season.derived(MONEY, label="of it, running cost")
def failed_running(runs: Children) -> Expr:
    """The running cost of runs that failed."""
    return total(runs.failed_running)


@season.derived(MONEY, label="of it, produce")
def failed_produce(loads: Children) -> Expr:
    """Produce and driving of what was lost in them."""
    return total(loads.lost_with_it)


@season.derived(COUNT, label="runs given up")
def runs_given_up(runs: Children) -> Expr:
    """Runs that failed and are over."""
    return count(runs, runs.given_up)


@draws.check("error", "Name the run that the pack came from: of this one nothing was left.")
def drawn_from_failed(run: Link) -> Expr:
    """A pack names a run that failed, and of which nothing went in again."""
    return run.given_up
