"""Three sides: as built, as edited, as it is written now. What of it is a change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from reportgen.algebra.inputs import Input
from reportgen.algebra.tables import Table
from reportgen.edits import words as own_words
from reportgen.edits.amounts import day
from reportgen.edits.differences import KEY, Change, Difference, Kind
from reportgen.edits.found import FoundRow, FoundTable, find, place_of, singles
from reportgen.edits.memory import Built, Memory
from reportgen.edits.notebook import DaysWork
from reportgen.edits.present import same, written
from reportgen.edits.typed import Typed
from reportgen.edits.written import UNWRITTEN
from reportgen.model import notebook
from reportgen.model.season import Rows, Season, Value
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell, Sheet, Workbook

_NO_ENTRY = (
    "its entry in {} is gone, or is written otherwise: write there what is to count and set the "
    "cell back, or take the other cells by --only"
)
_UNWRITTEN = (
    "it cannot be emptied, for nothing is written there that could be taken away; type what is to "
    "count"
)


def compare(
    workbook: Workbook, memory: Memory, season: Season, tables: Mapping[str, Table],
    words: Mapping[str, str], computed: bool = False,
) -> Difference:  # fmt: skip
    """What an edited workbook says, set against its memory and the season as it is written now.

    ``computed``: what a formula gives in an input cell is taken, too.
    """
    return _Comparison(workbook, memory, season, tables, words, computed).whole()


def _called(table: Table, values: Mapping[str, Value]) -> str:
    """What a record names, and its day."""
    said = []
    for name, column in table.inputs.items():
        value = values.get(name)
        if column.type == "date" and isinstance(value, float):
            said.append(day(value, False))
        elif isinstance(value, str) and (column.ref or column.choices or name == "item"):
            said.append(value)
    return ", ".join(said)


def _blank(column: Input) -> Value:
    """What an empty cell of an input counts as, in the workbook and in the files."""
    return 1.0 if column.one else 0.0 if column.zero else None


class _Comparison(DaysWork):
    """Input by input, over all tables."""

    def whole(self) -> Difference:
        tables, lost = find(self.workbook, self.memory)
        for each in lost:
            why = f"the table of {each.table.replace('_', ' ')} cannot be found again: {each.why}"
            self.refuse(each.table, "", "", "", "", f"{why}; nothing of it is taken")
            self.typed_over.known.lost.update(each.sheets)
        for each_table in tables.values():
            self._units(each_table)
            if each_table.table == notebook.NAME:
                self.days_work(each_table)
            else:
                self._table(each_table)
            self.found.changes += self.typed_over.of_others(each_table)
        places = singles(self.workbook, self.memory)
        for (table, name), defined in self.memory.cells.items():
            self._single(table, name, defined, places.get((table, name)))
        self._call_by_name()
        self.found.changes += self.typed_over.elsewhere()
        known = self.typed_over.known
        for sheet_name, row, column in places.values():
            known.cells[sheet_name].add((row, column))
        told = {(each.sheet, each.cell) for each in self.found.changes}
        self.found.changes += [
            each
            for each in own_words.typed_over(self.workbook, self.memory, known)
            if (each.sheet, each.cell) not in told
        ]
        return self.found

    def _units(self, found: FoundTable) -> None:
        """Refuse the inputs of a table above which another unit stands."""
        for name, (at, unit, now) in own_words.units_typed_over(found, self.memory).items():
            if name in self.tables[found.table].inputs:
                self._other_unit(found.table, name, found.sheet, at, unit, now)

    def _other_unit(
        self, table: str, name: str, sheet: Sheet, at: own_words.Place, unit: str, now: str
    ) -> None:
        place = place_of(sheet.name, *at).rpartition("!")[2]
        why = (
            f"its unit is {unit}, and {now} was typed over that in {place}: type {unit} there "
            "again, and a figure in another unit with that unit behind it"
        )
        self.found.changes.append(
            Change("refused", table, "", name, sheet.name, place, built=unit, edited=now, why=why)
        )
        self.other_units[table, name] = why

    def _call_by_name(self) -> None:
        """Say of records without an id what they are, as people see them."""
        built = {(each.table, each.key): each.values for each in self.memory.records.values()}
        new = {(each.sheet, each.cell): each.values for each in self.found.added}
        for at, change in enumerate(self.found.changes):
            table = self.tables.get(change.table)
            if table is None or table.single or change.table == notebook.NAME:
                continue
            values = new.get((change.sheet, change.cell), {}) if not change.row else {}
            values = values or built.get((change.table, change.row), {})
            if not change.row or self.present.rows(change.table).record.key == "position":
                self.found.changes[at] = replace(change, called=_called(table, values))

    # --- tables -------------------------------------------------------------------------

    def _table(self, found: FoundTable) -> None:
        name = found.table
        rows = self.present.rows(name)
        seen: set[int] = set()
        self.known = set()
        self.stand(found)
        for row in found.rows:
            built = None if row.number is None else self.memory.records.get((name, row.number))
            if built is None:
                if self._typed_anything(found, row.row, rows):
                    self.added(found, row, rows)
                continue
            if not self._typed_anything(found, row.row, rows):
                continue  # emptied: removed, below
            seen.add(built.number)
            self._record(found, row, rows, built)
        gone = [
            (built, self.present.find(built))
            for (table, number), built in self.memory.records.items()
            if table == name and number not in seen
        ]
        self.known |= {at for _, at in gone if at is not None}
        for built, at in gone:
            self.removed(found, rows, built, at)

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
        if rows.record.key == "id" and KEY in found.columns:
            self.renamed(found, row.row, rows, built, at)
        for name in rows.values:
            if name in found.columns and name.endswith(UNWRITTEN):
                self._follows(found, row.row, built, name)
            elif name in found.columns:
                self._input(found, row.row, rows, built, name, at)
        if at is not None:
            self.known.add(at)
            self.found.at[found.table, built.key] = at
        self.found.changes += self.typed_over.of_record(found, row.row, built, rows.values)

    def _taken(self, found: FoundTable, row: int, rows: Rows, built: Built) -> int | None:
        """A record that is by now what was typed into its row: renamed, or of another text."""
        if rows.record.key == "id" and KEY in found.columns:
            key = found.sheet.value(row, found.columns[KEY])
            return self.present.by_key(found.table).get(str(key).casefold())
        edited: dict[str, Value] = {}
        for name in rows.values:
            if name in found.columns and not name.endswith(UNWRITTEN):
                cell = found.sheet.cell(row, found.columns[name])
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
        cell = found.sheet.cell(row, column)
        place = found.place(row, name)
        was = built.values.get(name)
        typed = self._read(found.table, built.key, name, cell, found.sheet.name, place, was)
        if typed is None:
            return
        self._three(found.table, built, name, found.sheet.name, place, typed, was, rows, at)

    def _follows(self, found: FoundTable, row: int, built: Built, name: str) -> None:
        """Refuse what was typed over a figure that says how a weight was written."""
        cell = found.sheet.cell(row, found.columns[name])
        value, was = cell.value if cell is not None else None, built.values.get(name)
        if not same(value, was):
            place = found.place(row, name).rpartition("!")[2]
            why = "it follows from how the weight is written in the files; " + (
                f"type {was:g} there again" if isinstance(was, float) else "empty this cell"
            )
            self.refuse(found.table, built.key, name, found.sheet.name, place, why, value)

    def _read(
        self, table: str, row: str, name: str, cell: Cell | None, sheet: str, place: str, was: Value
    ) -> Typed | None:
        """What was typed into a cell; nothing where it is as it was built: whatever it then holds,
        nobody typed it."""
        plain = cell is not None and cell.shown == "number" and not (cell.formula or cell.error)
        if cell is not None and plain and same(cell.value, was):
            return None
        return self.read(table, row, name, cell, sheet, place)

    def _three(
        self, table: str, built: Built, name: str, sheet: str, place: str, typed: Typed, was: Value,
        rows: Rows, at: int | None,
    ) -> None:  # fmt: skip
        about = self.tables[table].inputs[name].about if typed.about else ""
        marks = about and not built.values.get(about)
        if same(typed.value, was) and not marks:
            return
        now = rows.values[name][at] if at is not None else None
        unwritten = at is not None and name not in written(rows, at)
        if typed.value is None and unwritten and name not in built.written:
            if not same(now, _blank(self.tables[table].inputs[name])):
                self.refuse(table, built.key, name, sheet, place.rpartition("!")[2], _UNWRITTEN)
            return
        agrees = (same(now, typed.value) or (typed.value is None and unwritten)) and (
            not marks or (at is not None and bool(rows.values[about][at]))
        )
        kind: Kind = "change"
        if at is None:
            # One that is known by its text alone may be any other by now.
            kind = "refused" if rows.record.key == "position" else "conflict"
        elif agrees:
            kind = "home"
        elif not same(now, was):
            kind = "conflict"
        file, line = self._written_at(rows, name, at, built)
        why = _NO_ENTRY.format(file) if at is None else ""
        self.found.changes.append(
            Change(kind, table, built.key, name, sheet, place.rpartition("!")[2], file, line,
                   was, typed.value, now, about, why=why)
        )  # fmt: skip

    # --- single figures -------------------------------------------------------------------

    def _single(self, table: str, name: str, defined: str, at: tuple[str, int, int] | None) -> None:
        built = self.memory.records.get((table, 1))
        rows = self.season.tables.get(table)
        if built is None or rows is None or name not in rows.values:
            return
        sheet = next((s for s in self.workbook if at is not None and s.name == at[0]), None)
        if at is None or sheet is None:
            self.refuse(
                table, table, name, "", "",
                f"the cell named {defined} cannot be found again; nothing is taken from it",
            )  # fmt: skip
            return
        place = place_of(*at)
        was = built.values.get(name)
        cell = sheet.cell(*at[1:])
        spoken = self.memory.spoken.get((table, name))
        other = own_words.unit_beside(sheet, at[1:], spoken.unit) if spoken is not None else None
        if other is not None:
            self._other_unit(table, name, sheet, *other)
        typed = self._read(table, table, name, cell, sheet.name, place, was)
        if typed is not None:
            self.found.at[table, built.key] = 0
            self._three(table, built, name, sheet.name, place, typed, was, rows, 0)
