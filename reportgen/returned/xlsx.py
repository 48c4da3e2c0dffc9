"""Office Open XML (ECMA-376, ISO/IEC 29500): the cells of a workbook's sheets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from typing import Literal

from reportgen.returned.archive import Archive, attribute, beside, beyond, refuse
from reportgen.returned.cells import Cell, Sheet, Workbook, is_formula, named_cell
from reportgen.returned.cells import number_of as column_of
from reportgen.returned.days import number_of
from reportgen.units.days import day_number

MOST_CELLS = 20_000_000
MOST_ROWS = 250_000
"""Of one sheet, those that hold something; 25,000 runs make a third of it."""
MOST_ALIKE = 50_000
"""Contents of cells that are remembered, so that cells alike are one."""
_UNSEEN = Cell("")
_FROM_1904 = day_number(date(1904, 1, 1))
"""What a day's number lacks in a workbook whose calendar begins in 1904."""
_REFERENCE = re.compile(r"([A-Z]{1,3})([1-9][0-9]{0,6})")
_DAYS = frozenset([*range(14, 18), 22, *range(27, 32), 36, *range(50, 59)])
_TIMES = frozenset([*range(18, 22), 32, 33, 34, 35, 45, 46, 47])
"""Numbers of the formats that need not be written out (18.8.30 of the standard)."""
_LITERAL = re.compile(r'"[^"]*"|\\.|\[(?![hms]+\])[^\]]*\]|_.|\*.', re.IGNORECASE)

Shown = Literal["number", "day", "time"]


def read(archive: Archive, notes: bool = False) -> Workbook:
    """All sheets with their cells; with the comments on these, where ``notes`` are asked for."""
    book = _main(archive)
    targets = _relations(archive, book)
    shared, shown = _shared(archive, targets), _shown(archive, targets)
    found, shift = Workbook(), 0
    sheets: list[tuple[str, str]] = []
    for event, element in archive.elements(book):
        if event != "end":
            continue
        if element.tag == "workbookPr":
            shift = _FROM_1904 if element.get("date1904") in ("1", "true") else 0
        elif element.tag == "definedName" and element.get("localSheetId") is None:
            place = named_cell(element.text or "")
            if place is not None:
                found.names[element.get("name") or ""] = place
        elif element.tag == "sheet":
            target = targets.get(("worksheet", element.get("id") or attribute(element, "id") or ""))
            if target is not None:
                sheets.append((element.get("name") or "", target))
    left = MOST_CELLS
    for name, part in sheets:
        sheet = Sheet(name)
        left = _read_cells(sheet, archive, part, shared, shown, shift, left)
        found.sheets.append(sheet)
        beside_it = _of_kind(_relations(archive, part), "comments") if notes else None
        if beside_it is not None:
            found.notes += ((name, *each) for each in _notes(archive, beside_it))
    return found


def _notes(archive: Archive, part: str) -> Iterator[tuple[str, str]]:
    """The cell and text of each comment."""
    pieces: list[str] = []
    for event, element in archive.elements(part):
        if event == "end" and element.tag == "t":
            pieces.append(element.text or "")
        elif event == "end" and element.tag == "comment":
            yield element.get("ref") or "", "".join(pieces)
            pieces = []


def _main(archive: Archive) -> str:
    for event, element in archive.elements("_rels/.rels"):
        if event == "end" and element.tag == "Relationship":
            kind = (element.get("Type") or "").rpartition("/")[2]
            if kind == "officeDocument" and element.get("TargetMode") != "External":
                return beside("", element.get("Target") or "")
    raise refuse("it has no workbook in it")


def _relations(archive: Archive, part: str) -> dict[tuple[str, str], str]:
    """What a part names, by kind and id; what lies outside of the file is left out."""
    folder, _, name = part.rpartition("/")
    where = f"{folder}/_rels/{name}.rels".lstrip("/")
    found: dict[tuple[str, str], str] = {}
    for event, element in archive.elements(where) if where in archive else ():
        if event == "end" and element.tag == "Relationship":
            if element.get("TargetMode") == "External":
                continue
            kind = (element.get("Type") or "").rpartition("/")[2]
            found[kind, element.get("Id") or ""] = beside(part, element.get("Target") or "")
    return found


def _of_kind(targets: dict[tuple[str, str], str], kind: str) -> str | None:
    return next((target for (each, _), target in targets.items() if each == kind), None)


class _Text:
    """A text in the pieces that it is written in; what is said of how it is pronounced is left
    out."""

    def __init__(self) -> None:
        self._pieces: list[str] = []
        self._aside = 0
        self.starts = {"rPh": self._aside_begins}
        self.ends = {"t": self._piece, "rPh": self._aside_ends}

    def taken(self) -> str:
        """What was heard since it was last taken."""
        text = "".join(self._pieces)
        self._pieces.clear()
        return text

    def _piece(self, text: str) -> None:
        if not self._aside:
            self._pieces.append(text)

    def _aside_begins(self, _: dict[str, str]) -> None:
        self._aside += 1

    def _aside_ends(self, _: str) -> None:
        self._aside -= 1


def _shared(archive: Archive, targets: dict[tuple[str, str], str]) -> list[str]:
    """The texts that cells name by number."""
    part = _of_kind(targets, "sharedStrings")
    if part is None:
        return []
    texts: list[str] = []
    text = _Text()
    archive.told(part, text.starts, {**text.ends, "si": lambda _: texts.append(text.taken())})
    return texts


def _shown(archive: Archive, targets: dict[tuple[str, str], str]) -> list[Shown]:
    """How each of the workbook's cell formats shows a number."""
    part = _of_kind(targets, "styles")
    if part is None:
        return []
    written: dict[int, str] = {}
    found: list[Shown] = []
    inside = False
    for event, element in archive.elements(part):
        if element.tag == "cellXfs":
            inside = event == "start"
        elif event == "end" and element.tag == "numFmt":
            written[_whole(element.get("numFmtId"))] = element.get("formatCode") or ""
        elif event == "end" and inside and element.tag == "xf":
            number = _whole(element.get("numFmtId"))
            found.append(_kind_of(number, written.get(number)))
    return found


def _kind_of(number: int, code: str | None) -> Shown:
    if code is None:
        return "day" if number in _DAYS else "time" if number in _TIMES else "number"
    plain = _LITERAL.sub("", code).lower()
    if "general" in plain:
        return "number"
    if re.search("[yd]", plain):
        return "day"
    return "time" if re.search("[hs]", plain) else "number"


def _read_cells(
    sheet: Sheet, archive: Archive, part: str, shared: list[str], shown: list[Shown], shift: int,
    left: int,
) -> int:  # fmt: skip
    """Read a part into its sheet; how many of the places that were ``left`` then are."""
    alike: dict[tuple[str, str, str, str, bool], Cell | None] = {}
    row = column = 0
    kind, style, value, formula = "n", "", "", False
    written = _Text()

    def row_begins(given: dict[str, str]) -> None:
        nonlocal row, column
        row, column = _whole(given.get("r")) or row + 1, 0

    def cell_begins(given: dict[str, str]) -> None:
        nonlocal row, column, kind, style, value, formula
        place = _REFERENCE.fullmatch(given.get("r", ""))
        if place:
            column, row = column_of(place[1]), int(place[2])
        else:
            column += 1
        kind, style, value, formula = given.get("t") or "n", given.get("s", ""), "", False

    def cell_ends(_: str) -> None:
        nonlocal left
        content = kind, value, written.taken(), style, formula
        cell = alike.get(content, _UNSEEN)
        if cell is _UNSEEN:
            if len(alike) > MOST_ALIKE:
                alike.clear()
            at = _whole(style)
            how = shown[at] if at < len(shown) else "number"
            cell = alike[content] = _cell(kind, value, content[2], how, formula, shared, shift)
        if cell is not None:
            beyond(column)
            left -= sheet.put(row, column, cell)
            if left < 0:
                raise refuse(f"it has more than {MOST_CELLS:,} cells")
            if sheet.height > MOST_ROWS:
                raise refuse(f"a sheet has more than {MOST_ROWS:,} rows")

    def value_ends(text: str) -> None:
        nonlocal value
        value = text

    def formula_ends(text: str) -> None:
        nonlocal formula
        formula = is_formula(text)

    def cells_end(_: str) -> None:
        raise StopIteration

    archive.told(
        part,
        {**written.starts, "row": row_begins, "c": cell_begins},
        {
            **written.ends,
            "c": cell_ends,
            "v": value_ends,
            "f": formula_ends,
            "sheetData": cells_end,
        },
    )
    return left


def _cell(
    kind: str,
    value: str,
    text: str,
    how: Shown,
    formula: bool,
    shared: list[str],
    shift: int,
) -> Cell | None:
    if kind == "inlineStr":
        return Cell(text, formula)
    if not value:
        return Cell(None, True, how) if formula else None
    match kind:
        case "s":
            at = _whole(value)
            return Cell(shared[at] if at < len(shared) else "", formula)
        case "str":
            return Cell(value, formula)
        case "b":
            return Cell(value.strip() in ("1", "true"), formula)
        case "e":
            return Cell(value, formula, error=True)
        case "d":
            return Cell(_of_iso(value), formula, "day")
    try:
        number = float(value)
    except ValueError:
        return Cell(value, formula)
    if number != number or abs(number) == float("inf"):
        return Cell(value, formula, error=True)
    return Cell(number + (shift if how == "day" else 0), formula, how)


def _of_iso(text: str) -> float | str:
    """A day, with its time where it has one, as a number of days."""
    found = number_of(text)
    return text if found is None else found


def _whole(text: str | None) -> int:
    return int(text) if text is not None and text.isascii() and text.isdigit() else 0
