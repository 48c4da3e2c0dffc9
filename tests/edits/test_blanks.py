"""What is typed into empty cells comes home: of records in lists and of days in the short form."""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from random import Random

import pytest
from engines.edit import typed as typed_into
from seasons import Season, make
from seasons.pen import Pen
from seasons.short import with_short_files
from thorough import some
from workbook import places
from workbook.making import in_processes, read

from edits.blanks import said, typed_at_random
from edits.test_round_trip import Journey, home
from reportgen import program
from reportgen.edits.records import OWNED

Job = tuple[int, int, int, Path]
"""Seed, number of the season, how often it is typed into, a folder."""
TRIES = 4
SEASONS, EACH = some(of=20, at_every_change=2), 4


def season_of(seed: int, number: int) -> Season:
    """A made-up season, most of them with days in the short form."""
    rng = Random(f"blanks {seed}/{number}")
    pen = Pen(rng)
    season = make(rng)
    pen.habit, pen.currency = rng.choice(("customary", "metric")), season.head["currency"]
    return with_short_files(pen, season, rng.choice((0, 1, 2)))


def journeys(job: Job) -> list[Journey]:
    """Build a season once; type into it, take, build again, some times over. Cells that are refused
    are left as they were, and the others are taken by themselves."""
    seed, number, times, folder = job
    source, rng = season_of(seed, number), Random(f"typed {seed}/{number}")
    season, before = read(source, folder / "built")
    grids = places.of_program(before)
    built = folder / "built.xlsx"
    built.write_bytes(program.workbook(season, before))
    found = []
    for turn in range(times):
        wanted = typed_at_random(rng, season, before, grids)
        for attempt in range(TRIES):
            beside = folder / f"{turn}-{attempt}"
            beside.mkdir()
            words = ", ".join(
                f"{each.table}.{each.column.name} {'!'.join(cell)} {each.now!r} -> {value!r}"
                for cell, (each, value) in wanted.items()
            )
            made = Journey(f"{seed}/{number} {words}", typed=len(wanted))
            made.into = Counter((each.table, each.column.name) for each, _ in wanted.values())
            values = {cell: value for cell, (_, value) in wanted.items()}
            changed = typed_into(built, values, beside / "edited.xlsx")
            place = shutil.copytree(folder / "built", beside / "season")
            meant = partial(said, [*wanted.values()], grids)
            moved = [
                each.table
                for each, _ in wanted.values()
                if each.column.name == OWNED.get(each.table, ("", "", ""))[1]
            ]
            home(made, place, (season, before), changed, built, grids, meant, moved)
            found.append(made)
            left = {cell: each for cell, each in wanted.items() if cell not in made.cells}
            if not made.refused or not left or len(left) == len(wanted):
                break
            wanted = left
    return found


def faults(made: Sequence[Journey]) -> list[str]:
    """What did not come home. Where rows follow that the workbook does not make, its figures may
    differ; what was typed must be there all the same."""
    return [
        f"{each.words}: {[*(each.wrong[:3] if not each.followed else ()), *each.second, each.left]}"
        for each in made
        if not each.refused and (each.left or each.second or (each.wrong and not each.followed))
    ]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> list[Journey]:
    folder = tmp_path_factory.mktemp("blanks")
    jobs = [(5, number, EACH, folder / str(number)) for number in range(SEASONS)]
    return [each for found in in_processes(journeys, jobs) for each in found]


def test_what_is_typed_into_empty_cells_comes_home(made: list[Journey]) -> None:
    assert faults(made) == []


def test_much_of_it_is_taken(made: list[Journey]) -> None:
    gone = [each for each in made if not each.refused]
    assert sum(each.typed for each in gone) > sum(each.typed for each in made) // 4
    assert [
        each.words for each in made if any("could not be written" in w for w in each.refused)
    ] == []
