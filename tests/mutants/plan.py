"""Which tests work with a season in which a fault shows.

All tests are run once, without a fault; which :class:`Numbers` they look at is noted. A fault
shows in a season where its tree gives another value than the sound one in some row.
"""

from __future__ import annotations

import inspect
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import pytest

from mutants.made import Fault
from reportgen.algebra.book import Book
from reportgen.algebra.numbers import Numbers

MOST = 60
"""Seasons that are looked at of one test: generated ones are many and alike."""
_MARK = "an estimate not marked"


@dataclass(frozen=True)
class Plan:
    """Tests by the fault that shows in them, likeliest first; those that fail anyhow."""

    touched: dict[str, list[str]]
    failing: list[str]


def planned(
    items: Sequence[pytest.Item], book: Book, faults: Iterable[Fault], run: Callable[[Any], bool]
) -> Plan:
    """Run all tests and find out where each fault shows."""
    seen: dict[str, list[Numbers]] = {}
    current: list[Numbers] = []

    def note(numbers: Numbers) -> dict[str, Any]:
        if len(current) < MOST and not any(each is numbers for each in current):
            current.append(numbers)
        return numbers.__dict__["cells"]

    def keep(numbers: Numbers, cells: dict[str, Any]) -> None:
        numbers.__dict__["cells"] = cells

    Numbers.cells = property(note, keep)  # type: ignore[assignment]
    took, failing = {}, []
    for item in items:
        current = []
        began = time.monotonic()
        if not run(item):
            failing.append(item.nodeid)
        took[item.nodeid] = time.monotonic() - began
        seen[item.nodeid] = current
    del Numbers.cells  # type: ignore[attr-defined]

    seasons = {id(numbers): numbers for each in seen.values() for numbers in each}
    tests: dict[int, list[str]] = {}
    for name, each in seen.items():
        for numbers in each:
            tests.setdefault(id(numbers), []).append(name)
    sources = {item.nodeid: _source(item) for item in items}
    touched = {}
    for fault in faults:
        where = [at for at, numbers in seasons.items() if _shows(fault, book, numbers)]
        names = {name for at in where for name in tests[at]}
        touched[fault.id] = sorted(
            names, key=lambda n, f=fault: (f.name not in sources[n], took[n], n)
        )
    return Plan(touched, failing)


def _shows(fault: Fault, book: Book, numbers: Numbers) -> bool:
    if numbers.book is not book:
        return False
    if fault.kind.startswith(_MARK):
        return True  # Values stay; what rests on them changes its name.
    definition = book.definition(fault.table, fault.name)
    try:
        rule = numbers.rule(fault.tree)
        sound = numbers.cells[fault.table][fault.name]
        return any(_differ(rule(row), value) for row, value in enumerate(sound))
    except (KeyError, TypeError, ValueError, IndexError, ArithmeticError):
        return bool(numbers.rows(definition.table))


def _differ(one: Any, other: Any) -> bool:
    one, other = (None if each == "" else each for each in (one, other))
    numbers = isinstance(one, int | float) and isinstance(other, int | float)
    return abs(one - other) > 1e-9 * max(1, abs(other)) if numbers else one != other


def _source(item: pytest.Item) -> str:
    function = getattr(item, "function", None)
    return f"{item.nodeid}\n{inspect.getsource(function) if function else ''}"
