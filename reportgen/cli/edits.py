"""``compare`` and ``take``: what was changed in a workbook, and how it comes home."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from reportgen.cli.reading import as_of_option, counted, season_argument, season_of, there
from reportgen.cli.said_of_edits import said_of, stops

if TYPE_CHECKING:
    from reportgen.homecoming import Choice, Edits

_workbook = click.argument("workbook", metavar="EDITED.xlsx")
_only = click.option(
    "--only",
    metavar="SHEET!CELL",
    multiple=True,
    help="Take this cell only, or of what is gone SHEET!ID; may be repeated.",
)
_computed = click.option(
    "--computed", is_flag=True, help="Take what a formula gives in an input cell as well."
)


@click.command(short_help="Say what was changed in a workbook.")
@season_argument
@_workbook
@click.option("--json", "as_json", is_flag=True, help="As data, for other programs.")
@_computed
@as_of_option
def compare(season: str, workbook: str, as_json: bool, computed: bool, as_of: float | None) -> None:
    """Say what was changed in a workbook that was built from SEASON, and what that does.

    Each change is told with its cell, its file and line, what stood there and what stands there
    now. Nothing is written; reportgen take writes it into the season's files.
    """
    from reportgen.homecoming import Choice

    made = _made(season, workbook, Choice(computed=computed, removals=True, compares=True), as_of)
    if as_json:
        click.echo(json.dumps(_data(made), ensure_ascii=False, indent=1))
    else:
        click.echo("\n".join(said_of(made, season, workbook)))
    if stops(made):
        raise click.exceptions.Exit(1)


@click.command(short_help="Take the changes of a workbook into the season's files.")
@season_argument
@_workbook
@click.option("--theirs", is_flag=True, help="Where both sides changed, take the workbook's.")
@click.option("--removals", is_flag=True, help="Take away records whose rows are gone.")
@_only
@click.option("--into", metavar="FILE", default="", help="The batch file for new records.")
@_computed
@click.option("--dry-run", is_flag=True, help="Show what would be written, write nothing.")
@as_of_option
def take(
    season: str, workbook: str, theirs: bool, removals: bool, only: tuple[str, ...], into: str,
    computed: bool, dry_run: bool, as_of: float | None,
) -> None:  # fmt: skip
    """Write what was changed in a workbook into the files of SEASON.

    Every other byte of the files stays. What is replaced is kept beside each file as NAME.before
    until the next take. Where something is refused, or was changed on both sides, nothing at all
    is written; --theirs, --only and --removals say what is to be done then.
    """
    from reportgen.edits import safely
    from reportgen.homecoming import Choice, chosen, folder_of

    place = there(season)
    folder = folder_of(place)
    if not dry_run:
        done = safely.go_on(folder)
        if done:
            click.echo(done[0].upper() + done[1:] + ".", err=True)
    made = _made(season, workbook, Choice(theirs, removals, only, into, computed), as_of)
    conflicts = (
        []
        if theirs
        else [each for each in made.difference.of("conflict") if not only or chosen(each, only)]
    )
    _all_known(made, only)
    refused = stops(made, only)
    if refused or conflicts:
        click.echo("\n".join(said_of(made, season, workbook)), err=True)
        click.echo("\nNothing was written.", err=True)
        raise click.exceptions.Exit(1)
    if not made.taken.texts:
        click.echo("There is nothing to take.")
        _left_alone(made, removals)
        return
    click.echo(_diff(made), nl=False)
    if dry_run:
        click.echo("\nNothing was written (--dry-run).")
        return
    safely.write_all(folder, made.taken.texts, made.read)
    files = counted(len(made.taken.texts), "file")
    click.echo(f"\n{counted(len(made.taken.done), 'change')} taken into {files}.")
    if any(name in made.read for name in made.taken.texts):
        click.echo("To go back: until the next take, each file as it was is kept as NAME.before.")
    _left_alone(made, removals)


def _left_alone(made: Edits, removals: bool) -> None:
    gone = made.difference.of("removed")
    if gone and not removals:
        rows = ", ".join(each.row for each in gone[:5])
        click.echo(
            f"{counted(len(gone), 'record')} gone from the workbook ({rows}) stay; "
            "--removals takes them away."
        )
    typed_over = made.difference.of("overwritten")
    words = sum(each.of_words for each in typed_over)
    for number, what in ((len(typed_over) - words, "formula"), (words, "text")):
        if number:
            click.echo(
                f"{counted(number, what)} typed over, not taken; reportgen compare says where."
            )


def _made(season: str, workbook: str, choice: Choice, as_of: float | None) -> Edits:
    from pathlib import Path

    from reportgen.homecoming import edits
    from reportgen.read.problem import Refusal

    place = there(season)
    file = Path(workbook)
    if not file.is_file():
        raise click.BadParameter(f"there is no file {workbook}", param_hint="EDITED.xlsx")
    found, numbers = season_of(season, as_of=as_of)
    try:
        return edits(place, found, numbers, file, choice)
    except Refusal as refusal:
        click.echo(
            f"{workbook}: {refusal.what}; expected {refusal.expected}; {refusal.do}", err=True
        )
        raise click.exceptions.Exit(1) from None


def _all_known(made: Edits, only: tuple[str, ...]) -> None:
    """Ends the command where a cell that is to be taken holds no change."""
    from reportgen.homecoming import chosen

    for cell in only:
        if not any(chosen(each, (cell,)) for each in made.difference.changes):
            raise click.BadParameter(f"{cell} holds no change", param_hint="--only")


def _diff(made: Edits) -> str:
    from difflib import unified_diff

    lines: list[str] = []
    for name, text in sorted(made.taken.texts.items()):
        before = made.read[name].decode("utf-8") if name in made.read else ""
        lines += unified_diff(
            before.splitlines(keepends=True), text.splitlines(keepends=True), name, name
        )
    return "".join(line if line.endswith("\n") else f"{line}\n" for line in lines)


def _data(made: Edits) -> dict[str, object]:
    from reportgen.homecoming import refusals

    keys = (
        "sheet", "cell", "file", "line", "table", "row", "field", "built", "edited", "now", "kind",
    )  # fmt: skip
    open_ = made.difference.of("change", "added", "removed", "renamed", "conflict")
    return {
        "changes": [
            {
                **{key: getattr(each, key) for key in keys},
                **({"why": each.why} if each.why else {}),
            }
            for each in [*made.difference.changes, *refusals(made)]
        ],
        "effects": [
            {"table": each.table, "row": each.row, "quantity": each.quantity,
             "before": each.before, "after": each.after}
            for each in made.effects
        ],
        "left": len(open_),
    }  # fmt: skip
