"""A plan lived through hour by hour: what a dryer does in each, by the contract's text alone.

Days are counted from 0, hours from the midnight of day 0. A row is a dict: dryer, start, until,
runs, slot (hours from run to run).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

Row = dict[str, Any]


@dataclass
class Lived:
    """What became of a row, and by dryer and hour what went on."""

    begin: dict[int, int] = field(default_factory=dict)
    finish: dict[int, int] = field(default_factory=dict)
    fit: dict[int, int] = field(default_factory=dict)
    taken: dict[str, set[int]] = field(default_factory=dict)


def live(rows: list[Row], shut: set[tuple[str, int]], side_by_side: int = 1) -> Lived:
    """Each dryer by itself: rows by start, then as written; on a closed day nothing moves."""
    lived = Lived()
    for dryer in {row["dryer"] for row in rows}:
        queue = [n for n, row in enumerate(rows) if row["dryer"] == dryer]
        queue.sort(key=lambda n: rows[n]["start"])
        lived.taken[dryer] = set()
        hour = 24 * min(row["start"] for row in rows)
        for n in queue:
            row, done = rows[n], 0
            while hour < 24 * row["start"] or (dryer, hour // 24) in shut:
                hour += 1
            lived.begin[n] = lived.finish[n] = hour
            lived.fit[n] = 0
            while done < row["runs"]:
                left = row["slot"]
                while left:
                    if (dryer, hour // 24) not in shut:
                        lived.taken[dryer].add(hour)
                        left -= 1
                    hour += 1
                ended = min(side_by_side, row["runs"] - done)
                done += ended
                if row["until"] is not None and hour <= 24 * (row["until"] + 1):
                    lived.fit[n] += ended
                lived.finish[n] = hour
    return lived
