"""The registry, and a unit as a product of named units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import pint

# Exact by definition: the international pound and inch (1959 agreement, NIST SP 811 App. B),
# the US gallon of 231 cubic inches, the hour and the kilowatt-hour.
# ``fresh``, ``dried``, ``distance`` and ``money`` are slots: a season says which unit they show.
_DEFINITIONS = """
gram = [mass] = g
kilogram = 1000 * gram = kg
milligram = gram / 1000 = mg
pound = 45359237 / 100000 * gram = lb
ounce = pound / 16 = oz
fresh = gram
dried = gram
meter = [length] = m
kilometer = 1000 * meter = km
centimeter = meter / 100 = cm
millimeter = meter / 1000 = mm
inch = 254 / 10000 * meter = in
foot = 12 * inch = ft
mile = 5280 * foot
distance = meter
hour = [time] = h
minute = hour / 60 = min
second = minute / 60 = s
day = 24 * hour = d
week = 7 * day
month = 73 / 6 * 5 / 2 * day
year = 365 * day
watt = [power] = W
kilowatt = 1000 * watt = kW
kilowatt_hour = kilowatt * hour = kWh
watt_hour = watt * hour = Wh
joule = watt * second = J
kilojoule = 1000 * joule = kJ
megajoule = 1000000 * joule = MJ
liter = meter ** 3 / 1000 = L
milliliter = liter / 1000 = mL
gallon = 231 * inch ** 3 = gal
quart = gallon / 4 = qt
pint_ = quart / 2 = pt
cup = pint_ / 2
fluid_ounce = cup / 8 = floz
money = [currency]
kelvin = [temperature] = K
pascal = [pressure] = Pa
"""

NAMES = frozenset(
    name.strip()
    for line in _DEFINITIONS.strip().splitlines()
    for name in (line.partition("=")[0], line.rpartition("=")[2])
    if name.strip().isidentifier()
)
"""What a unit may be called: the long and the short name of each."""

_registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
for _line in _DEFINITIONS.strip().splitlines():
    _registry.define(_line)


_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


class UnitError(ValueError):
    """Two units that do not measure the same thing were put together."""


@dataclass(frozen=True)
class Unit:
    """A product of named units with whole exponents, in the order of their names.

    ``Unit.of("kWh", kg=-1)`` is kWh/kg; :data:`ONE` has no factor and stands for a plain number.
    """

    powers: tuple[tuple[str, int], ...] = ()

    @classmethod
    def of(cls, name: str, /, **more: int) -> Unit:
        """The named unit, times further ones by their powers. Names are those of the registry: a
        slip is refused as the program starts, and not when a season first meets it."""
        for each in (name, *more):
            if each not in NAMES:
                raise UnitError(f"no unit is called {each}")
        return cls.from_powers({name: 1, **more})

    @classmethod
    def from_powers(cls, powers: Mapping[str, int]) -> Unit:
        """The product of named units, each to its power; powers of 0 are dropped."""
        return cls(tuple(sorted((name, power) for name, power in powers.items() if power)))

    def __mul__(self, other: Unit) -> Unit:
        powers = dict(self.powers)
        for name, power in other.powers:
            powers[name] = powers.get(name, 0) + power
        return Unit.from_powers(powers)

    def __truediv__(self, other: Unit) -> Unit:
        return self * other**-1

    def __pow__(self, exponent: int) -> Unit:
        return Unit(tuple((name, power * exponent) for name, power in self.powers))

    def bound(self, slots: Mapping[str, str]) -> Unit:
        """The unit with its slots (``fresh``, ``dried``, ...) replaced by a season's units."""
        result = ONE
        for name, power in self.powers:
            result = result * Unit(((slots.get(name, name), power),))
        return result

    @property
    def dimension(self) -> tuple[tuple[str, int], ...]:
        """Base dimensions with their exponents; equal for units that convert into each other."""
        return _dimension(self)

    def text(self, slots: Mapping[str, str] | None = None, raised: bool = False) -> str:
        """As people type it, ``USD/oz``, ``kg/m2``, or with powers ``raised`` as they read it,
        ``kg/m²``; empty for a plain number."""
        names = slots or {}

        def part(name: str, power: int) -> str:
            exponent = "" if power == 1 else str(power)
            return names.get(name, name) + (exponent.translate(_RAISED) if raised else exponent)

        above = "·".join(part(n, p) for n, p in self.powers if p > 0)
        below = "".join("/" + part(n, -p) for n, p in self.powers if p < 0)
        return (above or "1") + below if self.powers else ""


ONE = Unit()


@cache
def _dimension(unit: Unit) -> tuple[tuple[str, int], ...]:
    powers = _registry.UnitsContainer(dict(unit.powers))
    dims = _registry.get_dimensionality(powers)
    return tuple(sorted((str(name), int(str(power))) for name, power in dims.items()))


@cache
def factor(source: Unit, target: Unit) -> Fraction:
    """How many ``target`` make one ``source``, exactly.

    Raises :class:`UnitError` when they do not measure the same thing.
    """
    if source.dimension != target.dimension:
        raise UnitError(f"{source.text() or 'a plain number'} is not {target.text() or 'one'}")
    ratio = _registry.UnitsContainer(dict((source / target).powers))
    value, _ = _registry._get_root_units(ratio)
    assert isinstance(value, Fraction | int)
    return Fraction(value)
