"""Days as numbers: how many have passed since the day that a spreadsheet counts from."""

from __future__ import annotations

from datetime import date, datetime, timedelta

FIRST_DAY = date(1899, 12, 30)


def day_number(day: date) -> int:
    """How many days after the first a day is."""
    return (day - FIRST_DAY).days


def date_of(number: float) -> date:
    """The day of a number; a time of day in it is left out."""
    return moment_of(int(number)).date()


def moment_of(number: float) -> datetime:
    """The day and the time of day of a number, to the minute."""
    start = datetime(FIRST_DAY.year, FIRST_DAY.month, FIRST_DAY.day)
    try:
        return start + timedelta(minutes=round(number * 24 * 60))
    except OverflowError:  # a reckoning can lead past the calendar
        return datetime.max if number > 0 else datetime.min
