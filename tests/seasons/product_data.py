"""Makes up product data of a season's own: values with low and high, in whatever order."""

from __future__ import annotations

from random import Random
from typing import Any

from seasons.batches import BOUGHT_IN
from seasons.form import Season
from seasons.pen import Pen


def with_product_data(rng: Random, season: Season) -> Season:
    """The season with recipes of its own for some of its products."""
    result, pen = season.copied(), Pen(rng)
    named = {row.record["product"] for table in ("lots", "packs", "offers", "plan", "carried_over")
             for row in season.table(table)}  # fmt: skip
    for product in sorted(named):
        if pen.maybe(0.6):
            result.files[f"recipes/{product}.yaml"] = _recipe(pen, product)
    return result


def _recipe(pen: Pen, product: str) -> dict[str, Any]:
    held: dict[str, Any] = {}
    if pen.maybe(0.7):
        held["prep_yield"] = _value(pen, (75, 85, 97), "%")
    if pen.maybe(0.5):
        held["water"] = _value(pen, (78, 84, 89), "%")
    if pen.maybe(0.4):
        held["run_time"] = _value(pen, (20, 26, 38), "h")
    if pen.maybe(0.4):
        held["tray_loading"] = _value(pen, (4, 6, 9), "kg/m2")
    if pen.maybe(0.4):
        held["target_moisture"] = _value(pen, (1, 3, 4), "%")
    if pen.maybe(0.6) and product in BOUGHT_IN:
        held["containers"] = {
            name: _value(
                pen, tuple(round(grams / 1e3 * times, 3) for times in (0.8, 1, 1.25)), "kg"
            )
            for name, grams in BOUGHT_IN[product].items()
        }
    if not held:
        held["name"] = "Named anew"
    keys = list(held)
    pen.rng.shuffle(keys)
    return {key: held[key] for key in keys}


def _value(pen: Pen, three: tuple[float, ...], unit: str) -> Any:
    """A bare value, or one with its source and perhaps its low and high, in any order."""
    low, value, high = (f"{each:g} {unit}" for each in three)
    if pen.maybe(0.3):
        return value
    held = {"value": value, "source": "practice"}
    if pen.maybe(0.7):
        held |= {"low": low, "high": high}
    keys = list(held)
    pen.rng.shuffle(keys)
    return {key: held[key] for key in keys}
