"""What is wrong with units is found as the program starts; days are counted in one place."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import pytest

import reportgen
from reportgen.units import SPELLINGS, Unit, UnitError
from reportgen.units.days import FIRST_DAY, date_of, day_number, moment_of
from reportgen.units.named import spellings


def test_a_unit_that_is_not_defined_is_refused_where_it_is_written() -> None:
    with pytest.raises(UnitError, match="no unit is called stone"):
        Unit.of("stone")
    with pytest.raises(UnitError, match="no unit is called hr"):
        Unit.of("kWh", hr=-1)


def test_a_spelling_of_no_unit_or_of_two_is_refused() -> None:
    with pytest.raises(UnitError, match="no unit is called stone"):
        spellings({"stone": "st stones"})
    with pytest.raises(UnitError, match="t is said to be lb and kg"):
        spellings({"lb": "lb t", "kg": "kg t"})


def test_powers_are_typed_plain_and_read_raised() -> None:
    load = Unit.of("kg", m=-2)
    assert (load.text(), load.text(raised=True)) == ("kg/m2", "kg/m²")
    money = {"money": "USD", "dried": "oz"}
    square = Unit.of("money", dried=-1) ** 2
    assert (square.text(money), square.text(money, raised=True)) == ("USD2/oz2", "USD²/oz²")


def test_every_spelling_has_a_dimension() -> None:
    assert len(SPELLINGS) > 80
    assert [word for word, unit in SPELLINGS.items() if word != "%" and not unit.dimension] == []


@pytest.mark.parametrize(
    ("number", "day"),
    # By Python's calendar; 25569 is what every table of serial days gives for 1970-01-01.
    [(25569, date(1970, 1, 1)), (36526, date(2000, 1, 1)), (46270, date(2026, 9, 5))],
)
def test_days_as_a_spreadsheet_counts_them(number: int, day: date) -> None:
    assert (day_number(day), date_of(number)) == (number, day)
    assert date_of(number + 0.999) == day
    assert moment_of(number + 18.5 / 24) == datetime(day.year, day.month, day.day, 18, 30)


def test_the_first_day_stands_in_one_place() -> None:
    root = Path(reportgen.__file__).parent
    said = [path.relative_to(root).as_posix() for path in root.rglob("*.py")
            if "1899" in path.read_text(encoding="utf-8")]  # fmt: skip
    assert said == ["units/days.py"]
    assert date(1899, 12, 30) == FIRST_DAY
