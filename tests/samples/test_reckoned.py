"""A household's and a co-op's year: the program's totals are those of a script of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.program import read
from samples.reckoned import UNITS, Season

ROOT = Path(__file__).parents[2]
YEARS = ("thimble-hill", "nine-gates")


@pytest.mark.parametrize("name", YEARS)
def test_totals_are_those_of_a_script_that_knows_only_the_files(name: str) -> None:
    done = read(ROOT / "samples" / name)
    assert done.problems == [] and done.numbers is not None
    numbers = done.numbers
    theirs = Season(ROOT / "samples" / name, ROOT / "recipes")
    for key, value in theirs.of_season().items():
        assert numbers.value("season", key, 0) == pytest.approx(value, rel=1e-9, abs=1e-9), key
    gram = 1 / UNITS[theirs.head["units"]["dried"]]
    products = [str(key) for key in numbers.cells["products"]["key"]]
    assert len(products) >= 7
    for row, product in enumerate(products):
        for key, value in theirs.of_product(product).items():
            times = {
                "running_cost": 1.0,
                "running_per_packed": 1 / gram,
                "running_bulk": 1 / gram,
                "full_bulk": 1 / gram,
            }.get(key, gram)
            ours = numbers.value("products", key, row)
            assert ours == pytest.approx(value * times, rel=1e-9, abs=1e-6), (product, key)


def test_market_days_and_sales_are_those_of_the_script() -> None:
    """Down to the full cost of each pack: six days, one of them at a café for less, and uses."""
    numbers = read(ROOT / "samples" / "nine-gates").numbers
    assert numbers is not None
    theirs = Season(ROOT / "samples" / "nine-gates", ROOT / "recipes")
    days = {market["id"]: market for market in theirs.rows["markets"]}
    assert [*days] == numbers.cells["markets"]["key"] and len(days) == 6
    for row, market in enumerate(days.values()):
        for name, value in theirs.of_market(market).items():
            ours = numbers.value("markets", name, row)
            assert ours == pytest.approx(value, abs=1e-9), (market["id"], name)
    for name, value in theirs.of_sales().items():
        assert numbers.value("season", name, 0) == pytest.approx(value, abs=1e-9), name
    difference = [numbers.value("markets", "difference", row) for row in range(6)]
    assert difference == pytest.approx([0, 0, -1, 0, 2, None])
    assert numbers.value("season", "market_difference", 0) == pytest.approx(1)


@pytest.mark.parametrize("name", YEARS)
def test_nothing_is_wrong_with_it_but_what_nobody_weighed(name: str) -> None:
    numbers = read(ROOT / "samples" / name).numbers
    assert numbers is not None and numbers.value("season", "errors", 0) == 0
    checks = numbers.cells["checks"]
    failing = {key for key, many in zip(checks["key"], checks["failing"], strict=True) if many}
    assert failing == {
        "loads-wet-guessed", "loads-dry-guessed", "products-shop-price-missing",
        "packs-past-best-by", "packs-dryness-not-shown",
    }  # fmt: skip
