"""Ice: against the release's check value, the reference library and another published equation."""

from __future__ import annotations

import math

import iapws._iapws
import pytest

from reportgen.trade.constants import SUBLIMATION_FLOOR
from reportgen.trade.ice import (
    SHELF,
    TRIPLE_K,
    TRIPLE_PA,
    heat_of_sublimation,
    least_energy,
    pressure,
)


def test_the_release_itself() -> None:
    # IAPWS R14-08(2011), table 3: 8.94735 Pa at 230 K; seen as the check in the library's tests.
    assert pressure(230) == pytest.approx(8.94735, rel=1e-6)
    assert pressure(TRIPLE_K) == TRIPLE_PA


@pytest.mark.parametrize("kelvin", [60, 150, 200, 228.15, 243.15, 263.15, 273.16])
def test_pressure_is_that_of_the_reference_library(kelvin: float) -> None:
    assert pressure(kelvin) == pytest.approx(
        1e6 * iapws._iapws._Sublimation_Pressure(kelvin), rel=1e-9
    )


@pytest.mark.parametrize("celsius", SHELF)
def test_heat_of_sublimation(celsius: int) -> None:
    kelvin, step = celsius + 273.15, 0.01
    # The slope by differences of the library's curve: 461.526 J/(kg K) is R of IAPWS-95.
    slope = math.log(
        iapws._iapws._Sublimation_Pressure(kelvin + step)
        / iapws._iapws._Sublimation_Pressure(kelvin - step)
    ) / (2 * step)
    heat = heat_of_sublimation(kelvin)
    assert heat == pytest.approx(461.526 * kelvin**2 * slope, rel=1e-6)
    # Murphy and Koop, QJRMS 131 (2005) 1539, eq. 5, J/mol; coefficients from memory, not seen.
    molar = (
        46782.5 + 35.8925 * kelvin - 0.07414 * kelvin**2
        + 541.5 * math.exp(-((kelvin / 123.75) ** 2))
    )  # fmt: skip
    assert heat == pytest.approx(molar / 0.018015268, rel=1e-3)


def test_the_floor_is_the_least_of_the_shelf() -> None:
    # 2,838 kJ/kg = 0.788 kWh/kg over -45 to -10 °C, within 0.1 %.
    assert SUBLIMATION_FLOOR.value == least_energy() == pytest.approx(0.788, rel=1e-3)
    assert all(heat_of_sublimation(each + 273.15) / 3.6e6 >= least_energy() for each in SHELF)
