"""OpenDocument (ISO/IEC 26300): the cells of a spreadsheet's tables."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from reportgen.returned.archive import Archive, attribute, beyond, refuse
from reportgen.returned.cells import Cell, Sheet, Workbook, is_formula, named_cell
from reportgen.returned.days import number_of, span_of
from reportgen.returned.xlsx import MOST_CELLS, MOST_ROWS

_CELLS = ("table-cell", "covered-table-cell")
MOST_REPEATED = 10_000
"""Rows or cells that one element may stand for, where it holds something."""


def read(archive: Archive) -> Workbook:
    """All tables with their cells; notes and drawings are passed over."""
    found = Workbook()
    sheet = Sheet("")
    row = column = 0
    cells: list[tuple[int, Cell]] = []
    lines: list[str] = []
    aside, left, rows = 0, MOST_CELLS, 0
    open_: dict[str, str | None] = {}
    for event, element in archive.elements("content.xml", whole="p"):
        tag = element.tag
        if tag in ("annotation", "shapes", "frame", "tracked-changes"):
            aside += 1 if event == "start" else -1
        if aside:
            continue
        if event == "start":
            if tag == "table":
                sheet, row, rows = Sheet(attribute(element, "name") or ""), 0, 0
                found.sheets.append(sheet)
            elif tag == "table-row":
                column, cells = 0, []
            elif tag in _CELLS:
                lines, open_ = [], {k.rpartition("}")[2]: v for k, v in element.items()}
            continue
        if tag == "named-range":
            place = named_cell(attribute(element, "cell-range-address") or "")
            if place is not None:
                found.names[attribute(element, "name") or ""] = place
        elif tag == "p":
            lines.append(_text(element))
        elif tag in _CELLS:
            times = _times(open_.get("number-columns-repeated"))
            cell = _cell(open_, "\n".join(lines))
            if cell is not None:
                beyond(column + times)
                if times > MOST_REPEATED:
                    raise refuse("one value fills more cells than any table has")
                cells += [(column + at, cell) for at in range(1, times + 1)]
            column += times
        elif tag == "table-row":
            times = _times(attribute(element, "number-rows-repeated"))
            if cells and times > MOST_REPEATED:
                raise refuse("one row stands for more rows than any table has")
            rows += times if cells else 0
            if rows > MOST_ROWS:
                raise refuse(f"a sheet has more than {MOST_ROWS:,} rows")
            for at in range(row + 1, row + 1 + times) if cells else ():
                left -= sum(sheet.put(at, across, cell) for across, cell in cells)
                if left < 0:
                    raise refuse(f"it has more than {MOST_CELLS:,} cells")
            row += times
    return found


def _cell(given: dict[str, str | None], text: str) -> Cell | None:
    formula = "formula" in given and is_formula(given["formula"] or "")
    kind = given.get("value-type")
    match kind:
        case "float" | "percentage" | "currency":
            value = _float(given.get("value"))
            return Cell(value, formula, error=value is None)
        case "date":
            return Cell(number_of(given.get("date-value") or ""), formula, "day")
        case "time":
            return Cell(span_of(given.get("time-value") or ""), formula, "time")
        case "boolean":
            return Cell(given.get("boolean-value") == "true", formula)
        case "string":
            said = given.get("string-value")
            return Cell(text if said is None else said, formula)
    return Cell(text or None, formula) if formula or text else None


def _text(paragraph: Element) -> str:
    """A paragraph's text, with the blanks that are written as elements."""
    pieces = [paragraph.text or ""]
    for each in paragraph:
        match each.tag.rpartition("}")[2]:
            case "s":
                pieces.append(" " * _times(attribute(each, "c")))
            case "tab":
                pieces.append("\t")
            case "line-break":
                pieces.append("\n")
            case "annotation":
                pass
            case _:
                pieces.append(_text(each))
        pieces.append(each.tail or "")
    return "".join(pieces)


def _float(text: str | None) -> float | None:
    try:
        number = float(text or "")
    except ValueError:
        return None
    return number if number - number == 0 else None


def _times(text: str | None) -> int:
    return int(text) if text is not None and text.isascii() and text.isdigit() else 1
