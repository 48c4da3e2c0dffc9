"""A power log as energy over time: put in order, added up, and read at any moment."""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import accumulate, chain, pairwise
from operator import gt, lt

from reportgen.model.power_log.header import Columns
from reportgen.model.power_log.rows import Readings
from reportgen.read.problem import Place, Problem

MOST_POWER = 20_000.0
"""W. More than any household circuit gives (common practice, no published source: 63 A at 230 V is
14.5 kW), so a reading above it is a slip or in another unit."""

Caution = Callable[..., None]
"""Notes something that was put right: the line, what, and what to do."""

_HALF_JOULES = 0.5 / 3.6e6
"""kWh of a joule, halved: the mean of two powers."""
_FALLING = 0.1
"""A count that falls in so large a share of its steps is none."""


@dataclass
class Log:
    """``energy``: kWh from the first reading on, at the moments ``times``. ``power``: W there,
    where the log has power; a count is taken to rise evenly between two readings."""

    name: str
    times: array[float]
    energy: array[float]
    power: array[float] | None
    lines: array[int]

    def until(self, moment: float) -> float:
        """kWh from the first reading to a moment; before the first and after the last, nothing."""
        times = self.times
        at = bisect_right(times, moment) - 1
        if at < 0:
            return 0.0
        if at == len(times) - 1:
            return self.energy[at]
        passed, whole = moment - times[at], times[at + 1] - times[at]
        if self.power is None:
            rise = self.energy[at + 1] - self.energy[at]
            return self.energy[at] + rise * passed / whole
        first = self.power[at]
        here = first + (self.power[at + 1] - first) * passed / whole
        return self.energy[at] + (first + here) * passed * _HALF_JOULES

    def gaps(self, longest: float) -> list[tuple[float, float, int]]:
        """Spans of more than so many seconds without a reading: begin, end, the line before."""
        return [
            (a, b, self.lines[at])
            for at, (a, b) in enumerate(pairwise(self.times))
            if b - a > longest
        ]


def log_of(
    readings: Readings, columns: Columns, name: str, zoned: bool = False
) -> tuple[Log | None, list[Problem]]:
    """The log of readings as they stand in the file; ``zoned``: clock changes are known."""
    problems: list[Problem] = []

    def caution(line: int, what: str, do: str = "") -> None:
        problems.append(Problem(Place(name, line), what, "", do, "caution"))

    if not readings.times:
        caution(columns.line, "the log has no reading yet", "add its readings, or leave it out")
        return None, problems
    readings = _in_order(readings, caution, zoned)
    if columns.scale != 1:
        readings.values = array("d", [value * columns.scale for value in readings.values])
    wrong = _impossible(readings, columns, name)
    if wrong is not None:
        return None, [*problems, wrong]
    if columns.kind == "power":
        energy = array("d", accumulate(chain((0.0,), _steps(readings.times, readings.values))))
        return Log(name, readings.times, energy, readings.values, readings.lines), problems
    rises, wrong = _rises(readings, name, caution)
    if wrong is not None:
        return None, [*problems, wrong]
    energy = array("d", accumulate(rises))
    return Log(name, readings.times, energy, None, readings.lines), problems


def _steps(times: array[float], powers: array[float]) -> Iterator[float]:
    """kWh of each step, by the trapezoid rule."""
    before, power = times[0], powers[0]
    for time, value in zip(times, powers, strict=True):
        if time > before:
            yield (power + value) * (time - before) * _HALF_JOULES
        before, power = time, value


def _in_order(readings: Readings, caution: Caution, zoned: bool) -> Readings:
    """The readings by time, each moment once: of two readings of one moment the later line."""
    times, lines = readings.times, readings.lines
    back = next((at for at, falls in enumerate(map(gt, times, times[1:])) if falls), None)
    if back is not None:
        if all(map(gt, times, times[1:])):
            caution(lines[0], "the log begins with its newest reading; it was turned round")
        else:
            hour = 1800 <= times[back] - times[back + 1] <= 3600
            change = (
                "if this plug's clock is never changed, save its stamps with their offset (+01:00)"
                if zoned
                else "if the clock was set back, the season needs timezone:, or an hour is lost"
            )
            caution(
                lines[back + 1],
                "the stamps go back in time here; the log was put in order",
                change if hour else "check that the log holds one run of the meter",
            )
        order = sorted(range(len(times)), key=times.__getitem__)
        readings = readings.keep(order)
        times, lines = readings.times, readings.lines
    last = len(times) - 1
    if last and not all(map(lt, times, times[1:])):
        kept = [at for at in range(last + 1) if at == last or times[at] != times[at + 1]]
        twice = next(at for at in range(last) if times[at] == times[at + 1])
        more = last + 1 - len(kept)
        many = "a stamp is" if more == 1 else f"{more:,} stamps are"
        caution(lines[twice + 1], f"{many} there twice, first here; the later line counts")
        readings = readings.keep(kept)
    return readings


def _impossible(readings: Readings, columns: Columns, name: str) -> Problem | None:
    """A reading that no meter of a dryer gives."""
    low, high = min(readings.values), max(readings.values)
    if low < 0:
        line = readings.lines[readings.values.index(low)]
        return Problem(
            Place(name, line),
            f"the reading is negative ({low:g})",
            "what the dryer takes, 0 or more",
            "check which column and which plug this is",
        )
    if columns.kind == "power" and high > MOST_POWER:
        line = readings.lines[readings.values.index(high)]
        return Problem(
            Place(name, line),
            f"the reading is {high:g} W, more than a household circuit gives",
            f"at most {MOST_POWER:g} W",
            "check the header's unit, or delete the line",
        )
    return None


def _rises(readings: Readings, name: str, caution: Caution) -> tuple[list[float], Problem | None]:
    """By how many kWh a count rose to each reading.

    Where it falls the meter began anew, and what it reads then was added since; where that cannot
    be, it was set to some other count, and nothing is added. A count that falls and comes back by
    a leap had lost a few readings.
    """
    times, values, lines = readings.times, readings.values, readings.lines
    rises = [0.0] * len(values)
    fall: int | None = None
    falls = 0
    for at in range(1, len(values)):
        rise, most = values[at] - values[at - 1], _most(times, at - 1, at)
        if rise < 0:
            falls += 1
            fall = at
            rise = values[at] if values[at] <= most else 0.0
        elif rise > most:
            back = None if fall is None else values[at] - values[fall - 1]
            if fall is None or back is None or not 0 <= back <= _most(times, fall - 1, at):
                return [], Problem(
                    Place(name, lines[at]),
                    f"the count rises by {rise:g} kWh from one reading to the next",
                    f"at most {MOST_POWER / 1000:g} kW",
                    "correct the line, or delete it",
                )
            caution(
                lines[fall],
                f"the count falls here and comes back on line {lines[at]}; the readings between "
                "are passed over",
            )
            rises[fall:at] = [0.0] * (at - fall)
            rise, fall, falls = back, None, falls - 1
        rises[at] = rise
    first = next((at for at in range(1, len(values)) if values[at] < values[at - 1]), 0)
    if falls > max(2, _FALLING * len(values)):
        return [], Problem(
            Place(name, lines[first]),
            f"the count falls {falls:,} times, as if each line had the energy of its own interval",
            "a count that only rises, as the meter shows it",
            "save the log with the running total, or with power in W",
        )
    if falls:
        times_ = "once" if falls == 1 else f"{falls:,} times"
        caution(lines[first], f"the count falls {times_}, first here: the meter began anew",
                "check that it was set back to zero")  # fmt: skip
    return rises, None


def _most(times: array[float], first: int, last: int) -> float:
    """The most kWh that can be between two readings; a display may be a minute behind."""
    return MOST_POWER / 3.6e6 * max(times[last] - times[first], 60)
