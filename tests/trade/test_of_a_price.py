"""What is reckoned of one size in the list of prices, and of a product under a scenario, figure by
figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import ASKED, LATER, SIZE, THERE, TODAY, at_market, tables
from trade.test_of_a_pack import told

Changed = dict[str, Any]

BIG = LATER | {"net": 0.05}
PAST: Changed = {"carried_best_by": TODAY - 1}
TWO_SIZES: Changed = {"also_packs": BIG}
"""One of another size."""
MOIST: Changed = {"loads": {"weighing_before": 1.4}}
BOTH_MOIST: Changed = MOIST | TWO_SIZES | {"also_draws": {"pack": "later", "run": "run"}}
BOTH_THERE: Changed = (
    at_market() | TWO_SIZES | {"also_market_packs": THERE | {"pack": "later", "took": 1, "back": 0}}
)
TAXED: Changed = {"channels": {"key": "stall", "of_stall": True, "tax": 0.25}, "pricing": ASKED}

# Four of 0.3 each of a full cost of 35 ÷ 1.3, two of them sold. A shop asks 30.
OF_ONE: list[tuple[Changed, str, object]] = [
    ({"asking": SIZE | {"price": None}}, "asked", None),
    ({"asking": SIZE}, "asked", 9),
    (TWO_SIZES, "on_hand", 2),
    (at_market(took=None), "on_hand", None),
    # Both sizes are past their day; so are the two of this one.
    ({"packs": PAST, "also_packs": BIG | PAST}, "past_best_by", 2),
    (BOTH_MOIST, "doubtful", 2),
    (MOIST | at_market(took=None), "doubtful", None),
    # One of the two that were taken was sold, and the one of the other size.
    (BOTH_THERE, "taken", 2),
    (BOTH_THERE, "sold_there", 1),
    (at_market(took=None), "taken", None),
    (at_market(took=None), "sold_there", None),
    # 0.3 × 35 ÷ 1.3 is 8.0769; over 0.9 ÷ 1.25 − 0.1 it is 13.027. As much is 9 in the shop.
    (TAXED, "price_asked", 13.03),
    (TAXED, "price_to_retail", 13.03 / 9),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_price(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("prices", name, "food/tin/0.3")
    assert told(found, value), found


def test_a_spare_row_of_prices_is_none() -> None:
    size = {"product": "food", "container": "tin", "net": 0.3}
    made = Figures(**tables(prices=size, also_prices={}))
    assert made.numbers.cells["prices"]["exists"] == [1, None]


# The lot's 22, 3 of energy and 10 of wear; with produce twice as dear 57 instead of 35.
DEAR: Changed = {
    "changes": {"key": "dear", "ingredients_factor": 2.0},
    "scenarios": {"scenario": "dear", "product": "food"},
}
THREE_SHOPS: Changed = {
    f"also_offers_{n}": {"key": f"offer-{n}", "product": "food", "net": 1.0, "price": 10.0 * n}
    for n in (1, 2)
}
"""Shops that ask 10 and 20 beside the one that asks 30."""

UNDER: list[tuple[Changed, str, float]] = [
    ({}, "change_of_full", 57 / 35 - 1),
    (THREE_SHOPS, "full_to_retail", 57 / 1.3 / 20),
]


@pytest.mark.parametrize(("changed", "name", "value"), UNDER)
def test_a_figure_under_a_scenario(changed: Changed, name: str, value: float) -> None:
    found = Figures(**tables(**DEAR | changed))("scenarios", name)
    assert told(found, value), found
