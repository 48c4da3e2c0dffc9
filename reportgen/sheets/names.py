"""Defined names: an anchor for each input of ``season.yaml``, equal to its path in the file."""

from __future__ import annotations

import re

from reportgen.algebra.numbers import Numbers
from reportgen.sheets.layout import Layout, Spot, letters, quoted
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
    place,
    plan,
    pricing,
    rates,
    scale,
    upkeep,
)

_SINGLE = (rates, pricing, scale, place, maker)
_LISTS = (dryers, containers, absorbers, offers, changes, overheads, carried_over, plan)
_OWNED = ((upkeep, "dryers", "dryer"), (parts, "containers", "container"))


def defined_names(layout: Layout, numbers: Numbers) -> dict[str, str]:
    """Name → cell, for every scalar input of the season file that has a place."""
    found: dict[str, str] = {}
    if maker.name not in layout.book.tables:  # not the book of a season
        return found
    for table in _SINGLE:
        for name in table.inputs:
            found[_name(table.name, name)] = _cell(layout.singles[table.name, name], 0)
    for table in _LISTS:
        for row, key in enumerate(numbers.cells[table.name]["key"]):
            for name in table.inputs:
                spot = layout.homes[table.name, name]
                found[_name(table.name, str(key), name)] = _cell(spot, row)
    for table, owners, owner in _OWNED:
        counts: dict[str, int] = {}
        for row, of in enumerate(numbers.cells[table.name][owner]):
            counts[str(of)] = counts.get(str(of), 0) + 1
            item = str(numbers.cells[table.name]["item"][row])
            for name in table.inputs:
                if name == owner:
                    continue
                spot = layout.homes[table.name, name]
                if table is parts:
                    last = () if name == "cost" else (name,)
                    if name == "item":
                        continue
                    path = (owners, str(of), "parts", item, *last)
                else:
                    path = (owners, str(of), "upkeep", str(counts[str(of)]), name)
                found[_name(*path)] = _cell(spot, row)
    return found


def _name(*path: str) -> str:
    if path[0] == changes.name:
        path = ("scenarios", *path[1:])
    return "_".join(re.sub(r"\W", "_", part) for part in path)


def _cell(spot: Spot, row: int) -> str:
    return f"{quoted(spot.sheet)}!${letters(spot.column)}${spot.first + row}"
