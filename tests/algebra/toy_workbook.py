"""A toy book as a workbook: a sheet a table, its rows below each other, every formula in place."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import openpyxl
from engines import gnumeric, iron, libreoffice
from engines.compare import same
from openpyxl.utils import get_column_letter

from reportgen.algebra import totals
from reportgen.algebra.expr import Convert, Expr
from reportgen.algebra.factors import Factor, conversion
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.nodes import Constant, walk
from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.places import OWN_ROW, ROW, at_row, locator
from reportgen.algebra.tables import PLACES, SMALLEST, Table

FIRST = 3
SPARE = 2
"""Rows with formulas and nothing in them: whatever they show, it must not be a number."""


class Expected(NamedTuple):
    """What stands in a formula cell, and what Python makes of it."""

    column: str
    value: Value
    formula: str


class ToyPlaces:
    """Every column of a table on the table's own sheet; constants and factors on one more."""

    def __init__(self, numbers: Numbers) -> None:
        self.numbers = numbers
        self.columns: dict[tuple[str, str], str] = {}
        for table in numbers.book.tables.values():
            names = ["key", OWN_ROW, *table.inputs, *table.definitions, *map(locator, table.links)]
            for at, name in enumerate(dict.fromkeys(names), 1):
                self.columns[table.name, name] = get_column_letter(at)
        self.named = {SMALLEST.name: SMALLEST.value, PLACES.name: PLACES.value}
        self.factors: list[Factor] = []
        for definition in numbers.book:
            assert definition.tree is not None
            for node in walk(definition.tree):
                self._gather(node)

    def _gather(self, expr: Expr) -> None:
        if isinstance(expr, Convert):
            found = conversion(expr.part.unit, expr.unit, self.numbers.slots)
            if found is not None and found not in self.factors:
                self.factors.append(found)
        if isinstance(expr, Constant):
            self.named[expr.name] = expr.value

    def last(self, table: str) -> int:
        return FIRST + self.numbers.rows(self.numbers.book.tables[table]) + SPARE - 1

    def cell(self, table: str, column: str) -> str:
        return f"{table}!${self.columns[table, column]}{ROW}"

    def span(self, table: str, column: str) -> str:
        letter = self.columns[table, column]
        return f"{table}!${letter}${FIRST}:${letter}${self.last(table)}"

    def single(self, table: str, column: str) -> str:
        return f"{table}!${self.columns[table, column]}${FIRST}"

    def address(self, table: str, column: str) -> str:
        found = f"{table} {self.columns[table, column]}"
        return f"{found}{FIRST}" if self.numbers.book.tables[table].single else found

    def constant(self, name: str) -> str:
        return f"named!$B${list(self.named).index(name) + 1}"

    def factor(self, factor: Factor) -> str:
        return f"named!$B${len(self.named) + self.factors.index(factor) + 1}"


def write(numbers: Numbers, path: Path) -> dict[tuple[str, str], Expected]:
    """Write the workbook; every formula cell by its place."""
    places = ToyPlaces(numbers)
    formulas = Formulas(numbers.book, numbers.slots)
    workbook = openpyxl.Workbook()
    workbook.remove(workbook.active)
    expected: dict[tuple[str, str], Expected] = {}
    for table in numbers.book.tables.values():
        sheet = workbook.create_sheet(table.name)
        for name, formula in _columns(table, formulas, places):
            letter = places.columns[table.name, name]
            sheet[f"{letter}1"] = name
            values = _values(numbers, table, name)
            for offset in range(len(values) + (0 if table.single else SPARE)):
                row = FIRST + offset
                value = values[offset] if offset < len(values) else None
                if formula is None:
                    sheet[f"{letter}{row}"] = value
                    continue
                written = "=" + at_row(formula, row)
                sheet[f"{letter}{row}"] = written
                expected[table.name, f"{letter}{row}"] = Expected(name, value, written)
    named = workbook.create_sheet("named")
    for row, value in enumerate(
        [*places.named.values(), *(float(each.value) for each in places.factors)], 1
    ):
        named[f"B{row}"] = value
    workbook.save(path)
    return expected


def _columns(
    table: Table, formulas: Formulas, places: ToyPlaces
) -> Iterator[tuple[str, str | None]]:
    if "key" not in table.definitions:
        yield "key", None
    for name in table.inputs:
        yield name, None
    for definition in table.definitions.values():
        yield definition.name, formulas.formula(definition, places)
    if not table.single:
        yield OWN_ROW, totals.own_row(table, places)
    for link in table.links:
        yield locator(link), totals.row_number(table, link, places)


def _values(numbers: Numbers, table: Table, name: str) -> list[Value]:
    if name == OWN_ROW:
        return [row + 1 for row in range(numbers.rows(table))]
    for link in table.links:
        if name == locator(link):
            return [None if row is None else row + 1 for row in numbers.found(table, link)]
    values = numbers.cells[table.name][name]
    # The program writes a truth value as 1 or 0, typed in or worked out.
    if table.kind_of(name).type == "flag":
        return [None if value is None else int(bool(value)) for value in values]
    return list(values)


def disagreements(numbers: Numbers, folder: Path, *, slow: bool = False) -> list[str]:
    """The cells on which Python disagrees with ironcalc, Gnumeric (and, where ``slow``,
    LibreOffice)."""
    path = folder / "toy.xlsx"
    expected = write(numbers, path)
    engines = {
        "ironcalc": iron.recalculate(path),
        "Gnumeric": gnumeric.recalculate([path], folder / "gnumeric")[path],
    }
    if slow:
        engines["LibreOffice"] = libreoffice.recalculate([path], folder / "out")[path]
    return [
        f"{name}: {at[0]}!{at[1]} ({each.column}): Python {each.value!r}, engine "
        f"{found.get(at)!r}, by {each.formula}"
        for name, found in engines.items()
        for at, each in expected.items()
        if not same(each.value, found.get(at))
    ]


__all__ = ["ToyPlaces", "disagreements", "write"]
