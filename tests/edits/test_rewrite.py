"""Changed values are written into a season's files; read again, they are what was meant, and
nothing else has moved."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from reportgen.edits.restructure import Restructurer
from reportgen.edits.short_rows import Change
from reportgen.model import load
from reportgen.model.records import RECORDS
from reportgen.model.season import Season, Value
from reportgen.program import data

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parent.parent.parent
SEASONS = [ROOT / "samples" / name for name in ("windrow-lane", "colline")] + [
    ROOT / "templates" / "season"
]
WRITTEN = ("lots", "trips", "runs", "loads", "packs", "uses", "offers", "rates", "pricing", "scale",
           "dryers", "upkeep", "containers", "absorbers", "overheads", "carried_over",
           "plan", "place", "parts")  # fmt: skip


def read(path: Path) -> Season:
    season, problems = load(path, data("recipes"))
    assert season is not None, [each for each in problems if each.severity == "error"]
    return season


def texts(path: Path) -> dict[str, str]:
    return {
        each.relative_to(path).as_posix(): each.read_bytes().decode("utf-8")
        for each in path.rglob("*.yaml")
        if "recipes" not in each.relative_to(path).parts
    }


def another(rng: random.Random, value: Value, table: str, name: str) -> Value:
    """A value near one that is there, so that the season stays one."""
    if isinstance(value, bool | str) or value is None:
        return value
    found = next(each for each in RECORDS[table].inputs if each.name == name)
    if found.type == "date":
        return value + rng.choice([0.25, 0.5]) if found.clock else value + rng.choice([1, 2])
    if found.whole:
        return value + rng.choice([1, 2])
    if name == "meter_from":
        return max(round(value - rng.choice([0.5, 1.25]), 3), 0.0)
    if found.most == 1:
        return min(round(value * rng.choice([0.9, 0.95, 0.99]), 4), 1.0)
    return round(value * rng.choice([1.01, 1.02, 1.0321]), rng.choice([2, 3, 5]))


def changes(season: Season, rng: random.Random, share: float) -> Iterator[Change]:
    for table in WRITTEN:
        rows = season.tables[table]
        for row in range(len(rows.keys)):
            values = {}
            for name, column in rows.values.items():
                origin = rows.origins[name][row]
                if origin is None or origin.kind != "given" or rng.random() > share:
                    continue
                if name in ("run", "dryer", "lot") and table in ("loads", "upkeep"):
                    continue
                if name.endswith(("_weighings", "weighing_step")):
                    continue  # it says how another was written
                new = another(rng, column[row], table, name)
                if new != column[row]:
                    values[name] = new
            if values:
                yield Change(table, row, values)


def all_values(season: Season) -> dict[tuple[str, str, str], Value]:
    return {
        (table, name, f"{key}#{row}"): column[row]
        for table, rows in season.tables.items()
        for name, column in rows.values.items()
        for row, key in enumerate(rows.keys)
    }


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("path", SEASONS, ids=lambda each: each.name)
def test_what_was_changed_is_read_again(path: Path, seed: int, tmp_path: Path) -> None:
    copy = tmp_path / "season"
    shutil.copytree(path, copy)
    before = read(copy)
    rng = random.Random(seed)
    made = list(changes(before, rng, 0.02 if seed % 2 else 0.2))
    rewriter = Restructurer(before, texts(copy))
    for each in made:
        rewriter.change(each)
    for name, text in rewriter.texts().items():
        (copy / name).write_bytes(text.encode("utf-8"))
    after, problems = load(copy, data("recipes"))
    assert after is not None, [p for p in problems if p.severity == "error"]
    wanted = all_values(before)
    for change in made:
        key = before.tables[change.table].keys[change.row]
        for name, value in change.values.items():
            wanted[change.table, name, f"{key}#{change.row}"] = value
    found = all_values(after)
    # A pack's day follows the end of its run; one number in place of several is one weighing.
    follow = {"date", *(name for _, name, _ in wanted if name.endswith(("_weighings", "_step")))}
    differ = {
        k: (found.get(k), v)
        for k, v in wanted.items()
        if found.get(k) != v
        and not (isinstance(v, float) and isinstance(found.get(k), float)
                 and abs(v - found[k]) <= 1e-12 * abs(v))  # type: ignore[operator]
        and k[0] not in ("run_energy", "power")
        and k[1] not in follow
    }  # fmt: skip
    assert not differ
