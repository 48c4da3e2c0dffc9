"""Three sides: as built, as edited, as it is written now. What of it is a change."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from reportgen.algebra.tables import Table
from reportgen.edits.found import FoundRow, FoundTable, find, place_of
from reportgen.edits.memory import WRITTEN_AS, Built, Memory
from reportgen.edits.typed import Reader, Typed
from reportgen.model.fields import Field
from reportgen.model.records import OWNER_COLUMN, RECORDS
from reportgen.model.season import Rows, Season, Value
from reportgen.read import ids
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell, Workbook

Kind = Literal[
    "change", "home", "conflict", "added", "removed", "renamed", "refused", "overwritten"
]
KEY = "key"
_CLOSE = 1e-12


@dataclass(frozen=True)
class Change:
    """One difference. ``field`` is the input, or ``key`` for the id; ``row`` the record's key."""

    kind: Kind
    table: str
    row: str
    field: str
    sheet: str
    cell: str
    file: str = ""
    line: int = 0
    built: Value = None
    edited: Value = None
    now: Value = None
    about: bool = False
    why: str = ""
    """Of what is refused: what is wrong, what was expected, what to do."""


@dataclass(frozen=True)
class New:
    """A row that was added: its values by input, and where each stands."""

    table: str
    key: str
    sheet: str
    cell: str
    values: Mapping[str, Value]


@dataclass
class Difference:
    """All that an edited workbook says. ``at``: the number of a record's row in the season."""

    changes: list[Change] = field(default_factory=list)
    added: list[New] = field(default_factory=list)
    at: dict[tuple[str, str], int] = field(default_factory=dict)

    def of(self, *kinds: Kind) -> list[Change]:
        """The changes of some kinds."""
        return [each for each in self.changes if each.kind in kinds]


def compare(
    workbook: Workbook, memory: Memory, season: Season, tables: Mapping[str, Table],
    words: Mapping[str, str], computed: bool = False,
) -> Difference:  # fmt: skip
    """What an edited workbook says, set against its memory and the season as it is written now.

    ``computed``: what a formula gives in an input cell is taken, too.
    """
    return _Comparison(workbook, memory, season, tables, words, computed).whole()


class _Comparison:
    def __init__(
        self, workbook: Workbook, memory: Memory, season: Season, tables: Mapping[str, Table],
        words: Mapping[str, str], computed: bool,
    ) -> None:  # fmt: skip
        self.computed = computed
        self.workbook, self.memory, self.season, self.tables = workbook, memory, season, tables
        self.reader = Reader(season.slots, words)
        self.found = Difference()
        self._now: dict[str, dict[str, int]] = {}

    def whole(self) -> Difference:
        tables, lost = find(self.workbook, self.memory)
        for each in lost:
            why = f"the table of {each.table.replace('_', ' ')} cannot be found again: {each.why}"
            self._refuse(each.table, "", "", "", "", f"{why}; nothing of it is taken")
        for table in tables.values():
            self._table(table)
        for (table, name), defined in self.memory.cells.items():
            self._single(table, name, defined)
        return self.found

    # --- tables -------------------------------------------------------------------------

    def _table(self, found: FoundTable) -> None:
        name = found.table
        rows = self.season.tables[WRITTEN_AS.get(name, name)]
        seen: set[int] = set()
        for row in found.rows:
            built = None if row.number is None else self.memory.records.get((name, row.number))
            if built is None:
                if self._typed_anything(found, row.row, rows):
                    self._added(found, row, rows)
                continue
            if not self._typed_anything(found, row.row, rows):
                continue  # emptied: removed, below
            seen.add(built.number)
            self._record(found, row, rows, built)
        for (table, number), built in self.memory.records.items():
            if table == name and number not in seen:
                self._removed(found, rows, built)

    def _typed_anything(self, found: FoundTable, row: int, rows: Rows) -> bool:
        return any(
            found.sheet.value(row, column) is not None
            for column_name, column in found.columns.items()
            if column_name in rows.values or (column_name == KEY and _has_ids(rows))
        )

    def _record(self, found: FoundTable, row: FoundRow, rows: Rows, built: Built) -> None:
        """A record that is still there: its inputs, its id, its formulas."""
        at = self._find_now(built)
        if at is None and rows.record.key == "position":
            at = self._taken(found, row.row, rows, built)
        key = built.key
        if _has_ids(rows) and KEY in found.columns:
            key = self._key(found, row.row, rows, built, at)
        for name in rows.values:
            if name in found.columns:
                self._input(found, row.row, rows, built, name, at)
        if at is not None:
            self.found.at[found.table, built.key] = at
        self._formulas(found, row.row, key)

    def _taken(self, found: FoundTable, row: int, rows: Rows, built: Built) -> int | None:
        """A record without an id that says by now what was typed into its row."""
        edited: dict[str, Value] = {}
        for name in rows.values:
            if name in found.columns:
                cell = found.sheet.cells.get((row, found.columns[name]))
                try:
                    column = self.tables[found.table].inputs[name]
                    edited[name] = self.reader.read(cell, column, None, found.table).value
                except Refusal:
                    return None
        alike = [
            at
            for at, place in enumerate(rows.places)
            if place.file == built.file
            and all(_same(rows.values[name][at], value, name) for name, value in edited.items())
        ]
        return alike[0] if alike else None

    def _input(
        self, found: FoundTable, row: int, rows: Rows, built: Built, name: str, at: int | None
    ) -> None:
        column = found.columns[name]
        cell = found.sheet.cells.get((row, column))
        place = found.place(row, name)
        was = built.values.get(name)
        typed = self._read(found.table, built.key, name, cell, found.sheet.name, place)
        if typed is None:
            return
        self._three(found.table, built, name, found.sheet.name, place, typed, was, rows, at)

    def _three(
        self, table: str, built: Built, name: str, sheet: str, place: str, typed: Typed, was: Value,
        rows: Rows, at: int | None,
    ) -> None:  # fmt: skip
        if _same(typed.value, was, name) and not typed.about:
            return
        now = rows.values[name][at] if at is not None else None
        kind: Kind = "change"
        if at is None:
            kind = "conflict"
        elif _same(now, typed.value, name) and not typed.about:
            kind = "home"
        elif not _same(now, was, name):
            kind = "conflict"
        file, line = self._written_at(rows, name, at, built)
        self.found.changes.append(
            Change(kind, table, built.key, name, sheet, place.rpartition("!")[2], file, line,
                   was, typed.value, now, typed.about)
        )  # fmt: skip

    def _key(self, found: FoundTable, row: int, rows: Rows, built: Built, at: int | None) -> str:
        """A renamed record: its id was changed, its mark was not."""
        value = found.sheet.value(row, found.columns[KEY])
        edited = "" if value is None else str(value)
        if edited.casefold() == built.key.casefold():
            return built.key
        place = found.place(row, KEY)
        cell = place.rpartition("!")[2]
        if not edited:
            self._refuse(
                found.table, built.key, KEY, found.sheet.name, cell,
                "the row has inputs and no id, so nothing counts it; type its id again",
            )  # fmt: skip
            return built.key
        try:
            ids.check(edited)
        except Refusal as refusal:
            self._refuse(found.table, built.key, KEY, found.sheet.name, cell, _why(refusal))
            return built.key
        index = self._index(found.table)
        renamed = edited.casefold() in index
        kind: Kind = "renamed"
        if at is None:
            kind = "home" if renamed else "conflict"
        elif renamed:
            kind = "conflict"
        place_of_record = rows.places[at] if at is not None else None
        self.found.changes.append(
            Change(kind, found.table, built.key, KEY, found.sheet.name, cell,
                   place_of_record.file if place_of_record else built.file,
                   place_of_record.line if place_of_record else built.line,
                   built.key, edited, built.key if at is not None else None)
        )  # fmt: skip
        return edited

    def _formulas(self, found: FoundTable, row: int, key: str) -> None:
        """Formulas that were typed over are told and never taken."""
        table = self.tables[found.table]
        for name, column in found.columns.items():
            if name not in table.definitions or table.definitions[name].tree is None:
                continue
            cell = found.sheet.cells.get((row, column))
            if cell is not None and cell.formula:
                continue
            empty = cell is None or cell.value is None
            if empty and table.definitions[name].kind.type == "text":
                continue  # some suites keep no cell for an empty text
            place = place_of(found.sheet.name, row, column)
            self.found.changes.append(
                Change("overwritten", found.table, key, name, found.sheet.name,
                       place.rpartition("!")[2], edited=None if cell is None else cell.value)
            )  # fmt: skip

    def _removed(self, found: FoundTable, rows: Rows, built: Built) -> None:
        at = self._find_now(built)
        kind: Kind = "removed"
        if at is None:
            kind = "home"
        elif not self._unchanged(rows, at, built):
            kind = "conflict"
        if at is not None:
            self.found.at[found.table, built.key] = at
        self.found.changes.append(
            Change(kind, found.table, built.key, "", found.sheet.name, "", built.file, built.line,
                   built=built.key, now=built.key if at is not None else None)
        )  # fmt: skip

    def _added(self, found: FoundTable, row: FoundRow, rows: Rows) -> None:
        key, cell = "", f"A{row.row}"
        sheet = found.sheet.name
        if _has_ids(rows) and KEY in found.columns:
            value = found.sheet.value(row.row, found.columns[KEY])
            key, cell = str(value or ""), found.place(row.row, KEY).rpartition("!")[2]
            if not key:
                self._refuse(
                    found.table, "", KEY, sheet, cell,
                    "the row has inputs and no id, so nothing counts it; type an id, or empty it",
                )  # fmt: skip
                return
            try:
                ids.check(key)
            except Refusal as refusal:
                self._refuse(found.table, key, KEY, sheet, cell, _why(refusal))
                return
        values: dict[str, Value] = {}
        broken = False
        for name in rows.values:
            if name not in found.columns:
                continue
            place = found.place(row.row, name)
            typed = self._read(
                found.table, key, name, found.sheet.cells.get((row.row, found.columns[name])),
                sheet, place,
            )  # fmt: skip
            broken = broken or typed is None
            if typed is not None and typed.value is not None:
                values[name] = typed.value
                if typed.about:
                    values[f"{name}_about"] = True
        if broken:
            return
        at = self._index(found.table).get(key.casefold()) if key else self._alike(rows, values)
        kind: Kind = "added"
        if at is not None:
            equal = all(_same(rows.values[n][at], v, n) for n, v in values.items())
            kind = "home" if equal else "conflict"
        if not key:
            cell = found.place(row.row, next(iter(values), KEY)).rpartition("!")[2]
        file = rows.places[at].file if at is not None else ""
        line = rows.places[at].line if at is not None else 0
        self.found.changes.append(
            Change(kind, found.table, key, "", sheet, cell, file, line, edited=key or None)
        )
        if kind == "added":
            self.found.added.append(New(found.table, key, sheet, cell, values))

    # --- single figures -------------------------------------------------------------------

    def _single(self, table: str, name: str, defined: str) -> None:
        built = self.memory.records.get((table, 1))
        rows = self.season.tables.get(table)
        if built is None or rows is None or name not in rows.values:
            return
        at = self.workbook.names.get(defined)
        sheet = next((s for s in self.workbook if at is not None and s.name == at[0]), None)
        if at is None or sheet is None:
            self._refuse(
                table, table, name, "", "",
                f"the cell named {defined} cannot be found again; nothing is taken from it",
            )  # fmt: skip
            return
        place = place_of(*at)
        typed = self._read(table, table, name, sheet.cells.get(at[1:]), sheet.name, place)
        if typed is not None:
            was = built.values.get(name)
            self.found.at[table, built.key] = 0
            self._three(table, built, name, sheet.name, place, typed, was, rows, 0)

    # --- help -----------------------------------------------------------------------------

    def _read(
        self, table: str, key: str, name: str, cell: Cell | None, sheet: str, place: str
    ) -> Typed | None:
        """What a cell holds; None, and a refusal noted, where that cannot be."""
        column = self.tables[table].inputs[name]
        if cell is not None and cell.formula and not (self.computed and cell.value is not None):
            gives = f"; it gives {cell.value}" if cell.value is not None else ""
            self._refuse(
                table, key, name, sheet, place.rpartition("!")[2],
                f"a formula stands in an input cell{gives}; type the value, or take it with "
                "--computed", cell.value,
            )  # fmt: skip
            return None
        try:
            return self.reader.read(cell, column, field_of(table, name), table)
        except Refusal as refusal:
            self._refuse(table, key, name, sheet, place.rpartition("!")[2], _why(refusal),
                         cell.value if cell is not None else None)  # fmt: skip
            return None

    def _refuse(
        self, table: str, row: str, name: str, sheet: str, cell: str, why: str,
        edited: Value = None,
    ) -> None:  # fmt: skip
        self.found.changes.append(
            Change("refused", table, row, name, sheet, cell, edited=edited, why=why)
        )

    def _index(self, table: str) -> dict[str, int]:
        """The rows of a table as it is written now, by key."""
        if table not in self._now:
            rows = self.season.tables[WRITTEN_AS.get(table, table)]
            self._now[table] = {key.casefold(): at for at, key in enumerate(rows.keys)}
        return self._now[table]

    def _find_now(self, built: Built) -> int | None:
        """Where a record stands now: by its id, or, where it has none, by its file and its text."""
        rows = self.season.tables[WRITTEN_AS.get(built.table, built.table)]
        if rows.record.key in ("id", "single", "derived"):
            return self._index(built.table).get(built.key.casefold())
        alike = [
            at
            for at, place in enumerate(rows.places)
            if place.file == built.file and _written(rows, at) == dict(built.written)
        ]
        by_place = [at for at in alike if rows.keys[at] == built.key]
        return by_place[0] if by_place else alike[0] if len(alike) == 1 else None

    def _alike(self, rows: Rows, values: Mapping[str, Value]) -> int | None:
        """A record without an id that says the same."""
        known = {(t, n) for t, n in self.memory.records}
        built = defaultdict(int)
        for (table, _), each in self.memory.records.items():
            if WRITTEN_AS.get(table, table) == rows.record.name:
                built[_packed(each.values, values)] += 1
        assert known is not None
        wanted = _packed(values, values)
        found = [
            at
            for at in range(len(rows.keys))
            if _packed({n: c[at] for n, c in rows.values.items()}, values) == wanted
        ]
        extra = len(found) - built[wanted]
        return found[-1] if extra > 0 else None

    def _unchanged(self, rows: Rows, at: int, built: Built) -> bool:
        return all(
            _same(column[at], built.values.get(name), name) for name, column in rows.values.items()
        )

    @staticmethod
    def _written_at(rows: Rows, name: str, at: int | None, built: Built) -> tuple[str, int]:
        if at is None:
            return built.file, built.line
        origin = rows.origins[name][at]
        if origin is not None and origin.place is not None and origin.kind == "given":
            return origin.place.file, origin.place.line
        return rows.places[at].file, rows.places[at].line


def field_of(table: str, name: str) -> Field | None:
    """The field of a record that fills an input."""
    record = RECORDS[WRITTEN_AS.get(table, table)]
    return next((f for f in record.fields if any(i.name == name for i in f.inputs)), None)


def owner_of(table: str) -> str | None:
    """The column that names a record's owner, where it is written inside another."""
    return OWNER_COLUMN.get(table)


def _has_ids(rows: Rows) -> bool:
    return rows.record.key == "id"


def _written(rows: Rows, at: int) -> dict[str, str]:
    found = {}
    for name, column in rows.origins.items():
        origin = column[at]
        if origin is not None and origin.kind == "given":
            found[name] = origin.text
    return found


def _packed(values: Mapping[str, Value], names: Mapping[str, Value]) -> tuple[object, ...]:
    return tuple(
        round(v, 9) if isinstance(v := values.get(name), float) else v for name in sorted(names)
    )


def _same(a: Value, b: Value, name: str) -> bool:
    """Whether two values of a cell are one: a suite may drop the sixteenth digit."""
    if a in (None, "") or b in (None, ""):
        return a in (None, "") and b in (None, "")
    if isinstance(a, bool) or isinstance(b, bool):
        return bool(a) == bool(b)
    if isinstance(a, float | int) and isinstance(b, float | int):
        return abs(a - b) <= _CLOSE * max(abs(a), abs(b))
    return str(a).strip() == str(b).strip()


def _why(refusal: Refusal) -> str:
    parts = [refusal.what, f"expected {refusal.expected}" if refusal.expected else "", refusal.do]
    return "; ".join(part for part in parts if part)


def kinds(changes: list[Change]) -> Iterator[tuple[Kind, int]]:
    """How many changes there are of each kind."""
    counted: dict[Kind, int] = defaultdict(int)
    for each in changes:
        counted[each.kind] += 1
    yield from counted.items()
