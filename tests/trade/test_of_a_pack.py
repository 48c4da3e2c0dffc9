"""What is reckoned of one kind of pack and of one use of it, figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SIZE, TODAY, TOOK_ALL, TWO_RUNS, at_market, of_mix, tables

NONE_SHOPS: dict[str, Any] = {"offers": None}
WELL: dict[str, Any] = {
    "containers": {"volume": 1200.0, "absorber": 209.5, "keeps": 10.0},
    "products": {"skeletal_density": 1500.0, "best_by": 12.0},
}
"""300 g of 1.5 g/mL leave 1000 mL of 1200 for air, of which 20.95 % is oxygen: 209.5 mL."""
FREE: dict[str, Any] = {"channel": None, "price": None}
BULK: dict[str, Any] = {"pack": None, "count": None, "product": "food", "weight": 0.1}


def sealed(**container: Any) -> dict[str, Any]:
    return WELL | {"containers": WELL["containers"] | container}


# Four of 0.3 each, packed seven days ago of 1.3; two were sold for 9 each the day after.
OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    ({}, "from_bulk", 1.2),
    (of_mix(), "from_bulk", 0),
    (of_mix(packs={"net": 0.1, "carried_running": 3.0}), "from_bulk", 0),
    (of_mix(), "from_mix", True),
    (of_mix(packs={"net": 0.1, "carried_running": 3.0}), "from_mix", False),
    (of_mix(), "runs_named", 0),
    (of_mix(), "origin_missing", False),
    # A kind of pack without a count is one.
    ({"packs": {"count": None}, "uses": None, "counts": None}, "filled", 1),
    ({"packs": {"count": None}, "uses": None, "counts": None}, "packaging_cost", 0),
    ({"packs": {"count": None}, "uses": None, "counts": None}, "dried_content", 0.3),
    ({"packs": {"count": None}, "uses": None, "counts": None}, "on_hand", 1),
    ({"rates": {"labor": None}}, "labor_cost", 0),
    ({"rates": {"labor": None}, "packs": {"labor": 1.0}}, "labor_cost", None),
    ({"rates": {"labor": 10.0}, "packs": {"labor": 1.0}}, "labor_each", 2.5),
    ({"rates": {"labor": 10.0}, "packs": {"labor": 1.0, "count": None}, "uses": None,
      "counts": None}, "labor_each", 10),
    ({"packs": {"labor": 2.0, "count": None}, "uses": None, "counts": None}, "hours_intact", 2),
    (WELL | {"packs": {"count": None}, "uses": None, "counts": None}, "volume_all", 1200),
    ({}, "spoiled_count", 0),
    ({"uses": FREE | {"purpose": "spoiled"}}, "spoiled_count", 2),
    # What is not known of a market or of a count is not known of the shelf.
    (at_market(took=None), "gone_at_markets", None),
    (at_market(), "gone_at_markets", 1),
    (at_market(), "on_hand", 1),
    ({"counts": {"counted": None}}, "missing", None),
    ({"counts": {"counted": 1}}, "missing", 1),
    ({"counts": {"counted": 1}}, "on_hand", 1),
    (of_mix(lots={"price_total": None}), "first_running_of_mixes", None),
    (of_mix(lots={"price_total": None}), "running_of_mixes", None),
    (of_mix(lots={"price_total": None}), "first_full_of_mixes", None),
    (of_mix(lots={"price_total": None}), "full_of_mixes", None),
    # None eaten saves nothing, whatever a shop would have got.
    (NONE_SHOPS, "mixed_saving_taken", 0),
    (NONE_SHOPS | {"uses": {"count": 4}, "counts": None}, "mixed_saving_on_hand", 0),
    (NONE_SHOPS | {"uses": {"count": 4}, "counts": None}, "instead", 0),
    (NONE_SHOPS | {"uses": {"count": 3}, "counts": None}, "mixed_saving_on_hand", None),
    # 9 each at a shop's 30, less (22 + 3) ÷ 1.3 × 0.3.
    ({"uses": {"purpose": "household", "channel": None, "price": None}}, "mixed_saving_taken",
     2 * (9 - 25 / 1.3 * 0.3)),
    # As much absorber as there is oxygen is enough.
    (WELL, "oxygen_here", 209.5),
    (WELL, "absorber_share", 1),
    (WELL, "absorber_short", False),
    (WELL, "sealed_well", True),
    (sealed(absorber=209.0), "sealed_well", False),
    (sealed(absorber=209.0), "absorber_short", True),
    (sealed(absorber=0.0), "absorber_short", False),
    (sealed(absorber=0.0), "airless", False),
    (WELL, "airless", True),
    (sealed(volume=None), "oxygen_missing", True),
    (sealed(volume=None, absorber=0.0), "oxygen_missing", False),
    (WELL, "keeps_by_maker", 10),
    (WELL | {"loads": {"weighing_before": None}}, "sealed_well", False),
    (WELL | {"loads": {"weighing_before": None}}, "keeps_by_maker", None),
    (WELL | of_mix(**WELL), "sealed_well", False),
    (WELL, "best_by_basis", "the maker's own figure"),
    (sealed(absorber=209.0), "best_by_basis", "product data"),
    (sealed(absorber=209.0) | {"packs": {"carried_best_by": TODAY}}, "best_by_basis",
     "as last season"),
    ({}, "best_by_basis", None),
    # A year of 365 days from the day it was packed.
    (sealed(absorber=209.0), "best_by", TODAY - 7 + 365),
    (sealed(absorber=209.0), "days_left", 358),
    (sealed(absorber=209.0) | {"uses": {"count": 4}, "counts": None}, "days_left", None),
    (sealed(absorber=209.0), "eat_turn", 1),
    ({}, "no_best_by", True),
    (WELL, "no_best_by", False),
    ({"uses": {"count": 4}, "counts": None}, "no_best_by", False),
    ({"packs": {"carried_best_by": TODAY}}, "past_best_by", False),
    ({"packs": {"carried_best_by": TODAY - 1}}, "past_best_by", True),
    ({"packs": {"carried_best_by": TODAY - 1}, "uses": {"count": 4}, "counts": None},
     "past_best_by", False),
    ({"uses": {"count": 4}, "counts": None}, "used_above_count", False),
    ({"uses": {"count": 4}, "counts": None}, "on_shelf", False),
    # Two runs gave 2.6, and 2 % are forgiven: 2.652. Of one run another check speaks.
    (TWO_RUNS | {"packs": {"net": 0.663}}, "above_runs", False),
    (TWO_RUNS | {"packs": {"net": 0.664}}, "above_runs", True),
    (TWO_RUNS | {"packs": {"net": 0.664}}, "runs_gave", 2.6),
    ({"packs": {"net": 0.34}}, "above_runs", False),
    ({"packs": {"net_about": True}}, "spread_unknown", True),
    (of_mix(packs={"net": 0.1, "net_about": True}), "spread_unknown", False),
    ({}, "spread_unknown", False),
]  # fmt: skip


def told(found: object, value: object) -> bool:
    """Whether that is what was found."""
    if value is None or isinstance(value, bool | str):
        return found == value and type(found) is type(value)
    return bool(found == pytest.approx(value, abs=1e-12))


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_pack(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("packs", name, "pack")
    assert told(found, value), found


# Full cost: 22 of produce, 3 of energy, 10 of wear over 1.3.
FULL = 35 / 1.3
OF_USE: list[tuple[dict[str, Any], str, object]] = [
    ({"uses": BULK | FREE | {"purpose": "household"}}, "containers", 0),
    ({"uses": {"count": None}}, "containers", 1),
    ({"uses": {"count": None}}, "content", 0.3),
    ({"uses": {"count": None}}, "paid_for_packs", 9),
    ({"uses": {"count": None, "price": None, "total": 8.0}}, "price_written", 8),
    ({"uses": {"price": None, "total": 8.0}}, "price_written", 4),
    ({"uses": {"total": 8.0}}, "price_written", 9),  # the price of each comes first
    ({"uses": {"count": None}}, "cost_out", 0.3 * FULL),
    ({"uses": BULK | FREE | {"purpose": "household"}}, "cost_out", 0.1 * FULL),
    ({"uses": BULK | FREE | {"purpose": "crumbs"}}, "crumbs", True),
    ({"uses": BULK | FREE | {"purpose": "sample"}}, "crumbs", False),
    ({"uses": FREE | {"purpose": "crumbs"}}, "crumbs", False),
    ({"uses": FREE | {"purpose": "spoiled"}}, "spoiled", True),
    ({"uses": FREE | {"purpose": "gift"}}, "spoiled", False),
    (of_mix(uses=FREE | {"purpose": "spoiled"}), "spoiled", False),
    ({"uses": FREE | {"purpose": "gift"}}, "price_each", 0),
    ({"uses": {"price": None}}, "price_each", None),
    ({"uses": {"price": None}}, "price_missing", True),
    ({"uses": FREE | {"purpose": "gift"}}, "price_missing", False),
    ({}, "price_missing", False),
    # A size that is asked for, at a price that nobody wrote.
    ({"asking": SIZE | {"price": None}, "uses": {"price": None}}, "asked", None),
    ({"asking": SIZE | {"price": None}, "uses": {"price": None}}, "price_missing", True),
    ({"asking": SIZE, "uses": {"price": None}}, "asked", 9),
    ({}, "sold_of_season", True),
    (of_mix(), "sold_of_season", False),
    ({"uses": FREE | {"purpose": "gift"}}, "sold_of_season", False),
    ({"uses": BULK | {"purpose": None}}, "sold_of_season", False),
    ({}, "went_out", True),
    ({"uses": FREE | {"purpose": "gift"}}, "went_out", True),
    ({"uses": FREE | {"purpose": "household"}}, "went_out", False),
    ({"uses": FREE | {"purpose": "household"}}, "kept", True),
    ({"uses": FREE | {"purpose": "gift"}}, "kept", True),
    ({"uses": BULK | FREE | {"purpose": "household"}}, "kept", True),
    ({"uses": BULK | FREE | {"purpose": "sample"}}, "kept", False),
    (of_mix(uses=FREE | {"purpose": "household"}), "kept", False),
    ({}, "kept", False),
    # At the stall, on a day that has come; nobody wrote down the other.
    ({"uses": {"date": TODAY}}, "at_stall", True),
    ({"uses": {"date": TODAY + 1}}, "at_stall", False),
    ({"uses": {"date": None}}, "at_stall", False),
    ({"uses": {"channel": "co-op"}}, "at_stall", False),
    ({"uses": {"date": None}}, "stall_undated", True),
    ({"uses": {"date": None, "channel": "co-op"}}, "stall_undated", False),
    ({"uses": {"date": None} | FREE | {"purpose": "gift"}}, "stall_undated", False),
    ({}, "stall_undated", False),
    ({"uses": {"date": TODAY + 1}}, "stall_day", None),
    ({"uses": BULK | FREE | {"purpose": "household", "price": 3.0}}, "paid", 0),
    ({"uses": {"total": 5.0}}, "paid", 5),
    ({}, "got", 18 * 0.9),
    ({"uses": FREE | {"purpose": "gift"}}, "got", None),
    ({"uses": FREE | {"purpose": "gift"}}, "fees", 0),
    ({}, "profit", 18 * 0.9 - 0.6 * FULL),
    ({"uses": {"price": 9.0, "total": None}}, "two_prices", False),
    ({"uses": {"price": None, "total": 9.0}}, "two_prices", False),
    ({"uses": {"purpose": "gift"}}, "two_purposes", True),
    ({}, "two_purposes", False),
    ({"uses": FREE | {"purpose": "gift"}}, "two_purposes", False),
    ({"uses": {"purpose": "gift", "channel": "co-op"}}, "two_purposes", True),
    # A channel is there, whatever its fees.
    ({"pricing": {"fees": None}}, "no_channel", False),
    # A sale on the day of a market of its channel.
    (at_market({"date": TODAY - 6, "channel": "co-op"}) | {"uses": {"channel": "co-op"}},
     "at_a_market", True),
    (at_market({"date": TODAY - 6, "channel": "co-op"}), "at_a_market", False),
    (at_market({"date": TODAY - 6}) | {"uses": FREE | {"purpose": "gift"}}, "at_a_market", False),
    # All that was left, and a weight beside it: what was weighed counts.
    ({"uses": TOOK_ALL | {"pack": None, "channel": None, "count": None, "price": None}},
     "bulk_weight", 0.1),
    ({"uses": TOOK_ALL | {"pack": None, "channel": None, "count": None, "price": None,
                          "weight": 0.05}}, "bulk_weight", 0.05),
    ({"uses": {"channel": "porch"}}, "no_channel", True),
    ({"uses": FREE | {"purpose": "gift"}}, "no_channel", False),
    ({}, "no_channel", False),
    ({"uses": BULK | FREE | {"purpose": "household"}}, "bulk_weighed", 0.1),
    ({}, "bulk_weighed", 0),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_USE)
def test_a_figure_of_a_use(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("uses", name)
    assert told(found, value), found


@pytest.mark.parametrize("weighings", [None, 3])
def test_each_weighing_of_a_pack_adds_its_square(weighings: int | None) -> None:
    """A weight costs 25 ÷ 1.3 in bulk and 0.60 ÷ 0.3 = 2 more when packed, which is what all four
    move: where they hold more, less of that falls on each weight."""
    made = tables(packs={"net_weighings": weighings}, scale={"resolution": 0.1}, counts=None,
                  parts={"container": "tin", "cost": 0.6})  # fmt: skip
    found = Figures(**made)
    moved = 4 * 2.0 * 0.1 / 12**0.5
    assert found("packs", "net_u") == pytest.approx(moved)
    assert found("packs", "net_u_squared") == pytest.approx(moved**2 * (weighings or 1))


def test_what_was_left_is_taken_once() -> None:
    """1.3 less 1.2 packed: the first takes the 0.1, those after it nothing."""
    days = {f"also_uses_{n}": TOOK_ALL | {"key": f"use-{n}", "date": TODAY - 5 + n}
            for n in (1, 2, 3)}  # fmt: skip
    found = Figures(**tables(uses=None, **days))
    cells = found.numbers.cells["uses"]
    assert cells["taken_before"] == pytest.approx([0, 0.1, 0.1])
    assert cells["weight_left"] == pytest.approx([0.1, 0, 0])


def test_steps_to_what_was_left_are_of_one_use() -> None:
    """A load, a pack and two uses moved the bulk: the first has a row for each, the other none."""
    steps = {"taken": "use-1"}
    made = tables(
        uses=None, also_uses=TOOK_ALL, also_uses_2=TOOK_ALL | {"key": "use-2", "date": TODAY - 4},
        rest_steps=steps | {"load": "load"}, also_rest_steps=steps | {"pack": "pack"},
        also_rest_steps_2=steps | {"other": "use-1"}, also_rest_steps_3=steps | {"other": "use-2"},
    )  # fmt: skip
    found = Figures(**made)
    assert found.numbers.cells["uses"]["rest_without_steps"] == [False, True]


def test_days_at_the_stall_are_counted_once() -> None:
    uses = [
        {"pack": "P", "date": date, "channel": channel, "price": 1.0}
        for date, channel in [
            (TODAY - 3, "stall"), (TODAY - 3, "stall"), (TODAY - 2, "co-op"),
            (TODAY - 1, "stall"), (TODAY + 1, "stall"), (None, "stall"),
        ]
    ]  # fmt: skip
    found = Figures(season=[{"as_of": TODAY}], packs=[{"key": "P", "count": 9}], uses=uses)
    cells = found.numbers.cells["uses"]
    assert cells["first_at_stall"] == [True, False, None, True, None, None]
    assert cells["stall_day"] == [-72, -72, None, -24, None, None]  # in hours


def test_a_pack_is_as_dry_as_the_worst_of_its_loads() -> None:
    """One that is shown to be dry, and one beside it that is not, or that may be moist."""
    two = TWO_RUNS | {"also_loads": TWO_RUNS["also_loads"] | {"weighing_last": 1.3}}
    for before, verdict in ((1.3, "dry"), (None, "not shown"), (1.4, "doubtful")):
        made = two | {"also_loads": two["also_loads"] | {"weighing_before": before}}
        assert Figures(**tables(**made))("packs", "dryness", "pack") == verdict
    nothing = tables(draws={"pack": None})
    assert Figures(**nothing)("packs", "dryness", "pack") == "origin not named"
    failed = tables(loads={"dry": None, "weighing_before": None, "weighing_last": None})
    assert Figures(**failed)("packs", "dryness", "pack") == "not shown"
