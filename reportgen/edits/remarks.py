"""What somebody wrote into a workbook where nothing is to be typed: texts beside the tables, and
comments. None of it can be taken home, and a build of the workbook would lose it."""

from __future__ import annotations

from reportgen.edits.found import find, place_of
from reportgen.edits.memory import NAME, Memory
from reportgen.returned.cells import Workbook


def remarks(edited: Workbook, memory: Memory, anew: Workbook) -> list[tuple[str, str]]:
    """Cells with a text or a comment that the workbook, built anew, has nowhere; and that text."""
    ours = {
        _folded(cell.value)
        for sheet in anew
        for cell in sheet.cells.values()
        if isinstance(cell.value, str) and not cell.formula
    }
    typed = _inputs(edited, memory)
    found = [
        (place_of(sheet.name, *at), cell.value)
        for sheet in edited
        if sheet.name != NAME
        for at, cell in sorted(sheet.cells.items())
        if isinstance(cell.value, str) and cell.value.strip() and not cell.formula
        if (sheet.name, *at) not in typed and _folded(cell.value) not in ours
    ]
    notes = {_folded(text) for _, _, text in anew.notes}
    return found + [
        (f"{sheet}!{cell}", text)
        for sheet, cell, text in edited.notes
        if text.strip() and _folded(text) not in notes
    ]


def _inputs(edited: Workbook, memory: Memory) -> set[tuple[str, int, int]]:
    """The cells of records and single figures, whose texts are compared as inputs."""
    tables, _ = find(edited, memory)
    cells = {
        (table.sheet.name, row.row, column)
        for table in tables.values()
        for row in table.rows
        for column in table.columns.values()
    }
    return cells | {at for name in memory.cells.values() if (at := edited.names.get(name))}


def _folded(text: str) -> str:
    return " ".join(text.split())
