"""The stamps of a power log: ISO 8601, seconds since 1970, or a day and a clock time.

A day such as 05/09/2026 may be two days. It is read only where some other day of the same file
settles which; else it is refused.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime

from reportgen.read.near import short
from reportgen.read.problem import Refusal
from reportgen.read.zones import Zone

_WALL, _UTC = datetime(1970, 1, 1), datetime(1970, 1, 1, tzinfo=UTC)
_FIRST_DAY = _WALL.toordinal()
_EXPECTED = "a day and a time, as 2026-09-05 18:30:00"
_EPOCH = re.compile(r"(\d{9,10}(?:\.\d+)?|\d{12,13})")
_END = re.compile(r"\s*(?:(Z|UTC|GMT)|([+-]\d{2}):?(\d{2})?)$", re.I)
_YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_YEAR_LAST = re.compile(r"(\d{1,2})([-/.])(\d{1,2})[-/.](\d{4})")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?(?:\s*([ap])\.?\s?m\.?)?", re.I)

Read = Callable[[str], float]


class Stamps:
    """Reads the stamps of one log, by the form of its first.

    ``read`` gives seconds, for :meth:`settled` to turn into moments once all are read; it raises
    ValueError or TypeError for a stamp of another form, and :class:`Refusal` for one that cannot
    be. ``utc``: the header says that the times are UTC.
    """

    def __init__(self, first: str, zone: Zone, utc: bool) -> None:
        self.zone = zone
        self._utc = utc
        self._days: dict[str, int] = {}
        self.read: Read = self._form(first)

    def settled(self, seconds: array[float]) -> array[float]:
        """The moments of the stamps read. Raises :class:`Refusal` where days stay ambiguous."""
        if self._days:
            days = _dates(list(self._days))
            seconds = array("d", [days[int(s // 86400)] * 86400.0 + s % 86400 for s in seconds])
        return seconds if self._utc else self.zone.moments(seconds)

    def _form(self, first: str) -> Read:
        text = first.strip()
        if _EPOCH.fullmatch(text):
            self._need_zone("are seconds since 1970, which count by UTC")
            scale = 1000.0 if len(text) >= 12 and "." not in text else 1.0
            self._utc = True
            return lambda text: float(text) / scale
        if self._utc:
            self._need_zone("are in UTC, as its header says")
        end = _END.search(text) if ":" in text else None
        bare = text[: end.start()] if end else text
        if end:
            return self._with_offset(end, _is_iso(text))
        if _is_iso(bare):
            return lambda text: (datetime.fromisoformat(text) - _WALL).total_seconds()
        self.loose(bare)
        return self.loose

    def _with_offset(self, end: re.Match[str], iso: bool) -> Read:
        offset = end.group().strip()
        if not self.zone:
            if end.group(1) or re.fullmatch(r"[+-]00:?(00)?", offset):
                self._need_zone("are in UTC")

            def same(text: str) -> float:
                bare = text.strip().removesuffix(offset)
                if len(bare) == len(text.strip()):
                    self._need_zone(f"are ahead of UTC by {offset}, and here by something else")
                return (datetime.fromisoformat(bare.strip()) - _WALL).total_seconds()

            return same
        self._utc = True
        if iso:
            return lambda text: (datetime.fromisoformat(text) - _UTC).total_seconds()

        def read(text: str) -> float:
            found = _END.search(text.strip())
            if not found:
                raise ValueError(text)
            hours, minutes = found.group(2) or "+00", found.group(3) or "00"
            bare = text.strip()[: found.start()]
            whole = datetime.fromisoformat(f"{bare}{hours}:{minutes}")
            return (whole - _UTC).total_seconds()

        return read

    def _need_zone(self, what: str) -> None:
        if not self.zone:
            raise Refusal(
                f"the stamps of this log {what}; the runs are written in local time",
                "the season's time zone",
                "add to season.yaml, for instance: timezone: America/Chicago",
            )

    def loose(self, text: str) -> float:
        """A day in any usual form and a clock time: seconds of the day, and which day it was."""
        day, _, clock = text.strip().replace("T", " ").partition(" ")
        found = _CLOCK.fullmatch(clock.strip())
        if found is None or not (_YEAR_FIRST.fullmatch(day) or _YEAR_LAST.fullmatch(day)):
            raise Refusal(f"'{short(text)}' is no stamp", _EXPECTED, _advice(text))
        hour, minute = int(found[1]), int(found[2])
        second = float((found[3] or "0").replace(",", "."))
        if found[4]:
            if not 1 <= hour <= 12:
                raise Refusal(f"there is no time {short(clock)}", _EXPECTED, "check the hour")
            hour = hour % 12 + (12 if found[4].lower() == "p" else 0)
        if hour > 23 or minute > 59 or second >= 60:
            raise Refusal(f"there is no time {short(clock)}", _EXPECTED, "check the clock time")
        number = self._days.setdefault(day, len(self._days))
        return number * 86400.0 + hour * 3600 + minute * 60 + second

    def other(self, text: str) -> float:
        """A stamp that :attr:`read` does not take, though it may be fine: 9:05 among 18:30."""
        if not self._days and self.read != self.loose and _YEAR_FIRST.match(text.strip()):
            day, _, clock = text.strip().replace("/", "-").replace("T", " ").partition(" ")
            return self.read(f"{day} {clock.strip():0>5}" if clock.find(":") == 1 else text.strip())
        raise ValueError(text)


def _is_iso(text: str) -> bool:
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return len(text) > 10


def _dates(days: Sequence[str]) -> list[int]:
    """Days since 1970-01-01 of the dates of one file."""
    orders = {_order(each) for each in days} - {""}
    if {"day first", "month first"} <= orders:
        by = {_order(each): each for each in days}
        raise Refusal(
            f"the log has both '{by['day first']}' and '{by['month first']}'",
            "days written in one way",
            "write them as 2026-09-05",
        )
    if orders == {"either"}:
        shown = next(each for each in days if _order(each) == "either")
        raise Refusal(
            f"'{shown}' may be read as two different days, and no other day of the log settles it",
            "the year, the month and the day, in this order",
            "write the stamps as 2026-09-05 18:30",
        )
    month_first = "month first" in orders
    found = []
    for text in days:
        if match := _YEAR_FIRST.fullmatch(text):
            year, month, day = (int(each) for each in match.groups())
        else:
            match = _YEAR_LAST.fullmatch(text)
            assert match is not None
            one, two, year = int(match[1]), int(match[3]), int(match[4])
            month, day = (one, two) if month_first else (two, one)
        try:
            found.append(date(year, month, day).toordinal() - _FIRST_DAY)
        except ValueError:
            raise Refusal(f"there is no day {text}", _EXPECTED, "check the day") from None
    return found


def _order(day: str) -> str:
    """Which way round a date with the year last is; empty where that is plain."""
    match = _YEAR_LAST.fullmatch(day)
    if match is None:
        return ""
    one, two = int(match[1]), int(match[3])
    if match[2] == "." or one > 12:  # with points the day comes first, wherever it is so written
        return "day first"
    return "month first" if two > 12 else "" if one == two else "either"


def _advice(text: str) -> str:
    if _CLOCK.fullmatch(text.strip()):
        return "put the day before it"
    return "save the log with stamps of this form"
