"""Where each quantity stands in a costing workbook, and the season's own figures for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engines.cells import Value
from engines.compare import same
from workbook.places import Figures, Grid, grids

from handout.seasons import gathered
from reportgen.algebra.book import Key, dependencies
from reportgen.algebra.numbers import Numbers
from reportgen.handout.partner import partner_numbers
from reportgen.handout.partner_sheets import partner_sheets
from reportgen.handout.product_sheet import product_sheet
from reportgen.layout.placing import Layout
from reportgen.sheets.all import contents
from reportgen.trade import BOOK

OWN = ("checks", "typed", "season")
"""Tables that judge the costing workbook by itself, not the season."""


@dataclass(frozen=True)
class Costing:
    """The numbers of a costing workbook, and their cells."""

    numbers: Numbers
    layout: Layout
    grids: dict[str, Grid]


def costing(name: str, product: str, everything: bool = False) -> Costing:
    """The costing workbook of a season's product."""
    gather = gathered(name)
    own = partner_numbers(gather.numbers, product, everything)
    sheets = partner_sheets(own.book, product_sheet(gather, product, everything))
    rows = {table: own.rows(each) for table, each in own.book.tables.items()}
    layout = Layout(own.book, contents(sheets, own), rows, own.slots)
    return Costing(own, layout, grids(layout, own))


def wrong(
    found: Figures, season: Numbers, product: str, within: float, without: Key | None = None
) -> Iterator[str]:
    """Every figure that is not the season's own; those that rest on ``without`` are left out."""
    for table, rows in found.items():
        if table in OWN:
            continue
        cells = season.cells[table]
        if "product" in cells:
            keys = [
                key for key, of in zip(cells["key"], cells["product"], strict=True) if of == product
            ]
            missing = {str(each) for each in keys} ^ set(rows)
            if missing:
                yield f"{table}: {sorted(missing)} only in one of them"
                continue
        for key, row in rows.items():
            at = [str(each) for each in cells["key"]].index(key) if len(cells["key"]) > 1 else 0
            for name, value in row.items():
                if without is not None and rests_on((table, name), without):
                    continue
                expected = cells[name][at]
                expected = int(expected) if isinstance(expected, bool) else expected
                if not same(value, expected, within, within):
                    yield f"{table}.{name} {key}: season {expected!r}, here {value!r}"


def rests_on(key: Key, other: Key) -> bool:
    """Whether a quantity of the season depends on another."""
    seen: set[Key] = set()
    waiting = [key]
    while waiting:
        here = waiting.pop()
        if here == other:
            return True
        if here not in seen:
            seen.add(here)
            definition = BOOK.tables[here[0]].definitions.get(here[1])
            if definition is not None and definition.tree is not None:
                waiting += dependencies(definition.tree)
    return False


def differing_inputs(before: Numbers, after: Numbers) -> dict[tuple[str, str, str], Value]:
    """What must be typed to get from one costing workbook to another: table, key, input. A row
    that stands only in the other one goes by its key."""
    found: dict[tuple[str, str, str], Value] = {}
    for name, table in before.book.tables.items():
        if name in OWN:
            continue
        old, new = before.cells[name], after.cells[name]
        places = {str(key): row for row, key in enumerate(old.get("key", [name]))}
        for row, key in enumerate(new.get("key", [name])):
            for column in table.inputs:
                there = places.get(str(key))
                was = None if there is None else old[column][there]
                if was != new[column][row]:
                    found[name, str(key), column] = new[column][row]
    return found
