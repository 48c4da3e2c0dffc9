"""The units the package speaks of, and the spellings a season may use for them."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.units.unit import ONE, Unit, UnitError

FRESH = Unit.of("fresh")
"""Weights before drying, in the unit the season names."""
DRIED = Unit.of("dried")
"""Weights after drying, in the unit the season names."""
DISTANCE = Unit.of("distance")
MONEY = Unit.of("money")
KG = Unit.of("kg")
HOUR = Unit.of("h")
DAY = Unit.of("d")
ENERGY = Unit.of("kWh")
POWER = Unit.of("W")
AREA = Unit.of("m") ** 2
VOLUME = Unit.of("mL")
LENGTH = Unit.of("m")
DENSITY = Unit.of("kg", m=-3)

_SPELLED = {
    "g": "g gram grams",
    "kg": "kg kilo kilos kilogram kilograms",
    "mg": "mg",
    "lb": "lb lbs pound pounds",
    "oz": "oz ounce ounces",
    "m": "m meter metre meters metres",
    "km": "km kilometer kilometre kilometers kilometres",
    "cm": "cm",
    "mm": "mm",
    "in": "in inch inches",
    "ft": "ft foot feet",
    "mile": "mile miles mi",
    "h": "h hr hrs hour hours",
    "min": "min mins minute minutes",
    "s": "s sec second seconds",
    "d": "d day days",
    "week": "week weeks",
    "month": "month months",
    "year": "year years",
    "W": "W watt watts",
    "kW": "kW",
    "kWh": "kWh",
    "Wh": "Wh",
    "kJ": "kJ",
    "MJ": "MJ",
    "L": "L l liter litre liters litres",
    "mL": "mL ml",
    "gal": "gal gallon gallons",
    "qt": "qt quart quarts",
    "pt": "pt pint pints",
    "cup": "cup cups",
    "floz": "fl-oz floz",
}


def spellings(spelled: Mapping[str, str]) -> dict[str, Unit]:
    """Each spelling with its unit, squares and cubes of lengths too: ``m2``, ``cm2``, ``in3``.

    A unit that is not defined, or a spelling of two units, is refused as the program starts.
    """
    found: dict[str, Unit] = {"%": ONE}
    for name, words in spelled.items():
        unit = Unit.of(name)
        for word in words.split():
            if word in found:
                raise UnitError(
                    f"{word} is said to be {found[word].text() or 'a share'} and {name}"
                )
            found[word] = unit
    for name in ("m", "cm", "mm", "in", "ft"):
        for power in (2, 3):
            found[f"{name}{power}"] = found[name] ** power
    return found


SPELLINGS = spellings(_SPELLED)
"""Every spelling that is read, with its unit."""
