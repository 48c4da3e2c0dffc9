"""The one edge at which a workbook gets its language: fixed texts go in English up to here.

What was worked out, typed in or is somebody's own word stands in cells of other roles, or has a
formula, and is left alone: its texts come from numbers that speak the language already.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from reportgen.algebra.phrases import Phrase, Say
from reportgen.layout.blocks import Contents
from reportgen.layout.page import Band, Chart, Page, Role, Strip, Validation, Value

_FIXED: frozenset[Role] = frozenset(
    ("title", "purpose", "section", "group", "header", "unit", "label", "text", "link", "caution")
)
"""Roles of cells that hold the program's own words, where no formula gives them."""
_WORD = re.compile(r'"([^"]+)"')


def named(contents: Contents, say: Say) -> Contents:
    """The sheets under their names in a language: formulas and links spell them."""
    sheets = [replace(sheet, name=say(sheet.name)) for sheet in contents.sheets]
    return replace(contents, sheets=sheets)


def speak(page: Page, say: Say) -> None:
    """Put every fixed text of a page into a language; ``str`` leaves them in English."""
    if say is str:
        return

    def said(text: str) -> str:
        return Phrase.of(text).said(say) if text else text

    page.bands = [_band(band, said) for band in page.bands]
    page.spans = [(first, last, said(text)) for first, last, text in page.spans]
    page.comments = {cell: said(text) for cell, text in page.comments.items()}
    page.validations = [_validation(each, said) for each in page.validations]
    page.charts = [_chart(each, said) for each in page.charts]


def _band(band: Band, said: Callable[[str], str]) -> Band:
    return band._replace(strips=[_strip(strip, said) for strip in band.strips])


def _strip(strip: Strip, said: Callable[[str], str]) -> Strip:
    style = strip.style._replace(format=_words(strip.style.format, said))
    if strip.style.role not in _FIXED or strip.formula is not None:
        return strip._replace(style=style)
    values: list[Value] = [said(v) if isinstance(v, str) else v for v in strip.values]
    return strip._replace(style=style, values=values)


def _words(text: str, said: Callable[[str], str]) -> str:
    """A number format with the words that stand for numbers in it."""
    return _WORD.sub(lambda word: f'"{said(word[1])}"', text)


def _validation(rule: Validation, said: Callable[[str], str]) -> Validation:
    low = rule.low
    if rule.kind == "list" and low is not None and low.startswith('"'):
        low = '"' + ",".join(map(said, low.strip('"').split(","))) + '"'
    return rule._replace(low=low, title=said(rule.title), prompt=said(rule.prompt))


def _chart(chart: Chart, said: Callable[[str], str]) -> Chart:
    # A curve is named after a row, any other series after its column.
    series = [
        each if chart.kind == "curve" else each._replace(name_value=said(each.name_value))
        for each in chart.series
    ]
    return chart._replace(
        series=series,
        title=said(chart.title),
        x_title=said(chart.x_title),
        y_title=said(chart.y_title),
        alt=said(chart.alt),
    )
