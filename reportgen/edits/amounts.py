"""Numbers and days as a season's files write them."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, time, timedelta
from decimal import Decimal
from fractions import Fraction

from reportgen.model.season import Value
from reportgen.read.problem import Refusal
from reportgen.units.days import date_of

DIGITS = 12
_NOON = 0.5 / 86400


class AsTyped(float):
    """A number that was typed with its unit, and how: ``32 oz``, whatever the column counts in.
    Written so, it keeps its last digit, by which a scale is judged."""

    text: str

    def __new__(cls, value: float, text: str) -> AsTyped:
        """The number in the unit of its column."""
        made = super().__new__(cls, value)
        made.text = text
        return made


def in_unit(value: float, unit: str, read: Callable[[str], Value]) -> str:
    """A value in a unit, where twelve digits of it read back as the same number; else nothing."""
    try:
        scale = read(f"1{unit}")
        if isinstance(scale, float) and scale:
            text = f"{decimal(float(Fraction(value) / Fraction(scale)))}{unit}"
            return text if read(text) == value else ""
    except Refusal:
        pass
    return ""


def as_it_stands(value: float, was: re.Match[str], read: Callable[[str], Value]) -> str:
    """What is written, where that is the value: ``28.50 USD``, not ``28.5 USD``."""
    text = f"{was[1]}{was[2].rstrip()}"
    try:
        return text if read(text) == value else ""
    except Refusal:
        return ""


def to_digit(text: str, digit: float) -> str:
    """A weight with the decimals that the scale showed: ``52.0 oz``, not ``52 oz``."""
    number, _, unit = text.partition(" ")
    places = -int(Decimal(repr(digit)).normalize().as_tuple().exponent)
    shown = -int(Decimal(number).as_tuple().exponent)
    return f"{Decimal(number):.{places}f} {unit}" if 0 < places <= 6 and shown < places else text


def decimal(value: float, exact: bool = False) -> str:
    """A number in plain digits, at most twelve that count; ``exact``: all that it has."""
    text = repr(value) if exact else f"{value:.{DIGITS}g}"
    plain = f"{Decimal(text).normalize():f}"
    return "0" if plain == "-0" else plain


def day(value: float, clock: bool) -> str:
    """``2026-09-05``, and with a time of day that is not midnight ``2026-09-05 18:30``."""
    whole = int(value + _NOON)
    seconds = round((value - whole) * 86400)
    found = datetime.combine(date_of(whole), time()) + timedelta(seconds=seconds)
    if not clock or seconds <= 0:
        return found.strftime("%Y-%m-%d")
    return found.strftime("%Y-%m-%d %H:%M:%S" if seconds % 60 else "%Y-%m-%d %H:%M")
