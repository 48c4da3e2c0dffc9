"""Which tests work with a season in which a fault shows.

All tests are run once, without a fault; which :class:`Numbers` they look at is noted. A fault
shows in a season where its tree gives another value than the sound one in some row.
"""

from __future__ import annotations

import inspect
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from typing import Any

import pytest

from mutants.made import Fault
from reportgen.algebra.book import Book
from reportgen.algebra.numbers import Numbers

MOST = 60
"""Seasons that are looked at of one test: generated ones are many and alike."""
SLOW = 0.3
"""Seconds that a test takes which is asked late."""
_MARK = "an estimate not marked"
_BREAKS_OFF = (KeyError, TypeError, ValueError, IndexError, ArithmeticError)
"""What a faulty tree, or one that reads what it gives, may end in."""


class Plan:
    """What the tests do without a fault, and so which of them one could matter to."""

    def __init__(
        self, items: Sequence[pytest.Item], book: Book, run: Callable[[Any], bool]
    ) -> None:
        self._book = book
        self._seen: dict[str, list[Numbers]] = {}
        self._took: dict[str, float] = {}
        self._sources = {item.nodeid: _source(item) for item in items}
        self.failing: list[str] = []
        current: list[Numbers] = []

        def note(numbers: Numbers) -> dict[str, Any]:
            known = any(each is numbers for each in current)
            if len(current) < MOST and numbers.book is book and not known:
                current.append(numbers)
            return numbers.__dict__["cells"]

        def keep(numbers: Numbers, cells: dict[str, Any]) -> None:
            numbers.__dict__["cells"] = cells

        Numbers.cells = property(note, keep)  # type: ignore[assignment]
        for item in items:
            current = []
            began = time.monotonic()
            if not run(item):
                self.failing.append(item.nodeid)
                continue
            self._took[item.nodeid] = time.monotonic() - began
            self._seen[item.nodeid] = current
        del Numbers.cells  # type: ignore[attr-defined]

    def likeliest(self, fault: Fault, caught: Sequence[str]) -> list[str]:
        """All tests, those first that caught another fault of the definition or speak of it."""

        def order(name: str) -> tuple[int, bool, bool, float]:
            before = caught.index(name) if name in caught else len(caught)
            took = self._took[name]
            return before, took > SLOW, fault.name not in self._sources[name], took

        return sorted(self._took, key=order)

    def touched(
        self, fault: Fault, names: Iterable[str], renew: Callable[[Numbers], None]
    ) -> Iterator[str]:
        """Those of the tests that look at a season in which the fault shows, as they are asked."""
        known: dict[int, bool] = {}
        for name in names:
            # All of a test's seasons are looked at, since a fault is put into each.
            for numbers in self._seen[name]:
                if id(numbers) not in known:
                    known[id(numbers)] = _shows(fault, self._book, numbers)
                    if known[id(numbers)]:
                        # What cannot be worked out any more breaks off in the test, too.
                        with suppress(*_BREAKS_OFF):
                            renew(numbers)
            if any(known[id(numbers)] for numbers in self._seen[name]):
                yield name


def _shows(fault: Fault, book: Book, numbers: Numbers) -> bool:
    definition = book.definition(fault.table, fault.name)
    if fault.kind.startswith(_MARK):
        # Values stay; what rests on them changes its name.
        return any(value is not None for value in numbers.cells[fault.table][fault.name])
    try:
        rule = numbers.rule(fault.tree)
        sound = numbers.cells[fault.table][fault.name]
        return any(_differ(rule(row), value) for row, value in enumerate(sound))
    except _BREAKS_OFF:
        return bool(numbers.rows(definition.table))


def _differ(one: Any, other: Any) -> bool:
    one, other = (None if each == "" else each for each in (one, other))
    numbers = isinstance(one, int | float) and isinstance(other, int | float)
    return abs(one - other) > 1e-9 * max(1, abs(other)) if numbers else one != other


def _source(item: pytest.Item) -> str:
    function = getattr(item, "function", None)
    return f"{item.nodeid}\n{inspect.getsource(function) if function else ''}"
