"""What counts as the same value, and how cells are read from a file."""

from __future__ import annotations

import datetime
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter

from engines.cells import Broken, Cell, Fault, cells, formula_cells
from engines.compare import differences, same, uncached
from engines.handmade import rewritten, write


@pytest.mark.parametrize(
    ("one", "other", "equal"),
    [
        (1.0, 1.0 + 1e-10, True),
        (1.0, 1.0 + 1e-8, False),
        (1e6, 1e6 + 1e-4, True),
        (0.0, 1e-13, True),
        (0.0, 1e-11, False),
        ("", None, True),
        (None, None, True),
        ("", 0.0, False),
        (None, 0.0, False),
        (True, True, True),
        (True, 1.0, False),
        (False, 0.0, False),
        (False, None, False),
        ("a", "a", True),
        ("a", "A", False),
        ("1", 1.0, False),
        (Fault("#N/A"), Fault("#N/A"), False),
        (Fault("#N/A"), "#N/A", False),
        (Fault("#N/A"), None, False),
    ],
)
def test_same(one: object, other: object, equal: bool) -> None:
    assert same(one, other) is equal
    assert same(other, one) is equal


def test_formulas_and_values_of_every_type_are_read(tmp_path: Path) -> None:
    contents = {
        "A1": 1.5,
        "B1": "text & <more>",
        "C1": True,
        "A2": ("A1*2", 3.0),
        "B2": ('B1&" "', "text & <more> "),
        "C2": ("A1>1", True),
        "D2": ("1/0", Fault("#DIV/0!")),
    }
    path = write(tmp_path / "types.xlsx", contents, "A sheet & more")
    assert cells(path) == {
        ("A sheet & more", ref): Cell(*content)
        if isinstance(content, tuple)
        else Cell(None, content)
        for ref, content in contents.items()
    }
    assert set(formula_cells(path)) == {("A sheet & more", f"{c}2") for c in "ABCD"}
    assert uncached(path) == []


def test_an_empty_text_is_a_cached_value(tmp_path: Path) -> None:
    path = write(tmp_path / "text.xlsx", {"A1": ('B1&""', "text")})
    empty = rewritten(path, b"<v>text</v>", b"<v></v>")
    assert formula_cells(empty) == {("Sheet", "A1"): ('B1&""', "")}
    assert uncached(empty) == []


def test_an_empty_cache_is_noticed(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.active["A1"] = 1
    book.active["B1"] = "=A1+1"
    book.save(tmp_path / "empty.xlsx")
    assert uncached(tmp_path / "empty.xlsx") == [("Sheet", "B1")]


def test_shared_strings_of_another_writer_are_read(tmp_path: Path) -> None:
    path = tmp_path / "other.xlsx"
    book = xlsxwriter.Workbook(path)
    bold = book.add_format({"bold": True})
    sheet = book.add_worksheet("Runs")
    sheet.write_string("A1", " pears\n")
    sheet.write_rich_string("A2", "half ", bold, "bold")
    sheet.write_string("A3", "bell\a")
    sheet.write_formula("A4", "=1+1", None, 2)
    book.add_worksheet("Loads").write_number("B7", 4)
    book.close()
    assert cells(path) == {
        ("Runs", "A1"): Cell(None, " pears\n"),
        ("Runs", "A2"): Cell(None, "half bold"),
        ("Runs", "A3"): Cell(None, "bell\a"),
        ("Runs", "A4"): Cell("1+1", 2.0),
        ("Loads", "B7"): Cell(None, 4.0),
    }


def test_a_date_is_its_serial_number(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.active["A1"] = datetime.date(2026, 9, 5)
    book.save(tmp_path / "dates.xlsx")
    assert cells(tmp_path / "dates.xlsx")["Sheet", "A1"].value == 46270


def test_a_shared_formula_is_refused_not_guessed(tmp_path: Path) -> None:
    path = write(tmp_path / "plain.xlsx", {"A1": 1.0, "A2": ("A1+1", 2.0)})
    shared = rewritten(path, b"<f>A1+1</f>", b'<f t="shared" si="0"/>')
    with pytest.raises(Broken, match="A2"):
        cells(shared)


def test_every_kind_of_difference_is_listed(tmp_path: Path) -> None:
    cached = {
        "A1": ("Z1", 1.0),
        "A2": ("Z2", 1.0),
        "A3": ("Z3", ""),
        "A4": ("Z4", "a"),
        "A5": ("Z5", Fault("#N/A")),
        "A6": ("Z6", 1.0),
        "A7": ("Z7", True),
        "A8": 5.0,
    }
    path = write(tmp_path / "cached.xlsx", cached)
    values = {
        "A1": 1.0,
        "A2": 1.1,
        "A4": "b",
        "A5": Fault("#N/A"),
        "A7": 1.0,
        "A8": 6.0,
    }
    found = differences(path, {("Sheet", ref): value for ref, value in values.items()})
    assert [each.cell for each in found] == ["A2", "A4", "A5", "A6", "A7"]
    assert str(found[0]) == "Sheet!A2: cached 1.0, recalculated 1.1, by =Z2"
