"""Weights that were forgotten: a wet one from what is left of its lot, a dry one from the packs.

Both read written weights only, as all estimates do, and are marked as estimates.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    known,
    least,
    missing,
    no,
    same,
    total,
    total_known,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import ONE_DAY
from reportgen.trade.tables import draws, loads, lots, products
from reportgen.units import DRIED, FRESH

_SOLIDS = "solids balance (Earle, Unit Operations in Food Processing, ch. 2)"

# --- a forgotten wet weight ----------------------------------------------------------------------


@lots.derived(FRESH)
def prepped_to_load(
    prepped_weighed: Expr, finished: Expr, weighed: Expr, as_purchased: Expr, product: Link
) -> Expr:
    """Prepped weight that does not rest on the loads: as written, else by the recipe's yield."""
    by_yield = where(finished & ~known(weighed), unknown(), as_purchased * product.prep_yield)
    return first_known(prepped_weighed, by_yield)


@lots.derived(FRESH)
def wet_written(loads: Children) -> Expr:
    """Wet weights that are written."""
    return total_known(loads.wet, loads.first_pass)


@lots.derived(COUNT)
def loads_unweighed(loads: Children) -> Expr:
    """Loads whose wet weight is not written."""
    return missing(loads.wet, loads.first_pass)


@lots.derived(FRESH)
def wet_forgotten(prepped_to_load: Expr, set_aside: Expr, lost: Expr, wet_written: Expr) -> Expr:
    """What is left of it for these."""
    return prepped_to_load - set_aside - lost - wet_written


@loads.derived(FRESH)
def wet_evenly(lot: Link) -> Expr:
    """What is left of the lot, for each of its loads without a wet weight."""
    return estimate(lot.wet_forgotten / lot.loads_unweighed)


@loads.derived(FRESH)
def wet_in_dryer(wet_evenly: Expr, run: Link) -> Expr:
    """The same, and not more than the dryer takes."""
    return first_known(least(wet_evenly, run.load_limit), wet_evenly)


@loads.derived(FRESH, source=_SOLIDS)
def wet_by_dry(dry_written: Expr, product: Link, water_at_start: Expr) -> Expr:
    """The wet weight that would leave its dry weight at the water to aim for."""
    return dry_written * (1 - product.target_moisture) / (1 - water_at_start)


@loads.derived(FRESH)
def wet_at_most(wet_in_dryer: Expr, wet_by_dry: Expr) -> Expr:
    """The same, and not more than its dry weight allows."""
    return first_known(least(wet_in_dryer, wet_by_dry), wet_in_dryer)


@loads.derived(FLAG)
def wet_fits(wet_at_most: Expr, dry_exact: Expr) -> Expr:
    """That is a weight, and not below its own dry weight, be it written as what went back in."""
    not_below = first_known(wet_at_most >= dry_exact, ~no())
    return first_known(wet_at_most > 0, no()) & not_below


@loads.derived(FRESH)
def wet_by_lot(first_pass: Expr, wet_fits: Expr, wet_at_most: Expr) -> Expr:
    """A forgotten wet weight, from what is left of its lot."""
    return where(first_pass & wet_fits, wet_at_most, unknown())


# --- a forgotten dry weight ----------------------------------------------------------------------


@draws.derived(FLAG)
def packed_after(run: Link, pack: Link) -> Expr:
    """Packed on the day the run ended, or later."""
    return first_known(run.end - pack.date < ONE_DAY, no())


@draws.derived(FLAG)
def tells_nothing(only_run: Expr, run: Link, pack: Link) -> Expr:
    """The pack names another run as well, or may have been filled before the run ended."""
    return ~only_run | ~known(run.end) | ~known(pack.date)


@loads.derived(FLAG)
def dry_lost(dry_open: Expr, times_again: Expr, run: Link) -> Expr:
    """It came out for good, and no dry weight was written: not its own, not the run's."""
    return dry_open & (times_again <= 0) & ~known(run.dry)


@loads.derived(COUNT)
def packs_unsure(dry_lost: Expr, run_place: Expr, draws: Children) -> Expr:
    """Packs of its product that name the run and do not tell what it gave."""
    rows = same(draws.run_place, run_place)
    return where(dry_lost, count(rows, rows.tells_nothing), unknown())


@loads.derived(DRIED)
def packed_of_run(dry_lost: Expr, run_place: Expr, draws: Children) -> Expr:
    """What packs of its product hold that name the run alone."""
    rows = same(draws.run_place, run_place)
    return where(dry_lost, total(rows.drawn, rows.packed_after), unknown())


@loads.derived(DRIED)
def dry_beside(dry_lost: Expr, run_place: Expr, loads: Children) -> Expr:
    """Written dry weights of its product in the run."""
    return where(dry_lost, total_known(same(loads.run_place, run_place).dry_exact), unknown())


@loads.derived(FRESH)
def solids_beside(dry_lost: Expr, run_place: Expr, loads: Children) -> Expr:
    """Solids of the loads of its product in the run without a written dry weight."""
    rows = same(loads.run_place, run_place)
    return where(dry_lost, total(rows.solids, rows.dry_open), unknown())


@loads.derived(DRIED)
def share_of_packs(
    packed_of_run: Expr, dry_beside: Expr, solids: Expr, solids_beside: Expr
) -> Expr:
    """Its share of what was packed of the run, by solids."""
    return estimate((packed_of_run - dry_beside) * solids / solids_beside)


@loads.derived(FLAG)
def packs_tell(packs_unsure: Expr, share_of_packs: Expr, solids: Expr) -> Expr:
    """The packs hold at least the solids that it should hold: nothing is left in the bucket."""
    enough = first_known(share_of_packs >= solids, no())
    return first_known(packs_unsure <= 0, no()) & enough


@loads.derived(DRIED)
def dry_by_packs(packs_tell: Expr, share_of_packs: Expr, wet: Expr) -> Expr:
    """A forgotten dry weight, from the packs that were filled of it; not more than went in."""
    return where(packs_tell, least(share_of_packs, wet), unknown())


@loads.derived(FLAG, label="packed, and its dry weight not known")
def dry_not_told(dry_lost: Expr, dry_by_packs: Expr, run_place: Expr, draws: Children) -> Expr:
    """Its dry weight was not written, and the packs of its product and run do not tell it."""
    named = count(same(draws.run_place, run_place)) > 0
    return dry_lost & named & ~known(dry_by_packs)


@products.derived(COUNT, label="loads packed, and their dry weight not known")
def loads_not_told(loads: Children) -> Expr:
    """Loads that were packed, of which no dry weight was written and the packs do not tell it."""
    return count(loads, loads.dry_not_told)


@products.check(
    "error",
    "First write what came out of the load, or about how much: dry: ~30 oz. Packs tell it only "
    "where they hold its solids at least, name its run alone, and are of no day before its end.",
)
def packed_unweighed(packed_beyond: Expr, loads_not_told: Expr) -> Expr:
    """Packed, but a load behind it has no dry weight, and the packs do not tell it."""
    return packed_beyond & (loads_not_told > 0)
