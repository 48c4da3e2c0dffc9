"""Ice: against the release's check value, the reference library and another published equation."""

from __future__ import annotations

import math

import iapws
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
        46782.5
        + 35.8925 * kelvin
        - 0.07414 * kelvin**2
        + 541.5 * math.exp(-((kelvin / 123.75) ** 2))
    )
    assert heat == pytest.approx(molar / 0.018015268, rel=1e-3)


def test_the_floor_is_the_least_of_the_shelf() -> None:
    # 2,838 kJ/kg = 0.788 kWh/kg over -45 to -10 °C, within 0.1 %.
    assert SUBLIMATION_FLOOR.value == least_energy() == pytest.approx(0.788, rel=1e-3)
    assert all(heat_of_sublimation(each + 273.15) / 3.6e6 >= least_energy() for each in SHELF)


def test_the_state_of_ice_in_the_reference_library() -> None:
    # IAPWS R10-06(2009), Equation of State 2006 for H2O Ice Ih, table 6, at the triple point:
    # enthalpy -333.44425 kJ/kg, density 916.70949 kg/m3; from memory, not seen.
    ice = iapws._iapws._Ice(TRIPLE_K, TRIPLE_PA / 1e6)
    assert (ice["h"], ice["rho"]) == pytest.approx((-333.44425, 916.70949), rel=1e-7)


# Below the triple point the library says that it extrapolates; below -40 °C it finds no density.
@pytest.mark.filterwarnings("ignore:Using extrapolated values", "ignore:Metastable ice")
@pytest.mark.parametrize("celsius", [-40, -35, -30, -25, -20, -15, -10, 0.01])
def test_heat_of_sublimation_is_what_divides_vapour_from_ice(celsius: float) -> None:
    # Enthalpy of the vapour by IAPWS-95 less that of ice by IAPWS-06, both by the library: another
    # way than the slope of the pressure, with no equation in common but the pressure itself.
    kelvin = celsius + 273.15
    megapascal = pressure(kelvin) / 1e6
    vapour = iapws.IAPWS95(T=kelvin, P=megapascal * 0.999).h
    ice = iapws._iapws._Ice(kelvin, megapascal)["h"]
    assert heat_of_sublimation(kelvin) / 1000 == pytest.approx(vapour - ice, rel=1e-3)
