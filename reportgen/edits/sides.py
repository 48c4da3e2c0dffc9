"""Three sides: as built, as edited, as it is written now. What of it is a change."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra.tables import Table
from reportgen.edits.differences import KEY, Change, Difference, Kind, New
from reportgen.edits.found import FoundRow, FoundTable, find, place_of
from reportgen.edits.memory import Built, Memory
from reportgen.edits.present import Present, same
from reportgen.edits.typed import Reader, Typed
from reportgen.model.season import Rows, Season, Value
from reportgen.read import ids
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell, Workbook


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
        self.present = Present(season, memory)

    def whole(self) -> Difference:
        tables, lost = find(self.workbook, self.memory)
        for each in lost:
            why = f"the table of {each.table.replace('_', ' ')} cannot be found again: {each.why}"
            self._refuse(each.table, "", "", "", "", f"{why}; nothing of it is taken")
        for each_table in tables.values():
            self._table(each_table)
        for (table, name), defined in self.memory.cells.items():
            self._single(table, name, defined)
        return self.found

    # --- tables -------------------------------------------------------------------------

    def _table(self, found: FoundTable) -> None:
        name = found.table
        rows = self.present.rows(name)
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
            if column_name in rows.values or (column_name == KEY and rows.record.key == "id")
        )

    def _record(self, found: FoundTable, row: FoundRow, rows: Rows, built: Built) -> None:
        """A record that is still there: its inputs, its id, its formulas."""
        at = self.present.find(built)
        if at is None:
            at = self._taken(found, row.row, rows, built)
        key = built.key
        if rows.record.key == "id" and KEY in found.columns:
            key = self._key(found, row.row, rows, built, at)
        for name in rows.values:
            if name in found.columns:
                self._input(found, row.row, rows, built, name, at)
        if at is not None:
            self.found.at[found.table, built.key] = at
        self._formulas(found, row.row, key)

    def _taken(self, found: FoundTable, row: int, rows: Rows, built: Built) -> int | None:
        """A record that is by now what was typed into its row: renamed, or of another text."""
        if rows.record.key == "id" and KEY in found.columns:
            key = found.sheet.value(row, found.columns[KEY])
            return self.present.by_key(found.table).get(str(key).casefold())
        if rows.record.key != "position":
            return None
        edited: dict[str, Value] = {}
        for name in rows.values:
            if name in found.columns:
                cell = found.sheet.cells.get((row, found.columns[name]))
                column = self.tables[found.table].inputs[name]
                try:
                    edited[name] = self.reader.read(cell, column, found.table).value
                except Refusal:
                    return None
        return self.present.saying(built, edited)

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
        marks = typed.about and not built.values.get(f"{name}_about")
        if same(typed.value, was) and not marks:
            return
        now = rows.values[name][at] if at is not None else None
        agrees = same(now, typed.value) and (
            not marks or (at is not None and bool(rows.values[f"{name}_about"][at]))
        )
        kind: Kind = "change"
        if at is None:
            kind = "conflict"
        elif agrees:
            kind = "home"
        elif not same(now, was):
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
        index = self.present.by_key(found.table)
        taken, still = edited.casefold() in index, built.key.casefold() in index
        kind: Kind = "renamed"
        if taken or not still:
            kind = "home" if taken and not still else "conflict"
        place_of_record = rows.places[at] if at is not None else None
        self.found.changes.append(
            Change(kind, found.table, built.key, KEY, found.sheet.name, cell,
                   place_of_record.file if place_of_record else built.file,
                   place_of_record.line if place_of_record else built.line,
                   built.key, edited, rows.keys[at] if at is not None else None)
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
        at = self.present.find(built)
        kind: Kind = "removed"
        if at is None:
            kind = "home"
        elif not self.present.unchanged(built, at):
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
        if rows.record.key == "id" and KEY in found.columns:
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
        at = (
            self.present.by_key(found.table).get(key.casefold())
            if key
            else self.present.added(found.table, values)
        )
        kind: Kind = "added"
        if at is not None:
            equal = all(same(rows.values[n][at], v) for n, v in values.items())
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
            typed = self.reader.read(cell, column, table)
            if typed.about and not column.about:
                raise Refusal(
                    f"'{cell.value if cell else ''}' is written as an estimate, which only a "
                    "weight can be", "a number", "type the number alone",
                )  # fmt: skip
            return typed
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

    @staticmethod
    def _written_at(rows: Rows, name: str, at: int | None, built: Built) -> tuple[str, int]:
        if at is None:
            return built.file, built.line
        origin = rows.origins[name][at]
        if origin is not None and origin.place is not None and origin.kind == "given":
            return origin.place.file, origin.place.line
        return rows.places[at].file, rows.places[at].line


def _why(refusal: Refusal) -> str:
    parts = [refusal.what, f"expected {refusal.expected}" if refusal.expected else "", refusal.do]
    return "; ".join(part for part in parts if part)
