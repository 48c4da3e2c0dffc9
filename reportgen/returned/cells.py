"""What a cell of a workbook from outside holds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import Literal

Value = float | str | bool | None
"""As a spreadsheet keeps it: a date is a number of days."""


@dataclass(frozen=True, slots=True)
class Cell:
    """``value``: what was typed, or what a formula gave when the file was saved, None where it gave
    none. ``shown``: whether the cell's format shows a number as a day, or as a time of day or a
    span of time. ``error``: an error value stands there."""

    value: Value
    formula: bool = False
    shown: Literal["number", "day", "time"] = "number"
    error: bool = False


@dataclass
class Sheet:
    """The cells of one sheet that hold something, by row and column, both from 1.

    A row is a list up to its last cell: with millions of cells, a place costs a few bytes.
    """

    name: str
    _rows: dict[int, list[Cell | None]] = field(default_factory=dict)

    def put(self, row: int, column: int, cell: Cell) -> int:
        """Keep a cell, and say how many places were made for it: the empty ones before it, too."""
        places = self._rows.setdefault(row, [])
        made = max(0, column - len(places))
        places.extend([None] * made)
        places[column - 1] = cell
        return made

    def cell(self, row: int, column: int) -> Cell | None:
        """The cell at a place; None where it holds nothing."""
        places = self._rows.get(row, ())
        return places[column - 1] if column <= len(places) else None

    def cells(self) -> Iterator[tuple[tuple[int, int], Cell]]:
        """Each cell with its row and column, in their order."""
        for row in sorted(self._rows):
            yield from self.cells_of(row)

    def cells_of(self, row: int) -> Iterator[tuple[tuple[int, int], Cell]]:
        """Those of one row."""
        for column, cell in enumerate(self._rows.get(row, ()), start=1):
            if cell is not None:
                yield (row, column), cell

    def rows(self, first: int, end: int) -> list[int]:
        """The rows from the first to the one before the end that hold something."""
        return sorted(row for row in self._rows if first <= row < end)

    @property
    def height(self) -> int:
        """How many rows hold something."""
        return len(self._rows)

    def text(self, row: int, column: int) -> str:
        """A cell's text without blanks around it; empty where it holds none."""
        cell = self.cell(row, column)
        return cell.value.strip() if cell is not None and isinstance(cell.value, str) else ""

    def value(self, row: int, column: int) -> Value:
        """A cell's value; None where it holds nothing, or blanks only."""
        cell = self.cell(row, column)
        if cell is None or cell.error:
            return None
        if isinstance(cell.value, str):
            return cell.value.strip() or None
        return cell.value


LAST_COLUMN = 16_384
"""XFD, the last that a sheet has; a row takes as many places as its last cell asks for."""
_TRUTH = re.compile(r"(?:of:)?=?(?:TRUE|FALSE)\(\)", re.I)


def is_formula(text: str) -> bool:
    """Whether something is worked out by it: a suite without a kind of value for yes and no writes
    one that was typed as ``TRUE()``."""
    return _TRUTH.fullmatch(text.strip()) is None


_PLACE = re.compile(r"\$?(?:'((?:[^']|'')+)'|([^'!.$]+))[!.]\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})")


def named_cell(reference: str) -> tuple[str, int, int] | None:
    """The sheet, row and column of a reference to one cell, as ``Rates!$C$7`` or ``$Rates.$C$7``;
    None for any other."""
    found = _PLACE.fullmatch(reference.strip())
    if found is None:
        return None
    sheet = found[1].replace("''", "'") if found[1] else found[2]
    return sheet, int(found[4]), number_of(found[3])


@cache  # asked of every cell; letters are three at most
def number_of(letters: str) -> int:
    """A column's number: A is 1, AA is 27."""
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number


def letters_of(column: int) -> str:
    """A column's letters."""
    text = ""
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(65 + rest) + text
    return text


@dataclass
class Workbook:
    """The sheets of a file, in its order."""

    sheets: list[Sheet] = field(default_factory=list)
    names: dict[str, tuple[str, int, int]] = field(default_factory=dict)
    """Defined name → the sheet, row and column of the one cell that it stands for."""
    notes: list[tuple[str, str, str]] = field(default_factory=list)
    """Comments on cells, where they were asked for: sheet, cell, text."""

    def __iter__(self) -> Iterator[Sheet]:
        return iter(self.sheets)
