"""Names, lengths and characters.

Sources: ECMA-376 part 1, 18.2.5 (defined names), 18.3.1.40 (formulas), 22.9.2.19 (escaped
characters); [MS-XLSB] 2.5.97.83 (a name must not begin with a row-and-column reference);
[MS-OI29500] (a formula has at most 8192 characters). C1_FOO and TAX2024 were tried against the
format by others, as public bug reports tell.
"""

from __future__ import annotations

import zipfile
from io import BytesIO

import openpyxl
import pytest

from reportgen.layout.page import Page, Workbook
from reportgen.write import workbook
from reportgen.write.limits import (
    Unwritable,
    checked_formula,
    checked_name,
    checked_sheet,
    clipped,
    holdable,
)
from reportgen.write.workbook import render
from write.books import one_column


@pytest.mark.parametrize(
    "name",
    [
        "TAX2024", "FY2024", "run1", "LOT12", "kg1", "A1", "XFD1048576", "R1C1", "r1c1", "RC", "R",
        "c", "R2", "C12", "C1_FOO", "R1_x", "rc_x", "Rc4x", "TRUE", "False", "", "1st", "a b",
        "a-b", "a!b", "rates'x", "a" * 256, ".x", "?x", "a\n",
    ],
)  # fmt: skip
def test_a_name_that_a_spreadsheet_would_misread_is_refused(name):
    with pytest.raises(Unwritable):
        checked_name(name)


@pytest.mark.parametrize(
    "name",
    [
        "rates_electricity", "COST1", "BATCH1", "B1_FOO", "_x", "\\x", "Rates", "Cost", "R_x",
        "truex", "a.b", "größe", "a" * 255, "TAX2024_", "recipes_pear_slices_water",
    ],
)  # fmt: skip
def test_a_sound_name_is_kept(name):
    assert checked_name(name) == name


@pytest.mark.parametrize(
    "name",
    ["", "  ", "a" * 32, "a/b", "a\\b", "a?b", "a*b", "a[b", "a]b", "a:b", "'a", "a'", "History",
     "a\x07"],
)  # fmt: skip
def test_a_bad_sheet_name_is_refused(name):
    with pytest.raises(Unwritable):
        checked_sheet(name)


def test_names_that_differ_in_case_only_are_refused():
    with pytest.raises(Unwritable, match="one name: 'Runs' and 'runs'"):
        render(Workbook("t", "en", [Page("Runs"), Page("runs")]))
    with pytest.raises(Unwritable, match="one name"):
        render(Workbook("t", "en", [Page("Runs")], {"ab_c": "Runs!$A$1", "AB_c": "Runs!$A$2"}))


def test_a_formula_is_measured_with_its_row_number():
    longest = "1+" * 4095 + "12"
    assert len(longest) == 8192
    assert checked_formula(longest) == longest
    with pytest.raises(Unwritable, match="at most 8192"):
        checked_formula(longest + "3")
    with pytest.raises(Unwritable, match="without its equals sign"):
        render(one_column([1.0], "=A2"))


def test_what_xml_cannot_hold_is_seen_as_a_replacement_character():
    assert holdable("a\x00b\x1fc\ud800d\ufffee") == "a\ufffdb\ufffdc\ufffdd\ufffde"
    assert holdable("one\r\ntwo\rthree\tfour\n") == "one\ntwo\nthree\tfour\n"


def test_a_text_too_long_for_a_cell_is_refused_with_its_place():
    assert len(holdable("x" * 32_767)) == 32_767
    with pytest.raises(Unwritable, match="S!A1 or below: a text of 32768 characters"):
        render(one_column(["x" * 32_768], role="text"))
    with pytest.raises(Unwritable):  # two units each in UTF-16, which is what is counted
        holdable("\U0001f350" * 16_384)


def test_a_clipped_text_ends_at_a_word():
    assert clipped("short", 32) == "short"
    assert (
        clipped("a weight in pounds or ounces, with its unit", 32)
        == "a weight in pounds or ounces,…"
    )
    assert len(clipped("x" * 300, 32)) == 32


def test_a_workbook_without_a_sheet_is_refused():
    with pytest.raises(Unwritable):
        render(Workbook("t", "en", []))


def test_a_sheet_of_very_many_cells_may_be_longer_than_2_gib(monkeypatch):
    """25,000 runs make one of 2.1 GB. Its local header must hold 64 bits (APPNOTE 4.5.3 of the zip
    format: extra field 1); what is smaller is written as ever."""
    book = one_column([1.0, 2.0])
    plain = render(book)
    monkeypatch.setattr(workbook, "_MANY", 1)
    large = render(book)
    assert large != plain
    for data, extra in ((plain, 0), (large, 20)):
        with zipfile.ZipFile(BytesIO(data)) as archive:
            at = archive.getinfo("xl/worksheets/sheet1.xml").header_offset
        assert int.from_bytes(data[at + 28 : at + 30], "little") == extra
        sheet = openpyxl.load_workbook(BytesIO(data)).worksheets[0]
        assert [cell.value for row in sheet for cell in row if cell.value is not None] == [1, 2]
