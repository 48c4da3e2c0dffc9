"""Totals from running columns: as Python has them in every engine, whether rows stand together or
apart; and a row inserted or deleted among them turns the verdict red."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from engines import edit, gnumeric, iron, libreoffice
from engines.cells import cells
from engines.compare import differences
from thorough import every

from benchmarks import large
from reportgen import program
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.running import Running
from reportgen.layout.compose import compose
from reportgen.model.season import Season as ReadSeason
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK
from reportgen.write.workbook import render

pytestmark = pytest.mark.slow

RUNS = 24
APART = """
lots:
  - {id: late-1, product: pear-slices, date: 2026-09-20, weighed: 30 lb, price: 21 USD}
runs:
  - id: run-late
    started: 2026-09-21 18:30
    duration: 30 h
    loads:
      - {lot: lot-0, wet: 4.5 lb, dry: 9.5 oz, id: again-0}
      - {lot: late-1, wet: 12.5 lb, dry: 31.5 oz}
      - {lot: lot-6, wet: 3.5 lb, id: again-6}
  - id: run-later
    started: 2026-09-24 18:30
    duration: 31 h
    loads:
      - {lot: late-1, wet: 11.5 lb, dry: 28.5 oz}
      - {lot: lot-0, wet: 2.5 lb, dry: 6.5 oz}
packs:
  - {id: pack-late, product: pear-slices, date: 2026-09-25, container: can-10, count: 2, net: 9 oz,
     from: [run-0, run-late, run-4]}
  - {id: pack-later, product: pear-slices, date: 2026-09-26, container: can-10, count: 1, net: 9 oz,
     from: [run-late, run-0]}
"""
"""Loads of lots and draws on runs whose others stand far above."""


_FOLDER = TemporaryDirectory(prefix="running-")


@cache
def workbook(batch: str = "", many: int = 1) -> tuple[Path, ReadSeason, Running]:
    """A season's workbook in which every total that can is read from a running column."""
    folder = Path(tempfile.mkdtemp(dir=_FOLDER.name))
    season = large.write(folder / "season", RUNS)
    if batch:
        (season / "batches" / "zz.yaml").write_text(batch, encoding="utf-8")
    read = program.read(season)
    assert read.season is not None and read.numbers is not None, read.problems
    book = compose(
        contents(SHEETS, read.numbers), read.numbers, read.season.name, "en", "a4", many=many
    )
    path = folder / "running.xlsx"
    path.write_bytes(render(book))
    return path, read.season, Running(read.numbers, many)


ENGINES: dict[str, Callable[[Path, Path], Any]] = {
    "ironcalc": lambda path, out: iron.recalculate(path),
    "LibreOffice": lambda path, out: libreoffice.recalculate([path], out)[path],
    "Gnumeric": lambda path, out: gnumeric.recalculate([path], out)[path],
}


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("batch", ["", APART], ids=["together", "apart"])
def test_every_engine_agrees_with_python(tmp_path: Path, engine: str, batch: str) -> None:
    path, _, running = workbook(batch)
    assert {helper.kind for helper in running.helpers.values()} == {
        "rows", "sum", "missing", "count", "own", "apart", "first", "from",
        "named", "stood", "strange", "was", "before", "moved",
    }  # fmt: skip
    assert list(map(str, differences(path, ENGINES[engine](path, tmp_path / "out")))) == []


def test_rows_that_stand_apart_are_told() -> None:
    _, _, running = workbook(APART)
    places = running.values(running.helpers["lots", "loads_lot_from"])
    # lot-0 and lot-6, to which loads were added far below, and late-1 (the last), between whose
    # loads one of lot-6 stands: two further blocks of lot-0, one of each of the others.
    assert [n for n, place in enumerate(places) if place == -1] == [0, 3, 12]
    assert running.closing(running.helpers["loads", "lot_apart"]) == 4


def test_a_season_with_few_blocks_has_no_running_columns() -> None:
    path, _, running = workbook(many=50)
    assert running.helpers == {}
    formulas = [cell.formula for cell in cells(path).values() if cell.formula]
    assert any("SUMPRODUCT" in formula for formula in formulas)


def verdict(path: Path, change: Callable[[Any, int], None] | None, out: Path) -> dict[str, Any]:
    """What each engine says of a workbook in which rows of the sheet Loads were moved."""
    import ironcalc

    model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    names = [
        each["name"] if isinstance(each, dict) else each.name
        for each in model.get_worksheets_properties()
    ]
    if change is not None:
        change(model, names.index("Loads"))
    model.evaluate()
    edited = out / "edited.xlsx"
    model.save_to_xlsx(str(edited))
    found = {"ironcalc": model.get_cell_value(0, 3, 1)}
    found["LibreOffice"] = libreoffice.recalculate([edited], out / "lo")[edited]["Summary", "A3"]
    return found


AGAIN = "Build it again: rows were inserted or deleted"


@pytest.mark.parametrize(
    ("change", "red"),
    [
        (None, False),
        (lambda model, sheet: model.insert_rows(sheet, 14, 1), True),
        (lambda model, sheet: model.delete_rows(sheet, 14, 1), True),
    ],
    ids=["untouched", "inserted", "deleted"],
)
def test_a_row_inserted_or_deleted_turns_the_verdict_red(
    tmp_path: Path, change: Callable[[Any, int], None] | None, red: bool
) -> None:
    path, _, _ = workbook()
    found = verdict(path, change, tmp_path)
    assert {engine: told == AGAIN for engine, told in found.items()} == dict.fromkeys(found, red)


def test_a_workbook_that_is_whole_has_the_verdict_of_its_records(tmp_path: Path) -> None:
    numbers = program.read(large.write(tmp_path / "season", 2)).numbers
    assert numbers is not None and numbers.value("season", "rows_moved") is False
    told = [numbers.value("season", name) for name in ("verdict_of_all", "verdict_of_records")]
    assert told[0] == told[1] == "The figures can be used; some cautions are open"


def column(path: Path, sheet: str, heading: str, rows: int = RUNS) -> list[str]:
    """The cells below a heading of a sheet, record by record."""
    found = cells(path)
    (head,) = [
        ref for (there, ref), cell in found.items() if there == sheet and cell.value == heading
    ]
    letters = head.rstrip("0123456789")
    first = int(head[len(letters) :]) + 2  # below the heading stands the unit
    return [f"{letters}{first + row}" for row in range(rows)]


@pytest.mark.parametrize(
    "typed",
    every(2, [{}, {3: 46500.75}, {5: 46023.77, 6: 46023.77}, {0: None}, {23: 46000.0}]),
    ids=every(2, ["as-built", "later", "ties", "unknown", "first"]),
)
def test_ranks_follow_a_start_that_is_typed_anew(
    tmp_path: Path, typed: dict[int, float | None]
) -> None:
    path, season, running = workbook()
    assert ("runs", "began_dryer_moved") in running.helpers
    given = program.inputs(season)
    for row, value in typed.items():
        given["runs"]["started"][row] = value
    expected = Numbers(BOOK, given, season.slots).cells["runs"]["turn"]
    if typed:
        sound = Numbers(BOOK, program.inputs(season), season.slots)
        assert expected != sound.cells["runs"]["turn"]
    starts, turns = column(path, "Runs", "Started"), column(path, "Runs", "Turn")
    contents = {("Runs", starts[row]): value for row, value in typed.items()}
    opened = iron.Opened(path)
    opened.enter(contents)
    by_hand = edit.typed(path, contents, tmp_path / "edited.xlsx")
    for found in (opened.values(), gnumeric.recalculate([by_hand], tmp_path / "out")[by_hand]):
        assert [found.get(("Runs", each)) or None for each in turns] == expected


RETYPED: dict[str, tuple[dict[int, str | None], dict[int, int | None]]] = {
    "as built": ({}, {}),
    "to one of which nothing was packed": ({0: "run-1"}, {9: 0}),
    "each where the other's stood": ({0: "run-4", 2: "run-0"}, {9: 0, 30: 4, 31: 0}),
    "apart from the others of its run": ({7: "run-0"}, {47: 1, 46: 0}),
    "to none, and to the last": ({3: None, 4: "run-23"}, {1: 47, 46: 47, 47: None}),
    "turned round": ({n: f"run-{22 - 2 * n}" for n in range(12)}, {30: 29, 29: 30}),
}
"""By pack the run that it is typed to come from, and by load the one that it is dried again of."""


@pytest.mark.parametrize("name", every(2, [*RETYPED]))
def test_what_is_typed_to_lead_elsewhere_is_found_there(tmp_path: Path, name: str) -> None:
    """No load was dried again when the workbook was made: nobody looked."""
    path, season, running = workbook()
    assert running.keeps(running.helpers["draws", "run_rows"].group, BOOK.tables["runs"])
    given = program.inputs(season)
    keys = Numbers(BOOK, given, season.slots).cells["loads"]["key"]
    runs, loads = RETYPED[name]
    again = {row: None if first is None else str(keys[first]) for row, first in loads.items()}
    given["draws"]["run"] = [runs.get(n, run) for n, run in enumerate(given["draws"]["run"])]
    given["loads"]["again"] = [again.get(n, of) for n, of in enumerate(given["loads"]["again"])]
    found_again(path, season, given, [
        ("Packed from", "Run", runs, "runs", "drawn", "Runs", "Drawn"),
        ("Loads", "First dried as", again, "loads", "times_again", "Loads", "Times again"),
    ], tmp_path)  # fmt: skip


Typed = tuple[str, str, dict[int, str | None], str, str, str, str]
"""Sheet, heading and texts by row; the total's table and name, and its sheet and heading."""


def found_again(
    path: Path, season: ReadSeason, given: dict[str, Any], changes: list[Typed], folder: Path
) -> None:
    """What was typed is in the totals of every engine as it is in Python's."""
    now, before = (Numbers(BOOK, each, season.slots) for each in (given, program.inputs(season)))
    contents, expected = {}, {}
    for sheet, heading, typed, table, name, there, total in changes:
        values = now.cells[table][name]
        assert (values != before.cells[table][name]) is bool(typed)
        asked = column(path, sheet, heading, 60)
        contents |= {(sheet, asked[row]): value for row, value in typed.items()}
        shown = column(path, there, total, len(values))
        expected |= {(there, ref): value for ref, value in zip(shown, values, strict=True)}
    opened = iron.Opened(path)
    opened.enter(contents)
    by_hand = edit.typed(path, contents, folder / "edited.xlsx")
    for found in (
        opened.values(),
        gnumeric.recalculate([by_hand], folder / "gnumeric")[by_hand],
        libreoffice.recalculate([by_hand], folder / "libreoffice")[by_hand],
    ):
        shown = {at: found.get(at) for at in expected}
        assert {at: None if each == "" else each for at, each in shown.items()} == {
            at: None if each is None else pytest.approx(each) for at, each in expected.items()
        }


def test_rows_that_move_up_as_many_are_removed_are_found() -> None:
    """The place that a link kept then lies below all rows."""
    path, season, running = workbook()
    assert running.names(BOOK.tables["draws"], "run")
    gone, opened = 20, iron.Opened(path)
    # The first stays: some engines lose a range whose end is removed.
    opened.remove("Runs", int(column(path, "Runs", "Run")[1].removeprefix("A")), gone)
    found = opened.values()
    runs = Numbers(BOOK, program.inputs(season), season.slots).cells["draws"]["run"]
    left = ["run-0", *(f"run-{n}" for n in range(gone + 1, RUNS))]
    shown = [
        found.get(("Packed from", each)) for each in column(path, "Packed from", "Run: row", 12)
    ]
    assert shown == [left.index(str(run)) + 1 if run in left else "" for run in runs]
    assert shown[-1] == 3
