"""``recipes``: every value of the product data, with its source, against the files themselves."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from cli.seasons import ROOT, run, season

pytestmark = pytest.mark.seasons

FOLDER = ROOT / "recipes"
PRODUCTS = sorted(path.stem for path in FOLDER.glob("*.yaml") if path.stem != "sources")
SOURCES: dict[str, dict[str, str]] = yaml.safe_load((FOLDER / "sources.yaml").read_text("utf-8"))


def recipe(product: str) -> dict[str, Any]:
    made: dict[str, Any] = yaml.safe_load((FOLDER / f"{product}.yaml").read_text("utf-8"))
    return made


def words(text: str) -> str:
    return " ".join(text.split())


def test_the_list_has_a_line_for_every_product() -> None:
    done = run("recipes")
    assert done.exit_code == 0
    head, *lines = done.stdout.splitlines()
    assert head.split() == ["ID", "NAME", "KIND", "WATER", "WATER", "FROM"]
    assert [line.split()[0] for line in lines[: len(PRODUCTS)]] == PRODUCTS
    for line, product in zip(lines, PRODUCTS, strict=False):
        made = recipe(product)
        for said in (made["name"], made["kind"], made["water"]["value"]):
            assert said in line


@pytest.mark.parametrize("product", PRODUCTS[::6])
def test_one_is_shown_whole_with_every_source_and_caution(product: str) -> None:
    text = words(run("recipes", product).stdout)
    made = recipe(product)
    sourced = [each for each in made.values() if isinstance(each, dict) and "source" in each]
    sourced += [*made["containers"].values(), *made["cautions"]]
    for each in sourced:
        assert words(each.get("value") or each["text"]) in text
        assert words(SOURCES[each["source"]]["title"]) in text
        assert words(each.get("note", "")) in text and words(each.get("basis", "")) in text
    assert f"from {made['water']['low']} to {made['water']['high']}" in text
    assert made["ingredients"] in text and words(made["storage"]) in text


def test_every_number_in_brackets_has_its_source_and_memory_is_said() -> None:
    text = run("recipes", "plum-halves").stdout
    body, _, sources = text.partition("\nSources\n")
    assert set(re.findall(r"\[(\d+)\]", body)) == set(re.findall(r"^  \[(\d+)\]", sources, re.M))
    assert SOURCES[recipe("plum-halves")["prep_yield"]["source"]]["seen"] == "memory"
    assert "(from memory, not seen)" in words(sources)


def own(folder: Path, **files: str) -> Path:
    made = season(folder)
    (made / "recipes").mkdir()
    for name, text in files.items():
        (made / "recipes" / f"{name}.yaml").write_text(text, "utf-8")
    return made


def test_a_seasons_own_values_stand_above_with_their_line(tmp_path: Path) -> None:
    made = own(
        tmp_path,
        turnips="name: Turnip cubes\nkind: vegetable\nwater: {value: 91 %, source: practice}\n",
        carrots="# weighed\nwater: 89.4 %\ncontainers:\n  sack: {value: 50 lb, source: practice}\n",
    )
    assert "turnips" not in run("recipes").stdout
    listed = run("recipes", "--season", made).stdout
    assert re.search(r"^turnips +Turnip cubes +vegetable +91 % +common practice$", listed, re.M)
    text = run("recipes", "Carrots", "--season", made).stdout
    assert re.search(r"^water +89.4 % \(recipes/carrots.yaml:2\)$", text, re.M)
    assert re.search(r"^one sack +50 lb \[\d\] \(recipes/carrots.yaml:4\)$", text, re.M)
    for name, weight in recipe("carrots")["containers"].items():
        assert re.search(rf"^one {name} +{re.escape(weight['value'])} \[\d\]$", text, re.M)


def test_a_faulty_recipe_is_told_with_its_line(tmp_path: Path) -> None:
    done = run("recipes", "--season", own(tmp_path, turnips="water: 191 %\nsalt: much\n"))
    assert done.exit_code == 1 and done.stdout == ""
    assert "recipes/turnips.yaml:1:" in done.stderr and "recipes/turnips.yaml:2:" in done.stderr
    assert "2 errors. Correct them and try again." in done.stderr


def test_what_is_not_there_is_a_wrong_command_line(tmp_path: Path) -> None:
    done = run("recipes", "apple-ring")
    assert done.exit_code == 2
    assert "there is no product 'apple-ring'; did you mean apple-rings?" in words(done.stderr)
    assert run("recipes", "--season", tmp_path / "nix").exit_code == 2
