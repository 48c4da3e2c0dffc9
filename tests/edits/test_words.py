"""What nobody is to type over is told wherever it was: a caution, a heading, a name, a constant. A
unit typed over is refused, and with it every figure typed below it."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.cell import Cell
from openpyxl.utils import get_column_letter
from openpyxl.workbook import Workbook

from edits.desk import LIST_FILE, Desk
from edits.test_suites import renamed_sheets, sorted_rows

pytestmark = pytest.mark.slow
LEFT_OUT = {"Method", "Memory"}
"""Nobody decides by the words of the one; the other has a digest."""


def locked_texts(at: Desk, book: Workbook, sheet: str) -> list[Cell]:
    """The texts of a sheet that nobody is to type over, headings and marks of records left out: by
    a heading its table is found again."""
    heads = {row - 2 for (table, _), (of, row) in at.at.rows.items() if of == sheet}
    heads |= {row - 2 for of, row in at.at.spare.values() if of == sheet}
    marks = {
        cell.column
        for row in book[sheet].iter_rows()
        for cell in row
        if isinstance(cell.value, str) and cell.value.endswith("/end")
    }
    return [
        cell
        for row in book[sheet].iter_rows()
        for cell in row
        if cell.data_type == "s"
        and cell.protection.locked
        and cell.row not in heads
        and cell.column not in marks
    ]


def told(at: Desk) -> dict[tuple[str, str], str]:
    """The kind of what is told, by sheet and cell."""
    found = json.loads(at.run("compare", "--json").stdout)["changes"]
    return {(str(each["sheet"]), str(each["cell"])): str(each["kind"]) for each in found}


def as_it_was(at: Desk, book: Workbook, rng: random.Random) -> None:
    """Nothing is moved."""


def rows_put_in(at: Desk, book: Workbook, rng: random.Random) -> None:
    """Rows on sheets that are to be read; the references of formulas are nothing to this test."""
    for sheet in ("Summary", "Rates", "Cost"):
        book[sheet].insert_rows(3, 2)
        for name, defined in book.defined_names.items():
            of, _, cell = defined.attr_text.rpartition("!")
            if of.strip("'") == sheet:
                column, row = cell.lstrip("$").split("$")
                moved = int(row) + (2 if int(row) >= 3 else 0)
                book.defined_names[name].attr_text = f"{of}!${column}${moved}"


@pytest.mark.parametrize("moved", [as_it_was, sorted_rows, renamed_sheets, rows_put_in])
def test_any_text_typed_over_is_told_with_its_cell(
    at: Desk, tmp_path: Path, moved: Callable[[Desk, Workbook, random.Random], None]
) -> None:
    rng = random.Random(5)
    book = openpyxl.load_workbook(at.book)
    names = [sheet.title for sheet in book if sheet.title not in LEFT_OUT]
    moved(at, book, rng)
    chosen = {}
    sheets = [each for each in book if each.title not in LEFT_OUT]
    for name, sheet in zip(names, sheets, strict=True):
        texts = locked_texts(at, book, sheet.title) if sheet.title == name else []
        texts = texts or [sheet["A2"]]
        for cell in rng.sample(texts, min(4, len(texts))):
            chosen[sheet.title, cell.coordinate] = str(cell.value)
            cell.value = f"typed here: {len(chosen)}"
    assert len(chosen) > 45
    at.book = tmp_path / "typed.xlsx"
    book.save(at.book)
    found = told(at)
    assert set(found) == set(chosen)
    assert set(found.values()) <= {"overwritten", "refused"}


@pytest.mark.parametrize("now", ["keep it for ten years", None, 7.0])
def test_a_caution_is_told_with_both_texts(at: Desk, now: str | float | None) -> None:
    book = openpyxl.load_workbook(at.book)
    caution = next(
        cell
        for (cell,) in book["Summary"].iter_rows(max_col=1)
        if isinstance(cell.value, str) and "botul" in cell.value.casefold()
    )
    at.type({("Summary", caution.coordinate): now})
    (change,) = at.compare()
    assert (change["kind"], change["cell"]) == ("overwritten", caution.coordinate)
    assert (change["built"], change["edited"]) == (caution.value, now)
    said = at.run("compare").stdout
    there = {None: "nothing", 7.0: "7"}.get(now, f"'{now}'")  # type: ignore[arg-type]
    assert f"stood there, {there} stands there now" in said
    assert "Nothing is left to take" in said
    before = at.texts()
    assert "1 text typed over, not taken" in at.run("take").stdout
    assert at.texts() == before


def test_a_text_beside_a_table_is_told(at: Desk) -> None:
    at.type({("Lots", "B3"): "ask Ann"})
    (change,) = at.compare()
    assert (change["kind"], change["built"], change["edited"]) == ("overwritten", None, "ask Ann")
    assert "Lots!B3: 'ask Ann' was written there" in at.run("compare").stdout


def test_a_unit_typed_over_is_refused_with_what_is_typed_below_it(at: Desk) -> None:
    """Taken as pounds, 18 kg would be less than half of what there was."""
    sheet, cell = at.at.cell("lots", "pears-1", "weighed")
    unit = at.at.columns["lots"]["weighed"], at.at.spare["lots"][1]
    first = min(row for (table, _), (_, row) in at.at.rows.items() if table == "lots")
    place = f"{get_column_letter(unit[0])}{first - 1}"
    before = at.texts()
    at.type({(sheet, place): "kg", (sheet, cell): 18.0})
    found = at.compare(exit_code=1)
    assert [(each["kind"], each["cell"]) for each in found] == [
        ("refused", place),
        ("refused", cell),
    ]
    assert "its unit is lb, and kg was typed over that" in str(found[0]["why"])
    for options in ([], ["--only", f"{sheet}!{cell}"], ["--theirs"]):
        done = at.run("take", *options)
        assert done.exit_code == 1 and at.texts() == before
    at.type({(sheet, place): "lb", (sheet, cell): "18 kg"})
    assert at.run("take").exit_code == 0
    assert "18 kg" in at.texts()[LIST_FILE] or "39.68" in at.texts()[LIST_FILE]


def test_a_new_row_below_another_unit_is_refused(at: Desk) -> None:
    sheet, cell = at.at.new("lots", "weighed")
    first = min(row for (table, _), (_, row) in at.at.rows.items() if table == "lots")
    place = f"{get_column_letter(at.at.columns['lots']['weighed'])}{first - 1}"
    at.type(
        {(sheet, place): "kg", (sheet, cell): 18.0, at.at.new("lots", "key"): "pears-9",
         at.at.new("lots", "product"): "pear-slices"}
    )  # fmt: skip
    assert {str(each["kind"]) for each in at.compare(exit_code=1)} == {"refused"}


def test_the_unit_of_a_single_figure_is_refused_with_it(at: Desk) -> None:
    sheet, cell = at.at.single["rates", "electricity"]
    row = cell.lstrip("C")
    at.type({(sheet, f"D{row}"): "USD/MJ", (sheet, cell): 0.06})
    found = at.compare(exit_code=1)
    assert [(each["kind"], each["cell"]) for each in found] == [
        ("refused", f"D{row}"), ("refused", cell)
    ]  # fmt: skip


def test_the_unit_of_what_is_worked_out_is_told(at: Desk) -> None:
    first = min(row for (table, _), (_, row) in at.at.rows.items() if table == "lots")
    sheet = at.at.rows["lots", 1][0]
    book = openpyxl.load_workbook(at.book)
    column = next(
        cell.column
        for cell in book[sheet][first]
        if cell.data_type == "f" and book[sheet].cell(first - 1, cell.column).value == "lb"
    )
    at.type({(sheet, f"{get_column_letter(column)}{first - 1}"): "kg"})
    (change,) = at.compare()
    assert (change["kind"], change["built"], change["edited"]) == ("overwritten", "lb", "kg")


def test_a_heading_typed_over_is_named_with_its_cell(at: Desk) -> None:
    sheet, cell = at.at.cell("lots", "pears-1", "weighed")
    first = min(row for (table, _), (_, row) in at.at.rows.items() if table == "lots")
    place = f"{get_column_letter(at.at.columns['lots']['weighed'])}{first - 2}"
    was = openpyxl.load_workbook(at.book)[sheet][place].value
    at.type({(sheet, place): "kitchen scale", (sheet, cell): 41.0})
    refused = next(each for each in at.compare(exit_code=1) if each["kind"] == "refused")
    assert f"its heading '{was}' is gone" in str(refused["why"])
    assert f"{sheet}!{place} (kitchen scale)" in str(refused["why"])


def test_a_figure_that_the_program_put_in_is_refused(at: Desk) -> None:
    """Whether its currency is one in which a kilowatt-hour for 2 is dear: no input, and no text."""
    book = openpyxl.load_workbook(at.book)
    (cell,) = [row[2] for row in book["Constants"].iter_rows() if row[0].value == "Dollar sized"]
    at.type({("Constants", cell.coordinate): 0.0})
    (change,) = at.compare(exit_code=1)
    assert (change["kind"], change["cell"]) == ("refused", cell.coordinate)
    assert "yes (1) stands there when it is built" in str(change["why"])
