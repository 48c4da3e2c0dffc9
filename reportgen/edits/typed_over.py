"""Formulas that somebody typed over: told wherever they stand, and never taken."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import replace

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.edits.differences import KEY, Change
from reportgen.edits.found import FoundTable, as_kept, columns_at, place_of
from reportgen.edits.memory import Built, Formulas, Lone, Memory, Shown
from reportgen.edits.present import same
from reportgen.edits.words import Known
from reportgen.model.season import Value
from reportgen.returned.cells import LAST_COLUMN, Cell, Sheet, Workbook


class TypedOver:
    """Looks for values where a workbook had formulas."""

    def __init__(self, workbook: Workbook, memory: Memory, tables: Mapping[str, Table]) -> None:
        self._workbook, self._memory, self._tables = workbook, memory, tables
        self._sheets = {sheet.name: sheet for sheet in workbook}
        self.known = Known()
        """What was looked at."""

    def elsewhere(self) -> Iterator[Change]:
        """Those in tables that hold no records, and in single cells; and constants."""
        for shown in self._memory.shown:
            yield from self._shown(shown)
        for lone in self._memory.lone:
            yield from self._lone(lone)

    def of_record(
        self, found: FoundTable, row: int, built: Built, inputs: Container[str]
    ) -> Iterator[Change]:
        """Those in the row of a record that is still there; and what is neither formula nor one of
        its inputs."""
        key = built.key
        formulas = self._memory.formulas[found.table]
        live = self._live(formulas.rows, formulas, found.shown)
        yield from self._row(found.table, found.sheet, row, key, live, emptied=True)
        for at, values in formulas.constants.items():
            name, column = formulas.headings[at].name, found.shown[at]
            if name not in inputs and built.number <= len(values):
                value, cell = values[built.number - 1], found.sheet.cell(row, column)
                if not same(_held(cell), as_kept(value)):
                    place = found.sheet.name, row, column
                    yield self._constant(found.table, key, name, place, cell, value)

    def of_others(self, found: FoundTable) -> Iterator[Change]:
        """Those in the rows of a table that are no record's, and in the one that closes it."""
        formulas = self._memory.formulas[found.table]
        rows = range(found.head + 2, found.end + 1)
        self.known.tables[found.sheet.name].append((rows, {*found.shown}))
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
        rows = sheet.rows(head[1] + 2, end[1])
        columns = columns_at(sheet, head[1], rows, formulas.headings, formulas.rows)
        # Where a heading is gone, nobody knows which column was its.
        taken = {*columns} if all(columns) else range(1, LAST_COLUMN + 1)
        self.known.tables[sheet.name].append((range(head[1] + 2, end[1] + 1), taken))
        live = self._live(formulas.rows, formulas, columns)
        standing = []
        keys = [c for each, c in zip(formulas.headings, columns, strict=True) if each.name == KEY]
        for row in rows:
            cells = [sheet.cell(row, column) for _, column in live]
            kept = [cell for cell in cells if cell is not None and cell.formula]
            if kept or sum(_holds(cell) for cell in cells) * 2 > len(cells):
                # Else it is a row that somebody put in between.
                key = sheet.text(row, keys[0]) if keys and keys[0] else ""
                standing.append((row, key))
                yield from self._row(shown.table, sheet, row, key, live, emptied=bool(kept))
        yield from self._constants(shown, sheet, standing, columns)
        closing = self._live(formulas.closing, formulas, columns)
        yield from self._row(shown.table, sheet, end[1], "", closing, emptied=True)

    def _constants(
        self, shown: Shown, sheet: Sheet, standing: list[tuple[int, str]], columns: list[int]
    ) -> Iterator[Change]:
        """What is no formula and was typed over. Rows may stand in another order: those that are as
        they were built are set aside, each that is left goes with the one built most like it."""
        built = {at: values for at, values in shown.formulas.constants.items() if columns[at]}
        left = Counter(tuple(map(as_kept, row)) for row in zip(*built.values(), strict=True))
        odd = []
        for row, key in standing:
            cells = [sheet.cell(row, columns[at]) for at in built]
            said = tuple(map(_held, cells))
            if left[said]:
                left[said] -= 1
            else:
                odd.append((row, key, cells, said))
        alike: dict[tuple[int, Value], list[tuple[Value, ...]]] = defaultdict(list)
        for each in left.elements() if odd else ():
            for at, value in enumerate(each):
                alike[at, value].append(each)
        for row, key, cells, said in odd:
            like = next(left.elements(), said)
            for found in (alike[each] for each in enumerate(said) if each[1] is not None):
                while found and not left[found[0]]:
                    found.pop(0)
                if found:
                    like = found[0]
                    break
            left[like] -= 1
            for at, cell, now, was in zip(built, cells, said, like, strict=True):
                if now != was:
                    name, place = shown.formulas.headings[at].name, (sheet.name, row, columns[at])
                    yield self._constant(shown.table, key, name, place, cell, was)

    def _constant(
        self, table: str, key: str, name: str, at: tuple[str, int, int], cell: Cell | None,
        built: Value,
    ) -> Change:  # fmt: skip
        """Names of rows are told, as formulas are: they follow from records; others are refused."""
        told = replace(_told(table, key, name, at, cell), built=built)
        column = self._tables[table].inputs.get(name) if table in self._tables else None
        if name == KEY or (column is not None and column.ref):
            return told
        return _no_input(told, built)

    def _live(
        self, which: Iterable[int], formulas: Formulas, columns: list[int]
    ) -> list[tuple[str, int]]:
        return [(formulas.headings[at].name, columns[at]) for at in which if columns[at]]

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
        self.known.cells[at[0]].add(at[1:])
        cell = self._sheets[at[0]].cell(*at[1:])
        if lone.value is not None:
            if cell is None or cell.formula or not same(cell.value, lone.value):
                told = _told(lone.table, lone.row, lone.name, at, cell)
                yield _no_input(told, lone.value)
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


def _no_input(told: Change, built: Value) -> Change:
    """What was typed where nothing is an input, refused."""
    match built:
        case None:
            was = "nothing stands"
        case bool():
            was = f"{'yes' if built else 'no'} ({built:d}) stands"
        case float():
            was = f"{built:.12g} stands"
        case _:
            was = f"'{built}' stands"
    why = f"this is no input: {was} there when it is built; set it back"
    return replace(told, kind="refused", built=built, why=why)


def _held(cell: Cell | None) -> Value:
    return as_kept(None if cell is None or cell.formula else cell.value)


def _holds(cell: Cell | None) -> bool:
    return cell is not None and not cell.formula and cell.value not in (None, "")


def _told(table: str, key: str, name: str, at: tuple[str, int, int], cell: Cell | None) -> Change:
    place = place_of(*at).rpartition("!")[2]
    return Change("overwritten", table, key, name, at[0], place,
                  edited=None if cell is None else cell.value)  # fmt: skip
