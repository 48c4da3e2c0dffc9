"""Power logs for the tests: written to a file, and read."""

from __future__ import annotations

from pathlib import Path

from reportgen.model.power_log.log import Log
from reportgen.model.power_log.reading import read_log
from reportgen.read.problem import Problem
from reportgen.read.zones import Zone

HOUR = 3600.0


def read(
    folder: Path, text: str | bytes, zone: str = "", name: str = "log.csv"
) -> tuple[Log | None, list[Problem]]:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_log(path, name, Zone(zone))


def log(folder: Path, text: str | bytes, zone: str = "") -> Log:
    """A log about which nothing is said."""
    found, problems = read(folder, text, zone)
    assert problems == []
    assert found is not None
    return found


def said(problems: list[Problem]) -> list[tuple[str, int, str]]:
    return [(each.severity, each.place.line, each.what) for each in problems]


def kwh(found: Log) -> float:
    return found.energy[-1]


def hours(found: Log) -> float:
    return (found.times[-1] - found.times[0]) / HOUR
