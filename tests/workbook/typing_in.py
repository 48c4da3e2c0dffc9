"""The cells that someone types into to make an edit of a season in its workbook."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from engines.cells import Place, Value
from seasons import Edit

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.algebra.tables import Table
from reportgen.trade import BOOK
from reportgen.trade.rows import follow
from workbook.places import Grid

DAY = "the day the season is judged on is found while reading"
DEFAULT = "what a key left out means is found while reading"
ORDER = "products stand in the order in which files name them"
ROWS = "which rows follow from other records is found while reading"
LONGER = "a list has no spare row for what follows: the workbook says to build again"


WRITTEN = {"changes": "scenarios", "asking": "asked"}
"""Tables of the workbook whose records go by another name in a season's files."""


@dataclass
class Typed:
    """What is typed, and what of it a reader of YAML would have found without being told."""

    cells: dict[Place, Value] = field(default_factory=dict)
    told: list[str] = field(default_factory=list)
    """A reason for each such cell."""


@dataclass(frozen=True)
class Change:
    """An input that is another after the edit; ``row`` counts from 0, spare rows included."""

    table: Table
    key: str
    name: str
    row: int
    value: Value


def changes(before: Numbers, after: Numbers, edit: Edit | None) -> Iterator[Change]:
    """Every input that differs. Rows are matched by key; rows that follow from the records of other
    tables by their place, and a row too many is emptied."""
    following = follow(BOOK, before.cells)
    for name, table in BOOK.tables.items():
        old, new = before.cells[name], after.cells[name]
        columns = list(table.inputs)
        if not table.single and "key" not in table.definitions:
            columns.insert(0, "key")
        for row, there in _matched(name in following or table.single, old, new, edit, name):
            key = (
                name if table.single else str((old if there is None else new)["key"][there or row])
            )
            for column in columns:
                is_new = row >= len(old["key"])
                was = None if is_new else old[column][row]
                value = None if there is None else new[column][there]
                renamed = column == "key" and not is_new and name not in following
                if value != was and not renamed:
                    yield Change(table, key, column, row, value)


def _matched(
    by_place: bool, old: Cells, new: Cells, edit: Edit | None, name: str
) -> Iterator[tuple[int, int | None]]:
    """Rows of the workbook with the row of the edited season that belongs there, if any."""
    if by_place:
        many = len(new["key"])
        yield from ((row, row if row < many else None) for row in range(max(many, len(old["key"]))))
        return
    rows = {str(key): row for row, key in enumerate(old["key"])}
    spare = len(rows)
    for there, key in enumerate(map(str, new["key"])):
        there_named = WRITTEN.get(name, name)
        was = edit.key if edit and (there_named, key) == (edit.table, edit.new_key) else key
        if was not in rows:
            rows[was], spare = spare, spare + 1
        yield rows.pop(was), there
    assert not rows, f"{edit}: {name} lost {', '.join(rows)}"


def typed(before: Numbers, after: Numbers, edit: Edit | None, places: Mapping[str, Grid]) -> Typed:
    """What to type so that the workbook of the one season says what the other would.

    Without an edit, inputs of any rows were left out. An input that is left out is emptied. A
    change that is not the edit's own fails, but for what is found while reading and is a plain
    input in the workbook; that is told.
    """
    result, following = Typed(), follow(BOOK, before.cells)
    for each in changes(before, after, edit):
        name, value = each.table.name, each.value
        grid = places[name]
        if (name, each.name) == ("season", "as_of"):
            result.told.append(DAY)
        elif name in following:
            result.told.append(ROWS)
            if each.row >= grid.rows:
                result.told.append(LONGER)
                continue
        elif edit and (WRITTEN.get(name, name), each.key) != (edit.table, edit.new_key):
            raise AssertionError(f"{edit}: {name} {each.key} {each.name} became {value!r}, too")
        elif value is not None and (edit is None or edit.kind == "blank"):
            found = each.table.inputs[each.name]
            if found.zero or found.one:
                value = None
            else:
                result.told.append(DEFAULT)
        assert grid.single or each.row < grid.rows, f"{edit}: no spare row in {name}"
        result.cells[grid.columns[each.name].cell(each.row)] = _cell(each.name, value)
    keys = [[*map(str, each.cells["products"]["key"])] for each in (before, after)]
    if keys[0] != keys[1]:
        result.told.append(ORDER)
    return result


def renaming(before: Numbers, after: Numbers, places: Mapping[str, Grid]) -> dict[Place, Value]:
    """Every input and key that differs between two seasons of the same rows in the same order."""
    return {
        grid.columns[name].cell(row): after.cells[table][name][row]
        for table, grid in places.items()
        for name in grid.columns
        if name not in BOOK.tables[table].definitions and name in before.cells[table]
        for row in range(grid.filled)
        if before.cells[table][name][row] != after.cells[table][name][row]
    }


def _cell(name: str, value: Value) -> Value:
    if isinstance(value, bool):
        return int(value)
    return int(value) if name == "key" and isinstance(value, str) and value.isdigit() else value
