"""Mixes typed into the workbook come home: parts, what was bought, packs of them, other ids."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import LISTS, SEASON_FILE, SETTINGS, SHORT, Desk, desk
from reportgen.program import read

pytestmark = pytest.mark.slow

MIXES = """\
mixes:
  - id: dust-1
    product: apple-dust
    date: 2025-10-01
    from: [{product: apple-rings, weight: 6 oz}]     # the crumbs as well
    out: 5.8 oz
  - id: snack-1
    product: snack
    date: 2025-10-02
    from:
      - {product: pear-slices, weight: 5 oz}
      - {pack: P-1, count: 2}
      - {mix: dust-1, weight: 1 oz}
    bought: [{item: seeds, weight: 3 oz, price: 2.40 USD, allergens: []}]
    labor: 30 min
packs:
  - {id: S-1, product: snack, date: 2025-10-03, container: jar, count: 4, net: 2 oz,
     from: [snack-1]}
"""
FILE = "batches/mixes.yaml"


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    season = tmp_path / "made" / "alder"
    files = {
        SEASON_FILE: SETTINGS, "batches/pears.yaml": LISTS, FILE: MIXES,
        "batches/2025-09-12-apples.yaml": SHORT,
        "recipes/snack.yaml": "name: Snack\n", "recipes/apple-dust.yaml": "name: Apple dust\n",
    }  # fmt: skip
    for name, text in files.items():
        (season / name).parent.mkdir(parents=True, exist_ok=True)
        (season / name).write_text(text, "utf-8")
    return desk(tmp_path, season)


def home(at: Desk, *options: str) -> str:
    """The file of the mixes after ``take``; then nothing is left, and a second one does nothing."""
    done = at.run("take", *options)
    assert done.exit_code == 0, done.output
    after = at.texts()
    assert {*at.kinds()} <= {"home"}
    assert at.run("take", *options).exit_code == 0 and at.texts() == after
    return after[FILE]


def test_numbers_and_words_of_parts(at: Desk) -> None:
    at.type(
        {
            at.at.cell("mix_parts", "part-1", "weight"): 7,
            at.at.cell("mix_parts", "part-3", "count"): 1,
            at.at.cell("bought_parts", "bought-1", "allergens"): "sesame, milk",
            at.at.cell("bought_parts", "bought-1", "water_activity"): 0.4,
            at.at.cell("mixes", "snack-1", "out"): 30,
        }
    )
    text = home(at)
    assert "from: [{product: apple-rings, weight: 7 oz}]     # the crumbs as well" in text
    assert "- {pack: P-1, count: 1}" in text and "out: 30 oz" in text
    assert 'allergens: "sesame, milk", dryness: {water_activity: 0.4}' in text


def test_a_new_part_a_new_bought_one_and_a_new_mix(at: Desk) -> None:
    at.type({
        at.at.new("mix_parts", "key"): "part-9", at.at.new("mix_parts", "into"): "snack-1",
        at.at.new("mix_parts", "product"): "apple-rings", at.at.new("mix_parts", "weight"): 2,
        at.at.new("bought_parts", "key"): "bought-9", at.at.new("bought_parts", "into"): "dust-1",
        at.at.new("bought_parts", "item"): "salt", at.at.new("bought_parts", "allergens"): "none",
        at.at.new("mixes", "key"): "snack-2", at.at.new("mixes", "product"): "snack",
        at.at.new("draws", "key"): "draw-9", at.at.new("draws", "pack"): "S-1",
        at.at.new("draws", "mix"): "snack-2",
    })  # fmt: skip
    # A mix of nothing is none: what went into it stands in a row of its own.
    done = at.run("take")
    assert done.exit_code == 1 and "does not say what went into it" in done.output
    sheet, ref = at.at.new("mix_parts", "key")
    below = int("".join(filter(str.isdigit, ref))) + 1

    def second(name: str) -> tuple[str, str]:
        _, one = at.at.new("mix_parts", name)
        return sheet, "".join(filter(str.isalpha, one)) + str(below)

    at.type({
        second("key"): "part-10", second("into"): "snack-2", second("product"): "pear-slices",
        second("weight"): 4,
    })  # fmt: skip
    text = home(at)
    assert "- {product: apple-rings, weight: 2 oz}" in text
    assert "bought:" in text.partition("snack-1")[0] and "item: salt" in text
    assert "from: [snack-1, snack-2]" in text
    assert "id: snack-2" in "".join(at.texts().values())


def test_another_id_is_followed(at: Desk) -> None:
    at.type({at.at.cell("mixes", "dust-1", "key"): "dust-2"})
    text = home(at)
    assert "id: dust-2" in text and "mix: dust-2" in text and "dust-1" not in text


def test_a_part_is_taken_away(at: Desk) -> None:
    at.clear("mix_parts", "part-2")
    text = home(at, "--removals")
    assert "pear-slices" not in text and "{pack: P-1, count: 2}" in text


def test_a_part_becomes_another(at: Desk) -> None:
    at.type(
        {
            at.at.cell("mix_parts", "part-3", "pack"): None,
            at.at.cell("mix_parts", "part-3", "count"): None,
            at.at.cell("mix_parts", "part-3", "product"): "pear-slices",
            at.at.cell("mix_parts", "part-3", "weight"): 4,
        }
    )
    assert "- {product: pear-slices, weight: 4 oz}\n      - {mix: dust-1" in home(at)


def test_what_was_typed_is_what_a_build_gives(at: Desk) -> None:
    at.type({at.at.cell("mix_parts", "part-4", "weight"): 2})
    home(at)
    numbers = read(at.folder).numbers
    assert numbers is not None
    assert numbers.value("mix_parts", "weight_in", 3) == 2


def test_a_chain_of_three_is_refused_by_cell(at: Desk) -> None:
    at.type(
        {
            at.at.cell("mix_parts", "part-1", "product"): None,
            at.at.cell("mix_parts", "part-1", "pack"): "S-1",
            at.at.cell("mix_parts", "part-1", "count"): 1,
            at.at.cell("mix_parts", "part-1", "weight"): None,
        }
    )
    done = at.run("take")
    assert done.exit_code == 1 and "goes into itself" in done.output
