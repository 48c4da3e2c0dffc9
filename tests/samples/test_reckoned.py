"""A household's and a co-op's year: the program's totals are those of a script of its own."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from reportgen.program import read
from reportgen.units.days import date_of
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
            if value is None:
                assert ours is None, (product, key)
                continue
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


def test_mixes_are_those_of_the_script() -> None:
    """A shop asks 12.80 for 200 g of trail mix, of which four fifths would have been bought."""
    numbers = read(ROOT / "samples" / "nine-gates").numbers
    assert numbers is not None
    theirs = Season(ROOT / "samples" / "nine-gates", ROOT / "recipes").mixes
    rows = theirs.rows({"M-1109": 120 * 12.80 / 200 * 0.8})
    assert [*rows] == numbers.cells["mixes"]["key"] == ["powder-1", "trail-1", "soup-1"]
    for row, (mix, held) in enumerate(rows.items()):
        for name, value in held.items():
            assert numbers.value("mixes", name, row) == pytest.approx(value, abs=1e-9), (mix, name)
    for row, key in enumerate(map(str, numbers.cells["packs"]["key"])):
        if "carried" not in theirs.pack[key]:
            ours = numbers.value("packs", "running_each", row)
            assert ours == pytest.approx(theirs.each(theirs.pack[key], 0), abs=1e-9), key


@pytest.mark.parametrize("name", YEARS)
def test_nothing_is_wrong_with_it_but_what_nobody_weighed(name: str) -> None:
    numbers = read(ROOT / "samples" / name).numbers
    assert numbers is not None and numbers.value("season", "errors", 0) == 0
    checks = numbers.cells["checks"]
    failing = {key for key, many in zip(checks["key"], checks["failing"], strict=True) if many}
    planned = {"plan-too-little", "plan-does-not-fit"} if name == "nine-gates" else set()
    assert failing == planned | {
        "loads-wet-guessed", "loads-dry-guessed", "products-shop-price-missing",
        "packs-past-best-by", "packs-dryness-not-shown",
    }  # fmt: skip


def test_the_plan_of_the_winter_is_that_of_a_pencil() -> None:
    numbers = read(ROOT / "samples" / "nine-gates").numbers
    assert numbers is not None

    def plan(name: str) -> list[object]:
        return numbers.cells["plan"][name]

    # Squash: 14 tins less 2, less 501 g in bulk; 7 188.1 g of it make a kilogram dried, 6.091 kg
    # wait. Two bushels of 18.4 kg give 69.697 % prepped, which is less.
    dried = 12 * 480 - 501
    needed = dried * 7.1881068808 / 1000 - 6.0912582781
    had = 2 * 18.4 * (0.69696969697)
    assert plan("dried_needed")[1] == dried
    assert plan("prepped_needed")[1] == pytest.approx(needed, rel=1e-9)
    assert plan("prepped_planned")[1] == pytest.approx(had, rel=1e-9) and had < needed
    # (31.711 - 25.648) kg are 843 g dried, not quite two tins.
    assert plan("count_short")[1] == 2 and plan("count_filled")[1] == 10
    # 31.74 kg by 6.82 kg are 5 runs of 33 h from the 10th on: 132 h for four, 165 for five, and the
    # end of the 15th is 144 h on. The barn is let from the 16th to the 18th, so the fifth, which
    # would end on the 16th at 21, ends three days later.
    assert [plan(name)[1] for name in ("runs_needed", "runs_fit", "runs_over")] == [5, 4, 1]
    left = had + 6.0912582781 - 4 * 6.82
    assert plan("weight_over")[1] == pytest.approx(left, rel=1e-9)
    assert date_of(plan("finish")[1]) == date(2026, 1, 19)  # type: ignore[arg-type]
    # Carrots: 3 runs a week are 56 h each; the third would begin on the 14th at 16 and be cut.
    assert (plan("runs_fit")[0], plan("runs_over")[0]) == (3, 0)
    assert date_of(plan("finish")[0]) == date(2026, 1, 20)  # type: ignore[arg-type]
    # A second dryer like west: five runs in three turns, 99 h, so that all five fit.
    assert numbers.value("another", "runs_more", 0) == 1
