"""The schemas accept what is right and refuse what is wrong, by an independent validator."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from model.made import BASE
from model.test_load import FULL
from model.test_short import FLAT as SHORT
from reportgen.model.schema import batch_schema, recipe_schema, season_schema

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
RECIPES = ROOT / "recipes"
SCHEMAS = (season_schema, batch_schema, recipe_schema)


class Loader(yaml.SafeLoader):
    """As editors read: YAML 1.2, where days and clock times are texts."""


Loader.yaml_implicit_resolvers = {
    sign: [each for each in found if each[0] not in
           ("tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:int")]
    for sign, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
}  # fmt: skip
Loader.add_implicit_resolver(
    "tag:yaml.org,2002:int", re.compile(r"[-+]?[0-9]+$"), list("-+0123456789")
)


def accepted(schema: dict[str, Any], text: str) -> bool:
    return Draft202012Validator(schema).is_valid(yaml.load(text, Loader))


@pytest.mark.parametrize("make", SCHEMAS)
def test_they_are_schemas(make: Callable[[], dict[str, Any]]) -> None:
    Draft202012Validator.check_schema(make())


def test_right_files_are_accepted() -> None:
    assert accepted(season_schema(), BASE)
    assert accepted(season_schema(), BASE + FULL)
    assert accepted(batch_schema(), FULL)
    assert accepted(batch_schema(), SHORT)


@pytest.mark.parametrize(
    "text",
    [
        "lots: [{product: pear-slices, price: 16 USD per flat}]",
        "lots: [{product: pear-slices, price: 90 cents a lb, weighed: ~20 lb}]",
        "lots: [{product: pear-slices, count: 2, price: 14 USD each}]",
        "uses: [{date: 2025-10-03, product: pear-slices, weight: rest, for: household}]",
        "runs: [{started: 2025-10-03 8 pm, loads: [{lot: a, wet: {gross: [4 lb, 4.1 lb]}}]}]",
    ],
)
def test_what_people_write_is_accepted(text: str) -> None:
    assert accepted(batch_schema(), text)


def test_every_shipped_recipe_is_accepted() -> None:
    files = [each for each in RECIPES.glob("*.yaml") if each.stem != "sources"]
    assert len(files) >= 16
    for each in files:
        assert accepted(recipe_schema(), each.read_text("utf-8")), each.name


def test_every_sample_is_accepted() -> None:
    for each in (ROOT / "samples").glob("*/**/*.yaml"):
        if each.parent.name == "recipes":
            continue
        schema = season_schema() if each.name == "season.yaml" else batch_schema()
        assert accepted(schema, each.read_text("utf-8")), each


@pytest.mark.parametrize(
    "text",
    [
        "lots: [{product: pear-slices, containr: lug}]",
        "lots: [{count: 3}]",
        "lots: {product: pear-slices}",
        "lots: [{product: pear-slices, weighed: 72.4}]",
        "lots: [{product: pear-slices, weighed: '72,4 lb'}]",
        "lots: [{product: pear-slices, date: 5.9.2026}]",
        "lots: [{product: pear-slices, water: 0.845}]",
        "lots: [{product: pear-slices, count: 2.5}]",
        "lots: [{product: pear-slices, count: 0}]",
        "lots: [{id: 1st, product: pear-slices}]",
        "uses: [{product: pear-slices, weight: 2 oz, for: two things}]",
        "product: pear-slices\nlots: []",
        "product: pear-slices\npackd: 4 can-10 of 11 oz",
    ],
)
def test_wrong_batches_are_refused(text: str) -> None:
    assert not accepted(batch_schema(), text)


def test_every_key_is_described() -> None:
    # What an editor shows while a key is typed.
    for name, held in season_schema()["properties"].items():
        forms = [held, *held.get("anyOf", [])]
        assert any("description" in each for each in forms), name
