"""There and back: what is typed into a season's workbook comes home into its files, and a build of
them says what the recalculated workbook does."""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

import pytest
from engines import gnumeric
from engines.cells import Place, Value
from engines.compare import same
from engines.edit import typed as typed_into
from seasons import Edit, Season, edited_often
from thorough import some
from workbook import places
from workbook.making import in_processes, read
from workbook.places import Grid
from workbook.typing_in import DAY, DEFAULT, ROWS, typed

from reportgen import program
from reportgen.algebra.numbers import Numbers
from reportgen.edits.safely import write_all
from reportgen.edits.written import UNWRITTEN
from reportgen.homecoming import AS_OF, Choice, edits, folder_of, refusals
from reportgen.model.season import Season as ReadSeason
from reportgen.returned.reading import read as returned
from reportgen.trade import BOOK
from reportgen.trade.rows import follow

SEASONS, EACH = some(of=20, at_every_change=3), 2
BY_PLACE = ("uses", "draws", "counts", "mix_parts", "bought_parts", "upkeep")


@dataclass
class Journey:
    """One season, an edit, and what came of it."""

    words: str
    typed: int = 0
    refused: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    left: int = 0
    second: dict[str, str] = field(default_factory=dict)
    other_lines: list[str] = field(default_factory=list)
    skipped: str = ""
    into: Counter[tuple[str, str]] = field(default_factory=Counter)
    """How often each column was typed into."""
    cells: list[tuple[str, str]] = field(default_factory=list)
    """The cells that are refused."""
    followed: list[str] = field(default_factory=list)
    """Tables whose rows follow from others', and are others by now: no workbook makes them."""


def journeys(job: tuple[Season, list[Edit], Path]) -> list[Journey]:
    """Build a season once; of each edit: type, take, build again, from the files as they were."""
    source, wanted, folder = job
    folder.mkdir(parents=True)
    season, before = read(source, folder / "built")
    grids = places.of_program(before)
    built = folder / "built.xlsx"
    found = []
    for number, edit in enumerate(wanted, 1):
        made, beside = Journey(str(edit)), folder / str(number)
        found.append(made)
        _, after = read(edit.season, beside / "wanted")
        try:
            entered = typed(before, after, edit, grids)
        except AssertionError as error:
            if "no spare row in" not in str(error):
                raise
            made.skipped = "a table that follows has no room for it"
            continue
        made.typed = len(entered.cells)
        if set(entered.told) & {ROWS, DEFAULT, DAY}:
            made.skipped = "a reader of the files finds more than was typed"
            continue
        if not built.exists():
            built.write_bytes(program.workbook(season, before))
        hidden = following(grids)
        by_hand = {at: value for at, value in entered.cells.items() if column_of(at) not in hidden}
        changed = typed_into(built, by_hand, beside / "edited.xlsx")
        place = shutil.copytree(folder / "built", beside / "season")
        new_in = [edit.table] if edit.kind == "added" else []
        meant = partial(_all_of, entered.cells)
        home(made, place, (season, before), changed, built, grids, meant, new_in)
    return found


def _all_of(cells: dict[Place, Value], after: Numbers) -> dict[Place, Value]:
    return cells


def column_of(place: Place) -> Place:
    """The sheet and the letters of a cell's column."""
    return place[0], place[1].rstrip("0123456789")


def following(grids: Mapping[str, Grid]) -> set[Place]:
    """The columns that say how weights were written: whoever types a weight types none of them, and
    what they say follows from what is then written."""
    return {
        (column.sheet, column.letters)
        for grid in grids.values()
        for name, column in grid.columns.items()
        if name.endswith(UNWRITTEN)
    }


def home(
    made: Journey, place: Path, read_before: tuple[ReadSeason, Numbers],
    changed: Path, built: Path, grids: dict[str, Grid],
    meant: Callable[[Numbers], Mapping[Place, Value]], new_in: Collection[str] = (),
) -> None:  # fmt: skip
    """Take an edited workbook home, and hold what a build then says against it.

    ``meant``: what to type into the workbook as ``built`` so that it says in plain numbers what
    ``changed`` does, given what was read from the files then. ``new_in``: tables that have a row
    more, or one of another owner.
    """
    season, before = read_before
    book = returned(changed)
    coming = edits(place, season, before, book, Choice(removals=True))
    refused = [*coming.refused, *refusals(coming), *coming.difference.of("conflict")]
    made.refused = [each.why or each.kind for each in refused]
    made.cells = [(each.sheet, each.cell) for each in refused]
    if made.refused:
        return
    write_all(folder_of(place), coming.taken.texts, coming.read)
    typed = [each.edited for each in coming.taken.done if each.field == AS_OF]
    done = program.read(place, as_of=typed[0] if typed else coming.memory.as_of)
    assert done.season is not None and done.numbers is not None
    told = typed_into(built, meant(done.numbers), changed.with_name("meant.xlsx"))
    values = gnumeric.recalculate([told], changed.parent / "gnumeric")[told]
    found = places.read_back(values, grids)
    taken = places.figures(done.numbers, grids)
    for table in {*new_in} & {*BY_PLACE}:
        in_order(table, found[table], taken[table])
    then, now = (follow(BOOK, each.cells) for each in (before, done.numbers))
    made.followed = [name for name in then if then[name] != now[name]]
    if _packing_days(done.season) != _packing_days(season):
        made.followed.append("packs")
    # A new row stands at the end of its table, and in the file where it belongs.
    products = [each.cells["products"]["key"] for each in (before, done.numbers)]
    reordered = bool(new_in) or products[0] != products[1]
    made.wrong = [*places.differing(found, taken, reordered)]
    again = edits(place, done.season, done.numbers, book, Choice(removals=True))
    open_ = again.difference.of("change", "added", "removed", "renamed", "conflict", "refused")
    made.left, made.second = len(open_), again.taken.texts


def _packing_days(season: ReadSeason) -> list[Value]:
    """The days of packs for which none is written: that of their run's end, found in reading."""
    rows = season.tables["packs"]
    days = zip(rows.values["date"], rows.origins["date"], strict=True)
    return [day for day, origin in days if origin is None or origin.kind != "given"]


def in_order(
    table: str, found: dict[str, dict[str, Value]], taken: dict[str, dict[str, Value]]
) -> None:
    """Rows that go by their place, in the order of those that they are compared with: a new record
    may stand in a file of its own, which is read before others."""
    left = list(found.values())
    for key, row in taken.items():
        alike = [
            each
            for each in left
            if all(
                same(value, each[name], 1e-9, 1e-9)
                for name, value in row.items()
                if (table, name) not in places.PLACES
            )
        ]
        if alike:
            left.remove(alike[0])
            found[key] = alike[0]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> list[Journey]:
    folder = tmp_path_factory.mktemp("journeys")
    jobs = [
        (*season, folder / str(number))
        for number, season in enumerate(edited_often(SEASONS, 77, EACH))
    ]
    return [each for found in in_processes(journeys, jobs) for each in found]


def test_what_is_typed_comes_home(made: list[Journey]) -> None:
    assert [(each.words, each.refused) for each in made if each.refused] == []
    assert [(each.words, each.wrong[:3]) for each in made if each.wrong] == []


def test_then_nothing_is_left_and_a_second_call_changes_nothing(made: list[Journey]) -> None:
    gone = [each for each in made if not each.skipped and not each.refused]
    assert [(each.words, each.left) for each in gone if each.left or each.second] == []
    assert sum(each.typed for each in gone) > len(gone) // 2
