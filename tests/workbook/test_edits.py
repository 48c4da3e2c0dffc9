"""Made-up seasons: three engines confirm every cell, and an edited cell is an edit of the YAML."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from engines import libreoffice
from engines.cells import Place, Value
from seasons import sample_edits
from seasons.edits import KINDS
from thorough import some

from workbook import places
from workbook.making import Built, Edited, confirmed, edited, engines_are_here, in_processes, wrong
from workbook.typing_in import DAY, DEFAULT, LONGER, ORDER, ROWS

MANY = some(of=120, at_every_change=50)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Built, Edited]]:
    folder = tmp_path_factory.mktemp("edits")
    engines_are_here(folder)
    made_up = enumerate(sample_edits(MANY, 20))
    return in_processes(edited, [(*each, folder / str(number)) for number, each in made_up])


def by_calc(paths: list[Path], out: Path, said: list[str], judge: object) -> None:
    found = libreoffice.recalculate(paths, out)
    for number, path in enumerate(paths):
        said += judge(number, found[path])  # type: ignore[operator]


def test_ironcalc_and_gnumeric_confirm_every_formula_cell(made: list[tuple[Built, Edited]]) -> None:
    assert [(str(built.path), built.faults) for built, _ in made if built.faults] == []
    assert len(made) == MANY
    assert min(len(built.contents) for built, _ in made) > 700


def test_libreoffice_confirms_every_formula_cell(
    made: list[tuple[Built, Edited]], tmp_path: Path
) -> None:
    said: list[str] = []

    def judge(number: int, values: dict[Place, Value]) -> list[str]:
        return [f"{number}: {each}" for each in confirmed(made[number][0].contents, values)]

    by_calc([built.path for built, _ in made], tmp_path, said, judge)
    assert said == []


def test_ironcalc_and_gnumeric_make_of_each_edit_what_a_fresh_build_does(
    made: list[tuple[Built, Edited]],
) -> None:
    assert [(each.words, each.faults) for _, each in made if each.faults] == []


def test_libreoffice_makes_of_each_edit_what_a_fresh_build_does(
    made: list[tuple[Built, Edited]], tmp_path: Path
) -> None:
    said: list[str] = []

    def judge(number: int, values: dict[Place, Value]) -> list[str]:
        each = made[number][1]
        found = places.read_back(values, each.places)
        return [f"{each.words}: {one}" for one in wrong(found, each.expected, each.told)]

    by_calc([each.path for _, each in made], tmp_path, said, judge)
    assert said == []


def test_the_edits_are_of_all_kinds_and_change_figures(made: list[tuple[Built, Edited]]) -> None:
    """Most edits must move something, or the comparison would prove little. (A seller's name
    moves nothing, nor does a dryer's price where its life is unknown.)"""
    edits = [each for _, each in made]
    assert {each.kind for each in edits} == set(KINDS)
    assert sum(each.stale > 0 for each in edits) > 0.65 * len(edits)
    assert sum(places.count(each.expected) for each in edits) > 300 * len(edits)


def test_little_is_typed_that_reading_would_have_found(made: list[tuple[Built, Edited]]) -> None:
    """What a workbook cannot know by itself is typed beside the edit; it is counted here."""
    told = Counter(reason for _, each in made for reason in set(each.told))
    most = {DAY: 0.18, ROWS: 0.12, DEFAULT: 0.04, ORDER: 0.04, LONGER: 0.02}
    assert set(told) <= set(most)
    assert all(n <= most[reason] * len(made) for reason, n in told.items()), told
    untouched = [each.words for _, each in made if not each.cells]
    assert len(untouched) < 0.03 * len(made), untouched
