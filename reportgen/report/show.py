"""Values as people read them: a number with its unit, a date, yes or no."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra.numbers import Value
from reportgen.algebra.operations import rounded_half_away
from reportgen.algebra.tables import Kind
from reportgen.layout.formats import below, decimal_places, too_small
from reportgen.units.days import date_of, moment_of

UNKNOWN = "unknown"
_HALF_A_SECOND = 0.5 / 86_400
DIGITS = 6
"""Digits of a number that is to be followed by hand."""

Slots = Mapping[str, str]


def iso(days: float) -> str:
    """A date as ISO 8601 writes it, with the time of day where it has one."""
    moment = moment_of(days)
    midnight = (moment.hour, moment.minute) == (0, 0)
    return moment.date().isoformat() if midnight else moment.isoformat(timespec="minutes")


def said(days: float) -> str:
    """A date as a cell shows it: less than a minute before midnight is not the next day yet."""
    day = date_of(days + _HALF_A_SECOND)
    return iso(days) if moment_of(days).date() == day else day.isoformat()


def unit(kind: Kind, slots: Slots) -> str:
    """The unit beside the numbers; a share is shown in percent."""
    if kind.type != "number":
        return ""
    return "%" if kind.show == "share" else kind.unit.text(slots, raised=True)


def cell(value: Value, kind: Kind, slots: Slots) -> str:
    """A value without its unit, with as many decimals as the workbook shows."""
    if value is None:
        return "-"
    match kind.type:
        case "date":
            return said(_number(value))
        case "flag":
            return "yes" if value else "no"
        case "text":
            return str(value)
    number, places = _number(value), decimal_places(kind, slots)
    if too_small(number, kind, slots):
        return below(places)
    return _fixed(number * 100 if kind.show == "share" else number, places)


def shown(value: Value, kind: Kind, slots: Slots) -> str:
    """A value with its unit, with as many decimals as the workbook shows."""
    return UNKNOWN if value is None else f"{cell(value, kind, slots)} {unit(kind, slots)}".rstrip()


def amount(value: Value, kind: Kind, slots: Slots) -> str:
    """A value with its unit, in enough digits to follow the calculation by hand."""
    if value is None:
        return UNKNOWN
    if kind.type != "number":
        text = cell(value, kind, slots)
        return f"“{text}”" if kind.type == "text" else text
    number = _number(value) * (100 if kind.show == "share" else 1)
    return f"{_digits(number)} {unit(kind, slots)}".rstrip()


def shows_nothing(value: Value, kind: Kind, slots: Slots) -> bool:
    """Whether a number is unknown, or too small to show."""
    return value is None or not any(each in "123456789" for each in cell(value, kind, slots))


def _digits(number: float) -> str:
    text = f"{number:,.{DIGITS}g}"
    if "e" not in text:
        return text
    return f"{number:,.0f}" if abs(number) >= 1 else text


def _fixed(number: float, decimals: int) -> str:
    text = f"{rounded_half_away(number, decimals):,f}"
    return text.removeprefix("-") if not any(each in "123456789" for each in text) else text


def _number(value: Value) -> float:
    assert isinstance(value, int | float)
    return value
