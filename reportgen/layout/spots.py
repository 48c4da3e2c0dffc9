"""Places on sheets, and how formulas write them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Protocol

from reportgen.algebra.factors import Factor
from reportgen.algebra.places import ROW


@cache
def letters(column: int) -> str:
    """A column's letters: 1 is A, 27 is AA."""
    text = ""
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(65 + rest) + text
    return text


@dataclass(frozen=True)
class Spot:
    """A column of a table, or (``first == last``) one cell."""

    sheet: str
    column: int
    first: int
    last: int
    """The closing row, inside the range so that rows inserted above it are inside too."""

    @property
    def cell(self) -> str:
        """The address of its first cell."""
        return f"{letters(self.column)}{self.first}"


def quoted(sheet: str) -> str:
    """A sheet's name as formulas write it."""
    if sheet.isascii() and sheet.isalnum():
        return sheet
    escaped = sheet.replace("'", "''")
    return f"'{escaped}'"


class Finds(Protocol):
    """What knows the places: the layout."""

    singles: dict[tuple[str, str], Spot]
    constants: dict[str, Spot]
    factors: dict[Factor, Spot]

    def column(self, table: str, name: str, sheet: str = "") -> Spot:
        """A column's place: on the given sheet if it stands there, else wherever it does."""
        ...


class Seen:
    """Places as seen from one sheet: the sheet's own cells go without its name."""

    def __init__(self, layout: Finds, sheet: str) -> None:
        self._layout, self._sheet = layout, sheet
        self._spots: dict[tuple[str, str], Spot] = {}

    def _spot(self, table: str, column: str) -> Spot:
        key = (table, column)
        if key not in self._spots:
            self._spots[key] = self._layout.column(table, column, self._sheet)
        return self._spots[key]

    def _prefix(self, spot: Spot) -> str:
        return "" if spot.sheet == self._sheet else f"{quoted(spot.sheet)}!"

    def cell(self, table: str, column: str) -> str:
        """A column's cell in the same row."""
        spot = self._spot(table, column)
        return f"{self._prefix(spot)}${letters(spot.column)}{ROW}"

    def span(self, table: str, column: str) -> str:
        """All rows of a column, the closing row included."""
        spot = self._spot(table, column)
        letter = letters(spot.column)
        return f"{self._prefix(spot)}${letter}${spot.first}:${letter}${spot.last}"

    def _fixed(self, spot: Spot) -> str:
        return f"{self._prefix(spot)}${letters(spot.column)}${spot.first}"

    def single(self, table: str, column: str) -> str:
        """The cell of a table that has one row."""
        return self._fixed(self._layout.singles[table, column])

    def address(self, table: str, column: str) -> str:
        """Sheet and column as people say them; of a table that has one row, the cell."""
        spot = self._layout.singles.get((table, column))
        if spot is not None:
            return f"{spot.sheet} {spot.cell}"
        spot = self._spot(table, column)
        return f"{spot.sheet} {letters(spot.column)}"

    def constant(self, name: str) -> str:
        """The cell of a named constant."""
        return self._fixed(self._layout.constants[name])

    def factor(self, factor: Factor) -> str:
        """The cell of a unit factor."""
        return self._fixed(self._layout.factors[factor])
