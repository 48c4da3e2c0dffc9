"""The forms of formula that the workbook is made of mean the same in three engines.

Each case is a small sheet: what is typed in, and formulas with the value worked by hand from what
spreadsheets commonly do (common practice, no source); the three engines are the check of it. All
sheets stand in one workbook, so that LibreOffice starts once.
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from engines import gnumeric, iron, libreoffice, row_forms, table_forms
from engines.compare import same

CASES = row_forms.CASES | table_forms.CASES


def write(path: Path) -> Path:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, (typed, formulas) in CASES.items():
        sheet = book.create_sheet(name)
        for cell, content in typed.items():
            sheet[cell] = content
        for cell, (formula, _) in formulas.items():
            sheet[cell] = formula
    book.save(path)
    return path


@pytest.fixture(scope="module")
def workbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("portable") / "portable.xlsx")


@pytest.fixture(scope="module")
def by_libreoffice(workbook: Path, tmp_path_factory: pytest.TempPathFactory) -> dict:
    return libreoffice.recalculate([workbook], tmp_path_factory.mktemp("calc"))[workbook]


@pytest.fixture(scope="module")
def by_iron(workbook: Path) -> dict:
    return iron.recalculate(workbook)


@pytest.fixture(scope="module")
def by_gnumeric(workbook: Path, tmp_path_factory: pytest.TempPathFactory) -> dict:
    return gnumeric.recalculate([workbook], tmp_path_factory.mktemp("gnumeric"))[workbook]


@pytest.mark.parametrize("case", CASES)
def test_the_engines_agree_with_the_value_worked_by_hand(
    case: str, by_libreoffice: dict, by_iron: dict, by_gnumeric: dict
) -> None:
    for cell, (formula, value) in CASES[case][1].items():
        found = {
            "by hand": value,
            "LibreOffice": by_libreoffice.get((case, cell)),
            "ironcalc": by_iron.get((case, cell)),
            "Gnumeric": by_gnumeric.get((case, cell)),
        }
        for each in found.values():
            assert same(each, value), f"{cell} {formula}: {found}"


def test_no_case_is_lost_with_its_sheet(workbook: Path, by_libreoffice: dict) -> None:
    """LibreOffice leaves out sheets whose name is too long, without a word."""
    assert max(len(name) for name in CASES) <= 31
    assert {sheet for sheet, _ in by_libreoffice} == set(CASES)
