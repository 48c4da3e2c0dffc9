"""How high the letters of a label must be at least.

The net weight goes by the area of the principal display panel: 21 CFR 101.7(i) (the same figures as
16 CFR 500.21 for other goods); everything else is at least 1/16 inch: 21 CFR 101.2(c). With lower
case letters it is the letter o that is measured: 101.7(h)(2).
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

INCH = Fraction(254, 10)
"""Millimetres."""
POINT = INCH / 72
"""Millimetres."""
O_HEIGHT = Fraction(51, 100)
"""The height of a letter o by the type size: 0.52 to 0.55 in the usual upright faces without
serifs, here taken a little lower. A test holds it against the faces it finds."""

STEPS = (
    (5, Fraction(1, 16)), (25, Fraction(1, 8)), (100, Fraction(3, 16)), (400, Fraction(1, 4)),
)  # fmt: skip
"""Up to this area in square inches, letters at least so many inches high."""
ABOVE = Fraction(1, 2)
"""Beyond the last step."""
LEAST = Fraction(1, 16)
"""Inches, of everything that must stand on a label."""


def net_weight(area: Fraction) -> Fraction:
    """Least height in inches of the net weight's letters on a panel of ``area`` square inches."""
    return next((height for most, height in STEPS if area <= most), ABOVE)


def points(height: Fraction) -> float:
    """The type size in points, up to the next half, whose letter o is so many inches high."""
    return ceil(height * 72 / O_HEIGHT * 2) / 2


SMALLEST = points(LEAST)
"""Points: 9."""
SMALLEST_AT_HOME = 7.0
"""Points, where no law asks for a size; common practice, no source."""
