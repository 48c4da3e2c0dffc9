"""The cells on which an engine and the values cached in a workbook disagree."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from engines.cells import Fault, Place, Value, cells, formula_cells

__all__ = ["Difference", "differences", "formula_cells", "same", "uncached"]

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
    path: Path,
    engine_values: Mapping[Place, Value],
    rel: float = RELATIVE,
    abs: float = ABSOLUTE,
) -> list[Difference]:
    """Every formula cell of the workbook whose recalculated value is not the cached one."""
    return [
        Difference(*place, formula, cached, engine_values.get(place))
        for place, (formula, cached) in formula_cells(path).items()
        if not same(cached, engine_values.get(place), rel, abs)
    ]


def uncached(path: Path) -> list[Place]:
    """Formula cells without any cached value: previews and phones would show nothing there."""
    return [
        place
        for place, cell in cells(path).items()
        if cell.formula is not None and cell.value is None
    ]
