"""Texts as a user writes them: to grams, hours, kilometres, kWh, millilitres, square metres."""

from __future__ import annotations

import datetime
import math
import re
from decimal import Decimal
from typing import Any

NAN = math.nan
SIZE = {
    "g": 1.0, "kg": 1e3, "oz": 28.349523125, "lb": 453.59237,
    "h": 1.0, "min": 1 / 60,
    "mile": 1.609344, "km": 1.0,
    "kWh": 1.0,
    "W": 1e-3, "kW": 1.0,
    "mL": 1.0, "L": 1e3,
    "m2": 1.0, "cm2": 1e-4, "in2": 0.0254**2,
    "%": 0.01,
    "run": 1.0, "day": 1.0, "month": 1.0, "m": 1.0,
    "run/week": 1 / 168, "kg/m2": 1e3, "kg/m3": 1e-3, "g/mL": 1.0,
}  # fmt: skip
"""What one of each unit is here."""


def number(text: Any) -> float:
    """An amount: ``72.4 lb``, ``3 h 20 min``, ``34:30``, ``84 %``, ``12``; a list is its sum."""
    if text is None:
        return NAN
    if isinstance(text, list):
        return sum(map(number, text))
    if isinstance(text, dict):
        (gross, unit), (tare, _) = text["gross"].split(), text["tare"].split()
        return number(f"{Decimal(gross) - Decimal(tare)} {unit}")
    if clock := re.fullmatch(r"(\d+):(\d\d)", text):
        return int(clock[1]) + int(clock[2]) / 60
    parts = re.findall(r"([\d.]+)\s*([A-Za-z%][A-Za-z0-9/]*)?", text)
    if len(parts) == 1 and parts[0][1] not in SIZE:
        return float(parts[0][0])
    return sum(float(amount) * SIZE[unit] for amount, unit in parts)


def about(record: dict[str, Any], *names: str) -> bool:
    """Whether one of these weights is written as an estimate."""
    return any(str(record.get(name, "")).startswith("~") for name in names)


def money(text: str | None) -> float:
    """An amount of money, whole or by a unit: by gram, hour, kilometre, kWh, container."""
    if text is None:
        return NAN
    amount, _, unit = text.replace(" per ", "/").partition("/")
    value = float(amount.split()[0]) / (100 if "cents" in amount else 1)
    return value / SIZE[unit] if unit in SIZE else value


def share_or_rate(text: str | None) -> tuple[float, float]:
    """What a scenario says of a cost: a factor, or a rate in its place."""
    if text is None:
        return 1.0, NAN
    return (number(text), NAN) if text.endswith("%") else (1.0, money(text))


def moment(text: str | None) -> float:
    """A day, with or without a time of day, as days."""
    if text is None:
        return NAN
    found = datetime.datetime.fromisoformat(text)
    return found.toordinal() + (found.hour + found.minute / 60) / 24


def known(value: float) -> bool:
    return not math.isnan(value)


def first(*values: float) -> float:
    """The first that is known."""
    return next((value for value in values if known(value)), NAN)


def div(a: float, b: float) -> float:
    """A quotient; unknown where the divisor is 0."""
    return NAN if not known(b) or abs(b) < 1e-9 else a / b


def borne(cost: float, weight: float) -> float:
    """A cost by a weight that bears it; unknown where there is none."""
    return div(cost, weight) if weight > 0 else NAN


def most(*values: float) -> float:
    """The largest; unknown where one is."""
    return max(values) if all(map(known, values)) else NAN


def least(*values: float) -> float:
    return min(values) if all(map(known, values)) else NAN


def up(value: float, step: float = 1.0) -> float:
    """Rounded up to a step; the quotient to nine places first."""
    ratio = div(value, step)
    return math.ceil(round(ratio, 9)) * step if known(ratio) else NAN
