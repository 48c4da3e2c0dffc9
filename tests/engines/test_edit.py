"""A cell that is typed into changes, and nothing else."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from engines import gnumeric, iron, libreoffice
from engines.audit import faults
from engines.cells import Cell, cells
from engines.edit import typed
from engines.handmade import write

CONTENTS = {
    "A1": 6.0,
    "B1": ("A1*2", 12.0),
    "A2": "pears",
    "B2": ('A2&"!"', "pears!"),
    "B4": ("COUNT(A1:A9)", 1.0),
}


def test_typed_cells_change_and_the_rest_stays(tmp_path: Path) -> None:
    path = write(tmp_path / "before.xlsx", CONTENTS)
    new = {"A1": None, "A2": "apples", "C2": True, "A9": 7.5, "A3": 1, "AA2": 2.0}
    edited = typed(path, {("Sheet", ref): value for ref, value in new.items()}, tmp_path / "a.xlsx")
    expected = cells(path) | {("Sheet", ref): Cell(None, value) for ref, value in new.items()}
    del expected["Sheet", "A1"]
    assert cells(edited) == expected


def test_the_engines_follow_what_is_typed(tmp_path: Path) -> None:
    path = write(tmp_path / "before.xlsx", CONTENTS)
    new = {("Sheet", "A1"): 1.5, ("Sheet", "A2"): "apples", ("Sheet", "A9"): 3}
    edited = typed(path, new, tmp_path / "after.xlsx")
    expected = {"B1": 3.0, "B2": "apples!", "B4": 2.0}
    for found in (
        libreoffice.recalculate([edited], tmp_path / "out")[edited],
        gnumeric.recalculate([edited], tmp_path / "out")[edited],
        iron.recalculate(edited),
    ):
        assert {ref: found["Sheet", ref] for ref in expected} == expected


def test_another_reader_finds_the_cells_in_order_and_in_style(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.active["B2"] = 1
    book.active["B2"].number_format = "0.000"
    book.save(tmp_path / "styled.xlsx")
    new = {("Sheet", "B2"): 2.5, ("Sheet", "A2"): "x", ("Sheet", "A1"): 1}
    sheet = openpyxl.load_workbook(typed(tmp_path / "styled.xlsx", new, tmp_path / "b.xlsx")).active
    assert (sheet["B2"].value, sheet["B2"].number_format) == (2.5, "0.000")
    assert (sheet["A2"].value, sheet["A1"].value) == ("x", 1)


def test_an_unknown_sheet_is_named(tmp_path: Path) -> None:
    path = write(tmp_path / "before.xlsx", CONTENTS)
    with pytest.raises(KeyError, match="Nowhere"):
        typed(path, {("Nowhere", "A1"): 1}, tmp_path / "after.xlsx")


def test_the_audit_names_every_kind_of_fault(tmp_path: Path) -> None:
    good = write(tmp_path / "good.xlsx", CONTENTS)
    stale = typed(good, {("Sheet", "A1"): 7.0}, tmp_path / "stale.xlsx")
    faulty = write(tmp_path / "faulty.xlsx", {"A1": 0.0, "B1": ("1/A1", "#DIV/0!")})
    bare = write(tmp_path / "bare.xlsx", {"A1": 0.0})
    book = openpyxl.Workbook()
    book.active["A1"] = "=1+1"
    book.save(tmp_path / "empty.xlsx")
    empty = tmp_path / "empty.xlsx"
    found = faults([good, stale, faulty, bare, empty], tmp_path / "out")
    assert list(found) == [stale, faulty, bare, empty]
    assert found[stale] == [
        "LibreOffice: Sheet!B1: cached 12.0, recalculated 14.0, by =A1*2",
        "Gnumeric: Sheet!B1: cached 12.0, recalculated 14.0, by =A1*2",
        "ironcalc: Sheet!B1: cached 12.0, recalculated 14.0, by =A1*2",
    ]
    assert found[faulty][0] == "Sheet!B1: holds #DIV/0!"
    assert found[bare] == ["no formula in the whole workbook"]
    assert found[empty][0] == "Sheet!A1: no cached value"
