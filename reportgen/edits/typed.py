"""What was typed into a cell, as a value of its column; or why it is none."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from reportgen.algebra.inputs import Input
from reportgen.edits.amounts import AsTyped, decimal
from reportgen.model.readers import flag, within
from reportgen.model.season import Value
from reportgen.read.dates import day
from reportgen.read.grammar import Measure, share
from reportgen.read.numbers import NUMBER, ratio
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell
from reportgen.units import DRIED, FRESH, HOUR

_COMMA = re.compile(r"(\d+),(\d+)(?!\d*,)")
_ABOUT = re.compile(r"(?:~|about\s)\s*", re.I)
_SHORTEST_RUN = 3.0
_DAYS = range(36_526, 73_415)
"""The numbers of days from 2000 to 2100."""
_YES = {"yes": True, "no": False, "oui": True, "non": False, "vrai": True, "faux": False}


@dataclass(frozen=True)
class Typed:
    """A value, and whether it was typed as an estimate."""

    value: Value
    about: bool = False


class Reader:
    """Reads the cells of one season's inputs. ``words``: the program's words by their
    translations."""

    def __init__(self, slots: Mapping[str, str], words: Mapping[str, str]) -> None:
        self._slots, self._words = dict(slots), words

    def read(self, cell: Cell | None, column: Input, table: str) -> Typed:
        """What a cell holds for a column. Raises :class:`Refusal` for what it cannot hold."""
        if cell is None or cell.value is None or cell.value == "":
            return Typed(None)
        if cell.error:
            raise Refusal(f"an error value stands here ({cell.value})", "a value", "type it again")
        value = cell.value.strip() if isinstance(cell.value, str) else cell.value
        if value == "":
            return Typed(None)
        match column.type:
            case "text":
                return Typed(self._text(value, column))
            case "flag":
                return Typed(_flag(value))
            case "date":
                return Typed(_day(value, column))
        if isinstance(value, str):
            return self._number(value, column)
        if isinstance(value, bool):
            raise Refusal("a truth value stands here", "a number", "type the number")
        return Typed(self._plain(value, cell, column, table))

    def _text(self, value: float | str | bool, column: Input) -> str:
        text = value if isinstance(value, str) else decimal(float(value), exact=True)
        if column.translated:
            return self._words.get(text, text)
        return text

    def _number(self, text: str, column: Input) -> Typed:
        """A number as it may stand in a file, or with a decimal comma."""
        bare = _ABOUT.sub("", text, count=1)
        about = bare != text
        for found in _COMMA.finditer(bare):
            if len(found[2]) == 3:
                raise Refusal(
                    f"'{text}' may mean {found[1]}{found[2]} or {found[1]}.{found[2]}",
                    "a number without a sign between thousands",
                    f"type {found[1]}.{found[2]} or {found[1]}{found[2]}",
                )
        bare = _COMMA.sub(r"\1.\2", bare)
        if re.fullmatch(NUMBER, bare):
            number, divisor = ratio(bare)
            value = number / divisor
        elif column.share:
            value = AsTyped(share(bare), bare)
        else:
            per = ("run", "runs") if column.whole else ()
            value = AsTyped(Measure(column.unit, self._slots, per).read(bare), bare)
        within(value, column, text)
        return Typed(value, about)

    def _plain(self, value: float, cell: Cell, column: Input, table: str) -> float:
        if column.unit == HOUR and cell.shown == "time":
            # Hours typed as 34:30 became a part of a day.
            value = round(value * 24, 9)
        elif column.unit == HOUR and _by_the_clock(value):
            raise Refusal(
                f"{decimal(value)} h looks like a time of day",
                "hours, as 1.75, or with their unit, as 1 h 45 min",
                "if 1:45 was typed here, type 1.75; if so few minutes are meant, type their unit, "
                "as 5 min",
            )
        elif cell.shown == "day":
            raise Refusal(
                "the program that saved it made a day of this number",
                f"a number in {Measure(column.unit, self._slots).shown or 'no unit'}",
                "set the cell's format to a number and type it again",
            )
        if column.name == "duration" and table == "runs" and value < _SHORTEST_RUN:
            raise Refusal(
                f"{decimal(value)} h is a very short run",
                "hours, as 34.5",
                "if 34:30 was typed, type 34.5; a run that short is written in its file",
            )
        weight = column.unit in (FRESH, DRIED)
        if weight and value == int(value) and int(value) in _DAYS:
            raise Refusal(
                f"{decimal(value)} looks like a day, not like a weight",
                f"a weight in {Measure(column.unit, self._slots).shown}",
                "if a day was typed here by mistake, type the weight; else write it in its file",
            )
        if column.whole and value != int(value):
            raise Refusal(f"{decimal(value)} is no whole number", "a whole number", "correct it")
        within(value, column, decimal(value))
        return value


def _by_the_clock(hours: float) -> bool:
    """Whether hours are what a suite makes of a time of day: a part of a day, whole by its minutes,
    and not such a number as people type."""
    of_day = abs(hours * 1440 - round(hours * 1440)) < 1e-6
    typed = abs(hours * 60 - round(hours * 60)) < 1e-6 and abs(hours * 1e3 % 1) < 1e-6
    return 0 < hours < 1 and of_day and not typed


def _flag(value: float | str | bool) -> bool:
    if isinstance(value, str):
        known = _YES.get(value.lower())
        return flag(value.lower()) if known is None else known
    if value not in (0, 1):
        raise Refusal(f"{value:g} is neither yes nor no", "1 for yes, 0 for no", "type one of them")
    return bool(value)


def _day(value: float | str | bool, column: Input) -> float:
    if isinstance(value, str):
        return day(value, column.clock)
    if isinstance(value, bool) or int(value) not in _DAYS:
        raise Refusal("this is no day of our time", "a day, as 2026-09-05", "type the day again")
    # A suite keeps a moment to the nearest of its steps; a minute is what was meant.
    return round(value * 86_400) / 86_400 if column.clock else float(int(value))
