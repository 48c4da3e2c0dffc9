"""What is reckoned of one load, figure by figure, with a pencil."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from published.figures import Figures

from trade.small import season
from trade.test_checks import BACK, TODAY, UNWEIGHED, tables
from trade.test_unweighed import DRY, MIXED

NEXT = {"key": "next", "dryer": "dryer", "started": TODAY - 6, "duration": 10.0, "energy": 4.0}
AGAIN = BACK | {"run": "next"}
"""The load went back in, in a second run."""
TWICE: dict[str, Any] = {
    "also_runs": NEXT,
    "also_loads": AGAIN | {"id": "half", "wet": 0.6, "dry": 0.5},
    "also_loads_2": AGAIN | {"id": "rest", "wet": 0.6, "dry": 0.5},
}
"""In two parts."""
UNPACKED: dict[str, Any] = {"draws": None, "packs": None, "uses": None, "counts": None}
ONCE: dict[str, Any] = {"weighing_before": None}

# The load went in with 8 of 85 % of water: 1.2 of solids. It came out with 1.3, so weighed twice.
# The lot cost 22, of which the 8 are all: 2.75 each.
OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    # What was parted into two is neither of them.
    (TWICE, "dry_passed_on", None),
    (TWICE, "hours_again", None),
    ({}, "hours_again", None),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}}, "hours_again", 10),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}, "loads": UNWEIGHED},
     "hours_again", 10),
    # By the hours is only what nobody weighed: 8 - (8 - 1) × 30 ÷ 40.
    ({"also_runs": NEXT, "also_loads": AGAIN, "loads": UNWEIGHED}, "dry_by_hours", 2.75),
    ({"also_runs": NEXT, "also_loads": AGAIN}, "dry_by_hours", None),
    # What went back in says nothing of what went in at first: 1.3 is no dry weight in the end.
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.3},
      "loads": UNWEIGHED | {"wet": None}, "products": {"target_moisture": 0.0}},
     "wet_by_dry", None),
    ({"loads": {"wet": None}, "products": {"target_moisture": 0.0}}, "wet_by_dry", 1.3 / 0.15),
    # Nothing is left of the lot; or as much as came out.
    ({"loads": UNWEIGHED | {"wet": None}, "lots": {"prepped_weighed": 8.0, "set_aside": 8.0}},
     "wet_fits", False),
    ({"loads": {"wet": None}, "lots": {"prepped_weighed": 8.0, "set_aside": 6.7}},
     "wet_fits", True),
    ({"loads": {"wet": None}, "lots": {"prepped_weighed": 8.0, "set_aside": 6.8}},
     "wet_fits", False),
    # A weight of the run as a whole is not lost, nor what was never packed.
    ({"loads": UNWEIGHED}, "dry_lost", True),
    ({"loads": UNWEIGHED, "runs": {"dry": 1.3}}, "dry_lost", False),
    ({"loads": UNWEIGHED, "packs": {"net": 0.29}}, "dry_not_told", True),
    ({"loads": UNWEIGHED}, "dry_not_told", False),
    ({"loads": UNWEIGHED} | UNPACKED, "dry_not_told", False),
    ({"loads": UNWEIGHED, "draws": {"run": "next"}, "also_runs": NEXT}, "dry_not_told", False),
    # Four packs of 0.3 hold all of the solids; such of 2.1 more than went in.
    ({"loads": UNWEIGHED}, "packs_tell", True),
    ({"loads": UNWEIGHED}, "dry_by_packs", 1.2),
    ({"loads": UNWEIGHED, "packs": {"net": 2.1}}, "dry_by_packs", 8),
    # It came out heavier than it went in: no share of a cost goes by that.
    ({"loads": UNWEIGHED | {"dry": 9.0}}, "run_share", None),
    ({"loads": UNWEIGHED}, "product_share", 1),  # alone in its run, so far as that is known
    ({"loads": UNWEIGHED} | UNPACKED, "product_share", 1),
    ({"loads": UNWEIGHED} | UNPACKED, "unpacked_place", None),  # not done
    (UNPACKED, "unpacked_place", 1),
    ({}, "unpacked_place", None),
    ({"runs": {"started": None}}, "went_in", 0),
    ({"loads": {"wet_about": True}}, "spread_unknown", True),
    ({"loads": UNWEIGHED | {"wet_about": True}} | UNPACKED, "spread_unknown", False),
    ({"rates": {"electricity": None}}, "energy_u_together", None),
    # Coarse is a step above a hundredth of the weight, 0.013, where it was weighed twice.
    ({"scale": {"resolution": 0.02}}, "too_coarse", True),
    ({"scale": {"resolution": 0.02}, "loads": ONCE}, "too_coarse", False),
    ({"scale": {"resolution": 0.012}}, "too_coarse", False),
    # 9 of at least 85 % of water hold 1.35, nine tenths of 1.5: a tenth of water is not too much.
    ({"products": {"water_low": 0.85}, "loads": {"wet": 9.0, "dry": 1.5}}, "weighed_moist", False),
    ({"products": {"water_low": 0.85}, "loads": {"wet": 9.0, "dry": 1.51}}, "weighed_moist", True),
    ({}, "dryness_pending", None),
    ({"loads": UNWEIGHED} | UNPACKED, "dryness_pending", "in process"),
    # Not out of the dryer, for a load beside it is not: a reason is told of what is.
    ({"also_loads": {"id": "more", "run": "run", "lot": "lot", "wet": 0.5}}, "dryness_reason",
     None),
    ({"also_loads": {"id": "more", "run": "run", "lot": "lot", "wet": 0.5},
      "loads": UNWEIGHED | {"dry": 3.0}, "products": {"water_low": 0.85}}, "dryness_limit",
     "at most 10 % water left; extension advice"),
    ({"loads": {"wet": 8.0, "dry": 1.2}}, "solids_missing", False),
    # Two weighings 0.1 apart: more than a step of 0.02, which is 1.54 % of 1.3.
    ({"scale": {"resolution": 0.02}, "loads": {"weighing_before": 1.4}}, "limit_of_weights",
     "two weighings within 1.54 %; common practice"),
    ({"loads": {"wet": None}, "lots": {"prepped_weighed": None, "weighed": None}}, "wet_guessed",
     False),
    ({"loads": UNWEIGHED} | UNPACKED, "dry_guessed", False),
    ({}, "tells_water", True),
    ({"loads": {"wet_about": True, "water_activity": 0.3}}, "tells_water", False),
    # Lost is only what a failed run held.
    ({"lots": {"labor": 1.0}, "rates": {"labor": 10.0}}, "hours_lost_with_it", 0),
    ({"lots": {"labor": 1.0}, "rates": {"labor": 10.0}, "runs": {"failed": True}},
     "hours_lost_with_it", 10),
    # The last weighing, give or take a step of the scale, be it more or less.
    ({"loads": {"dry": 1.29}}, "dry_not_last_weighing", True),
    ({"loads": {"dry": 1.31}}, "dry_not_last_weighing", True),
    ({"loads": {"dry": 1.295}}, "dry_not_last_weighing", True),
    ({"loads": {"dry": 1.295}, "scale": {"resolution": 0.01}}, "dry_not_last_weighing", False),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_load(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("loads", name, "load")
    if value is None or isinstance(value, bool | str):
        assert found == value and type(found) is type(value)
    else:
        assert found == pytest.approx(value, abs=1e-12)


# 1.2 of it went back in, and 1 came out.
OF_AGAIN: list[tuple[dict[str, Any], str, object]] = [
    ({}, "gave", -0.2),
    ({"also_runs": NEXT | {"failed": True}}, "gave", -1.2),  # lost in its second drying
    ({"also_runs": NEXT | {"dry": 1.0}, "also_loads": AGAIN | {"wet": 1.2, "dry": None}},
     "weight_gained", -0.2),
    ({"lots": {"price_total": None, "trip": None, "carried_running": 3.0, "carried_full": 9.0}},
     "labor_carried", 0),
    ({}, "cost_by_wet", 0),
    ({"also_loads": AGAIN | {"wet": 1.2, "wet_weighings": 3, "dry_weighings": 2}},
     "weighed_dry", 5),
    ({"products": {"target_moisture": 0.04}}, "solids_out", 0.96),
    # Of unknown weight when it went back in.
    ({"also_runs": NEXT | {"duration": None}, "loads": UNWEIGHED,
      "also_loads": AGAIN | {"dry_about": True}}, "dry_guessed", True),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_AGAIN)
def test_a_figure_of_what_went_back_in(changed: dict[str, Any], name: str, value: float) -> None:
    again = {"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}}
    found = Figures(**tables(**again | changed))("loads", name, "back")
    assert found == pytest.approx(value, abs=1e-12)


def test_a_wet_weight_of_the_lot_is_of_what_went_in_first() -> None:
    """10 were prepped and 8 loaded: the 2 that are left are the fresh load's, not the other's."""
    found = Figures(**tables(
        lots={"prepped_weighed": 10.0},
        also_runs=NEXT,
        also_loads=AGAIN | {"dry": None},
        also_loads_2={"id": "fresh", "run": "next", "lot": "lot"},
    ))  # fmt: skip
    assert found("loads", "wet_by_lot", "fresh") == pytest.approx(2)
    assert found("loads", "wet_by_lot", "back") is None


def test_the_first_product_that_is_not_packed_is_named() -> None:
    """Of three products that came out of the dryer the first is packed."""
    found = Figures(**tables(
        products={"name": "Food"},
        also_products={"key": "second", "name": "Second"},
        also_products_2={"key": "third", "name": "Third"},
        also_lots={"key": "s", "product": "second", "weighed": 4.0, "price_total": 1.0},
        also_lots_2={"key": "t", "product": "third", "weighed": 4.0, "price_total": 1.0},
        also_loads={"id": "3", "run": "run", "lot": "t", "wet": 4.0, "dry": 0.5},
        also_loads_2={"id": "2", "run": "run", "lot": "s", "wet": 4.0, "dry": 0.5},
    ))  # fmt: skip
    assert found.numbers.cells["loads"]["unpacked_place"] == [None, 3, 2]
    assert found("dryers", "unpacked_first") == 2
    assert found("dryers", "payback_without") == "Second: none of it is packed yet"


@pytest.mark.parametrize(
    ("text", "key", "name"), [(MIXED, "r/t", "share_of_run"), (DRY, "r/t", "share_of_packs")]
)
def test_a_share_is_an_estimate_though_its_water_was_measured(
    tmp_path: Path, text: str, key: str, name: str
) -> None:
    lots = text.replace("prepped: 20 lb}", "prepped: 20 lb, water: 90 %}")
    assert lots != text
    assert season(tmp_path, lots).mark("loads", name, key) is True
