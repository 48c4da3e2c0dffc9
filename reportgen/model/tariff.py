"""Time of use: which period of the tariff holds a moment, and where one gives way to the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from reportgen.model.draft import Draft
from reportgen.read import dates
from reportgen.read.zones import QUARTER, Zone

_DAY, _HOUR = 86400, 3600
_WEEK = ("thu", "fri", "sat", "sun", "mon", "tue", "wed")
"""1970-01-01, from which moments count, was a Thursday."""


@dataclass(frozen=True)
class Period:
    """A period of the day, in seconds from midnight; one that ends before it begins wraps."""

    key: str
    begin: float
    end: float
    days: tuple[str, ...]

    @classmethod
    def of(cls, draft: Draft) -> Period:
        """The period that was written; without a beginning and an end it lasts all day."""
        return cls.written(draft.key, *map(draft.text, ("from_clock", "to_clock", "days")))

    @classmethod
    def written(cls, key: str, begin: str, end: str, days: str) -> Period:
        """The same, from the texts of its clock times and days."""
        return cls(
            key,
            dates.seconds(begin, last=True) % _DAY if begin else 0.0,
            dates.seconds(end, last=True) % _DAY if end else 0.0,
            tuple(days.split()),
        )

    def holds(self, wall: float) -> bool:
        """Whether a clock time (seconds from 1970-01-01 00:00) is in it; the day is that on which
        the hour falls, also after midnight."""
        if self.days and _WEEK[int(wall // _DAY) % 7] not in self.days:
            return False
        time = wall % _DAY
        if self.begin < self.end:
            return self.begin <= time < self.end
        return self.begin == self.end or time >= self.begin or time < self.end


class Tariff:
    """The periods in their order; the first that holds counts."""

    def __init__(self, periods: Sequence[Period], zone: Zone) -> None:
        self.periods = periods
        self._zone = zone
        self._clocks = sorted({0.0, *(t for each in periods for t in (each.begin, each.end))})

    def __bool__(self) -> bool:
        return bool(self.periods)

    def unchanged(self) -> Tariff:
        """The same where no clock is ever changed."""
        return Tariff(self.periods, Zone())

    def at(self, moment: float) -> str:
        """The key of the period that holds a moment; empty where none does."""
        wall = self._zone.wall(moment)
        return next((each.key for each in self.periods if each.holds(wall)), "")

    def spans(self, begin: float, end: float) -> Iterator[tuple[float, float, str]]:
        """The time from one moment to another, cut where the period may change."""
        if not self.periods:
            yield begin, end, ""
            return
        inside = {each for each in self._cuts(begin, end) if begin < each < end}
        for first, last in pairwise(sorted({begin, end, *inside})):
            yield first, last, self.at((first + last) / 2)

    def _cuts(self, begin: float, end: float) -> Iterator[float]:
        zone = self._zone
        first, last = zone.wall(begin) // _DAY, zone.wall(end) // _DAY
        for day in range(int(first) - 1, int(last) + 2):
            for clock in self._clocks:
                yield zone.moment(day * _DAY + clock)
                if zone:  # an hour that the clock shows twice
                    yield zone.moment(day * _DAY + clock, second=True)
        if zone and zone.offset(begin) != zone.offset(end):
            # Where the clock is changed it leaps over the bounds of periods.
            moment = begin // QUARTER * QUARTER
            while moment < end:
                moment += QUARTER
                yield moment


def windows_of(written: Sequence[tuple[str, ...]]) -> list[tuple[str, float, float]]:
    """Of periods as they are written, the windows of a week, each with the period that holds in it
    and where it begins and ends, in hours from Saturday 0:00: a spreadsheet's day 0 was one."""
    tariff = Tariff([Period.written(*texts) for texts in written], Zone())
    saturday = _WEEK.index("sat") * _DAY
    found: list[tuple[str, float, float]] = []
    for first, last, key in tariff.spans(saturday, saturday + 7 * _DAY) if tariff else ():
        begin, end = ((each - saturday) / _HOUR for each in (first, last))
        if found and found[-1][0] == key:
            begin = found.pop()[1]
        found.append((key, begin, end))
    return [each for each in found if each[0]]
