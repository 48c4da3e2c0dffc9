"""One lot of pears, one run, four cans: worked by hand from the scale to the shop's price.

The figures of the example are the design's own; the arithmetic is written out, so that a pencil
can follow it to the last line.
"""

from __future__ import annotations

import pytest

from trade.small import Figures, season

HEAD = """
season: Windrow Lane 2026
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.148 USD/kWh, labor: 0 USD/h, travel: 0.67 USD/mile}
overheads: [{item: market permit, cost: 60 USD, over: 500 oz}]
dryers:
  - {id: shed, trays: 5, tray_area: 0.135 m2, mean_power: 780 W, price: 3100 USD, resale: 600 USD,
     life: 600 run, upkeep: [{item: pump oil, cost: 18 USD, every: 20 run}]}
containers:
  - {id: can-10, parts: {can: 2.45 USD, lid: 0.35 USD, absorber: 0.30 USD, label: 0.06 USD},
     spoiled: 2 %}
offers:
  - {id: a-can, product: pear-slices, seller: Seller A, date: 2026-08-30, net: 10.5 oz,
     price: 34.20 USD, shipping: 4 USD}
pricing: {margin: 35 %, fees: 3 %, would_buy: 100 %}
carried_over:
  - {product: pear-slices, dried: 30 oz, running: 1.20 USD/oz, full: 1.85 USD/oz}
"""
BATCH = """
lots:
  - {id: pears-1, product: pear-slices, date: 2026-09-05, count: 3, container: lug,
     price: 28.50 USD/lug, weighed: 72.4 lb, prepped: 61.0 lb, set_aside: 4.0 lb, lost: 0.6 lb,
     water: 83.96 %, travel: 14 mile, labor: 3 h 20 min}
runs:
  - {id: run-07, dryer: shed, started: 2026-09-06 18:30, duration: 34.5 h, energy: 21.8 kWh,
     labor: 40 min, loads: [{lot: pears-1, wet: 19.6 lb, dry: 52.1 oz,
     dryness: {water_activity: 0.24}}]}
packs:
  - {id: P-0908, product: pear-slices, date: 2026-09-08, container: can-10, count: 4,
     net: 11.0 oz, from: [run-07], labor: 25 min}
uses:
  - {date: 2026-10-03, pack: P-0908, count: 2, for: stall, price: 21 USD}
"""

WORKED = [
    ("lots", "as_purchased", 72.4),
    ("lots", "purchase_cost", 85.5),  # 3 × 28.50
    ("lots", "travel_cost", 9.38),  # 14 × 0.67
    ("lots", "labor_cost", 0),  # 3 h 20 min at 0
    ("lots", "prep_yield", 0.842541436464),  # 61.0 / 72.4
    ("lots", "loaded", 19.6),
    ("lots", "waiting", 36.8),  # 61.0 - 0.6 - 4.0 - 19.6
    ("lots", "cost_per_prepped", 1.57086092715),  # (85.50 + 9.38) / (61.0 - 0.6)
    ("runs", "energy_cost", 3.2264),  # 21.8 × 0.148
    ("runs", "upkeep_cost", 0.9),  # 18 / 20
    ("runs", "wear_cost", 4.16666666667),  # (3100 - 600) / 600
    ("runs", "water_removed", 16.34375),  # 19.6 - 52.1 / 16
    ("runs", "specific_energy", 2.9406209197),  # 21.8 / (16.34375 × 0.45359237)
    ("runs", "tray_loading", 13.1709784474),  # 19.6 × 0.45359237 / (5 × 0.135)
    ("loads", "run_loading", 13.1709784474),  # of its run
    ("loads", "dried_yield", 0.166135204082),  # 52.1 / (19.6 × 16)
    ("loads", "drying_ratio", 6.01919385797),  # 19.6 × 16 / 52.1
    ("loads", "moisture_left", 0.0345213051823),  # 1 - 0.1604 × 6.01919385797
    ("loads", "run_share", 1),
    ("loads", "as_purchased_share", 23.4940397351),  # 19.6 × 72.4 / 60.4
    ("loads", "cost_ingredients", 30.7888741722),  # 19.6 × 1.57086092715
    ("products", "dried", 52.1),
    ("products", "overall_yield", 0.138598982411),  # 52.1 / (23.4940397351 × 16)
    ("products", "cost_overhead", 6.252),  # 60 × 52.1 / 500
    ("products", "running_bulk", 0.863767042292),  # (30.78887 + 3.2264 + 0.9 + 30 × 1.2) / 82.1
    ("products", "full_bulk", 1.22818441947),  # (34.91527 + 4.16667 + 0 + 6.252 + 55.5) / 82.1
    ("products", "cost_packaging", 12.8979591837),  # 4 × 3.16 / 0.98
    ("products", "packed", 44),  # 4 × 11
    ("products", "unpacked", 38.1),  # 52.1 + 30 - 44
    ("products", "running_cost", 47.8132333559),  # 30.78887 + 3.2264 + 0.9 + 12.89796
    ("products", "running_per_packed", 1.15690247828),  # (0.86376704 × 44 + 12.8979592) / 44
    ("products", "full_per_packed", 1.52131985547),  # (1.22818442 × 44 + 12.8979592 + 0) / 44
    ("products", "retail_median", 3.6380952381),  # (34.20 + 4) / 10.5
    ("products", "running_to_retail", 0.317996754502),  # 1.15690248 / 3.63809524
    ("products", "full_to_retail", 0.418163834618),
    ("products", "saving", 54.5862407158),  # the 22 kept × (3.63809524 × 1 - 1.15690248)
    ("packs", "dried_content", 44),
    ("packs", "running_each", 12.7259272611),  # 11 × 0.86376704 + 3.16 / 0.98
    ("packs", "full_each", 16.7345184101),  # 11 × 1.22818442 + 3.16 / 0.98
    ("packs", "on_hand", 2),
    ("packs", "fresh_equivalent", 4.13819577735),  # 11 × 19.6 / 52.1
    ("offers", "ours_to_theirs", 0.317996754502),
    ("uses", "revenue", 42),  # 2 × 21
    ("uses", "cost_out", 33.4690368203),  # 2 × 16.7345184101
    ("uses", "profit", 7.27096317973),  # 42 × 0.97 - 33.4690368203
    ("season", "waiting_cost", 57.8076821192),  # 36.8 × 1.57086092715
    ("season", "set_aside_cost", 6.28344370861),  # 4 × 1.57086092715
    ("season", "spent", 111.904359184),  # 47.8132334 + 57.8076821 + 6.2834437
    ("season", "estimated_share", 0),
]


@pytest.fixture(scope="module")
def pears(tmp_path_factory: pytest.TempPathFactory) -> Figures:
    return season(tmp_path_factory.mktemp("pears"), BATCH, HEAD)


@pytest.mark.parametrize(("table", "name", "value"), WORKED)
def test_worked_by_hand(pears: Figures, table: str, name: str, value: float) -> None:
    assert pears(table, name) == pytest.approx(value, rel=1e-11, abs=1e-12)


def test_nothing_is_wrong_with_it(pears: Figures) -> None:
    assert pears.failing() == []
    assert pears("season", "verdict_of_all") == "All checks pass"
