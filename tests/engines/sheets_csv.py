"""Values that LibreOffice wrote as text, a file a sheet.

Far quicker to write and to read than a workbook. A text stands in quotes, so it is told from a
number, and a truth value is a bare word; a number stands as one would type it into its cell, so the
cells of a workbook that comes this way must show numbers, no dates and no shares: ``made_ready``
sees to it. A text that reads as an error value is taken for one.
"""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Iterator
from pathlib import Path

from engines.cells import Fault, Place, Value

FILTER = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1"
"""Commas, double quotes, UTF-8, every text quoted, all sheets."""

_BOOK, _STYLES = "xl/workbook.xml", "xl/styles.xml"
_TITLES = re.compile(rb"<definedName [^>]*_xlnm\.Print_Titles[^>]*>[^<]*</definedName>")
_SHEET = "xl/worksheets/"
_NOTED = re.compile(rb'<legacyDrawing [^>]*/>|<Relationship [^>]*/(?:comments|vmlDrawing)"[^>]*/>')
_DRAWN = re.compile(rb"<(?:legacyDrawing|drawing) [^>]*/>|<Relationship [^>]*/>")
_FORMAT = re.compile(rb'(<xf [^>]*?numFmtId=)"\d+"')
_CELL = re.compile(r'("(?:[^"]|"")*"|[^",\n]*)([,\n])')
_FAULT = re.compile(r"#(DIV/0!|N/A|NAME\?|NULL!|NUM!|REF!|VALUE!)|Err:\d+")
_TRUTH = {"TRUE": True, "FALSE": False}


def made_ready(path: Path, copy: Path) -> None:
    """A copy of the workbook, all its numbers shown as such, no row repeated on paper, and without
    notes and charts: these take LibreOffice most of the time and are nothing that it works out."""
    shown = rb'\1"0"'
    _copied(path, copy, {_BOOK: (_TITLES, b""), _STYLES: (_FORMAT, shown), _SHEET: (_DRAWN, b"")})


def without_notes(path: Path, copy: Path) -> None:
    """A copy that looks the same on paper."""
    _copied(path, copy, {_SHEET: (_NOTED, b"")})


def without_titles(path: Path, copy: Path) -> None:
    """A copy in which no row is repeated on paper."""
    _copied(path, copy, {_BOOK: (_TITLES, b"")})


def _copied(path: Path, copy: Path, changes: dict[str, tuple[re.Pattern[bytes], bytes]]) -> None:
    """What is no workbook is copied as it is."""
    try:
        with zipfile.ZipFile(path) as whole, zipfile.ZipFile(copy, "w") as ready:
            for part in whole.namelist():
                data = whole.read(part)
                for start, (old, new) in changes.items():
                    data = old.sub(new, data) if part.startswith(start) else data
                ready.writestr(part, data)
    except zipfile.BadZipFile:
        shutil.copyfile(path, copy)


def values(folder: Path, stem: str) -> dict[Place, Value]:
    """Every cell of the workbook ``stem`` by the files that were written of it; none: no files."""
    return {
        (path.stem[len(stem) + 1 :], ref): value
        for path in sorted(folder.glob(f"{stem}-*.csv"))
        for ref, value in _sheet(path.read_text(encoding="utf-8"))
    }


def _sheet(text: str) -> Iterator[tuple[str, Value]]:
    row, column, at = 1, 1, 0
    while at < len(text):
        found = _CELL.match(text, at)
        if found is None:
            raise ValueError(f"row {row}: not as LibreOffice writes it: {text[at : at + 60]!r}")
        cell, end = found.groups()
        if cell and cell != '""':
            yield f"{letters(column)}{row}", _value(cell)
        row, column = (row + 1, 1) if end == "\n" else (row, column + 1)
        at = found.end()


def _value(cell: str) -> Value:
    if cell in _TRUTH:
        return _TRUTH[cell]
    if cell[0] != '"':
        return float(cell)
    text = cell[1:-1].replace('""', '"')
    return Fault(text) if _FAULT.fullmatch(text) else text


def letters(number: int) -> str:
    """A column's letters: 1 is A."""
    text = ""
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
