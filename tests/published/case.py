"""A published figure, and how the program comes to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal

import pytest

Seen = Literal[
    "seen",  # the figure was read in the publication or in a copy of it
    "worked",  # the problem was seen; its answer follows from it and is worked out beside it
    "from memory, not seen",
]


@dataclass(frozen=True)
class Case:
    """``within``: how far the program may be off, relative; what the printed digits allow."""

    what: str
    source: str
    seen: Seen
    ours: Callable[[], Any]
    published: float
    within: float = 1e-12

    def check(self) -> None:
        assert self.ours() == pytest.approx(self.published, rel=self.within, abs=1e-12), self.source


def each(cases: Iterable[Case]) -> pytest.MarkDecorator:
    """The cases of a test, by what they are."""
    return pytest.mark.parametrize("case", [pytest.param(c, id=c.what) for c in cases])
