"""What is left from an earlier season: its cost goes where the food goes, and into no money."""

from __future__ import annotations

from pathlib import Path

import pytest

from trade.small import HEAD, season

# 10 lb prepared last year cost 6 USD in produce and driving and 5 USD in time. 8 lb of it gave
# 16 oz in one run: 16 kWh at 0.25 are 4, upkeep is 2. So 6 × 8/10 = 4.80 of produce.
LOT = """
lots:
  - id: old
    product: turnip-cubes
    prepped: 10 lb
    carried: {running: 6 USD, full: 11 USD, from: "Pencil Lane 2024: t-1"}
runs: [{id: r, duration: 20 h, energy: 16 kWh, loads: [{lot: old, wet: 8 lb, dry: 16 oz}]}]
"""
PACKS = """
packs:
  - id: P
    product: turnip-cubes
    date: 2025-01-10
    container: tin
    count: 3
    net: 4 oz
    carried:
      {running: 5 USD, full: 7 USD, best_by: 2025-06-01, dryness: DRYNESS,
       from: "Pencil Lane 2024: r-1 of t-1"}
"""


def close(value: float) -> object:
    return pytest.approx(value, rel=1e-12)


def test_a_lot_that_waited_carries_its_cost_into_this_seasons_food(tmp_path: Path) -> None:
    found = season(tmp_path, LOT)
    lot = ("produce_cost", "time_cost", "labor_carried", "carried_cost", "cost_per_prepped")
    assert found.of("lots", "old", *lot) == [6, 5, 5, 6, close(0.6)]
    assert found.of("lots", "old", "waiting", "waiting_cost", "waiting_full") == [
        2,
        close(1.2),
        close(2.2),
    ]
    product = ("cost_ingredients", "cost_labor", "labor_carried", "running_bulk", "full_bulk")
    assert found.of("products", "turnip-cubes", *product) == [
        close(4.8), close(4), close(4), close(10.8 / 16), close((10.8 + 4 + 4) / 16),
    ]  # fmt: skip


def test_it_is_in_no_money_of_this_season(tmp_path: Path) -> None:
    found = season(tmp_path, LOT)
    assert [found("season", name) for name in ("purchase_cost", "travel_cost", "labor_cost")] == [
        0,
        0,
        0,
    ]
    assert found("season", "money_out") == close(6)  # energy and upkeep of the run
    assert found("season", "as_purchased") == 0
    assert found("season", "lots_carried") == 6
    assert found("season", "spent") == close(6)
    assert not {"season-parts-not-total", "season-produce-not-conserved", "lots-price-missing"} & {
        *found.failing()
    }


def test_another_rate_for_time_leaves_last_years_time_as_it_was(tmp_path: Path) -> None:
    found = season(tmp_path, LOT + "scenarios: [{id: paid, labor: 30 USD/h}]\n")
    assert found("scenarios", "labor", "paid/turnip-cubes") == close(4)


@pytest.mark.parametrize("dryness", ["dry", "not shown", "doubtful", "origin not named"])
def test_a_pack_keeps_its_day_dryness_and_trace(tmp_path: Path, dryness: str) -> None:
    found = season(tmp_path, PACKS.replace("DRYNESS", dryness))
    assert found("packs", "dryness", "P") == dryness
    assert found("packs", "best_by", "P") == found("packs", "carried_best_by", "P")
    assert found.of("packs", "P", "best_by_whose", "best_by_basis") == ["as last season"] * 2
    assert found("packs", "doubtful", "P") is (dryness == "doubtful")
    assert found("packs", "dryness_of_loads", "P") == "origin not named"
    assert found.numbers.cells["trace"]["pack"] == ["P"]
    assert found("trace", "source") == "Pencil Lane 2024: r-1 of t-1"
    assert not {"packs-origin-missing", "packs-above-runs"} & {*found.failing()}


def test_a_pack_of_unknown_cost_stays_one_of_last_season(tmp_path: Path) -> None:
    text = PACKS.replace("running: 5 USD, full: 7 USD, ", "").replace("DRYNESS", "dry")
    found = season(tmp_path, text)
    assert found("packs", "of_season", "P") is False
    assert found.of("packs", "P", "running_each", "full_each") == [None, None]


def test_what_a_dryer_saved_in_all(tmp_path: Path) -> None:
    # Two runs before this one; a run as this one saves what it saves.
    head = "{id: barn, runs_before: 2, "
    text = LOT + "offers: [{id: o, product: turnip-cubes, net: 1 oz, price: 4 USD}]\n"
    known = season(tmp_path, text, HEAD.replace("{id: barn, ", head + "saved_before: -5 USD, "))
    left_out = season(tmp_path, text, HEAD.replace("{id: barn, ", head))
    saved = known("dryers", "saved", "barn")
    assert isinstance(saved, float)
    assert known("dryers", "saved_in_all", "barn") == close(saved - 5)
    assert left_out.of("dryers", "barn", "saved_by_runs", "saved_in_all") == [close(3 * saved)] * 2
