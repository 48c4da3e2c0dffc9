"""Energy: the ice itself, what an appliance takes, what it costs."""

from __future__ import annotations

import math

import iapws._iapws
import pytest

from published.case import Case, each
from published.figures import Figures
from reportgen.trade.constants import SUBLIMATION_FLOOR

GAS = 461.526
"""Specific gas constant of water vapour, J/(kg K), as IAPWS-95 has it."""


def pressure(kelvin: float) -> float:
    """Pressure over ice, Pa, by the reference library."""
    return 1e6 * iapws._iapws._Sublimation_Pressure(kelvin)


def heat_of_sublimation(kelvin: float) -> float:
    """kJ/kg, from how the pressure over ice rises (Clausius and Clapeyron), by the library's
    curve. The vapour is so thin that it is taken as ideal: right to 0.1 % below the melting point.
    """
    step = 0.01
    slope = (math.log(pressure(kelvin + step)) - math.log(pressure(kelvin - step))) / (2 * step)
    return GAS * kelvin**2 * slope / 1000


def murphy_koop(kelvin: float) -> float:
    """Heat of sublimation, kJ/kg: Murphy and Koop, QJRMS 131 (2005) 1539, eq. 5; coefficients from
    memory, not seen. Valid 30 to 273.16 K."""
    molar = (
        46782.5
        + 35.8925 * kelvin
        - 0.07414 * kelvin**2
        + 541.5 * math.exp(-((kelvin / 123.75) ** 2))
    )
    return molar / 18.015268


def test_the_library_is_the_one_that_was_released() -> None:
    # IAPWS R14-08(2011), table 3: 8.94735 Pa at 230 K; seen as the check in the library's tests.
    assert pressure(230) == pytest.approx(8.94735, rel=1e-6)


@pytest.mark.parametrize("celsius", [-45, -40, -30, -20, -10])
def test_the_floor_is_the_heat_of_sublimation(celsius: int) -> None:
    floor = SUBLIMATION_FLOOR.value * 3600  # kWh/kg as kJ/kg
    kelvin = celsius + 273.15
    assert floor == pytest.approx(heat_of_sublimation(kelvin), rel=2e-3)
    assert floor == pytest.approx(murphy_koop(kelvin), rel=1e-3)


def test_the_floor_warns_of_the_impossible_alone() -> None:
    def below(kwh: float) -> object:
        found = Figures(
            runs=[{"key": "run", "energy": kwh}],
            lots=[{"key": "lot", "product": "food"}],
            products=[{"key": "food"}],
            loads=[{"run": "run", "lot": "lot", "wet": 5.0, "dry": 1.0}],
        )
        return found("runs", "energy_below_floor")

    # 4 kg of ice take 4 × 2838 kJ = 11352 kJ = 3.153 kWh.
    assert below(3.1) is True
    assert below(3.2) is False


def by_power(
    watt: float, hours: float, name: str = "energy_used", price: float | None = None
) -> object:
    """A run of a dryer of that mean power."""
    found = Figures(
        rates=[{"electricity": price}],
        dryers=[{"key": "dryer", "mean_power": watt}],
        runs=[{"key": "run", "dryer": "dryer", "duration": hours}],
    )
    return found("runs", name)


CASES = [
    Case(
        "120 W and 150 W, 4 h a day, 365 days: kWh a year",
        "US Department of Energy, Estimating Appliance and Home Electronic Energy Use", "seen",
        lambda: by_power(120 + 150, 4 * 365), 394.2,
    ),
    Case(
        "1200 W for a fifth of 24 h: kWh a day",
        "utility education page on duty cycles", "seen",
        lambda: by_power(1200, 0.20 * 24), 5.76,
    ),
    Case(
        "10 A at 120 V for 2 h: kWh",
        "magazine explainer on household energy", "seen", lambda: by_power(10 * 120, 2), 2.4,
    ),
    Case(
        "freeze drying food of 80 % water to 10 %: heat by raw weight, kJ/kg",
        "Earle, Unit Operations in Food Processing, example 7.3: 0.778 × 2838",
        "from memory, not seen",
        lambda: SUBLIMATION_FLOOR.value * 3600 * (1 - 0.2 / 0.9), 2207, 1e-3,
    ),
]  # fmt: skip


@each(CASES)
def test_an_energy(case: Case) -> None:
    case.check()
