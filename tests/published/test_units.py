"""Conversion factors, exact as they are defined.

NIST Special Publication 811 (2008), Guide for the Use of the International System of Units,
appendix B.8, and NIST Handbook 44, appendix C: from memory, not seen; all are exact by definition.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
import scipy.constants

from reportgen.units import SPELLINGS, Unit, UnitError, factor

SP_811 = [
    # (one of, is so many, of), as printed
    ("lb", "0.45359237", "kg"),
    ("lb", "453.59237", "g"),
    ("oz", "28.349523125", "g"),
    ("lb", "16", "oz"),
    ("in", "2.54", "cm"),
    ("ft", "0.3048", "m"),
    ("mile", "1.609344", "km"),
    ("in2", "6.4516", "cm2"),
    ("ft2", "0.09290304", "m2"),
    ("in3", "16.387064", "mL"),
    ("gal", "231", "in3"),
    ("gal", "3.785411784", "L"),
    ("qt", "0.946352946", "L"),
    ("pt", "0.473176473", "L"),
    ("cup", "236.5882365", "mL"),
    ("fl-oz", "29.5735295625", "mL"),
    ("kWh", "3.6", "MJ"),
    ("kWh", "1000", "Wh"),
    ("h", "3600", "s"),
    ("day", "24", "h"),
    ("week", "168", "h"),
]


@pytest.mark.parametrize(("one", "many", "of"), SP_811)
def test_a_factor_is_exact(one: str, many: str, of: str) -> None:
    assert factor(SPELLINGS[one], SPELLINGS[of]) == Fraction(many)
    assert factor(SPELLINGS[of], SPELLINGS[one]) == 1 / Fraction(many)


@pytest.mark.parametrize(
    ("one", "reference", "of"),
    [
        # Against a reference library, which holds its constants apart from ours.
        ("lb", scipy.constants.pound, "kg"),
        ("oz", scipy.constants.ounce, "kg"),
        ("mile", scipy.constants.mile, "m"),
        ("in", scipy.constants.inch, "m"),
        ("day", scipy.constants.day, "s"),
        ("week", scipy.constants.week, "s"),
        ("year", scipy.constants.year, "s"),
    ],
)
def test_against_a_reference_library(one: str, reference: float, of: str) -> None:
    assert float(factor(SPELLINGS[one], SPELLINGS[of])) == pytest.approx(reference, rel=1e-15)


def test_a_gallon_against_a_reference_library() -> None:
    cubic_metre = SPELLINGS["m3"]
    assert float(factor(SPELLINGS["gal"], cubic_metre)) == pytest.approx(
        scipy.constants.gallon, rel=1e-15
    )
    assert float(factor(SPELLINGS["fl-oz"], cubic_metre)) == pytest.approx(
        scipy.constants.fluid_ounce, rel=1e-15
    )


def test_the_latent_heat_in_units_that_are_read() -> None:
    # 2838 kJ/kg are 2838/3600 kWh/kg = 0.78833...
    kilojoule, energy, kg = SPELLINGS["kJ"], SPELLINGS["kWh"], Unit.of("kg")
    assert factor(kilojoule / kg, energy / kg) * 2838 == Fraction(2838, 3600)


@pytest.mark.parametrize(
    ("one", "other"), [("lb", "L"), ("kWh", "kW"), ("h", "m"), ("oz", "fl-oz")]
)
def test_what_is_measured_otherwise_does_not_convert(one: str, other: str) -> None:
    with pytest.raises(UnitError):
        factor(SPELLINGS[one], SPELLINGS[other])
