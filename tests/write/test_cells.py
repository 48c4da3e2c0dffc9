"""What stands in the cells, read back by openpyxl, ironcalc and LibreOffice."""

from __future__ import annotations

import math
import struct
import sys

import pytest
from engines import iron, libreoffice
from engines.cells import cells
from engines.compare import differences, uncached
from hypothesis import given
from hypothesis import strategies as st

from reportgen.algebra.places import ROW
from reportgen.layout.page import Band, Page, Strip, Style, Workbook
from reportgen.write.limits import Unwritable
from reportgen.write.workbook import render
from write.books import DOUBLE, IDS, WET, load, one_column, parts, whole, xml

HOSTILE = [
    "=cmd|'/C calc'!A0",
    '=HYPERLINK("http://example.org/"&A1)',
    "+1",
    "-1",
    "@SUM(A1)",
    "<b>&amp;\"'",
    "]]>",
    " leading and trailing ",
    "two\nlines",
    "_x000D_ and _x0041_",
    "\U0001f350 ñ ß",
    "TRUE",
    "007",
    "\t",
]


def test_formulas_and_values_come_back_both_ways():
    formulas, values = load(whole())["Loads"], load(whole(), values=True)["Loads"]
    assert [formulas.cell(6 + n, 3).value for n in range(4)] == [
        f'=IF(COUNT($B{row}),$B{row}+$B{row},"")' for row in range(6, 10)
    ]
    assert [values.cell(6 + n, 1).value for n in range(4)] == IDS
    assert [values.cell(6 + n, 2).value for n in range(4)] == WET
    assert [values.cell(6 + n, 3).value for n in range(4)] == DOUBLE
    assert [values.cell(6 + n, 4).value for n in range(2)] == ["a <b> & c"] * 2


def test_engines_agree_with_every_cached_value(tmp_path):
    path = tmp_path / "whole.xlsx"
    path.write_bytes(render(whole()))
    assert not uncached(path)
    assert not differences(path, iron.recalculate(path))
    assert not differences(path, libreoffice.recalculate([path], tmp_path / "out")[path])


def test_hostile_texts_stay_texts_in_every_engine(tmp_path):
    path = tmp_path / "hostile.xlsx"
    path.write_bytes(render(one_column(HOSTILE, role="text")))
    read = load(one_column(HOSTILE, role="text"))["S"]
    assert {read.cell(n, 1).data_type for n in range(1, len(HOSTILE) + 1)} == {"s"}
    # ironcalc does not undo the format's escapes (_x005F_), which LibreOffice does.
    calc = libreoffice.recalculate([path], tmp_path / "out")[path]
    by_iron, written = iron.recalculate(path), cells(path)
    for number, text in enumerate(HOSTILE, 1):
        place = ("S", f"A{number}")
        assert written[place] == (None, text)
        assert calc[place] == text
        if "_x" not in text:
            assert by_iron[place] == text


def test_hostile_texts_as_results_of_formulas(tmp_path):
    texts = [text for text in HOSTILE if text.strip() == text]
    page = Page("S", freeze="")
    page.bands.append(
        Band(
            1,
            len(texts),
            [
                Strip(1, Style("text", "@"), texts),
                Strip(2, Style("formula"), texts, f'A{ROW}&""'),
            ],
        )
    )
    path = tmp_path / "results.xlsx"
    path.write_bytes(render(Workbook("t", "en", [page])))
    assert not differences(path, libreoffice.recalculate([path], tmp_path / "out")[path])


def _written(book: Workbook) -> list[str | None]:
    return [v.text for v in xml(book, "xl/worksheets/sheet1.xml").iter("{*}v")]


@pytest.mark.slow
@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=1, max_size=50))
def test_numbers_are_exact_to_the_bit(numbers):
    for formula in (None, f"B{ROW}"):
        read = [float(text or "") for text in _written(one_column(numbers, formula))]
        assert [struct.pack("d", n) for n in read] == [struct.pack("d", n) for n in numbers]


def test_the_ends_of_the_scale():
    ends = [sys.float_info.max, sys.float_info.min, 5e-324, 0.1 + 0.2, 1 / 3, 2.0**53, -0.0]
    assert [float(text or "") for text in _written(one_column(ends))] == ends


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("formula", [None, "B1"])
def test_what_is_no_number_is_refused(number, formula):
    with pytest.raises(Unwritable, match="S!A1"):
        render(one_column([number], formula))


def test_the_types_of_cached_values():
    book = one_column([1.5, "ok", None, "", True, False], f"B{ROW}")
    found = [
        (c.get("t"), c.findtext("{*}v")) for c in xml(book, "xl/worksheets/sheet1.xml").iter("{*}c")
    ]
    assert found == [
        (None, "1.5"),
        ("str", "ok"),
        ("str", ""),
        ("str", ""),
        (None, "1"),
        (None, "0"),
    ]


def test_a_blank_input_is_a_cell_that_can_be_typed_into():
    cell = load(whole())["Loads"]["B9"]
    assert cell.value is None
    assert cell.style == "To fill in"
    assert not cell.protection.locked
    assert cell.number_format == "0.00"


def test_bands_may_stand_side_by_side():
    page = Page("S", freeze="")
    page.bands = [
        Band(3, 3, [Strip(4, Style("formula"), [1.0, 2.0, 3.0], f"A{ROW}")]),
        Band(2, 3, [Strip(1, Style("input"), [10.0, 20.0, 30.0])]),
        Band(7, 1, [Strip(2, Style("text"), ["end"])]),
    ]
    sheet = load(Workbook("t", "en", [page]), values=True)["S"]
    assert [tuple(c.value for c in row) for row in sheet["A2:D5"]] == [
        (10.0, None, None, None),
        (20.0, None, None, 1.0),
        (30.0, None, None, 2.0),
        (None, None, None, 3.0),
    ]
    assert sheet.dimensions == "A2:D7"


def test_two_bands_on_one_cell_are_refused():
    strip = Strip(1, Style("text"), ["a", "b"])
    page = Page("S", bands=[Band(1, 2, [strip]), Band(2, 2, [strip])])
    with pytest.raises(Unwritable, match="S!A2: two bands"):
        render(Workbook("t", "en", [page]))


def test_a_strip_of_another_length_than_its_band_is_refused():
    page = Page("S", bands=[Band(1, 3, [Strip(1, Style("text"), ["a", "b"])])])
    with pytest.raises(Unwritable, match="S!A1: 2 values for 3 rows"):
        render(Workbook("t", "en", [page]))


def test_long_bands_are_written_in_blocks_without_a_seam():
    numbers = [float(n) for n in range(1, 1702)]
    sheet = load(one_column(numbers, f"B{ROW}"), values=True)["S"]
    assert [row[0].value for row in sheet["A1:A1701"]] == numbers
    assert load(one_column(numbers, f"B{ROW}"))["S"]["A1701"].value == "=B1701"


def test_each_constant_text_is_held_once():
    root = xml(one_column(["kale", "corn", "kale"], role="text"), "xl/sharedStrings.xml")
    assert [t.text for t in root.iter("{*}t")] == ["kale", "corn"]
    assert (root.get("count"), root.get("uniqueCount")) == ("3", "2")


def test_the_parts_are_announced():
    found = parts(render(whole()))
    assert b"/xl/sharedStrings.xml" in found["[Content_Types].xml"]
    assert b"sharedStrings.xml" in found["xl/_rels/workbook.xml.rels"]


def test_rows_are_tall_enough_for_wrapped_text():
    text = "A long note on what a mile costs in all: fuel, tyres, wear and the driver's patience."
    page = Page("S", {1: 20.0}, freeze="")
    page.bands = [
        Band(1, 2, [Strip(1, Style("text", wrap=True), [text, "short"])]),
        Band(3, 1, [Strip(1, Style("text", wrap=True), [text])], height=40.0),
    ]
    rows = load(Workbook("t", "en", [page]))["S"].row_dimensions
    # 20 digits a line, and a letter is seldom wider than a digit: at least 4 lines of 12 points.
    assert rows[1].height >= 4 * 12
    assert rows[2].height == 15
    assert rows[3].height == 40
