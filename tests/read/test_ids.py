"""Ids are texts to every spreadsheet: those that pass are found by SUMIFS, in two engines."""

from __future__ import annotations

import random
import string
from pathlib import Path

import openpyxl
import pytest
from engines import iron, libreoffice

from reportgen.read.file_names import base_of, date_of
from reportgen.read.ids import check
from reportgen.read.problem import Refusal

# Read as a day when typed into a cell: Ziemann, Eren, El-Osta, 'Gene name errors are widespread in
# the scientific literature', Genome Biology 17:177 (2016), names SEPT2, MARCH1 and DEC1. From
# memory, not seen. The others are the same with a hyphen, and in other languages.
DAYS = ["SEPT2", "MARCH1", "DEC1", "mar-1", "jan-2026", "May-5", "oct-3-26", "okt-3", "ene-1"]
TRUTHS = ["TRUE", "false", "True", "WAHR", "faux"]
MALFORMED = ["", "1e5", "1st", "-a", "a b", "a_b", "a.b", "é", "a/b", "=a", "a" * 61, "a\n"]


@pytest.mark.parametrize("text", DAYS + TRUTHS + MALFORMED)
def test_refused(text: str) -> None:
    with pytest.raises(Refusal):
        check(text)


@pytest.mark.parametrize(
    "text", ["pears-1", "P-0908", "run-07", "may", "e5", "A1", "maize-2", "decent-1", "lug-1", "a"]
)
def test_taken(text: str) -> None:
    check(text)


def accepted() -> list[str]:
    """Short ids of all kinds, those most like numbers, days and cells first."""
    chance = random.Random(20260905)
    starts = ["e", "E", "d", "may-", "may", "q", "A", "R1C", "sep", "am-", "w-", "t", "x-", "inf"]
    found = {"may", "mon-1", "Q1", "A1", "R1C1", "e5", "E10", "a-1-2026", "pi", "nan", "lug-1"}
    letters = string.ascii_letters + string.digits * 2 + "--"
    while len(found) < 400:
        tail = "".join(chance.choices(letters, k=chance.randint(0, 4)))
        text = chance.choice([*starts, *string.ascii_letters]) + tail
        if text.casefold() in {each.casefold() for each in found}:
            continue
        try:
            check(text)
        except Refusal:
            continue
        found.add(text)
    return sorted(found)


@pytest.fixture(scope="module")
def workbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    ids = accepted()
    for row, text in enumerate(ids, 1):
        sheet.cell(row, 1, text).data_type = "s"
        sheet.cell(row, 2, row)
        sheet.cell(row, 3, f"=SUMIFS($B$1:$B${len(ids)},$A$1:$A${len(ids)},A{row})")
        sheet.cell(row, 4, f"=MATCH(A{row},$A$1:$A${len(ids)},0)")
    path = tmp_path_factory.mktemp("ids") / "ids.xlsx"
    book.save(path)
    return path


def test_every_id_that_passes_is_found_alone(workbook: Path, tmp_path: Path) -> None:
    office = libreoffice.recalculate([workbook], tmp_path)[workbook]
    for values in (iron.recalculate(workbook), office):
        found = {key[1]: value for key, value in values.items()}
        for row in range(1, len(accepted()) + 1):
            text = found[f"A{row}"]
            assert (text, found[f"C{row}"], found[f"D{row}"]) == (text, row, row)


@pytest.mark.parametrize(
    ("file", "base", "date"),
    [
        ("batches/2026-09-05-pears.yaml", "pears-2026-09-05", "2026-09-05"),
        ("batches/north/2026-09-05-pears.yaml", "pears-2026-09-05", "2026-09-05"),
        ("batches/pears-2026-09-05.yaml", "pears-2026-09-05", "2026-09-05"),
        ("batches/2026-09-05.yaml", "batch-2026-09-05", "2026-09-05"),
        ("batches/Sour pears.yaml", "Sour-pears", ""),
        ("batches/7.yaml", "batch-7", ""),
    ],
)
def test_names_of_files(file: str, base: str, date: str) -> None:
    assert (base_of(file), date_of(file)) == (base, date)
