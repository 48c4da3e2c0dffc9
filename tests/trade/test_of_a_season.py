"""What is reckoned of a product and of the season, figure by figure, with a pencil: first of all
that a sum is unknown while one of its rows is."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, UNWEIGHED, at_market, mixed, of_mix, tables
from trade.test_of_a_load import AGAIN, NEXT, UNPACKED
from trade.test_of_a_pack import BULK, FREE, told

UNPRICED: dict[str, Any] = {"lots": {"price_total": None}}
NO_RATE: dict[str, Any] = {"rates": {"labor": None}}
WAITS: dict[str, Any] = {"also_lots": {"key": "b", "product": "food", "weighed": 4.0}}
"""A lot of 4 without a price, of which by the yield of 0.8 all waits: 3.2."""
GOING: dict[str, Any] = {"also_runs": NEXT | {"labor": 1.0, "energy": None}}
OPEN = {"id": "open", "run": "next", "lot": "b"}
NOTHING_DRIED: dict[str, Any] = UNPACKED | {"loads": UNWEIGHED}
LOST: dict[str, Any] = {"also_runs": NEXT | {"failed": True, "duration": None}}
LEFT = {"key": "old", "product": "food", "count": 2, "net": 0.2, "carried_running": 3.0,
        "carried_full": 4.0, "container": "jar", "labor": 1.0}  # fmt: skip
LEFT_OVER: dict[str, Any] = {
    "also_packs": LEFT,
    "also_containers": {"key": "jar"},
    "parts": {"container": "jar", "cost": 1.0},
    "rates": {"labor": 10.0},
}
"""Packs left from last season, whose jars and hours were of that one."""
OTHER: dict[str, Any] = {
    "also_products": {"key": "other", "water": 0.8},
    "also_lots": {"key": "b", "product": "other", "weighed": 4.0, "prepped_weighed": 4.0},
    "also_runs": {"key": "two", "dryer": "dryer", "started": TODAY - 5, "duration": 10.0,
                  "energy": 4.0, "labor": 1.0},
    "also_loads": {"id": "o", "run": "two", "lot": "b", "wet": 3.0, "dry": 0.8},
}  # fmt: skip
"""A second product, of a lot without a price: 3 of 4 dried, in a run of its own."""

# The season: a lot of 10 for 20 and 2 of driving, 8 prepped and dried to 1.3 with 12 kWh at 0.25,
# in four packs of 0.3. The dryer wears 10 a run.
UNKNOWN: list[tuple[dict[str, Any], str, str]] = [
    (WAITS | {"also_lots": {"key": "b", "product": "food"}}, "season", "as_purchased"),
    (WAITS | {"also_lots": {"key": "b", "product": "food"}}, "season", "prepped"),
    (WAITS | {"also_lots": {"key": "b", "product": "food"}}, "season", "waiting"),
    (WAITS | {"also_lots": {"key": "b", "product": "food"}}, "products", "waiting"),
    (WAITS, "season", "purchase_cost"),
    (WAITS, "season", "waiting_cost"),
    (WAITS | {"also_lots": WAITS["also_lots"] | {"set_aside": 1.0}}, "season", "set_aside_cost"),
    ({"rates": {"travel": None}}, "season", "travel_cost"),
    (NO_RATE | {"lots": {"labor": 1.0}}, "season", "labor_cost"),
    (NO_RATE | {"runs": {"labor": 1.0}}, "season", "run_labor_cost"),
    (NO_RATE | {"runs": {"labor": 1.0}}, "season", "run_labor_all"),
    (NO_RATE | {"packs": {"labor": 1.0}}, "season", "cost_pack_labor"),
    (NO_RATE | {"packs": {"labor": 1.0}}, "products", "cost_pack_labor"),
    (NO_RATE | {"packs": {"labor": 1.0}}, "products", "pack_labor_intact"),
    (NO_RATE | {"lots": {"labor": 1.0}}, "products", "cost_labor"),
    (NO_RATE | {"lots": {"labor": 1.0}}, "season", "cost_labor"),
    ({"runs": {"energy": None}}, "season", "energy_used"),
    ({"runs": {"energy": None}}, "season", "energy_cost"),
    ({"runs": {"energy": None}}, "products", "energy_used"),
    ({"runs": {"energy": None}}, "products", "cost_energy"),
    ({"runs": {"energy": None}}, "season", "cost_energy"),
    ({"runs": {"energy": None}}, "products", "running_estimated"),
    ({"runs": {"energy": None}}, "season", "running_estimated"),
    ({"runs": {"duration": None, "energy": 12.0}}, "products", "machine_hours"),
    ({"dryers": {"price": None}}, "products", "cost_wear"),
    ({"dryers": {"price": None}}, "season", "cost_wear"),
    ({"upkeep": {"dryer": "dryer", "every": 9}}, "products", "cost_upkeep"),
    ({"upkeep": {"dryer": "dryer", "every": 9}}, "season", "cost_upkeep"),
    ({"upkeep": {"dryer": "dryer", "every": 9}}, "season", "money_upkeep"),
    ({"overheads": {"over": 9.0}}, "season", "overhead_by_weight"),
    ({"overheads": {"over": 9.0}}, "products", "cost_overhead"),
    ({"overheads": {"over": 9.0}}, "season", "cost_overhead"),
    ({"overheads": {"over": 9.0}}, "season", "money_overheads"),
    ({"parts": {"container": "tin"}}, "products", "cost_packaging"),
    ({"parts": {"container": "tin"}}, "season", "cost_packaging"),
    ({"parts": {"container": "tin"}}, "products", "packaging_intact"),
    (UNPRICED, "products", "cost_ingredients"),
    (UNPRICED, "season", "cost_ingredients"),
    (UNPRICED, "season", "running_cost"),
    (UNPRICED, "season", "full_cost"),
    (UNPRICED, "season", "profit"),
    (UNPRICED, "season", "sales_left"),
    ({"uses": {"price": None}}, "season", "revenue"),
    ({"uses": {"price": None}}, "season", "sales"),
    ({"uses": {"price": None}}, "season", "money_in"),
    ({"uses": {"price": None}}, "season", "money_fees"),
    ({"uses": {"price": None}}, "season", "money_tax"),
    ({"uses": {"price": None}}, "products", "sales_got"),
    ({"packs": {"net": None}}, "products", "packed"),
    ({"packs": {"net": None}}, "season", "packed"),
    ({"packs": {"net": None}}, "season", "unpacked"),
    ({"packs": {"net": None}}, "products", "sold_weight"),
    ({"packs": {"net": None}}, "products", "kept_on_hand"),
    ({"packs": {"net": None}, "uses": FREE | {"purpose": "gift"}}, "products", "kept_taken"),
    ({"packs": {"net": None}, "uses": FREE | {"purpose": "spoiled"}}, "products", "spoiled"),
    ({"uses": BULK | FREE | {"purpose": "crumbs", "weight": None}}, "products", "crumbs"),
    ({"uses": BULK | FREE | {"purpose": "sample", "weight": None}}, "products", "bulk_used"),
    (LOST | {"also_loads": AGAIN | {"dry": None}, "loads": UNWEIGHED}, "products", "put_back"),
    (LOST | {"also_loads": AGAIN | {"dry": None}, "loads": UNWEIGHED}, "products", "dried"),
    (LOST | {"also_loads": AGAIN | {"dry": None}, "loads": UNWEIGHED}, "season", "dried"),
    (WAITS | GOING | {"also_lots": {"key": "b", "product": "food"}, "also_loads": OPEN},
     "products", "in_process"),
    (UNPRICED | {"runs": {"failed": True}}, "season", "failed_produce"),
    (UNPRICED | {"runs": {"failed": True}}, "season", "failed_running"),
    (UNPRICED | {"runs": {"failed": True}}, "season", "failed_cost"),
    (UNPRICED | {"counts": {"counted": 1}}, "season", "shrinkage"),
    ({"counts": {"date": TODAY, "pack": None, "product": "food"}}, "products", "bulk_missing"),
    (at_market(took=None), "season", "sales"),
    (at_market(took=None), "season", "profit"),
]  # fmt: skip


@cache
def sound() -> Figures:
    """The season as it is, for those that look at a neighbour of it."""
    return Figures(**tables())


@pytest.mark.parametrize(("changed", "table", "name"), UNKNOWN)
def test_a_sum_is_unknown_while_one_of_its_rows_is(
    changed: dict[str, Any], table: str, name: str
) -> None:
    assert sound()(table, name) is not None
    assert Figures(**tables(**changed))(table, name) is None


KNOWN: list[tuple[dict[str, Any], str, str, object]] = [
    # What was of last season is in no sum of this one.
    (LEFT_OVER, "products", "cost_packaging", 0),
    (LEFT_OVER, "products", "cost_pack_labor", 0),
    (LEFT_OVER, "products", "packaging_intact", 0),
    (LEFT_OVER, "products", "pack_labor_intact", 0),
    (LEFT_OVER, "products", "packed", 1.2),
    (LEFT_OVER, "products", "kept_on_hand", 0.6),
    ({"lots": {"carried_running": 9.0, "carried_full": 11.0, "price_total": None}}, "season",
     "as_purchased", 0),
    ({"lots": {"carried_running": 9.0, "carried_full": 11.0, "price_total": None}}, "season",
     "purchase_cost", 0),
    ({"lots": {"carried_running": 9.0, "carried_full": 11.0}, "rates": {"travel": None}},
     "season", "travel_cost", 0),
    ({"lots": {"carried_running": 9.0, "carried_full": 11.0, "labor": 1.0},
      "rates": {"labor": 9.0}}, "season", "labor_cost", 0),
    # A mix's packs are of the mix.
    (of_mix(), "products", "packed", 0),
    (of_mix(), "products", "kept_on_hand", 0),
    (of_mix(), "products", "sold_weight", 0),
    # What is in a dryer is in process, dried is what came out: 1 h of time for the run that goes.
    (GOING | {"rates": {"labor": 10.0}, "also_loads": OPEN | {"lot": "lot", "wet": 0.1}},
     "products", "in_process", 0.1),
    (GOING | {"rates": {"labor": 10.0}, "also_loads": OPEN | {"lot": "lot", "wet": 0.1}},
     "products", "loaded", 8),
    (GOING | {"rates": {"labor": 10.0}}, "season", "run_labor_cost", 0),
    (GOING | {"rates": {"labor": 10.0}}, "season", "run_labor_all", 10),
    (GOING, "season", "energy_used", 12),
    (GOING, "season", "energy_cost", 3),
    (GOING, "season", "water_removed", 6.7),
    (GOING, "season", "runs_open", 1),
    (GOING | {"runs": {"failed": True}}, "season", "runs_open", 1),
    (WAITS, "season", "lots_open", 1),
    (WAITS, "season", "as_purchased", 14),
    (WAITS, "season", "waiting", 3.2),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}}, "products", "loaded", 8),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}}, "products", "put_back", 1.2),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2}}, "products", "dried", 1.1),
    ({"also_runs": NEXT | {"failed": True}, "also_loads": AGAIN | {"wet": 1.2}}, "products",
     "put_back", 1.2),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 1.2, "dry": None}}, "products",
     "put_back", 0),
    # Two products: the one without a price leaves the other's cost as it is.
    (OTHER, "products", "running_cost", 25),
    (OTHER, "products", "energy_used", 12),
    (OTHER, "products", "machine_hours", 30),
    (OTHER, "products", "runs_taken", 1),
    (OTHER, "products", "dried", 1.3),
    (OTHER, "season", "dried", 2.1),
    (OTHER, "season", "saving", 9 * 2 - 25 / 1.3 * 0.6),
    (OTHER, "season", "instead", 18),
    (OTHER, "season", "running_cost", None),
    # A share of nothing is none, a cost on nothing is none.
    ({"uses": {"count": 4}, "counts": None} | {"offers": None}, "products", "instead_on_hand", 0),
    ({"offers": None}, "products", "instead_taken", 0),
    ({"offers": None}, "products", "instead_on_hand", None),
    (UNPRICED, "products", "kept_cost_taken", 0),
    (UNPRICED, "products", "kept_cost_on_hand", None),
    (UNPRICED | {"uses": {"count": 4}, "counts": None}, "products", "kept_cost_on_hand", 0),
    ({"offers": None}, "products", "instead_compared", None),
    (UNPACKED, "products", "none_packed", True),
    (UNPACKED, "products", "gain", 0),
    ({"packs": {"net": None}}, "products", "gain", None),
    ({}, "products", "gain", (16.2 + 18) / 1.2 - 25 / 1.3),
    # 1.3 dried: 2 % of it, 0.026, is not said to be left.
    ({"packs": {"net": 1.274, "count": 1}}, "products", "left_in_bulk", False),
    ({"packs": {"net": 1.27, "count": 1}}, "products", "left_in_bulk", True),
    ({"packs": {"net": 1.326, "count": 1}}, "products", "packed_beyond", False),
    ({"packs": {"net": 1.33, "count": 1}}, "products", "packed_beyond", True),
    # All that was packed spoiled; all that was dried was crumbs.
    ({"uses": FREE | {"purpose": "spoiled", "count": 4}, "counts": None}, "products",
     "packed_bearing", None),
    ({"uses": FREE | {"purpose": "spoiled", "count": 3}, "counts": None}, "products",
     "packed_bearing", 0.3),
    ({"uses": BULK | FREE | {"purpose": "crumbs", "weight": 1.3}}, "products", "bulk", None),
    ({"uses": BULK | FREE | {"purpose": "crumbs", "weight": 1.0}}, "products", "bulk", 0.3),
    ({"also_runs": NEXT, "also_loads": AGAIN | {"wet": 2.3}}, "products", "dried_below_zero",
     False),
    (UNPRICED | NOTHING_DRIED, "products", "cost_missing", False),
    (NOTHING_DRIED | {"offers": None}, "products", "shop_price_missing", False),
    # Hours of work: of the lot, the run and the packs, where any were written.
    ({"lots": {"labor": 1.0}, "runs": {"labor": 2.0}, "packs": {"labor": 3.0},
      "rates": {"labor": 1.0}}, "products", "hours_worked", 6),
    ({}, "products", "hours_worked", None),
    ({}, "products", "hours_said", "none written"),
    ({"packs": {"labor": 3.0}, "rates": {"labor": 1.0}}, "products", "hours_said", "written"),
    ({"dryers": {"turnaround": 2.0}}, "products", "machine_hours", 32),
    ({"offers": None}, "products", "unranked", True),
    ({"offers": None}, "season", "worth_unranked", 1),
    (NOTHING_DRIED | {"offers": None}, "products", "unranked", False),
    # What money leaves for.
    ({"overheads": {"cost": 9.0, "over": 1.0}}, "season", "money_overheads", 9),
    ({"overheads": {"cost": 9.0, "over": 1.0, "paid": False}}, "season", "money_overheads", 0),
    ({"rates": {"labor": 10.0, "labor_paid": True}, "lots": {"labor": 1.0}}, "season",
     "money_labor", 10),
    ({"rates": {"labor": 10.0}, "lots": {"labor": 1.0}}, "season", "money_labor", 0),
    ({"rates": {"labor": None}, "lots": {"labor": 1.0}}, "season", "money_labor", 0),
    ({"pricing": {"stall": 5.0, "days": 3}}, "season", "stall_cost", 15),
    ({"pricing": {"stall": 5.0, "days": 3}}, "season", "money_stall", 5),
    ({"uses": {"price": 4.0}}, "season", "sales_left_share", None),
    ({}, "season", "shelf_not_listed", 0),
    # Mixes take bulk, 0.5 of it.
    (mixed(), "products", "bulk_mixed", 0.5),
    (mixed(), "products", "unpacked", -0.4),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "table", "name", "value"), KNOWN)
def test_a_figure_of_the_season(
    changed: dict[str, Any], table: str, name: str, value: object
) -> None:
    found = Figures(**tables(**changed))(table, name)
    assert told(found, value), found
