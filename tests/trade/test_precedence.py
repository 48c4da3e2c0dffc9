"""What was measured comes before what is worked out, where a sheet has both."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, tables

BOTH: list[tuple[dict[str, Any], str, str, object]] = [
    ({"runs": {"meter_from": 5.0, "meter_to": 25.0}}, "runs", "metered", 12),
    ({"runs": {"ended": TODAY - 6}}, "runs", "hours", 30),
    ({"runs": {"ended": TODAY - 6}}, "runs", "end", TODAY - 6),
    ({"runs": {"meter_from": 5.0, "meter_to": 25.0}}, "runs", "energy_cost", 3),  # 12 × 0.25
    ({"also_run_energy": {"run": "run", "kwh": 7.0, "hours": 9.0}}, "runs", "energy_used", 12),
    ({"dryers": {"mean_power": 800.0}}, "runs", "energy_used", 12),
    ({"dryers": {"mean_power_spread": 0.1}}, "dryers", "power_spread", 0.1),
    ({"loads": {"weighing_last": 1.2}}, "loads", "dry_written", 1.3),
    ({"lots": {"water": 0.8}}, "loads", "water_at_start", 0.8),
    ({"lots": {"water": 0.8}, "products": {"water_low": 0.7}},
     "loads", "water_at_start_low", 0.8),
    ({"lots": {"water": 0.8}, "products": {"water_high": 0.9}},
     "loads", "water_at_start_high", 0.8),
    ({"lots": {"container": "box"},
      "also_nominal_weights": {"product": "food", "container": "box", "weight": 25.0}},
     "lots", "as_purchased", 10),
    ({"products": {"prep_yield": 0.5}}, "lots", "prepped", 8),
    ({"lots": {"finished": True, "set_aside": 1.0}}, "lots", "prepped", 8),
    ({"lots": {"price_by_weight": 9.0}}, "lots", "purchase_cost", 20),
    ({"lots": {"price_total": None, "price_by_weight": 9.0, "price_each": 7.0, "count": 3}},
     "lots", "purchase_cost", 21),
    ({"lots": {"grown": True}}, "lots", "purchase_cost", 20),
    ({"uses": {"purpose": "gift"}}, "uses", "price_each", 9),
]  # fmt: skip


@pytest.mark.parametrize(("known", "table", "name", "value"), BOTH)
def test_where_both_are_there_the_measured_one_counts(
    known: dict[str, Any], table: str, name: str, value: object
) -> None:
    assert Figures(**tables(**known))(table, name) == value


@pytest.mark.parametrize(("times", "told"), [(0, False), (1, True), (2, False)])
def test_a_load_is_another_one_where_it_went_back_in_just_once(times: int, told: bool) -> None:
    made = tables(loads={"dry": None, "weighing_last": None, "weighing_before": None})
    made["runs"].append(made["runs"][0] | {"key": "next", "started": TODAY - 4})
    for n in range(times):
        back = {"id": f"back-{n}", "run": "next", "lot": "lot", "again": "load", "wet": 1.5}
        made["loads"].append(back | {"dry": 1.25})
    found = Figures(**made)
    names = ("times_again", "once_again", "wet_again", "dry_exact", "dry_in_the_end")
    known = (1.5, 1.5, 1.25) if told else (None, None, None)
    assert tuple(found("loads", name, "load") for name in names) == (times, told, *known)
