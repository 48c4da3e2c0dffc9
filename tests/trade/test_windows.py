"""What an hour brings, by hand and hour by hour: as long and as much as produce is to be had,
closed days, weeks and dryers, one more dryer."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil
from pathlib import Path
from random import Random
from typing import Any

import pytest
from published.figures import Figures

from trade.hour_by_hour import Lived, Row, live
from trade.small import HEAD, season

DAY = 46_003
"""A Friday."""
# All in pounds: one of dried takes ten of prepped, half is lost in preparing, a run holds ten.
FOOD = {"key": "food", "water": 0.9, "target_moisture": 0.0, "prep_yield": 0.5, "run_time": 21.0,
        "tray_loading": 50.0}  # fmt: skip
SLOW = FOOD | {"key": "slow", "run_time": 33.0}
BARN = {"key": "barn", "trays": 4, "tray_area": 0.5, "load_limit": 10.0, "turnaround": 3.0}
SHED = BARN | {"key": "shed", "turnaround": 7.0}
TABLES: dict[str, Any] = {
    "products": [FOOD, SLOW],
    "nominal_weights": [
        {"product": "food", "container": "lug", "weight": 28.0},
        {"product": "food", "container": "sack", "weight": 50.0},
    ],
    "dryers": [BARN, SHED],
    "containers": [{"key": "tin"}],
}


def figures(*plan: Row, closed: Any = (), **more: Any) -> Figures:
    rows = [
        {"product": "food", "container": "tin", "net": 1.0, "dryer": "barn", "start": DAY} | row
        for row in plan
    ]
    shut = [{"dryer": d, "from_day": first, "to_day": last} for d, first, last in closed]
    return Figures("lb", "lb", plan=rows, closed=shut, **TABLES | more)


def of(found: Figures, *names: str, row: str = "1") -> list[object]:
    """Without the last digits, in which fractions of ten differ."""
    values = (found("plan", name, row) for name in names)
    return [round(each, 9) if isinstance(each, float) else each for each in values]


# --- as long as it is to be had -------------------------------------------------------------------


def test_runs_that_end_by_the_end_of_the_day_fit() -> None:
    # Six runs of 24 h from the midnight of day 0: four end by the end of day 3, the fourth with it.
    found = figures({"count": 6, "until": DAY + 3})
    names = ("runs_needed", "runs_fit", "runs_over", "weight_over", "finish")
    assert of(found, *names) == pytest.approx([6, 4, 2, 20, DAY + 6])
    # Without a day on which it is gone nothing is known of it, nor without a start.
    assert of(figures({"count": 6}), "runs_fit", "runs_over", "weight_over") == [None] * 3
    assert of(figures({"count": 6, "until": DAY, "start": None}), "runs_fit") == [None]
    # All fit, and none does: the day before the first run would end.
    assert of(figures({"count": 6, "until": DAY + 5}), "runs_over", "weight_over") == [0, 0]
    slow = {"product": "slow", "count": 6, "until": DAY}
    assert of(figures(slow), "runs_fit", "runs_over", "weight_over") == [0, 6, 60]


def test_the_last_run_is_not_full() -> None:
    # 5.5 lb are 55 lb prepped, five and a half runs; three fit: 25 lb are over, not 30.
    found = figures({"count": 11, "net": 0.5, "until": DAY + 2})
    assert of(found, "to_run", "runs_needed", "runs_fit", "weight_over") == [55, 6, 3, 25]


def test_a_pace_counts_from_run_to_run() -> None:
    # Two a week: a run every 84 h. The first ends in the middle of day 3.
    found = figures({"count": 3, "pace": 2.0, "until": DAY + 3})
    assert of(found, "slot", "elapsed", "runs_fit") == [84, 252, 1]
    assert of(figures({"count": 3, "pace": 2.0, "until": DAY + 2}), "runs_fit") == [0]


def test_a_row_keeps_its_dryer_for_all_its_runs() -> None:
    # The second begins on day 6, when it is gone, though only four of the first's runs fit.
    found = figures({"count": 6, "until": DAY + 3}, {"count": 2, "until": DAY + 5})
    assert [of(found, "begin", "runs_fit", row=n) for n in "12"] == [[DAY, 4], [DAY + 6, 0]]


# --- as much as is to be had ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("most", "bought"),
    [
        ({"at_most": 2.0, "at_most_of": "lug"}, 56.0),
        ({"at_most": 2.0}, 56.0),  # what it is bought in: the recipe's first
        ({"at_most": 1.0, "at_most_of": "sack"}, 50.0),
        ({"at_most_weight": 60.0}, 60.0),
    ],
)
def test_no_more_is_bought_and_dried_than_is_to_be_had(most: Row, bought: float) -> None:
    """What is needed stays: 6 lb, 60 prepped, 120 bought. Half of what is bought is prepped."""
    found = figures({"count": 6, **most})
    assert of(found, "dried_needed", "prepped_needed") == [6, 60]
    names = ("most_bought", "prepped_planned", "buy_weight", "to_run")
    assert of(found, *names) == pytest.approx([bought, bought / 2, bought, bought / 2])
    dried = bought / 20
    assert of(found, "short", "dried_planned") == pytest.approx([6 - dried, dried])
    assert of(found, "count_short") == [6 - int(dried)]
    assert of(found, "runs_needed", "buy_count") == [3, ceil(bought / 28)]
    # A cap above what is needed changes nothing, and leaves nothing short.
    roomy = figures({"count": 2, **most})
    assert of(roomy, "prepped_planned", "short", "count_short") == [20, 0, 0]


def test_where_a_container_is_not_known_neither_is_how_much_there_is() -> None:
    found = figures({"count": 6, "at_most": 2.0, "at_most_of": "barrel"})
    assert of(found, "prepped_planned", "runs_needed", "short") == [None] * 3


def test_what_will_be_made_is_what_it_costs() -> None:
    """1 lb at 8 in bulk less than the 3 that are needed, and a tin less."""
    lots = [{"key": "a", "product": "food", "prepped_weighed": 10.0, "weighed": 20.0,
             "price_total": 8.0}]  # fmt: skip
    runs = [{"key": "r", "dryer": "barn", "duration": 21.0, "energy": 0.0}]
    loads = [{"run": "r", "lot": "a", "wet": 10.0, "dry": 1.0}]
    more = {"lots": lots, "runs": runs, "loads": loads, "rates": [{"electricity": 0.0}],
            "parts": [{"container": "tin", "cost": 2.0, "uses": 1}]}  # fmt: skip
    # 1 lb is in bulk: 3 are still to be dried of the 4. 40 lb leave 2 of them.
    found = figures({"count": 4, "at_most_weight": 40.0}, **more)
    assert of(found, "dried_needed", "dried_planned", "count_short") == [3, 2, 1]
    names = ("count_filled", "bulk_needed", "packaging_needed", "running_needed")
    assert of(found, *names) == pytest.approx([3, 16, 6, 22])


# --- closed days ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("start", "closed", "begin", "finish", "within"),
    [
        # Two runs of 24 h. Closed days before it, after it, and of the other dryer are nothing.
        (0, (-3, -1), 0, 2, None),
        (0, (2, 5), 0, 2, None),
        # Between the runs, and in the middle of one: it goes on after them.
        (0, (1, 3), 0, 5, 72),
        # At its start: it begins after them.
        (0, (-1, 3), 4, 6, None),
        (2, (0, 5), 6, 8, None),
    ],
)
def test_closed_days_are_out_of_the_clock(
    start: int, closed: tuple[int, int], begin: int, finish: int, within: float | None
) -> None:
    days = [("barn", DAY + closed[0], DAY + closed[1]), ("shed", DAY, DAY + 9)]
    found = figures({"count": 2, "start": DAY + start}, closed=days)
    assert of(found, "begin", "finish") == pytest.approx([DAY + begin, DAY + finish])
    assert of(found, "closed_within") == [within]


def test_steps_of_the_clock() -> None:
    """Closed on days 2 and 3 and on day 8; a row from day 3, three runs of 36 h."""
    found = figures(
        {"count": 1},
        {"product": "slow", "count": 3, "start": DAY + 3, "until": DAY + 8},
        closed=[("barn", DAY + 8, DAY + 8), ("barn", DAY + 2, DAY + 3)],
    )
    names = ("closes", "opens", "hours", "hours_before", "open_at", "just_before", "just_after",
             "just_on")  # fmt: skip
    minute = pytest.approx(1 / 60, abs=1e-9)
    shown = [[found("closed", name, row) for name in names] for row in "12"]
    for row in shown:
        *steps, before, after, on = row
        assert [steps[4] - before, after - steps[4], on - steps[0]] == [minute] * 3
    assert [row[:5] for row in shown] == [[192, 216, 24, 48, 144], [48, 96, 48, 0, 48]]
    names = ("starts", "closed_since", "opened_since", "open_start", "open_begin",
             "closed_by_begin", "open_finish", "closed_by_finish")  # fmt: skip
    # Day 3 is closed since day 2, a day ago: 48 open hours. Until day 9, 168 h and 24 h.
    assert of(found, *names, row="2") == [72, 24, 0, 48, 48, 48, 156, 72]
    assert of(found, "begin", "finish", "closed_within", row="2") == [DAY + 4, DAY + 9.5, 24]
    # Gone at the end of day 8: 216 h, less 168 + 24 since it closed, and 120 + 0 since it opened.
    names = ("gone", "closed_since_gone", "opened_since_gone", "open_gone", "runs_fit")
    assert of(found, *names, row="2") == [216, 192, 120, 144, 2]
    assert of(found, "limited", "goes", row="2") == [False, True]


def test_a_closed_time_half_written_counts_as_none() -> None:
    found = figures({"count": 2}, closed=[("barn", DAY, None), ("barn", None, DAY + 3)])
    assert of(found, "begin", "finish") == [DAY, DAY + 2]
    assert [found("closed", "half_written", row) for row in "12"] == [True, True]


# --- weeks and dryers -----------------------------------------------------------------------------


def test_weeks_begin_on_monday() -> None:
    found = figures({"count": 2, "until": DAY + 3}, {"count": 9, "dryer": "shed"})
    # The Friday's Monday is four days before it.
    assert date(1899, 12, 30) + timedelta(DAY) == date(2025, 12, 12)
    assert date(2025, 12, 12).strftime("%A") == "Friday"
    assert found("season", "plan_week") == DAY - 4
    for ahead in range(7):
        start = DAY + 3 + ahead
        assert figures({"count": 1, "start": start})("season", "plan_week") == DAY + 3
    rows = found.numbers.cells["weeks"]
    assert rows["called"][:3] == ["barn 1", "barn 2", "barn 3"]
    assert rows["week"][:2] == [DAY - 4, DAY + 3]
    # The shed does nine runs of 28 h from Friday: 72 h until Monday, 168 and 12 after it.
    shed = [n for n, dryer in enumerate(rows["dryer"]) if dryer == "shed"]
    assert [rows["taken"][n] for n in shed[:4]] == pytest.approx([72, 168, 12, 0])
    assert [rows["free"][n] for n in shed[:3]] == pytest.approx([96, 0, 156])
    assert [rows["later"][n] for n in shed[-2:]] == [False, True]
    assert rows["free"][shed[-1]] is None, "after the last week there is no end"
    assert found("dryers", "hours_planned", "shed") == pytest.approx(252)
    assert found("dryers", "weeks_listed", "shed") == len(shed)
    assert found("season", "by_the_week") is True


def test_a_plan_that_says_nothing_of_it_has_no_weeks() -> None:
    found = figures({"count": 2})
    assert found.numbers.cells["weeks"]["key"] == []
    assert found("season", "by_the_week") is False


# --- what does not fit, in money; one more dryer -------------------------------------------------

# One run of 10 lb gave 1 lb, kept, that a shop would have sold for 30; its produce cost 8.
MADE: dict[str, Any] = {
    "season": [{"as_of": DAY}],
    "rates": [{"electricity": 0.0}],
    "pricing": [{"would_buy": 1.0}],
    "lots": [{"key": "a", "product": "food", "prepped_weighed": 10.0, "price_total": 8.0}],
    "runs": [{"key": "r", "dryer": "barn", "duration": 21.0, "energy": 0.0}],
    "loads": [{"run": "r", "lot": "a", "wet": 10.0, "dry": 1.0}],
    "packs": [{"key": "P", "product": "food", "container": "tin", "count": 1, "net": 1.0}],
    "offers": [{"key": "o", "product": "food", "net": 1.0, "price": 30.0}],
}


def test_what_does_not_fit_would_have_earned() -> None:
    """7 more than the one on the shelf: four runs fit, 30 lb are over, 3 dried at 30 less 8."""
    found = figures({"count": 8, "until": DAY + 3}, **MADE)
    assert of(found, "runs_fit", "weight_over", "earned_over") == [4, 30, 66]
    assert found("another", "runs_more") is None
    # With a second barn two runs a day: eight places for seven runs.
    found = figures(
        {"count": 8, "until": DAY + 3}, **MADE, another=[{"like": "barn", "price": 660.0}]
    )
    names = ("turns_of_two", "elapsed_of_two", "before_of_two", "slack_of_two", "until_of_two",
             "done_by_two", "turns_fit", "fit_of_two", "over_of_two", "runs_more",
             "earned_more")  # fmt: skip
    assert of(found, *names) == [4, 96, 0, 0, 0, 96, 4, 7, 0, 3, 66]
    names = ("runs_more", "earned_year", "earned_per_run", "payback_runs", "payback_years")
    assert [found("another", name) for name in names] == pytest.approx([3, 66, 22, 30, 10])
    assert found("season", "shared_by_two") is True
    # Beside the shed it would do nothing of this; where nothing more fits it earns nothing.
    found = figures({"count": 8, "until": DAY + 3}, **MADE, another=[{"like": "shed"}])
    assert of(found, "shared_by_two", "runs_more") == [False, None]
    found = figures(
        {"count": 3, "until": DAY + 3}, **MADE, another=[{"like": "barn", "price": 9.0}]
    )
    names = ("runs_more", "earned_year", "payback_runs")
    assert [found("another", name) for name in names] == [0, 0, None]


# --- hour by hour ---------------------------------------------------------------------------------


def made_up(rng: Random) -> tuple[list[Row], list[tuple[str, int, int]]]:
    """A plan, and closed days that do not overlap."""
    rows = []
    for _ in range(rng.randint(1, 6)):
        start = rng.randint(0, 30)
        rows.append({
            "dryer": rng.choice(("barn", "shed")), "product": rng.choice(("food", "slow")),
            "start": start, "until": rng.choice((None, start + rng.randint(0, 20))),
            "pace": rng.choice((None, None, 2.0, 3.0, 6.0)), "count": rng.randint(0, 9),
            "most": rng.choice((None, None, rng.randint(1, 150))),
        })  # fmt: skip
    closed = []
    for dryer in ("barn", "shed"):
        day = rng.randint(-4, 6)
        while rng.random() < 0.7:
            last = day + rng.randint(0, 9)
            closed.append((dryer, day, last))
            day = last + rng.randint(1, 12)
    rng.shuffle(closed)
    return rows, closed


def worked_out(rows: list[Row]) -> tuple[list[Row], list[float]]:
    """Runs and slots by a pencil, and the weight that goes on the trays. No row finds anything at
    hand, so each makes all it wants."""
    weights = [min(10 * row["count"], row["most"] / 2 if row["most"] else 1e9) for row in rows]
    turnaround = {"barn": 3, "shed": 7}
    found = [
        row
        | {
            "runs": ceil(weight / 10),
            "slot": max(
                {"food": 21, "slow": 33}[row["product"]] + turnaround[row["dryer"]],
                round(168 / row["pace"]) if row["pace"] else 0,
            ),
        }
        for row, weight in zip(rows, weights, strict=True)
    ]
    return found, weights


@pytest.mark.parametrize("seed", range(60))
def test_a_plan_is_what_it_is_hour_by_hour(seed: int) -> None:
    rows, days = made_up(Random(seed))
    lived_by, weights = worked_out(rows)
    shut = {(dryer, day) for dryer, first, last in days for day in range(first, last + 1)}
    one, two = live(lived_by, shut), live(lived_by, shut, side_by_side=2)
    found = figures(
        *({"product": row["product"], "dryer": row["dryer"], "count": row["count"],
           "start": DAY + row["start"], "pace": row["pace"], "at_most_weight": row["most"],
           "until": None if row["until"] is None else DAY + row["until"]} for row in rows),
        closed=[(dryer, DAY + first, DAY + last) for dryer, first, last in days],
        another=[{"like": "barn"}],
    )  # fmt: skip
    more = 0
    for n, row in enumerate(lived_by):
        at = {"row": f"{n + 1}"}
        assert of(found, "runs_needed", "slot", **at) == [row["runs"], row["slot"]]
        assert of(found, "begin", "finish", **at) == pytest.approx(
            [DAY + one.begin[n] / 24, DAY + one.finish[n] / 24], abs=1e-6
        )
        if row["until"] is None:
            assert of(found, "runs_fit", "runs_over", "weight_over", **at) == [None] * 3
            continue
        fit, fit_two = one.fit[n], two.fit[n]
        over = max(weights[n] - 10 * fit, 0)
        assert of(found, "runs_fit", "runs_over", **at) == [fit, row["runs"] - fit]
        assert of(found, "weight_over", "fit_of_two", **at) == pytest.approx([over, fit_two])
        assert of(found, "over_of_two", **at) == pytest.approx([max(weights[n] - 10 * fit_two, 0)])
        more += (fit_two - fit) * (row["dryer"] == "barn")
    shared = any(row["until"] is not None and row["dryer"] == "barn" for row in rows)
    assert found("another", "runs_more") == (more if shared else None)
    _weeks_agree(found, one, shut)


def _weeks_agree(found: Figures, lived: Lived, shut: set[tuple[str, int]]) -> None:
    rows = found.numbers.cells["weeks"]
    for at, dryer in enumerate(rows["dryer"]):
        taken, first = lived.taken.get(dryer, set()), int(rows["week"][at] - DAY)
        if rows["later"][at]:
            assert rows["taken"][at] == pytest.approx(len([h for h in taken if h >= 24 * first]))
            continue
        closed = 24 * len([d for d in range(first, first + 7) if (dryer, d) in shut])
        hours = len([h for h in taken if first <= h // 24 < first + 7])
        shown = [rows[name][at] for name in ("taken", "closed_hours", "free")]
        assert shown == pytest.approx([hours, closed, 168 - hours - closed], abs=1e-6)


# --- as a user writes it --------------------------------------------------------------------------


def test_as_a_user_writes_it(tmp_path: Path) -> None:
    head = HEAD + (
        "plan:\n"
        "  - {product: turnip-cubes, container: tin, count: 24, net: 4 oz, start: 2025-09-10,\n"
        "     until: 2025-09-20, at_most: 6 crate}\n"
        "  - {product: turnip-cubes, container: tin, count: 6, net: 8 oz, start: 2025-09-10,\n"
        "     at_most: 80 lb}\n"
        "  - {product: turnip-cubes, container: tin, count: 6, net: 8 oz, at_most: 2.5}\n"
        "closed: [{from: 2025-09-12, to: 2025-09-14, note: away}]\n"
        "another: {like: barn, price: 2400 USD}\n"
    )
    found = season(tmp_path, "", head)
    assert found.of("plan", "plan-1", "at_most", "at_most_of", "at_most_weight") == [
        6,
        "crate",
        None,
    ]
    assert found.of("plan", "plan-2", "at_most", "at_most_of", "at_most_weight") == [None, None, 80]
    assert found.of("plan", "plan-3", "at_most", "at_most_of", "most_bought") == [2.5, None, 50]
    assert found.of("closed", "closed-1", "dryer", "hours") == ["barn", 72], "the only dryer"
    assert found("another", "price") == 2400
