"""Days and clock times, as numbers of days as a spreadsheet counts them."""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache

from reportgen.read.near import short
from reportgen.read.problem import Refusal
from reportgen.units.days import day_number

_HALF = r"\s*[ap]\.?m\.?"
CLOCK = rf"\d{{1,2}}(?::\d{{2}}(?::\d{{2}})?(?:{_HALF})?|{_HALF})"
"""A clock time as people write it: ``18:30``, ``6:30 pm``, ``8 pm``."""
_DAY = re.compile(rf"(\d{{4}})-(\d{{2}})-(\d{{2}})(?:[ T]+({CLOCK}))?", re.I)
_CLOCK = re.compile(r"(\d{1,2})(?::(\d{2})(?::(\d{2}))?)?(?:\s*([ap])\.?m\.?)?", re.I)
_YEARS = range(1990, 2200)
"""Spreadsheets differ before March 1900; a year far off is a slip of the finger."""


@lru_cache(maxsize=4096)
def day(text: str, clock: bool = False) -> float:
    """``2026-09-05``, or with ``clock`` also ``2026-09-05 18:30``. Raises :class:`Refusal`."""
    expected = "a day, as 2026-09-05" + (", or with the time, 2026-09-05 18:30" if clock else "")
    match = _DAY.fullmatch(text.strip())
    if match is None:
        raise _refusal(text.strip(), expected, clock)
    year, month, number = (int(each) for each in match.groups()[:3])
    try:
        serial = day_number(date(year, month, number))
    except ValueError:
        raise Refusal(
            f"there is no day {match.group()[:10]}", expected, "check the month and the day"
        ) from None
    if year not in _YEARS:
        raise Refusal(
            f"the year {year} cannot be meant",
            f"a year from {_YEARS[0]} to {_YEARS[-1]}",
            "check the year",
        )
    time = match.group(4)
    if time is None:
        return float(serial)
    if not clock:
        raise Refusal(f"'{text}' has a time of day", expected, f"write {text[:10]}")
    return (serial * 86400 + seconds(time)) / 86400


def seconds(text: str, last: bool = False) -> int:
    """A clock time in seconds from midnight; ``last`` allows ``24:00``."""
    match = _CLOCK.fullmatch(text.strip())
    expected = "a clock time from 00:00 to 23:59, as 18:30"
    if match is None or (match.group(2) is None and match.group(4) is None):
        do = 'write it with a colon, as "18:30"'
        raise Refusal(f"'{short(text)}' is no clock time", expected, do)
    hours, minutes, rest = (int(each or 0) for each in match.groups()[:3])
    half = (match.group(4) or "").lower()
    twelve = not half or 1 <= hours <= 12
    if half:
        hours = hours % 12 + 12 * (half == "p")
    value = hours * 3600 + minutes * 60 + rest
    if not twelve or minutes > 59 or rest > 59 or value > 86400 - (not last):
        raise Refusal(f"there is no time {short(text)}", expected, "check the hours and minutes")
    return value


def _refusal(text: str, expected: str, clock: bool) -> Refusal:
    shown = short(text)
    if match := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", text):
        year, month, number = match.groups()
        return Refusal(
            f"'{shown}' is not written as days are here",
            expected,
            f"write {year}-{month:0>2}-{number:0>2}",
        )
    if match := re.fullmatch(r"(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{2,4})", text):
        first, second, year = match.groups()
        number, month = (first, second) if int(first) > 12 else (second, first)
        if len(year) == 4 and int(month) <= 12 < int(number) <= 31:
            return Refusal(
                f"'{shown}' is not written as days are here",
                expected,
                f"write {year}-{month:0>2}-{number:0>2}",
            )
        return Refusal(
            f"'{shown}' may be read as two different days",
            expected,
            "write the year, the month and the day, in this order",
        )
    if clock and re.fullmatch(r"\d{1,2}", text):
        do = (
            f"write {text}:00, {text} am or {text} pm, after the day where the file's name has none"
        )
        return Refusal(f"'{shown}' does not say which hour of the day", expected, do)
    if clock and _CLOCK.fullmatch(text):
        return Refusal(f"'{shown}' is a time without a day", expected, "write the day before it")
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}.+", text):
        return Refusal(
            f"'{shown}' has something after the day that is no clock time",
            expected,
            "write the time in 24 hours, without a zone" if clock else f"write {text[:10]}",
        )
    return Refusal(f"'{shown}' is no day", expected, "write the year, the month and the day")
