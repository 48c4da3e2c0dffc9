"""A season on any of its days: what is waiting, in the dryer, dried again, crumbled, spoiled."""

from __future__ import annotations

from pathlib import Path

import pytest

from trade.small import HEAD, Figures, season

# 40 lb of turnips for 30 USD, 10 miles at 0.50: 35 USD; 33 lb prepared, 1 lb of it dropped:
# 35 / 32 = 1.09375 USD a pound of what is left.
LOT = """
lots:
  - {id: t-1, product: turnip-cubes, date: 2026-09-01, weighed: 40 lb, price: 30 USD,
     prepped: 33 lb, set_aside: 2 lb, lost: 1 lb, travel: 10 mile, labor: 2 h}
"""


def close(value: object) -> object:
    return pytest.approx(value, rel=1e-12, abs=1e-12)


def test_before_any_run(tmp_path: Path) -> None:
    found = season(tmp_path, LOT)
    assert found("lots", "waiting") == 30  # 33 - 2 - 1
    assert found("lots", "cost_per_prepped") == 1.09375
    assert found("season", "waiting_cost") == 32.8125  # 30 × 1.09375
    assert found("season", "set_aside_cost") == 2.1875  # 2 × 1.09375: together 35
    assert found("season", "spent") == close(35)
    assert found.of("products", "turnip-cubes", "dried", "running_cost") == [0, 0]
    assert found.of("products", "turnip-cubes", "running_bulk", "drying_ratio") == [None, None]
    assert found("season", "lots_open") == 1


def test_a_run_that_is_not_done(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        LOT
        + """
runs:
  - {id: r-1, started: 2026-09-02 08:00, energy: 12 kWh, labor: 30 min,
     loads: [{lot: t-1, wet: 8 lb, dry: 14 oz}, {lot: t-1, id: second, wet: 8 lb}]}
  - {id: r-2, started: 2026-09-05 08:00, loads: [{lot: t-1, wet: 6 lb}]}
  - {id: r-3, started: 2026-09-07 08:00}
""",
    )
    # One of its two loads has no dry weight, so the run is not done and neither load finished.
    assert [found("runs", "done", f"r-{n}") for n in (1, 2, 3)] == [False, False, False]
    assert found("runs", "water_removed", "r-1") is None
    assert found("loads", "water_removed", "r-1/t-1") == 7.125  # 8 - 14/16
    assert found("loads", "run_share", "r-1/t-1") is None
    assert found("loads", "cost_energy", "r-1/t-1") is None
    assert found("products", "dried") == 0
    assert found("products", "in_process") == 22  # 8 + 8 + 6
    assert found.of("products", "turnip-cubes", "cost_energy", "running_cost") == [0, 0]
    assert found("lots", "loaded") == 22
    assert found("lots", "waiting") == 8
    assert found("season", "in_process_cost") == close(24.0625)  # 22 × 1.09375
    assert found("season", "spent") == close(35), "no cost is lost on the way"
    # Its energy is known already, so it is in the season's, and in no product's cost.
    assert found("season", "energy_used") == 12
    assert found("season", "energy_cost") == 3.0  # 12 × 0.25
    assert found("season", "runs_open") == 3
    assert "energy-missing" not in " ".join(found.failing())


def test_two_loads_share_the_run_by_the_water_they_gave_up(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        LOT
        + """
  - {id: b-1, product: beet-cubes, date: 2026-09-01, weighed: 10 lb, grown: true, prepped: 8 lb}
runs:
  - {id: r-1, started: 2026-09-02, energy: 16 kWh, labor: 1 h,
     loads: [{lot: t-1, wet: 10 lb, dry: 16 oz}, {lot: b-1, wet: 8 lb, dry: 16 oz}]}
""",
    )
    # 9 lb and 7 lb of water: 9/16 and 7/16 of 16 kWh × 0.25 = 4 USD, of 2 upkeep, 4 wear, 10 labor.
    assert found("loads", "run_share", "r-1/t-1") == 9 / 16
    assert found("loads", "run_share", "r-1/b-1") == 7 / 16
    for part, whole in (("energy", 4), ("upkeep", 2), ("wear", 4)):
        assert found("loads", f"cost_{part}", "r-1/t-1") == close(whole * 9 / 16)
        assert found("loads", f"cost_{part}", "r-1/b-1") == close(whole * 7 / 16)
    # The lot's 2 h at 10 USD: 20 × 10 / 32 = 6.25; the beets took none.
    assert found("loads", "cost_labor", "r-1/t-1") == close(6.25 + 10 * 9 / 16)
    assert found("loads", "cost_labor", "r-1/b-1") == close(10 * 7 / 16)
    assert found("loads", "cost_ingredients", "r-1/b-1") == 0, (
        "grown, and no price: it cost nothing"
    )
    assert found("loads", "cost_ingredients", "r-1/t-1") == 10.9375
    # Moisture: turnips 1 - 0.10 × 10 = 0 %; beets 1 - 0.125 × 8 = 0 %.
    assert found("loads", "moisture_left", "r-1/t-1") == close(0)
    assert found("loads", "moisture_left", "r-1/b-1") == close(0)


AGAIN = (
    LOT
    + """
runs:
  - {id: r-1, started: 2026-09-02, energy: 16 kWh,
     loads: [{lot: t-1, wet: 10 lb, dry: 20 oz}]}
  - {id: r-2, started: 2026-09-04, energy: 8 kWh, labor: 1 h,
     loads: [{again: r-1/t-1, wet: 20.5 oz, dry: 17 oz},
             {lot: t-1, id: fresh, wet: 5 lb, dry: 8 oz}]}
"""
)


def test_a_load_that_went_back_in(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN)
    # It took up half an ounce from the air before it went back: 20.5 oz in, 17 oz out.
    assert found("lots", "loaded") == 15, "what went back in is not loaded again"
    assert found.of("products", "turnip-cubes", "loaded", "dried") == [15, close(24.5)]
    # dried: 20 + 17 + 8 - 20.5 = 24.5; 24.5 and not 25, for the half ounce of water is out again.
    assert found("products", "overall_yield") == close(24.5 / 16 / (15 * 40 / 32))
    assert found("loads", "as_purchased_share", "r-2/t-1") == 0
    assert found("loads", "cost_ingredients", "r-2/t-1") == 0, "they stay with the first load"
    assert found("products", "cost_ingredients") == close(15 * 1.09375)
    # Water of the second run: 3.5 oz = 0.21875 lb and 4.5 lb, together 4.71875 lb.
    assert found("loads", "run_share", "r-2/t-1") == close(0.21875 / 4.71875)
    assert found("products", "cost_energy") == close(4 + 2), "both runs' energy"
    assert found("products", "cost_labor") == close(20 * 15 / 32 + 10)
    # 1 - 0.10 × (160 / 20) × (20.5 / 17): the solids have not changed.
    assert found("loads", "moisture_left", "r-2/t-1") == close(1 - 0.1 * 8 * 20.5 / 17)
    assert found("loads", "moisture_left", "r-1/t-1") == close(0.2)  # 1 - 0.10 × 8
    assert found("season", "spent") == close(35 + 6 + 4), (
        "35 for turnips, 6 for energy, 4 for upkeep; the wear is no running cost"
    )


def test_a_load_that_is_back_in_the_dryer(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN.replace(", dry: 17 oz", ""))
    assert found("runs", "done", "r-2") is False
    assert found("products", "dried") == 20, "as the first run gave it, until the second is done"
    assert found("products", "in_process") == close(20.5 / 16 + 5)
    assert found("season", "in_process_cost") == close(5 * 1.09375), "its produce is counted once"
    assert found("season", "spent") == close(35 + 4 + 2)


PACKED = (
    LOT
    + """
runs:
  - {id: r-1, started: 2026-09-02, energy: 16 kWh, loads: [{lot: t-1, wet: 16 lb, dry: 32 oz}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2026-09-05, container: tin, count: 5,
     net: 4 oz, from: [r-1]}
"""
)
# The bulk cost 16 × 1.09375 = 17.50 for turnips, 4 for energy, 2 for upkeep: 23.50 for 32 oz.


def test_all_is_well(tmp_path: Path) -> None:
    found = season(tmp_path, PACKED)
    assert found("products", "running_bulk") == close(23.5 / 32)
    assert found("products", "unpacked") == 12  # 32 - 5 × 4
    assert found("products", "cost_packaging") == close(10)  # 5 × 1.90 / 0.95
    assert found("products", "running_per_packed") == close((23.5 / 32 * 20 + 10) / 20)
    assert found("packs", "running_each") == close(4 * 23.5 / 32 + 2)


def test_crumbs_are_borne_by_the_rest(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        PACKED
        + """
uses:
  - {date: 2026-09-06, product: turnip-cubes, weight: 2 oz, for: crumbs}
  - {date: 2026-09-06, product: turnip-cubes, weight: 3 oz, for: household}
""",
    )
    assert found("products", "running_bulk") == close(
        23.5 / 30
    )  # 32 - 2, the household's 3 are not lost
    assert found("products", "unpacked") == 7  # 32 - 20 - 2 - 3
    assert found("products", "running_per_packed") == close((23.5 / 30 * 20 + 10) / 20)
    assert found("uses", "revenue", "use-2") == 0


def test_spoiled_packs_are_borne_by_the_rest(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        PACKED
        + """
uses:
  - {date: 2026-10-06, pack: P-1, count: 1, for: spoiled}
  - {date: 2026-10-07, pack: P-1, count: 1, for: household}
""",
    )
    # 5 tins of 4 oz, one of them spoiled: 16 oz are left to carry what 20 oz and 5 tins cost.
    assert found("products", "packed_good") == 16
    assert found("products", "running_per_packed") == close((23.5 / 32 * 20 + 10) / 16)
    assert found("packs", "on_hand") == 3
    assert found("uses", "revenue", "use-1") == 0
    assert found("uses", "profit", "use-1") is None, "only what was sold has a profit"
    assert found("season", "profit") == 0


CARRIED = (
    PACKED
    + """
  - {id: old, product: turnip-cubes, date: 2026-01-01, container: tin, count: 6, net: 5 oz,
     carried: {running: 7 USD, full: 9 USD}, labor: 1 h}
uses:
  - {date: 2026-10-06, pack: old, count: 2, for: spoiled}
  - {date: 2026-10-07, pack: old, count: 1, for: stall, price: 12 USD}
"""
)


def test_packs_left_from_last_season(tmp_path: Path) -> None:
    found = season(tmp_path, CARRIED)
    plain = season(tmp_path, PACKED)
    for name in ("packed", "packed_good", "unpacked", "cost_packaging", "running_per_packed",
                 "cost_pack_labor", "running_bulk", "full_per_packed"):  # fmt: skip
        assert found("products", name) == plain("products", name), name
    assert found.of("packs", "old", "running_each", "full_each", "on_hand") == [7, 9, 3]
    assert found("uses", "cost_out", "use-2") == 9
    assert found("uses", "profit", "use-2") == close(12 * 0.9 - 9)


def test_bulk_left_from_last_season(tmp_path: Path) -> None:
    head = (
        HEAD + "carried_over:\n"
        "- {product: turnip-cubes, dried: 8 oz, running: 1 USD/oz, full: 2 USD/oz}\n"
    )
    found = season(tmp_path, PACKED, head)
    assert found("products", "carried") == 8
    assert found("products", "running_bulk") == close((23.5 + 8) / 40)
    # Full: 23.50, 4 of wear, labor 20 × 16/32 = 10, and 8 oz at 2.
    assert found("products", "full_bulk") == close((23.5 + 4 + 10 + 16) / 40)
    assert found("products", "unpacked") == 20  # 32 + 8 - 20
    assert found("products", "running_cost") == close(33.5), (
        "last season's money is not spent again"
    )
    assert found("products", "dried") == 32


@pytest.mark.parametrize(
    ("lot", "figures"),
    [
        # 20 lb a crate by the recipe, 80 % of it prepared: 2 crates, 32 lb. Both are estimates.
        ("count: 2, container: crate", {"as_purchased": 40, "prepped": 32, "waiting": 22}),
        # One crate of three was weighed: 21 lb, so 63 lb in all.
        ("count: 3, container: crate, weighed: 21 lb, weighed_count: 1",
         {"as_purchased": 63, "prepped": 50.4, "waiting": 40.4}),
        # The scale counts, not the crate.
        ("container: crate, weighed: 19 lb", {"as_purchased": 19, "prepped": 15.2}),
        # All went on the trays: what was prepared is what was loaded, set aside and lost.
        ("weighed: 15 lb, set_aside: 1 lb, lost: 0.5 lb, finished: true",
         {"as_purchased": 15, "prepped": 11.5, "waiting": 0, "prep_yield": 11.5 / 15}),
        # The recipe would say 9.6 lb, but more than that was loaded: the larger counts.
        ("weighed: 12 lb, lost: 0.5 lb", {"prepped": 10.5, "waiting": 0}),
        # Weighed after preparing: it counts above all.
        ("weighed: 12 lb, prepped: 10.2 lb, finished: true", {"prepped": 10.2, "waiting": 0.2}),
        # Nothing known of its weight.
        ("", {"as_purchased": None, "prepped": None, "cost_per_prepped": None, "waiting": None}),
    ],
)  # fmt: skip
def test_what_a_lot_weighs(tmp_path: Path, lot: str, figures: dict[str, float | None]) -> None:
    found = season(
        tmp_path,
        f"""
lots: [{{id: t-1, product: turnip-cubes, price: 30 USD{", " if lot else ""}{lot}}}]
runs: [{{id: r-1, started: 2026-09-02, loads: [{{lot: t-1, wet: 10 lb}}]}}]
""",
    )
    for name, value in figures.items():
        assert found("lots", name) == (None if value is None else close(value)), name


@pytest.mark.parametrize(
    ("price", "cost"),
    [
        ("price: 12 USD/crate", 36),  # × 3 crates
        ("price: 0.80 USD/lb", 48),  # × 60 lb, the nominal weight
        ("price: 40 USD", 40),
        ("grown: true", 0),
        ("grown: true, price: 9 USD", 9),
        ("grown: false", None),
    ],
)
def test_what_a_lot_costs(tmp_path: Path, price: str, cost: float | None) -> None:
    found = season(
        tmp_path,
        f"lots: [{{id: t-1, product: turnip-cubes, date: 2026-09-01, count: 3, container: crate, "
        f"{price}, travel: 4 mile}}]\n",
    )
    assert found("lots", "purchase_cost") == (None if cost is None else close(cost))
    # 80 % of 60 lb is 48 lb; 4 miles cost 2.
    assert found("lots", "cost_per_prepped") == (None if cost is None else close((cost + 2) / 48))
    assert ("lots-price-missing" in found.failing()) is (cost is None)


def test_a_run_that_was_not_metered_is_an_estimate(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        PACKED.replace("energy: 16 kWh", "duration: 30 h").replace("prepped: 33 lb, ", ""),
    )
    # 0.8 kW × 30 h = 24 kWh; prepared 80 % of 40 lb = 32 lb, 31 lb without the loss.
    assert found("runs", "energy_used") == close(24)
    assert found("lots", "prepped") == close(32)
    assert found.mark("runs", "energy_used", "r-1") is True
    assert found.mark("lots", "prepped", "t-1") is True
    assert found.mark("lots", "as_purchased", "t-1") is False
    assert found.mark("loads", "water_removed", "r-1/t-1") is False
    # Turnips 16 × 35/31, energy 6; upkeep 2 and packaging 10 rest on no estimate.
    estimated = 16 * 35 / 31 + 6
    assert found("season", "estimated_share") == close(estimated / (estimated + 2 + 10))


def test_half_of_it_is_an_estimate(tmp_path: Path) -> None:
    found = season(tmp_path, PACKED.replace("energy: 16 kWh", "duration: 20 h"))
    # 0.8 × 20 = 16 kWh, 4 USD, of 17.50 + 4 + 2 + 10 = 33.50.
    assert found("season", "estimated_share") == close(4 / 33.5)
    assert season(tmp_path, PACKED)("season", "estimated_share") == 0


def test_how_long_and_by_two_readings(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        """
runs:
  - {id: r-1, started: 2026-09-02 18:30, ended: 2026-09-04 05:00,
     energy: {from: 1042.3 kWh, to: 1064.1 kWh}}
  - {id: r-2, started: 2026-09-05 18:30, ended: 2026-09-06 18:30}
""",
    )
    assert found("runs", "hours", "r-1") == close(34.5)
    assert found("runs", "energy_used", "r-1") == close(21.8)
    assert found("runs", "energy_used", "r-2") == close(19.2)  # 0.8 × 24


def test_overheads(tmp_path: Path) -> None:
    head = HEAD + (
        "overheads: [{item: permit, cost: 60 USD, over: 600 oz}, {item: shelf, cost: 16 USD}]\n"
    )
    found = season(tmp_path, PACKED, head)
    # 60 / 600 for each of 32 oz, and all of the shelf: 3.20 + 16 × 32/32.
    assert found("products", "cost_overhead") == close(19.2)
    found = season(tmp_path, LOT, head)
    assert found("season", "dried") == 0
    assert found("products", "cost_overhead") is None, "over no dried weight there is no rate"


def test_time_as_money(tmp_path: Path) -> None:
    found = season(
        tmp_path,
        PACKED.replace("energy: 16 kWh", "energy: 16 kWh, labor: 30 min").replace(
            "from: [r-1]", "labor: 15 min"
        ),
    )
    # Lot: 2 h × 10 × 16/32 = 10. Run: 5. Packing: 2.50. Wear: 4.
    assert found("products", "cost_labor") == close(15)
    assert found("products", "cost_pack_labor") == 2.5
    assert found("products", "full_cost") == close(33.5 + 4 + 15 + 2.5)
    assert found("packs", "full_each") == close(4 * (23.5 + 4 + 15) / 32 + 2 + 2.5 / 5)
    assert found("products", "full_per_packed") == close(((42.5 / 32) * 20 + 10 + 2.5) / 20)
    assert found("season", "labor_cost") == 20, "of the lots"
    assert "packs-origin-missing" in found.failing()


def test_an_empty_season(tmp_path: Path) -> None:
    found = season(tmp_path, "")
    sums = [
        "as_purchased", "prepped", "waiting", "loaded", "dried",
        "packed", "unpacked", "purchase_cost", "travel_cost", "labor_cost",
        "energy_used", "energy_cost", "water_removed", "cost_ingredients", "cost_energy",
        "cost_upkeep", "cost_wear", "cost_labor", "cost_overhead", "cost_packaging",
        "cost_pack_labor", "running_cost", "full_cost", "saving", "revenue",
        "profit", "in_process_cost", "spent",
    ]  # fmt: skip
    assert {name: found("season", name) for name in sums} == dict.fromkeys(sums, 0)
    assert found("season", "estimated_share") is None
    assert found("season", "last_lot") is None
    assert found.failing() == []


def figures_of(found: Figures) -> list[object]:
    return [
        found("products", name) for name in ("running_cost", "running_bulk", "running_per_packed")
    ]


@pytest.mark.parametrize(
    ("left_out", "known"),
    [
        # What is left out is unknown, and so is all that needs it; the rest goes on.
        ("price: 30 USD,", [None, None, None]),
        ("energy: 16 kWh, ", [None, None, None]),
        (", dry: 32 oz", [10, None, None]),
        ("net: 4 oz, ", [33.5, 23.5 / 32, None]),
        (", container: tin", [None, 23.5 / 32, None]),
    ],
)
def test_unknown_is_not_zero(tmp_path: Path, left_out: str, known: list[float | None]) -> None:
    assert left_out in PACKED
    found = season(tmp_path, PACKED.replace(left_out, ""))
    assert figures_of(found) == [None if v is None else close(v) for v in known]
