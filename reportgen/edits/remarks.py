"""What somebody wrote into a workbook where nothing is to be typed: texts beside the tables, and
comments. None of it can be taken home, and a build of the workbook would lose it."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.edits.found import find, place_of, singles
from reportgen.edits.memory import NAME, Memory
from reportgen.returned.cells import Workbook

_Place = tuple[str, int, int]


@dataclass(frozen=True)
class Written:
    """What stands in a workbook outside its inputs and is no formula: each cell's text by its
    place, and the comments, each with its cell."""

    cells: dict[_Place, str]
    notes: list[tuple[str, str]]


def written(edited: Workbook, memory: Memory) -> Written:
    """What of an edited workbook may be somebody's own."""
    typed = _inputs(edited, memory)
    cells = {
        (sheet.name, *at): cell.value
        for sheet in edited
        if sheet.name != NAME
        for at, cell in sheet.cells()
        if not cell.formula and isinstance(cell.value, str) and (sheet.name, *at) not in typed
    }
    return Written(cells, [(f"{sheet}!{cell}", text) for sheet, cell, text in edited.notes])


def remarks(found: Written, anew: Workbook) -> list[tuple[str, str]]:
    """Cells with a text or a comment that the workbook, built anew, has nowhere; and what stands
    there."""
    texts = {
        _folded(cell.value)
        for sheet in anew
        for _, cell in sheet.cells()
        if isinstance(cell.value, str) and not cell.formula
    }
    notes = {_folded(text) for _, _, text in anew.notes}
    return [
        (place_of(*place), value)
        for place, value in found.cells.items()
        if value.strip() and _folded(value) not in texts
    ] + [(cell, text) for cell, text in found.notes if text.strip() and _folded(text) not in notes]


def _inputs(edited: Workbook, memory: Memory) -> set[_Place]:
    """The cells of records and single figures, whose texts are compared as inputs."""
    tables, _ = find(edited, memory)
    cells = {
        (table.sheet.name, row.row, column)
        for table in tables.values()
        for row in table.rows
        for column in table.columns.values()
    }
    return cells | {*singles(edited, memory).values()}


def _folded(text: str) -> str:
    return " ".join(text.split())
