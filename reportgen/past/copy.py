"""From the figures of several seasons to the rows of the comparison, in the units of the first."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.algebra.operations import Value
from reportgen.model.season import Season
from reportgen.past.quantities import BOOK, COPIED
from reportgen.read.problem import Place, Problem
from reportgen.trade.rows import of_book
from reportgen.units import ONE, Unit, factor


class Past(NamedTuple):
    """A season that was read, and its numbers."""

    path: Path
    season: Season
    numbers: Numbers

    @property
    def file(self) -> str:
        """Its file, from the folder that it is in: the same on every machine."""
        if self.path.is_dir():
            return f"{self.path.resolve().name}/season.yaml"
        return f"{self.path.resolve().parent.name}/{self.path.name}"

    @property
    def as_of(self) -> float:
        """The day it was judged on."""
        day = self.numbers.value("season", "as_of")
        assert isinstance(day, int | float)
        return float(day)

    @property
    def last_day(self) -> float:
        """The last day recorded, by which seasons stand in their order."""
        day = self.numbers.value("season", "last_day")
        return float(day) if isinstance(day, int | float) and day > 0 else self.as_of


def in_the_way(past: Sequence[Past]) -> list[Problem]:
    """What forbids comparing: costs in different currencies have no common measure here."""
    first = past[0]
    return [
        Problem(
            Place(each.file),
            f"its currency is {each.season.currency}, that of {first.file} is "
            f"{first.season.currency}",
            "seasons of one currency: what one was worth in the other changes from day to day",
            "compare the seasons of each currency by themselves",
        )
        for each in past
        if each.season.currency != first.season.currency
    ]


def compared(past: Sequence[Past]) -> Numbers:
    """The comparison, oldest season first, worked out."""
    slots = past[0].season.slots
    ordered = sorted(past, key=lambda each: each.last_day)
    ids = [f"season-{n}" for n in range(1, len(ordered) + 1)]
    tables: dict[str, Cells] = {
        "seasons": {
            "key": list(ids),
            "title": [each.season.name for each in ordered],
            "file": [each.file for each in ordered],
            "as_of": [each.as_of for each in ordered],
            "wrong": [each.numbers.value("season", "errors") for each in ordered],
            "doubted": [_doubted(each.numbers) for each in ordered],
        },
        "years": _years(ordered, ids, slots),
        "season": {"key": ["season"]},
        **of_book(BOOK),
    }
    return Numbers(BOOK, tables, slots)


def _doubted(numbers: Numbers) -> float:
    """How many places a season's cautions name."""
    failing, errors = (numbers.value("season", name) for name in ("failing", "errors"))
    assert isinstance(failing, float | int) and isinstance(errors, float | int)
    return failing - errors


def _years(past: Sequence[Past], ids: Sequence[str], slots: dict[str, str]) -> Cells:
    names = ("key", "product", "name", "season", "before", *(each.name for each in COPIED))
    cells: Cells = {name: [] for name in names}
    products = dict.fromkeys(
        str(key) for each in past for key in each.numbers.cells["products"]["key"]
    )
    for product in products:
        before = None
        for each, season in zip(past, ids, strict=True):
            values = _figures(each, product, slots)
            if values is None:
                continue
            key = f"{product}/{season}"
            row = (key, product, values[0], season, before, *values[1:])
            for name, value in zip(names, row, strict=True):
                cells[name].append(value)
            before = key
    return cells


def _figures(past: Past, product: str, slots: dict[str, str]) -> list[Value] | None:
    """A product's name and figures; None where the season has none of it, nor a shop's price."""
    keys = past.numbers.cells["products"]["key"]
    if product not in keys:
        return None
    row = keys.index(product)
    found: list[Value] = [
        _converted(past.numbers.value("products", each.name, row), each.unit, past, slots)
        for each in COPIED
    ]
    if not any(found):
        return None
    return [past.numbers.value("products", "name", row), *found]


def _converted(value: Value, unit: Unit, past: Past, slots: dict[str, str]) -> Value:
    """A number in the units of the first season; exact until the last step."""
    if not isinstance(value, int | float):
        return value
    by = factor(unit.bound(past.season.slots) / unit.bound(slots), ONE)
    return value if by == 1 else float(Fraction(value) * by)
