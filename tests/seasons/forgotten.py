"""Takes weights out of a season as people forget them: a dry weight written for the whole run, a
load dried again without a weighing between, a dry weight that only the packs can tell."""

from __future__ import annotations

from random import Random
from typing import Any

from seasons.form import Season, load_key
from seasons.numbers import grams
from seasons.pen import number


def with_forgotten_weights(rng: Random, season: Season) -> Season:
    """The season without some of its weights."""
    result = season.copied()
    runs = [row.record for row in result.table("runs")]
    loads = {load_key(run["id"], load): load for run in runs for load in run.get("loads", [])}
    for load in loads.values():
        if "again" in load and rng.random() < 0.6:
            first = loads[load["again"]]
            for wanting in rng.choice(
                ([(load, "wet")], [(first, "dry")], [(load, "wet"), (first, "dry")])
            ):
                _forget(*wanting)
    for run in runs:
        weighed = [load for load in run.get("loads", []) if "dry" in load]
        if len(weighed) == len(run.get("loads", [])) > 0 and rng.random() < 0.2:
            run["dry"] = f"{number(sum(grams(load['dry']) for load in weighed), 1)} g"
            for load in weighed[: rng.randint(1, len(weighed))]:
                _forget(load, "dry")
        elif weighed and rng.random() < 0.25:
            _forget(rng.choice(weighed), "dry")
            _pack_it(result, run["id"])
    return result


def _forget(load: dict[str, Any], name: str) -> None:
    load.pop(name, None)
    if name == "dry":
        load.pop("dryness", None)


def _pack_it(season: Season, run: str) -> None:
    """Packs that name the run name no other."""
    for row in season.table("packs"):
        if run in row.record.get("from", []):
            row.record["from"] = [run]
