"""How numbers and headings read, in every kind of workbook: what a person sees of a cell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from itertools import pairwise

import pytest
from handout.seasons import TEXTS
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet
from printed.paper import shown
from samples.season import ROOT
from texts.asked import kinds, made

from reportgen.layout.compose import compose
from reportgen.layout.page import Page
from reportgen.program import build
from reportgen.sheets.all import contents
from reportgen.texts import Texts
from reportgen.trade import BOOK

pytestmark = pytest.mark.slow

KINDS = {kind.name: kind for kind in kinds()}


@cache
def book(name: str, locale: str = "en-US") -> Workbook:
    """A workbook of a kind as it is written, its values read back."""
    return load_workbook(BytesIO(made(KINDS[name], locale)), data_only=True)


@cache
def pages(name: str) -> list[Page]:
    """The same before it is written: charts say there what they show."""
    kind = KINDS[name]
    made = compose(contents(kind.sheets, kind.numbers), kind.numbers, kind.title, "", "a4")
    return made.pages


@pytest.mark.parametrize("name", KINDS)
def test_no_number_has_its_unit_twice(name: str) -> None:
    twice = [
        f"{sheet.title} {cell.coordinate}"
        for sheet in book(name)
        for row in sheet.iter_rows()
        for cell, beside in pairwise(row)
        if "%" in cell.number_format and beside.value == "%"
    ]
    titles = [
        f"{page.name} {chart.title}: {chart.y_title}"
        for page in pages(name)
        for chart in page.charts
        if "%" in chart.format and "%" in chart.y_title
    ]
    assert twice + titles == []


def test_a_chart_of_shares_says_percent_in_its_words_too() -> None:
    """A text has no number format: what is said to be in % must be."""
    found = 0
    for name in KINDS:
        for chart in (chart for page in pages(name) for chart in page.charts):
            if "%" not in chart.format:
                continue
            assert ", in %." in chart.alt
            (series,) = chart.series
            told = re.findall(rf"{series.name_value} (-?[\d.]+)", chart.alt)
            known = [value for value in series.value_values if value is not None]
            assert told and all(
                abs(float(text) - value * 100) < 0.0051
                for text, value in zip(told, known, strict=False)
            )
            found += 1
    assert found >= 1


def fine(sheet: Worksheet) -> Iterator[tuple[str, float, str]]:
    """What a person reads of numbers with more decimals than their unit has elsewhere."""
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell.value, int | float) and re.search(r"0\.0{3,}", cell.number_format):
                yield f"{sheet.title} {cell.coordinate}", cell.value, shown(cell)


@pytest.mark.parametrize("name", ["colline", "nine-gates", "windrow-lane", "thimble-hill"])
def test_how_sure_says_something_of_every_number_that_is_not_nothing(name: str) -> None:
    data, _ = build(ROOT / "samples" / name)
    assert data is not None
    found = list(fine(load_workbook(BytesIO(data), data_only=True)["How sure"]))
    assert len(found) > 20 and any(value == 0 for _, value, _ in found)
    wrong = [
        (at, value, text)
        for at, value, text in found
        if (value != 0) != any(digit in "123456789" for digit in text)
        or (value == 0 and text != "0")
        or ("<" in text and not 0 < value < float(text.lstrip("<")))
    ]
    assert wrong == []


def test_some_of_them_are_told_by_what_they_are_below() -> None:
    texts = [text for _, _, text in fine(book("colline")["How sure"])]
    assert "<0.000001" in texts
    french = [
        text for _, _, text in fine(book("colline", "fr-FR")[Texts(TEXTS, "fr-FR").say("How sure")])
    ]
    assert "<0,000001" in french and not any("<0." in text for text in french)


@pytest.mark.parametrize("name", KINDS)
def test_such_numbers_are_never_below_nothing(name: str) -> None:
    """Their number format has no room for a sign."""
    numbers = KINDS[name].numbers
    below = [
        (table.name, quantity.name)
        for table in numbers.book.tables.values()
        for quantity in table.definitions.values()
        if quantity.kind.show == "fine"
        and any(value < 0 for value in numbers.cells[table.name][quantity.name] if value)  # type: ignore[operator]
    ]
    assert below == []


def test_headings_are_in_full_words() -> None:
    """``k`` is said what it is; ``a`` is a word."""
    letters = [
        f"{each.table.name}.{each.name}: {each.label}"
        for each in BOOK.order
        if set(re.findall(r"(?<!')\b[a-zA-Z]\b", str(each.label))) - {"a", "k"}
    ]
    squares = [str(each.label) for each in BOOK.order if "squared" in str(each.label)]
    assert letters == []
    assert squares and all("uncertainty" in label for label in squares)
