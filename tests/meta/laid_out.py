"""A season laid out as a workbook: its places, and every formula that stands in it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from seasons import sample_seasons

from reportgen.algebra.places import at_row
from reportgen.layout.blocks import Contents
from reportgen.layout.compose import compose
from reportgen.layout.page import Workbook
from reportgen.layout.placing import Layout
from reportgen.program import read
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK


@cache
def workbook(number: int = 3) -> Workbook:
    """One of the made-up seasons, composed."""
    with TemporaryDirectory() as folder:
        season = sample_seasons(number + 1, 7, "medium")[number]
        done = read(season.write(Path(folder)))
    assert done.season is not None and done.numbers is not None, done.problems
    return compose(
        contents(SHEETS, done.numbers),
        done.numbers,
        done.season.name,
        "en",
        "a4",
    )


def formulas(number: int = 3) -> dict[str, str]:
    """Every formula by where it stands first, without the equals sign, for row 7."""
    found: dict[str, str] = {}
    for page in workbook(number).pages:
        for band in page.bands:
            for strip in band.strips:
                if strip.formula is not None:
                    found[f"{page.name}!{strip.column}/{band.first}"] = at_row(strip.formula, 7)
        for each in page.conditions:
            found[f"{page.name}!{each.cells} look"] = each.formula
    return found


LAYOUT = Layout(
    BOOK,
    Contents(SHEETS, ("season", "verdict_of_all")),
    dict.fromkeys(BOOK.tables, 3),
    {"fresh": "lb", "dried": "oz", "money": "USD", "distance": "mile"},
)
