"""Where the rows of each row that totals them stand, as a workbook's columns find them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from reportgen.algebra.operations import Value, folded


class Found(NamedTuple):
    """Where the rows of one row begin, whether in one block, and whether its owner had to look
    through all for them."""

    first: int | None
    together: bool
    searched: bool

    @property
    def read_from(self) -> int:
        """The place from which a total is read."""
        return 0 if self.first is None else self.first if self.together else -1


def found(owns: Sequence[Value], keys: Sequence[Value], guessing: bool) -> Iterator[Found]:
    """For each row that totals, known by ``owns``; ``guessing``: it sees first whether its rows
    begin where those of the row above end."""
    groups: dict[Value, dict[int, None]] = {}
    for row, key in enumerate(keys, 1):
        if key is not None:
            groups.setdefault(key, {})[row] = None
    guess = 1
    for own in owns:
        rows = groups.get(own, {}) if own is not None else {}
        first = guess if guessing and guess in rows else next(iter(rows), None)
        length = 0
        while first is not None and first + length in rows:
            length += 1
        yield Found(first, length == len(rows), own is not None and guess not in rows)
        guess = 1 if first is None else first + length


def searches(ids: Sequence[Value], places: Sequence[int | None]) -> int:
    """How many rows would look for the row that they name: it is neither that of the row above nor
    the one behind it."""
    looked, last, above = 0, None, -1
    for each, place in zip(map(folded, ids), places, strict=True):
        if each is not None and each != last:
            looked += place != above + 1
        last, above = each, -1 if place is None else place
    return looked
