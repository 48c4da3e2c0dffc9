"""Formulas typed over are told wherever they stand, whatever was moved besides, and no others."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest
from engines.cells import Value

from edits.desk import LIST_FILE, Desk, desk, write_season
from edits.test_suites import renamed_sheets, sorted_rows

pytestmark = pytest.mark.slow
Cells = set[tuple[str, str]]
TYPED = 12345.0


def formulas(book: openpyxl.Workbook) -> list[tuple[str, str]]:
    """All cells that hold a formula, as another library reads them."""
    return [
        (sheet.title, cell.coordinate)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]


def told(at: Desk) -> Cells:
    """Where compare says that a formula was typed over."""
    found = at.compare()
    assert {each["kind"] for each in found} <= {"overwritten"}
    assert len({(each["sheet"], each["cell"]) for each in found}) == len(found)
    return {(str(each["sheet"]), str(each["cell"])) for each in found}


def test_every_formula_of_every_sheet(at: Desk) -> None:
    every = formulas(openpyxl.load_workbook(at.book))
    contents: dict[tuple[str, str], Value] = dict.fromkeys(every, TYPED)
    at.type(contents)
    assert told(at) == set(every)
    assert len(every) > 10_000
    assert f"and {len(every) - 50:,} more" in at.run("compare").stdout


def test_some_of_each_sheet_where_rows_and_sheets_were_moved(at: Desk, tmp_path: Path) -> None:
    rng = random.Random(11)
    book = openpyxl.load_workbook(at.book)
    sorted_rows(at, book, rng)
    renamed_sheets(at, book, rng)
    chosen: Cells = set()
    by_sheet: dict[str, list[str]] = {}
    for sheet, cell in formulas(book):
        by_sheet.setdefault(sheet, []).append(cell)
    for sheet, cells in by_sheet.items():
        for cell in rng.sample(cells, min(3, len(cells))):
            book[sheet][cell] = TYPED
            chosen.add((sheet, cell))
    at.book = tmp_path / "moved.xlsx"
    book.save(at.book)
    assert told(at) == chosen
    assert len(by_sheet) > 40


def labelled(at: Desk, sheet: str, label: str) -> tuple[str, str]:
    """The cell of a figure in a list."""
    rows = openpyxl.load_workbook(at.book, read_only=True)[sheet].iter_rows()
    return sheet, next(row[2].coordinate for row in rows if row[0].value == label)


def test_each_is_told_with_what_it_gives_now(at: Desk) -> None:
    at.type({labelled(at, "Rates", "Electricity paid"): TYPED})
    (change,) = at.compare()
    assert (change["table"], change["field"]) == ("rates", "electricity_paid")
    assert (change["edited"], change["now"]) == (TYPED, 0.2)
    said = at.run("compare").stdout
    assert "electricity paid: 12345 stands there now; the formula gives 0.2" in said
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0 and at.texts() == before
    assert "1 formula typed over" in done.stdout


def test_a_constant_is_refused(at: Desk) -> None:
    cell = labelled(at, "Constants", "One day")
    at.type({cell: 2.0})
    (change,) = at.compare(exit_code=1)
    assert (change["kind"], change["sheet"], change["cell"]) == ("refused", *cell)
    assert change["built"] == 1.0


def test_constants_of_checks_are_refused_in_whatever_order_they_stand(
    at: Desk, tmp_path: Path
) -> None:
    """Somebody sorts the checks, then calls one a caution and another no error."""
    book = openpyxl.load_workbook(at.book)
    sheet = book["Checks"]
    heads = {str(cell.value): cell.column for cell in reversed(sheet[5])}
    first = last = 7
    while str(sheet.cell(last + 1, heads["Verdict"]).value).startswith("=IF($A"):
        last += 1
    rows = [[c.value for c in sheet[row]] for row in range(first, last + 1)]
    for row, values in enumerate(rows[::-1], first):
        for column, value in enumerate(values, 1):
            sheet.cell(row, column).value = value
    severe = next(
        r for r in range(first, last) if sheet.cell(r, heads["Severity"]).value == "error"
    )
    typed: dict[tuple[int, str], Value] = {
        (severe, "Severity"): "caution",
        (severe + 1, "An error?"): TYPED,
        (severe + 2, "Table"): "none",
    }
    was = {}
    for (row, head), value in typed.items():
        cell = sheet.cell(row, heads[head])
        was[cell.coordinate], cell.value = cell.value, value
    at.book = tmp_path / "sorted.xlsx"
    book.save(at.book)
    found = at.compare(exit_code=1)
    assert {each["kind"] for each in found} == {"refused"}
    assert {each["cell"]: each["built"] for each in found} == was
    assert "this is no input: 'error' stands there when it is built" in at.run("take").output


def test_single_figures_are_found_again_where_a_suite_dropped_their_names(
    at: Desk, tmp_path: Path
) -> None:
    """One reads no name that leads to a sheet with an apostrophe in its own."""
    at.type({at.at.cell("rates", "rates", "electricity"): 0.21})
    (wanted,) = at.compare()
    book = openpyxl.load_workbook(at.book)
    rates, names = book["Rates"], book.defined_names
    for name in [name for name, found in names.items() if found.attr_text.startswith("Rates!")]:
        del names[name]
    rates.title = "L'été"
    rates.insert_rows(5)
    at.book = tmp_path / "nameless.xlsx"
    book.save(at.book)
    assert at.compare() == [{**wanted, "sheet": "L'été", "cell": "C7"}]
    rates.cell(rates.max_row + 2, 1).value = rates["A7"].value
    book.save(at.book)
    (refused, beside) = at.compare(exit_code=1)
    assert (beside["kind"], beside["edited"]) == ("overwritten", rates["A7"].value)
    assert refused["kind"] == "refused" and refused["field"] == "electricity"


def test_an_input_that_stands_behind_a_formula_of_the_same_heading_is_found(
    at: Desk, tmp_path: Path
) -> None:
    """A lot's distance is typed; what it comes to with its share of a trip is called so, too."""
    sheet, cell = at.at.cell("lots", "pears-1", "travel")
    at.type({(sheet, cell): 12.0})
    book = openpyxl.load_workbook(at.book)
    lots = book[sheet]
    row, column = lots[cell].row, lots[cell].column
    heading = at.at.rows["lots", 1][1] - 2
    assert lots.cell(heading, column).value == "Distance"
    (other,) = (
        each.column for each in lots[heading] if each.value == "Distance" and each.column != column
    )
    # The spare rows stay, as where somebody moves cells and no columns.
    for each in range(heading, at.at.spare["lots"][1]):
        one, two = lots.cell(each, column), lots.cell(each, other)
        one.value, two.value = two.value, one.value
    at.book = tmp_path / "moved.xlsx"
    book.save(at.book)
    (change,) = at.compare()
    assert (change["kind"], change["field"], change["edited"]) == ("change", "travel", 12.0)
    assert change["cell"] == lots.cell(row, other).coordinate


def test_a_name_typed_over_where_rows_follow_from_records_is_told(at: Desk) -> None:
    """As happens to whoever replaces an id in all of a workbook."""
    sheet = openpyxl.load_workbook(at.book, read_only=True)["Trace"]
    cells = [
        (cell.coordinate, cell.value)
        for row in sheet.iter_rows()
        for cell in row
        if cell.value == "apples-2025-09-12-pack-1"
    ]
    at.type({("Trace", cell): "rings" for cell, _ in cells})
    assert cells and told(at) == {("Trace", cell) for cell, _ in cells}


def test_what_a_suite_rounds_is_as_it_was_built(tmp_path: Path) -> None:
    """35 min are 0.58333333333333337 h; one suite keeps 15 digits, which look like a time of day
    that was typed."""
    season = write_season(tmp_path / "written")
    lists = season / LIST_FILE
    text, hours = lists.read_text("utf-8"), "    duration: 30 h\n"
    lists.write_text(text.replace(hours, hours + "    labor: 35 min\n"), "utf-8")
    at = desk(tmp_path, season)
    rounded: dict[tuple[str, str], Value]
    rounded = {(sheet, cell): value for sheet, cell, value in fifteen_digits(at.book)}
    assert at.at.cell("runs", "run-1", "labor") in rounded
    at.type(rounded)
    assert at.compare() == []


def fifteen_digits(path: Path) -> Iterator[tuple[str, str, float]]:
    """The numbers of a workbook that have more digits, without them."""
    for sheet in openpyxl.load_workbook(path):
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, float) and float(f"{cell.value:.15g}") != cell.value:
                    yield sheet.title, cell.coordinate, float(f"{cell.value:.15g}")
