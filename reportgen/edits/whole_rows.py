"""Records as wholes on three sides: added, removed, given another id."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra.tables import Table
from reportgen.edits.differences import KEY, Change, Difference, Kind, New
from reportgen.edits.found import FoundRow, FoundTable
from reportgen.edits.memory import Built, Memory
from reportgen.edits.present import Present, same, written
from reportgen.edits.typed import Reader, Typed
from reportgen.edits.typed_over import TypedOver
from reportgen.edits.written import UNWRITTEN
from reportgen.model import notebook
from reportgen.model.fields import placed
from reportgen.model.season import Rows, Season, Value
from reportgen.read import ids
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell, Workbook


class WholeRows:
    """What rows of an edited workbook say as wholes; and what all comparing needs."""

    def __init__(
        self, workbook: Workbook, memory: Memory, season: Season, tables: Mapping[str, Table],
        words: Mapping[str, str], computed: bool,
    ) -> None:  # fmt: skip
        self.computed = computed
        self.workbook, self.memory, self.season, self.tables = workbook, memory, season, tables
        self.reader = Reader(season.slots, words)
        self.found = Difference()
        self.known: set[int] = set()
        """The records of the table at hand, as they are now, that the workbook speaks of."""
        self.standing: dict[str, int] = {}
        """The rows of the table at hand, by the id that stands in each."""
        self.other_units: dict[tuple[str, str], str] = {}
        """Inputs beside which another unit stands than they were built with: what is wrong."""
        self.present = Present(season, memory)
        self.typed_over = TypedOver(workbook, memory, tables)

    def renamed(
        self, found: FoundTable, row: int, rows: Rows, built: Built, at: int | None
    ) -> None:
        """A renamed record: its id was changed, its mark was not."""
        value = found.sheet.value(row, found.columns[KEY])
        edited = "" if value is None else str(value)
        if edited.casefold() == built.key.casefold():
            return
        place = found.place(row, KEY)
        cell = place.rpartition("!")[2]
        if not edited:
            self.refuse(
                found.table, built.key, KEY, found.sheet.name, cell,
                "the row has inputs and no id, so nothing counts it; type its id again",
            )  # fmt: skip
            return
        if self._no_id(found, row, built.key, edited, cell):
            return
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

    def removed(self, found: FoundTable, rows: Rows, built: Built, at: int | None) -> None:
        """A record whose row is gone, or empty. ``at``: where it stands now."""
        emptied = next((row.row for row in found.rows if row.number == built.number), None)
        cell = f"A{emptied}" if emptied is not None else ""
        kind: Kind = "removed"
        if at is None:
            kind = "conflict" if self._another(rows, built) else "home"
        elif not self.present.unchanged(built, at):
            kind = "conflict"
        if at is not None:
            self.found.at[found.table, built.key] = at
        self.found.changes.append(
            Change(kind, found.table, built.key, "", found.sheet.name, cell, built.file, built.line,
                   built=built.key, now=built.key if at is not None else None)
        )  # fmt: skip

    def _another(self, rows: Rows, built: Built) -> bool:
        """Whether a record that nothing in the workbook speaks of may be one without an id, under
        another text."""
        return rows.record.key != "id" and any(
            place.file == built.file and at not in self.known
            for at, place in enumerate(rows.places)
        )

    def added(self, found: FoundTable, row: FoundRow, rows: Rows) -> None:
        key, cell = "", f"A{row.row}"
        sheet = found.sheet.name
        if rows.record.key in ("id", "position") and KEY in found.columns:
            key = str(found.sheet.value(row.row, found.columns[KEY]) or "")
            cell = found.place(row.row, KEY).rpartition("!")[2]
            if not key:
                like = ""
                if rows.record.key == "position":
                    like = f", as {placed(rows.record.one, len(rows.keys) + 1)}"
                self.refuse(
                    found.table, "", KEY, sheet, cell,
                    f"the row has inputs and no id, so nothing counts it; type an id{like}, or "
                    "empty it",
                )  # fmt: skip
                return
            if rows.record.key == "position":
                key = ""  # of use in the workbook alone
            elif self._no_id(found, row.row, key, key, cell):
                return
        values: dict[str, Value] = {}
        broken = False
        for name in rows.values:
            if name not in found.columns:
                continue
            place = found.place(row.row, name)
            typed = self.read(
                found.table, key, name, found.sheet.cell(row.row, found.columns[name]),
                sheet, place,
            )  # fmt: skip
            broken = broken or typed is None
            if typed is not None and typed.value is not None:
                values[name] = typed.value
                if typed.about:
                    values[self.tables[found.table].inputs[name].about] = True
        if broken:
            return
        at = (
            self.present.by_key(found.table).get(key.casefold())
            if key
            else self.present.added(found.table, values)
        )
        kind: Kind = "added"
        if at is not None:
            self.known.add(at)
            says = {
                name
                for name in written(rows, at)
                if name in found.columns and not name.endswith(UNWRITTEN) and rows.values[name][at]
            }
            equal = all(same(rows.values[n][at], values.get(n)) for n in says | set(values))
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

    def stand(self, found: FoundTable) -> None:
        """Note where each id of a table stands: in the row built with it, else in the first."""
        self.standing = {}
        if KEY not in found.columns:
            return

        def order(row: FoundRow) -> tuple[bool, bool, int]:
            built = self.memory.records.get((found.table, row.number or 0))
            return built is None or built.key.casefold() != self._id(found, row), not built, row.row

        for row in sorted(found.rows, key=order):
            self.standing.setdefault(self._id(found, row), row.row)

    @staticmethod
    def _id(found: FoundTable, row: FoundRow) -> str:
        return str(found.sheet.value(row.row, found.columns[KEY]) or "").casefold()

    def _no_id(self, found: FoundTable, row: int, key: str, typed: str, cell: str) -> bool:
        """Whether what was typed can be no id of this row; it is then refused."""
        other = self.standing.get(typed.casefold(), row)
        try:
            ids.check(typed)
            if other == row:
                return False
            why = f"'{typed}' is already the id of row {other}; type another one"
        except Refusal as refusal:
            why = _why(refusal)
        self.refuse(found.table, key, KEY, found.sheet.name, cell, why)
        return True

    # --- help -----------------------------------------------------------------------------

    def read(
        self, table: str, key: str, name: str, cell: Cell | None, sheet: str, place: str
    ) -> Typed | None:
        """What a cell holds; None, and a refusal noted, where that cannot be."""
        # A cell of the notebook is read as the record's input that it belongs to.
        of, column = table, self.tables[table].inputs[name]
        if table == notebook.NAME:
            of, column = notebook.PLACES[name][0], notebook.place_of(name)
        if cell is not None and cell.value is not None and (table, name) in self.other_units:
            self.refuse(
                table, key, name, sheet, place.rpartition("!")[2], self.other_units[table, name],
                cell.value,
            )  # fmt: skip
            return None
        if cell is not None and cell.formula and not (self.computed and cell.value is not None):
            gives = f"; it gives {cell.value}" if cell.value is not None else ""
            self.refuse(
                table, key, name, sheet, place.rpartition("!")[2],
                f"a formula stands in an input cell{gives}; type the value, or take it with "
                "--computed", cell.value,
            )  # fmt: skip
            return None
        try:
            typed = self.reader.read(cell, column, of)
            if typed.about and not column.about:
                raise Refusal(
                    f"'{cell.value if cell else ''}' is written as an estimate, which only a "
                    "weight can be",
                    "a number",
                    "type the number alone",
                )
            if column.ref and isinstance(typed.value, str):
                return Typed(self.present.as_written(column.ref, typed.value))
            return typed
        except Refusal as refusal:
            self.refuse(table, key, name, sheet, place.rpartition("!")[2], _why(refusal),
                         cell.value if cell is not None else None)  # fmt: skip
            return None

    def refuse(
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
