"""Dry enough? Every kind of evidence and its verdict; packs; the cautions wherever it is read."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cli.seasons import run as command
from engines.cells import cells
from published.figures import Figures

from reportgen.layout.blocks import TableBlock
from reportgen.program import build
from reportgen.sheets.all import SHEETS
from reportgen.trade import BOOK
from trade.small import HEAD, season

pytestmark = pytest.mark.seasons

# Nine tenths water, 88 to 92 %: 10 kg hold 0.8 to 1.2 kg of solids. Dried to 1.05 kg that leaves
# 1 - 0.1 × 10 / 1.05 = 4.8 % water, and anything from nothing to 23.8 %.
FOOD = {"key": "food", "water": 0.90, "water_low": 0.88, "water_high": 0.92}
READ, TWICE, WEIGHT, NONE = "a reading", "two weighings", "weight only", "none"
SUPPORTS, CONSTANT = "a reading supports it", "constant weight"
MISSING = "weigh again to constant weight, or measure"
MOIST, FALLS, WATER = (
    "a reading says moist",
    "the weight still falls",
    ("the weights leave too much water"),
)


def weights(before: float, last: float) -> dict[str, float]:
    return {"weighing_before": before, "weighing_last": last}


def figures(*loads: dict[str, Any], **tables: Any) -> Figures:
    """Loads of one lot, the first in run 1, the next in run 2, and so on."""
    rows = [
        {"id": f"load-{n}", "run": str(n), "lot": "lot", "wet": 10.0, "dry": 1.05} | load
        for n, load in enumerate(loads, 1)
    ]
    made: dict[str, Any] = {
        "products": [FOOD],
        "lots": [{"key": "lot", "product": "food"}],
        "runs": [{"key": str(n)} for n in range(1, len(loads) + 1)],
    }
    return Figures(loads=rows, **made | tables)


# (what is known of the load) → evidence, verdict, reason. The limits themselves still pass.
TABLE: list[tuple[dict[str, Any], str, str, str | None]] = [
    ({}, WEIGHT, "not shown", MISSING),
    ({"water_activity": 0.24}, READ, "dry", SUPPORTS),
    ({"water_activity": 0.60}, READ, "dry", SUPPORTS),
    ({"water_activity": 0.61}, READ, "doubtful", MOIST),
    ({"moisture_meter": 0.10}, READ, "dry", SUPPORTS),
    ({"moisture_meter": 0.11}, READ, "doubtful", MOIST),
    ({"water_activity": 0.24, "moisture_meter": 0.11}, READ, "doubtful", MOIST),
    # Half a percent of 1.05 is 0.00525.
    (weights(1.055, 1.05), TWICE, "dry", CONSTANT),
    (weights(1.056, 1.05), TWICE, "doubtful", FALLS),
    (weights(1.044, 1.05), TWICE, "doubtful", FALLS),
    (weights(1.06, 1.05) | {"water_activity": 0.24}, READ, "dry", SUPPORTS),
    (weights(1.05, 1.05) | {"water_activity": 0.70}, READ, "doubtful", MOIST),
    # 1.4 kg: at least 1 - 0.12 × 10 / 1.4 = 14.3 % water is left.
    ({"dry": 1.4}, WEIGHT, "doubtful", WATER),
    # Two weighings that agree cannot talk that away, a reading can.
    ({"dry": 1.4} | weights(1.4, 1.4), TWICE, "doubtful", WATER),
    ({"dry": 1.4, "water_activity": 0.24}, READ, "dry", SUPPORTS),
    # 1 - 0.12 × 10 / 1.33 = 9.8 %: within what is accepted.
    ({"dry": 1.33}, WEIGHT, "not shown", MISSING),
    ({"dry": None} | weights(1.052, 1.05), TWICE, "dry", CONSTANT),
    ({"dry": None}, NONE, "in process", None),
]


def test_a_load_shown_to_be_dry_tells_how_much_water_was_in_it() -> None:
    again = {"again": "load-2", "wet": None, "water_activity": 0.24}
    found = figures({"water_activity": 0.24}, {}, again, {"dry": 1.4})
    told = [found("loads", "tells_water", f"load-{n}") for n in (1, 2, 3, 4)]
    assert told == [True, False, False, False]


@pytest.mark.parametrize(("known", "evidence", "verdict", "reason"), TABLE)
def test_evidence_and_verdict(
    known: dict[str, Any], evidence: str, verdict: str, reason: str | None
) -> None:
    found = figures(known)
    said = [found("loads", name) for name in ("evidence", "dryness_verdict", "dryness_cause")]
    assert said == [evidence, verdict, reason]
    assert found("loads", "doubtful") is (verdict == "doubtful")


def test_without_a_recipes_water_the_weight_says_nothing() -> None:
    found = figures({}, products=[{"key": "food"}])
    assert found("loads", "evidence") == NONE
    assert found("loads", "dryness_verdict") == "not shown"
    assert found("loads", "weighed_moist") is False


def test_water_measured_in_the_lot_takes_the_recipes_place() -> None:
    # 86 %: 1.4 kg of solids in 10 kg. At 1.4 kg no water is left at all.
    found = figures({"dry": 1.4}, lots=[{"key": "lot", "product": "food", "water": 0.86}])
    for name in ("water_at_start", "water_at_start_low", "water_at_start_high"):
        assert found("loads", name) == 0.86
    for name in ("moisture_left", "moisture_left_low", "moisture_left_high"):
        assert found("loads", name) == pytest.approx(0, abs=1e-12)
    assert found("loads", "dryness_verdict") == "not shown"


def test_the_range_comes_from_the_recipes_low_and_high() -> None:
    found = figures({"dry": 1.25})
    assert found("loads", "water_at_start_low") == 0.88
    assert found("loads", "moisture_left_low") == pytest.approx(1 - 1.2 / 1.25)  # 4 %
    assert found("loads", "moisture_left") == pytest.approx(0.20)
    assert found("loads", "moisture_left_high") == pytest.approx(1 - 0.8 / 1.25)  # 36 %


def test_two_weighings_within_a_step_of_the_scale_agree() -> None:
    found = figures(weights(1.06, 1.05), scale=[{"resolution": 0.01}])
    assert found("loads", "weight_change") == pytest.approx(0.01)
    assert found("loads", "change_allowed") == pytest.approx(0.01)
    assert [found("loads", name) for name in ("steady", "drifting")] == [True, False]


def test_what_went_back_in_is_judged_by_what_came_out_last() -> None:
    found = figures(
        weights(1.2, 1.15) | {"dry": 1.15},
        {"again": "load-1", "wet": 1.15, "dry": 1.04} | weights(1.042, 1.04),
    )
    assert found("loads", "dried_again", "load-1") is True
    assert found("loads", "dryness_open", "load-1") == "dried again"
    assert found("loads", "dryness_verdict", "load-1") == "dried again"
    assert [found("loads", "current", f"load-{n}") for n in (1, 2)] == [False, True]
    assert found("loads", "dryness_verdict", "load-2") == "dry"
    # 10 kg became 1.15 and then 1.04: 1 - 0.1 × 10 / 1.04.
    assert found("loads", "moisture_left", "load-2") == pytest.approx(1 - 1 / 1.04)


def test_flags_behind_a_verdict() -> None:
    found = figures({"water_activity": 0.7}, {"moisture_meter": 0.2}, weights(1.05, 1.05), {})

    def flags(*names: str) -> list[list[object]]:
        return [[found("loads", name, f"load-{n}") for n in (1, 2, 3, 4)] for name in names]

    assert flags("has_reading", "active", "metered_moist", "read_moist", "shown_dry") == [
        [True, True, False, False],
        [True, False, False, False],
        [False, True, False, False],
        [True, True, False, False],
        [False, False, True, False],
    ]
    assert flags("speaks_against", "dry_enough", "not_shown") == [
        [True, True, False, False],
        [False, False, True, False],
        [False, False, False, True],
    ]
    assert found("loads", "by_weight", "load-4") == WEIGHT
    assert found("loads", "reason_against", "load-1") == MOIST
    assert found("loads", "reason_missing", "load-3") == CONSTANT


# --- packs --------------------------------------------------------------------------------------

DRY, DOUBTFUL = {"water_activity": 0.24}, {"water_activity": 0.7}
OPEN: dict[str, Any] = {"dry": None}
BACK = {"again": "load-1", "wet": 1.05, "dry": 1.0}


def pack(*runs: int, absorber: float | None = None, **pack: Any) -> dict[str, Any]:
    return {
        "containers": [{"key": "tin", "absorber": absorber}],
        "packs": [{"key": "P", "product": "food", "container": "tin", "count": 4, **pack}],
        "draws": [{"pack": "P", "run": str(run)} for run in runs],
        "uses": [{"pack": "P", "count": 1, "purpose": "gift"}],
    }


@pytest.mark.parametrize(
    ("loads", "runs", "verdict"),
    [
        ([DRY], [1], "dry"),
        ([DRY, DRY], [1, 2], "dry"),
        ([{}], [1], "not shown"),
        ([DRY, {}], [1, 2], "not shown"),
        ([DRY, {}], [1], "dry"),
        ([DOUBTFUL], [1], "doubtful"),
        ([DRY, DOUBTFUL], [1, 2], "doubtful"),
        ([{}, DOUBTFUL], [1, 2], "doubtful"),
        ([DRY], [], "origin not named"),
        # Nothing is known yet of a run that is not done.
        ([OPEN], [1], "not shown"),
        ([DRY, OPEN], [1, 2], "not shown"),
        # The first drying does not speak for what went back in; the second does.
        ([DRY, BACK], [1], "not shown"),
        ([DRY, BACK | DRY], [2], "dry"),
        ([{}, BACK | DRY], [1, 2], "dry"),
        ([DRY, BACK | DOUBTFUL], [1, 2], "doubtful"),
    ],
)
def test_a_pack_is_as_dry_as_the_worst_behind_it(
    loads: list[dict[str, Any]], runs: list[int], verdict: str
) -> None:
    found = figures(*loads, **pack(*runs))
    assert found("packs", "dryness", "P") == verdict
    assert found("uses", "pack_dryness") == verdict


def test_another_product_in_the_run_does_not_count() -> None:
    made: dict[str, Any] = {
        "products": [FOOD, FOOD | {"key": "other"}],
        "lots": [{"key": "lot", "product": "food"}, {"key": "else", "product": "other"}],
        "runs": [{"key": "1"}],
    }
    found = figures(DRY, DOUBTFUL | {"run": "1", "lot": "else"}, **pack(1), **made)
    assert found("packs", "dryness", "P") == "dry"
    # The pack's product was not in the run that it names: nothing shows that it is dry.
    lots = [{"key": "lot", "product": "other"}]
    found = figures(DRY, **pack(1), **made | {"lots": lots})
    assert found("packs", "dryness", "P") == "not shown"


def test_steps_from_load_to_pack() -> None:
    found = figures(DRY, DOUBTFUL, {}, **pack(1, 2, 3))
    assert found("draws", "run_product", "2") == found("loads", "run_product", "load-2") == "2/food"
    assert found("draws", "run_place", "2") == found("loads", "run_place", "load-2") == 2
    assert [found("draws", "run_place", key) for key in "123"] == [1, 2, 3]
    counts = ("dry_loads", "doubtful_loads", "unshown_loads")
    assert [[found("draws", name, key) for key in "123"] for name in counts] == [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
    ]
    assert [
        found("packs", name) for name in ("dry_origin", "doubtful_origin", "unshown_origin")
    ] == [1, 1, 1]
    assert found("packs", "dryness_known") == "not shown"


def test_a_doubtful_pack_is_flagged_wherever_it_stands() -> None:
    """On every table that names packs, and beside every number of packs on the shelf."""
    # What was left in bulk names packs for the weight they took, and what went into a mix was
    # opened and has a dryness of its own: nobody finds one there.
    naming = [
        t.name
        for t in BOOK.tables.values()
        if "packs" in t.links.values() and t.name not in ("rest_steps", "mix_parts")
    ]
    assert {*naming} == {
        "eat_first", "draws", "uses", "market_packs", "counts", "absorber_needs", "trace",
        "recall",
    }  # fmt: skip
    container = {"key": "tin", "absorber": 300.0}
    packs = [
        {"key": name, "product": "food", "container": "tin", "count": 3, "net": 1.0, "date": 46000}
        for name in ("P", "Q")
    ]
    draws = [{"pack": "P", "run": "1"}, {"pack": "Q", "run": "2"}]
    found = figures(
        DRY, DOUBTFUL, products=[FOOD | {"best_by": 12.0}], season=[{"as_of": 46000}],
        containers=[container], absorbers=[{"key": "a", "oxygen": 100.0}],
        packs=packs, draws=draws, uses=[{"pack": "P", "count": 1}, {"pack": "Q", "count": 1}],
        counts=[{"pack": name, "date": 46000, "counted": 2} for name in "PQ"],
        markets=[{"key": "m", "date": 46000, "channel": "stall"}],
        market_packs=[{"market": "m", "pack": n, "took": 1, "back": 1} for n in "PQ"],
        plan=[{"product": "food", "container": "tin", "net": 1.0, "count": 9}],
    )  # fmt: skip
    for table in naming:
        cells = found.numbers.cells[table]
        assert dict(zip(cells["pack"], cells["pack_dryness"], strict=True)) == {
            "P": "dry",
            "Q": "doubtful",
        }, table
    assert [found("packs", "doubtful", name) for name in "PQ"] == [False, True]
    # Two of each are left; two of the four may not be dry.
    for table, shelf in (("prices", "on_hand"), ("plan", "on_shelf")):
        assert [found(table, name) for name in (shelf, "doubtful")] == [4, 2]
    printed = {
        (block.table.name, name)
        for sheet in SHEETS
        for block in sheet.blocks
        if isinstance(block, TableBlock)
        for group in block.groups
        if group.printed
        for name in group.names
    }
    flags = {(table, "pack_dryness") for table in naming}
    flags |= {("packs", "dryness"), ("loads", "dryness_verdict")}
    assert flags | {("prices", "doubtful"), ("plan", "doubtful")} <= printed


def failing(found: Figures) -> dict[object, object]:
    names = [f"{c.table.name}-{c.name}".replace("_", "-") for c in BOOK.checks]
    checks = found.numbers.cells["checks"]
    rows = zip(names, checks["failing"], checks["severity"], strict=True)
    return {
        name: severity
        for name, many, severity in rows
        if many and ("doubtful" in name or "dryness" in name)
    }


def test_doubtful_food_sealed_without_air_is_an_error() -> None:
    sealed = figures(DOUBTFUL, **pack(1, absorber=300.0))
    assert failing(sealed)["packs-doubtful-sealed"] == "error"
    assert sealed("packs", "airless") is True
    assert sealed("season", "verdict_of_all") == "Do not rely on it yet: there are errors"
    open_to_air = figures(DOUBTFUL, **pack(1))
    assert failing(open_to_air) == {
        "loads-doubtful-load": "caution",
        "packs-doubtful-packed": "caution",
    }
    assert failing(figures({}, **pack(1, absorber=300.0))) == {"packs-dryness-not-shown": "caution"}
    assert failing(figures(DRY, **pack(1, absorber=300.0))) == {}


# --- the cautions, wherever it is read ----------------------------------------------------------

SEALED = """
lots:
  - {id: t-1, product: turnip-cubes, date: 2025-09-01, weighed: 40 lb, price: 30 USD,
     prepped: 33 lb}
runs:
  - {id: r-1, started: 2025-09-02, duration: 30 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 16 lb, dry: 32 oz, dryness: {weights: [34 oz, 32 oz]}}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2025-09-05, container: can, count: 5, net: 4 oz,
     from: [r-1]}
"""
CAN = HEAD.replace(
    "containers:",
    "containers:\n  - {id: can, volume: 3236 mL, absorber: 300 mL, parts: {can: 2 USD}}",
)


def test_the_caution_is_in_what_check_says(tmp_path: Path) -> None:
    season(tmp_path, SEALED, CAN)
    said = command("check", tmp_path).output
    assert "Errors" in said and "pack P-1" in said
    assert "can carry botulism, which no look or smell reveals" in said
    assert "Put it back in, and weigh until the weight no longer falls." in said
    assert "Do not rely on it yet: there are errors." in said


def test_the_caution_is_in_the_workbook(tmp_path: Path) -> None:
    season(tmp_path, SEALED, CAN)
    content, problems = build(tmp_path)
    assert content is not None, problems
    (tmp_path / "season.xlsx").write_bytes(content)
    texts: dict[str, list[str]] = {}
    for (sheet, _), cell in cells(tmp_path / "season.xlsx").items():
        if isinstance(cell.value, str):
            texts.setdefault(sheet, []).append(cell.value)
    said = {sheet: " | ".join(each) for sheet, each in texts.items()}
    assert "Moist food sealed without oxygen can carry botulism" in said["Summary"]
    assert "Weight alone cannot prove dryness" in said["Summary"]
    assert "Do not rely on it yet: there are errors" in said["Summary"], "the master verdict"
    assert "can carry botulism, which no look or smell reveals" in said["Checks"]
    assert "P-1" in texts["Checks"], "the first row that fails"
    assert "doubtful" in texts["Packs"] and "doubtful" in texts["Loads"]
    assert "the weight still falls" in texts["Loads"]


def test_sound_food_raises_no_alarm(tmp_path: Path) -> None:
    # 4 oz in the can: void 3236 - 113.4 / 1.5 mL, oxygen 662 mL; two of 500 mL take it up.
    head = CAN.replace("absorber: 300 mL", "absorber: 1000 mL")
    found = season(tmp_path, SEALED.replace("34 oz, 32 oz", "32.1 oz, 32.0 oz"), head)
    assert found("packs", "dryness", "P-1") == "dry"
    said = command("check", tmp_path).output
    assert "Do not keep it sealed" not in said


def test_a_price_that_is_missing_hides_no_error(tmp_path: Path) -> None:
    found = season(tmp_path, SEALED.replace("price: 30 USD,\n", "\n"), CAN)
    assert found("season", "running_cost") is None
    assert found("season", "verdict_of_all") == "Do not rely on it yet: there are errors"


# --- the scale, and the limit beside each verdict ------------------------------------------------

# (weighings, step of the scale, last digit written) → verdict, reason with its limit, in ounces
OUNCE = 1 / 35.27396195  # kg: the avoirdupois ounce of 28.349523125 g
SCALES: list[tuple[float, float, float | None, float | None, str, str]] = [
    # Half a percent of 15 oz is 0.075 oz; a step of 0.1 oz is 0.67 % and may tell.
    (
        15.1,
        15.0,
        0.1,
        None,
        "dry",
        "constant weight (two weighings within 0.67 %; common practice)",
    ),
    (
        15.1,
        15.0,
        None,
        0.1,
        "dry",
        "constant weight (two weighings within 0.67 %; common practice)",
    ),
    (
        15.2,
        15.0,
        0.1,
        None,
        "doubtful",
        "the weight still falls (two weighings within 0.67 %; common practice)",
    ),
    # Half a percent of 52.1 oz is more than a step.
    (52.3, 52.1, None, 0.1, "dry", "constant weight (two weighings within 0.5 %; common practice)"),
    (
        52.6,
        52.1,
        None,
        0.1,
        "doubtful",
        "the weight still falls (two weighings within 0.5 %; common practice)",
    ),
    # A step of an ounce is more than 1 % of 15 oz: it proves nothing, but two steps are seen.
    (
        15.0,
        15.0,
        1.0,
        None,
        "not shown",
        "the scale is too coarse to tell (a step of at most 1 %; our convention)",
    ),
    (
        16.0,
        15.0,
        None,
        1.0,
        "not shown",
        "the scale is too coarse to tell (a step of at most 1 %; our convention)",
    ),
    (
        17.0,
        15.0,
        None,
        1.0,
        "doubtful",
        "the weight still falls (two weighings within 6.67 %; common practice)",
    ),
    # The scale's own step comes before what was written.
    (
        15.1,
        15.0,
        0.05,
        1.0,
        "doubtful",
        "the weight still falls (two weighings within 0.5 %; common practice)",
    ),
    # One percent itself is not too coarse.
    (10.1, 10.0, 0.1, None, "dry", "constant weight (two weighings within 1 %; common practice)"),
    (
        9.9,
        9.9,
        0.1,
        None,
        "not shown",
        "the scale is too coarse to tell (a step of at most 1 %; our convention)",
    ),
]


@pytest.mark.parametrize(("before", "last", "step", "written", "verdict", "reason"), SCALES)
def test_a_scale_can_only_tell_what_it_shows(
    before: float, last: float, step: float | None, written: float | None, verdict: str, reason: str
) -> None:
    load = {name: value * OUNCE for name, value in weights(before, last).items()}
    load |= {"dry": None, "wet": last * OUNCE * 9.5}
    if written is not None:
        load["weighing_step"] = written * OUNCE
    scale = [] if step is None else [{"resolution": step * OUNCE}]
    found = figures(load, **({"scale": scale} if scale else {}))
    names = ("dryness_verdict", "dryness_reason", "too_coarse")
    said = [found("loads", name) for name in names]
    assert said == [verdict, reason, (step or written or 0) > 0.01 * last + 1e-9]


@pytest.mark.parametrize(
    ("known", "reason"),
    [
        (
            {},
            "weigh again to constant weight, or measure "
            "(two weighings within 0.5 %; common practice)",
        ),
        (
            {"water_activity": 0.3},
            "a reading supports it (water activity at most 0.6; Beuchat 1981)",
        ),
        (
            {"water_activity": 0.7},
            "a reading says moist (water activity at most 0.6; Beuchat 1981)",
        ),
        (
            {"moisture_meter": 0.02},
            "a reading supports it (moisture at most 10 %; extension advice)",
        ),
        ({"moisture_meter": 0.2}, "a reading says moist (moisture at most 10 %; extension advice)"),
        (
            {"water_activity": 0.3, "moisture_meter": 0.2},
            "a reading says moist (moisture at most 10 %; extension advice)",
        ),
        (
            {"water_activity": 0.7, "moisture_meter": 0.2},
            "a reading says moist (water activity at most 0.6; Beuchat 1981)",
        ),
        (
            {"dry": 1.4},
            "the weights leave too much water (at most 10 % water left; extension advice)",
        ),
    ],
)
def test_each_verdict_names_its_limit(known: dict[str, Any], reason: str) -> None:
    found = figures(known)
    assert found("loads", "dryness_reason") == reason
    limits = ("limit_read", "limit_weighed", "limit_of_weights", "limit_against", "limit_for")
    texts = [found("loads", name) for name in limits]
    assert reason.endswith(f"({found('loads', 'dryness_limit')})")
    assert found("loads", "dryness_limit") in texts
    assert found("loads", "reason_weighed") == MISSING
    assert found("loads", "share_allowed") is None and found("loads", "step") is None
