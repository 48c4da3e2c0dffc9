"""Weights that nobody wrote down, from those that were.

Estimates read written weights only, never each other. What went back in is the same weight as what
had come out, which is exact; all others are estimates and marked as such: here a run's dry weight
shared by solids, and a drying without a weighing between by its hours. ``forgotten.py`` has the
others.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    known,
    least,
    no,
    size,
    total,
    total_known,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import BALANCE
from reportgen.trade.tables import loads, runs
from reportgen.units import DRIED, FRESH, HOUR

_SOLIDS = "solids balance (Earle, Unit Operations in Food Processing, ch. 2)"

# --- the same weight, written elsewhere ----------------------------------------------------------


@loads.derived(DRIED)
def dry_written(dry: Expr, weighing_last: Expr) -> Expr:
    """Dry weight as written: its own, else the last weighing."""
    return first_known(dry, weighing_last)


@loads.derived(COUNT)
def times_again(loads: Children) -> Expr:
    """How many loads are it, put back in."""
    return count(loads)


@loads.derived(FLAG)
def once_again(times_again: Expr) -> Expr:
    """It was put back in once."""
    return (times_again > 0) & (times_again <= 1)


@loads.derived(FRESH)
def wet_again(once_again: Expr, loads: Children) -> Expr:
    """The wet weight written when it was put back in."""
    return where(once_again, total(loads.wet), unknown())


@loads.derived(DRIED)
def dry_exact(dry_written: Expr, wet_again: Expr) -> Expr:
    """Dry weight as written, else the wet weight of the load that it became."""
    return first_known(dry_written, wet_again)


@loads.derived(DRIED)
def dry_passed_on(once_again: Expr, dry_written: Expr) -> Expr:
    """Dry weight as written, of a load that was put back in once."""
    return where(once_again, dry_written, unknown())


@loads.derived(FRESH)
def wet_exact(wet: Expr, again: Link) -> Expr:
    """Wet weight as written, else the dry weight of the load that it was."""
    return first_known(wet, again.dry_passed_on)


@loads.derived(FLAG)
def dry_open(dry_exact: Expr) -> Expr:
    """No dry weight is written for it."""
    return ~known(dry_exact)


@loads.derived(FRESH, source=_SOLIDS)
def solids(first_pass: Expr, wet: Expr, water_at_start: Expr, again: Link) -> Expr:
    """Solids that it should hold, by the wet weight written when it first went in."""
    return where(first_pass, wet * (1 - water_at_start), again.wet * (1 - water_at_start))


# --- weighed dry only together -------------------------------------------------------------------


@runs.derived(DRIED)
def dry_apart(loads: Children) -> Expr:
    """Dry weight of its loads that were weighed by themselves."""
    return total_known(loads.dry_exact)


@runs.derived(COUNT)
def loads_open(loads: Children) -> Expr:
    """Its loads without a dry weight of their own."""
    return count(loads, loads.dry_open)


@runs.derived(DRIED)
def dry_together(dry: Expr, dry_apart: Expr) -> Expr:
    """What is left of its dry weight for the loads that were not weighed by themselves."""
    return dry - dry_apart


@runs.derived(FRESH)
def solids_together(loads: Children) -> Expr:
    """Solids that these should hold."""
    return total(loads.solids, loads.dry_open)


@loads.derived(DRIED)
def share_of_run(solids: Expr, run: Link) -> Expr:
    """Its share of what is left of the run's dry weight, by solids."""
    return estimate(run.dry_together * solids / run.solids_together)


@loads.derived(DRIED)
def dry_shared(dry_open: Expr, share_of_run: Expr, wet_exact: Expr) -> Expr:
    """The same, and not more than went in."""
    share = first_known(least(share_of_run, wet_exact), share_of_run)
    return where(dry_open & first_known(share_of_run > 0, no()), share, unknown())


# --- dried again without a weighing between ------------------------------------------------------


@loads.derived(HOUR)
def hours_again(once_again: Expr, loads: Children) -> Expr:
    """Hours of the run in which it was dried again."""
    return where(once_again, total(loads.run_hours), unknown())


@loads.derived(DRIED)
def dry_in_the_end(once_again: Expr, loads: Children) -> Expr:
    """Dry weight written when it had been dried again."""
    return where(once_again, total(loads.dry_written), unknown())


@loads.derived(FRESH)
def lost_by_hours(wet: Expr, dry_in_the_end: Expr, run_hours: Expr, hours_again: Expr) -> Expr:
    """Water that it lost the first time: of all that it lost in the end, by the hours."""
    return (wet - dry_in_the_end) * run_hours / (run_hours + hours_again)


@loads.derived(DRIED)
def dry_by_hours(dry_open: Expr, wet: Expr, lost_by_hours: Expr) -> Expr:
    """Its weight between the two dryings, where nobody weighed it."""
    return where(dry_open, estimate(wet - lost_by_hours), unknown())


@loads.derived(DRIED)
def dry_between(once_again: Expr, dry_shared: Expr, dry_by_hours: Expr) -> Expr:
    """The same weight, for the load that it became."""
    return where(once_again, first_known(dry_shared, dry_by_hours), unknown())


# --- what speaks against it ----------------------------------------------------------------------


@runs.check("error", "Correct the dry weight of the run or those of its loads.")
def dry_below_loads(loads_open: Expr, dry_together: Expr) -> Expr:
    """The loads that were weighed by themselves leave nothing of the run's dry weight."""
    return (loads_open > 0) & (dry_together <= 0)


@runs.check("caution", "Keep the dry weights of the loads, which count, or correct them.")
def dry_differs(loads_open: Expr, dry_together: Expr, dry: Expr) -> Expr:
    """The dry weight of the run is not that of its loads."""
    return (loads_open <= 0) & (size(dry_together) > dry * BALANCE)
