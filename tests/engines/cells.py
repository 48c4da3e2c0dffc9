"""What stands in a workbook's cells, read from the XML itself.

The program writes with openpyxl, so what it wrote is read back without it.
"""

from __future__ import annotations

import posixpath
import re
import zipfile
from pathlib import Path
from typing import NamedTuple

from lxml import etree

Value = float | str | bool | None
Place = tuple[str, str]
"""A sheet's name and a cell's address: ``("Runs", "B7")``."""

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_REL = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_PARSER = etree.XMLParser(resolve_entities=False, huge_tree=True)
_ESCAPE = re.compile(r"_x([0-9A-Fa-f]{4})_")


class Fault(str):
    """An error value of a cell, such as ``#DIV/0!``; equal to no value but the same fault."""

    __slots__ = ()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Fault) and str.__eq__(self, other)

    def __ne__(self, other: object) -> bool:
        return not self == other

    __hash__ = str.__hash__

    def __repr__(self) -> str:
        return f"Fault({str(self)!r})"


class Cell(NamedTuple):
    """A cell: its formula without ``=`` (None for a constant) and the value written in the file."""

    formula: str | None
    value: Value


class Broken(ValueError):
    """The workbook has something that this reader refuses to guess about."""


def cells(path: Path) -> dict[Place, Cell]:
    """Every cell of the workbook that holds a formula or a value, in the order of the file."""
    with zipfile.ZipFile(path) as archive:
        shared = _shared_strings(archive)
        return {
            (sheet, ref): cell
            for sheet, part in sheet_parts(archive)
            for ref, cell in _sheet_cells(archive.read(part), shared)
        }


def values(path: Path) -> dict[Place, Value]:
    """Every cell's value; a formula's is the one that was cached."""
    return {place: cell.value for place, cell in cells(path).items()}


def formula_cells(path: Path) -> dict[Place, tuple[str, Value]]:
    """Every formula cell: its formula and its cached value (None where the cache is empty)."""
    return {
        place: (cell.formula, cell.value)
        for place, cell in cells(path).items()
        if cell.formula is not None
    }


def sheet_parts(archive: zipfile.ZipFile) -> list[tuple[str, str]]:
    """The sheets' names in order, each with the part that holds it."""
    rels = etree.fromstring(archive.read("xl/_rels/workbook.xml.rels"), _PARSER)
    targets = {rel.get("Id"): rel.get("Target") for rel in rels}
    book = etree.fromstring(archive.read("xl/workbook.xml"), _PARSER)
    found = []
    for sheet in book.iter(_MAIN + "sheet"):
        target = targets[sheet.get(_REL + "id")]
        part = target.lstrip("/") if target.startswith("/") else posixpath.join("xl", target)
        if "worksheets/" in part:
            found.append((sheet.get("name"), part))
    return found


def _shared_strings(archive: zipfile.ZipFile) -> list[str]:
    if "xl/sharedStrings.xml" not in archive.namelist():
        return []
    root = etree.fromstring(archive.read("xl/sharedStrings.xml"), _PARSER)
    return [_text(item) for item in root]


def _text(item: etree._Element) -> str:
    """The text of a string item; what is spoken beside it (phonetic runs) is left out."""
    return "".join(
        _unescape(part.text or "")
        for part in item.iter(_MAIN + "t")
        if part.getparent().tag != _MAIN + "rPh"
    )


def _unescape(text: str) -> str:
    if "_x" not in text:
        return text
    return _ESCAPE.sub(lambda found: chr(int(found[1], 16)), text)


def _sheet_cells(xml: bytes, shared: list[str]) -> list[tuple[str, Cell]]:
    found = []
    for cell in etree.fromstring(xml, _PARSER).iter(_MAIN + "c"):
        formula: str | None = None
        raw: str | None = None
        inline: str | None = None
        for child in cell:
            if child.tag == _MAIN + "v":
                raw = child.text or ""
            elif child.tag == _MAIN + "f":
                if child.text is None:
                    raise Broken(f"{cell.get('r')}: a shared formula without its text")
                formula = child.text
            elif child.tag == _MAIN + "is":
                inline = _text(child)
        if formula is None and raw is None and inline is None:
            continue
        value = inline if inline is not None else _value(cell.get("t", "n"), raw, shared)
        found.append((cell.get("r"), Cell(formula, value)))
    return found


def _value(kind: str, raw: str | None, shared: list[str]) -> Value:
    """The value of a ``<v>``; text that is empty is a text, a missing or empty number is None."""
    if kind == "str":
        return _unescape(raw or "")
    if not raw:
        return None
    if kind == "s":
        return shared[int(raw)]
    if kind == "b":
        return raw in ("1", "true")
    if kind == "e":
        return Fault(raw)
    return float(raw)
