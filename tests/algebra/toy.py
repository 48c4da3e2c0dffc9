"""Tables, books and numbers of toys: ferries, their trips, and the port they sail from."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from reportgen.algebra.book import Book
from reportgen.algebra.expr import Expr, Type
from reportgen.algebra.inputs import Input
from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.tables import Kind, Table
from reportgen.units import ONE, Unit

SLOTS = {"fresh": "lb", "dried": "oz", "money": "EUR", "distance": "mile"}


def Given(name: str, unit: Unit = ONE, type: Type = "number", **more: Any) -> Input:
    """An input of a toy's."""
    return Input(name, type, "A toy's input.", unit, **more)


def text(name: str, ref: str | None = None) -> Input:
    return Given(name, type="text", ref=ref)


def define(table: Table, name: str, kind: Kind | Unit, body: Callable[..., Expr]) -> None:
    """Define a quantity without the decorator's need of a docstring of its own."""
    body.__name__, body.__doc__ = name, f"What {name} is."
    table.derived(kind)(body)


def book(*tables: Table) -> Book:
    """A book of these tables, without a table of checks."""
    return Book(tables, Table.of("checks", "check", []))


def numbers(
    made: Book, inputs: Mapping[str, Mapping[str, Sequence[Value]]], slots: Any = None
) -> Numbers:
    """The numbers of a book; columns left out are blank, a single table has its row."""
    filled: dict[str, dict[str, Sequence[Value]]] = {}
    for name, table in made.tables.items():
        given = dict(inputs.get(name, {}))
        rows = 1 if table.single else len(next(iter(given.values()), []))
        columns: dict[str, Sequence[Value]] = {each: [None] * rows for each in table.inputs}
        if "key" not in table.definitions:
            columns["key"] = [str(row + 1) for row in range(rows)]
        filled[name] = columns | given
    return Numbers(made, filled, SLOTS if slots is None else slots)


def one_row(kind: Kind | Unit, body: Callable[..., Expr], slots: Any = None, **given: Any) -> Value:
    """What a definition gives in a table of one row; inputs are numbers, or (number, unit)."""
    inputs: list[Input] = []
    row: dict[str, Sequence[Value]] = {"key": ["only"]}
    for name, value in given.items():
        amount, unit = value if isinstance(value, tuple) else (value, ONE)
        inputs.append(text(name) if isinstance(amount, str) else Given(name, unit))
        row[name] = [amount]
    table = Table.of("things", "thing", inputs)
    define(table, "result", kind, body)
    return numbers(book(table), {"things": row}, slots).value("things", "result")
