"""Days: the last that is recorded, and records whose days do not follow each other as the work
does, each a caution with its line."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    find,
    first_known,
    greatest,
    join,
    known,
    latest,
    no,
    plain,
    rank,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import draws, loads, packs, runs, season, uses


@season.derived(DATE)
def last_lot(lots: Children) -> Expr:
    """The last purchase."""
    return latest(lots.date)


@season.derived(DATE)
def last_run(runs: Children) -> Expr:
    """The last run's start."""
    return latest(runs.started)


@season.derived(DATE)
def last_pack(packs: Children) -> Expr:
    """The last packing."""
    return latest(packs.date)


@season.derived(DATE)
def last_use(uses: Children) -> Expr:
    """The last use."""
    return latest(uses.date)


@season.derived(DATE)
def last_market(markets: Children) -> Expr:
    """The last market day."""
    return latest(markets.date)


@season.derived(DATE)
def last_count(counts: Children) -> Expr:
    """The last count of the shelf."""
    return latest(counts.date)


@season.derived(FLAG)
def some_day(
    last_lot: Expr,
    last_run: Expr,
    last_pack: Expr,
    last_use: Expr,
    last_market: Expr,
    last_count: Expr,
) -> Expr:
    """Some day of the season is recorded."""
    made = known(last_lot) | known(last_run) | known(last_pack)
    return made | known(last_use) | known(last_market) | known(last_count)


@season.derived(DATE)
def last_day(
    some_day: Expr,
    last_lot: Expr,
    last_run: Expr,
    last_pack: Expr,
    last_use: Expr,
    last_market: Expr,
    last_count: Expr,
) -> Expr:
    """The season's last recorded day."""
    of = (last_lot, last_run, last_pack, last_use, last_market, last_count)
    return where(some_day, greatest(*(first_known(each, 0) for each in of)), unknown())


@loads.check("caution", "Correct the lot's date or the run's start.")
def lot_after_run(lot: Link, run: Link) -> Expr:
    """A lot bought or picked after the run that dried it began."""
    return lot.date > run.started


@draws.derived(FLAG)
def packed_early(pack: Link, run: Link) -> Expr:
    """The pack's day is before the one on which the run ended."""
    return first_known(run.end - pack.date >= ONE_DAY, no())


@packs.derived(COUNT)
def runs_later(draws: Children) -> Expr:
    """Runs it names that ended on a later day."""
    return count(draws, draws.packed_early)


@packs.check("caution", "Correct the pack's date, the run's times, or the runs after from.")
def packed_before_run(runs_later: Expr) -> Expr:
    """A pack filled before the end of a run that it came from."""
    return runs_later > 0


@uses.check("caution", "Correct the date of the use or of the pack.")
def used_before_packed(pack: Link, date: Expr) -> Expr:
    """A use before the day the pack was filled."""
    return date < pack.date


@runs.derived(DATE)
def began(started: Expr) -> Expr:
    """Its start, where it is known: a blank cell would rank as the first of all."""
    return where(known(started), started, unknown())


@runs.derived(COUNT)
def turn(began: Expr, dryer: Link) -> Expr:
    """Its place among the runs of its dryer, by start."""
    return rank(began, dryer)


@runs.derived(TEXT)
def turn_of(dryer: Link, turn: Expr) -> Expr:
    """Dryer and place."""
    return join(dryer, "/", plain(turn))


@runs.derived(TEXT)
def turn_before(dryer: Link, turn: Expr) -> Expr:
    """Dryer, and the place before it."""
    return join(dryer, "/", plain(turn - 1))


@runs.link(runs)
def run_before(runs: Children, turn_before: Expr) -> Expr:
    """The run before it in its dryer."""
    return find(runs.turn_of, turn_before)


@runs.check("caution", "Correct the times of one of them, or the dryer.")
def two_at_once(started: Expr, run_before: Link) -> Expr:
    """It began before the run before it in its dryer had ended."""
    return run_before.end - started > ONE_MINUTE


@season.check("caution", "Write the lots; if they are written, see whether their file is read.")
def offers_alone(offers: Children, lots: Children) -> Expr:
    """There are offers of shops, and no lots."""
    return (count(offers) > 0) & (count(lots) <= 0)
