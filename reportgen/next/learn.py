"""Product data of one's own, from what was weighed and timed in lots and runs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from statistics import fmean

from reportgen.algebra.numbers import Numbers
from reportgen.edits.written import Writer
from reportgen.model.fields import Field, Quantity, Share
from reportgen.model.kinds import Sourced
from reportgen.model.product_data import nominal_weights, recipes
from reportgen.model.readers import parser
from reportgen.model.season import Season
from reportgen.next.closing import Row, rows
from reportgen.pen.scalars import Written, flow, scalar
from reportgen.read.grammar import Measure
from reportgen.units import Unit, factor

FEW = 3
"""Figures; from fewer, the recipe says so."""

_OF = {each.name: each.of for each in recipes.fields if isinstance(each, Sourced)}
_WEIGHT = next(each.of for each in nominal_weights.fields if isinstance(each, Sourced))
_LOTS = {"prep_yield": "yield_weighed", "water": "water_found"}
_LOADS = {"run_time": "run_hours", "tray_loading": "run_loading"}
"""Keys of a recipe, and the quantity of a lot or of a load that tells of it."""
_HEAD = """\
# yaml-language-server: $schema=../schema/recipe.json
# Learned from {}: it takes the place of what the program brings, key by
# key. Each value is the mean of what the note names, low and high the lowest and highest of them.
"""


@dataclass
class Learned:
    """What was found of one key: a figure of each lot or run, and the lots that they rest on."""

    values: list[float] = field(default_factory=list)
    lots: dict[str, dict[str, None]] = field(default_factory=dict)
    """The lots of each season, each once, in their order."""

    @property
    def mean(self) -> float:
        """The mean, never outside the figures themselves."""
        return min(max(fmean(self.values), min(self.values)), max(self.values))


Found = dict[str, dict[str, Learned]]
"""By product and key; the weight of a container has the key ``containers/NAME``."""


def learned(seasons: Sequence[tuple[Season, Numbers]]) -> Found:
    """What the seasons tell of each product, in the units of the first."""
    found: Found = defaultdict(lambda: defaultdict(Learned))
    first = seasons[0][0]
    for season, numbers in seasons:
        to_first = _factor(_WEIGHT, season, first)
        for row in rows(numbers, "lots"):
            for key, name in _LOTS.items():
                _add(found, row, key, row[name], season, row["key"])
            if row["container_held"] is not None:
                held = float(Fraction(row["container_held"]) * to_first)
                _add(found, row, f"containers/{row['container']}", held, season, row["key"])
        for row in rows(numbers, "loads"):
            if row["finished"] and row["run_first"]:
                for key, name in _LOADS.items():
                    _add(found, row, key, row[name], season, row["lot"])
    return found


def _add(found: Found, row: Row, key: str, value: object, season: Season, lot: object) -> None:
    if isinstance(value, float | int):
        here = found[str(row["product"])][key]
        here.values.append(float(value))
        here.lots.setdefault(" ".join(season.name.split()), {})[str(lot)] = None


def _factor(of: Field, season: Season, first: Season) -> Fraction:
    assert isinstance(of, Quantity)
    here, there = (_bound(of.unit, each) for each in (season, first))
    return factor(here, there)


def _bound(unit: Unit, season: Season) -> Unit:
    return unit.bound({key: name for key, name in season.slots.items() if key != "money"})


def files(seasons: Sequence[tuple[Season, Numbers]]) -> dict[str, str]:
    """A recipe for each product of which something was found, by the name of its file."""
    names = ", ".join(dict.fromkeys(" ".join(season.name.split()) for season, _ in seasons))
    slots = seasons[0][0].slots
    return {
        f"{product}.yaml": _HEAD.format(names) + "\n".join(_recipe(keys, slots)) + "\n"
        for product, keys in sorted(learned(seasons).items())
    }


def _recipe(keys: dict[str, Learned], slots: dict[str, str]) -> Iterator[str]:
    for key, of in _OF.items():
        if key in keys:
            yield f"{key}:"
            yield from (f"  {k}: {flow(v)}" for k, v in _value(of, keys[key], slots).items())
    containers = [key for key in keys if key.startswith("containers/")]
    if containers:
        yield "containers:"
    for key in containers:
        name = key.partition("/")[2]
        yield f"  {scalar(name)}: {flow(_value(_WEIGHT, keys[key], slots))}"


def _value(of: Field, found: Learned, slots: dict[str, str]) -> dict[str, Written]:
    """One figure has no spread: how far it may be off is then not known."""
    numbers = {"value": found.mean}
    if len(found.values) > 1:
        numbers |= {"low": min(found.values), "high": max(found.values)}
    said = {name: _said(of, value, slots) for name, value in numbers.items()}
    return {**said, "source": "own", "note": _note(found)}


def _said(of: Field, value: float, slots: dict[str, str]) -> str:
    if isinstance(of, Share):
        return Writer(slots).amount(value, "", parser(of, slots), "%", 100)
    assert isinstance(of, Quantity)
    measure = Measure(of.unit, slots, of.per)
    return Writer(slots).amount(value, "", measure.read, measure.shown)


def _note(found: Learned) -> str:
    many = len(found.values)
    lots = "; ".join(f"{', '.join(lots)} of {season}" for season, lots in found.lots.items())
    if many == 1:
        return f"one figure only, its spread is not known: {lots}"
    few = f"mean of {many} only" if many < FEW else f"mean of {many}"
    return f"{few}: {lots}"
