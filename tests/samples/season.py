"""The two samples, read once for all tests, and their columns by name."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from reportgen.program import Read, read

ROOT = Path(__file__).parents[2]
NAMES = ("windrow-lane", "colline")


@cache
def sample(name: str) -> Read:
    """A sample season and its numbers."""
    return read(ROOT / "samples" / name)


def column(name: str, table: str, quantity: str) -> dict[str, object]:
    """A quantity of every row of a table, by the row's key."""
    values = sample(name).numbers
    assert values is not None
    cells = values.cells[table]
    return dict(zip(map(str, cells["key"]), cells[quantity], strict=True))


def numbers_of(
    name: str, table: str, quantity: str, blank: float | None = None
) -> dict[str, float]:
    """The same for numbers; ``blank`` is what left out means, else an unknown one fails."""
    found: dict[str, float] = {}
    for key, value in column(name, table, quantity).items():
        value = blank if value is None else value
        assert isinstance(value, int | float), f"{table}.{quantity} of {key} is {value!r}"
        found[key] = float(value)
    return found
