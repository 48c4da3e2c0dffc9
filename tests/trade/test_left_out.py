"""What is left out is unknown where it matters, and nowhere else."""

from __future__ import annotations

from pathlib import Path

import pytest
from published.figures import Figures

from trade.small import HEAD, season
from trade.test_uncertainty import Rebuilt
from trade.test_uncertainty import season as weighed

LOTS = """
lots: [{id: t-1, product: turnip-cubes, weighed: 20 lb, prepped: 16 lb, price: 12 USD}]
runs:
  - {id: r-1, started: 2025-09-02 8:00, duration: 30 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 16 lb, dry: 30 oz}]}
packs: [{id: P-1, product: turnip-cubes, container: tin, count: 5, net: 4 oz, from: [r-1]}]
"""


def test_a_lot_that_is_not_dried_yet_leaves_the_uncertainty_as_it_is() -> None:
    """Bought by weight, and nobody knows how much of it is usable."""
    made = weighed(products=[{"key": "food", "water": 0.9}])
    plain = Figures("lb", "oz", **made)("products", "running_per_packed_u", "food")
    made["lots"] = [
        *made["lots"],
        {"key": "c", "product": "food", "count": 1, "weighed": 4.0, "price_by_weight": 2.0},
    ]
    found = Figures("lb", "oz", **made)
    assert found("lots", "usable", "c") is None
    assert found("products", "running_per_packed_u", "food") == plain is not None
    assert plain == pytest.approx(2 * Rebuilt(weighed()).cost().std_dev, rel=1e-6)


def test_without_a_running_cost_carried_over_a_scenario_has_its_full_cost(tmp_path: Path) -> None:
    head = HEAD + (
        "carried_over: [{product: turnip-cubes, dried: 8 oz, full: 2 USD/oz}]\n"
        "scenarios: [{id: as-is}]\n"
    )
    found = season(tmp_path, LOTS, head)
    row = "as-is/turnip-cubes"
    assert found.of("scenarios", row, "running_per_packed") == [None]
    assert found("scenarios", "beyond_running", row) == pytest.approx(4)
    # 12 of produce, 4 of energy, 2 of upkeep, 4 of wear, 16 carried over.
    assert found("scenarios", "bulk_full", row) == pytest.approx(38)
    full = found("products", "full_per_packed", "turnip-cubes")
    assert full == pytest.approx((38 / 38 * 20 + 5 * 2) / 20)
    assert found("scenarios", "full_per_packed", row) == pytest.approx(full)


def test_an_empty_season_has_no_last_day(tmp_path: Path) -> None:
    found = season(tmp_path, "")
    assert found("season", "last_day") is None and found("season", "some_day") is False
    (tmp_path / "more").mkdir()
    some = season(tmp_path / "more", LOTS)
    assert some("season", "last_day") == some("season", "last_run") is not None


def test_a_use_without_a_count_is_of_one(tmp_path: Path) -> None:
    uses = (
        "uses: [{pack: P-1, for: stall, price: 9 USD},"
        " {product: turnip-cubes, weight: 1 oz, for: crumbs}]"
    )
    found = season(tmp_path, LOTS + uses)
    assert found.of("packs", "P-1", "taken", "on_hand") == [1, 4]
    assert [found("uses", name, "use-1") for name in ("containers", "content", "revenue")] == [
        1,
        4,
        9,
    ]
    assert [found("uses", name, "use-2") for name in ("containers", "content")] == [0, 1]


def test_an_offer_of_another_form_is_compared_by_fresh_equivalent(tmp_path: Path) -> None:
    """A tin of cubes at 2 USD a pound stands against a pound of prepped food, not of dried."""
    offers = """
offers:
  - {id: tinned, product: turnip-cubes, net: 2 lb, price: 4 USD, form: canned}
  - {id: dried, product: turnip-cubes, net: 10 oz, price: 20 USD}
"""
    found = season(tmp_path, LOTS + offers)
    cost = found("products", "running_per_packed", "turnip-cubes")
    ratio = 16 * 16 / 30
    assert isinstance(cost, float)
    # 18 USD over 30 oz; ten ounces are half of the packs, their tins 2 USD for 4 oz.
    assert cost == pytest.approx(18 / 30 + 2 / 4)
    assert found("offers", "ours_to_theirs", "dried") == pytest.approx(cost / 2)
    assert found("offers", "ours_to_theirs", "tinned") == pytest.approx(cost / ratio / (4 / 32))


def test_one_missing_price_shares_a_trip_evenly_and_says_so(tmp_path: Path) -> None:
    lots = """
trips: [{id: way, distance: 30 mile, labor: 3 h}]
lots:
  - {id: a, product: turnip-cubes, weighed: 9 lb, price: 30 USD, trip: way}
  - {id: b, product: turnip-cubes, weighed: 9 lb, price: 10 USD, trip: way}
  - {id: c, product: turnip-cubes, weighed: 9 lb, trip: way}
"""
    found = season(tmp_path, lots)
    assert [found("lots", "trip_share", lot) for lot in "abc"] == pytest.approx([1 / 3] * 3)
    assert found("trips", "price_open", "way") is True
    assert "trips-shared-evenly" in found.failing()
    (tmp_path / "more").mkdir()
    told = season(tmp_path / "more", lots.replace("- {id: c,", "- {id: c, price: 20 USD,"))
    assert [told("lots", "trip_share", lot) for lot in "abc"] == pytest.approx(
        [1 / 2, 1 / 6, 1 / 3]
    )
    assert "trips-shared-evenly" not in told.failing()


@pytest.mark.parametrize("latest", ["lots", "runs", "packs", "uses"])
def test_the_last_day_is_the_latest_of_any_record(latest: str) -> None:
    days = dict.fromkeys(("lots", "runs", "packs", "uses"), 46_000.0) | {latest: 46_009.0}
    found = Figures(
        lots=[{"key": "a", "product": "food", "date": days["lots"]}],
        runs=[{"key": "r", "started": days["runs"]}, {"key": "s"}],
        packs=[{"key": "P", "product": "food", "date": days["packs"]}],
        uses=[{"pack": "P", "date": days["uses"]}, {"pack": "P", "date": 45_990.0}],
    )
    names = ("last_lot", "last_run", "last_pack", "last_use")
    assert [found("season", name) for name in names] == [*days.values()]
    assert found("season", "last_day") == 46_009.0


@pytest.mark.parametrize(
    ("prices", "twice"),
    [
        ({"price_total": 9.0}, False),
        ({"price_total": 9.0, "price_each": 4.0}, True),
        ({"price_total": 9.0, "price_by_weight": 4.0}, True),
        ({"price_each": 9.0, "price_by_weight": 4.0}, True),
    ],
)
def test_a_lot_has_one_price(prices: dict[str, float], twice: bool) -> None:
    assert Figures(lots=[{"key": "a", **prices}])("lots", "priced_twice") is twice


@pytest.mark.parametrize(("dollar", "price"), [(True, 1.9), (False, 2.1)])
def test_a_price_of_electricity_is_doubted_in_dollars_alone(dollar: bool, price: float) -> None:
    found = Figures(
        season=[{"dollar_sized": dollar}],
        periods=[{"key": "day", "price": price}],
        rates=[{"electricity": price}],
    )
    assert found("periods", "period_dear") is False
    assert found("rates", "electricity_dear") is False
