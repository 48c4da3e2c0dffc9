"""Days and clock times, against a spreadsheet library's own reckoning."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils.datetime import from_excel, to_excel

from reportgen.read.dates import day, seconds
from reportgen.read.problem import Refusal

days = st.dates(date(1990, 1, 1), date(2199, 12, 31))


@given(days)
def test_a_day_is_the_spreadsheets_number(value: date) -> None:
    assert day(value.isoformat()) == to_excel(value)


@given(days, st.integers(0, 86399))
def test_a_time_of_day_is_exact_to_the_second(value: date, second: int) -> None:
    moment = datetime(value.year, value.month, value.day) + timedelta(seconds=second)
    serial = day(moment.strftime("%Y-%m-%d %H:%M:%S"), True)
    whole = value.toordinal() - date(1899, 12, 30).toordinal()
    assert serial == float(whole + Fraction(second, 86400))
    assert from_excel(serial) == moment


def test_the_published_example_of_a_serial_day() -> None:
    # Microsoft's reference of DATE: 2008-01-01 is serial number 39448. From memory, not seen.
    assert day("2008-01-01") == 39448


@pytest.mark.parametrize("text", ["2027-02-29", "2026-13-01", "2026-00-10", "2100-02-29"])
def test_days_that_are_not(text: str) -> None:
    with pytest.raises(Refusal, match="there is no day"):
        day(text)


def test_the_end_of_a_day() -> None:
    assert seconds("24:00", last=True) == 86400
    with pytest.raises(Refusal):
        seconds("24:00")


@given(st.text(max_size=20))
def test_any_text_is_a_day_or_refused(text: str) -> None:
    for clock in (False, True):
        try:
            day(text, clock)
        except Refusal as refusal:
            assert refusal.what and refusal.expected and refusal.do
