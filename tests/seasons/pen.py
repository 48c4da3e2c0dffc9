"""Writes numbers with units as different people would."""

from __future__ import annotations

import datetime
from random import Random

GRAMS = {"g": 1.0, "kg": 1000.0, "lb": 453.59237, "oz": 28.349523125}
_DIGITS = {"g": 0, "kg": 3, "lb": 2, "oz": 1}
_FRESH = {"customary": ("lb",), "metric": ("kg",), "mixed": ("lb", "kg", "g", "oz")}
_DRIED = {"customary": ("oz",), "metric": ("g",), "mixed": ("oz", "g", "kg", "lb")}
FIRST_DAY = datetime.date(2025, 6, 1)


class Pen:
    """One writer's habits. Weights go in as grams, times as hours; texts come out."""

    def __init__(self, rng: Random) -> None:
        self.rng = rng
        self.habit = rng.choice(("customary", "metric", "mixed"))
        customary = self.habit == "customary" or (self.habit == "mixed" and self.maybe(0.5))
        self.fresh = rng.choice(("lb", "lb", "lb", "oz") if customary else ("kg", "kg", "kg", "g"))
        self.dried = rng.choice(("oz", "oz", "lb") if customary else ("g", "g", "kg"))
        if self.habit == "mixed" and self.maybe(0.2):
            self.fresh, self.dried = rng.choice((("lb", "g"), ("kg", "oz"), ("g", "lb")))
        self.currency = rng.choice(("USD", "EUR", "CAD"))
        self.road = "mile" if customary else "km"

    def maybe(self, chance: float) -> bool:
        return self.rng.random() < chance

    def between(self, low: float, high: float) -> float:
        return low + (high - low) * self.rng.random()

    def wet(self, grams: float) -> str:
        """A weight before drying."""
        unit = self.rng.choice(_FRESH[self.habit])
        if unit == "lb" and grams > 600 and self.maybe(0.2):
            pounds, rest = divmod(grams, GRAMS["lb"])
            return f"{pounds:.0f} lb {min(rest / GRAMS['oz'], 15.9):.1f} oz"
        return self.weight(grams, unit)

    def dry(self, grams: float) -> str:
        """A weight after drying."""
        return self.weight(grams, self.rng.choice(_DRIED[self.habit]))

    def weight(self, grams: float, unit: str) -> str:
        value = grams / GRAMS[unit]
        digits = _DIGITS[unit] + (value < 5) * 2
        return f"{number(value, digits)} {unit}"

    def money(self, low: float, high: float, per: str = "") -> str:
        amount = number(self.between(low, high), 2)
        return f"{amount} {self.currency}" + (f"/{per}" if per else "")

    def share(self, low: float, high: float) -> str:
        return f"{number(100 * self.between(low, high), self.rng.choice((0, 1)))} %"

    def time(self, low: float, high: float) -> str:
        """A span of time, in one of the ways that are read."""
        hours = self.between(low, high)
        way = self.rng.randrange(4)
        whole, minutes = int(hours), int(hours * 60) % 60
        if way == 0 and minutes:
            return f"{whole}:{minutes:02}"
        if way == 1 and whole and minutes:
            return f"{whole} h {minutes} min"
        if way == 2 and hours < 3:
            return f"{max(1, round(hours * 60))} min"
        return f"{number(hours, 2)} h"

    def day(self, first: int, last: int) -> str:
        return day(self.rng.randint(first, last))

    def clock(self) -> str:
        return f"{self.rng.randrange(24):02}:{self.rng.randrange(0, 60, 5):02}"


def number(value: float, digits: int) -> str:
    """A positive number without an exponent and without idle zeros; never rounded to nothing."""
    least = 10.0**-digits
    text = f"{max(value, least):.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def day(after: int) -> str:
    """The day so many days after the season's first."""
    return (FIRST_DAY + datetime.timedelta(days=after)).isoformat()


def later(text: str, days: int) -> str:
    """A day as text, moved; a clock time after it stays."""
    moved = datetime.date.fromisoformat(text[:10]) + datetime.timedelta(days=days)
    return moved.isoformat() + text[10:]
