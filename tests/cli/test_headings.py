"""Every heading that people see can be asked for: on each sheet, on the page, in both languages.

The headings are read off the finished workbook and page, by the look of their cells; what
``explain`` makes of each is asked of the program.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

import click
import pytest
from handout.seasons import gathered, page

from reportgen.algebra.numbers import Numbers
from reportgen.cli import explain
from reportgen.layout.compose import compose
from reportgen.program import texts
from reportgen.sheets.all import SHEETS, contents

pytestmark = pytest.mark.slow

LOOKS = ("title", "section", "group", "header", "label")
_SERVES = re.compile(
    ": (row|rows? (from here|before)|(sum|missing|read|counted) from|(first )?place|stands apart)"
    "|: rank when built|: out of that order"
)
"""Columns that serve others, made by the layout, far to the right."""


def cells(numbers: Numbers, locale: str) -> Iterator[str]:
    """The texts of cells that look like headings, and the labels of lists."""
    made = compose(contents(SHEETS, numbers), numbers, "", "", "a4", texts(locale).say)
    for band in (band for sheet in made.pages for band in sheet.bands):
        for strip in band.strips:
            if strip.style.role in LOOKS:
                yield from (str(value) for value in strip.values if value)


def of_sheets(numbers: Numbers, locale: str) -> set[str]:
    """Those of every sheet, but for columns that serve others."""
    shown = [*cells(numbers, locale)]
    english = [*cells(numbers, "")] if locale else shown
    return {each for each, was in zip(shown, english, strict=True) if not _SERVES.search(was)}


class OfPage(HTMLParser):
    """Headings, heads of columns and labels of a page, as they are read."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._open: list[bool] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("meta", "link", "br"):
            return
        seen = dict(attrs)
        own = (
            tag in ("h2", "figcaption")
            or (tag == "th" and seen.get("scope") == "col")
            or seen.get("class") == "label"
        )
        if own:
            self.found.append("")
        # A unit in the head of a column, and the sign before a heading, are no part of its words.
        aside = seen.get("class") in ("unit", "hidden") or "aria-hidden" in seen
        self._open.append(own or (bool(self._open) and self._open[-1] and not aside))

    def handle_endtag(self, tag: str) -> None:
        if tag not in ("meta", "link", "br"):
            self._open.pop()

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1]:
            self.found[-1] += data


def of_page(name: str, locale: str) -> list[str]:
    found = OfPage()
    found.feed(page(name, locale).decode("utf-8"))
    return [each for each in map(str.strip, found.found) if each]


def answer(numbers: Numbers, heading: str, locale: str) -> str:
    """What the program makes of it: a quantity's name, or what is said."""
    try:
        table, name = explain._named(numbers, heading, None, locale)
    except click.BadParameter as said:
        return said.message
    return f"{table.name}.{name}"


@pytest.mark.parametrize(
    ("sample", "locale"), [("windrow-lane", ""), ("nine-gates", ""), ("colline", "fr-FR")]
)
def test_every_heading_is_understood_or_says_what_to_ask(
    sample: str, locale: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    numbers = gathered(sample, locale).numbers
    sheets, on_page = of_sheets(numbers, locale), {*of_page(sample, locale)}
    assert len(sheets) > 400 and len(on_page) > 60, (len(sheets), len(on_page))
    made = explain._headings(numbers, locale)
    monkeypatch.setattr(explain, "_headings", lambda *_: made)
    told = {each: answer(numbers, each, locale) for each in sorted(sheets | on_page)}
    assert {k: v for k, v in told.items() if "names no quantity" in v} == {}
    assert sum(re.fullmatch(r"\w+\.\w+", v) is not None for v in told.values()) > len(told) / 3


@pytest.mark.parametrize(
    ("heading", "asked"),
    [
        ("Has the dryer paid for itself?", "dryers.payback_said"),
        ("In a sentence", "products.headline"),
        ("Lost, or thrown away", "did you mean"),
        ("How to read this workbook", "stands over words, lists"),
        ("What it cost, saved and earned", "write one of season.spent, season.running_cost, "),
        ("Sold without a price, and none was asked that day.", "did you mean"),
        ("Sold, but without a price, and none was asked that day.", "uses.price_missing"),
    ],
)
def test_what_is_said_of_one(heading: str, asked: str) -> None:
    assert asked in answer(gathered("windrow-lane").numbers, heading, "")
