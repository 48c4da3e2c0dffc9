"""The cells of a sheet as XML: every formula with the value it has, every text typed as text.

Written by hand because a library writes formulas without values and numbers with 16 digits; a
number here is its shortest exact decimal. Cells are made a column at a time, from one template a
strip, and joined row by row in blocks, so a sheet never stands in memory whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, islice, pairwise, repeat
from math import isfinite
from typing import NamedTuple

from openpyxl.utils import get_column_letter

from reportgen.algebra.places import ABOVE, BELOW, ROW, at_row
from reportgen.layout.heights import Height
from reportgen.layout.page import Band, Page, Strip, Style, Value
from reportgen.write.escaping import escape
from reportgen.write.limits import COLUMNS, ROWS, Unwritable, checked_formula, holdable

_BLOCK = 500
"""Rows made at once."""
_KEPT = ' customHeight="1"'


class SharedStrings:
    """The constant texts of a workbook, each held once."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}
        self.uses = 0

    def number(self, text: str) -> int:
        self.uses += 1
        return self._numbers.setdefault(text, len(self._numbers))

    def xml(self) -> Iterator[bytes]:
        """The part that holds them, piece by piece."""
        yield (
            '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
            '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
            f'count="{self.uses}" uniqueCount="{len(self._numbers)}">'
        ).encode()
        texts = iter(self._numbers)
        while some := [*islice(texts, _BLOCK)]:
            yield "".join(
                f'<si><t xml:space="preserve">{_escaped(text)}</t></si>'
                if text != text.strip() or "\n" in text
                else f"<si><t>{_escaped(text)}</t></si>"
                for text in some
            ).encode()
        yield b"</sst>"


_Piece = tuple[Strip, int]
"""A strip within a run of rows, and which of its values stands in the first of them."""


class _Rows(NamedTuple):
    """A run of rows with the same cells, left to right."""

    first: int
    stop: int
    pieces: list[_Piece]


def dimension(page: Page) -> str:
    """The range that the sheet's cells fill: ``A1:F60``."""
    strips = [(band, strip) for band in page.bands for strip in band.strips]
    if not strips:
        return "A1"
    columns = [strip.column for _, strip in strips]
    first = f"{get_column_letter(min(columns))}{min(band.first for band, _ in strips)}"
    last_row = max(band.first + band.rows - 1 for band, _ in strips)
    last = f"{get_column_letter(max(columns))}{last_row}"
    return first if first == last else f"{first}:{last}"


def sheet_data(
    page: Page,
    heights: Sequence[Height | None],
    styles: Mapping[Style, int],
    strings: SharedStrings,
) -> Iterator[bytes]:
    """The ``<sheetData>`` element of a page, in pieces; ``heights``: of each row."""
    yield b"<sheetData>"
    for rows in _runs(page):
        for start in range(rows.first, rows.stop, _BLOCK):
            numbers = [str(row) for row in range(start, min(start + _BLOCK, rows.stop))]
            tall = heights[start - 1 : start - 1 + len(numbers)]
            openings = [
                f'<row r="{number}"{_height(height)}>'
                for number, height in zip(numbers, tall, strict=True)
            ]
            columns = [
                _column(piece, start - rows.first, numbers, styles, strings, page.name)
                for piece in rows.pieces
            ]
            lines = zip(openings, *columns, repeat("</row>"))
            yield "".join(chain.from_iterable(lines)).encode()
    yield b"</sheetData>"


def _height(height: Height | None) -> str:
    assert height is not None, "a row that holds something has a height"
    return f' ht="{height.points:.2f}"{_KEPT if height.kept else ""}'


def _runs(page: Page) -> Iterator[_Rows]:
    """The page's rows, and what stands in them."""
    for band in page.bands:
        _check(page.name, band)
    for first, stop, bands in page.runs():
        pieces = [(strip, first - band.first) for band in bands for strip in band.strips]
        pieces.sort(key=lambda piece: piece[0].column)
        for (one, _), (other, _) in pairwise(pieces):
            if one.column == other.column:
                place = f"{get_column_letter(one.column)}{first}"
                raise Unwritable(f"{page.name}!{place}: two bands fill this cell")
        yield _Rows(first, stop, pieces)


def _check(sheet: str, band: Band) -> None:
    last = band.first + band.rows - 1
    if band.first < 1 or last > ROWS:
        raise Unwritable(f"{sheet}: a sheet has {ROWS} rows, row {last} is asked for")
    for strip in band.strips:
        if not 1 <= strip.column <= COLUMNS:
            raise Unwritable(f"{sheet}: a sheet has {COLUMNS} columns, not {strip.column}")
        if len(strip.values) != band.rows:
            place = f"{sheet}!{get_column_letter(strip.column)}{band.first}"
            raise Unwritable(f"{place}: {len(strip.values)} values for {band.rows} rows")
        if strip.formula is not None:
            checked_formula(at_row(strip.formula, last))


def _column(
    piece: _Piece,
    done: int,
    numbers: Sequence[str],
    styles: Mapping[Style, int],
    strings: SharedStrings,
    sheet: str,
) -> list[str]:
    """One column's cells, a text each."""
    strip, skip = piece
    first = skip + done
    values = strip.values[first : first + len(numbers)]
    letter, style = get_column_letter(strip.column), styles[strip.style]
    try:
        if strip.formula is None:
            return _constants(letter, style, numbers, values, strings)
        return _formulas(letter, style, numbers, values, escape(strip.formula))
    except Unwritable as wrong:
        raise Unwritable(f"{sheet}!{letter}{numbers[0]} or below: {wrong}") from None


def _constants(
    letter: str,
    style: int,
    numbers: Sequence[str],
    values: Sequence[Value],
    strings: SharedStrings,
) -> list[str]:
    cells = []
    for number, value in zip(numbers, values, strict=True):
        head = f'<c r="{letter}{number}" s="{style}"'
        if value is None or value == "":
            cells.append(f"{head}/>")
        elif isinstance(value, str):
            cells.append(f'{head} t="s"><v>{strings.number(holdable(value))}</v></c>')
        else:
            cells.append(f"{head}><v>{_number(value)}</v></c>")
    return cells


def _formulas(
    letter: str, style: int, numbers: Sequence[str], values: Sequence[Value], formula: str
) -> list[str]:
    begun, number, text = f'<c r="{letter}', f'" s="{style}"><f>', f'" s="{style}" t="str"><f>'
    cells = []
    for row, filled, value in zip(numbers, _filled(formula, numbers), values, strict=True):
        if value.__class__ is float and isfinite(value):
            cells.append(f"{begun}{row}{number}{filled}</f><v>{value!r}</v></c>")
        elif value is None:
            cells.append(f"{begun}{row}{text}{filled}</f><v></v></c>")
        elif isinstance(value, str):
            said = _escaped(holdable(value))
            cells.append(f"{begun}{row}{text}{filled}</f><v>{said}</v></c>")
        else:
            cells.append(f"{begun}{row}{number}{filled}</f><v>{_number(value)}</v></c>")
    return cells


def _filled(template: str, numbers: Sequence[str]) -> Iterator[str]:
    """A template with the row's number in it, for each row."""
    if ABOVE in template or BELOW in template:
        return (at_row(template, int(row)) for row in numbers)
    # The row's number joins the pieces of the template: the fastest way to put it in everywhere.
    pieces = template.split(ROW)
    return (row.join(pieces) for row in numbers)


def _number(value: float) -> str:
    """The shortest decimal that reads back as the same number."""
    if not isfinite(value):
        raise Unwritable(f"{value} is no number that a cell can hold")
    return repr(int(value)) if isinstance(value, bool) else repr(value)


def _escaped(text: str) -> str:
    """The text in XML; what would read as an escaped character is escaped itself."""
    return escape(text.replace("_x", "_x005F_x") if "_x" in text else text)
