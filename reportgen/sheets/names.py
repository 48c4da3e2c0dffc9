"""Defined names: an anchor for each input of ``season.yaml``, equal to its path in the file."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.model.records import RECORDS
from reportgen.sheets.layout import Layout
from reportgen.sheets.spots import Spot, letters, quoted
from reportgen.trade.tables import (
    absorbers,
    carried_over,
    changes,
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

_SINGLE = (rates, pricing, scale, place, maker)
_LISTS = (dryers, containers, absorbers, offers, changes, overheads, carried_over, plan)
_WRITTEN = {changes.name: "scenarios"}
"""Tables whose records go by another name in the file."""


def defined_names(layout: Layout, numbers: Numbers) -> dict[str, str]:
    """Name → cell, for every scalar input of the season file that has a place."""
    if maker.name not in layout.book.tables:  # not the book of a season
        return {}
    return {
        "_".join(re.sub(r"\W", "_", part) for part in path): cell
        for path, cell in _paths(layout, numbers)
    }


def _paths(layout: Layout, numbers: Numbers) -> Iterator[tuple[tuple[str, ...], str]]:
    for table in _SINGLE:
        for field, name in _fields(table, numbers, 0):
            yield (table.name, field), _cell(layout.singles[table.name, name], 0)
    for field, name in _fields(season, numbers, 0):
        yield (field,), _cell(layout.singles[season.name, name], 0)
    for table in _LISTS:
        written = _WRITTEN.get(table.name, table.name)
        for row, key in enumerate(numbers.cells[table.name]["key"]):
            yield from _row(table, row, (written, str(key)), layout, numbers)
    for row in range(numbers.rows(periods)):
        yield from _row(periods, row, ("rates", "electricity", str(row + 1)), layout, numbers)
    items: Counter[str] = Counter()
    for row, dryer in enumerate(map(str, numbers.cells["upkeep"]["dryer"])):
        items[dryer] += 1
        path = ("dryers", dryer, "upkeep", str(items[dryer]))
        yield from _row(upkeep, row, path, layout, numbers)
    for row, of in enumerate(map(str, numbers.cells["parts"]["container"])):
        path = ("containers", of, "parts", str(numbers.cells["parts"]["item"][row]))
        # A bare price may stand for a part, and its name is a key.
        yield path, _cell(layout.homes["parts", "cost"], row)
        yield from _row(parts, row, path, layout, numbers)


def _row(
    table: Table, row: int, path: tuple[str, ...], layout: Layout, numbers: Numbers
) -> Iterator[tuple[tuple[str, ...], str]]:
    for field, name in _fields(table, numbers, row):
        yield (*path, field), _cell(layout.homes[table.name, name], row)


def _fields(table: Table, numbers: Numbers, row: int) -> Iterator[tuple[str, str]]:
    """The keys of a record, each with its input; of several, the one that was written."""
    for field in RECORDS[_WRITTEN.get(table.name, table.name)].fields:
        names = [each.name for each in field.inputs]
        column = numbers.cells[table.name]
        known = [name for name in names if column[name][row] is not None]
        for name in (known or names)[:1]:
            yield field.name, name


def _cell(spot: Spot, row: int) -> str:
    return f"{quoted(spot.sheet)}!${letters(spot.column)}${spot.first + row}"
