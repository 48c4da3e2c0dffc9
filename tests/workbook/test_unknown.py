"""Whatever is unknown, Python and both engines say the same, and nobody shows an error value.

All subsets of nine inputs on which most figures rest, each in its table's first row, each single
key of the season left out, random subsets of all its keys, and all of them: before a release. At
every change a sixth of them, and all of them left out. LibreOffice gets every eighth.
"""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest
from engines import iron, libreoffice
from engines.cells import Fault, cells
from engines.edit import typed as typed_into
from seasons import tiny
from seasons.leaves import optional, without
from thorough import BEFORE_A_RELEASE

from workbook import forms, places
from workbook.making import engines_are_here, in_processes, read
from workbook.typing_in import typed

CORE = (
    ("lots", "weighed"), ("lots", "prepped"), ("lots", "price"),
    ("runs", "duration"), ("runs", "energy"), ("loads", "wet"), ("loads", "dry"),
    ("packs", "net"), ("offers", "price"),
)  # fmt: skip
RANDOM = 100
STEP = 1 if BEFORE_A_RELEASE else 12
EIGHTH = 8
_TOGETHER = 40

Subset = tuple[int, ...]
"""Keys left out, by their number among those that may be."""


class Compared(NamedTuple):
    """A subset: its names, what Python says, where ironcalc does not agree."""

    names: str
    expected: places.Figures
    wrong: list[str]
    copy: Path | None
    """The workbook with these cells emptied, for LibreOffice."""


def subsets() -> list[Subset]:
    leaves = optional(tiny())
    first = {(leaf.row.table, leaf.name): n for n, leaf in [*enumerate(leaves)][::-1]}
    core = sorted(first[each] for each in CORE)
    rng = Random("unknown")
    every = range(len(leaves))
    found = [each for size in range(len(core) + 1) for each in combinations(core, size)]
    found += [(n,) for n in every]
    found += [tuple(sorted(rng.sample(every, rng.randint(2, len(leaves))))) for _ in range(RANDOM)]
    return [*found[::STEP], tuple(every)]


def compared(job: tuple[list[Subset], Path]) -> list[Compared]:
    """What Python and ironcalc say of each subset of keys left out."""
    some, folder = job
    folder.mkdir()
    source, leaves = tiny(), optional(tiny())
    season, whole = read(source, folder / "whole")
    path = forms.write(season, whole, folder / "whole.xlsx")
    grids = places.grids(forms.layout(whole), whole)
    written, opened = cells(path), iron.Opened(path)
    results, last = [], {}
    for number, subset in enumerate(some):
        left_out = [leaves[n] for n in subset]
        _, numbers = read(without(source, left_out), folder / str(number))
        emptied = typed(whole, numbers, None, grids).cells
        back = {place: written[place].value if place in written else None for place in last}
        opened.enter(back | emptied)
        last = emptied
        values = opened.values()
        expected = places.figures(numbers, grids)
        names = ", ".join(f"{leaf.row.table}.{leaf.name}" for leaf in left_out)
        found = places.read_back(values, grids)
        wrong = [f"{place} {value}" for place, value in values.items() if isinstance(value, Fault)]
        wrong += places.differing(found, expected)
        copy = None
        if number % EIGHTH == 0:
            copy = typed_into(path, emptied, folder / f"{number}.xlsx")
        results.append(Compared(names, expected, [f"without {names}: {w}" for w in wrong], copy))
    return results


@pytest.fixture(scope="module")
def made(
    tmp_path_factory: pytest.TempPathFactory,
) -> list[Compared]:
    folder = tmp_path_factory.mktemp("unknown")
    engines_are_here(folder)
    every = subsets()
    parts = [every[n : n + _TOGETHER] for n in range(0, len(every), _TOGETHER)]
    jobs = [(part, folder / str(n)) for n, part in enumerate(parts)]
    return [each for part in in_processes(compared, jobs) for each in part]


def test_ironcalc_and_python_agree_on_every_subset(
    made: list[Compared],
) -> None:
    assert [each for one in made for each in one.wrong] == []
    assert len(made) * STEP >= 2 ** len(CORE) + RANDOM


def test_libreoffice_and_python_agree_on_every_eighth(made: list[Compared], tmp_path: Path) -> None:
    _, whole = read(tiny(), tmp_path / "whole")
    grids = places.grids(forms.layout(whole), whole)
    some = {each.copy: each for each in made if each.copy}
    assert len(some) >= len(made) // EIGHTH
    values = libreoffice.recalculate(list(some), tmp_path / "out")
    said = [
        f"without {each.names}: {wrong}"
        for path, each in some.items()
        for wrong in places.differing(places.read_back(values[path], grids), each.expected)
    ]
    assert said == []


def test_much_becomes_unknown_and_something_stays_known(
    made: list[Compared],
) -> None:
    """Else the comparison would be between empty cells, or between the same full ones. Told by the
    figures that are known in some seasons only: the others hang on none of these inputs."""
    said = [
        {(table, key, name): value is None for table, rows in expected.items()
         for key, row in rows.items() for name, value in row.items()}
        for _, expected, _, _ in made
    ]  # fmt: skip
    figures = {place for each in said for place in each}
    hanging = {place for place in figures if len({each.get(place, True) for each in said}) == 2}
    unknown = [sum(each.get(place, True) for place in hanging) / len(hanging) for each in said]
    assert len(hanging) > 500
    assert min(unknown) < 0.1
    assert 0.5 < max(unknown) < 0.9
