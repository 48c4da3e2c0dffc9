"""The steps between the figures that are shown: each has its own name, so each has its own sum."""

from __future__ import annotations

import pytest
from published.figures import Figures

# In kg and g; a run's wear is (1000 - 100) / 90 = 10; upkeep 30/6 + 8/4 = 7; a jar costs
# 6/3 + 0.50 = 2.50 a use, and one in five is lost: 3.125 each.
SEASON = Figures(
    "kg", "g",
    rates=[{"electricity": 0.5, "labor": 20.0, "travel": 0.4}],
    dryers=[{"key": "dryer", "trays": 4, "tray_area": 0.25, "mean_power": 1500.0, "price": 1000.0,
             "resale": 100.0, "life": 90, "runs_before": 7}],
    upkeep=[{"dryer": "dryer", "cost": 30.0, "every": 6},
            {"dryer": "dryer", "cost": 8.0, "every": 4}],
    containers=[{"key": "jar", "spoiled": 0.2}],
    parts=[{"container": "jar", "cost": 6.0, "uses": 3}, {"container": "jar", "cost": 0.5}],
    overheads=[{"cost": 50.0, "over": 2500.0}, {"cost": 12.0}],
    products=[{"key": "food", "water": 0.9, "prep_yield": 0.75}, {"key": "other", "water": 0.8}],
    nominal_weights=[{"product": "food", "container": "box", "weight": 8.0}],
    trips=[{"key": "trip", "distance": 50.0, "labor": 3.0}, {"key": "walk", "distance": 1.0}],
    lots=[
        {"key": "a", "product": "food", "container": "box", "count": 2, "price_each": 15.0,
         "trip": "trip", "labor": 0.5, "travel": 5.0, "lost": 2.0},
        {"key": "b", "product": "other", "weighed": 9.0, "weighed_count": 3, "count": 4,
         "price_by_weight": 5.0, "price_total": 10.0, "trip": "trip", "prepped_weighed": 11.0},
        {"key": "c", "product": "food", "weighed": 5.0, "grown": True, "trip": "walk"},
        {"key": "d", "product": "food", "weighed": 5.0, "grown": True, "trip": "walk",
         "prepped_weighed": 4.0},
    ],
    runs=[
        {"key": "r1", "dryer": "dryer", "duration": 20.0, "labor": 1.0, "started": 100.25},
        {"key": "r2", "dryer": "dryer", "duration": 10.0, "meter_from": 5.0, "meter_to": 17.0,
         "started": 104.0},
        {"key": "r3", "dryer": "dryer", "started": 107.0},
    ],
    loads=[
        {"run": "r1", "lot": "a", "wet": 5.0, "dry": 800.0},
        {"run": "r1", "lot": "b", "wet": 4.0, "weighing_before": 830.0, "weighing_last": 800.0},
        {"id": "back", "run": "r2", "lot": "a", "again": "r1/a", "wet": 0.82, "dry": 620.0},
        {"run": "r3", "lot": "d", "wet": 3.0},
    ],
    packs=[
        {"key": "p1", "product": "food", "container": "jar", "count": 4, "net": 100.0, "labor": 0.1,
         "date": 110.0},
        {"key": "p2", "product": "food", "container": "jar", "count": 2, "net": 50.0, "date": 111.0,
         "carried_running": 3.0, "carried_full": 4.0},
    ],
    draws=[{"pack": "p1", "run": "r1"}, {"pack": "p1", "run": "r2"}, {"pack": "p2", "run": "r1"}],
    uses=[{"product": "food", "weight": 15.0, "purpose": "crumbs"},
          {"product": "food", "weight": 5.0, "purpose": "sample"}],
    offers=[
        {"key": "o1", "product": "food", "net": 200.0, "price": 18.0, "shipping": 2.0},
        {"key": "o2", "product": "food", "net": 100.0, "price": 6.0, "form": "frozen"},
        {"key": "o3", "product": "food", "net": 100.0, "price": 8.0, "form": "freeze-dried"},
        {"key": "o4", "product": "food", "net": 100.0},
    ],
)  # fmt: skip

STEPS = [
    ("upkeep", "cost_per_run", "1", 5),  # 30 / 6
    ("dryers", "upkeep_per_run", "dryer", 7),
    ("dryers", "wear_per_run", "dryer", 10),
    ("dryers", "trays_area", "dryer", 1),
    ("dryers", "runs_done", "dryer", 9),  # 7 before, r1 and r2; r3 is not done
    ("dryers", "hours_run", "dryer", 30),
    ("dryers", "energy_used", "dryer", 42),  # 1.5 × 20 + 12
    ("parts", "cost_each", "1", 2),
    ("containers", "parts_cost", "jar", 2.5),
    ("containers", "packaging_each", "jar", 3.125),
    ("overheads", "spread_over", "1", 2500),
    ("overheads", "spread_over", "2", 1400),  # all that was dried
    ("overheads", "by_weight", "1", 0.02),
    ("overheads", "charged", "1", 28),  # 1400 × 0.02
    ("overheads", "charged", "2", 12),
    ("season", "overhead_by_weight", None, 0.02 + 12 / 1400),
    ("lots", "weighed_all", "b", 12),  # 9 × 4 / 3
    ("lots", "nominal_all", "a", 16),
    ("lots", "prepped_by_recipe", "a", 12),  # 16 × 0.75
    ("lots", "used_up", "a", 7),  # 5 + 2
    ("lots", "usable", "a", 10),  # 12 - 2
    ("lots", "price_asked", "a", 30),
    ("lots", "price_asked", "b", 60),  # but the total price counts
    ("lots", "purchase_cost", "b", 10),
    ("trips", "purchases", "trip", 40),
    ("trips", "lots_fetched", "trip", 2),
    ("lots", "trip_share", "a", 0.75),  # 30 of 40
    ("lots", "trip_share", "c", 0.5),  # nothing was paid: in equal parts
    ("lots", "travel_alone", "a", 2),
    ("lots", "travel_shared", "a", 15),  # 50 × 0.4 × 0.75
    ("lots", "travel_cost", "a", 17),
    ("lots", "labor_alone", "a", 10),
    ("lots", "labor_shared", "a", 45),  # 3 × 20 × 0.75
    ("lots", "labor_cost", "a", 55),
    ("lots", "cost_per_prepped", "a", 4.7),  # (30 + 17) / 10
    ("lots", "labor_per_prepped", "a", 5.5),
    ("runs", "weight_in", "r1", 9),
    ("runs", "metered", "r2", 12),
    ("runs", "energy_by_power", "r1", 30),
    ("runs", "counted", "r3", False),
    ("runs", "dried_out", "r1", 1600),
    ("runs", "drawn", "r1", 100),  # p2 alone; p1 names two runs
    ("draws", "drawn", "1", 400),
    ("draws", "only_run", "1", False),
    ("draws", "only_run", "3", True),
    ("packs", "runs_named", "p1", 2),
    ("loads", "weight_out", "r1/b", 800),  # the last weighing
    ("loads", "first_pass", "r1/a", True),
    ("loads", "second_pass", "back", True),
    ("loads", "unfinished", "r3/d", True),
    ("loads", "concentration", "r1/a", 6.25),
    ("loads", "concentration", "back", 6.25 * 0.82 / 0.62),
    ("loads", "moisture_left", "back", 1 - 0.1 * 6.25 * 0.82 / 0.62),
    ("loads", "labor_from_lot", "r1/a", 27.5),  # 5 × 5.5
    ("loads", "labor_from_lot", "back", 0),
    # All of the ingredients rest on the box's nominal weight, energy on the mean power.
    ("loads", "running_estimated", "r1/a", 5 * 4.7 + 15 * 4.2 / 7.4),
    ("loads", "running_estimated", "back", 0),
    ("products", "dry_out", "food", 1420),
    ("products", "put_back", "food", 0.82),
    ("products", "dried", "food", 600),
    ("products", "as_purchased_share", "food", 8),  # 5 × 16 / 10
    ("products", "running_estimated", "food", 5 * 4.7 + 15 * 4.2 / 7.4),
    ("products", "crumbs", "food", 15),
    ("products", "bulk_used", "food", 20),
    ("products", "bulk", "food", 585),
    ("products", "unpacked", "food", 180),  # 600 - 400 - 20
    ("products", "cost_wear", "food", 10 * 4.2 / 7.4 + 10),
    ("products", "cost_upkeep", "food", 7 * 4.2 / 7.4 + 7),
    # Wear, time (27.50 of the lot, 20 × 4.2/7.4 of the run), overhead.
    ("products", "cost_beyond_running", "food",
     10 * 4.2 / 7.4 + 10 + 27.5 + 20 * 4.2 / 7.4 + 600 * (0.02 + 12 / 1400)),
    ("packs", "of_season", "p1", True),
    ("packs", "of_season", "p2", False),
    ("packs", "packaging_cost", "p1", 12.5),
    ("packs", "labor_cost", "p1", 2),
    ("uses", "of_bulk", "1", True),
    ("offers", "unit_price", "o1", 0.1),
    ("offers", "price_alike", "o1", 0.1),
    ("offers", "price_alike", "o2", None),  # frozen, not freeze-dried
    ("products", "offers_count", "food", 2),
    ("products", "retail_median", "food", 0.09),
    ("products", "retail_lowest", "food", 0.08),
    ("season", "last_run", None, 107),
    ("season", "last_pack", None, 111),
    ("season", "last_day", None, 111),
    ("season", "run_labor_cost", None, 20),
    ("season", "saving_missing", None, 1),
    ("season", "running_estimated", None, 5 * 4.7 + 15),  # the lot b was weighed
    ("season", "runs_open", None, 1),
]  # fmt: skip


@pytest.mark.parametrize(("table", "name", "key", "value"), STEPS)
def test_a_step(table: str, name: str, key: str | None, value: float | None) -> None:
    found = SEASON(table, name, key)
    if value is None or isinstance(value, bool):
        assert found is value
    else:
        assert found == pytest.approx(value, rel=1e-12, abs=1e-12)


def test_what_a_pack_of_this_season_costs() -> None:
    bulk_running = SEASON("products", "running_bulk", "food")
    bulk_full = SEASON("products", "full_bulk", "food")
    assert isinstance(bulk_running, float) and isinstance(bulk_full, float)
    running = 100 * bulk_running + 3.125
    assert SEASON("packs", "running_of_season", "p1") == pytest.approx(running)
    assert SEASON("packs", "full_of_season", "p1") == pytest.approx(100 * bulk_full + 3.125 + 2 / 4)
    assert SEASON("packs", "running_each", "p2") == 3, "what was carried over keeps its own"


def test_what_products_carry_is_what_lots_cost() -> None:
    carried = SEASON("season", "cost_carried")
    assert carried == pytest.approx(SEASON("season", "cost_ingredients"))
