"""What is reckoned of one lot, figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import BACK, tables

BOX: dict[str, Any] = {
    "lots": {"weighed": None, "container": "box"},
    "nominal_weights": {"product": "food", "container": "box", "weight": 25.0},
}
"""The lot in one box of 25, nothing weighed as bought."""
EACH: dict[str, Any] = {"price_total": None, "price_each": 6.0}
BY_WEIGHT: dict[str, Any] = {"price_total": None, "price_by_weight": 2.0}
IN_DRYER: dict[str, Any] = {
    "loads": {"dry": None, "weighing_before": None, "weighing_last": None},
    "packs": None,
    "draws": None,
    "uses": None,
    "counts": None,
}
"""Nothing of it is out of the dryer."""


def boxed(**lot: Any) -> dict[str, Any]:
    return BOX | {"lots": BOX["lots"] | lot}


# The lot weighed 10 and 8 when prepped; it cost 20, and 4 × 0.50 of driving: 22. All of it is in
# one load that is done, so that a usable kilogram less would have made that 22 ÷ 8 = 2.75 dearer.
OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    # A lot without a count is one container.
    ({"lots": {"weighed": 9.0, "weighed_count": 1}}, "weighed_all", 9),
    (BOX, "as_purchased", 25),
    # By the box it is an estimate, and so is what is prepped of it by the yield of 0.8: 20.
    ({}, "as_purchased_basis", "weighed"),
    (BOX, "as_purchased_basis", "estimated"),
    ({"lots": {"weighed": None}}, "as_purchased_basis", None),
    (BOX, "prepped_basis", "weighed"),
    (boxed(prepped_weighed=None), "prepped_basis", "estimated"),
    ({"lots": {"weighed": None, "prepped_weighed": None}}, "prepped_basis", None),
    ({"lots": EACH}, "price_asked", 6),
    ({"lots": {"container": "box"}}, "containers_weighed", 1),
    ({"lots": {"container": "box"}}, "container_held", 10),
    # (2 × 25 + 2) ÷ (0.8 × 25) × 8 are 20.80; it is 20 + 20 ÷ 25, and falls by 20 ÷ 25².
    (boxed(prepped_weighed=None, **BY_WEIGHT), "moved_by_weight", -20 / 25**2),
    # A trip that took time and no way.
    ({"trips": {"distance": None, "labor": 2.0}, "rates": {"labor": 10.0}}, "travel_shared", 0),
    ({"trips": {"distance": None, "labor": 2.0}, "rates": {"labor": 10.0}}, "labor_shared", 20),
    ({"trips": {"distance": None, "labor": 2.0}, "rates": {"labor": 10.0}}, "distance_shared", 0),
    # No time spent needs no rate.
    ({"rates": {"labor": None}}, "labor_alone", 0),
    ({"rates": {"labor": None}, "lots": {"labor": 1.0}}, "labor_alone", None),
    # One of the two costs of last season is enough to be of it.
    ({"lots": {"carried_running": 3.0}}, "of_season", False),
    ({"lots": {"carried_full": 3.0}}, "of_season", False),
    ({}, "of_season", True),
    # What is in the dryer is not dried yet.
    ({}, "dried_from", 8),
    (IN_DRYER, "dried_from", 0),
    ({"lots": {"price_total": None}}, "cost_dried", None),
    ({}, "cost_by_usable", 2.75),
    (IN_DRYER | {"lots": {"weighed": None, "prepped_weighed": None},
                 "products": {"prep_yield": None}}, "cost_by_usable", 0),
    # By weight is paid what has no price in all and none by the container.
    ({"lots": BY_WEIGHT}, "paid_by_weight", True),
    ({"lots": BY_WEIGHT} | IN_DRYER, "paid_by_weight", False),
    ({"lots": {"price_by_weight": 2.0}}, "paid_by_weight", False),
    ({"lots": {"price_by_weight": 2.0} | EACH}, "paid_by_weight", False),
    ({"lots": EACH}, "paid_by_weight", False),
    ({"lots": {"price_total": None, "grown": True}}, "paid_by_weight", False),
    # Of 25 by the recipe's 0.8 a load of 8: 12 wait, and the container's weight moves the cost.
    (boxed(prepped_weighed=None), "by_container", True),
    (boxed(**BY_WEIGHT), "by_container", True),
    (boxed(), "by_container", False),
    ({"lots": {"prepped_weighed": None, "container": "box", "weighed": 25.0}},
     "moved_by_weight", 0),
    ({"lots": {"weighed": None, "prepped_weighed": None}, "loads": {"wet": None}}, "by_the_loads",
     False),
    ({"lots": {"prepped_weighed": None, "weighed": 9.0}}, "by_the_loads", True),
    # By the recipe, 11 × 0.8 = 8.8: it counts once something of it is dried.
    ({"lots": {"prepped_weighed": None, "weighed": 11.0}}, "yield_open", True),
    ({"lots": {"prepped_weighed": None, "weighed": 11.0}} | IN_DRYER, "yield_open", False),
    # Two hundredths of what was prepped may be over or short; what was lost of it counts in that.
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 1.8}}, "some_waiting", False),
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 0.81, "lost": 1.0}}, "some_waiting", False),
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 0.79, "lost": 1.0}}, "some_waiting", True),
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 2.2}}, "used_above_prepped", False),
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 1.19, "lost": 1.0}},
     "used_above_prepped", False),
    ({"lots": {"prepped_weighed": 10.0, "set_aside": 1.21, "lost": 1.0}},
     "used_above_prepped", True),
    ({"lots": {"weighed": 7.9, "lost": 0.5}}, "prepped_above_purchased", True),
    ({"lots": {"prepped_weighed": None}, "products": {"prep_yield": None}}, "weight_missing",
     False),
    ({"lots": {"weighed": None, "lost": 8.0}}, "weight_missing", False),
    # What was weighed on both ends tells a yield, and containers what one holds.
    ({}, "yield_weighed", 0.8),
    ({"lots": {"weighed": None}}, "yield_weighed", None),
    ({"lots": {"prepped_weighed": None}}, "yield_weighed", None),
    ({"lots": {"container": "box", "count": 3, "weighed_count": 2}}, "container_held", 5),
    ({"lots": {"container": "box", "count": 3}}, "container_held", 10 / 3),
    ({}, "container_held", None),
    (boxed(), "container_held", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_lot(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("lots", name)
    if value is None or isinstance(value, bool):
        assert found is value
    else:
        assert found == pytest.approx(value, abs=1e-12)


ABOUT = ("weighed", "prepped_weighed", "set_aside", "lost")


@pytest.mark.parametrize("weight", ABOUT)
def test_a_weight_written_as_about_counts_once_some_of_it_is_dried(weight: str) -> None:
    lot = {"set_aside": 0.1, "lost": 0.1, f"{weight.removesuffix('_weighed')}_about": True}
    if weight == "weighed":
        lot = {"weighed_about": True}
    dried = Figures(**tables(lots=lot))
    assert dried("lots", "written_as_about") is dried("lots", "spread_unknown") is True
    assert dried("products", "spreads_unknown") == 1
    waits = Figures(**tables(lots=lot, **IN_DRYER))
    assert waits("lots", "written_as_about") is waits("lots", "spread_unknown") is False
    assert waits("products", "spreads_unknown") == 0


@pytest.mark.parametrize("prepped", [8.0, None])
def test_a_weight_written_as_about_counts_before_anyone_knows_the_price(
    prepped: float | None,
) -> None:
    """Of 11 by the recipe's yield, 0.8, some waits: what a yield moves is not known either."""
    about = {"weighed": 11.0, "prepped_weighed": prepped, "weighed_about": True}
    found = Figures(**tables(lots=about | {"price_total": None}))
    assert found("lots", "spread_unknown") is True
    assert found("products", "spreads_unknown") == 1
    priced = Figures(**tables(lots={"price_total": None}))
    assert priced("lots", "spread_unknown") is False


def test_what_was_weighed_is_not_about() -> None:
    found = Figures(**tables(lots={"set_aside": 0.1, "lost": 0.1}))
    assert found("lots", "written_as_about") is found("lots", "spread_unknown") is False


# A scale in steps of 0.1 is off by 0.1 ÷ √12 in each weighing: its square is 0.01 ÷ 12.
@pytest.mark.parametrize("weighings", [None, 4])
@pytest.mark.parametrize(("weighed", "by_one"), [("prepped", 2.75), ("weighed", 2.0 * 8 / 8)])
def test_each_weighing_of_a_lot_adds_its_square(
    weighed: str, by_one: float, weighings: int | None
) -> None:
    lot: dict[str, Any] = {f"{weighed}_weighings": weighings}
    other = 0.0
    if weighed == "weighed":
        # Paid by weight: a kilogram more costs 2, all of it dried; what it weighed prepped, too.
        lot |= BY_WEIGHT
        other = 2.75**2
    found = Figures(**tables(lots=lot, scale={"resolution": 0.1}))("lots", "lot_u_squared")
    assert found == pytest.approx((by_one**2 * (weighings or 1) + other) * 0.01 / 12)


def test_two_of_four_weighed_count_twice() -> None:
    lot = BY_WEIGHT | {"weighed": 5.0, "count": 4, "weighed_count": 2}
    found = Figures(**tables(lots=lot, scale={"resolution": 0.1}))
    assert found("lots", "times_weighed") == 2
    assert found("lots", "weighed_u") == pytest.approx(2.0 * 2 * 0.1 / 12**0.5)


def test_what_went_back_in_is_no_load_of_the_lot_that_was_not_weighed() -> None:
    """10 were prepped, 8 of them loaded: the other load had the 2 that are left."""
    made = tables(
        lots={"prepped_weighed": 10.0},
        also_runs={"key": "next", "dryer": "dryer", "started": 46295.0, "duration": 9.0},
        also_loads=BACK | {"run": "next", "dry": 1.2},
        also_loads_2={"id": "fresh", "run": "next", "lot": "lot", "dry": 0.3},
    )
    found = Figures(**made)
    assert found("lots", "loads_unweighed") == 1
    assert found("loads", "wet_evenly", "fresh") == pytest.approx(2)
    assert found("loads", "weight_in", "fresh") == pytest.approx(2)


# What came out of a load that is shown to be dry tells its water: 1.25 with 4 % of water left are
# 1.2 of solids, of 8 that went in: 0.85 was water.
TOLD: dict[str, Any] = {
    "products": {"target_moisture": 0.04},
    "loads": {"dry": 1.25, "weighing_before": 1.25, "weighing_last": 1.25},
}
MORE: dict[str, Any] = {
    "lots": {"prepped_weighed": 12.0},
    "also_lots": {"key": "other", "product": "food", "prepped_weighed": 4.0, "price_total": 1.0},
    "also_loads": {"id": "unshown", "run": "run", "lot": "lot", "wet": 2.0, "dry": 0.9},
    "also_loads_2": {"id": "theirs", "run": "run", "lot": "other", "wet": 4.0, "dry": 0.5,
                     "weighing_before": 0.5, "weighing_last": 0.5},
}  # fmt: skip
"""A load beside it that is not shown to be dry, and one of another lot."""


@pytest.mark.parametrize("more", [{}, MORE])
def test_a_load_that_is_shown_to_be_dry_tells_its_water(more: dict[str, Any]) -> None:
    found = Figures(**tables(**TOLD, **more))
    assert found("loads", "solids_out", "load") == pytest.approx(1.2)
    assert found("lots", "wet_told", "lot") == pytest.approx(8)
    assert found("lots", "water_by_loads", "lot") == pytest.approx(0.85)
    assert found("lots", "water_found", "lot") == pytest.approx(0.85)
    if more:
        assert found("lots", "water_by_loads", "other") == pytest.approx(1 - 0.48 / 4)
        assert found("loads", "tells_water", "unshown") is False


def test_water_by_loads_of_ounces_out_of_pounds() -> None:
    """8 oz out of 2 lb: a quarter, all of it solids."""
    found = Figures("lb", "oz", **tables(
        products={"target_moisture": 0.0}, lots={"prepped_weighed": 2.0},
        loads={"wet": 2.0, "dry": 8.0, "weighing_before": 8.0, "weighing_last": 8.0},
    ))  # fmt: skip
    assert found("lots", "water_by_loads") == pytest.approx(0.75)


def test_water_that_was_measured_comes_before_what_loads_tell() -> None:
    found = Figures(**tables(**TOLD, lots={"water": 0.8}))
    assert found("lots", "water_by_loads") == pytest.approx(0.85)
    assert found("lots", "water_found") == 0.8
    moist = Figures(**tables(**TOLD | {"loads": TOLD["loads"] | {"weighing_before": 1.4}}))
    assert moist("lots", "water_found") is None, "nothing shows that it is dry"
