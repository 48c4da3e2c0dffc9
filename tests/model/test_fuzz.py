"""Whatever stands in a season's files, the answer is a season or problems, never an exception."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from model.made import BASE, RECIPES, write
from model.test_load import FULL
from model.test_short import FLAT as SHORT
from reportgen.model import load
from reportgen.model.records import BATCH, ONLY_SEASON, RECORDS
from reportgen.read.files import lines_of
from reportgen.read.report import text

pytestmark = pytest.mark.slow

words = st.sampled_from(
    ["pears-1", "pear-slices", "pear", "72.4 lb", "52 oz", "3", "0", "-1", "true", "34:30", "35 %",
     "2026-09-05", "2026-09-05 18:30", "18:30", "28 USD", "28 USD/lug", "1 USD/lb", "lug", "shed",
     "can-10", "run-07", "run-07/pears-1", "stall", "sample", "", "null", "mar-1", "x" * 70, "1e9"]
)  # fmt: skip
keys = st.sampled_from(sorted({f.name for r in RECORDS.values() for f in r.fields})) | words
nodes = st.recursive(
    words | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(keys, inner, max_size=5),
    max_leaves=8,
)


def record(name: str) -> st.SearchStrategy[object]:
    """A record with its own keys, each with something or other."""
    fields = {field.name: words | nodes for field in RECORDS[name].fields}
    one = st.fixed_dictionaries({}, optional=fields)
    single = RECORDS[name].key == "single"
    return (one if single else st.lists(one, max_size=3)) | nodes


def holding(names: tuple[str, ...]) -> st.SearchStrategy[dict[str, object]]:
    return st.fixed_dictionaries({}, optional={name: record(name) for name in names})


flat = st.fixed_dictionaries(
    {"product": words}, optional={key: words | nodes for key in
     ("bought", "wet", "dry", "run", "packed", "id", "date", "price", "dryness")}
)  # fmt: skip


def answer(files: dict[str, str]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        season, problems = load(write(Path(folder), files), RECIPES)
        failed = any(each.severity == "error" for each in problems)
        assert (season is None) == failed
        for each in problems:
            assert each.what and each.do
            assert "\n" not in text(each, lambda name: [])
            assert text(each, lines_of(Path(folder)))


@settings(max_examples=150)
@given(holding((*ONLY_SEASON, *BATCH)), holding(BATCH) | flat | nodes)
def test_any_tree(season: dict[str, object], batch: object) -> None:
    answer(
        {
            "season.yaml": BASE
            + yaml.safe_dump(
                {k: v for k, v in season.items() if k not in ("dryers", "containers")}
            ),
            "batches/2026-09-05-a.yaml": yaml.safe_dump(batch),
        }
    )


@settings(max_examples=150)
@given(
    st.sampled_from([FULL, SHORT]), st.integers(0, 2000), st.integers(0, 12), st.text(max_size=4)
)
def test_any_slip_of_the_hand(whole: str, start: int, cut: int, put: str) -> None:
    start %= len(whole)
    text = whole[:start] + put + whole[start + cut :]
    answer({"batches/a.yaml": text.encode("utf-8", "replace").decode()})


@settings(max_examples=60)
@given(nodes)
def test_any_recipe(recipe: object) -> None:
    answer(
        {
            "recipes/pear-slices.yaml": yaml.safe_dump(recipe),
            "batches/a.yaml": "product: pear-slices\n",
        }
    )
