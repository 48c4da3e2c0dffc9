"""``build``: the workbook."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.output import force_option, put, target
from reportgen.cli.progress import Progress
from reportgen.cli.reading import as_of_option, counted, give_up, season_of, tell, there

if TYPE_CHECKING:
    from pathlib import Path

    from reportgen.algebra.numbers import Numbers
    from reportgen.write.files import Target

_NOTHING = "no workbook was written"
MANY_RUNS = 2500
"""Runs past which a spreadsheet takes a while to work everything out again."""


@click.command(short_help="Build the workbook.")
@click.argument("seasons", metavar="SEASON...", nargs=-1, required=True)
@click.option("-o", "--output", metavar="FILE", help="The workbook to write, ending in .xlsx.")
@force_option
@as_of_option
def build(seasons: tuple[str, ...], output: str | None, force: bool, as_of: float | None) -> None:
    """Build the workbook of a season, or one that compares several seasons.

    SEASON is the folder with season.yaml, or a single file that holds everything. Without -o the
    workbook is named after it and written into the current folder. A workbook that was changed
    since it was built is left alone, unless --force is given.

    Of several seasons one workbook is made that sets their products side by side: yield, cost by
    weight, shop price, energy. It is in the units of the season named first, and called
    seasons.xlsx without -o. All must be of one currency.
    """
    from pathlib import Path

    places = [Path(each) for each in seasons]
    usual = _usual_name(places[0]) if len(places) == 1 else Path("seasons.xlsx")
    for each in seasons:
        there(each)
    wanted = Path(output) if output else usual
    resaved = len(places) == 1 and not force and _only_saved_again(wanted, seasons[0], as_of)
    into = target(wanted, (".xlsx",), "workbook", force or resaved)
    if len(places) > 1:
        _each_once(places)
        _build_comparison(seasons, into, as_of)
        return
    with Progress() as progress:
        found, numbers = season_of(seasons[0], progress, _NOTHING, as_of=as_of)
        from reportgen import program

        put(into, lambda out: program.write_workbook(found, numbers, out, progress))
    runs = len(found.tables["runs"].keys)
    if runs > MANY_RUNS:
        click.echo(
            f"{runs:,} runs: a spreadsheet will take a while to work everything out again "
            "(about 3 seconds for 2,500 runs, a minute and a half for 25,000). "
            "A folder for each season keeps it quick.",
            err=True,
        )
    _say(into, numbers, f"reportgen check {seasons[0]}")


def _only_saved_again(path: Path, season: str, as_of: float | None) -> bool:
    """Whether a workbook that is not as it was built says what the season's files do.

    Ends the command with 2 where it says something else: that is to be taken home first.
    """
    import zipfile

    from reportgen.write import seal

    if path.suffix.lower() != ".xlsx" or not (path.is_file() and zipfile.is_zipfile(path)):
        return False
    with path.open("rb") as file:
        if seal.untouched(file):
            return False
    from pathlib import Path as At

    from reportgen.cli.said_of_edits import quoted
    from reportgen.homecoming import Choice, edits, left_behind
    from reportgen.read.problem import Refusal

    found, numbers = season_of(season, nothing=_NOTHING, as_of=as_of)
    try:
        made = edits(At(season), found, numbers, path, Choice())
    except Refusal:
        return False
    other = [each for each in made.difference.changes if each.kind not in ("home", "overwritten")]
    if other:
        raise click.BadParameter(
            f"{path}: this file was changed since reportgen wrote it: "
            f"{counted(len(other), 'cell')} and what stands in the season's files differ. See "
            f"which: reportgen compare {season} {path}; bring them home: reportgen take {season} "
            f"{path}; or choose another name, or overwrite it with --force",
            param_hint="-o",
        )
    never: list[tuple[str, float | str | bool | None]] = [
        (f"{each.sheet}!{each.cell}", each.edited) for each in made.difference.of("overwritten")
    ]
    never += left_behind(path, found, numbers)
    if not never:
        return True
    (cell, text), more = never[0], len(never) - 1
    raise click.BadParameter(
        f"{path}: somebody wrote into this file where nothing is to be typed: {cell}: "
        f"{quoted(text)}{f', and {more} more' if more else ''}. None of it can "
        f"be taken home, and a build would lose it. See what it is: reportgen compare {season} "
        f"{path}; write what is to stay as the note of a record, or keep the file under another "
        "name, then build again with --force",
        param_hint="-o",
    )


def _build_comparison(seasons: tuple[str, ...], into: Target, as_of: float | None) -> None:
    from pathlib import Path

    from reportgen import program
    from reportgen.past.copy import Past, compared, in_the_way

    with Progress() as progress:
        past = [
            Past(Path(each), *season_of(each, progress, _NOTHING, as_of=as_of, among=True))
            for each in seasons
        ]
        problems = in_the_way(past)
        tell(problems, Path())
        if problems:
            give_up(problems, _NOTHING)
        numbers = compared(past)
        put(into, lambda out: program.write_comparison(numbers, past[0].season, out, progress))
    _say(into, numbers)


def _each_once(places: list[Path]) -> None:
    found = [each.resolve() for each in places]
    twice = next((each for each in found if found.count(each) > 1), None)
    if twice is not None:
        raise click.BadParameter(
            f"{twice.name} is named twice; a season is compared with others", param_hint="SEASON"
        )


def _say(into: Target, numbers: Numbers, command: str = "") -> None:
    failing = numbers.value("season", "failing")
    click.echo(f"{into.path}: {numbers.value('season', 'verdict_of_all')}.")
    if isinstance(failing, int | float) and failing:
        also = f", and so does: {command}" if command else ""
        click.echo(
            f"{counted(round(failing), 'place')} to look at; the sheet Checks lists them{also}"
        )


def _usual_name(season: Path) -> Path:
    """A workbook named after the season's folder, or its file, in the current folder."""
    from pathlib import Path

    place = season.resolve()
    if place.is_file():
        place = place.parent if place.stem == "season" else place.with_suffix("")
    return Path(f"{place.name or 'season'}.xlsx")
