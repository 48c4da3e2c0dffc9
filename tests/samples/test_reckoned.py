"""A household's and a co-op's year: the program's totals are those of a script of its own."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from reportgen.program import read
from samples.reckoned import UNITS, Season
from samples.reckoned_plan import Plan

pytestmark = pytest.mark.seasons

ROOT = Path(__file__).parents[2]
DAY_0, DAY = datetime(1899, 12, 30), timedelta(days=1)
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


def test_the_plan_of_the_winter_is_what_it_is_minute_by_minute() -> None:
    numbers = read(ROOT / "samples" / "nine-gates").numbers
    assert numbers is not None
    theirs = Plan(Season(ROOT / "samples" / "nine-gates", ROOT / "recipes"))
    plan = numbers.cells["plan"]
    fits = ("runs_fit", "runs_over", "weight_over", "earned_over")
    for row, held in enumerate(theirs.rows):
        for name in (*fits, *held):
            value = held.get(name)
            value = value if not isinstance(value, datetime) else (value - DAY_0) / DAY
            near = pytest.approx(value, rel=1e-9, abs=1e-9) if value else value
            # Without a last day, all of it fits, and without some over there is nothing to earn.
            assert plan[name][row] == near or (value is None and not plan[name][row]), (row, name)
    # By pencil: five runs of 33 h from the 10th on, of which four end by the 15th; the barn is let
    # from the 16th to the 18th, and the fifth, which would end on the 16th at 21, three days later.
    assert [(row["runs_fit"], row["runs_over"]) for row in theirs.rows[:2]] == [(3, 0), (4, 1)]
    assert plan["finish"][1] == (datetime(2026, 1, 19, 21) - DAY_0) / DAY


def test_weeks_and_one_more_dryer_are_those_of_the_minutes() -> None:
    numbers = read(ROOT / "samples" / "nine-gates").numbers
    assert numbers is not None
    theirs = Plan(Season(ROOT / "samples" / "nine-gates", ROOT / "recipes"))
    cells = numbers.cells["weeks"]
    names = ("dryer", "week", "taken", "closed_hours", "free")
    ours = {(row[0], row[1]): row[2:] for row in zip(*(cells[x] for x in names), strict=True)}
    listed = len(ours) // 3
    for dryer, week, taken, closed in theirs.weeks(listed - 1):
        held = ours.pop((dryer, (datetime(week.year, week.month, week.day) - DAY_0) / DAY))
        assert held == pytest.approx((taken, closed, 168 - taken - closed), abs=1e-6), (dryer, week)
    assert [row[0] for row in ours.values()] == pytest.approx([0, 0, 0]), "all that comes after"
    for name, value in theirs.another().items():
        assert numbers.value("another", name, 0) == pytest.approx(value, rel=1e-9), name
