"""Makes some runs of a season fail, and some lots one that was left from last season."""

from __future__ import annotations

from random import Random

from seasons.form import Season

_LAST_YEAR = ("price", "travel", "trip", "labor", "count", "container", "weighed", "weighed_count")
"""What is said of a lot in the season that bought it."""


def with_losses(rng: Random, season: Season) -> Season:
    """The season with runs that failed, dry weights of some of them gone, and lots carried over."""
    result = season.copied()
    coin = result.head["currency"]
    for row in result.table("runs"):
        if rng.random() < 0.25:
            row.record["failed"] = "true"
            for load in row.record.get("loads", []) if rng.random() < 0.7 else ():
                load.pop("dry", None)
                load.pop("dryness", None)
    for row in result.table("lots"):
        if "prepped" in row.record and rng.random() < 0.3:
            for name in _LAST_YEAR:
                row.record.pop(name, None)
            row.record["carried"] = {
                name: f"{rng.uniform(*span):.2f} {coin}"
                for name, span in (("running", (5, 20)), ("full", (20, 40)))
                if rng.random() < 0.9
            } or {"from": "last season"}
    return result
