"""Payback: what a dryer has saved, and when it has paid for itself."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    estimate,
    first_known,
    greatest,
    known,
    latest,
    lowest,
    round_up,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, RUNS
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_YEAR
from reportgen.trade.tables import dryers, loads, runs, season, upkeep
from reportgen.units import DRIED, HOUR, MONEY


@dryers.derived(COUNT, label="runs done, its first owner's included")
def runs_of_machine(runs_done: Expr, runs_when_bought: Expr) -> Expr:
    """All runs of the machine, a former owner's included: what upkeep goes by."""
    return runs_done + runs_when_bought


@upkeep.derived(RUNS, label="next due in")
def due_in(dryer: Link, every: Expr) -> Expr:
    """Runs until it is due again; 0: it is due now."""
    return round_up(dryer.runs_of_machine, every) - dryer.runs_of_machine


@loads.link(dryers)
def dryer(run: Link) -> Expr:
    """The dryer it was in."""
    return run.dryer


@loads.derived(DRIED)
def weight_gained(first_pass: Expr, weight_out: Expr, weight_in: Expr) -> Expr:
    """Dried weight it adds: what came out, less what went back in."""
    return where(first_pass, weight_out, weight_out - weight_in)


@loads.derived(MONEY)
def saving(weight_gained: Expr, product: Link) -> Expr:
    """What the load is worth above its running cost."""
    return weight_gained * product.gain


@dryers.derived(DRIED)
def dried(loads: Children) -> Expr:
    """Dried weight of its finished loads."""
    return total(loads.weight_gained, loads.finished)


@dryers.derived(MONEY, label="worth above running cost")
def gained(loads: Children) -> Expr:
    """What its finished loads are worth above their running cost, all of it: what spoiled since,
    was tasted, or was lost in failed runs is not taken off."""
    return total(loads.saving, loads.finished)


@dryers.derived(MONEY, label="its part of overheads, stall and time")
def paid_beside(dried: Expr, season: SingleRow) -> Expr:
    """Its part, by dried weight, of overheads, stall and time that were paid."""
    return where(dried == 0, 0, dried * season.paid_beside_by_weight)


@dryers.derived(MONEY, label="saved this season")
def saved(gained: Expr, paid_beside: Expr) -> Expr:
    """What its loads are worth above their running cost, less its part of what was paid beside."""
    return gained - paid_beside


@dryers.derived(MONEY, label="saved by each run of yours")
def saved_by_runs(runs_done: Expr, saving_per_run: Expr) -> Expr:
    """What it has saved if every run of yours saved what this season's did."""
    return estimate(runs_done * saving_per_run)


@dryers.derived(MONEY, label="saved in all seasons")
def saved_in_all(saved_before: Expr, saved: Expr, saved_by_runs: Expr) -> Expr:
    """What it has saved up to now, with which the next season begins."""
    return first_known(saved_before + saved, saved_by_runs)


@dryers.derived(COUNT)
def runs_this_season(runs_done: Expr, runs_before: Expr) -> Expr:
    """Runs it has done this season."""
    return runs_done - runs_before


@dryers.derived(MONEY, label="saved by a run")
def saving_per_run(saved: Expr, runs_this_season: Expr) -> Expr:
    """What a run saved this season, on the mean."""
    return saved / runs_this_season


@dryers.derived(MONEY)
def saving_known(saving_per_run: Expr) -> Expr:
    """The same, where something is saved."""
    return where(saving_per_run > 0, saving_per_run, unknown())


@dryers.derived(
    RUNS,
    source="payback: price over what each run saves, undiscounted",
    label="runs to pay for itself",
)
def payback_runs(price: Expr, saving_known: Expr) -> Expr:
    """Runs until it has paid for itself, as if each saved what this season's did."""
    return price / saving_known


@dryers.derived(MONEY, label="price not saved yet")
def price_left(price: Expr, saved_before: Expr, saved: Expr) -> Expr:
    """What of its price is not saved yet, by all seasons; known where saved_before is."""
    return greatest(price - saved_before - saved, 0)


@dryers.derived(RUNS, label="runs to go, by money saved")
def left_by_money(price_left: Expr, saving_known: Expr) -> Expr:
    """Runs still to go, by what was saved in all; none where that is its price."""
    return where(price_left == 0, 0, price_left / saving_known)


@dryers.derived(RUNS, label="runs to go, by runs done")
def left_by_runs(payback_runs: Expr, runs_done: Expr) -> Expr:
    """Runs still to go, as if earlier ones of yours had saved as much."""
    return greatest(payback_runs - runs_done, 0)


@dryers.derived(RUNS, label="runs still to go")
def payback_left(saved_before: Expr, left_by_money: Expr, left_by_runs: Expr) -> Expr:
    """Runs still to go: by what earlier seasons saved, else as if their runs saved as much."""
    return where(known(saved_before), left_by_money, left_by_runs)


@dryers.derived(COUNT, label="whole runs still to go, about")
def runs_to_go(payback_left: Expr) -> Expr:
    """After how many more runs it is paid for, as if each saved what this season's did."""
    return round_up(payback_left, 1)


@dryers.derived(HOUR)
def payback_time(payback_left: Expr, runs_per_year: Expr) -> Expr:
    """Time until then, at the pace of a year; unknown where no run is left to go."""
    return where(payback_left > 0, payback_left / runs_per_year * ONE_YEAR, unknown())


@runs.derived(DATE)
def end(ended: Expr, started: Expr, hours: Expr) -> Expr:
    """When it ended: as given, else its start and its hours."""
    return first_known(ended, started + hours)


@season.derived(DATE)
def last_end(runs: Children) -> Expr:
    """When the last run ended."""
    return latest(runs.end)


@runs.derived(HOUR, label="hours to the end of the last run")
def end_to_last(end: Expr, season: SingleRow) -> Expr:
    """Hours from its end to that of the season's last run."""
    return season.last_end - end


@dryers.derived(HOUR, label="hours after its last run")
def idle(runs: Children) -> Expr:
    """Hours from the end of its own last run to that of the season's."""
    return lowest(runs.end_to_last)


@dryers.derived(DATE, label="end of its last run")
def last_end(season: SingleRow, idle: Expr) -> Expr:
    """When its own last run ended."""
    return season.last_end - idle


@dryers.derived(DATE, label="paid for by")
def payback_date(last_end: Expr, payback_time: Expr) -> Expr:
    """When it will have paid for itself, counted from the end of its own last run; no day where it
    is paid for."""
    return last_end + payback_time
