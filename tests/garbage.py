"""Definitions are thousands of small objects that stay: looking them through for garbage again and
again takes a fourth of the time of a build."""

from __future__ import annotations

import gc


def seldom() -> None:
    """This process looks for garbage only now and then."""
    gc.set_threshold(1_000_000, 20, 50)
