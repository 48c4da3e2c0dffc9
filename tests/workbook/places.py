"""Where each figure stands in a workbook, and what an engine says of it, by table and key."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from engines.cells import Place, Value
from engines.compare import same

from reportgen.algebra.numbers import Numbers
from reportgen.layout.in_use import unused
from reportgen.layout.placing import Layout
from reportgen.layout.spots import letters
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK

Figures = dict[str, dict[str, dict[str, Value]]]
"""Table → key → derived quantity → value."""

TOLERANCE = 1e-9
"""Relative, and absolute for what is nothing but rounding left over."""


@dataclass(frozen=True)
class Column:
    """A column of cells; a single figure is one of one row."""

    sheet: str
    letters: str
    first: int

    def cell(self, row: int) -> Place:
        """The cell in a row of the table, counted from 0."""
        return self.sheet, f"{self.letters}{self.first + row}"


@dataclass(frozen=True)
class Grid:
    """The places of one table: how many rows hold something, how many there are, its columns."""

    single: bool
    filled: int
    rows: int
    columns: Mapping[str, Column]
    derived: tuple[str, ...]


def of_program(numbers: Numbers) -> dict[str, Grid]:
    """The places of every table on the program's own sheets."""
    rows = {name: numbers.rows(table) for name, table in numbers.book.tables.items()}
    shown = contents(SHEETS, numbers)
    return grids(Layout(numbers.book, shown, rows, numbers.slots, unused(SHEETS, numbers)), numbers)


def grids(layout: Layout, numbers: Numbers) -> dict[str, Grid]:
    """The places of every table, by its name."""
    found = {}
    for name, table in numbers.book.tables.items():
        spots = layout.singles if table.single else layout.homes
        columns = {
            column: Column(spot.sheet, letters(spot.column), spot.first)
            for (of, column), spot in spots.items()
            if of == name
        }
        derived = tuple(each for each in table.definitions if each in columns and each != "key")
        filled = numbers.rows(table)
        key = spots.get((name, "key"))
        rows = filled if key is None else key.last - key.first
        found[name] = Grid(table.single, filled, rows, columns, derived)
    return found


def figures(numbers: Numbers, places: Mapping[str, Grid]) -> Figures:
    """What the core worked out."""
    found: Figures = {}
    for table, grid in places.items():
        cells = numbers.cells[table]
        keys = ["1"] if grid.single else [_text(key) for key in cells["key"]]
        found[table] = {
            key: {name: _number(cells[name][row]) for name in grid.derived}
            for row, key in enumerate(keys)
        }
        assert len(found[table]) == len(keys), f"{table}: a key stands twice in {keys}"
    return found


def read_back(values: Mapping[Place, Value], places: Mapping[str, Grid]) -> Figures:
    """What stands in a workbook; rows without a key that hold something go by their number."""
    found: Figures = {}
    for table, grid in places.items():
        found[table] = {}
        for row in range(grid.rows):
            contents = {name: values.get(grid.columns[name].cell(row)) for name in grid.derived}
            key = "1" if grid.single else _text(values.get(grid.columns["key"].cell(row)))
            if not key:
                if not any(value not in (None, "", 0) for value in contents.values()):
                    continue
                key = f"row {row + 1} without a key"
            found[table][key if key not in found[table] else f"{key} again"] = contents
    return found


FIRST = {("checks", "first"), ("checks", "said")}
"""They name the first row that fails; which is first hangs on the order of the rows."""

PLACES = {
    ("products", "row_place"),
    ("loads", "lacking_place"),
    ("loads", "unpacked_place"),
    ("dryers", "lacking_first"),
    ("dryers", "unpacked_first"),
    ("uses", "stall_day_place"),
    ("uses", "first_at_stall"),
    ("counts", "count_before"),
}
"""The number of a row, an id made of it, and whether it is a day's first: they hang on the order of
the rows, too. (What is found by them, or how many they are, does not.)"""


def differing(found: Figures, expected: Figures, reordered: bool = False) -> Iterator[str]:
    """Every figure on which the two do not agree, and every row that only one of them has.

    Where rows are ``reordered``, their numbers may differ, and which one of several that fail a
    check comes first.
    """
    for table, rows in expected.items():
        for key in rows.keys() ^ found[table].keys():
            yield f"{table} {key}: stands only in {'the season' if key in rows else 'the workbook'}"
        for key in rows.keys() & found[table].keys():
            for name, value in rows[key].items():
                several = (table, name) in FIRST and (rows[key]["failing"] or 0) > 1
                there = found[table][key][name]
                if reordered and (several or (table, name) in PLACES):
                    continue
                if reordered and (table, name) in FIRST:
                    value, there = _unnumbered(value), _unnumbered(there)
                if reordered and (table, name) == ("season", "look_first"):
                    if not _of_one_check(value, there, expected["checks"], found["checks"]):
                        yield f"{table}.{name}: {value!r} and {there!r} are of two checks"
                    continue
                if not same(value, there, TOLERANCE, TOLERANCE):
                    yield f"{table}.{name} {key}: fresh {value!r}, in the workbook {there!r}"


def _unnumbered(said: Value) -> Value:
    """What names a row that has no id, without its number among the rows."""
    if not isinstance(said, str):
        return said
    return re.sub(r"\b(use|count|part|bought|draw)-[0-9]+\b", r"\1", said)


def _of_one_check(
    value: Value,
    there: Value,
    expected: Mapping[str, Mapping[str, Value]],
    found: Mapping[str, Mapping[str, Value]],
) -> bool:
    """Whether one check names these two as its first row, in the season and in the workbook."""
    return (value or None) == (there or None) or any(
        (row["first"], found[key]["first"]) == (value, there) for key, row in expected.items()
    )


def without_keys(of: Figures) -> dict[str, list[list[Value]]]:
    """The figures that are no text, table by table, in the order of their rows."""
    return {
        table: [
            [row[name] for name in row if BOOK.tables[table].kind_of(name).type != "text"]
            for row in rows.values()
        ]
        for table, rows in of.items()
    }


def count(of: Figures) -> int:
    """How many figures there are."""
    return sum(len(row) for rows in of.values() for row in rows.values())


def _text(key: Value) -> str:
    if key is None:
        return ""
    return str(int(key)) if isinstance(key, float) else str(key)


def _number(value: Value) -> Value:
    """A truth value is 1 or 0 in a cell."""
    return int(value) if isinstance(value, bool) else value
