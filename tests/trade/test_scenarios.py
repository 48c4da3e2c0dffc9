"""What would change it, by hand: every kind of change, and the drivers of the season's cost."""

from __future__ import annotations

from pathlib import Path

import pytest
from published.figures import Figures

from trade.small import HEAD, season

# 40 lb of turnips for 30 USD and 5 for the way; 32 lb usable, 16 of them dried: 17.50, of which
# 2.50 for the way. 16 kWh × 0.25 = 4, upkeep 2, wear 4, labor 20 × 16/32 + 5 = 15, overhead 3.20.
# 32 oz in bulk; five tins of 4 oz at 2 each: 10 for packaging, packing 2.50.
SEASON = """
lots:
  - {id: t-1, product: turnip-cubes, date: 2025-09-01, weighed: 40 lb, price: 30 USD,
     prepped: 32 lb, travel: 10 mile, labor: 2 h}
runs:
  - {id: r-1, started: 2025-09-02, duration: 30 h, energy: 16 kWh, labor: 30 min,
     loads: [{lot: t-1, wet: 16 lb, dry: 32 oz}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2025-09-05, container: tin, count: 5, net: 4 oz,
     from: [r-1], labor: 15 min}
offers:
  - {id: o, product: turnip-cubes, date: 2025-09-01, net: 10 oz, price: 25 USD}
"""
MORE = (
    HEAD.replace("{id: tin, parts", "{id: tin, volume: 500 mL, parts").replace(
        "pricing:",
        "  - {id: pouch, volume: 1000 mL, parts: {pouch: 0.60 USD, label: 0.15 USD}}\npricing:",
    )
    + "overheads: [{item: permit, cost: 60 USD, over: 600 oz}]\n"
)
BULK_CASH, BEYOND, PACKAGING, PACKING = 17.5 + 4 + 2, 4 + 15 + 3.2, 10.0, 2.5


def per_packed(bulk: float = BULK_CASH, packaging: float = PACKAGING) -> float:
    """Running cost of an ounce: 20 of the 32 oz were packed."""
    return (bulk * 20 / 32 + packaging) / 20


def full(
    bulk: float = BULK_CASH + BEYOND, packaging: float = PACKAGING, packing: float = PACKING
) -> float:
    return (bulk * 20 / 32 + packaging + packing) / 20


def under(folder: Path, change: str, *names: str) -> list[object]:
    """Figures under a scenario, beside an empty one of the same season."""
    head = MORE + f"scenarios:\n  - {{id: same}}\n  - {{id: other, {change}}}\n"
    found = season(folder, SEASON, head)
    assert found("scenarios", "running_per_packed", "same/turnip-cubes") == found(
        "products", "running_per_packed"
    )
    return found.of("scenarios", "other/turnip-cubes", *names)


def costs(folder: Path, change: str) -> list[object]:
    return under(folder, change, "running_per_packed", "full_per_packed")


def test_today_by_hand(tmp_path: Path) -> None:
    found = season(tmp_path, SEASON, MORE)
    assert found("products", "running_per_packed") == pytest.approx(per_packed())
    assert found("products", "full_per_packed") == pytest.approx(full())


def test_an_empty_scenario_is_today(tmp_path: Path) -> None:
    found = season(tmp_path, SEASON, MORE + "scenarios: [{id: same, name: As it is}]\n")
    row = "same/turnip-cubes"
    for name in ("running_per_packed", "full_per_packed", "running_to_retail", "full_to_retail"):
        ours, today = found("scenarios", name, row), found("products", name)
        assert ours == pytest.approx(today, rel=1e-15), name
    assert found("scenarios", "change_of_running", row) == pytest.approx(0, abs=1e-15)
    assert found("scenarios", "change_of_full", row) == pytest.approx(0, abs=1e-15)
    for part in ("ingredients", "energy", "upkeep", "packaging", "wear", "labor", "overhead"):
        today = found("products", f"cost_{part}")
        assert found("scenarios", part, row) == today, part
    assert found("scenarios", "pack_labor", row) == found("products", "cost_pack_labor")


@pytest.mark.parametrize(
    ("change", "running", "more"),
    [
        # A factor on ingredients takes the way with it.
        ("ingredients: 0 %", per_packed(6), full(BULK_CASH + BEYOND - 17.5)),
        ("ingredients: 50 %", per_packed(14.75), full(BULK_CASH + BEYOND - 8.75)),
        ("energy: 200 %", per_packed(BULK_CASH + 4), full(BULK_CASH + BEYOND + 4)),
        ("upkeep: 0 %", per_packed(BULK_CASH - 2), full(BULK_CASH + BEYOND - 2)),
        ("packaging: 50 %", per_packed(packaging=5), full(packaging=5)),
        ("wear: 0 %", per_packed(), full(BULK_CASH + BEYOND - 4)),
        ("overhead: 0 %", per_packed(), full(BULK_CASH + BEYOND - 3.2)),
        # Labor is that of lots, runs and packing.
        ("labor: 0 %", per_packed(), full(BULK_CASH + BEYOND - 15, packing=0)),
    ],
)
def test_a_share_multiplies_a_part(
    tmp_path: Path, change: str, running: float, more: float
) -> None:
    assert costs(tmp_path, change) == [pytest.approx(running), pytest.approx(more)]


@pytest.mark.parametrize(
    ("change", "running", "more"),
    [
        # 16 kWh at 0.50 are 8; 5 of the 10 miles at 1.00 are 5 in place of 2.50.
        ("electricity: 0.50 USD/kWh", per_packed(BULK_CASH + 4), full(BULK_CASH + BEYOND + 4)),
        ("travel: 1.00 USD/mile", per_packed(BULK_CASH + 2.5), full(BULK_CASH + BEYOND + 2.5)),
        ("travel: 0 USD/mile", per_packed(BULK_CASH - 2.5), full(BULK_CASH + BEYOND - 2.5)),
        # Half of the lot's 2 h, half an hour of the run, a quarter of packing, at 18.
        ("labor: 18 USD/h", per_packed(), full(BULK_CASH + BEYOND - 15 + 27, packing=4.5)),
        ("labor: 0 USD/h", per_packed(), full(BULK_CASH + BEYOND - 15, packing=0)),
    ],
)
def test_an_amount_replaces_a_rate(
    tmp_path: Path, change: str, running: float, more: float
) -> None:
    assert costs(tmp_path, change) == [pytest.approx(running), pytest.approx(more)]


def test_replacements_come_first_then_factors(tmp_path: Path) -> None:
    # The way at 1.00 is 5; produce 15; half of 20 is 10. Energy at 0.50 is 8, a quarter of it 2.
    change = "travel: 1.00 USD/mile, ingredients: 50 %, electricity: 0.50 USD/kWh, energy: 25 %"
    parts = under(
        tmp_path, change, "travel", "ingredients", "energy_paid", "energy", "bulk_running"
    )
    assert parts == pytest.approx([5, 10, 8, 2, 14])
    assert costs(tmp_path, change)[0] == pytest.approx(per_packed(14))


def test_another_container_with_its_net(tmp_path: Path) -> None:
    # Pouches of 6 oz at 0.75: 20 oz take 20 / 6 of them.
    change = "container: pouch, net: 6 oz"
    assert costs(tmp_path, change)[0] == pytest.approx(per_packed(packaging=20 / 6 * 0.75))
    assert under(tmp_path, change, "container_net", "container_packaging", "packaging_paid") == [
        6,
        pytest.approx(2.5),
        pytest.approx(2.5),
    ]


def test_another_container_filled_as_tightly(tmp_path: Path) -> None:
    # 4 oz in 500 mL are 8 oz in 1000: two and a half pouches, 1.875. Then half of that.
    change = "container: pouch, packaging: 50 %"
    names = ("container_volume", "container_net", "packaging")
    assert under(tmp_path, change, *names) == pytest.approx([1000, 8, 20 / 8 * 0.75 / 2])
    found = season(tmp_path, SEASON, MORE)
    assert found("packs", "volume_all", "P-1") == 2500
    assert found("products", "packed_volume") == 2500
    assert found("products", "packed_density") == pytest.approx(20 / 2500)


def test_a_container_whose_net_is_unknown_makes_the_cost_unknown(tmp_path: Path) -> None:
    head = MORE.replace("id: tin, volume: 500 mL,", "id: tin,")
    head += "scenarios: [{id: other, container: pouch}]\n"
    found = season(tmp_path, SEASON, head)
    row = "other/turnip-cubes"
    assert found.of("scenarios", row, "running_per_packed", "container_net") == [None, None]
    assert "scenarios-net-missing" in found.failing()


def test_the_shops_stay_as_they_are(tmp_path: Path) -> None:
    assert under(tmp_path, "ingredients: 0 %", "running_to_retail", "change_of_running") == (
        pytest.approx([per_packed(6) / 2.5, per_packed(6) / per_packed() - 1])
    )


def test_what_was_carried_over_keeps_its_cost(tmp_path: Path) -> None:
    head = MORE + (
        "carried_over: [{product: turnip-cubes, dried: 8 oz, running: 1 USD/oz, full: 2 USD/oz}]\n"
        "scenarios: [{id: free, ingredients: 0 %, energy: 0 %, upkeep: 0 %, wear: 0 %,"
        " labor: 0 %, overhead: 0 %}]\n"
    )
    found = season(tmp_path, SEASON, head)
    row = "free/turnip-cubes"
    # 8 USD of bulk carried over, half of 40 oz packed.
    assert found("scenarios", "packed_share", row) == 0.5
    assert found("scenarios", "running_per_packed", row) == pytest.approx((8 * 0.5 + 10) / 20)
    # In full 16, for nothing else costs anything.
    assert found("scenarios", "bulk_full", row) == pytest.approx(16)
    assert found("scenarios", "beyond_running", row) == 0
    assert found("scenarios", "full_per_packed", row) == pytest.approx((16 * 0.5 + 10) / 20)


def test_time_and_distance_are_shared_as_their_cost_is(tmp_path: Path) -> None:
    # One trip of 12 miles and an hour for two lots of 30 and 10 USD: three quarters and a quarter.
    text = SEASON.replace("travel: 10 mile,", "trip: way,").replace(
        "lots:",
        "trips: [{id: way, distance: 12 mile, labor: 1 h}]\nlots:\n"
        "  - {id: t-2, product: turnip-cubes, date: 2025-09-01, weighed: 9 lb, price: 10 USD,"
        " prepped: 8 lb, trip: way}",
    )
    found = season(tmp_path, text, MORE)
    names = ("distance_shared", "distance", "hours_shared", "hours")
    assert found.of("lots", "t-1", *names) == pytest.approx([9, 9, 0.75, 2.75])
    assert found.of("lots", "t-2", *names) == pytest.approx([3, 3, 0.25, 0.25])
    per = ("distance_per_prepped", "hours_per_prepped", "travel_per_prepped")
    assert found.of("lots", "t-1", *per) == pytest.approx([9 / 32, 2.75 / 32, 4.5 / 32])
    load = ("distance", "hours_from_lot", "hours", "cost_travel", "energy_share")
    assert found.of("loads", "r-1/t-1", *load) == pytest.approx([4.5, 1.375, 1.875, 2.25, 16])
    totals = ("distance", "hours", "pack_hours", "cost_travel", "energy_used")
    assert found.of("products", "turnip-cubes", *totals) == pytest.approx(
        [4.5, 1.875, 0.25, 2.25, 16]
    )
    # The rate of labor, replaced by the one there is, changes nothing.
    head = MORE + "scenarios: [{id: paid, labor: 10 USD/h}]\n"
    found = season(tmp_path, text, head)
    row = "paid/turnip-cubes"
    assert found("scenarios", "labor_paid", row) == pytest.approx(found("products", "cost_labor"))
    assert found("scenarios", "pack_labor_paid", row) == pytest.approx(2.5)


def test_every_scenario_stands_with_every_product(tmp_path: Path) -> None:
    text = SEASON + "  - {id: o-2, product: beet-cubes, net: 10 oz, price: 25 USD}\n"
    found = season(tmp_path, text, MORE + "scenarios: [{id: a}, {id: b, energy: 0 %}]\n")
    assert found.numbers.cells["scenarios"]["key"] == [
        f"{scenario}/{product}"
        for scenario in "ab"
        for product in found.numbers.cells["products"]["key"]
    ]
    assert found("scenarios", "running_per_packed", "a/beet-cubes") is None, "nothing was packed"


def test_one_price_replaces_a_tariff() -> None:
    # The hours of a tariff do not matter where one price replaces it: 16 kWh at 0.25 are 4.
    found = Figures(
        "lb", "oz",
        products=[{"key": "food"}], dryers=[{"key": "barn"}],
        lots=[{"key": "a", "product": "food", "prepped_weighed": 16.0, "price_total": 8.0,
               "count": 1}],
        runs=[{"key": "1", "dryer": "barn", "energy": 16.0, "started": 46000.25, "duration": 24}],
        periods=[{"key": "low", "from_clock": "12:00", "to_clock": "24:00", "price": 0.1},
                 {"key": "high", "price": 0.5}],
        loads=[{"run": "1", "lot": "a", "wet": 16.0, "dry": 32.0}],
        changes=[{"key": "flat", "electricity": 0.25}, {"key": "as-is"}],
    )  # fmt: skip
    assert found("scenarios", "energy", "as-is/food") == pytest.approx(16 * 0.3)
    assert found("scenarios", "energy", "flat/food") == pytest.approx(4)
