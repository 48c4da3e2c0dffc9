"""The net weight as a label declares it: in both systems, rounded down, never overstated.

Rules: 21 CFR 101.7 (until 2016 101.105) for food, and the Uniform Packaging and Labeling Regulation
(NIST Handbook 130): avoirdupois and metric; from 1 lb to less than 4 lb in ounces, then in pounds
and ounces; not more than two decimals; metric in three digits. All from memory, not seen, but for
this: a rounded declaration must never overstate, and the packer may round down (NIST fact sheet).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from reportgen.units import Unit, factor

CUSTOMARY = ("oz", "lb")
POUND = 16
"""Ounces."""
DUAL_FROM, DUAL_TO = POUND, 4 * POUND
"""Ounces from which, and up to which, ounces are declared before pounds and ounces."""
_NOISE = Fraction(1, 10**12)
"""The share by which a stored number may miss what was written: 11.9999999999999 is 12."""


@dataclass(frozen=True)
class Declared:
    """The numbers of a declaration. ``ounces`` is all of it; ``pounds`` and ``rest`` are the same
    weight; ``metric`` is in grams, from 1000 g on in kilograms (``in_kg``)."""

    ounces: Decimal
    pounds: int
    rest: Decimal
    metric: Decimal
    in_kg: bool

    @property
    def nothing(self) -> bool:
        """Too little to be declared: it would read 0 in one of the systems."""
        return not self.ounces or not self.metric

    @property
    def dual(self) -> bool:
        """Ounces, and pounds and ounces after them."""
        return DUAL_FROM <= self.ounces < DUAL_TO


def declare(net: float, unit: str) -> Declared:
    """The declaration of a weight in ``oz``, ``lb``, ``g`` or ``kg``; each number is cut off."""
    ounces = cut(_exactly(net, unit, "oz"), 2)
    pounds = int(ounces // POUND)
    grams = _exactly(net, unit, "g")
    in_kg = cut(grams, 2) >= 1000
    metric = grams / 1000 if in_kg else grams
    shown = cut(metric, _places(cut(metric, 2)))
    return Declared(ounces, pounds, ounces - pounds * POUND, shown, in_kg)


def cut(value: Fraction, places: int) -> Decimal:
    """A number with what lies beyond its last place cut off.

    What misses a place's step by less than a stored number can is that step, as it was written.
    """
    step = Fraction(1, 10**places)
    steps = value / step
    nearest = round(steps)
    if abs(steps - nearest) > abs(steps) * _NOISE:
        nearest = steps.numerator // steps.denominator
    return Decimal(nearest).scaleb(-places)


def about(value: float, unit: str, target: str) -> Decimal:
    """A weight in another unit with two digits, to the nearest, for what need not be exact."""
    exact = _exactly(value, unit, target)
    size = Decimal(exact.numerator) / Decimal(exact.denominator)
    return size.quantize(Decimal(1).scaleb(size.adjusted() - 1)) if size else size


def _exactly(value: float, unit: str, target: str) -> Fraction:
    return Fraction(value) * factor(Unit.of(unit), Unit.of(target))


def _places(value: Decimal) -> int:
    """Decimals of three digits, at most two."""
    return 2 if value < 10 else 1 if value < 100 else 0
