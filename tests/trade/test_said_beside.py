"""What stands beside figures so that nobody has to guess, on seasons worked out by hand."""

from __future__ import annotations

from math import ceil
from typing import Any

import pytest
from published.figures import Figures

from reportgen.layout.compose import compose
from reportgen.program import Read
from reportgen.sheets.all import SHEETS, contents
from trade.rich import reading
from trade.test_checks import tables

pytestmark = pytest.mark.seasons


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Read:
    return reading(tmp_path_factory.mktemp("full"))


def cells(done: Read, table: str) -> dict[str, list[Any]]:
    assert done.numbers is not None
    return done.numbers.cells[table]  # type: ignore[return-value]


def test_scenarios_go_by_their_names_and_by_their_ids_where_they_have_none() -> None:
    named = [{"key": "dear", "name": "Dear power"}, {"key": "cheap"}]
    products = [{"key": "food", "name": "Food, sliced"}]
    found = Figures(changes=named, products=products)
    assert found.numbers.cells["changes"]["called"] == ["Dear power", "cheap"]
    assert found.numbers.cells["scenarios"]["called"] == ["Dear power", "cheap"]
    assert found.numbers.cells["scenarios"]["product_called"] == ["Food, sliced"] * 2


def test_charts_leave_out_the_yield_of_what_went_back_in(full: Read) -> None:
    loads = cells(full, "loads")
    drawn = dict(zip(loads["key"], loads["yield_drawn"], strict=True))
    assert drawn["r-1/t-1"] == pytest.approx(19.9 / (11 * 16))  # 16 oz to the pound
    # 11.6 oz went back in and 10.8 came out: 0.93, by the side of which all others look flat.
    assert drawn["r-4/t-1"] is None and drawn["r-5/t-2"] is None


def test_the_plan_says_whose_hours_it_reckons_with() -> None:
    planned = {"product": "food", "container": "tin", "count": 2, "net": 0.3, "dryer": "dryer"}
    found = Figures(**tables(plan=planned, products={"run_time": 20.0}))
    assert found("plan", "hours_basis") == "your own runs"
    found = Figures(**tables(plan=planned, products={"run_time": 20.0}, runs={"duration": None}))
    assert found("plan", "hours_basis") == "rule of thumb, until you have run it"
    assert found("plan", "time_each") == 20


def test_payback_is_said_of_every_dryer_that_has_a_price(full: Read) -> None:
    dryers = cells(full, "dryers")
    for key, left, said in zip(
        dryers["key"], dryers["payback_left"], dryers["payback_said"], strict=True
    ):
        assert said == f"{key}: paid for after about {ceil(left)} more runs"
    paid = Figures(**tables(dryers={"saved_before": 100.0}))
    assert paid("dryers", "payback_said") == "dryer: already paid for"
    assert Figures(**tables(dryers={"price": None}))("dryers", "payback_said") is None


def test_the_first_sheet_says_how_many_more_checks_fail() -> None:
    assert Figures(**tables())("season", "look_besides") is None
    one = Figures(**tables(packs={"date": None}))
    assert (one("season", "checks_failing"), one("season", "look_besides")) == (1, None)
    # No day, and more packed than was dried.
    two = Figures(**tables(packs={"date": None, "count": 5}))
    many = sum(1 for failing in two.numbers.cells["checks"]["failing"] if failing)
    assert two("season", "checks_failing") == many > 1
    assert two("season", "look_besides") == f"{many - 1} more, on the sheet Checks"


def test_pack_by_pack_what_lists_must_hold(full: Read) -> None:
    draws = cells(full, "draws")
    # Each run held one load of the product that its packs are of; five packs are few.
    assert draws["loads_behind"] == [1] * 6
    assert cells(full, "season")["shelf_places"] == [5]
    # Turnips: five loads, three packs, a use of crumbs; beets: two loads and two packs.
    assert cells(full, "products")["bulk_moves"] == [5 + 3 + 1, 2 + 2]
    # Stall, spoiled, co-op, crumbs.
    assert cells(full, "uses")["went_out"] == [True, False, True, False]


def test_prices_are_explained_in_words_below_them(full: Read) -> None:
    assert full.numbers is not None
    book = compose(contents(SHEETS, full.numbers), full.numbers, "", "en", "a4")
    page = next(page for page in book.pages if page.name == "Pricing")
    texts = {
        (band.first, strip.column): str(strip.values[0])
        for band in page.bands
        for strip in band.strips
    }
    for label, rule, what in (
        ("Floor price", "full cost of one ÷", "after tax and fees"),
        ("Price to ask", "rounded up", "the margin after tax and fees"),
    ):
        (row,) = (row for (row, column), text in texts.items() if (column, text) == (1, label))
        assert rule in texts[row, 3] and what in texts[row + 1, 3]


def test_a_month_is_a_convention_and_no_definition(full: Read) -> None:
    """NIST Special Publication 811, table 8 and appendix B, knows day and year of 365 days; no
    month."""
    assert full.numbers is not None and full.season is not None
    book = compose(contents(SHEETS, full.numbers), full.numbers, "", "en", "a4")
    page = next(each for each in book.pages if each.name == "Constants")
    said = {
        str(band.strips[0].values[0]): str(band.strips[-1].values[0])
        for band in page.bands
        if " in 1 " in str(band.strips[0].values[0])
    }
    months = {label for label in said if "month" in label}
    assert months and len(said) > len(months)
    assert {said[each] for each in months} == {"a twelfth of 365 days: our convention"}
    assert all("NIST" in source for label, source in said.items() if label not in months)
