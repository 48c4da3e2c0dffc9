"""Weights that nobody wrote down: worked out with a pencil, and by a rule of another make.

The solids balance is that of Earle, Unit Operations in Food Processing, ch. 2 (what was solid
before is solid after): turnips of nine tenths water have 1.6 oz of solids in a pound, beets of
seven eighths 2 oz. That water leaves evenly over the hours of two dryings is our own convention.
"""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from uncertainties import ufloat

from trade.small import HEAD, RECIPES, season

pytestmark = pytest.mark.seasons

LOTS = """
lots:
  - {id: t, product: turnip-cubes, price: 12 USD, prepped: 20 lb}
  - {id: b, product: beet-cubes, price: 6 USD, prepped: 20 lb}
"""
MIXED = (
    LOTS
    + """
runs:
  - id: r
    duration: 30 h
    energy: 8 kWh
    dry: 24 oz
    loads: [{lot: t, wet: 5 lb}, {lot: b, wet: 4 lb}]
"""
)


def test_a_mixed_run_is_shared_by_solids(tmp_path: Path) -> None:
    found = season(tmp_path, MIXED)
    # 5 lb of turnips hold 8 oz of solids, 4 lb of beets as much: 12 oz each.
    assert found.of("loads", "r/t", "solids", "share_of_run", "dry_shared", "weight_out") == (
        pytest.approx([0.5, 12.0, 12.0, 12.0])
    )
    assert found("loads", "weight_out", "r/b") == pytest.approx(12.0)
    run = ("dry_apart", "loads_open", "dry_together", "solids_together", "done", "loads_guessed")
    assert found.of("runs", "r", *run) == pytest.approx([0, 2, 24, 1.0, True, 2])
    assert found.of("loads", "r/t", "guessed", "dry_open", "moisture_left") == [True, True, None]
    assert found("loads", "dryness_verdict", "r/t") == "not shown"
    assert found.failing() == ["products-shop-price-missing", "loads-dry-guessed"]


def test_what_was_weighed_apart_keeps_its_weight(tmp_path: Path) -> None:
    found = season(tmp_path, MIXED.replace("wet: 5 lb}", "wet: 5 lb, dry: 9 oz}"))
    assert found.of("loads", "r/t", "dry_exact", "dry_shared", "weight_out") == [9.0, None, 9.0]
    assert found("loads", "weight_out", "r/b") == pytest.approx(15.0)
    assert found.of("runs", "r", "dry_apart", "loads_open") == [9.0, 1.0]


def test_no_share_is_above_what_went_in(tmp_path: Path) -> None:
    found = season(tmp_path, MIXED.replace("dry: 24 oz", "dry: 140 oz"))
    # 70 oz each, and the beets were 64 oz wet.
    assert found.of("loads", "r/b", "share_of_run", "dry_shared") == pytest.approx([70.0, 64.0])
    assert found("loads", "dry_shared", "r/t") == pytest.approx(70.0)


def test_a_run_that_weighs_less_than_its_loads(tmp_path: Path) -> None:
    found = season(tmp_path, MIXED.replace("wet: 5 lb}", "wet: 5 lb, dry: 25 oz}"))
    assert "runs-dry-below-loads" in found.failing()
    assert found("loads", "weight_out", "r/b") is None


AGAIN = (
    LOTS
    + """
runs:
  - {id: r, duration: 20 h, energy: 8 kWh, loads: [{lot: t, wet: 5 lb}]}
  - {id: s, duration: 10 h, energy: 4 kWh, loads: [{again: r/t, dry: 8.5 oz}]}
"""
)


def test_dried_again_without_a_weighing_between(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN)
    # 80 oz to 8.5 oz in 30 hours, of which 20 were the first.
    between = 80 - (80 - 8.5) * 20 / 30
    first = ("times_again", "once_again", "hours_again", "dry_in_the_end", "dry_by_hours")
    assert found.of("loads", "r/t", *first) == pytest.approx([1, True, 10, 8.5, between])
    assert found.of("loads", "r/t", "dry_between", "weight_out") == pytest.approx([between] * 2)
    assert found("loads", "weight_in", "s/t") == pytest.approx(between / 16)
    assert found("loads", "lost_by_hours", "r/t") == pytest.approx((80 - between) / 16)
    assert found.of("products", "turnip-cubes", "dried", "loaded") == pytest.approx([8.5, 5])
    assert found.of("loads", "s/t", "guessed", "moisture_left") == [True, None]


def test_it_is_unknown_without_the_hours(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN.replace("duration: 10 h, ", ""))
    assert found("loads", "weight_in", "s/t") is None
    assert found("runs", "done", "r") is False


@pytest.mark.parametrize(
    ("first", "again"), [("wet: 5 lb, dry: 12 oz", ""), ("wet: 5 lb", "wet: 12 oz, ")]
)
def test_the_weight_between_written_once_is_exact(tmp_path: Path, first: str, again: str) -> None:
    text = AGAIN.replace("wet: 5 lb", first).replace("again: r/t, ", f"again: r/t, {again}")
    found = season(tmp_path, text)
    assert found("loads", "weight_out", "r/t") == pytest.approx(12)
    assert found("loads", "weight_in", "s/t") == pytest.approx(0.75)
    for key in ("r/t", "s/t"):
        assert found("loads", "guessed", key) is False
    # 1 - (1 - 0.9) × 80 ÷ 8.5: it harms no dryness.
    assert found("loads", "moisture_left", "s/t") == pytest.approx(1 - 0.1 * 80 / 8.5)
    assert found.of("loads", "r/t", "dry_written", "wet_again", "dry_passed_on") == pytest.approx(
        [12.0, None, 12.0] if not again else [None, 0.75, None], nan_ok=True
    )
    assert found("loads", "wet_exact", "s/t") == pytest.approx(0.75)


def test_a_written_weight_between_comes_before_the_run_is_shared(tmp_path: Path) -> None:
    text = (
        LOTS
        + """
runs:
  - {id: r, duration: 20 h, energy: 8 kWh, dry: 24 oz,
     loads: [{lot: t, wet: 5 lb}, {lot: b, wet: 4 lb}]}
  - {id: s, duration: 10 h, energy: 4 kWh, loads: [{again: r/t, wet: 14 oz, dry: 8.5 oz}]}
"""
    )
    found = season(tmp_path, text)
    assert found("loads", "weight_out", "r/t") == pytest.approx(14)
    assert found("loads", "weight_out", "r/b") == pytest.approx(10)


def test_a_share_of_the_run_is_what_goes_back_in(tmp_path: Path) -> None:
    text = MIXED + "  - {id: s, duration: 10 h, loads: [{again: r/t, dry: 8.5 oz}]}\n"
    found = season(tmp_path, text)
    assert found("loads", "weight_in", "s/t") == pytest.approx(12 / 16)
    assert found("products", "dried", "turnip-cubes") == pytest.approx(8.5)


WET = """
lots:
  - {id: t, product: turnip-cubes, price: 12 USD, prepped: 20 lb, set_aside: 2 lb, lost: 1 lb}
runs:
  - {id: r, duration: 20 h, energy: 8 kWh, loads: [{lot: t, wet: 5 lb, dry: 8.5 oz}]}
  - {id: s, duration: 20 h, energy: 8 kWh, loads: [{lot: t}]}
  - {id: u, duration: 20 h, energy: 8 kWh, loads: [{lot: t}]}
"""
ONE_MORE = "loads: [{lot: t}]}\n  - {id: u"
TARGET = "target_moisture: {value: 2 %, source: practice}\n"


def test_a_forgotten_wet_weight(tmp_path: Path) -> None:
    found = season(tmp_path, WET)
    # 20 - 2 - 1 - 5 = 12 lb, 6 lb for each of the two.
    lot = ("prepped_to_load", "wet_written", "loads_unweighed", "wet_forgotten")
    assert found.of("lots", "t", *lot) == pytest.approx([20, 5, 2, 12])
    each = ("wet_evenly", "wet_in_dryer", "wet_at_most", "wet_fits", "wet_by_lot", "weight_in")
    assert found.of("loads", "s/t", *each) == pytest.approx([6, 6, 6, True, 6, 6])
    assert found("loads", "weight_in", "u/t") == pytest.approx(6)
    assert found("lots", "waiting", "t") == pytest.approx(0, abs=1e-12)
    assert "loads-wet-guessed" in found.failing()


def test_it_is_never_above_what_the_dryer_takes(tmp_path: Path) -> None:
    head = HEAD.replace("trays: 4", "trays: 4, load_limit: 5.5 lb")
    found = season(tmp_path, WET, head)
    assert found("loads", "weight_in", "s/t") == pytest.approx(5.5)
    assert found("runs", "load_limit", "s") == pytest.approx(5.5)


def test_nor_above_what_its_dry_weight_allows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(RECIPES, "turnip-cubes", RECIPES["turnip-cubes"] + TARGET)
    text = WET.replace(ONE_MORE, ONE_MORE.replace("lot: t", "lot: t, dry: 8 oz"))
    found = season(tmp_path, text)
    # 8 oz with 2 % water are 7.84 oz of solids, from 78.4 oz of turnips.
    assert found.of("loads", "s/t", "wet_by_dry", "weight_in") == pytest.approx([4.9, 4.9])
    assert found("loads", "weight_in", "u/t") == pytest.approx(6)


def test_it_is_unknown_where_it_would_be_below_its_dry_weight(tmp_path: Path) -> None:
    text = WET.replace(ONE_MORE, ONE_MORE.replace("lot: t", "lot: t, dry: 8 oz"))
    text = text.replace("wet: 5 lb, dry", "wet: 16.5 lb, dry")
    found = season(tmp_path, text)  # a quarter of a pound each, and 8 oz came out of one
    assert found.of("loads", "s/t", "wet_fits", "weight_in") == [False, None]
    assert found("loads", "weight_in", "u/t") == pytest.approx(0.25)


def test_it_is_unknown_for_a_finished_lot_that_nobody_weighed(tmp_path: Path) -> None:
    whole = "count: 1, container: crate, finished: true"
    found = season(tmp_path, WET.replace("prepped: 20 lb", whole))
    assert found.of("lots", "t", "as_purchased", "prepped_to_load") == [20.0, None]
    assert found("loads", "weight_in", "s/t") is None
    found = season(tmp_path, WET.replace("prepped: 20 lb", whole + ", weighed: 30 lb"))
    assert found("lots", "prepped_to_load", "t") == pytest.approx(24)


DRY = (
    LOTS
    + """
runs:
  - {id: r, started: 2025-09-01 20:00, duration: 30 h, energy: 8 kWh,
     loads: [{lot: t, wet: 5 lb}, {lot: b, wet: 4 lb, dry: 8.4 oz}]}
packs:
  - {id: P, product: turnip-cubes, container: tin, count: 2, net: 4.5 oz,
     date: 2025-09-03, from: [r]}
"""
)


def test_a_forgotten_dry_weight(tmp_path: Path) -> None:
    found = season(tmp_path, DRY)
    load = ("dry_lost", "packs_unsure", "packed_of_run", "dry_beside", "solids_beside")
    assert found.of("loads", "r/t", *load) == pytest.approx([True, 0, 9.0, 0, 0.5])
    last = ("share_of_packs", "packs_tell", "dry_by_packs", "dry_estimated", "weight_out")
    assert found.of("loads", "r/t", *last) == pytest.approx([9, True, 9, 9, 9])
    assert found("runs", "end", "r") == pytest.approx(45903 + 2 / 24)  # 3 September, 02:00
    assert "loads-dry-guessed" in found.failing()
    assert found.numbers.cells["draws"]["packed_after"] == [True]
    assert found.numbers.cells["draws"]["tells_nothing"] == [False]


@pytest.mark.parametrize(
    "changed",
    [
        ("net: 4.5 oz", "net: 3.9 oz"),  # less than the 8 oz of solids: some is in the bucket
        ("date: 2025-09-03", "date: 2025-09-02"),  # before the run ended
        ("date: 2025-09-03, ", ""),
        ("from: [r]", "from: [r, s]"),
        ("started: 2025-09-01 20:00, ", ""),
        ("packs:", "packs:\n  - {id: Q, product: turnip-cubes, container: tin, net: 1 oz,"
                   " date: 2025-09-03, from: [r, s]}"),
    ],
)  # fmt: skip
def test_it_is_unknown_where_packs_do_not_tell(tmp_path: Path, changed: tuple[str, str]) -> None:
    other = "  - {id: s, duration: 30 h, loads: [{lot: t, wet: 1 lb, dry: 2 oz}]}\npacks:"
    found = season(tmp_path, DRY.replace("packs:", other).replace(*changed))
    assert found("loads", "weight_out", "r/t") is None


def test_packs_that_do_not_tell_ask_for_the_weight_and_not_for_other_packs(tmp_path: Path) -> None:
    found = season(tmp_path, DRY.replace("net: 4.5 oz", "net: 3.9 oz"))
    assert found("loads", "dry_not_told", "r/t") is True
    assert found("loads", "dry_not_told", "r/b") is False
    assert found.of("products", "turnip-cubes", "loads_not_told", "packed_beyond") == [1, True]
    assert "products-packed-unweighed" in found.failing()
    assert "products-packed-above-dried" not in found.failing()
    # Written as about, it is there: the packs hold less than that, so neither is said.
    written = DRY.replace("net: 4.5 oz", "net: 3.9 oz").replace("5 lb}", "5 lb, dry: ~9 oz}")
    found = season(tmp_path, written)
    assert not {"products-packed-unweighed", "products-packed-above-dried"} & {*found.failing()}


def test_a_weight_written_as_about(tmp_path: Path) -> None:
    text = MIXED.replace("    dry: 24 oz\n", "").replace("5 lb}", "~5 lb, dry: 9 oz}")
    found = season(tmp_path, text.replace("wet: 4 lb}", "wet: 4 lb, dry: about 8 oz}"))
    assert found.of("loads", "r/t", "weight_in", "weight_out", "guessed") == [5.0, 9.0, True]
    assert found("loads", "guessed", "r/b") is True
    assert {"loads-wet-guessed", "loads-dry-guessed"} <= {*found.failing()}
    assert found.mark("loads", "weight_in", "r/t") and not found.mark("loads", "weight_in", "r/b")


def test_it_makes_the_running_cost_of_the_whole_run_an_estimate(tmp_path: Path) -> None:
    packs = (
        "packs:\n"
        "  - {id: P, product: turnip-cubes, container: tin, count: 2, net: 4 oz, from: [r]}\n"
        "  - {id: Q, product: beet-cubes, container: tin, count: 2, net: 4 oz, from: [r]}\n"
    )
    weighed = MIXED.replace("    dry: 24 oz\n", "").replace("5 lb}", "5 lb, dry: 9 oz}")
    weighed = weighed.replace("wet: 4 lb}", "wet: 4 lb, dry: 8 oz}") + packs
    assert season(tmp_path, weighed)("season", "estimated_share") == 0
    about = season(tmp_path, weighed.replace("wet: 4 lb", "wet: ~4 lb"))
    load = ("cost_ingredients", "cost_energy", "cost_upkeep")
    both = sum(sum(about.of("loads", key, *load)) for key in ("r/t", "r/b"))
    assert [about("loads", "parts_estimated", key) for key in ("r/t", "r/b")] == pytest.approx(
        [0, about("loads", "cost_ingredients", "r/b")]
    )
    assert about("season", "running_estimated") == pytest.approx(both)
    assert about("season", "estimated_share") == pytest.approx(both / (both + 8))
    assert about("runs", "energy_estimate", "r") is False


def test_a_reading_shows_that_an_estimate_is_dry(tmp_path: Path) -> None:
    twice = "weights: [9 oz, 9 oz]"
    text = MIXED.replace("    dry: 24 oz\n", "")
    only = text.replace("5 lb}", f"~5 lb, dryness: {{{twice}}}}}")
    only = only.replace("4 lb}", "4 lb, dry: 8 oz}")
    found = season(tmp_path, only)
    seen = ("weights_tell", "weight_change", "moisture_left_low", "dryness_verdict", "evidence")
    assert found.of("loads", "r/t", *seen) == [False, None, None, "not shown", "none"]
    found = season(tmp_path, only.replace(twice, twice + ", water_activity: 0.3"))
    assert found.of("loads", "r/t", "dryness_verdict", "evidence") == ["dry", "a reading"]


# --- the same by a rule of another make: loads by loads, no columns ------------------------------

SOLID = {"t": 0.1, "b": 0.125}


def plainly(runs: list[dict[str, Any]]) -> dict[str, float | None]:
    """Dry weights in ounces: what is written, what goes back in, then the run's in parts."""
    again = {load["again"]: load for run in runs for load in run["loads"] if "again" in load}
    first = {load["key"]: load for run in runs for load in run["loads"] if "again" not in load}
    dry: dict[str, float | None] = {}
    for run in runs:
        for load in run["loads"]:
            written = load.get("dry")
            if written is None and load["key"] in again:
                written = again[load["key"]].get("wet")
            dry[load["key"]] = written
        open_ = [load for load in run["loads"] if dry[load["key"]] is None]
        if "dry" not in run or not open_:
            continue
        rest = run["dry"] - sum(dry[load["key"]] or 0 for load in run["loads"])
        solid = {
            load["key"]: first[load.get("again", load["key"])]["wet"] * SOLID[load["lot"]]
            for load in open_
        }
        for load in open_:
            share = rest * solid[load["key"]] / sum(solid.values())
            wet = (
                load.get("wet")
                if "again" not in load
                else (load.get("wet") or first[load["again"]].get("dry"))
            )
            dry[load["key"]] = None if rest <= 0 else min(share, wet) if wet else share
    hours = {load["key"]: run["hours"] for run in runs for load in run["loads"]}
    for key, load in first.items():
        back = again.get(key)
        if dry[key] is None and back is not None and back.get("dry") is not None:
            part = hours[key] / (hours[key] + hours[back["key"]])
            dry[key] = load["wet"] - (load["wet"] - back["dry"]) * part
    return dry


def test_random_runs_agree_with_it(tmp_path: Path) -> None:
    rng = random.Random(4711)
    shares = between = 0
    for number in range(25):
        runs: list[dict[str, Any]] = []
        loads: list[dict[str, Any]] = []
        for n in range(rng.randint(2, 4)):
            run: dict[str, Any] = {"key": f"r{n}", "hours": rng.randint(10, 40), "loads": []}
            for lot in rng.sample(["t", "b"], rng.randint(1, 2)):
                load: dict[str, Any] = {"key": f"r{n}/{lot}", "lot": lot}
                earlier = [each for each in loads if each["lot"] == lot and "again" not in each]
                if earlier and rng.random() < 0.5 and not earlier[-1].get("taken"):
                    load["again"] = earlier[-1]["key"]
                    earlier[-1]["taken"] = True
                    if rng.random() < 0.4:
                        load["wet"] = rng.randint(20, 30)
                else:
                    load["wet"] = rng.randint(32, 80)
                if rng.random() < 0.4:
                    load["dry"] = rng.randint(9, 14)
                run["loads"].append(load)
                loads.append(load)
            if rng.random() < 0.6:
                run["dry"] = rng.randint(15, 60)
            runs.append(run)
        text = LOTS.replace("20 lb", "90 lb") + "runs:\n"
        for run in runs:
            kept = [
                ", ".join(
                    f"{name}: {load[name]}" + (" oz" if name in ("wet", "dry") else "")
                    for name in (("again" if "again" in load else "lot"), "wet", "dry")
                    if name in load
                )
                for load in run["loads"]
            ]
            whole = f", dry: {run['dry']} oz" if "dry" in run else ""
            listed = ", ".join(f"{{{each}}}" for each in kept)
            text += (
                f"  - {{id: {run['key']}, duration: {run['hours']} h{whole}, loads: [{listed}]}}\n"
            )
        folder = tmp_path / str(number)
        folder.mkdir()
        found, wanted = season(folder, text), plainly(runs)
        for load in loads:
            got, want = found("loads", "weight_out", load["key"]), wanted[load["key"]]
            assert (got is None) == (want is None), (load, text)
            assert want is None or got == pytest.approx(want, rel=1e-12), (load, text)
            shares += found("loads", "dry_shared", load["key"]) is not None
            between += found("loads", "dry_by_hours", load["key"]) is not None
            if "again" in load and want is not None and found("loads", "weight_in", load["key"]):
                assert found("loads", "weight_in", load["key"]) * 16 == pytest.approx(
                    load.get("wet") or wanted[load["again"]]
                )
    assert shares > 20 and between > 3


# --- how many weighings --------------------------------------------------------------------------


def test_each_weighing_counts(tmp_path: Path) -> None:
    """Against the uncertainties library: the same season with each tray weighed by itself."""
    u = 0.1 / 12**0.5
    text = MIXED.replace("    dry: 24 oz\n", "") + (
        "  - {id: s, duration: 9 h, energy: 1 kWh, loads: [{again: r/t, wet: 10 oz, dry: 8 oz}]}\n"
        "scale: {resolution: 0.1 oz}\n"
    )
    trays = "[{gross: 3 lb, tare: 8 oz}, {gross: 3 lb, tare: 8 oz}]"
    text = text.replace("wet: 5 lb", f"wet: {trays}, dry: {{gross: 12 oz, tare: 2 oz}}")
    found = season(tmp_path, text.replace("4 lb}", "4 lb, dry: [4 oz, 4 oz]}"))
    assert found("loads", "weight_in", "r/t") == pytest.approx(5)
    each = [ufloat(48, u), -ufloat(8, u), ufloat(48, u), -ufloat(8, u)]
    wet = (found("loads", "cost_by_wet", "r/t") + found("loads", "cost_moved", "r/t")) / 16
    assert wet != 0  # by the ounce
    assert found("loads", "wet_u_squared", "r/t") == pytest.approx(
        (sum(each) * wet).std_dev ** 2, rel=1e-12
    )
    # 12 - 2 out, then 10 back in and 8 out.
    assert [found("loads", "weighed_dry", key) for key in ("r/t", "r/b", "s/t")] == [2, 2, 2]
    dry = (ufloat(12, u) - ufloat(2, u)) * found("loads", "cost_by_dry", "r/t")
    assert found("loads", "dry_u_squared", "r/t") == pytest.approx(dry.std_dev**2, rel=1e-12)


def test_a_forgotten_wet_weight_is_not_below_what_went_back_in(tmp_path: Path) -> None:
    """Ten of twelve pounds are written on one load; 2 lb are left for one that came out at 3 lb."""
    text = """
    lots: [{id: t, product: turnip-cubes, price: 12 USD, prepped: 12 lb}]
    runs:
      - {id: q, duration: 20 h, energy: 8 kWh, loads: [{lot: t, wet: 10 lb, dry: 18 oz}]}
      - {id: r, duration: 20 h, energy: 8 kWh, loads: [{lot: t}]}
      - {id: s, duration: 10 h, energy: 4 kWh, loads: [{again: r/t, wet: WET, dry: 3.4 oz}]}
    """
    found = season(tmp_path, text.replace("WET", "3 lb"))
    assert found.of("loads", "r/t", "wet_at_most", "dry_exact", "weight_in") == [2, 48, None]
    found = season(tmp_path, text.replace("WET", "1 lb"))
    assert found.of("loads", "r/t", "weight_in", "weight_out") == [2, 16]
