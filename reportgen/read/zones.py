"""Clock time and elapsed time: a time zone, or none.

A moment is a number of seconds. With a zone it counts from 1970-01-01 00:00 UTC, so that a
difference of two is the time that passed, also over a clock change. Without one it is what the
clock on the wall shows, counted from 1970-01-01 00:00 as if no clock were ever changed.
"""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo, available_timezones

from reportgen.read.near import near, short
from reportgen.read.problem import Refusal
from reportgen.units.days import day_number

_EPOCH = datetime(1970, 1, 1)
_DAYS_BEFORE = day_number(_EPOCH.date())
"""Days from the first of a spreadsheet to 1970-01-01."""

QUARTER = 900
"""Seconds; clocks are changed at a quarter of an hour of UTC, so an offset holds that long."""


class Zone:
    """A time zone by its name in the IANA database; without a name, the clock as it stands.

    Raises :class:`Refusal` for a name that is not known.
    """

    def __init__(self, name: str = "") -> None:
        self.name = name
        self._zone = _zone(name) if name else None

    def __bool__(self) -> bool:
        return self._zone is not None

    def offset(self, moment: float) -> float:
        """Seconds by which the clock is ahead of UTC at a moment."""
        if self._zone is None:
            return 0.0
        return _seconds(datetime.fromtimestamp(moment, UTC).astimezone(self._zone).utcoffset())

    def moment(self, wall: float, second: bool = False) -> float:
        """The moment at which the clock shows ``wall`` (seconds from 1970-01-01 00:00).

        An hour that the clock shows twice is the first of the two, or with ``second`` the other.
        An hour that it leaves out is read as if the clock had not been changed yet.
        """
        if self._zone is None:
            return wall
        face = (_EPOCH + timedelta(seconds=wall)).replace(tzinfo=self._zone, fold=int(second))
        return wall - _seconds(face.utcoffset())

    def wall(self, moment: float) -> float:
        """What the clock shows at a moment, in seconds from 1970-01-01 00:00."""
        return moment + self.offset(moment)

    def of_day(self, serial: float) -> float:
        """The moment of a day and clock time as a spreadsheet counts them, to the second."""
        return self.moment(float(round((serial - _DAYS_BEFORE) * 86400)))

    def to_day(self, moment: float) -> float:
        """A moment as a spreadsheet counts days and clock times."""
        return self.wall(moment) / 86400 + _DAYS_BEFORE

    def moments(self, walls: Sequence[float]) -> array[float]:
        """The moments of clock times one after the other, as a log has them.

        Where the clock is set back, an hour of stamps comes twice: what would go back in time is
        taken for the second of the two.
        """
        if self._zone is None:
            return array("d", walls)
        known = _Offsets(self)
        found = array("d", [wall - known[wall // QUARTER] for wall in walls])
        if known.twice:
            last = float("-inf")
            for at, wall in enumerate(walls):
                if found[at] < last and wall // QUARTER in known.twice:
                    later = self.moment(wall, second=True)
                    if later >= last:
                        found[at] = later
                last = found[at]
        return found


class _Offsets(dict[float, float]):
    """The offset of each quarter of an hour on the clock; ``twice``: those that come twice."""

    def __init__(self, zone: Zone) -> None:
        super().__init__()
        self._zone = zone
        self.twice: set[float] = set()

    def __missing__(self, quarter: float) -> float:
        wall = quarter * QUARTER
        first, second = self._zone.moment(wall), self._zone.moment(wall, second=True)
        if second > first:
            self.twice.add(quarter)
        self[quarter] = wall - first
        return self[quarter]


def _seconds(offset: timedelta | None) -> float:
    assert offset is not None
    return offset.total_seconds()


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):  # KeyError: not found; OSError: a folder's name
        match = near(name, sorted(available_timezones()))
        raise Refusal(
            f"'{short(name)}' is no time zone",
            "a name of the IANA database, as America/Chicago or Europe/Paris",
            f"did you mean {match}?" if match else "write the region and the nearest large town",
        ) from None
