"""What time it is: the one place that asks, and where ``SOURCE_DATE_EPOCH`` stands in."""

from __future__ import annotations

import errno
import os
from datetime import UTC, datetime

_NAME = "SOURCE_DATE_EPOCH"


def epoch() -> datetime | None:
    """The instant that stands in for the clock, where one is set.

    Raises :class:`OSError` with the variable's name where it holds no such instant.
    """
    text = os.environ.get(_NAME)
    if not text:
        return None
    try:
        return datetime.fromtimestamp(int(text), UTC)
    except (ValueError, OverflowError, OSError):
        raise OSError(
            errno.EINVAL, f"'{text[:40]}' is no number of seconds since 1970; unset it", _NAME
        ) from None


def now() -> datetime:
    """The present, by the clock on the wall, or what stands in for it."""
    return epoch() or datetime.now()
