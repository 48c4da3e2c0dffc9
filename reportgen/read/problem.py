"""Where a value stands, and what is wrong with one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple


class Place(NamedTuple):
    """A spot in a file; ``line`` and ``column`` count from 1, line 0 is the file as a whole.

    ``file`` is relative to the season. A named tuple, because a large season makes 100,000.
    """

    file: str
    line: int = 0
    column: int = 1
    length: int = 1


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong, in parts; :mod:`reportgen.read.report` makes the sentence.

    ``what`` is wrong; ``expected`` is what was looked for; ``do`` is what to do about it, the near
    match included.
    """

    place: Place
    what: str
    expected: str = ""
    do: str = ""
    severity: Literal["error", "caution"] = "error"


class Refusal(Exception):
    """A text that the grammar does not take, in the parts of a :class:`Problem`."""

    def __init__(self, what: str, expected: str = "", do: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.expected = expected
        self.do = do
