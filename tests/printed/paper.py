"""A printed sheet: where each cell stands on which page, and the words that stand there."""

from __future__ import annotations

import re
import subprocess
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

from lxml import etree
from openpyxl.cell import Cell
from openpyxl.utils import get_column_letter, range_boundaries
from openpyxl.worksheet.worksheet import Worksheet

DIGIT = 5.5615
"""Points of a digit of Liberation Sans, ten points large (its advance width is 1139 of 2048)."""
TOLERANCE = 1.5
"""Points by which a word may stand outside its cell: frames, rounding to twentieths of a point."""
EPOCH = datetime(1899, 12, 30)


@dataclass(frozen=True)
class Word:
    """A word on a page, in points from the top left."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Sheetful:
    """What of a sheet stands on one page: its rows and columns, in order."""

    rows: tuple[int, ...]
    columns: tuple[int, ...]


_WORD = re.compile(
    r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>'
)
_ENTITIES = {"&amp;": "&", "&lt;": "<", "&gt;": ">", "&quot;": '"', "&apos;": "'", "&#39;": "'"}


def pages(pdf: Path) -> list[list[Word]]:
    """The words of each page."""
    done = subprocess.run(
        ["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True
    )
    found = []
    for page in done.stdout.split("<page ")[1:]:
        words = []
        for left, top, right, bottom, text in _WORD.findall(page):
            for entity, character in _ENTITIES.items():
                text = text.replace(entity, character)
            words.append(Word(text, float(left), float(top), float(right), float(bottom)))
        found.append(words)
    return found


def areas(path: Path) -> dict[str, list[str]]:
    """The printed ranges of each sheet, as they follow each other: openpyxl sorts them."""
    with zipfile.ZipFile(path) as opened:
        book = etree.fromstring(opened.read("xl/workbook.xml"))
    sheets = [each.get("name") for each in book.findall("{*}sheets/{*}sheet")]
    return {
        sheets[int(each.get("localSheetId"))]: [
            one.rpartition("!")[2].replace("$", "") for one in each.text.split(",")
        ]
        for each in book.findall("{*}definedNames/{*}definedName")
        if each.get("name") == "_xlnm.Print_Area"
    }


def sheetfuls(sheet: Worksheet, ranges: Sequence[str]) -> list[Sheetful]:
    """The pages that a sheet's own settings ask for: its ranges, breaks, repeated rows, column."""
    titles = _numbers(sheet.print_title_rows)
    key = (1,) if sheet.print_title_cols else ()
    starts = [each.id + 1 for each in sheet.row_breaks.brk]
    dimensions = [each for each in sheet.column_dimensions.values() if each.hidden]
    folded = {column for each in dimensions for column in range(each.min, each.max + 1)}
    found = []
    for area in ranges:
        left, top, right, bottom = range_boundaries(area)
        columns = tuple(c for c in range(left, right + 1) if c not in folded)
        columns = columns if left == 1 else (*key, *columns)
        edges = [top, *(row for row in sorted(starts) if top < row <= bottom), bottom + 1]
        for first, stop in pairwise(edges):
            repeated = tuple(row for row in titles if row < first)
            found.append(Sheetful((*repeated, *range(first, stop)), columns))
    return found


def _numbers(rows: str | None) -> tuple[int, ...]:
    if not rows:
        return ()
    first, last = re.findall(r"\d+", rows)
    return tuple(range(int(first), int(last) + 1))


def faults(sheet: Worksheet, sheetful: Sheetful, words: Sequence[Word]) -> Iterator[str]:
    """Every cell of which not all is read within its own room, and whatever shows ###."""
    scale = sheet.page_setup.scale / 100
    x = _places(sheet.page_margins.left * 72, [
        sheet.column_dimensions[get_column_letter(c)].width * DIGIT * scale
        for c in sheetful.columns
    ])  # fmt: skip
    y = _places(sheet.page_margins.top * 72, [
        (sheet.row_dimensions[row].height or sheet.sheet_format.defaultRowHeight) * scale
        for row in sheetful.rows
    ])  # fmt: skip
    for word in words:
        if "###" in word.text:
            yield f"{sheet.title}: {word.text}"
    for at, row in enumerate(sheetful.rows):
        here = [w for w in words if y[at] <= (w.top + w.bottom) / 2 <= y[at + 1]]
        filled = [n for n, c in enumerate(sheetful.columns) if shown(sheet.cell(row, c))]
        for place, n in enumerate(filled):
            cell = sheet.cell(row, sheetful.columns[n])
            stop = n + 1
            if not cell.alignment.wrap_text and isinstance(cell.value, str):
                stop = filled[place + 1] if place + 1 < len(filled) else len(sheetful.columns)
            room = [
                w for w in here
                if w.left >= x[n] - TOLERANCE and w.right <= x[stop] + TOLERANCE
                and w.top >= y[at] - TOLERANCE and w.bottom <= y[at + 1] + TOLERANCE
            ]  # fmt: skip
            found, wanted = _run(w.text for w in room), _run([shown(cell)])
            if found != wanted:
                yield f"{sheet.title}!{cell.coordinate}: {shown(cell)!r} is read as {found!r}"


def _places(start: float, sizes: Sequence[float]) -> list[float]:
    places = [start]
    for size in sizes:
        places.append(places[-1] + size)
    return places


def _run(texts: Sequence[str] | Iterator[str]) -> str:
    """Letters without the spaces and line ends between them."""
    return re.sub(r"\s+", "", "".join(texts))


def shown(cell: Cell) -> str:
    """What a cell shows, by its number format (ECMA-376, 18.8.31), of the formats used."""
    value, form = cell.value, cell.number_format
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, datetime):
        value = (value - EPOCH) / timedelta(days=1)
    if form.startswith("["):
        # [>=0.00005]#,##0.0000;[=0]0;"<0.0001": the first condition that holds, else the last.
        least, form, nothing, below = re.fullmatch(
            r'\[>=([\d.]+)\](.+);\[=0\](.+);"(.+)"', form
        ).groups()  # type: ignore[union-attr]
        if float(value) < float(least):
            return below if value else nothing
    if '"' in form:
        above, _, zero = (part.strip('"') for part in form.split(";"))
        return above if value else zero
    if form.startswith("yyyy"):
        day = EPOCH + timedelta(days=round(float(value) * 1440) / 1440)
        return day.strftime("%Y-%m-%d %H:%M" if "hh" in form else "%Y-%m-%d")
    if form == "General":
        return f"{value:g}"
    share = form.endswith("%")
    decimals = form.rstrip("%").partition(".")[2]
    number = _rounded(float(value) * (100 if share else 1), len(decimals))
    text = f"{number:,.{len(decimals)}f}"
    if "," not in form:
        text = text.replace(",", "")
    if "#" in decimals:
        text = text.rstrip("0").rstrip(".")
    return text + "%" * share


def _rounded(value: float, places: int) -> float:
    """Half away from zero, of the shortest decimal that is the number."""
    from decimal import ROUND_HALF_UP, Decimal

    return float(Decimal(repr(value)).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)) + 0.0
