"""A total with an unknown row is unknown; and what a weight nobody wrote is not taken from."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from published.figures import Figures

from trade.small import season
from trade.test_unweighed import AGAIN, DRY, LOTS, MIXED, WET

TWO_DRYERS: dict[str, Any] = {
    "dryers": [{"key": "old"}, {"key": "new"}],
    "upkeep": [{"dryer": "old", "every": 10}],
    "lots": [{"key": "a", "product": "food", "weighed": 9.0, "prepped_weighed": 9.0}],
    "products": [{"key": "food"}],
    "runs": [{"key": "1", "dryer": "old", "duration": 9.0}, {"key": "2", "dryer": "new"}],
    "run_energy": [{"run": "1", "hours": 4.0, "kwh": 2.0}, {"run": "1", "kwh": 2.0}],
    "loads": [
        {"run": "1", "lot": "a", "wet": 4.0, "dry": 0.5},
        {"run": "2", "lot": "a", "wet": 4.0, "dry": 0.5},
    ],
}


def test_of_costs_and_hours() -> None:
    found = Figures(**TWO_DRYERS)
    assert found("loads", "cost_upkeep", "2/a") == 0  # its dryer needs none
    assert found("products", "cost_upkeep") is None  # the oil of the other has no price
    assert found("runs", "hours_split", "1") is None
    known = Figures(**TWO_DRYERS | {"upkeep": [{"dryer": "old", "every": 10, "cost": 5.0}]})
    assert known("products", "cost_upkeep") == pytest.approx(0.5)


def test_of_what_went_back_in_and_was_lost() -> None:
    loads = [*TWO_DRYERS["loads"], {"id": "back", "run": "3", "lot": "a", "again": "1/a"},
             {"id": "too", "run": "4", "lot": "a", "again": "2/a", "wet": 0.4}]  # fmt: skip
    runs = [*TWO_DRYERS["runs"], {"key": "3", "dryer": "new", "failed": True},
            {"key": "4", "dryer": "new", "failed": True}]  # fmt: skip
    loads[0] = {"run": "1", "lot": "a", "wet": 4.0}
    found = Figures(**TWO_DRYERS | {"loads": loads, "runs": runs})
    assert found("loads", "weight_in", "back") is None and found("loads", "gone", "back") is True
    assert found("products", "put_back") is None


def test_of_shares_of_a_run_that_goes_on() -> None:
    runs = [{"key": "1", "dryer": "new"}]
    loads = [
        {"id": "x", "run": "1", "lot": "a", "wet": 4.0, "dry": 0.5},
        {"id": "y", "run": "1", "lot": "a", "wet": 4.0},
    ]
    found = Figures(**TWO_DRYERS | {"runs": runs, "loads": loads, "run_energy": []})
    assert found("loads", "product_share", "x") is None


def test_of_packs_that_should_tell_a_forgotten_weight(tmp_path: Path) -> None:
    more = "  - {id: Q, product: turnip-cubes, container: tin, date: 2025-09-03, from: [r]}\n"
    found = season(tmp_path, DRY + more)
    assert found.of("loads", "r/t", "packs_unsure", "packed_of_run", "weight_out") == [
        0,
        None,
        None,
    ]


def test_of_solids_beside_a_forgotten_weight(tmp_path: Path) -> None:
    text = DRY.replace("runs:", "  - {id: v, product: turnip-cubes}\nruns:")
    found = season(tmp_path, text.replace("wet: 5 lb}", "wet: 5 lb}, {lot: v}"))
    assert found.of("loads", "r/t", "solids_beside", "weight_out") == [None, None]


def test_what_was_dried_again_is_not_lost(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN)
    assert found.of("loads", "r/t", "dry_open", "dry_lost") == [True, False]


def test_the_last_weighing_goes_back_in_as_it_came_out(tmp_path: Path) -> None:
    weighed = "wet: 5 lb, dryness: {weights: [13 oz, 12 oz]}"
    found = season(tmp_path, AGAIN.replace("wet: 5 lb", weighed))
    assert found.of("loads", "r/t", "dry_passed_on", "weight_out") == pytest.approx([12, 12])
    assert found("loads", "weight_in", "s/t") == pytest.approx(0.75)


def test_nothing_is_left_of_a_run_for_a_share(tmp_path: Path) -> None:
    """All that came out of the run was one load's: the other's weight is not known, and not 0."""
    text = MIXED.replace("dry: 24 oz", "dry: 8 oz").replace("wet: 4 lb}", "wet: 4 lb, dry: 8 oz}")
    found = season(tmp_path, text)
    assert found.of("loads", "r/t", "share_of_run", "dry_shared", "weight_out") == [0, None, None]


def test_what_was_parted_takes_no_weight_from_its_parts(tmp_path: Path) -> None:
    text = (
        LOTS
        + """
runs:
  - {id: r, duration: 20 h, energy: 8 kWh, dry: 12 oz, loads: [{lot: t, wet: 5 lb}]}
  - {id: s, duration: 10 h, energy: 4 kWh, loads: [{again: r/t, dry: 4 oz}]}
  - {id: u, duration: 10 h, energy: 4 kWh, loads: [{again: r/t, dry: 4 oz}]}
"""
    )
    found = season(tmp_path, text)
    assert found.of("loads", "r/t", "times_again", "dry_between") == [2, None]
    assert found("loads", "weight_out", "r/t") == pytest.approx(12)
    assert found("loads", "weight_in", "s/t") is None


def test_an_even_share_of_a_lot_is_an_estimate(tmp_path: Path) -> None:
    found = season(tmp_path, WET)
    assert found.mark("loads", "wet_evenly", "s/t") is True


def test_what_is_carried_over_at_one_cost_alone_is_not_of_this_season() -> None:
    packs = [
        {"key": "P", "product": "food", "net": 0.1},
        {"key": "Q", "product": "food", "count": 1, "net": 0.1, "carried_running": 3.0},
        {"key": "R", "product": "food", "count": 1, "net": 0.1, "carried_full": 3.0},
    ]
    uses = [{"pack": "P", "purpose": "spoiled"}]
    found = Figures(**TWO_DRYERS | {"packs": packs, "uses": uses})
    assert [found("packs", "of_season", key) for key in "PQR"] == [True, False, False]
    # A pack and a use without a count are of one.
    assert found("packs", "dried_content", "P") == 0.1
    assert found("packs", "spoiled_count", "P") == 1


def test_what_weighs_most_is_said_of_nothing_that_is_not_known() -> None:
    found = Figures(products=[{"key": "food"}])
    assert found("products", "energy_weighs_most") is False


def test_what_was_written_down_is_not_lost(tmp_path: Path) -> None:
    found = season(tmp_path, DRY)
    assert found.of("loads", "r/b", "dry_open", "dry_lost", "packs_tell") == [False, False, False]
    beside = ("packs_unsure", "packed_of_run", "dry_beside", "solids_beside")
    assert found.of("loads", "r/b", *beside) == [None] * 4


def test_a_pack_of_the_day_before_the_run_ended_tells_nothing_of_it(tmp_path: Path) -> None:
    """It ends at midnight, when the day after begins."""
    text = DRY.replace("2025-09-01 20:00", "2025-09-01 18:00")
    found = season(tmp_path, text.replace("date: 2025-09-03", "date: 2025-09-02"))
    assert found.numbers.cells["draws"]["packed_after"] == [False]
    (tmp_path / "open").mkdir()
    found = season(tmp_path / "open", DRY.replace("started: 2025-09-01 20:00, ", ""))
    assert found.numbers.cells["draws"]["tells_nothing"] == [True]


def test_what_no_lot_tells_does_not_fit(tmp_path: Path) -> None:
    found = season(tmp_path, WET.replace("prepped: 20 lb, ", ""))
    assert found.of("loads", "s/t", "wet_at_most", "wet_fits", "weight_in") == [None, False, None]


def test_a_pack_of_nothing_is_not_said_to_come_from_another_run() -> None:
    packs = [{"key": "P"}, {"key": "Q", "product": "food"}, {"key": "R", "product": "other"}]
    draws = [{"pack": key, "run": "1"} for key in "PQR"]
    products = [{"key": "food"}, {"key": "other"}]
    found = Figures(**TWO_DRYERS | {"packs": packs, "draws": draws, "products": products})
    assert found.numbers.cells["draws"]["draws_on_nothing"] == [False, False, True]


def test_of_sales_without_a_price_or_a_weight() -> None:
    packs = [
        {"key": "P", "product": "food", "count": 3, "net": 0.1},
        {"key": "Q", "product": "food", "count": 3},
    ]
    uses = [{"pack": "P", "channel": "stall", "price": 4.0}, {"pack": "P", "channel": "stall"}]
    found = Figures(**TWO_DRYERS | {"packs": packs, "uses": uses})
    assert found("season", "sales") is None and found("products", "sold_weight") == 0.2
    uses = [{"pack": key, "channel": "stall", "price": 4.0} for key in "PQ"]
    found = Figures(**TWO_DRYERS | {"packs": packs, "uses": uses})
    assert found("season", "sales") == 8 and found("products", "sold_weight") is None
