"""Every quantity of a season: as data, and as tables to read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import shorten
from typing import Any

from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.tables import Definition, Kind, Table
from reportgen.model.season import Season
from reportgen.report.basis import Bases
from reportgen.report.show import Slots, cell, iso, unit
from reportgen.trade.safety import CAUTIONS, beside

_WIDTH = 100
"""Characters of a line of a table."""
_TEXT = 40
"""Characters of a text in a cell."""
_MARKS = {"measured": " ", "mixed": "~", "estimated": "≈"}
_LEFT_OUT = ("checks", "typed")
"""Tables that are left to the command of their own."""
LEGEND = "≈ rests on estimates, ~ rests on them in part, - is not known yet"


def quantities(table: Table) -> list[Definition]:
    """The quantities of a table, without what only serves other columns."""
    found = table.definitions.values()
    return [each for each in found if each.role == "derived" and each.name != "key"]


def keys(numbers: Numbers, table: Table) -> list[str]:
    """The key of every row; a table of one row goes by its own name."""
    if table.single:
        return [table.name]
    return [str(key) for key in numbers.cells[table.name]["key"]]


def figures(season: Season, numbers: Numbers) -> dict[str, Any]:
    """Every quantity with value, unit and basis, by table and row.

    A value that is not known is ``None``, a share a fraction, a date ISO text; the unit of all
    that is no weight, money, time or the like is empty.
    """
    bases = Bases(numbers)
    tables = {
        table.name: {
            key: {
                each.name: {
                    "value": as_data(numbers.value(table.name, each.name, row), each.kind),
                    "unit": _unit(each.kind, season.slots),
                    "basis": bases.of(table, each.name, row),
                }
                for each in quantities(table)
            }
            for row, key in enumerate(keys(numbers, table))
        }
        for table in numbers.book.tables.values()
        if quantities(table)
    }
    return {
        "season": season.name,
        "currency": season.currency,
        "units": {"fresh": season.fresh, "dried": season.dried},
        "tables": tables,
    }


def as_data(value: Value, kind: Kind) -> Value:
    """A value as data: a date as text, a truth value as one."""
    if value is None:
        return None
    if kind.type == "date":
        assert isinstance(value, int | float)
        return iso(value)
    if kind.type == "flag":
        return bool(value)
    return int(value) if kind.show == "count" and isinstance(value, float) else value


def _unit(kind: Kind, slots: Slots) -> str:
    return kind.unit.text(slots) if kind.type == "number" else ""


def lines(season: Season, numbers: Numbers) -> Iterator[str]:
    """The tables to read: quantities down, rows across, as many side by side as fit."""
    bases = Bases(numbers)
    yield f"{season.name}: {season.currency}, {season.fresh} before drying, {season.dried} after"
    yield LEGEND
    for table in numbers.book.tables.values():
        listed = quantities(table)
        rows = keys(numbers, table)
        if not listed or not rows or table.name in _LEFT_OUT:
            continue

        def marked(each: Definition, row: int) -> str:
            value = numbers.value(each.table.name, each.name, row)
            bare = value is None or each.kind.type != "number"
            if isinstance(value, str):
                value = shorten(value, _TEXT, placeholder="…")
            mark = " " if bare else _MARKS[bases.of(each.table, each.name, row)]
            return cell(value, each.kind, season.slots) + mark

        columns = [[marked(each, row) for each in listed] for row in range(len(rows))]
        labels = [each.label for each in listed]
        units = [unit(each.kind, season.slots) for each in listed]
        yield from _side_by_side(table, rows, labels, units, columns)
    yield ""
    yield from beside(CAUTIONS)


def _side_by_side(
    table: Table,
    rows: Sequence[str],
    labels: Sequence[str],
    units: Sequence[str],
    columns: Sequence[Sequence[str]],
) -> Iterator[str]:
    left, middle = max(map(len, (table.title, *labels))), max(map(len, units))
    widths = [
        max(len(key) + 1, *map(len, column)) for key, column in zip(rows, columns, strict=True)
    ]
    start = 0
    while start < len(rows):
        end, used = start, left + 2 + middle
        while end < len(rows) and (end == start or used + 2 + widths[end] <= _WIDTH):
            used += 2 + widths[end]
            end += 1
        shown = range(start, end)
        # The mark stands behind the number, so the heading leaves its place free.
        heads = "".join(f"  {rows[i] + ' ':>{widths[i]}}" for i in shown)
        yield ""
        yield f"{table.title.upper():<{left}}  {'':<{middle}}{heads}".rstrip()
        for n, label in enumerate(labels):
            cells = "".join(f"  {columns[i][n]:>{widths[i]}}" for i in shown)
            yield f"{label:<{left}}  {units[n]:<{middle}}{cells}".rstrip()
        start = end
