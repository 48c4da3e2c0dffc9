"""Rules that formulas and cells keep because some suite breaks without them.

Of a formula: what the suite that most people have does not bear, and no engine here shows. Each
rule gives the reason why a piece breaks it; ``test_rules.py`` holds every formula and cell against
them, and each rule against a case that breaks it.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from engines.cells import sheet_parts
from lxml import etree
from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token

PORTABLE = {
    *("SUM", "MIN", "MAX", "ROUND", "ROUNDUP", "ABS", "SQRT", "POWER"),
    *("COUNT", "COUNTA", "COUNTIF", "COUNTIFS", "SUMIFS", "SUMPRODUCT", "AVERAGE", "AVERAGEIFS"),
    *("IF", "AND", "OR", "NOT", "INDEX", "MATCH", "ROW", "ISNUMBER"),
}
"""In Excel 2010 and later, LibreOffice, Gnumeric and Google Sheets alike; none is volatile. (N is
not among them: of an empty cell it is an error in Gnumeric.)"""
_RANGES = {
    *(
        "SUM",
        "MIN",
        "MAX",
        "COUNT",
        "COUNTA",
        "COUNTIF",
        "COUNTIFS",
        "SUMIFS",
        "AVERAGE",
        "AVERAGEIFS",
    ),
    *("INDEX", "MATCH"),
}
"""Functions that take a range and give one value."""
_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_FORMATS = {49: "@"}
"""Numbers of built-in formats that matter here (ECMA-376, 18.8.30)."""
_ENDS = re.compile(r"\$?([A-Z]+)\$?(\d+):\$?([A-Z]+)\$?(\d+)$")
_OWN_ROW = re.compile(r"(?<=[A-Z])\d+")
_RELATIVE = re.compile(r"\.[0?]*#")


class Cell(NamedTuple):
    """What stands in a cell of a file, and how it is formatted."""

    place: str
    formula: str | None
    is_text: bool
    value: str
    format: str


def judged(path: Path) -> tuple[int, list[str]]:
    """How many formulas a workbook has, and each cell or condition that breaks a rule, with it."""
    found, formulas = [], 0
    for cell in cells(path):
        formulas += cell.formula is not None
        found += [f"{cell.place}: {why}" for why in of_cell(cell)]
    for place, formula in conditions(path):
        found += [f"{place}: {why}" for why in of_formula(formula)]
    return formulas, found


def of_cell(cell: Cell) -> Iterator[str]:
    """Which rules a cell breaks."""
    if cell.formula is not None:
        # All rows of a column have one formula but for the row's number.
        yield from of_formula(_OWN_ROW.sub("7", cell.formula))
        if cell.format == "@":
            yield "a formula in a text format turns into its own text when it is entered again"
    if _RELATIVE.search(cell.format):
        yield f"the format {cell.format} leaves a bare point behind a whole number"
    in_first_column = re.search(r"!A\d+$", cell.place) is not None
    if in_first_column and cell.is_text and re.fullmatch(r"[\d.,]+", cell.value):
        yield f"the id {cell.value} is a text of digits, and a number when it is entered again"


@cache
def of_formula(formula: str) -> tuple[str, ...]:
    """Which rules a formula breaks."""
    return tuple(_of_formula(formula))


def _of_formula(formula: str) -> Iterator[str]:
    tokens = [each for each in Tokenizer("=" + formula).items if each.type != "WHITE-SPACE"]
    inside: list[str] = []
    blanks: list[bool] = []
    for before, token, after in zip([None, *tokens], tokens, [*tokens[1:], None], strict=False):
        if token.subtype == "OPEN":
            name = token.value.rstrip("(").upper()
            if token.type == "FUNC" and name not in PORTABLE:
                yield f"{name} is not right in every suite"
            if name == "ISNUMBER" and "SUMPRODUCT" in inside:
                yield "ISNUMBER inside SUMPRODUCT is 0 in one suite"
            inside.append(name)
            blanks.append(False)
        elif token.subtype == "CLOSE":
            blank, name = blanks.pop(), inside.pop()
            if blank and name == "IF" and _reckons(after):
                yield "it reckons with a text that is empty"
        elif token.value == '""':
            if blanks:
                blanks[-1] = True
            if _reckons(before) or _reckons(after):
                yield "it reckons with a text that is empty"
        elif token.type == "OPERAND" and token.subtype == "RANGE" and ":" in token.value:
            yield from _of_range(token.value, inside, before, after)


def _of_range(
    text: str, inside: list[str], before: Token | None, after: Token | None
) -> Iterator[str]:
    ends = _ENDS.search(text)
    if ends is None or ends[1] + ends[2] == ends[3] + ends[4]:
        yield f"{text} is a range of one cell, of which SUMPRODUCT makes an error where it is blank"
    if "SUMPRODUCT" in inside:
        return
    reckoned = any(each is not None and each.type == "OPERATOR-INFIX" for each in (before, after))
    if reckoned or not inside or inside[-1] not in _RANGES:
        yield f"{text} makes an array outside SUMPRODUCT"


def _reckons(token: Token | None) -> bool:
    return token is not None and token.type == "OPERATOR-INFIX" and token.value in "+-*/"


def cells(path: Path) -> Iterator[Cell]:
    """Every cell of a workbook that is not empty."""
    with zipfile.ZipFile(path) as archive:
        formats = _formats(archive)
        shared = _strings(archive)
        for sheet, part in sheet_parts(archive):
            with archive.open(part) as stream:
                for _, row in etree.iterparse(stream, tag=_MAIN + "row"):
                    for cell in row:
                        yield from _cell(sheet, cell, formats, shared)
                    row.clear()


def _cell(
    sheet: str, cell: etree._Element, formats: list[str], shared: list[str]
) -> Iterator[Cell]:
    held = {each.tag: each.text for each in cell}
    formula, value = held.get(_MAIN + "f"), held.get(_MAIN + "v") or ""
    kind = cell.get("t", "n")
    if formula is None and not value:
        return
    text = shared[int(value)] if kind == "s" else value
    place, look = f"{sheet}!{cell.get('r')}", formats[int(cell.get("s", "0"))]
    yield Cell(place, formula, kind in ("s", "str"), text, look)


def _formats(archive: zipfile.ZipFile) -> list[str]:
    root = etree.fromstring(archive.read("xl/styles.xml"))
    own = {
        int(each.get("numFmtId")): each.get("formatCode") for each in root.iter(_MAIN + "numFmt")
    }
    looks = root.find(_MAIN + "cellXfs")
    return [(_FORMATS | own).get(int(each.get("numFmtId")), "") for each in looks]


def _strings(archive: zipfile.ZipFile) -> list[str]:
    root = etree.fromstring(archive.read("xl/sharedStrings.xml"))
    return ["".join(item.itertext()) for item in root]


def conditions(path: Path) -> Iterator[tuple[str, str]]:
    """The formulas by which cells look different, and those of what may be typed."""
    with zipfile.ZipFile(path) as archive:
        for sheet, part in sheet_parts(archive):
            root = etree.fromstring(archive.read(part), etree.XMLParser(huge_tree=True))
            for holder in ("conditionalFormatting", "dataValidation"):
                for each in root.iter(_MAIN + holder):
                    for formula in each.iter(*(_MAIN + n for n in ("formula", "formula1"))):
                        if (each.get("type") or "custom") == "custom":
                            yield f"{sheet}!{each.get('sqref')}", formula.text
