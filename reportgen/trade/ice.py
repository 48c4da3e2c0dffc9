"""Ice: its vapour pressure and the heat that it takes to sublime, from published equations.

Symbols: p pressure of the vapour over ice (Pa), T temperature (K), R specific gas constant of
water (J/(kg K)), L heat of sublimation (J/kg).

1. IAPWS R14-08(2011), Revised Release on the Pressure along the Melting and Sublimation Curves of
   Ordinary Water Substance, equation for ice Ih, 50 to 273.16 K. Check value: 8.94735 Pa at 230 K.
2. Clausius and Clapeyron: L = R T² d(ln p)/dT. The vapour over ice is so thin that it is taken as
   ideal, which is right to 0.1 % (Murphy and Koop, Quarterly Journal of the Royal Meteorological
   Society 131, 2005, eq. 5, is as close).
"""

from __future__ import annotations

import math

TRIPLE_K, TRIPLE_PA = 273.16, 611.657
"""The triple point of water."""
_GAS = 461.526
"""R, as IAPWS-95 has it."""
_TERMS = (
    (-0.212144006e2, 0.333333333e-2),
    (0.273203819e2, 0.120666667e1),
    (-0.610598130e1, 0.170333333e1),
)
"""a and b of equation 1."""

SHELF = range(-45, -9)
"""°C that ice has while it dries in a household dryer (common practice, no published source)."""


def pressure(kelvin: float) -> float:
    """Pressure of the vapour over ice, Pa; 50 to 273.16 K. See 1.

    >>> round(pressure(230), 5)
    8.94735
    """
    theta = kelvin / TRIPLE_K
    return TRIPLE_PA * math.exp(math.fsum(a * theta**b for a, b in _TERMS) / theta)


def heat_of_sublimation(kelvin: float) -> float:
    """Heat that ice takes to turn to vapour, J/kg; 50 to 273.16 K. See 2.

    The derivative of equation 1 is taken in closed form.

    >>> round(heat_of_sublimation(243.15) / 1000)
    2839
    """
    theta = kelvin / TRIPLE_K
    slope = math.fsum(a * (b - 1) * theta ** (b - 2) for a, b in _TERMS) / TRIPLE_K
    return float(_GAS * kelvin**2 * slope)


def least_energy() -> float:
    """Least energy that drying ice takes, kWh/kg: the least heat over the shelf's temperatures."""
    return min(heat_of_sublimation(celsius + 273.15) for celsius in SHELF) / 3.6e6
