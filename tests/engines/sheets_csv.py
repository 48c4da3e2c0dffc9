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
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from engines.cells import Fault, Place, Value

FILTER = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1"
"""Commas, double quotes, UTF-8, every text quoted, all sheets."""

_BOOK = "xl/workbook.xml"
_TITLES = re.compile(rb"<definedName [^>]*_xlnm\.Print_Titles[^>]*>[^<]*</definedName>")
_SHEET = "xl/worksheets/"
_NOTED = re.compile(rb'<legacyDrawing [^>]*/>|<Relationship [^>]*/(?:comments|vmlDrawing)"[^>]*/>')
_AROUND = re.compile(
    rb"(<worksheet\b[^>]*>).*?(<sheetData\b.*</sheetData>|<sheetData\s*/>).*(</worksheet>)",
    re.DOTALL,
)
_STYLE = re.compile(rb'(<c r="[A-Z]+\d+") s="\d+"')
_RELATED = re.compile(rb"<Relationship [^>]*/>")
_CELL = re.compile(r'("(?:[^"]|"")*"|[^",\n]*)([,\n])')
_FAULT = re.compile(r"#(DIV/0!|N/A|NAME\?|NULL!|NUM!|REF!|VALUE!)|Err:\d+")
_TRUTH = {"TRUE": True, "FALSE": False}


def made_ready(path: Path, copy: Path) -> None:
    """A copy of the workbook with nothing on its sheets but cells, all numbers shown as such, and
    no row repeated on paper: all else takes most of the time and is nothing that is worked out."""
    bare = ((_AROUND, rb"\1\2\3"), (_STYLE, rb"\1"), (_RELATED, b""))
    _copied(path, copy, {_BOOK: ((_TITLES, b""),), _SHEET: bare})


def without_notes(path: Path, copy: Path) -> None:
    """A copy that looks the same on paper."""
    _copied(path, copy, {_SHEET: ((_NOTED, b""),)})


def without_titles(path: Path, copy: Path) -> None:
    """A copy in which no row is repeated on paper."""
    _copied(path, copy, {_BOOK: ((_TITLES, b""),)})


def _copied(
    path: Path, copy: Path, changes: Mapping[str, Sequence[tuple[re.Pattern[bytes], bytes]]]
) -> None:
    """What is no workbook is copied as it is."""
    try:
        with zipfile.ZipFile(path) as whole, zipfile.ZipFile(copy, "w") as ready:
            for part in whole.namelist():
                data = whole.read(part)
                for start, several in changes.items():
                    for old, new in several if part.startswith(start) else ():
                        data = old.sub(new, data)
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
