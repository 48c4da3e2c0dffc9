"""What next, by hand: how much to buy, how many runs, until when, for how much; the queue."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from published.figures import Figures

from trade.small import HEAD, season

DAY = 46_000.0
"""A day to begin on."""
Row = dict[str, Any]

# By the recipe: 90 % water dried to 2 %: 0.98 / 0.10 = 9.8 to one; a fifth is lost in preparing.
FOOD = {
    "key": "food", "water": 0.90, "target_moisture": 0.02, "prep_yield": 0.8, "run_time": 30.0,
    "tray_loading": 5.0,
}  # fmt: skip
# Half a square metre of trays at 5 kg each: 2.5 kg, 5.51 lb.
BARN = {
    "key": "barn", "trays": 4, "tray_area": 0.125, "load_limit": 10.0, "mean_power": 800.0,
    "turnaround": 3.0,
}  # fmt: skip
TRAYS = 2.5 / 0.45359237
ROW: Row = {
    "product": "food", "container": "tin", "count": 10, "net": 4.0, "start": DAY, "dryer": "barn",
    "buy": "crate",
}  # fmt: skip


def figures(*plan: Row, **tables: Any) -> Figures:
    made: dict[str, Any] = {
        "rates": [{"electricity": 0.25}],
        "products": [FOOD],
        "nominal_weights": [
            {"product": "food", "container": "crate", "weight": 20.0},
            {"product": "food", "container": "box", "weight": 9.0},
        ],
        "dryers": [BARN, {"key": "shed"}],
        "upkeep": [{"dryer": "barn", "cost": 20.0, "every": 10}],
        "containers": [{"key": "tin", "spoiled": 0.05}, {"key": "jar"}],
        "parts": [{"container": "tin", "cost": 1.9, "uses": 1}],
        "plan": [{k: v for k, v in row.items() if v is not None} for row in plan],
    }
    return Figures("lb", "oz", **made | tables)


def of(found: Figures, *names: str, row: str = "1") -> list[object]:
    return [found("plan", name, row) for name in names]


# A season that went otherwise: 40 lb bought gave 30 lb, 20 of it dried in two runs to 40 oz, 10 lb
# wait. 12 lb and 8 lb a run; 26 h and 28 h. 80 USD, of which 20 / 30 in what was dried.
LOTS = [{"key": "a", "product": "food", "count": 1, "weighed": 40.0, "prepped_weighed": 30.0,
         "price_total": 75.0}]  # fmt: skip
RUNS = [
    {"key": "1", "dryer": "barn", "duration": 26.0, "energy": 14.0},
    {"key": "2", "dryer": "barn", "duration": 28.0, "energy": 14.0},
]
LOADS = [
    {"run": "1", "lot": "a", "wet": 12.0, "dry": 24.0},
    {"run": "2", "lot": "a", "wet": 8.0, "dry": 16.0},
]
MADE: dict[str, Any] = {"lots": LOTS, "runs": RUNS, "loads": LOADS}


# --- from the recipe ----------------------------------------------------------------------------


def test_before_the_first_lot_the_recipe_says() -> None:
    found = figures(ROW)
    assert of(found, "on_shelf", "count_left", "dried_needed") == [0, 10, 40]
    assert found("products", "ratio_by_recipe") == pytest.approx(9.8)
    # 40 oz × 9.8 = 392 oz, 24.5 lb; 30.625 lb to buy: two crates.
    names = ("to_dry", "prepped_needed", "buy_weight", "buy_count")
    assert of(found, *names) == pytest.approx([24.5, 24.5, 24.5 / 0.8, 2])
    # 5.51 lb a run: 4.45, so five runs of 33 h.
    names = ("tray_capacity", "run_weight_wanted", "run_weight")
    assert of(found, *names) == pytest.approx([TRAYS] * 3)
    assert of(found, "runs_needed", "time_each", "machine_time") == pytest.approx([5, 33, 165])
    assert of(found, "elapsed", "finish") == pytest.approx([165, DAY + 165 / 24])
    # 24 kWh at 0.25 and 2 of upkeep a run: 40; ten tins at 1.90 / 0.95.
    assert of(found, "energy_each", "run_cost", "bulk_by_recipe") == pytest.approx([24, 8, 40])
    assert of(found, "packaging_needed", "running_needed") == pytest.approx([20, 60])
    assert of(found, "bulk_needed") == [None]
    assert of(found, "running_basis") == ["energy and upkeep; no produce price yet"]


def test_the_dryers_limit_counts_where_it_is_less() -> None:
    found = figures(ROW, dryers=[BARN | {"load_limit": 5.0}])
    assert of(found, "run_weight", "runs_needed", "above_limit") == [5, 5, True]
    assert of(figures(ROW), "above_limit") == [False]
    unlimited = {k: v for k, v in BARN.items() if k != "load_limit"}
    assert of(figures(ROW, dryers=[unlimited]), "run_weight") == pytest.approx([TRAYS])


def test_another_box_to_buy_in() -> None:
    assert of(figures(ROW | {"buy": "box"}), "buy_count") == [4]  # 30.625 / 9
    # Without a name: the product data's first, before the first lot.
    found = figures(ROW | {"buy": None})
    assert of(found, "by_recipe", "buy_used", "buy_count") == ["food/crate", "crate", 2]
    # None at all: how many is unknown.
    assert of(figures(ROW | {"buy": None}, nominal_weights=[]), "buy_weight", "buy_count") == [
        pytest.approx(30.625),
        None,
    ]


def test_it_is_bought_in_what_it_was_last_bought_in_at_its_measured_weight() -> None:
    # The latest lot with a container came in boxes; of three boxes two were weighed, of another
    # lot's one its only one: 28 lb in three, 9.33 each. Lots by weight alone have no say.
    def lot(key: str, day: float | None, **more: Any) -> Row:
        return {"key": key, "product": "food", "date": day, **more}

    lots = [
        lot("a", DAY + 5, container="crate", count=1, weighed=22.0),
        lot("b", DAY + 9, container="box", count=3, weighed=18.0, weighed_count=2),
        lot("c", DAY + 7, container="box", count=1, weighed=10.0),
        lot("d", DAY + 8, container="box", count=4),
        lot("e", DAY + 20, weighed=50.0),
        lot("f", None, container="crate", count=2),
    ]
    lots = [{k: v for k, v in each.items() if v is not None} for each in lots]
    found = figures(ROW | {"buy": None}, lots=lots)
    recent = [found("lots", "recent", each["key"]) for each in lots]
    assert recent == [4, 1, 3, 2, None, 5]
    assert found("lots", "bought_on", "f") == 0 and found("lots", "bought_on", "e") is None
    assert found("lots", "recent_of", "b") == found("plan", "latest_of") == "food/1"
    assert found("lots", "containers_weighed", "b") == 2
    assert [found("lots", "container_weighed", key) for key in "bde"] == [True, False, False]
    assert of(found, "latest_lot", "buy_used", "buy_name") == ["b", "box", "food/box"]
    names = ("buy_weighed", "buy_weighed_count", "container_measured", "container_weight")
    assert of(found, *names) == pytest.approx([28, 3, 28 / 3, 28 / 3])
    assert of(found, "container_off") == [False]
    # A row that names it buys at the nominal weight, 9 lb; crates weighed 22 lb and not 20.
    assert of(figures(ROW | {"buy": "box"}, lots=lots), "container_weight") == [9]
    crate = figures(ROW, lots=lots)
    assert of(crate, "container_weight", "container_measured", "container_off") == [20, 22, False]
    lots[0]["weighed"] = 23.0
    assert of(figures(ROW, lots=lots), "container_off") == [True]


def test_each_dryer_by_its_own_runs_and_never_above_its_limit() -> None:
    """A dryer of 7 lb is not planned at what a larger one takes."""
    small = {"key": "shed", "load_limit": 7.0, "turnaround": 3.0, "trays": 4, "tray_area": 0.25}
    wide = BARN | {"load_limit": 30.0}
    shed = ROW | {"dryer": "shed", "count": 30}
    found = figures(ROW, shed, **MADE, dryers=[wide, small])
    assert of(found, "run_weight_measured", "run_weight") == pytest.approx([10, 10])
    # None of its own runs yet: its trays take 5 kg, 11.02 lb; it is planned at 7.
    assert of(found, "run_weight_measured", "run_weight", "above_limit", row="2") == [
        None,
        7,
        True,
    ]
    assert of(found, "dried_in", row="2") == ["food/shed"]


@pytest.mark.parametrize(
    ("left_out", "unknown"),
    [
        ("target_moisture", ["to_dry", "buy_count", "runs_needed", "finish"]),
        ("prep_yield", ["buy_weight", "buy_count"]),
        ("run_time", ["machine_time", "finish", "running_needed"]),
        ("tray_loading", ["run_weight", "runs_needed", "finish"]),
    ],
)
def test_what_the_recipe_leaves_out_is_unknown(left_out: str, unknown: list[str]) -> None:
    found = figures(ROW, products=[{k: v for k, v in FOOD.items() if k != left_out}])
    assert of(found, *unknown) == [None] * len(unknown)
    assert of(found, "count_left", "dried_needed") == [10, 40]


# --- from the season ----------------------------------------------------------------------------


def test_it_says_which_yield_the_weight_to_buy_and_the_cost_rest_on() -> None:
    """A finished lot that was not weighed as prepared: what it cost is by what was loaded, 20 of
    40 lb; what to buy by the recipe's 0.8, for no lot was weighed both ways."""
    lot = {k: v for k, v in LOTS[0].items() if k != "prepped_weighed"} | {"finished": True}
    found = figures(ROW | {"count": 30}, **MADE | {"lots": [lot]})
    assert found("lots", "prep_yield", "a") == 0.5
    assert found("products", "prep_yield_used") == 0.8
    assert of(found, "buy_basis", "running_basis") == [
        "yield by product data: no lot was weighed both ways",
        "this season's cost",
    ]
    weighed = figures(ROW | {"count": 30}, **MADE)
    assert of(weighed, "buy_basis") == ["yield of lots weighed as bought and prepared"]


def test_the_seasons_own_yields_come_before_the_recipe() -> None:
    found = figures(ROW, **MADE)
    assert found("lots", "both_weighed") is True
    yields = ("purchased_weighed", "prep_yield_measured", "prep_yield_used", "ratio_used")
    assert [found("products", name) for name in yields] == pytest.approx([40, 0.75, 0.75, 8])
    runs = ("run_time_measured", "run_time_used")
    assert [found("products", name) for name in runs] == pytest.approx([27, 27])
    assert of(found, "run_weight_measured") == pytest.approx([10])
    # 40 oz in bulk already: nothing to dry for ten tins of 4.
    assert of(found, "dried_needed", "prepped_needed", "buy_count") == [0, 0, 0]
    # But what waits is to be dried all the same: 10 lb, one run.
    assert of(found, "runs_needed", "machine_time") == pytest.approx([1, 30])


def test_bulk_and_what_waits_count_first() -> None:
    # Thirty tins of 4 oz: 120 less 40 in bulk, 80 oz; × 8 = 40 lb, of which 10 wait.
    found = figures(ROW | {"count": 30}, **MADE)
    names = ("dried_needed", "to_dry", "prepped_needed", "buy_weight", "buy_count")
    assert of(found, *names) == pytest.approx([80, 40, 30, 40, 2])
    # 40 lb at 10 a run.
    assert of(found, "run_weight", "runs_needed", "machine_time") == pytest.approx([10, 4, 120])
    # Bulk cost 50 for produce, 7 for energy, 4 for upkeep over 40 oz: 1.525 an ounce.
    assert of(found, "bulk_needed", "packaging_needed") == pytest.approx([80 * 1.525, 60])
    assert of(found, "running_needed") == pytest.approx([182])
    assert of(found, "running_basis") == ["this season's cost"]


def test_the_shelf_counts_first() -> None:
    packs = [
        {"key": "P", "product": "food", "container": "tin", "count": 6, "net": 4.0},
        {"key": "Q", "product": "food", "container": "tin", "count": 3, "net": 4.5},
        {"key": "R", "product": "food", "container": "jar", "count": 3, "net": 4.0},
        {"key": "S", "product": "food", "container": "tin", "count": 1, "net": 4.0,
         "carried_running": 5.0, "carried_full": 5.0},
    ]  # fmt: skip
    uses = [{"pack": "P", "count": 2, "purpose": "gift"}]
    found = figures(ROW, packs=packs, uses=uses)
    assert of(found, "priced_as", "on_shelf", "count_left") == ["food/tin/4", 5, 5]
    # There is more than enough: nothing is left, and not less than nothing.
    assert of(figures(ROW | {"count": 4}, packs=packs), "count_left") == [0]


def test_rows_of_one_product_share_what_is_there() -> None:
    """Bulk of 40 oz and 10 lb that wait count once, for the first row that wants them."""
    jars = ROW | {"container": "jar", "net": 8.0}
    found = figures(ROW | {"count": 6}, jars | {"count": 4}, jars | {"count": 5}, **MADE)
    # 24, 32 and 40 oz. Of the 40 in bulk the second row finds 16, the third none.
    rows = [of(found, "content_left", "bulk_left", "dried_needed", row=n) for n in "123"]
    assert rows == [[24, 40, 0], [32, 16, 16], [40, 0, 40]]
    # × 8: 8 lb and 20 lb to dry. Of the 10 that wait the second row takes 8, the third 2.
    names = ("to_dry", "waiting_left", "prepped_needed")
    rows = [of(found, *names, row=n) for n in "123"]
    assert rows == [[0, 10, 0], [8, 10, 0], [20, 2, 18]]
    assert of(found, "content_ahead", "to_dry_ahead", "wanted_ahead", row="3") == [56, 8, 10]
    # At 10 lb a run: what waits, in the first row; nothing more; then 18 lb. In all 28 to dry.
    assert [of(found, "waiting_here", "runs_needed", row=n) for n in "123"] == [
        [10, 1],
        [0, 0],
        [0, 2],
    ]
    # The same in one row asks for as much.
    whole = figures(ROW | {"count": 24}, **MADE)
    assert of(whole, "dried_needed", "prepped_needed", "runs_needed") == [56, 18, 3]


def test_rows_for_the_same_packs_share_the_shelf() -> None:
    packs = [{"key": "P", "product": "food", "container": "tin", "count": 5, "net": 4.0}]
    found = figures(*(ROW | {"count": n} for n in (3, 4, 2)), packs=packs)
    rows = [of(found, "on_shelf", "shelf_left", "count_left", row=n) for n in "123"]
    assert rows == [[5, 5, 0], [5, 2, 2], [5, 0, 2]]


def test_more_packed_than_dried_is_nothing_to_the_plan() -> None:
    """48 oz in jars of 40 that were dried: an error of the records, no row makes it up."""
    packs = [{"key": "P", "product": "food", "container": "jar", "count": 6, "net": 8.0}]
    found = figures(ROW | {"count": 30}, ROW, **MADE, packs=packs)
    assert of(found, "bulk_left", "dried_needed") == [0, 120]
    assert of(found, "bulk_left", "dried_needed", row="2") == [0, 40]


@pytest.mark.parametrize("left_out", ["net", "count"])
def test_after_a_row_that_is_unknown_rows_of_the_product_are_unknown(left_out: str) -> None:
    """It may take all that is on the shelf, in bulk and waiting, or nothing of it."""
    packs = [{"key": "P", "product": "food", "container": "tin", "count": 5, "net": 4.0}]
    jar = ROW | {"container": "jar"}
    found = figures(ROW | {left_out: None}, ROW, jar, **MADE, packs=packs)
    assert of(found, "shelf_left", "count_left", "bulk_left", row="2") == [None] * 3
    # A jar is no tin: how many are to be made is known, but not what is left in bulk for them.
    assert of(found, "shelf_left", "count_left", row="3") == [0, 10]
    names = ("bulk_left", "dried_needed", "waiting_left", "runs_needed", "buy_count")
    assert of(found, *names, row="3") == [None] * 5
    # Another product, and rows ahead of it, are not in doubt.
    later = figures(ROW, ROW | {left_out: None, "start": DAY + 1}, **MADE, packs=packs)
    assert of(later, "count_left", "bulk_left", "runs_needed") == [5, 20, 1]


def test_rows_take_by_their_start_and_then_as_written() -> None:
    packs = [{"key": "P", "product": "food", "container": "tin", "count": 5, "net": 4.0}]
    rows = [
        ROW | {"count": n, "start": start}
        for n, start in ((3, None), (4, DAY + 2), (2, DAY), (1, DAY + 2))
    ]
    found = figures(*rows, packs=packs)
    left = [of(found, "shelf_left", "count_left", row=n) for n in "1234"]
    assert left == [[0, 3], [3, 1], [5, 0], [0, 1]]
    # Hours from the first start; the row without one comes a day after the last.
    assert [found("plan", "turn", n) for n in "1234"] == [72, 48, 0, 48]
    assert [found("season", name) for name in ("plan_last_start", "plan_span")] == [DAY + 2, 48]
    assert [found("plan", "taken_ahead", n) for n in "1234"] == [7, 2, 0, 6]
    assert of(found, "packed_in", "nets_ahead", row="2") == ["food/tin", 4]
    # Where none has a start they come as they are written.
    found = figures(*(row | {"start": None} for row in rows), packs=packs)
    assert [found("plan", "shelf_left", n) for n in "1234"] == [5, 2, 0, 0]


def test_a_run_is_counted_once_however_many_loads_it_held() -> None:
    # One run with two loads of 8 lb together, one with 12: the mean is 10, not 9.33.
    loads = [LOADS[0], {"id": "x", "run": "2", "lot": "a", "wet": 5.0, "dry": 10.0},
             {"id": "y", "run": "2", "lot": "a", "wet": 3.0, "dry": 6.0}]  # fmt: skip
    found = figures(ROW, **MADE | {"loads": loads})
    assert [found("loads", "run_first", key) for key in ("1/a", "x", "y")] == [True, True, False]
    assert of(found, "run_weight_measured") == pytest.approx([10])
    assert found("products", "run_time_measured") == pytest.approx(27)
    assert [found("loads", name, "x") for name in ("run_hours", "run_weight")] == [28, 8]


def test_only_lots_weighed_both_ways_tell_the_prep_yield() -> None:
    lots = [*LOTS, {"key": "b", "product": "food", "count": 1, "weighed": 10.0},
            {"key": "c", "product": "food", "count": 1, "prepped_weighed": 9.0}]  # fmt: skip
    found = figures(ROW, **MADE | {"lots": lots})
    assert [found("lots", "both_weighed", key) for key in "abc"] == [True, False, False]
    assert found("products", "prep_yield_measured") == pytest.approx(0.75)


# --- until when ---------------------------------------------------------------------------------

# Five runs of 33 h in the barn: 165 h, 6.875 days.
LONG = 165 / 24
SHED = BARN | {"key": "shed"}


def finishes(*plan: Row) -> list[object]:
    found = figures(*plan, dryers=[BARN, SHED])
    return [found("plan", "finish", str(n)) for n in range(1, len(plan) + 1)]


def on(day: float, dryer: str = "barn", **more: Any) -> Row:
    return ROW | {"start": DAY + day, "dryer": dryer, **more}


@pytest.mark.parametrize(
    ("rows", "done"),
    [
        ([on(0), on(0)], [LONG, 2 * LONG]),
        # Each dryer has a queue of its own.
        ([on(0), on(0, "shed"), on(0)], [LONG, LONG, 2 * LONG]),
        # Another dryer that begins sooner moves nothing.
        ([on(5), on(0, "shed"), on(5)], [5 + LONG, LONG, 5 + 2 * LONG]),
        # A start while the dryer is still taken waits; a start after that does not.
        ([on(0), on(3), on(30)], [LONG, 2 * LONG, 30 + LONG]),
        # After a gap the queue goes on from the later start.
        ([on(0), on(30), on(31)], [LONG, 30 + LONG, 30 + 2 * LONG]),
        # By their starts, not as they are written.
        ([on(30), on(0)], [30 + LONG, LONG]),
        (
            [on(30), on(0), on(0, "shed"), on(34), on(3)],
            [30 + LONG, LONG, LONG, 30 + 2 * LONG, 2 * LONG],
        ),
    ],
)
def test_rows_on_one_dryer_follow_each_other(rows: list[Row], done: list[float]) -> None:
    assert finishes(*rows) == pytest.approx([DAY + each for each in done])


def test_steps_of_the_queue() -> None:
    found = figures(on(5), on(0, "shed"), on(5), dryers=[BARN, SHED])
    assert found("season", "plan_start") == DAY
    assert [found("plan", "time_before", key) for key in "123"] == pytest.approx([0, 0, 165])
    rows = found.numbers.cells["queue"]
    assert [*zip(rows["row"], rows["before"], strict=True)] == [
        ("1", "1"), ("1", "2"), ("1", "3"), ("2", "1"), ("2", "2"), ("2", "3"),
        ("3", "1"), ("3", "2"), ("3", "3"),
    ]  # fmt: skip
    assert rows["comes_before"] == [True, True, False, False, True, False, True, True, True]
    assert [n for n, way in enumerate(rows["in_its_way"]) if way] == [0, 4, 6, 8]
    # Hours ahead of it less those until its start: 0 - 120, 0 - 0, and 165 - 120.
    assert [each for each in rows["slack"] if each is not None] == pytest.approx(
        [-120, 0, -120, 45]
    )
    assert [found("plan", "slack", key) for key in "123"] == [-120, 0, -120]
    assert [found("plan", "time_until", key) for key in "123"] == pytest.approx([120, 0, 285])
    assert [found("plan", "begin", key) for key in "123"] == pytest.approx(
        [DAY + 5, DAY, DAY + 5 + LONG]
    )


def test_a_pace_is_kept_where_the_machine_can() -> None:
    # Five runs at two a week: 2.5 weeks. The machine's own time stays what it is.
    found = figures(ROW | {"pace": 2.0})
    assert of(found, "paced_time", "slot", "elapsed") == pytest.approx([84, 84, 2.5 * 168])
    assert of(found, "machine_time", "finish") == pytest.approx([165, DAY + 17.5])
    assert of(figures(ROW), "paced_time") == [None]
    # Five runs of 33 h take 165 h: more than six runs a week is faster than the machine.
    found = figures(ROW | {"pace": 6.0})
    assert of(found, "paced_time", "slot", "elapsed") == pytest.approx([28, 33, 165])


def test_without_a_start_there_is_no_end() -> None:
    assert of(figures(ROW | {"start": None}), "begin", "finish") == [None, None]


def test_as_a_user_writes_it(tmp_path: Path) -> None:
    head = HEAD + (
        "plan:\n"
        "  - {product: turnip-cubes, container: tin, count: 24, net: 4 oz, start: 2025-09-10,"
        " pace: 3 run/week}\n"
        "  - {product: turnip-cubes, container: tin, count: 6, net: 8 oz, start: 2025-09-10,"
        " buy: crate}\n"
    )
    found = season(tmp_path, "", head)
    assert found.numbers.cells["plan"]["key"] == ["plan-1", "plan-2"]
    assert found("plan", "dryer", "plan-1") == "barn", "the first dryer"
    assert found("plan", "buy_used", "plan-1") == "crate", "the recipe's first container"
    start = found("plan", "start", "plan-1")
    assert start == (date(2025, 9, 10) - date(1899, 12, 30)).days
    # The turnips' recipe has no moisture to aim for: how much to dry is unknown, and said so.
    assert found.of("plan", "plan-1", "dried_needed", "to_dry") == [96, None]
    assert "plan-running-unknown" in found.failing()


def test_what_waits_below_nothing_is_nothing_to_the_plan() -> None:
    """A scale that disagrees: more was loaded than was prepped."""
    found = Figures(
        products=[{"key": "food", "water": 0.9, "target_moisture": 0.02, "prep_yield": 0.8}],
        lots=[{"key": "a", "product": "food", "prepped_weighed": 4.0}],
        runs=[{"key": "r"}],
        loads=[{"run": "r", "lot": "a", "wet": 4.05, "dry": 0.5}],
        plan=[{"product": "food", "count": 2, "net": 1.0, "start": 46_000.0}],
    )
    assert found("products", "waiting") == pytest.approx(-0.05)
    assert found("plan", "waiting_here") == 0
