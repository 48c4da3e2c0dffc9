"""The names of inputs in a workbook: each input of ``season.yaml`` by its path in the file."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.model.records import RECORDS
from reportgen.trade.tables import (
    absorbers,
    another,
    asking,
    carried_over,
    changes,
    channels,
    closed,
    containers,
    dryers,
    maker,
    offers,
    overheads,
    parts,
    periods,
    place,
    plan,
    pricing,
    rates,
    scale,
    season,
    upkeep,
)

_SINGLE = (rates, pricing, scale, place, maker, another)
_LISTS = (channels, dryers, containers, absorbers, offers, changes, overheads, carried_over, plan,
          closed, asking)  # fmt: skip
_WRITTEN = {changes.name: "scenarios", asking.name: "asked"}
"""Tables whose records go by another name in the file."""


class At(NamedTuple):
    """An input: its table, its column, its row from 0."""

    table: str
    column: str
    row: int


def input_names(numbers: Numbers) -> dict[str, At]:
    """Name → input, for every scalar input of the season file; in the book of one product, for
    every input of it and of what there is one of."""
    if maker.name not in numbers.book.tables:
        return {
            f"{table.name}_{name}": At(table.name, name, 0)
            for table in numbers.book.tables.values()
            if table.single or table.name == "products"
            for name, found in table.inputs.items()
            if not found.fixed
        }
    return {"_".join(re.sub(r"\W", "_", part) for part in path): at for path, at in _paths(numbers)}


def _paths(numbers: Numbers) -> Iterator[tuple[tuple[str, ...], At]]:
    for table in _SINGLE:
        yield from _row(table, 0, (table.name,), numbers)
    yield from _row(season, 0, (), numbers)
    for table in _LISTS:
        written = _WRITTEN.get(table.name, table.name)
        by_id = RECORDS[written].key == "id"
        for row, key in enumerate(numbers.cells[table.name]["key"]):
            yield from _row(table, row, (written, str(key if by_id else row + 1)), numbers)
    for row in range(numbers.rows(periods)):
        yield from _row(periods, row, ("rates", "electricity", str(row + 1)), numbers)
    items: Counter[str] = Counter()
    for row, dryer in enumerate(map(str, numbers.cells["upkeep"]["dryer"])):
        items[dryer] += 1
        yield from _row(upkeep, row, ("dryers", dryer, "upkeep", str(items[dryer])), numbers)
    for row, of in enumerate(map(str, numbers.cells["parts"]["container"])):
        path = ("containers", of, "parts", str(numbers.cells["parts"]["item"][row]))
        # A bare price may stand for a part, and its name is a key.
        yield path, At("parts", "cost", row)
        yield from _row(parts, row, path, numbers)


def _row(
    table: Table, row: int, path: tuple[str, ...], numbers: Numbers
) -> Iterator[tuple[tuple[str, ...], At]]:
    """The keys of a record, each with its input; of several, the one that was written."""
    for field in RECORDS[_WRITTEN.get(table.name, table.name)].fields:
        names = [each.name for each in field.inputs]
        column = numbers.cells[table.name]
        known = [name for name in names if column[name][row] is not None]
        for name in (known or names)[:1]:
            yield (*path, field.name), At(table.name, name, row)
