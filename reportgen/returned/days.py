"""Days and spans of time as formats write them out (ISO 8601), as numbers of days."""

from __future__ import annotations

import re
from datetime import datetime, time

from reportgen.units.days import day_number

_SPAN = re.compile(r"(-?)PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?")
_SECONDS = 86_400


def number_of(text: str) -> float | None:
    """A day, and the time on it, as the number of days that a spreadsheet keeps; None where it is
    none."""
    try:
        found = datetime.fromisoformat(text.strip())
    except ValueError:
        return None
    since = found.replace(tzinfo=None) - datetime.combine(found.date(), time())
    return day_number(found.date()) + since.total_seconds() / _SECONDS


def span_of(text: str) -> float | None:
    """A span of time, ``PT34H30M00S``, in days; None where it is none."""
    found = _SPAN.fullmatch(text.strip())
    if found is None:
        return None
    sign, hours, minutes, seconds = found.groups()
    whole = int(hours or 0) * 3600 + int(minutes or 0) * 60
    days = (whole + float((seconds or "0").replace(",", "."))) / _SECONDS
    return -days if sign else days
