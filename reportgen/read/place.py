"""Where a value stands, and what is wrong with one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Place:
    """A spot in a file; ``line`` and ``column`` count from 1. ``file`` is relative to the season."""

    file: str
    line: int
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
