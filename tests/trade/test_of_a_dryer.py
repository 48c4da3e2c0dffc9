"""What is reckoned of one dryer, of containers and overheads, figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import BACK, TODAY, UNWEIGHED, tables
from trade.test_of_a_load import NEXT, UNPACKED
from trade.test_of_a_pack import told
from trade.test_of_a_season import GOING, NOTHING_DRIED

LATER: dict[str, Any] = {
    "also_dryers": {"key": "shed", "price": 50.0, "life": 10},
    "also_runs": {"key": "later", "dryer": "shed", "started": TODAY - 2, "duration": 12.0},
}
"""Another dryer, whose run ended a day and a half before the day."""
# The one run: 30 h from eight days ago; what came of it is worth 34.20 by sales and shops, at a
# running cost of 25 for 1.3, of which 1.2 are packed.
GAIN = (16.2 + 18) / 1.2 - 25 / 1.3
SAVED = 1.3 * GAIN

OF_ONE: list[tuple[dict[str, Any], str, str, object]] = [
    ({}, "dryers", "saved", SAVED),
    (GOING, "dryers", "runs_done", 1),
    ({"dryers": {"runs_before": 5}}, "dryers", "runs_done", 6),
    ({"dryers": {"runs_before": 5}}, "dryers", "runs_this_season", 1),
    ({"dryers": {"runs_before": 5, "runs_when_bought": 4}}, "dryers", "runs_of_machine", 10),
    ({"dryers": {"runs_before": 5, "runs_when_bought": 4},
      "upkeep": {"dryer": "dryer", "cost": 3.0, "every": 8}}, "upkeep", "due_in", 6),
    ({"dryers": {"runs_before": 7}, "upkeep": {"dryer": "dryer", "cost": 3.0, "every": 8}},
     "upkeep", "due_in", 0),
    # A run that is lost took its hours, one that goes on has not yet.
    ({"runs": {"failed": True}}, "dryers", "hours_run", 30),
    (GOING, "dryers", "hours_run", 30),
    (GOING, "dryers", "energy_used", 12),
    ({"runs": {"energy": None}}, "dryers", "energy_used", None),
    ({"runs": {"duration": None}}, "dryers", "hours_run", None),
    ({"upkeep": {"dryer": "dryer", "every": 9}}, "dryers", "upkeep_per_run", None),
    ({"dryers": {"resale": 40.0}}, "dryers", "wear_per_run", 6),
    # Nothing dried bears nothing of what was paid beside; what is not valued saves nothing known.
    (NOTHING_DRIED | {"overheads": {"cost": 9.0}}, "dryers", "paid_beside", 0),
    ({"overheads": {"cost": 9.0, "over": 1.0}}, "dryers", "paid_beside", 9),
    ({"offers": None}, "dryers", "gained", None),
    (UNPACKED, "dryers", "gained", 0),
    ({"also_runs": NEXT, "also_loads": BACK | {"run": "next", "wet": 1.2}}, "dryers", "dried", 1.1),
    ({"also_runs": NEXT | {"energy": None},
      "also_loads": {"id": "m", "run": "next", "lot": "lot", "wet": 0.1}}, "dryers", "dried", 1.3),
    # What earlier seasons saved, else as if each of their runs had saved as much.
    ({"dryers": {"saved_before": 10.0}}, "dryers", "saved_in_all", 10 + SAVED),
    ({"dryers": {"runs_before": 3}}, "dryers", "saved_in_all", 4 * SAVED),
    ({"dryers": {"saved_before": 10.0, "runs_before": 3}}, "dryers", "saved_in_all", 10 + SAVED),
    ({"dryers": {"saved_before": 10.0}}, "dryers", "price_left", 90 - SAVED),
    ({"dryers": {"saved_before": 100.0}}, "dryers", "price_left", 0),
    ({"dryers": {"saved_before": 10.0}}, "dryers", "payback_left", (90 - SAVED) / SAVED),
    ({"dryers": {"saved_before": 100.0}}, "dryers", "payback_left", 0),
    # It is paid for, though no run of this season saves anything.
    ({"dryers": {"saved_before": 200.0}, "uses": {"price": 0.0}, "offers": {"price": 1.0}},
     "dryers", "payback_left", 0),
    ({"uses": {"price": 0.0}, "offers": {"price": 1.0}}, "dryers", "payback_runs", None),
    ({}, "dryers", "payback_left", 100 / SAVED - 1),
    ({"dryers": {"runs_before": 50}}, "dryers", "payback_left", 0),
    ({}, "dryers", "runs_to_go", 8),
    ({"dryers": {"runs_per_year": 73}}, "dryers", "payback_time", (100 / SAVED - 1) * 5 * 24),
    ({"dryers": {"runs_per_year": 73, "runs_before": 50}}, "dryers", "payback_time", None),
    # Its own last run: 30 h from eight days ago; the other dryer's ended later.
    (LATER, "dryers", "last_end", TODAY - 8 + 1.25),
    (LATER, "dryers", "idle", (TODAY - 2 + 0.5 - (TODAY - 8 + 1.25)) * 24),
    (LATER | {"dryers": {"runs_per_year": 73}}, "dryers", "payback_date",
     TODAY - 8 + 1.25 + (100 / SAVED - 1) * 5),
    # In words.
    ({}, "dryers", "payback_word", "on its way"),
    ({"dryers": {"runs_before": 50}}, "dryers", "payback_word", "already paid for"),
    ({"uses": {"price": 0.0}, "offers": {"price": 1.0}}, "dryers", "payback_word",
     "nothing is saved: it does not pay for itself"),
    ({"offers": None, "products": {"name": "Food"}}, "dryers", "payback_word",
     "not known: Food lacks a shop price"),
    (NOTHING_DRIED, "dryers", "payback_word", "not known: no run is done this season"),
    ({"dryers": {"price": None}}, "dryers", "payback_word",
     "not known: the dryer's price is not written"),
    ({"overheads": {"over": 9.0}}, "dryers", "payback_word",
     "not known: an overhead, the stall or paid time lacks its price"),
    ({"dryers": {"price": None}}, "dryers", "payback_said", None),
    ({"dryers": {"runs_before": 50}}, "dryers", "payback_said", "dryer: already paid for"),
    ({}, "dryers", "payback_said", "dryer: paid for after about 8 more runs"),
    ({}, "dryers", "payback_before", "none"),
    ({"dryers": {"runs_before": 3}}, "dryers", "payback_before", "as if each had saved as much"),
    ({"dryers": {"runs_before": 3, "saved_before": 1.0}}, "dryers", "payback_before",
     "at what they saved"),
    # A tenth of lids is lost; a part used thrice costs a third.
    ({"containers": {"spoiled": 0.1}, "parts": {"container": "tin", "cost": 2.7, "uses": 3}},
     "containers", "packaging_each", 1),
    ({"parts": {"container": "tin", "cost": 2.7}}, "parts", "cost_each", 2.7),
    ({"parts": {"container": "tin"}}, "containers", "parts_cost", None),
    ({"overheads": {"cost": 2.6}}, "overheads", "spread_over", 1.3),
    ({"overheads": {"cost": 2.6, "over": 13.0}}, "overheads", "spread_over", 13),
    ({"overheads": {"cost": 2.6, "over": 13.0}}, "overheads", "charged", 0.26),
    (NOTHING_DRIED | {"overheads": {"cost": 2.6}}, "overheads", "by_weight", None),
    ({"carried_over": {"product": "food", "dried": 2.0, "full": 3.0}}, "products",
     "carried_running", None),
    ({"carried_over": {"product": "food", "dried": 2.0, "full": 3.0}}, "products",
     "carried_full", 6),
    ({"carried_over": {"product": "food", "dried": 2.0, "running": 3.0}}, "products",
     "carried_full", None),
    ({"carried_over": {"product": "food", "running": 3.0}}, "products", "carried", None),
    ({"lots": {"price_total": None}}, "trips", "purchases", None),
    ({"lots": {"price_total": None}}, "trips", "price_open", True),
    ({"lots": {"price_total": None}}, "trips", "shared_evenly", False),
    ({}, "trips", "price_open", False),
    ({}, "trips", "lots_fetched", 1),
    # Two days at the stall are planned, on one of them something was sold.
    ({"pricing": {"stall": 5.0, "days": 2}}, "season", "stall_days_ahead", 1),
    ({"pricing": {"stall": 5.0, "days": 2}}, "season", "stall_ahead", 5),
    ({"pricing": {"stall": 5.0, "days": 0}}, "season", "stall_days_ahead", 0),
    ({"pricing": {"stall": 5.0, "days": 2}, "uses": {"date": None}}, "season",
     "stall_days_ahead", 0),
    ({"pricing": {"stall": 5.0, "days": 2}, "uses": {"date": None}}, "season",
     "stall_sales_undated", 1),
    (GOING | {"also_runs": NEXT}, "season", "paid_for_going", 1),
    (GOING | {"also_runs": NEXT}, "season", "machine_in_spent", 3),
    ({"runs": {"failed": True}}, "season", "machine_in_spent", 3),
    ({"loads": UNWEIGHED} | UNPACKED, "season", "in_process_cost", 22),
    ({}, "season", "in_process_cost", 0),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "table", "name", "value"), OF_ONE)
def test_a_figure_of_equipment(
    changed: dict[str, Any], table: str, name: str, value: object
) -> None:
    found = Figures(**tables(**changed))(table, name)
    assert told(found, value), found
