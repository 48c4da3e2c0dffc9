"""What somebody wrote into a workbook where nothing is to be typed: texts beside the tables, and
comments. None of it can be taken home, and a build of the workbook would lose it."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.edits.found import find, place_of
from reportgen.edits.memory import NAME, Memory
from reportgen.returned.cells import Workbook


@dataclass(frozen=True)
class Texts:
    """The texts and comments of a workbook, wherever they stand."""

    cells: frozenset[str]
    notes: frozenset[str]


def texts(workbook: Workbook) -> Texts:
    """All that is written in a workbook, but what formulas give."""
    return Texts(
        frozenset(
            _folded(cell.value)
            for sheet in workbook
            for _, cell in sheet.cells()
            if isinstance(cell.value, str) and not cell.formula
        ),
        frozenset(_folded(text) for _, _, text in workbook.notes),
    )


def remarks(edited: Workbook, memory: Memory, anew: Texts) -> list[tuple[str, str]]:
    """Cells with a text or a comment that the workbook, built anew, has nowhere; and that text."""
    typed = _inputs(edited, memory)
    found = [
        (place_of(sheet.name, *at), cell.value)
        for sheet in edited
        if sheet.name != NAME
        for at, cell in sheet.cells()
        if isinstance(cell.value, str) and cell.value.strip() and not cell.formula
        if (sheet.name, *at) not in typed and _folded(cell.value) not in anew.cells
    ]
    return found + [
        (f"{sheet}!{cell}", text)
        for sheet, cell, text in edited.notes
        if text.strip() and _folded(text) not in anew.notes
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
