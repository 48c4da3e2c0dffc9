"""What a reader sees of every sheet: headings that do not touch, no ids that nobody gave, units as
people write them."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from meta.laid_out import workbook

from reportgen.layout.blocks import TableBlock
from reportgen.layout.page import Page, Strip, Workbook
from reportgen.layout.text_width import digits
from reportgen.sheets.all import SHEETS

pytestmark = pytest.mark.slow

INDENT = 1.7
"""Digits that a text on the left keeps off its edge."""


@pytest.fixture(scope="module")
def book() -> Workbook:
    return workbook()


def strips(page: Page, role: str) -> Iterator[Strip]:
    return (s for band in page.bands for s in band.strips if s.style.role == role)


def longest(header: str, room: float) -> float:
    """The longest line of a header whose lines take all words that there is room for."""
    made = [""]
    for word in header.replace("-", "- ").split():
        more = f"{made[-1]} {word}".strip()
        made = [*made[:-1], more] if digits(more, bold=True) <= room else [*made, word]
    return max(digits(line, bold=True) for line in made)


def test_headings_do_not_touch(book: Workbook) -> None:
    """However a program fills the lines, a digit's room is left between one and the next."""
    seen = 0
    for page in book.pages:
        given = 7 if page.name == "Method" else 0  # its few columns have widths of their own
        for strip in strips(page, "header"):
            if strip.column <= given:
                continue
            room = page.widths[strip.column] - (INDENT if strip.style.align == "left" else 0)
            for header in strip.values:
                seen += 1
                assert longest(str(header), room) <= room - 0.9, (page.name, header)
    assert seen > 500


def test_units_have_their_powers_raised(book: Workbook) -> None:
    units = {str(v) for page in book.pages for s in strips(page, "unit") for v in s.values if v}
    assert {"m²", "kg/m²"} <= units
    assert [each for each in units if re.search(r"[A-Za-z][0-9]", each)] == []


def test_ids_of_places_stand_behind_the_figures(book: Workbook) -> None:
    """Of who eats first, of what weighs most: a reader counts places and has no use for their ids.
    Formulas ask them whether a row is in use."""
    pages = {page.name: page for page in book.pages}
    unnamed = [
        (sheet.name, block)
        for sheet in SHEETS
        for block in sheet.blocks
        if isinstance(block, TableBlock) and not block.ids and block.keys
    ]
    assert {block.table.name for _, block in unnamed} == {
        "ranking", "drivers", "worth_drying", "worth_mixing", "eat_first",
    }  # fmt: skip
    seen = 0
    for name, block in unnamed:
        page = pages[name]
        ids = [
            strip.column
            for band in page.bands
            for strip in band.strips
            if strip.values
            and re.fullmatch(r"(place|driver|worth|mixing|eat)-1", str(strip.values[0]))
        ]
        assert min(ids, default=99) > page.margin > 1, (name, block.table.name)
        seen += bool(ids)
    assert seen >= 4
