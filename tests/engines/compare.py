"""The cells on which an engine and the values cached in a workbook disagree."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from engines.cells import Cell, Fault, Place, Value, cells

RELATIVE = 1e-9
ABSOLUTE = 1e-12


class Difference(NamedTuple):
    """A formula cell, what the file said of it and what the engine says."""

    sheet: str
    cell: str
    formula: str
    cached: Value
    recalculated: Value

    def __str__(self) -> str:
        return (
            f"{self.sheet}!{self.cell}: cached {self.cached!r}, recalculated "
            f"{self.recalculated!r}, by ={self.formula}"
        )


def same(one: Value, other: Value, relative: float = RELATIVE, absolute: float = ABSOLUTE) -> bool:
    """Whether two values are equal: numbers within the tolerance, all else exactly.

    An empty text and an empty cell are the same; a truth value is no number; a fault is equal to
    nothing, itself included.
    """
    if isinstance(one, Fault) or isinstance(other, Fault):
        return False
    one, other = (None if value == "" else value for value in (one, other))
    if one is None or other is None:
        return one is other
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return math.isclose(one, other, rel_tol=relative, abs_tol=absolute)


def differences(
    workbook: Path | Mapping[Place, Cell],
    engine_values: Mapping[Place, Value],
    rel: float = RELATIVE,
    abs: float = ABSOLUTE,
) -> list[Difference]:
    """Every formula cell of the workbook whose recalculated value is not the cached one."""
    found = cells(workbook) if isinstance(workbook, Path) else workbook
    return [
        Difference(*place, cell.formula, cell.value, engine_values.get(place))
        for place, cell in found.items()
        if cell.formula is not None and not same(cell.value, engine_values.get(place), rel, abs)
    ]


def uncached(workbook: Path | Mapping[Place, Cell]) -> list[Place]:
    """Formula cells without any cached value: previews and phones would show nothing there."""
    found = cells(workbook) if isinstance(workbook, Path) else workbook
    return [
        place for place, cell in found.items() if cell.formula is not None and cell.value is None
    ]
