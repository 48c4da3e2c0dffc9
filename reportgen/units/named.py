"""The units the package speaks of, and the spellings a season may use for them."""

from __future__ import annotations

from reportgen.units.unit import ONE, Unit

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

SPELLINGS: dict[str, Unit] = {
    spelling: Unit.of(name) for name, words in _SPELLED.items() for spelling in words.split()
}
"""Every spelling that is read, with its unit. Squares and cubes: ``m2``, ``cm2``, ``in3``."""
for _name in ("m", "cm", "mm", "in", "ft"):
    for _power in (2, 3):
        SPELLINGS[f"{_name}{_power}"] = SPELLINGS[_name] ** _power
SPELLINGS["%"] = ONE
