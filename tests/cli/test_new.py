"""``new``: a season that checks, builds, teaches and warns."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from model.test_schema import Loader

from cli.seasons import run

pytestmark = pytest.mark.seasons

NOT_IN_EXAMPLES = ("strawberr", "blackberr", "cherr", "mango")


@pytest.fixture
def made(tmp_path: Path) -> Path:
    place = tmp_path / "my-season"
    assert run("new", place).exit_code == 0
    return place


def test_it_passes_check_and_shows_what_open_looks_like(made: Path) -> None:
    done = run("check", made)
    assert done.exit_code == 0
    assert done.stderr == ""
    assert "Errors" not in done.stdout and "Cautions" not in done.stdout
    assert "Still open" in done.stdout
    assert done.stdout.endswith("All checks pass.\n")


def test_it_builds_and_every_product_has_a_cost(made: Path, tmp_path: Path) -> None:
    assert run("build", made, "-o", tmp_path / "a.xlsx").exit_code == 0
    costs = run("explain", made, "products.running_per_packed").stdout
    assert costs.count("USD/oz") == 3 and "unknown" not in costs


def test_every_file_names_its_schema_and_fits_it(made: Path) -> None:
    import json

    import yaml

    files = [each for each in made.rglob("*.yaml") if each.name != "sources.yaml"]
    assert len(files) >= 5
    for file in files:
        text = file.read_text("utf-8")
        named = re.match(r"# yaml-language-server: \$schema=(\S+)\n", text)
        assert named, file
        schema = json.loads((file.parent / named.group(1)).read_text("utf-8"))
        wrong = list(Draft202012Validator(schema).iter_errors(yaml.load(text, Loader)))
        assert not wrong, (file, wrong)


def test_it_shows_both_forms_and_its_own_product_data(made: Path) -> None:
    texts = {each.name: each.read_text("utf-8") for each in made.rglob("*.yaml")}
    assert any(re.search(r"^bought: ", text, re.M) for text in texts.values())
    assert any(re.search(r"^lots:$", text, re.M) for text in texts.values())
    assert all("#" in text for text in texts.values())
    assert (made / "recipes" / "plum-halves.yaml").is_file()


def test_the_cautions_stand_where_they_are_read(tmp_path: Path) -> None:
    done = run("new", tmp_path / "s")
    for text in (done.stdout, (tmp_path / "s" / "season.yaml").read_text("utf-8")):
        plain = " ".join(text.replace("#", "").split())
        for words in ("does not make food safe", "botulism", "egg and dairy", "Weight alone cannot",
                      "local food rules", "last word"):  # fmt: skip
            assert words in plain


def test_no_example_uses_what_examples_must_not(made: Path) -> None:
    for file in made.rglob("*.yaml"):
        assert not any(word in file.read_text("utf-8").lower() for word in NOT_IN_EXAMPLES)


def test_a_folder_with_something_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    done = run("new", tmp_path)
    assert done.exit_code == 2
    assert "is not empty" in " ".join(done.stderr.split())
    assert [each.name for each in tmp_path.iterdir()] == ["mine.txt"]


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    assert run("new", tmp_path / "mine.txt").exit_code == 2
    assert run("new", tmp_path / "mine.txt" / "s").exit_code == 2


def test_an_empty_folder_and_folders_above_are_fine(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert run("new", tmp_path / "empty").exit_code == 0
    assert run("new", tmp_path / "a" / "b" / "c").exit_code == 0
