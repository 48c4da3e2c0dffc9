"""``check``: read, judge, say what is still open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from reportgen.cli.reading import as_of_option, counted, season_argument, season_of

if TYPE_CHECKING:
    from reportgen.algebra.numbers import Numbers
    from reportgen.model.season import Season
    from reportgen.report.verdicts import Failing

_MOST = 30
"""Places listed for one matter, unless all are asked for."""


@click.command(short_help="Read and judge a season, and say what is still open.")
@season_argument
@click.option("--all", "every", is_flag=True, help="List every problem and place, however many.")
@as_of_option
def check(season: str, every: bool, as_of: float | None) -> None:
    """Read a season and judge it; writes nothing.

    SEASON is the folder with season.yaml, or a single file that holds everything. What cannot be
    read is an error. What could be read but looks wrong is said in words, with the line it stands
    on and what to do. Then comes what was assumed, for nobody weighed, metered or wrote it, and at
    the end what is still open: runs without dry weights, lots that wait, bulk that is not packed.
    """
    found, numbers = season_of(season, as_of=as_of, every=every)
    click.echo("\n".join(_lines(found, numbers, every)))


def _lines(season: Season, numbers: Numbers, every: bool) -> Iterator[str]:
    from reportgen.report.assumed import assumed, share_said
    from reportgen.report.verdicts import CAUTIONS, eat_first, failing, recorded, still_open

    yield f"{season.name}: {_counts(season)}"
    failed = failing(season, numbers)
    for severity, heading in (("error", "Errors"), ("caution", "Cautions")):
        chosen = [each for each in failed if each.check.severity == severity]
        if chosen:
            yield f"\n{heading}"
        for each in chosen:
            yield from _failing(each, every)
    if not recorded(season):
        return
    guesses, share = assumed(season, numbers), share_said(numbers)
    if guesses:
        yield f"\nAssumed{f': {share}' if share else ''}"
        yield from _listed(guesses, every, "  ")
    waiting = still_open(season, numbers)
    yield "\nStill open" if waiting else "\nNothing is open."
    for kind in waiting:
        yield from _listed(kind, every, "  ")
    first = eat_first(numbers)
    if first:
        yield "\nEat first"
    yield from (f"  {each}" for each in first)
    yield ""
    yield from CAUTIONS
    yield f"\n{numbers.value('season', 'verdict_of_all')}."


def _counts(season: Season) -> str:
    from reportgen.report.verdicts import RECORDED

    counts = [(name, len(season.tables[name].keys)) for name in RECORDED]
    listed = [counted(number, name.removesuffix("s")) for name, number in counts if number]
    return ", ".join(listed) or "nothing recorded yet"


def _failing(failing: Failing, every: bool) -> Iterator[str]:
    yield f"  {failing.check.doc}"
    yield f"  To do: {failing.check.do}"
    yield from _listed(failing.rows, every, "    ")


def _listed(items: Sequence[tuple[str, str]], every: bool, indent: str) -> Iterator[str]:
    most = len(items) if every else _MOST
    for what, place in items[:most]:
        yield f"{indent}{place}: {what}" if place else f"{indent}{what}"
    if len(items) > most:
        yield f"{indent}and {len(items) - most:,} more (--all lists them)"
