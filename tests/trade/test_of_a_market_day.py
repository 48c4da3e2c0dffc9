"""What is reckoned of one market day and of a pack that was taken there, figure by figure, with a
pencil: what is its own, and what is not known while something of it is not."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import LATER, MARKET, SIZE, THERE, TODAY, at_market, of_mix, tables
from trade.test_of_a_pack import told

Changed = dict[str, Any]

TWO: Changed = at_market(took=6, samples=2) | {
    "packs": {"count": 20, "net": 0.06},
    "also_markets": MARKET | {"key": "red", "date": TODAY - 4},
    "also_market_packs": THERE | {"market": "red", "took": 9, "back": 4, "samples": 4},
}
"""A day on which 6 were taken, 1 came back and 2 were tasted, and a day on which 9, 4 and 4."""
PURSE: Changed = {"market_takings": {"market": "green", "amount": 5.0}}

# Two were taken there, one came back and one was sold for 9, five days ago.
OF_DAY: list[tuple[Changed, str, object]] = [
    (TWO, "packs_sold", 3),
    (TWO, "came_back", 3),
    (at_market(took=None), "packs_sold", None),
    # A purse of which nobody wrote how much was in it.
    (at_market() | PURSE, "takings", 5),
    (at_market() | PURSE | {"also_market_takings": PURSE["market_takings"] | {"amount": None}},
     "takings", None),
    # Who did not drive needs no rate for it.
    (at_market() | {"rates": {"travel": None}}, "travel_cost", 0),
    (at_market({"travel": 6.0}) | {"rates": {"travel": None}}, "travel_cost", None),
    (at_market() | {"rates": {"labor": None}}, "labor_cost", 0),
    (at_market({"labor": 6.0}) | {"rates": {"labor": None}}, "labor_cost", None),
    (at_market({"date": None}), "to_come", False),
    # Neither what came back nor what was taken in is written; nothing was taken there.
    (at_market(back=None), "not_written_up", True),
    (at_market(back=None) | PURSE, "not_written_up", False),
    (at_market(back=None, took=0), "not_written_up", False),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_DAY)
def test_a_figure_of_a_market_day(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("markets", name, "green")
    assert told(found, value), found


SHELF: Changed = {"date": TODAY - 6, "counted": 1}
ALSO_COUNTED: Changed = {
    "also_packs": LATER,
    "also_counts": {"pack": "later", "date": TODAY - 6, "counted": 0},
}
"""Another pack, of which the only one was not found."""

# Four were filled, two of them sold six days ago.
OF_PACK: list[tuple[Changed, str, object]] = [
    # A day without a date was before all.
    (at_market({"date": None}), "day", 0),
    (at_market(price_written=None) | {"asking": SIZE}, "asked", 9),
    (at_market(price_written=None) | {"asking": SIZE | {"price": None}}, "asked", None),
    (of_mix() | at_market(), "pack_dryness", "dry"),
    # That morning; what was used or counted in the course of the day is not in it.
    (at_market(), "used_before", 2),
    (at_market({"date": TODAY - 6}), "used_before", 0),
    (at_market() | {"uses": {"count": None}}, "used_before", 1),
    (at_market() | {"counts": SHELF}, "missing_before", 1),
    (at_market() | {"counts": SHELF} | ALSO_COUNTED, "missing_before", 1),
    (at_market() | {"counts": SHELF | {"date": TODAY - 5, "counted": 0}}, "missing_before", 0),
    (at_market() | {"counts": SHELF | {"counted": None}}, "missing_before", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_PACK)
def test_a_figure_of_a_pack_at_a_market(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("market_packs", name, "green/pack")
    assert told(found, value), found


@pytest.mark.parametrize(("taken", "value"), [(6, 5), (None, None)])
def test_what_was_sold_before_is_known_where_each_day_before_is(
    taken: float | None, value: float | None
) -> None:
    made = tables(**TWO | {"market_packs": TWO["market_packs"] | {"took": taken}})
    found = Figures(**made)("market_packs", "sold_before", "red/pack")
    assert told(found, value), found
