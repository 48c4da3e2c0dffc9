"""Another number in the place of one that is written, with the same unit."""

from __future__ import annotations

import re
from random import Random
from typing import Any

from seasons.leaves import Leaf
from seasons.pen import GRAMS, number

_FIRST = re.compile(r"(\d+(?:\.\d+)?)(.*)", re.DOTALL)
_POUNDS = re.compile(r"(\d+) lb ([\d.]+) oz")
_HOURS = re.compile(r"(\d+) h (\d+) min")
_CLOCK = re.compile(r"(\d+):(\d+)")

_ANY = {
    "money", "by_energy", "by_time", "by_road", "by_day", "by_dried", "price", "road", "power",
    "area", "volume", "days", "net", "fresh", "little", "step", "height", "pace", "change",
    "factor", "at_most",
}  # fmt: skip


def other(rng: Random, leaf: Leaf) -> Any:
    """A changed value, within what the record allows; None where there is no number to change."""
    value, again = leaf.value, "again" in leaf.row.record
    if leaf.kind in _ANY:
        return scaled(value, _factor(rng, 0.5, 1.8))
    if leaf.kind == "time":
        return scaled(_in_hours(value), _factor(rng, 0.6, 1.5))
    if leaf.kind == "wet":
        # It must not fall below what came out.
        low = 1.0 if again else 0.9
        if isinstance(value, list):
            return [scaled(value[0], _factor(rng, low, 1.3)), *value[1:]]
        return scaled(value, _factor(rng, low, 1.3))
    if leaf.kind == "dry":
        return scaled(value, _factor(rng, 0.8, 1.0 if again else 1.1))
    if leaf.kind == "share":
        most = {"margin": 60.0, "fees": 30.0, "tax": 20.0}.get(leaf.name, 97.0)
        return _share(rng, value, most)
    if leaf.kind in ("count", "runs", "part_count"):
        return _whole(rng, leaf)
    if leaf.kind == "energy":
        return _energy(rng, value)
    if leaf.kind == "dryness" and "weights" in value:
        before, last = value["weights"]
        return value | {"weights": [scaled(before, _factor(rng, 1.0, 1.1)), last]}
    return None


def _factor(rng: Random, low: float, high: float) -> float:
    return low + (high - low) * rng.random()


def scaled(text: str, factor: float) -> str:
    """The first number of the text times a factor; weights in two units become one."""
    if two := _POUNDS.fullmatch(text):
        text = f"{float(two[1]) + float(two[2]) / 16:.2f} lb"
    found = _FIRST.fullmatch(text)
    assert found is not None, text
    digits = max(3, len(found[1].partition(".")[2]))
    return number(float(found[1]) * factor, digits) + found[2]


def grams(value: Any) -> float:
    """What a weight comes to, a list of them in all."""
    if isinstance(value, list):
        return sum(map(grams, value))
    if two := _POUNDS.fullmatch(value):
        return float(two[1]) * GRAMS["lb"] + float(two[2]) * GRAMS["oz"]
    amount, unit = value.split()
    return float(amount) * GRAMS[unit]


def _in_hours(text: str) -> str:
    if two := _HOURS.fullmatch(text) or _CLOCK.fullmatch(text):
        return f"{int(two[1]) + int(two[2]) / 60:.2f} h"
    return text


def _share(rng: Random, text: str, most: float) -> str:
    now = float(text.split()[0])
    return f"{number(min(most, (now + 1) * _factor(rng, 0.5, 1.5)), 1)} %"


def _whole(rng: Random, leaf: Leaf) -> str | None:
    found = _FIRST.fullmatch(leaf.value)
    assert found is not None
    now = int(found[1])
    if leaf.kind == "part_count":
        return f"{now - 1}" if now > 1 else None
    low = now if "weighed_count" in leaf.row.record else 1
    return f"{rng.randint(low, now + 5)}{found[2]}"


def _energy(rng: Random, value: Any) -> Any:
    if not isinstance(value, dict):
        return scaled(value, _factor(rng, 0.5, 1.8))
    if rng.random() < 0.5:
        return value | {"to": scaled(value["to"], _factor(rng, 1.0, 1.01))}
    return value | {"from": scaled(value["from"], _factor(rng, 0.9, 1.0))}
