"""What ``compare`` and ``take`` say of an edited workbook, in lines."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reportgen.algebra.tables import Table
    from reportgen.edits.differences import Change, Kind
    from reportgen.homecoming import Edits
    from reportgen.model.season import Value

_HEADINGS: dict[Kind, str] = {
    "change": "Changed", "added": "Added", "removed": "Removed", "renamed": "Renamed",
    "conflict": "Changed on both sides", "refused": "Cannot be taken",
    "overwritten": "Formulas typed over: never taken", "home": "Already in the files",
}  # fmt: skip
_WORDS_OVER = "Texts typed over, or written where nothing is to be typed: never taken"
_MOST_TYPED_OVER = 50
"""Formulas typed over that are told one by one: of a sheet pasted as values there are thousands."""


def stops(made: Edits, only: tuple[str, ...] = ()) -> bool:
    """Whether something of it is refused."""
    from reportgen.homecoming import chosen

    refused = [each for each in made.refused if not only or chosen(each, only)]
    return bool(refused or made.taken.refused or made.problems)


def said_of(made: Edits, season: str, workbook: str) -> list[str]:
    """All of it, with what to do next."""
    from reportgen.homecoming import refusals

    said: list[str] = []
    late = refusals(made)
    told_there = {(each.sheet, each.cell) for each in late}
    for kind, heading in _HEADINGS.items():
        found = [e for e in made.difference.of(kind) if (e.sheet, e.cell) not in told_there]
        if kind == "refused":
            found = _of_one_cause([*found, *late])
        words = [each for each in found if each.of_words]
        others = [each for each in found if not each.of_words]
        for group, title in ((others, heading), (words, _WORDS_OVER)):
            if not group:
                continue
            shown = group[:_MOST_TYPED_OVER] if kind == "overwritten" else group
            said += [f"{title}:", *(f"  {_line(made, each)}" for each in shown)]
            if len(shown) < len(group):
                said.append(f"  and {len(group) - len(shown):,} more, which --json tells")
    typed_over = [each for each in made.difference.of("overwritten") if not each.of_words]
    if typed_over:
        said.append(
            "What was typed over a formula counts in that workbook only: copy the formula from a "
            "like cell beside it, or build the workbook anew when all else is home."
        )
    if made.effects:
        said += ["What it does:", *(f"  {_effect(made, each)}" for each in made.effects)]
    open_ = made.difference.of("change", "added", "removed", "renamed", "conflict")
    if not said:
        said.append("Nothing was changed in this workbook.")
    elif not open_ and not made.refused:
        said.append("Nothing is left to take.")
    elif open_ and made.memory.product is not None:
        said.append("A costing sheet is only compared: write what is to count into the files.")
    elif stops(made):
        said.append(
            "Correct what cannot be taken and run this again"
            + ("." if made.problems else ", or take the other cells by --only.")
        )
    elif open_:
        both = made.difference.of("conflict")
        settled = any(not each.why for each in both)
        how = " --theirs, where the workbook is to count;" if settled else ""
        else_ = " else change the files, or the workbook" if settled else ""
        gone = " --removals" if made.difference.of("removed") else ""
        said.append(
            f"To write it into the files: reportgen take {season} {workbook}{gone}{how}{else_}"
        )
    return said


def _of_one_cause(refused: list[Change]) -> list[Change]:
    """Refused cells of one column, all for one cause, as one that names the others."""
    groups: dict[tuple[str, str, str], list[Change]] = {}
    for each in refused:
        groups.setdefault((each.sheet, each.field or each.cell, each.why), []).append(each)
    return [
        replace(first, why=f"{first.why} (so, too, {_listed([each.cell for each in others])})")
        if others
        else first
        for first, *others in groups.values()
    ]


def _listed(cells: list[str]) -> str:
    return ", ".join(cells[:8]) + (f" and {len(cells) - 8} more" if len(cells) > 8 else "")


def _line(made: Edits, change: Change) -> str:
    place = f"{change.sheet}!{change.cell}" if change.cell else change.sheet
    place = place or (f"{change.file}:{change.line}" if change.file else "")
    name = ": ".join(part for part in (_record(made, change), _field(made, change)) if part)
    line = f":{change.line}" if change.line else ""
    at = f" ({change.file}{line})" if change.file else ""
    built, edited, now = (
        _shown(made, change, value) for value in (change.built, change.edited, change.now)
    )
    if change.about:
        edited = f"~{edited}"
    match change.kind:
        case "refused":
            return ": ".join(part for part in (place, name, change.why) if part)
        case "overwritten" if change.of_words:
            built, edited = (quoted(value) for value in (change.built, change.edited))
            if change.built is None:
                return f"{place}: {edited} was written there"
            return f"{place}: {built} stood there, {edited} stands there now"
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


def quoted(value: Value) -> str:
    """What stands in a cell of no column."""
    from reportgen.read.near import short

    if value is None or value == "":
        return "nothing"
    return f"'{short(value, 80)}'" if isinstance(value, str) else f"{float(value):.12g}"


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
    from reportgen.edits.amounts import day
    from reportgen.edits.written import Writer

    if value is None or value == "":
        return "nothing"
    table = made.tables.get(change.table)
    if table is not None and isinstance(value, float) and _is_day(table, change.field):
        return day(value, True)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        column = table.inputs.get(change.field) if table is not None else None
        return f"{value:.12g}" if column is None else Writer(made.season.slots).shown(value, column)
    return str(value)


def _is_day(table: Table, name: str) -> bool:
    # A column that only finds another row has no kind.
    known = name in table.inputs or name in table.definitions
    return known and table.kind_of(name).type == "date"


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
        amount(value, definition.kind, made.season.slots) if not isinstance(value, str) else value
        for value in (effect.before, effect.after)
    )
    return f"{name}: {was} → {now}"
