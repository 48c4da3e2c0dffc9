"""Values that LibreOffice wrote as text, a file a sheet.

Far quicker to write than a workbook. A text stands in quotes, so it is told from a number; a number
stands as it is shown, so only workbooks whose cells are all formatted as ``DIGITS`` may come this
way: a date or a share shown as such is refused. A truth value is shown as 1 or 0,
and a text that reads as an error value is taken for one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from engines.cells import Fault, Place, Value

FILTER = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1"
"""Commas, double quotes, UTF-8, every text quoted, values as shown, all sheets."""
DIGITS = "0.00000000000000E+00"
"""The number format that shows all 15 digits."""

_CELL = re.compile(r'("(?:[^"]|"")*"|[^",\n]*)([,\n])')
_FAULT = re.compile(r"#(DIV/0!|N/A|NAME\?|NULL!|NUM!|REF!|VALUE!)|Err:\d+")


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
