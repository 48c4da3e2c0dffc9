"""What no file can say is refused, at the cell that it is about, and once."""

from __future__ import annotations

import datetime
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils.datetime import to_excel

from edits.desk import LIST_FILE, SHORT_FILE, Desk, desk
from reportgen import program

pytestmark = pytest.mark.slow
LOAD = "apples-2025-09-12-run/apples-2025-09-12"
Cells = dict[tuple[str, str, str], object]


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def typed(at: Desk, cells: Cells) -> list[str]:
    """The cells, typed into; a row called ``new`` is the first spare one."""
    places = {
        key: at.at.new(key[0], key[2]) if key[1] == "new" else at.at.cell(*key) for key in cells
    }
    at.type({places[key]: value for key, value in cells.items()})  # type: ignore[misc]
    return [f"{sheet}!{ref}" for sheet, ref in places.values()]


@pytest.mark.parametrize(
    ("cells", "why"),
    [
        ({("runs", "run-1", "dry_about"): 1}, "no weight stands beside it that it could be of"),
        ({("loads", LOAD, "weighing_before"): 27.0}, "one weighing alone shows nothing"),
        ({("loads", LOAD, "wet_weighings"): 3}, "type 2 there again"),
        ({("loads", "run-1/pears-1", "wet_weighings"): 3}, "empty this cell"),
        ({("loads", LOAD, "id"): "mine"}, "in which a load has no id"),
        ({("loads", LOAD, "note"): "late"}, "in which a load has no note"),
        ({("loads", LOAD, "lot"): "pears-1"}, "in which a load has no lot"),
        ({("lots", "pears-1", "price_by_weight"): 1.1}, "'30' stands in price total"),
        ({("runs", "run-1", "meter_to"): 40}, "'20' stands in energy"),
        ({("runs", "run-1", "at_midnight"): 1}, "'2025-09-05 18:00' stands in started"),
        ({("draws", "draw-1", "run"): "run-1"}, "the short form says by itself"),
        ({("lots", "pears-1", "water"): 86}, "write 86 %, or 0.86"),
        ({("lots", "pears-1", "date"): "28.9.2025"}, "write 2025-09-28"),
        ({("lots", "pears-1", "date"): "9/28/2025"}, "write 2025-09-28"),
        ({("lots", "pears-1", "date"): "3/4/2025"}, "two different days"),
    ],
)
def test_what_no_file_can_say(at: Desk, cells: Cells, why: str) -> None:
    before = at.texts()
    (cell,) = typed(at, cells)
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    (line,) = [line for line in done.output.splitlines() if line.startswith(f"  {cell}: ")]
    assert why in line
    assert "Correct what cannot be taken" in done.output


def test_two_new_prices_are_one_too_many(at: Desk) -> None:
    cells: Cells = {
        ("lots", "new", "key"): "pears-3",
        ("lots", "new", "product"): "pear-slices",
        ("lots", "new", "date"): 45910.0,
        ("lots", "new", "weighed"): 7.5,
        ("lots", "new", "price_by_weight"): 1.1,
        ("lots", "new", "price_total"): 8,
    }
    typed(at, cells)
    assert "one key holds both" in at.run("take").output


def test_a_price_of_one_of_nothing(at: Desk) -> None:
    typed(at, {("lots", "pears-1", "price_total"): None, ("lots", "pears-1", "price_each"): 3})
    assert "the price is of one container, and none is named" in at.run("take").output


def test_a_refusal_of_the_season_names_its_cell_among_others(at: Desk) -> None:
    """Four cells of one file and row are typed; one of them is refused when it is read."""
    cells: Cells = {
        ("lots", "pears-1", "labor"): 2,
        ("lots", "pears-1", "count"): 2,
        ("lots", "pears-1", "weighed_count"): 6,
        ("packs", "P-1", "labor"): 0.5,
    }
    _, _, cell, _ = typed(at, cells)
    done = at.run("take")
    told = done.output.partition("Cannot be taken:")[2]
    assert f"{cell}: lot pears-1: weighed count: 6 containers were weighed" in told
    assert told.count("6 containers") == 1


def test_what_follows_from_a_refused_row_is_not_told(at: Desk) -> None:
    cells: Cells = {
        ("lots", "new", "key"): "pears-3",
        ("lots", "new", "product"): "pear-slices",
        ("lots", "new", "weighed"): "7,500",
        ("loads", "new", "run"): "run-1",
        ("loads", "new", "lot"): "pears-3",
        ("loads", "new", "wet"): 3,
    }
    typed(at, cells)
    done = at.run("take")
    assert "'7,500' may mean" in done.output and "there is no lot" not in done.output


def test_one_cause_is_told_once(at: Desk) -> None:
    """A unit typed over, with two figures below it."""
    sheet, ref = at.at.cell("lots", "pears-1", "weighed")
    column = ref.rstrip("0123456789")
    head = min(row for (table, _), (_, row) in at.at.rows.items() if table == "lots") - 1
    at.type({(sheet, f"{column}{head}"): "kg"})
    cells: Cells = {("lots", "pears-1", "weighed"): 18, ("lots", "pears-2", "weighed"): 4}
    typed(at, cells)
    told = at.run("take").output.partition("Cannot be taken:")[2]
    assert told.count("its unit is lb, and kg was typed over that") == 1
    assert "so, too, " in told


@pytest.mark.parametrize("what", [{"before": 27.0, "last": 26.0}, {"last": 26.5}])
def test_weighings_come_home(at: Desk, what: dict[str, float]) -> None:
    typed(at, {("loads", LOAD, f"weighing_{name}"): value for name, value in what.items()})
    assert at.run("take").exit_code == 0
    taken = at.texts()
    weights = ", ".join(f"{each:g} oz" for each in what.values())
    assert f"dryness: {{weights: [{weights}]}}\n" in taken[SHORT_FILE]
    assert at.run("take").exit_code == 0 and at.texts() == taken


def test_weighings_take_the_place_of_a_reading(at: Desk) -> None:
    at.write(SHORT_FILE, "dry: 40 oz\n", "dry: 40 oz\ndryness: {water_activity: 0.2}\n")
    at = desk(at.folder.parent / "again", at.folder)
    typed(
        at,
        {
            ("loads", LOAD, "water_activity"): None,
            ("loads", LOAD, "weighing_before"): 40.2,
            ("loads", LOAD, "weighing_last"): 40,
        },
    )
    assert at.run("take").exit_code == 0
    assert "dryness: {weights: [40.2 oz, 40 oz]}" in at.texts()[SHORT_FILE]


def test_a_weight_that_is_cleared_leaves_the_lot_finished(at: Desk) -> None:
    """In the short form a weight that went in says that all of the lot did."""
    typed(at, {("loads", LOAD, "wet"): None})
    assert at.run("take").exit_code == 0
    text = at.texts()[SHORT_FILE]
    assert "wet:" not in text and "finished: true\n" in text


def test_another_day_leaves_the_run_when_it_was(at: Desk) -> None:
    """A time alone is on the file's day, which is the lot's."""
    typed(at, {("lots", "apples-2025-09-12", "date"): 45910.0})
    assert at.run("take").exit_code == 0
    text = at.texts()[SHORT_FILE]
    assert "date: 2025-09-10\n" in text and 'started: "2025-09-12 19:15"' in text
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_another_day_and_another_start(at: Desk) -> None:
    cells: Cells = {
        ("lots", "apples-2025-09-12", "date"): 45910.0,
        ("runs", "apples-2025-09-12-run", "started"): 45912.75,
    }
    typed(at, cells)
    assert at.run("take").exit_code == 0
    assert 'started: "2025-09-12 18:00"' in at.texts()[SHORT_FILE]
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_midnight_comes_home(at: Desk) -> None:
    typed(
        at,
        {("runs", "run-1", "started"): 45906.0, ("runs", "run-1", "at_midnight"): 1},
    )
    assert at.run("take").exit_code == 0
    assert "started: 2025-09-06 00:00" in at.texts()[LIST_FILE]
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_the_day_of_the_season_comes_home(at: Desk) -> None:
    at.write("season.yaml", "as_of: 2025-11-30\n", "")
    at = desk(at.folder.parent / "again", at.folder)
    typed(at, {("season", "season", "as_of"): 46000.0})
    assert at.run("take").exit_code == 0
    assert "\nas_of: 2025-12-09\n" in at.texts()["season.yaml"]


def test_another_run_of_a_pack_comes_home(at: Desk) -> None:
    at.write(LIST_FILE, "packs:", "  - {id: run-2, started: 2025-09-06 18:00}\npacks:")
    at = desk(at.folder.parent / "again", at.folder)
    number = next(n for (table, n) in at.at.rows if table == "draws" and n > 1)
    typed(at, {("draws", number, "run"): "run-2"})  # type: ignore[dict-item]
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert "from: [run-2]" in at.texts()[LIST_FILE]
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_a_load_that_gets_an_id_comes_home(at: Desk) -> None:
    """Its weights had been told tray by tray, which one number then takes the place of."""
    at.write(LIST_FILE, "wet: 10 lb", "wet: [5 lb, 5.5 lb]")
    at = desk(at.folder.parent / "again", at.folder)
    load = "run-1/pears-1"
    typed(at, {("loads", load, "id"): "l-1", ("loads", load, "wet"): 11})
    assert at.run("take").exit_code == 0
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_a_load_of_another_run_comes_home(at: Desk) -> None:
    at.write(LIST_FILE, "packs:", "  - {id: run-2, started: 2025-09-06 18:00, loads: []}\npacks:")
    at = desk(at.folder.parent / "again", at.folder)
    typed(at, {("loads", "run-1/pears-1", "run"): "run-2"})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert "loads: [{lot: pears-1, wet: 10 lb, dry: 26 oz}]}" in at.texts()[LIST_FILE]
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_a_load_weighed_in_parts_is_not_moved(at: Desk) -> None:
    at.write(LIST_FILE, "wet: 10 lb", "wet: [5 lb, 5.5 lb]")
    at.write(LIST_FILE, "packs:", "  - {id: run-2, started: 2025-09-06 18:00, loads: []}\npacks:")
    at = desk(at.folder.parent / "again", at.folder)
    before = at.texts()
    typed(at, {("loads", "run-1/pears-1", "run"): "run-2"})
    assert "written as several weighings" in at.run("take").output and at.texts() == before


def test_a_pack_and_its_lot_in_one_file_get_keys_of_their_own(at: Desk) -> None:
    """The last line of the file is that of the pack, below which both are written."""
    at.write(SHORT_FILE, "packed: [3 jar of 2 oz]\n", "packed:\n  - count: 3\n    container: jar\n")
    at = desk(at.folder.parent / "again", at.folder)
    lot, pack = "apples-2025-09-12", "apples-2025-09-12-pack-1"
    typed(at, {("lots", lot, "source"): "stand", ("packs", pack, "labor"): 0.5})
    assert at.run("take").exit_code == 0
    assert at.texts()[SHORT_FILE].endswith("    labor: 0.5 h\nsource: stand\n")


def test_a_line_made_anew_keeps_its_numbers_as_written(at: Desk) -> None:
    at.write(SHORT_FILE, "2 box at 15 USD", "2 box at 15.50 USD")
    at = desk(at.folder.parent / "again", at.folder)
    lot = "apples-2025-09-12"
    typed(at, {("lots", lot, "count"): None, ("lots", lot, "weighed"): 20})
    at.run("take")
    assert "15.50 USD" in at.texts()[SHORT_FILE]


@pytest.mark.parametrize("table", ["lots", "packs", "uses"])
def test_rows_sorted_without_their_marks_are_no_change(at: Desk, table: str) -> None:
    """Whoever sorts the columns that he sees leaves the hidden marks where they were."""
    at.write(
        LIST_FILE, "counts:", "  - {date: 2025-09-22, pack: P-1, count: 1, for: gift}\ncounts:"
    )
    at = desk(at.folder.parent / "again", at.folder)
    swapped(at, table)
    assert at.compare() == []


def test_a_change_in_rows_sorted_without_their_marks(at: Desk) -> None:
    swapped(at, "lots", {"labor": 2.0})
    (change,) = at.compare()
    assert (change["row"], change["field"], change["edited"]) == ("pears-2", "labor", 2.0)


def swapped(at: Desk, table: str, more: dict[str, object] | None = None) -> None:
    """Turn the order of the last two rows around, of inputs and ids; the lower one then holds
    ``more``, too."""
    rows = sorted(row for (name, _), (_, row) in at.at.rows.items() if name == table)[-2:]
    sheet = openpyxl.load_workbook(at.book)[at.at.spare[table][0]]
    names = [*program.BOOK.tables[table].inputs, "key"]
    letters = {
        name: sheet.cell(1, column).column_letter
        for name, column in at.at.columns[table].items()
        if name in names and (name != "key" or table != "uses")
    }
    new = {}
    for row, other in (rows, rows[::-1]):
        for letter in letters.values():
            value = sheet[f"{letter}{other}"].value
            new[sheet.title, f"{letter}{row}"] = _plain(value)
    for name, value in (more or {}).items():
        new[sheet.title, f"{letters[name]}{rows[0]}"] = value
    at.type(new)  # type: ignore[arg-type]


def _plain(value: object) -> object:
    if isinstance(value, datetime.datetime):
        return float(to_excel(value))
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value
