"""What edits do: the figures that moved, the verdict, the cautions that came or went."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reportgen.algebra.numbers import Numbers, Value

_FIGURES = (
    ("products", "running_per_packed"),
    ("products", "full_per_packed"),
    ("products", "running_to_retail"),
    ("season", "running_cost"),
    ("season", "full_cost"),
    ("season", "money_in"),
    ("season", "money_out"),
    ("season", "money_left"),
    ("season", "saving"),
)
"""What is told of a change: each product's cost by weight and against the shops, the money."""
_CLOSE = 1e-9


@dataclass(frozen=True)
class Effect:
    """A figure before and after; of a check, the row ``before`` and ``after`` say whether it
    fails."""

    table: str
    row: str
    quantity: str
    before: Value
    after: Value


def effects(before: Numbers, after: Numbers, also: Sequence[tuple[str, str]] = ()) -> list[Effect]:
    """Only what moved. ``also``: figures that are told besides."""
    told = [each for each in (*_FIGURES, *also) if _has(before, *each)]
    return [*_verdict(before, after), *_checks(before, after), *_figures(before, after, told)]


def _has(numbers: Numbers, table: str, name: str) -> bool:
    return name in numbers.cells.get(table, ())


def _verdict(before: Numbers, after: Numbers) -> Iterator[Effect]:
    was, now = (n.value("season", "verdict_of_all") for n in (before, after))
    if was != now:
        yield Effect("season", "season", "verdict_of_all", was, now)


def _checks(before: Numbers, after: Numbers) -> Iterator[Effect]:
    for check in before.book.checks:
        table, name = check.key
        was, now = (_failing(numbers, table, name) for numbers in (before, after))
        for row in [*was, *(each for each in now if each not in was)]:
            if (row in was) != (row in now):
                yield Effect(table, row, name, row in was, row in now)


def _failing(numbers: Numbers, table: str, name: str) -> list[str]:
    keys = numbers.cells[table].get("key") or [table]
    return [str(key) for key, fails in zip(keys, numbers.cells[table][name], strict=False) if fails]


def _figures(before: Numbers, after: Numbers, told: Sequence[tuple[str, str]]) -> Iterator[Effect]:
    for table, name in told:
        was, now = (_column(numbers, table, name) for numbers in (before, after))
        for row in [*was, *(each for each in now if each not in was)]:
            if not _same(was.get(row), now.get(row)):
                yield Effect(table, row, name, was.get(row), now.get(row))


def _column(numbers: Numbers, table: str, name: str) -> dict[str, Value]:
    keys = numbers.cells[table].get("key") or [table]
    return {str(key): value for key, value in zip(keys, numbers.cells[table][name], strict=False)}


def _same(a: Value, b: Value) -> bool:
    if isinstance(a, float | int) and isinstance(b, float | int):
        return abs(a - b) <= _CLOSE * max(1.0, abs(a), abs(b))
    return a == b
