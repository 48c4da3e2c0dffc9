"""Type into cells of a workbook as a person would, without any library that knows the whole file.

Everything else stays as it is, the caches of formulas that are now stale included: it is the
engines that have to bring them up to date.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Mapping
from pathlib import Path

from lxml import etree

from engines.cells import Place, Value, sheet_parts

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def typed(path: Path, contents: Mapping[Place, Value], out: Path) -> Path:
    """A copy of the workbook at ``out`` with constants typed in; None empties a cell.

    The cells keep their style. Typing into a formula cell takes its formula away.
    """
    by_sheet: dict[str, dict[str, Value]] = {}
    for (sheet, ref), value in contents.items():
        by_sheet.setdefault(sheet, {})[ref] = value
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(out, "w") as target:
        parts = {part: sheet for sheet, part in sheet_parts(source)}
        unknown = set(by_sheet) - set(parts.values())
        if unknown:
            raise KeyError(f"no sheet is called {', '.join(sorted(unknown))}")
        for name in source.namelist():
            data = source.read(name)
            if parts.get(name) in by_sheet:
                data = _edited(data, by_sheet[parts[name]])
            target.writestr(name, data)
    return out


def _edited(xml: bytes, contents: Mapping[str, Value]) -> bytes:
    root = etree.fromstring(xml)
    cells = {cell.get("r"): cell for cell in root.iter(_MAIN + "c")}
    for ref, value in contents.items():
        cell = cells.get(ref)
        if cell is None:
            cell = _new_cell(root.find(_MAIN + "sheetData"), ref)
        _put(cell, value)
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _put(cell: etree._Element, value: Value) -> None:
    for child in list(cell):
        cell.remove(child)
    cell.attrib.pop("t", None)
    if value is None:
        return
    if isinstance(value, str):
        cell.set("t", "inlineStr")
        text = etree.SubElement(etree.SubElement(cell, _MAIN + "is"), _MAIN + "t")
        text.text = value
        return
    if isinstance(value, bool):
        cell.set("t", "b")
    etree.SubElement(cell, _MAIN + "v").text = repr(
        int(value) if isinstance(value, bool) else value
    )


def _new_cell(data: etree._Element, ref: str) -> etree._Element:
    """A cell that the file did not hold yet, in its place among the others."""
    number = _place(ref)[0]
    row = next((each for each in data if int(each.get("r")) == number), None)
    if row is None:
        row = etree.Element(_MAIN + "row", r=str(number))
        before = sum(int(each.get("r")) < number for each in data)
        data.insert(before, row)
    cell = etree.Element(_MAIN + "c", r=ref)
    row.insert(sum(_place(each.get("r")) < _place(ref) for each in row), cell)
    return cell


def _place(ref: str) -> tuple[int, int, str]:
    letters, digits = re.fullmatch(r"([A-Z]+)(\d+)", ref).groups()
    return int(digits), len(letters), letters
