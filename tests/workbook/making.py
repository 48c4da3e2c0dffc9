"""Many seasons built, edited and recalculated at once, in as many processes as there are cores."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import TypeVar

import garbage
from engines import gnumeric, iron, libreoffice
from engines.cells import Cell, Fault, Place, Value, cells
from engines.compare import differences, uncached
from engines.edit import typed as typed_into
from engines.handmade import write as handmade
from seasons import Edit, Season

from reportgen import program
from reportgen.algebra.numbers import Numbers
from reportgen.model.season import Season as ReadSeason
from workbook import forms, places
from workbook.typing_in import LONGER, ORDER, typed

Item = TypeVar("Item")
Result = TypeVar("Result")


@dataclass(frozen=True)
class Built:
    """A season's workbook in the compact form, and what two engines said of it."""

    path: Path
    contents: dict[Place, Cell]
    """Its formula cells, with their cached values."""
    faults: list[str]


@dataclass(frozen=True)
class Edited:
    """The workbook of a season with an edit typed into it, and what a fresh build says."""

    words: str
    kind: str
    path: Path
    cells: int
    """How many cells were typed into."""
    told: list[str]
    places: dict[str, places.Grid]
    expected: places.Figures
    stale: int
    """Figures that were others before the edit."""
    faults: list[str]


def in_processes(work: Callable[[Item], Result], items: Sequence[Item]) -> list[Result]:
    """The results in order; every process imports the tests anew, which is not worth it where other
    tests already keep the cores busy."""
    if "PYTEST_XDIST_WORKER" in os.environ:
        return [work(each) for each in items]
    fresh = get_context("spawn")
    with ProcessPoolExecutor(os.cpu_count(), fresh, initializer=garbage.seldom) as pool:
        return list(pool.map(work, items, chunksize=5))


def engines_are_here(folder: Path) -> None:
    """Skip or fail at once, rather than in another process."""
    path = handmade(folder / "one.xlsx", {"A1": ("1+1", 2.0)})
    assert iron.recalculate(path)["Sheet", "A1"] == 2
    assert libreoffice.recalculate([path], folder / "one")[path]["Sheet", "A1"] == 2
    assert gnumeric.recalculate([path], folder / "one-more")[path]["Sheet", "A1"] == 2


def read(season: Season, folder: Path) -> tuple[ReadSeason, Numbers]:
    """The season and its numbers; every made-up one can be read."""
    found = program.read(season.write(folder))
    assert found.season is not None and found.numbers is not None, found.problems
    return found.season, found.numbers


def confirmed(contents: dict[Place, Cell], engine: dict[Place, Value]) -> list[str]:
    """What is wrong by one engine: a missing cache, an error value, another value."""
    wrong = [f"{sheet}!{ref}: no cached value" for sheet, ref in uncached(contents)]
    wrong += [f"{place}: {value}" for place, value in engine.items() if isinstance(value, Fault)]
    return wrong + list(map(str, differences(contents, engine)))


def build(source: Season, folder: Path) -> tuple[Built, Numbers, iron.Opened]:
    """Build a season's workbook in the compact form, and let two engines recalculate it."""
    folder.mkdir()
    season, numbers = read(source, folder / "before")
    path = forms.write(season, numbers, folder / "before.xlsx")
    contents = {place: cell for place, cell in cells(path).items() if cell.formula is not None}
    opened = iron.Opened(path)
    told = {"ironcalc": opened.values(), "Gnumeric": by_gnumeric(path)}
    faults = [f"{engine}: {each}" for engine in told for each in confirmed(contents, told[engine])]
    return Built(path, contents, faults), numbers, opened


def wrong(found: places.Figures, expected: places.Figures, told: Sequence[str]) -> list[str]:
    """What of an edited workbook is not as in the edited season. One with a list that has no room
    for what follows has to say so (what, is held in ``tests/trade/test_lists.py``)."""
    if LONGER in told:
        asked = [row["verdict"] for row in found["checks"].values()]
        return [] if "caution" in asked else ["nothing says that a list is short"]
    return list(places.differing(found, expected, ORDER in told))


def by_gnumeric(path: Path) -> dict[Place, Value]:
    """Every cell's value of one workbook by Gnumeric."""
    return gnumeric.recalculate([path], path.parent / "gnumeric")[path]


def edited(job: tuple[Season, Edit, Path]) -> tuple[Built, Edited]:
    """Build a season's workbook, type the edit into it, and read it back through two engines.

    For Gnumeric and LibreOffice the edit is typed into the file; ironcalc has it open already.
    """
    source, edit, folder = job
    built, before, opened = build(source, folder)
    _, after = read(edit.season, folder / "after")
    grids = places.grids(forms.layout(before), before)
    entered = typed(before, after, edit, grids)
    expected = places.figures(after, grids)
    stale = len(list(places.differing(places.figures(before, grids), expected)))
    opened.enter(entered.cells)
    path = typed_into(built.path, entered.cells, folder / "after.xlsx")
    faults = [
        f"{engine}: {each}"
        for engine, values in (("ironcalc", opened.values()), ("Gnumeric", by_gnumeric(path)))
        for each in wrong(places.read_back(values, grids), expected, entered.told)
    ]
    return built, Edited(
        words=str(edit),
        kind=edit.kind,
        path=path,
        cells=len(entered.cells),
        told=entered.told,
        places=grids,
        expected=expected,
        stale=stale,
        faults=faults,
    )
