"""The readings of a power log, line by line: stamps and numbers, and what is passed over."""

from __future__ import annotations

import csv
import math
from array import array
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import chain, islice

from reportgen.model.power_log.header import Columns
from reportgen.model.power_log.numbers import has_commas, number_of, odd_number
from reportgen.model.power_log.stamps import Stamps
from reportgen.read.near import short
from reportgen.read.problem import Place, Problem, Refusal
from reportgen.read.zones import Zone

_MOST_ERRORS = 5
"""A log in which so many lines are wrong is not read further."""
_LOOKED_AT = 200
"""Lines from which it is judged whether decimals have commas."""


@dataclass
class Readings:
    """What a log says: moments, readings in the columns' unit, and the line each stands on."""

    times: array[float] = field(default_factory=lambda: array("d"))
    values: array[float] = field(default_factory=lambda: array("d"))
    lines: array[int] = field(default_factory=lambda: array("I"))

    def keep(self, wanted: Iterable[int]) -> Readings:
        """Some of the readings, in the order given."""
        order = array("I", wanted)
        return Readings(
            array("d", [self.times[at] for at in order]),
            array("d", [self.values[at] for at in order]),
            array("I", [self.lines[at] for at in order]),
        )


class Rows:
    """Reads the lines below a header."""

    def __init__(self, columns: Columns, zone: Zone, name: str) -> None:
        self.columns, self.zone, self.name = columns, zone, name
        self.problems: list[Problem] = []
        self._passed: list[tuple[int, str]] = []
        self._commas = False

    def read(self, lines: Iterable[str]) -> Readings:
        """All readings, in the order of the file; what is wrong is noted in ``problems``.

        Where that is an error, the readings are of no use.
        """
        found = Readings()
        reader = csv.reader(lines, delimiter=self.columns.delimiter)
        try:
            self._gather(reader, found)
        except csv.Error as error:
            self._refuse(
                reader.line_num + self.columns.line,
                Refusal(
                    f"this line cannot be taken apart ({error})",
                    "cells with a separator between them",
                    "look for a quotation mark that is not closed",
                ),
            )
        found = self._finite(found)
        self._say_passed(len(found.times))
        return found

    def _finite(self, found: Readings) -> Readings:
        """The readings that are numbers: ``NaN`` is read as one, and is none."""
        if all(map(math.isfinite, found.values)):
            return found
        kept = [at for at, value in enumerate(found.values) if math.isfinite(value)]
        self._passed += [
            (line, str(value))
            for line, value in zip(found.lines, found.values, strict=True)
            if not math.isfinite(value)
        ]
        self._passed.sort()
        return found.keep(kept)

    def _gather(self, reader: csv._reader, found: Readings) -> None:  # type: ignore[name-defined]
        columns, above = self.columns, self.columns.line
        head = [(row, reader.line_num) for row in islice(reader, _LOOKED_AT)]
        rows = [row for row, _ in head if len(row) >= columns.width]
        self._commas = has_commas([row[columns.value] for row in rows], columns.delimiter)
        stamps: Stamps | None = None
        number = number_of(self._commas)
        at, joined = columns.time[0], columns.time[1] if len(columns.time) > 1 else None
        value_at, sensor_at, sensor = columns.value, columns.name, None
        times, values, numbers = found.times, found.values, found.lines
        below = ((row, reader.line_num) for row in reader)
        for row, line in chain(head, below):
            try:
                text = row[at] if joined is None else f"{row[at]} {row[joined]}"
                if stamps is None:
                    if not any(map(_has_digit, row)):
                        continue  # a row of units
                    if not _has_digit(text):
                        self._pass(line, columns.delimiter.join(row))
                        continue
                    stamps = Stamps(text, self.zone, columns.utc)
                time, value = stamps.read(text), number(row[value_at])
                if sensor_at is not None and row[sensor_at] != sensor:
                    sensor = self._same(sensor, row[sensor_at])
            except (ValueError, TypeError, IndexError):
                reading = self._odd(row, line, stamps)
                if reading is None:
                    continue
                time, value = reading
            except Refusal as refusal:
                self._refuse(line + above, refusal)
                if stamps is None or len(self.problems) >= _MOST_ERRORS:
                    break
                continue
            times.append(time)
            values.append(value)
            numbers.append(line + above)
        if stamps is not None and not self.problems:
            try:
                found.times = stamps.settled(times)
            except Refusal as refusal:
                self._refuse(numbers[0] if numbers else above, refusal)

    @staticmethod
    def _same(sensor: str | None, name: str) -> str:
        if sensor is not None:
            raise Refusal(
                f"the log has readings of '{short(sensor)}' and here of '{short(name)}'",
                "the readings of one plug",
                "save a log of the dryer's plug alone",
            )
        return name

    def _odd(self, row: list[str], line: int, stamps: Stamps | None) -> tuple[float, float] | None:
        """A line that the quick way does not take: passed over, refused, or read all the same."""
        columns = self.columns
        text = " ".join(row[at] for at in columns.time if at < len(row))
        if not row or row[0].lstrip().startswith(("#", "//")) or not any(map(str.strip, row)):
            return None
        if len(row) < columns.width or not _has_digit(text):
            self._pass(line, columns.delimiter.join(row))
            return None
        assert stamps is not None
        try:
            value = odd_number(row[columns.value], columns, self._commas)
            if value is None:
                self._pass(line, row[columns.value])
                return None
            try:
                return stamps.read(text), value
            except (ValueError, TypeError):
                return stamps.other(text), value
        except (ValueError, TypeError):
            refusal = Refusal(
                f"'{short(text)}' is no stamp like those before it",
                "all stamps of the log in one form",
                "correct the line, or delete it",
            )
        except Refusal as error:
            refusal = error
        if len(self.problems) < _MOST_ERRORS:
            self._refuse(line + columns.line, refusal)
        return None

    def _pass(self, line: int, what: str) -> None:
        self._passed.append((line + self.columns.line, what))

    def _refuse(self, line: int, refusal: Refusal) -> None:
        place = Place(self.name, line)
        self.problems.append(Problem(place, refusal.what, refusal.expected, refusal.do))

    def _say_passed(self, readings: int) -> None:
        if self._passed and readings:
            line, what = self._passed[0]
            count = len(self._passed)
            many = (
                "a line without a reading is"
                if count == 1
                else f"{count:,} lines without a reading are"
            )
            self.problems.append(
                Problem(
                    Place(self.name, line),
                    f"{many} passed over" + (f", such as '{short(what)}'" if what.strip() else ""),
                    severity="caution",
                )
            )


def _has_digit(text: str) -> bool:
    return any(map(str.isdigit, text))
