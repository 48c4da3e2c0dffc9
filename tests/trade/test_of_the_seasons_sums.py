"""What is reckoned over all of a season, with a pencil: its days, its sums, and what the checks of
its own sums say where they do not meet."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from reportgen.trade import BOOK
from trade.test_checks import BACK, LATER, SHELF, SHUT, TODAY, at_market, mixed, of_mix, tables
from trade.test_of_a_pack import FREE, told

DAYS = [
    ("lots", "date"), ("runs", "started"), ("mixes", "date"), ("packs", "date"), ("uses", "date"),
    ("markets", "date"), ("counts", "date"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "column"), DAYS)
def test_the_last_day_is_the_last_of_any_record(table: str, column: str) -> None:
    alone = Figures(season=[{"as_of": TODAY}], **{table: [{"key": "a", column: TODAY - 3}]})
    assert alone("season", "some_day") is True
    assert alone("season", "last_day") == TODAY - 3
    others = {each: [{"key": "a", day: TODAY - 9}] for each, day in DAYS}
    others[table] = [{"key": "a", column: TODAY - 2}, {"key": "b", column: TODAY - 5}]
    beside = Figures(season=[{"as_of": TODAY}], **others)
    assert beside("season", "last_day") == TODAY - 2


def test_a_season_without_a_day_has_no_last_one() -> None:
    nothing = Figures(season=[{"as_of": TODAY}], lots=[{"key": "a", "weighed": 1.0}])
    assert nothing("season", "some_day") is False
    assert nothing("season", "last_day") is None


NO_RATES: dict[str, Any] = {"rates": {"labor": None, "travel": None}}
DUST: dict[str, Any] = {"also_products": {"key": "dust"}}
TWO: dict[str, Any] = {
    "also_products": {"key": "other", "water": 0.8},
    "also_lots": {"key": "b", "product": "other", "weighed": 4.0, "prepped_weighed": 3.0,
                  "price_total": 6.0},
    "also_runs": {"key": "two", "dryer": "dryer", "started": TODAY - 5, "duration": 10.0,
                  "energy": 4.0},
    "also_loads": {"id": "o", "run": "two", "lot": "b", "wet": 3.0, "dry": 0.7},
    "also_packs": {"key": "more", "product": "other", "container": "tin", "count": 2, "net": 0.2},
    "also_draws": {"pack": "more", "run": "two"},
    "also_uses": {"pack": "more", "count": 1, "purpose": "household"},
    "also_offers": {"key": "their", "product": "other", "net": 1.0, "price": 40.0},
}  # fmt: skip
"""A second product: 0.7 dried for 6 of produce and 1 of energy, 10 by weight; one of two packs of
0.2 eaten, a shop asks 40."""
EATEN: dict[str, Any] = {"uses": FREE | {"purpose": "household"}}
FOOD = 25 / 1.3
"""The first product: 20 and 2 of driving, 3 of energy, for 1.3; a shop asks 30."""

FIGURES: list[tuple[dict[str, Any], str, object]] = [
    # A count of the shelf is of its day, not of the end of it.
    ({}, "last_count", TODAY - 6),
    # A sum is unknown while one of its rows is, and is of all its rows.
    (NO_RATES | at_market({"travel": 4.0}), "market_driving", None),
    (at_market({"travel": 4.0}), "market_driving", 2),
    (NO_RATES | at_market({"labor": 2.0}), "market_labor", None),
    (at_market({"labor": 2.0}) | {"rates": {"labor": 10.0}}, "market_labor", 20),
    (NO_RATES | mixed(mixes={"labor": 2.0}), "mix_labor_cost", None),
    (mixed(mixes={"labor": 2.0}) | {"rates": {"labor": 10.0}}, "mix_labor_cost", 20),
    ({"lots": {"carried_full": 9.0}}, "lots_carried", None),
    ({"lots": {"carried_running": 8.0, "carried_full": 9.0}}, "lots_carried", 8),
    ({"rates": {"travel": None}}, "cost_travel", None),
    ({}, "cost_travel", 2),
    (mixed(lots={"price_total": None}), "added_by_mixes", None),
    # Without a margin nobody knows what may go to the cost; with a large one it is below nothing.
    ({}, "stall_for_cost", None),
    ({"pricing": {"margin": 0.95}}, "stall_for_cost", 0.05 - 0.1),
    ({}, "by_the_week", False),
    ({"closed": SHUT}, "by_the_week", True),
    ({"closed": SHUT}, "verdict_of_all", "All checks pass"),
    ({"notebook": {"key": "note-1"}}, "notebook_waits", True),
    ({}, "notebook_waits", False),
    # Two of four packs of 0.3 are on the shelf or eaten, at 30 a kilogram where it cost 25 ÷ 1.3;
    # of the other product one of 0.2 is each, at 40 where it cost 7 ÷ 0.7.
    (TWO, "saving_on_hand", 0.6 * (30 - FOOD) + 0.2 * (40 - 10)),
    (TWO | EATEN, "saving_taken", 0.6 * (30 - FOOD) + 0.2 * (40 - 10)),
    # A mix of 0.5 of the food, packed four times 0.1: two sold, two to come, nothing else packed.
    (of_mix(), "saving_on_hand", 0.2 * (30 - FOOD)),
    (of_mix(mixes={"product": "dust"}, packs={"product": "dust", "net": 0.1},
            offers={"product": "dust"}, **DUST), "saving_on_hand", 0.2 * (30 - FOOD)),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), FIGURES)
def test_a_figure_over_all(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("season", name)
    assert told(found, value), found


def test_what_has_no_place_in_the_list_is_counted() -> None:
    """Two packs on the shelf and a list without a place; only what has a best-by day belongs in."""
    for products, value in (({}, 0), (SHELF, 2)):
        made = tables(also_packs=LATER, **products) | {"eat_first": []}
        assert Figures(**made)("season", "shelf_not_listed") == value


CAUTION: dict[str, Any] = {"lots": {"date": TODAY + 1}}
ERROR: dict[str, Any] = {"also_loads": BACK | {"wet": 3}}


@pytest.mark.parametrize("changed", [CAUTION, ERROR, CAUTION | ERROR])
def test_the_advice_is_that_of_the_first_error_else_of_the_first_caution(
    changed: dict[str, Any],
) -> None:
    found = Figures(**tables(**changed))
    failing = [
        check for check in BOOK.checks if any(found.numbers.cells[check.table.name][check.name])
    ]
    errors = [check for check in failing if check.severity == "error"]
    assert bool(errors) == ("also_loads" in changed)
    assert found("season", "look_do") == (errors or failing)[0].do


def test_where_nothing_fails_there_is_no_advice() -> None:
    assert Figures(**tables())("season", "look_do") is None


# --- sums that must meet -----------------------------------------------------------------------

# A record of a product that does not exist, which reading refuses, is in the one sum alone.
BOUGHT = [(0.0, False), (0.005, False), (0.0051, True), (0.008, True), (-1.0, True)]


@pytest.mark.parametrize(("price", "fails"), BOUGHT)
def test_parts_of_mixes_that_no_product_carries(price: float, fails: bool) -> None:
    found = Figures(
        mixes=[{"key": "m", "product": "none"}],
        bought_parts=[{"into": "m", "weight": 1.0, "price": price}],
    )
    assert found("season", "mixes_not_conserved") is fails
    assert found("season", "parts_not_total") is fails


@pytest.mark.parametrize(("price", "fails"), BOUGHT)
def test_a_lot_that_no_product_carries(price: float, fails: bool) -> None:
    found = Figures(
        lots=[{"key": "a", "product": "none", "weighed": 1.0, "prepped_weighed": 1.0,
               "price_total": price}],
        runs=[{"key": "r", "duration": 1.0, "energy": 1.0}],
        loads=[{"run": "r", "lot": "a", "wet": 1.0, "dry": 0.1}],
    )  # fmt: skip
    assert found("season", "produce_not_conserved") is fails


def test_sums_that_are_not_known_are_not_said_to_disagree() -> None:
    unknown = Figures(**tables(lots={"price_total": None}))
    assert unknown("season", "produce_not_conserved") is False
    assert unknown("season", "parts_not_total") is False
    bought = tables(**mixed(bought_parts={"into": "mix", "weight": 0.1}))
    assert Figures(**bought)("season", "mixes_not_conserved") is False
