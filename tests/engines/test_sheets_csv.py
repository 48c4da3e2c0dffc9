"""The quicker way out of LibreOffice loses nothing that a comparison needs."""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from engines import libreoffice, sheets_csv
from engines.cells import Fault

CONTENTS = {
    "A1": 6.0,
    "A2": 7.0,
    "A3": ("A1*A2", 41.0),
    "B1": ("1/3", 0.0),
    "B2": ("A1*1E-7/9", 0.0),
    "B3": ("1E+15+A1", 0.0),
    "C1": 'a "quoted", word',
    "C2": ('C1&"; "&A1', ""),
    "C3": "two\nlines",
    "C4": "7",
    "C5": "#1",
    "C6": "TRUE",
    "C7": ('IF(A1>5,"",1)', 1.0),
    "D1": ("A1>5", False),
    "D2": ("1/(A1-6)", 0.0),
    "D3": ("NA()", 0.0),
    "D4": ('A1+"x"', 0.0),
    "AB9": ("-A1", 0.0),
}


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict:
    folder = tmp_path_factory.mktemp("plain")
    path = folder / "plain.xlsx"
    with xlsxwriter.Workbook(path) as book:
        few = book.add_format({"num_format": "0.0"})
        sheet = book.add_worksheet("Own sheet")
        for ref, content in CONTENTS.items():
            if isinstance(content, tuple):
                sheet.write_formula(ref, f"={content[0]}", few, content[1])
            elif isinstance(content, str):
                sheet.write_string(ref, content, few)
            else:
                sheet.write_number(ref, content, few)
    values = libreoffice.recalculate([path], folder / "out")[path]
    return {ref: value for (sheet, ref), value in values.items() if sheet == "Own sheet"}


def test_numbers_are_recalculated_and_keep_their_digits(found: dict) -> None:
    assert found["A3"] == 42.0
    assert found["B1"] == pytest.approx(1 / 3, rel=1e-14)
    assert found["B2"] == pytest.approx(6e-7 / 9, rel=1e-14)
    assert found["B3"] == 1e15 + 6
    assert found["AB9"] == -6.0


def test_texts_are_told_from_numbers_faults_and_truth_values(found: dict) -> None:
    texts = {ref: CONTENTS[ref] for ref in ("C1", "C3", "C4", "C5", "C6")}
    assert {ref: found[ref] for ref in texts} == texts
    assert found["C2"] == 'a "quoted", word; 6'
    assert "C7" not in found
    assert found["D1"] is True


@pytest.mark.parametrize("ref", ["D2", "D3", "D4"])
def test_error_values_are_faults(found: dict, ref: str) -> None:
    assert isinstance(found[ref], Fault)


def test_every_sheet_is_there(tmp_path: Path) -> None:
    path = tmp_path / "several.xlsx"
    book = xlsxwriter.Workbook(path)
    for number, name in enumerate(("First", "A second", "Third-3"), 1):
        book.add_worksheet(name).write_number("B2", number)
    book.close()
    found = libreoffice.recalculate([path], tmp_path / "out")[path]
    assert found == {("First", "B2"): 1.0, ("A second", "B2"): 2.0, ("Third-3", "B2"): 3.0}


def test_a_file_that_is_no_workbook_is_named(tmp_path: Path) -> None:
    bad = tmp_path / "bad.xlsx"
    bad.write_bytes(b"PK\x03\x04 not a workbook at all")
    with pytest.raises(libreoffice.EngineFailed, match=r"bad\.xlsx"):
        libreoffice.recalculate([bad], tmp_path / "out")


def test_a_date_and_a_share_come_as_their_numbers(tmp_path: Path) -> None:
    path = tmp_path / "dated.xlsx"
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet()
    sheet.write_number("A1", 46000.25, book.add_format({"num_format": "yyyy-mm-dd"}))
    sheet.write_number("A2", 1 / 3, book.add_format({"num_format": "0 %"}))
    book.close()
    found = libreoffice.recalculate([path], tmp_path / "out")[path]
    assert found == {("Sheet1", "A1"): 46000.25, ("Sheet1", "A2"): pytest.approx(1 / 3, rel=1e-14)}


def test_letters_of_columns() -> None:
    assert [sheets_csv.letters(n) for n in (1, 26, 27, 702, 703)] == ["A", "Z", "AA", "ZZ", "AAA"]
