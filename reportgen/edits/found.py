"""The records of a returned workbook, wherever its sheets, columns and rows now stand."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from reportgen.edits.differences import KEY
from reportgen.edits.memory import WRITTEN_AS, Heading, Memory, Spoken
from reportgen.layout import row_marks
from reportgen.model.records import RECORDS
from reportgen.model.season import Value
from reportgen.returned.cells import Sheet, Workbook, letters_of


@dataclass(frozen=True)
class FoundRow:
    """A row of a table. ``number``: that of the record that it was built from; None for a new
    one."""

    row: int
    number: int | None


@dataclass
class FoundTable:
    """A table in a returned workbook."""

    table: str
    sheet: Sheet
    columns: dict[str, int]
    head: int
    end: int
    shown: list[int]
    """Where each of its columns stands, in the order of the memory; 0 where it is gone."""
    rows: list[FoundRow] = field(default_factory=list)

    def place(self, row: int, name: str) -> str:
        """``Lots!J7``."""
        return place_of(self.sheet.name, row, self.columns[name])


@dataclass
class Lost:
    """A table that cannot be found again for certain, and why; the sheets on which it may stand."""

    table: str
    why: str
    sheets: Sequence[str] = ()


def place_of(sheet: str, row: int, column: int) -> str:
    """A cell as people write it."""
    return f"{sheet}!{letters_of(column)}{row}"


def find(workbook: Workbook, memory: Memory) -> tuple[dict[str, FoundTable], list[Lost]]:
    """Every table that the memory names, and those that are lost."""
    heads: dict[str, list[tuple[Sheet, int, int]]] = defaultdict(list)
    ends: dict[tuple[str, str], int] = {}
    numbered: dict[tuple[str, str], list[tuple[int, int]]] = defaultdict(list)
    for sheet in workbook:
        for (row, column), cell in sheet.cells():
            mark = row_marks.read(cell.value) if isinstance(cell.value, str) else None
            if mark is None or cell.formula:
                continue
            table, what = mark
            if what == "0":
                heads[table].append((sheet, row, column))
            elif what == "end":
                ends[sheet.name, table] = row
            else:
                numbered[sheet.name, table].append((row, int(what)))
    found: dict[str, FoundTable] = {}
    lost: list[Lost] = []
    for table, headings in memory.columns.items():
        places = heads.get(table, [])
        if not places:
            if any(each.table == table for each in memory.records.values()) or places:
                lost.append(Lost(table, "its headings are gone"))
            continue
        if len(places) > 1:
            names = [sheet.name for sheet, _, _ in places]
            lost.append(Lost(table, f"it stands on {len(places)} sheets", names))
            continue
        sheet, head, _ = places[0]
        end = ends.get((sheet.name, table))
        live = memory.formulas[table].rows
        records = [row for row, _ in numbered[sheet.name, table]]
        among = records or sheet.rows(head + 2, end or head)
        shown = columns_at(sheet, head, among, headings, live)
        if not all(shown) or end is None:
            why = "the row that closes it is gone"
            if end is not None:
                why = _changed_heading(sheet, head, headings, shown)
            lost.append(Lost(table, why, [sheet.name]))
            continue
        columns = {each.name: at for each, at in zip(headings, shown, strict=True)}
        made = FoundTable(table, sheet, columns, head, end, shown)
        made.rows = _rows(sheet, head, end, numbered[sheet.name, table], columns)
        _left_behind(made, memory)
        found[table] = made
    return found, lost


def singles(workbook: Workbook, memory: Memory) -> dict[tuple[str, str], tuple[str, int, int]]:
    """The sheet, row and column of each input of a table that has one row: by its name, or, where a
    suite could not read that, by what is said on its sheet."""
    found = {}
    for key, name in memory.cells.items():
        at = workbook.names.get(name)
        if at is None and key in memory.spoken:
            at = _spoken(workbook, memory.spoken[key])
        if at is not None:
            found[key] = at
    return found


def _spoken(workbook: Workbook, spoken: Spoken) -> tuple[str, int, int] | None:
    """The cell in the one row that begins with a label, on the one sheet that has a title."""
    sheets = [each for each in workbook if folded(each.text(1, 1)) == folded(spoken.sheet)]
    rows = [
        row
        for sheet in sheets
        for (row, at), _ in sheet.cells()
        if at == 1 and row > 1 and folded(sheet.text(row, 1)) == folded(spoken.label)
    ]
    return (sheets[0].name, rows[0], spoken.column) if len(sheets) == len(rows) == 1 else None


def _changed_heading(
    sheet: Sheet, head: int, headings: Sequence[Heading], shown: Sequence[int]
) -> str:
    """Which headings are gone, and what stands where none stood."""
    gone = [each.label for each, at in zip(headings, shown, strict=True) if not at]
    known = {folded(each.label) for each in headings}
    odd = [
        f"{place_of(sheet.name, head, column)} ({cell.value})"
        for (_, column), cell in sheet.cells_of(head)
        if not isinstance(cell.value, str)
        or (folded(cell.value) not in known and row_marks.read(cell.value) is None)
    ]
    said = f"its heading {', '.join(repr(each) for each in gone[:3])} is gone"
    return f"{said}; perhaps from {', '.join(odd[:3])}: type it back" if odd else said


def columns_at(
    sheet: Sheet, head: int, rows: Sequence[int], headings: Sequence[Heading],
    live: Collection[int],
) -> list[int]:  # fmt: skip
    """Where each column now stands, by its heading; 0 where there is none. Of headings alike, those
    of formulas (``live``, from 0) go to columns that hold some, and all in their order."""
    standing: dict[str, list[int]] = defaultdict(list)
    for (_, column), cell in sheet.cells_of(head):
        if isinstance(cell.value, str):
            standing[folded(cell.value)].append(column)
    found = []
    for at, heading in enumerate(headings):
        places = standing.get(folded(heading.label), [])
        if len(places) > 1:
            places.sort(key=lambda column: _is_live(sheet, column, rows) != (at in live))
        found.append(places.pop(0) if places else 0)
    return found


def _is_live(sheet: Sheet, column: int, rows: Sequence[int]) -> bool:
    """Whether a column is one of formulas in these rows, even if some were typed over."""
    cells = [sheet.cell(row, column) for row in rows]
    filled = [each for each in cells if each is not None]
    return 2 * sum(each.formula for each in filled) > len(filled)


def folded(text: str) -> str:
    """A text as each suite keeps it, for comparing."""
    return " ".join(text.split()).casefold()


def _rows(
    sheet: Sheet, head: int, end: int, numbered: Sequence[tuple[int, int]], columns: dict[str, int]
) -> list[FoundRow]:
    """The rows between headings and end that hold something typed or that carry a mark; of rows
    with the same mark, the first is the record, the others are copies."""
    numbers: dict[int, int] = {}
    taken: set[int] = set()
    for row, number in sorted(numbered):
        if head < row < end and number not in taken:
            numbers[row] = number
            taken.add(number)
    used = {
        row
        for (row, column), cell in sheet.cells()
        if head + 1 < row < end and not cell.formula and column in columns.values()
    }
    return [FoundRow(row, numbers.get(row)) for row in sorted(used | set(numbers))]


def _left_behind(found: FoundTable, memory: Memory) -> None:
    """Give rows that were sorted without their marks their records again.

    Where the ids of some rows are those of other rows' marks, all of them, the ids count. Records
    without an id are told apart by all that they hold: a row that says what another's record did is
    that one, and what is left goes with the marks that are left.
    """
    kind = RECORDS.get(WRITTEN_AS.get(found.table, found.table))
    if kind is None:
        return
    by_id = kind.key == "id" and KEY in found.columns
    names = [KEY] if by_id else [i.name for i in kind.inputs if i.name in found.columns]
    odd: dict[int, int] = {}
    said: dict[int, tuple[Value, ...]] = {}
    built: dict[tuple[Value, ...], int] = {}
    for at, row in enumerate(found.rows):
        record = memory.records.get((found.table, row.number or 0))
        if record is None:
            continue
        values = {KEY: record.key, **record.values}
        then = tuple(_told(values.get(name)) for name in names)
        said[at] = tuple(_told(found.sheet.value(row.row, found.columns[n])) for n in names)
        if said[at] != then:
            odd[at] = built[then] = record.number
    known = {at: built[said[at]] for at in odd if said[at] in built}
    renamed = [at for at in odd if at not in known and any(said[at])]
    if len({*known.values()}) < len(known) or (by_id and renamed):
        return
    left = [number for number in odd.values() if number not in known.values()]
    stays = {at: number for at, number in odd.items() if at not in known and number in left}
    left = [number for number in left if number not in stays.values()]
    for at in odd:
        number = known[at] if at in known else stays[at] if at in stays else left.pop(0)
        found.rows[at] = FoundRow(found.rows[at].row, number)


def _told(value: Value) -> Value:
    """The same for comparing rows: in small letters, and no and nothing are one."""
    found = as_kept(value)
    return folded(found) if isinstance(found, str) else found or None


def as_kept(value: Value) -> Value:
    """A value as each suite keeps it."""
    if isinstance(value, str):
        return value.strip() or None
    return None if value is None else float(f"{float(value):.12g}")
