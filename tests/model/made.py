"""Seasons for the tests of the model: written to a folder, and loaded."""

from __future__ import annotations

from pathlib import Path

from reportgen.model import load
from reportgen.model.season import Origin, Season, Value
from reportgen.read.problem import Problem

RECIPES = Path(__file__).parents[1] / "errors" / "product-data"
BASE = """season: Test
currency: USD
units: {fresh: lb, dried: oz}
dryers: [{id: shed, trays: 5}]
containers: [{id: can-10}]
"""


def write(folder: Path, files: dict[str, str]) -> Path:
    for name, text in {"season.yaml": BASE, **files}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def problems_of(folder: Path, files: dict[str, str]) -> list[Problem]:
    return load(write(folder, files), RECIPES)[1]


def season_of(folder: Path, files: dict[str, str]) -> Season:
    season, problems = load(write(folder, files), RECIPES)
    assert season is not None, problems
    return season


def row(season: Season, table: str, key: str) -> dict[str, Value]:
    rows = season.tables[table]
    index = rows.keys.index(key)
    return {name: values[index] for name, values in rows.values.items()}


def origin(season: Season, table: str, key: str, column: str) -> Origin:
    rows = season.tables[table]
    found = rows.origins[column][rows.keys.index(key)]
    assert found is not None
    return found
