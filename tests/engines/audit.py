"""Everything that the three engines find wrong with a number of workbooks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from engines import gnumeric, iron, libreoffice
from engines.cells import Fault, cells
from engines.compare import differences, uncached

_AT_ONCE = 80
"""Workbooks whose values are held in memory together."""


def faults(paths: Sequence[Path], out: Path) -> dict[Path, list[str]]:
    """What is wrong, by workbook; a workbook without a fault is left out.

    A formula cell without a cached value, an error value anywhere, and every formula cell on which
    LibreOffice, Gnumeric or ironcalc do not confirm the cache. A workbook without a single formula
    is wrong too: nothing would have been checked.
    """
    found: dict[Path, list[str]] = {}
    for first in range(0, len(paths), _AT_ONCE):
        some = paths[first : first + _AT_ONCE]
        by_calc = libreoffice.recalculate(some, out / str(first))
        by_gnumeric = gnumeric.recalculate(some, out / f"{first}-gnumeric")
        for path in some:
            engines = {"LibreOffice": by_calc[path], "Gnumeric": by_gnumeric[path]}
            said = list(_of_one(path, engines))
            if said:
                found[path] = said
    return found


def _of_one(path: Path, engines: dict[str, dict]) -> Iterator[str]:
    contents = cells(path)
    if not any(cell.formula for cell in contents.values()):
        yield "no formula in the whole workbook"
    for sheet, ref in uncached(contents):
        yield f"{sheet}!{ref}: no cached value"
    for (sheet, ref), cell in contents.items():
        if isinstance(cell.value, Fault):
            yield f"{sheet}!{ref}: holds {cell.value}"
    for name, recalculated in {**engines, "ironcalc": iron.recalculate(path)}.items():
        for each in differences(contents, recalculated):
            yield f"{name}: {each}"
