"""The season that a command begins with, or all that is wrong with it."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from pathlib import Path

    from reportgen.algebra.numbers import Numbers
    from reportgen.model.season import Season
    from reportgen.read.problem import Problem

MOST = 100
"""Problems that are said, unless all are asked for."""

season_argument = click.argument("season", metavar="SEASON")


def _day(ctx: click.Context, option: click.Parameter, text: str | None) -> float | None:
    """The day as a spreadsheet counts, or the command ends with 2."""
    from reportgen.read.dates import day
    from reportgen.read.problem import Refusal

    try:
        return None if text is None else day(text)
    except Refusal as wrong:
        raise click.BadParameter(f"{wrong.what}, expected {wrong.expected}; {wrong.do}") from None


as_of_option = click.option(
    "--as-of",
    metavar="DAY",
    callback=_day,
    help="Judge it on this day, as 2026-12-31. Left out: as_of of season.yaml, else today.",
)
"""The day on which best-by days, offers and dates ahead are judged."""


def season_of(
    path: str,
    progress: Callable[[str], None] | None = None,
    nothing: str = "",
    *,
    as_of: float | None = None,
    among: bool = False,
    every: bool = False,
) -> tuple[Season, Numbers]:
    """The season at a path, with its numbers; cautions go to stderr.

    Ends the command with 2 where there is nothing at the path, and with 1 where the input is
    wrong; ``nothing`` says what was not done then. ``among``: other seasons are read as well, so
    that messages say which of them is meant; ``every``: say all that is wrong, however much.
    """
    from reportgen import program

    place = there(path)
    done = program.read(place, progress or program.quiet, as_of)
    above = f"{place.resolve().name}/" if among and place.is_dir() else ""
    tell(done.problems, place, above, every=every)
    if done.season is None or done.numbers is None:
        give_up(done.problems, nothing)
    return done.season, done.numbers


def warn_of_errors(path: str, numbers: Numbers) -> None:
    """Say on stderr that figures cannot be relied on, where checks that are errors fail."""
    from reportgen.report.verdicts import doubt

    if wrong := doubt(numbers):
        click.echo(f"{wrong}; reportgen check {path} lists them.", err=True)


def there(path: str) -> Path:
    """The path of a season; ends the command with 2 where there is nothing."""
    from pathlib import Path

    place = Path(path)
    try:
        os.stat(place)
    except (FileNotFoundError, NotADirectoryError, ValueError):
        raise click.BadParameter(
            f"there is no file or folder {path}; check the name, or begin a season with: "
            f"reportgen new {path}",
            param_hint="SEASON",
        ) from None
    return place


def tell(problems: list[Problem], season: Path, above: str = "", *, every: bool = False) -> None:
    """Say what is wrong with a season's files, with the lines; ``above``: the files' folder.

    Of a great many the first are said, errors before cautions, and the rest counted.
    """
    from reportgen.read.files import lines_of
    from reportgen.read.report import text

    lines = lines_of(season if season.is_dir() else season.parent)
    first = problems
    if len(problems) > MOST and not every:
        first = sorted(problems, key=lambda each: each.severity != "error")[:MOST]
    said = [above + text(each, lines) for each in first]
    if len(first) < len(problems):
        left = len(problems) - len(first)
        said.append(f"and {left:,} more (reportgen check {season} --all lists them)")
    if said:
        click.echo("\n".join(said), err=True)


def give_up(problems: list[Problem], nothing: str = "") -> NoReturn:
    """End the command with 1; ``nothing`` says what was not done."""
    errors = sum(each.severity == "error" for each in problems)
    end = f"{counted(errors, 'error')}{': ' + nothing if nothing else ''}"
    click.echo(f"\n{end}. Correct them and try again.", err=True)
    raise click.exceptions.Exit(1)


def counted(number: int, word: str) -> str:
    """``1 error``, ``2 errors``."""
    return f"{number:,} {word}{'' if number == 1 else 's'}"
