"""How much of what is made up is tried: some of it at every change, all of it before a release."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar

Case = TypeVar("Case")

BEFORE_A_RELEASE = os.environ.get("REPORTGEN_RELEASE") == "required"
"""Whether ``tools/release`` asks: nothing may be owed, and every made-up case is tried."""


def some(of: int, at_every_change: int) -> int:
    """How many of so many cases are tried now; always the first of them."""
    return of if BEFORE_A_RELEASE else at_every_change


def every(number: int, cases: Sequence[Case]) -> Sequence[Case]:
    """Those of the cases that are tried now: at every change each third, say, from the first."""
    return cases if BEFORE_A_RELEASE else cases[::number]
