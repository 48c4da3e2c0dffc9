"""What is reckoned of kinds of packs and of uses that are not alike: one without a count or a net
weight, one past its day, one of two runs, one left from last season. Figure by figure, with a
pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import LATER, TODAY, TOOK_ALL, TWO_RUNS, at_market, tables
from trade.test_of_a_pack import WELL, told

Changed = dict[str, Any]

NO_COUNT: Changed = {"packs": {"count": None}, "uses": None, "counts": None}
ALL_GONE: Changed = {"uses": {"count": 4}, "counts": None}
OTHER_SIZE: Changed = {"prices": {"product": "food", "container": "tin", "net": 0.5}}
NO_PRICE: Changed = {"uses": {"price": None}}
LATE_RUN: Changed = {
    "also_runs": {"key": "other", "dryer": "dryer", "started": TODAY - 5, "duration": 30.0},
    "also_loads": TWO_RUNS["also_loads"] | {"weighing_before": 1.3, "weighing_last": 1.3},
    "also_packs": LATER,
    "also_draws": {"pack": "later", "run": "other"},
}
"""A second run, whose only pack bears the day before it began."""

# Four of 0.3 each, packed seven days ago of 1.3; two were sold for 9 each the day after.
OF_ONE: list[tuple[Changed, str, object]] = [
    # The second pack's run is not that of the first.
    (LATE_RUN, "dry_origin", 1),
    (LATE_RUN, "runs_later", 0),
    (LATE_RUN, "runs_gave", 1.3),
    (TWO_RUNS | {"also_loads": TWO_RUNS["also_loads"] | {"dry": None}}, "runs_gave", None),
    # 2 % of what both gave are forgiven, not of what is in the packs: 2.652 are, 2.6524 not.
    (TWO_RUNS | {"packs": {"net": 0.6631}}, "above_runs", True),
    # What was not priced has brought nothing that is known.
    (at_market(price_written=None), "got_at_markets", None),
    (at_market(), "got_at_markets", 9 * 0.9),
    (NO_PRICE, "got", None),
    # Of a kind without a count there is one. 1.3 cost 25 to run, 35 in all.
    (NO_COUNT, "running_all", 0.3 * 25 / 1.3),
    (NO_COUNT, "full_all", 0.3 * 35 / 1.3),
    # Sealed they keep ten years, opened one; nobody wrote how long the food keeps otherwise.
    (WELL, "days_left", 3650 - 7),
    (WELL | {"products": {"skeletal_density": 1500.0}}, "no_best_by", False),
    (WELL | {"products": WELL["products"] | {"best_by": 0.1}}, "past_best_by", False),
    # The oxygen is that at sea level; higher up the same absorber takes up all of what is there.
    (WELL | {"place": {"altitude": 1500.0}}, "absorber_share", 1),
    (WELL | {"place": {"altitude": 1500.0}}, "oxygen", 209.5),
    # Sealed last season, and shown to be dry then; its loads are of that one.
    (WELL | {"packs": {"carried_running": 3.0, "carried_dryness": "dry"}, "draws": None},
     "sealed_well", True),
    (WELL | {"packs": {"carried_running": 3.0, "carried_dryness": "not shown"}, "draws": None},
     "sealed_well", False),
    # The net weight is there, though nobody knows how many are.
    (at_market(took=None), "net_missing", False),
    (at_market(took=None), "weight_on_hand", None),
    # Without a net weight it has no size of which a price could be missing; all gone, it has one.
    ({"packs": {"net": None}}, "not_priced", False),
    (ALL_GONE | OTHER_SIZE, "not_priced", True),
    (ALL_GONE, "not_priced", False),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_kind_of_pack(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("packs", name, "pack")
    assert told(found, value), found


NOTHING_LEFT: Changed = {"packs": {"net": 1.3 / 4}}
TAKEN = TOOK_ALL | {"pack": None, "channel": None, "count": None, "price": None}

OF_USE: list[tuple[Changed, str, object]] = [
    ({"uses": {"price": None, "channel": "co-op"}}, "price_missing", True),
    ({"uses": {"count": None}}, "running_out", 0.3 * 25 / 1.3),
    # All is packed: nothing was left to be taken, whatever is written as its weight.
    (NOTHING_LEFT | {"uses": TAKEN | {"weight": 0.05}}, "rest_of_nothing", True),
    ({"uses": TAKEN | {"weight": 0.05}}, "rest_of_nothing", False),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_USE)
def test_a_figure_of_such_a_use(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("uses", name)
    assert told(found, value), found
