"""Formulas that somebody typed over: told wherever they stand, and never taken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.edits.differences import KEY, Change
from reportgen.edits.found import FoundTable, columns_at, place_of
from reportgen.edits.memory import Formulas, Lone, Memory, Shown
from reportgen.edits.present import same
from reportgen.returned.cells import Cell, Sheet, Workbook


class TypedOver:
    """Looks for values where a workbook had formulas."""

    def __init__(self, workbook: Workbook, memory: Memory, tables: Mapping[str, Table]) -> None:
        self._workbook, self._memory, self._tables = workbook, memory, tables
        self._sheets = {sheet.name: sheet for sheet in workbook}

    def elsewhere(self) -> Iterator[Change]:
        """Those in tables that hold no records, and in single cells; and constants."""
        for shown in self._memory.shown:
            yield from self._shown(shown)
        for lone in self._memory.lone:
            yield from self._lone(lone)

    def of_record(self, found: FoundTable, row: int, key: str) -> Iterator[Change]:
        """Those in the row of a record that is still there."""
        formulas = self._memory.formulas[found.table]
        live = self._live(formulas.rows, formulas, found.shown)
        yield from self._row(found.table, found.sheet, row, key, live, emptied=True)

    def of_others(self, found: FoundTable) -> Iterator[Change]:
        """Those in the rows of a table that are no record's, and in the one that closes it."""
        formulas = self._memory.formulas[found.table]
        live = self._live(formulas.rows, formulas, found.shown)
        records = {each.row for each in found.rows if each.number is not None}
        for row in found.sheet.rows(found.head + 2, found.end):
            if row not in records:
                key = found.sheet.text(row, found.columns[KEY]) if KEY in found.columns else ""
                yield from self._row(found.table, found.sheet, row, key, live, emptied=False)
        closing = self._live(formulas.closing, formulas, found.shown)
        yield from self._row(found.table, found.sheet, found.end, "", closing, emptied=True)

    def _shown(self, shown: Shown) -> Iterator[Change]:
        head, end = (self._workbook.names.get(name) for name in (shown.head, shown.end))
        if head is None or end is None or head[0] != end[0] or head[0] not in self._sheets:
            return
        sheet, formulas = self._sheets[head[0]], shown.formulas
        columns = columns_at(sheet, head[1], formulas.labels)
        live = self._live(formulas.rows, formulas, columns)
        keys = [c for (name, _), c in zip(formulas.labels, columns, strict=True) if name == KEY]
        for row in sheet.rows(head[1] + 2, end[1]):
            cells = [sheet.cell(row, column) for _, column in live]
            kept = [cell for cell in cells if cell is not None and cell.formula]
            if kept or sum(_holds(cell) for cell in cells) * 2 > len(cells):
                # Else it is a row that somebody put in between.
                key = sheet.text(row, keys[0]) if keys and keys[0] else ""
                yield from self._row(shown.table, sheet, row, key, live, emptied=bool(kept))
        closing = self._live(formulas.closing, formulas, columns)
        yield from self._row(shown.table, sheet, end[1], "", closing, emptied=True)

    def _live(
        self, which: Iterable[int], formulas: Formulas, columns: list[int]
    ) -> list[tuple[str, int]]:
        return [(formulas.labels[at][0], columns[at]) for at in which if columns[at]]

    def _row(
        self, table: str, sheet: Sheet, row: int, key: str, live: Iterable[tuple[str, int]],
        emptied: bool,
    ) -> Iterator[Change]:  # fmt: skip
        for name, column in live:
            cell = sheet.cell(row, column)
            if cell is not None and cell.formula:
                continue
            if _holds(cell) or (emptied and not self._is_text(table, name)):
                yield _told(table, key, name, (sheet.name, row, column), cell)

    def _lone(self, lone: Lone) -> Iterator[Change]:
        at = self._workbook.names.get(lone.cell)
        if at is None or at[0] not in self._sheets:
            return
        cell = self._sheets[at[0]].cell(*at[1:])
        if lone.value is not None:
            if cell is None or cell.formula or not same(cell.value, lone.value):
                told = _told(lone.table, lone.row, lone.name, at, cell)
                yield replace(
                    told, kind="refused", built=lone.value,
                    why=f"this constant is {lone.value!r} wherever it is used; type it back",
                )  # fmt: skip
        elif (cell is None or not cell.formula) and (
            _holds(cell) or not self._is_text(lone.table, lone.name)
        ):
            yield _told(lone.table, lone.row, lone.name, at, cell)

    def _is_text(self, table: str, name: str) -> bool:
        """Whether a quantity is a text: some suites keep no cell for an empty one."""
        found = self._tables.get(table)
        if found is None or name not in found.definitions:
            return not name
        return found.definitions[name].kind.type == "text"


def beside(numbers: Numbers, at: int | None, change: Change) -> Change:
    """Beside what a formula was typed over with, what it gives as the files are now."""
    if change.kind != "overwritten" or change.table not in numbers.book.tables:
        return change
    table, cells = numbers.book.tables[change.table], numbers.cells[change.table]
    if change.field not in table.definitions:
        return change
    if at is None and table.single:
        at = 0
    if at is None and change.row in cells.get(KEY, ()):
        at = list(cells[KEY]).index(change.row)
    return (
        change if at is None else replace(change, now=numbers.value(table.name, change.field, at))
    )


def _holds(cell: Cell | None) -> bool:
    return cell is not None and not cell.formula and cell.value not in (None, "")


def _told(table: str, key: str, name: str, at: tuple[str, int, int], cell: Cell | None) -> Change:
    place = place_of(*at).rpartition("!")[2]
    return Change("overwritten", table, key, name, at[0], place,
                  edited=None if cell is None else cell.value)  # fmt: skip
