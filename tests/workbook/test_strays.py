"""A text where a number belongs is marked, named with sheet and cell, and an error of the workbook.

Excel lets anything be pasted over a rule for what may be typed, and a sum passes over a text.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

import pytest
from engines import gnumeric, iron, libreoffice
from engines.cells import Place, Value
from engines.edit import typed
from openpyxl import load_workbook
from openpyxl.utils.cell import coordinate_from_string, get_column_letter, range_boundaries
from openpyxl.workbook import Workbook

from reportgen.algebra.phrases import raised
from reportgen.trade import BOOK
from workbook.kinds import workbook

pytestmark = pytest.mark.slow

RED = "Do not rely on it yet: there are errors"
KINDS = ("windrow-lane", "compared", "costing")

Found = Mapping[Place, Value]


@cache
def opened(kind: str) -> Workbook:
    """A workbook as one reads it."""
    return load_workbook(workbook(kind))


@cache
def numeric(kind: str) -> dict[str, tuple[str, str]]:
    """For each range where numbers are typed, its first and its last cell, by ``sheet range``."""
    found = {}
    for sheet in opened(kind):
        for each in sheet.data_validations.dataValidation:
            if each.type != "list":
                left, top, _, bottom = range_boundaries(str(each.sqref))
                letter = get_column_letter(left)
                found[f"{sheet.title} {each.sqref}"] = (f"{letter}{top}", f"{letter}{bottom}")
    return found


@cache
def heads(kind: str, heading: str) -> tuple[int, str]:
    """The row and the column of a heading of the sheet Checks."""
    for row in opened(kind)["Checks"].iter_rows():
        for cell in row:
            if cell.value == heading:
                return cell.row, cell.column_letter
    raise AssertionError(heading)


def told(kind: str, found: Found) -> dict[str, float]:
    """Which cells the table of the workbook names, and how many it counts in their column."""
    top, count = heads(kind, raised(BOOK.definition("typed", "with_text").label))
    first = chr(ord(count) + 1)
    assert BOOK.definition("typed", "where_first").label == "first of them"
    assert opened(kind)["Checks"][f"{first}{top}"].value == "First of them"
    rows = {row for sheet, ref in found if sheet == "Checks" for _, row in [at(ref)] if row > top}
    named = {found.get(("Checks", f"{first}{row}")): row for row in rows}
    return {
        str(name): float(found["Checks", f"{count}{row}"] or 0)
        for name, row in named.items()
        if name
    }


def failing(found: Found) -> set[Value]:
    """The checks that are errors and fail."""
    return {
        key
        for (sheet, ref), key in found.items()
        if sheet == "Checks" and ref[0] == "A" and found.get((sheet, f"D{ref[1:]}")) == "error"
    }


def at(ref: str) -> tuple[str, int]:
    return coordinate_from_string(ref)


def by_calc(paths: Sequence[Path], out: Path) -> list[Found]:
    found = libreoffice.recalculate(paths, out)
    return [found[path] for path in paths]


def by_gnumeric(paths: Sequence[Path], out: Path) -> list[Found]:
    found = gnumeric.recalculate(paths, out)
    return [found[path] for path in paths]


def by_iron(paths: Sequence[Path], out: Path) -> list[Found]:
    return [iron.recalculate(path) for path in paths]


ENGINES = {"LibreOffice": by_calc, "Gnumeric": by_gnumeric, "ironcalc": by_iron}


def test_every_cell_for_a_number_or_day_marks_a_text() -> None:
    marked = asked = 0
    for sheet in opened("windrow-lane"):
        rules = {str(each.sqref): each.rules[0].formula[0] for each in sheet.conditional_formatting}
        for each in sheet.data_validations.dataValidation:
            cells = str(each.sqref)
            if each.type != "list":
                asked += 1
                marked += rules.get(cells) == f'{cells.partition(":")[0]}>""'
    assert marked == asked > 80


@pytest.mark.parametrize("engine", ENGINES)
def test_the_first_text_of_every_column_is_named(engine: str, tmp_path: Path) -> None:
    """In the last row of each, which is a spare one where there are any; then in the first too."""
    paths, expected = [], []
    for kind in KINDS:
        cells = {key: (key.rpartition(" ")[0], *ends) for key, ends in numeric(kind).items()}
        last = {(sheet, low): "9 mile" for sheet, _, low in cells.values()}
        both = last | {(sheet, high): "n/a" for sheet, high, _ in cells.values()}
        for number, texts in enumerate((last, both)):
            path = tmp_path / f"{kind} {number}.xlsx"
            paths.append(typed(workbook(kind), texts, path))
            expected.append(
                {
                    f"{sheet} {(low, high)[number]}": 1 + (number and low != high)
                    for sheet, high, low in cells.values()
                }
            )
    assert [len(each) > 5 for each in expected] == [True] * len(paths)
    found = ENGINES[engine](paths, tmp_path / "out")
    for kind, cells, values in zip(
        sorted(KINDS * 2, key=KINDS.index), expected, found, strict=True
    ):
        assert told(kind, values) == cells
        assert values["Checks", "A3"] == RED
        assert "typed-text-typed" in failing(values)


@pytest.mark.parametrize("engine", ENGINES)
def test_one_text_turns_the_verdict_and_is_named_on_the_first_sheet(
    engine: str, tmp_path: Path
) -> None:
    """The drive to the orchard, pasted with its unit; the margin, which stands by itself."""
    book = opened("windrow-lane")
    asked = {"Lots": ("travel", "9 mile"), "Rates": ("margin", "35 percent")}
    texts = {
        sheet: (str(each.sqref).partition(":")[0], text)
        for sheet, (name, text) in asked.items()
        for each in book[sheet].data_validations.dataValidation
        if each.promptTitle == name
    }
    assert len(texts) == len(asked)
    summary = {row[0].value: row[2].coordinate for row in book["Summary"].iter_rows()}
    plain = workbook("windrow-lane")
    paths = [plain] + [
        typed(plain, {(sheet, ref): text}, tmp_path / f"{sheet}.xlsx")
        for sheet, (ref, text) in texts.items()
    ]
    before, *after = ENGINES[engine](paths, tmp_path / "out")
    assert told("windrow-lane", before) == {}
    assert not [value for value in before.values() if value == RED]
    for (sheet, (ref, _)), values in zip(texts.items(), after, strict=True):
        assert told("windrow-lane", values) == {f"{sheet} {ref}": 1}
        assert values["Summary", "A3"] == values[sheet, "A3"] == RED
        assert values["Summary", summary["Where it is"]] == f"{sheet} {ref}"
