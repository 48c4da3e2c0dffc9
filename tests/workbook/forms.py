"""A season's tables on two sheets, for engines to read quickly.

LibreOffice takes as long to open a dozen empty sheets as to work out ten thousand formulas, so
hundreds of made-up seasons go through two sheets: every table with all its inputs, quantities and
checks, a few spare rows each, without notes, charts and colours. The formulas are made by the same
code as the program's. Samples, and some made-up seasons, are tested as the program writes them.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportgen.algebra.nodes import PerRow
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.layout.blocks import ConstantsBlock, ListBlock, Sheet, TableBlock
from reportgen.layout.compose import compose
from reportgen.layout.page import Page, Style, Workbook
from reportgen.layout.placing import Layout
from reportgen.model.season import Season
from reportgen.sheets.all import contents
from reportgen.trade import BOOK
from reportgen.trade.tables import price_list
from reportgen.write.workbook import render

SPARE = 2
A_SIZE_MORE = 10
"""A new size has a price in each channel."""
_PLAIN = Style("formula")
_CALCULATED = ("key", "input", "given", "formula", "check", "text")


def _spare(table: Table) -> int:
    fixed = any(isinstance(each.tree, PerRow) for each in table.definitions.values())
    return 0 if fixed else A_SIZE_MORE if table is price_list else SPARE


_TABLES = [table for table in BOOK.tables.values() if not table.single]
_SINGLES = [table for table in BOOK.tables.values() if table.single]

COMPACT = (
    Sheet(
        "All tables",
        "Every table below the other.",
        [TableBlock(each, (), each.title, spare=_spare(each)) for each in _TABLES],
        "audit",
    ),
    Sheet(
        "Single figures",
        "What stands but once.",
        [
            ListBlock("Figures", tuple((each, ()) for each in _SINGLES), rest=True),
            ConstantsBlock("Constants"),
        ],
        "audit",
    ),
)


def write(season: Season, numbers: Numbers, path: Path) -> Path:
    """The season's workbook on two sheets, all cells in one style."""
    book = compose(contents(COMPACT, numbers), numbers, season.name, "en", "a4")
    path.write_bytes(render(Workbook(book.title, book.language, list(map(_bare, book.pages)))))
    return path


def _bare(page: Page) -> Page:
    """The page without what no engine calculates with."""
    bands = [
        band._replace(
            height=15.0,
            strips=[
                strip._replace(style=_PLAIN)
                for strip in band.strips
                if strip.formula is not None or strip.style.role in _CALCULATED
            ],
        )
        for band in page.bands
    ]
    return Page(page.name, bands=bands, title_rows=(0, 0))


def layout(numbers: Numbers, sheets: Sequence[Sheet] = COMPACT) -> Layout:
    """Where the cells of a workbook of these sheets are."""
    rows = {name: numbers.rows(table) for name, table in BOOK.tables.items()}
    return Layout(BOOK, contents(sheets, numbers), rows, numbers.slots)
