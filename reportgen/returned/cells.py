"""What a cell of a workbook from outside holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
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
    """The cells of one sheet that hold something, by row and column, both from 1."""

    name: str
    cells: dict[tuple[int, int], Cell] = field(default_factory=dict)

    def text(self, row: int, column: int) -> str:
        """A cell's text without blanks around it; empty where it holds none."""
        cell = self.cells.get((row, column))
        return cell.value.strip() if cell is not None and isinstance(cell.value, str) else ""

    def value(self, row: int, column: int) -> Value:
        """A cell's value; None where it holds nothing, or blanks only."""
        cell = self.cells.get((row, column))
        if cell is None or cell.error:
            return None
        if isinstance(cell.value, str):
            return cell.value.strip() or None
        return cell.value


@dataclass
class Workbook:
    """The sheets of a file, in its order."""

    sheets: list[Sheet] = field(default_factory=list)

    def __iter__(self) -> Iterator[Sheet]:
        return iter(self.sheets)
