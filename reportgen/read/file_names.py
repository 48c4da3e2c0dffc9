"""What a file's name says: a date, and a name for what it holds."""

from __future__ import annotations

import re
from functools import cache
from pathlib import PurePosixPath

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


@cache
def base_of(file: str) -> str:
    """The name from which ids are made: the date, where there is one, moved to the end.

    ``batches/2026-09-05-pears.yaml`` gives ``pears-2026-09-05``.
    """
    stem = PurePosixPath(file).stem
    date = date_of(file)
    name = re.sub(r"[^A-Za-z0-9]+", "-", stem.replace(date, " ", 1) if date else stem).strip("-")
    if not name or not name[0].isalpha():
        name = f"batch-{name}".strip("-")
    return f"{name}-{date}" if date else name


def date_of(file: str) -> str:
    """The date in a file's name, as it stands there; empty where there is none."""
    found = _DATE.search(PurePosixPath(file).stem)
    return found.group() if found else ""
