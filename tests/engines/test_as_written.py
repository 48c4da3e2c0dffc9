"""A season with every kind of estimate: both engines work out what the program did."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

import pytest
from trade.small import RECIPES
from trade.written import HEAD, RECORDS

from engines import gnumeric, iron, libreoffice
from engines.compare import differences
from reportgen.program import read, workbook


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("written")
    (folder / "recipes").mkdir()
    for name, recipe in RECIPES.items():
        (folder / "recipes" / f"{name}.yaml").write_text(dedent(recipe))
    (folder / "season.yaml").write_text(HEAD + RECORDS)
    done = read(folder)
    assert done.season is not None and done.numbers is not None, done.problems
    weights = done.numbers.cells["loads"]
    open_ = [key for key, dry in zip(weights["key"], weights["weight_out"], strict=True) if not dry]
    assert open_ == ["lost/b", "going/t"] and None not in weights["weight_in"]
    path = folder / "season.xlsx"
    path.write_bytes(workbook(done.season, done.numbers))
    return path


def test_ironcalc(book: Path) -> None:
    assert differences(book, iron.recalculate(book)) == []


def test_libreoffice(book: Path, tmp_path: Path) -> None:
    assert differences(book, libreoffice.recalculate([book], tmp_path)[book]) == []


def test_gnumeric(book: Path, tmp_path: Path) -> None:
    assert differences(book, gnumeric.recalculate([book], tmp_path)[book]) == []
