"""``compare`` and ``take``: what was changed in a workbook, and how it comes home."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from reportgen.cli.reading import as_of_option, counted, season_argument, season_of, there

if TYPE_CHECKING:
    from reportgen.algebra.tables import Table
    from reportgen.edits.differences import Change, Kind
    from reportgen.homecoming import Choice, Edits
    from reportgen.model.season import Value

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
_HEADINGS: dict[Kind, str] = {
    "change": "Changed", "added": "Added", "removed": "Removed", "renamed": "Renamed",
    "conflict": "Changed on both sides", "refused": "Cannot be taken",
    "overwritten": "Formulas typed over: never taken", "home": "Already in the files",
}  # fmt: skip
_MOST_TYPED_OVER = 50
"""Formulas typed over that are told one by one: of a sheet pasted as values there are thousands."""


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
        click.echo("\n".join(_said(made, season, workbook)))
    if _stops(made):
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
    conflicts = [] if theirs else [
        each for each in made.difference.of("conflict") if not only or chosen(each, only)
    ]  # fmt: skip
    _all_known(made, only)
    refused = _stops(made, only)
    if refused or conflicts:
        click.echo("\n".join(_said(made, season, workbook)), err=True)
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
    if typed_over:
        click.echo(f"{counted(len(typed_over), 'formula')} typed over stay as they were.")


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


def _stops(made: Edits, only: tuple[str, ...] = ()) -> bool:
    from reportgen.homecoming import chosen

    refused = [each for each in made.refused if not only or chosen(each, only)]
    return bool(refused or made.taken.refused or made.problems)


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


def _said(made: Edits, season: str, workbook: str) -> list[str]:
    from reportgen.homecoming import refusals

    said: list[str] = []
    for kind, heading in _HEADINGS.items():
        found = made.difference.of(kind)
        if not found:
            continue
        shown = found[:_MOST_TYPED_OVER] if kind == "overwritten" else found
        said += [f"{heading}:", *(f"  {_line(made, each)}" for each in shown)]
        if len(shown) < len(found):
            said.append(f"  and {len(found) - len(shown):,} more, which --json tells")
    said += [f"  {_line(made, each)}" for each in refusals(made)]
    if made.effects:
        said += ["What it does:", *(f"  {_effect(made, each)}" for each in made.effects)]
    open_ = made.difference.of("change", "added", "removed", "renamed", "conflict")
    if not said:
        said.append("Nothing was changed in this workbook.")
    elif not open_ and not made.refused:
        said.append("Nothing is left to take.")
    elif open_ and made.memory.product is not None:
        said.append("A costing sheet is only compared: write what is to count into the files.")
    elif open_ and not _stops(made):
        both = made.difference.of("conflict")
        settled = any(not each.why for each in both)
        how = " --theirs, where the workbook is to count;" if settled else ""
        else_ = " else change the files, or the workbook" if settled else ""
        gone = " --removals" if made.difference.of("removed") else ""
        said.append(
            f"To write it into the files: reportgen take {season} {workbook}{gone}{how}{else_}"
        )
    return said


def _line(made: Edits, change: Change) -> str:
    place = f"{change.sheet}!{change.cell}" if change.cell else change.sheet
    place = place or (f"{change.file}:{change.line}" if change.file else "")
    name = ": ".join(part for part in (_record(made, change), _field(made, change)) if part)
    at = f" ({change.file}:{change.line})" if change.file else ""
    built, edited, now = (
        _shown(made, change, value) for value in (change.built, change.edited, change.now)
    )
    if change.about:
        edited = f"~{edited}"
    match change.kind:
        case "refused":
            return ": ".join(part for part in (place, name, change.why) if part)
        case "overwritten":
            name = f"{name}: " if name else ""
            gives = "" if change.now is None else f"; the formula gives {now}"
            return f"{place}: {name}{edited} stands there now{gives}"
        case "conflict" if change.field:
            files = f"in the files {change.why}" if change.why else f"{now} in the files now"
            return f"{place}: {name}: {built} as built, {edited} in the workbook, {files}{at}"
    if not change.field:
        return f"{place}: {_record(made, change)}{at}"
    return f"{place}: {name}: {built} → {edited}{at}"


def _record(made: Edits, change: Change) -> str:
    """Which record, as people see it: lot pears-1, use 2025-09-20, P-1, stall."""
    table = made.tables.get(change.table)
    if table is None or table.single:
        return change.table.replace("_", " ")
    return f"{table.one} {change.called or change.row}".strip()


def _field(made: Edits, change: Change) -> str:
    table = made.tables.get(change.table)
    if table is not None and change.field in table.definitions:
        return table.definitions[change.field].label
    found = table.inputs.get(change.field) if table is not None else None
    named = found.head if found is not None and found.head else change.field.replace("_", " ")
    return "id" if change.field == "key" else named


def _shown(made: Edits, change: Change, value: Value) -> str:
    """A value as people write it; a day as a day, not as the number that a cell holds."""
    from reportgen.edits.written import day

    if value is None or value == "":
        return "nothing"
    table = made.tables.get(change.table)
    if table is not None and isinstance(value, float) and _is_day(table, change.field):
        return day(value, True)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.12g}" if isinstance(value, float) else str(value)


def _is_day(table: Table, name: str) -> bool:
    return bool(name) and table.kind_of(name).type == "date"


def _effect(made: Edits, effect: object) -> str:
    from reportgen.edits.effects import Effect
    from reportgen.report.show import amount

    assert isinstance(effect, Effect)
    table = made.tables[effect.table]
    definition = table.definitions[effect.quantity]
    if definition.role == "check":
        word = "comes" if effect.after else "goes"
        return f"{definition.severity} {word}: {effect.row}: {definition.doc}"
    name = definition.label if table.single else f"{effect.row}: {definition.label}"
    was, now = (
        amount(value, definition.kind, made.season.slots)
        if not isinstance(value, str) else value
        for value in (effect.before, effect.after)
    )  # fmt: skip
    return f"{name}: {was} → {now}"


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
