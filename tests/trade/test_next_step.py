"""What to do next, by hand: which check is named, and which row of the plan."""

from __future__ import annotations

from typing import Any

from published.figures import Figures

from reportgen.trade import BOOK

FOOD = {"key": "food", "name": "Food", "water": 0.90, "target_moisture": 0.02, "prep_yield": 0.8,
        "tray_loading": 5.0}  # fmt: skip
PLAN: dict[str, Any] = {
    "product": "food", "container": "tin", "count": 10, "net": 4.0, "start": 46_000.0,
    "dryer": "barn", "buy": "crate",
}  # fmt: skip


def figures(**tables: Any) -> Figures:
    made: dict[str, Any] = {
        "products": [FOOD],
        "nominal_weights": [{"product": "food", "container": "crate", "weight": 20.0}],
        "dryers": [{"key": "barn", "trays": 4, "tray_area": 0.125, "load_limit": 10.0}],
        "containers": [{"key": "tin"}],
    }
    return Figures("lb", "oz", **made | tables)


def step(found: Figures, name: str) -> object:
    return found("season", name)


def test_with_nothing_to_do_both_say_so() -> None:
    found = figures()
    assert step(found, "look_at") == "Nothing: all checks pass."
    assert step(found, "look_first") is None and step(found, "look_do") is None
    assert step(found, "plan_next") == "Nothing is planned."
    assert step(found, "plan_open") == 0


def test_a_plan_without_an_open_row_says_whether_all_of_it_is_made() -> None:
    left = {"key": "P", "product": "food", "container": "tin", "net": 4.0, "count": 10,
            "carried_running": 1.0, "carried_full": 1.0}  # fmt: skip
    made = figures(plan=[PLAN], packs=[left])
    assert made("season", "plan_done") == "Nothing: all that is planned is made."
    assert step(made, "plan_next") == "Nothing: all that is planned is made."
    # Of a row without a net weight nobody knows what is made already.
    open_ended = {k: v for k, v in PLAN.items() if k != "net"}
    found = figures(plan=[open_ended], packs=[left])
    assert found("plan", "unmade_unknown", "1") is True
    assert str(step(found, "plan_next")).startswith("Not known: a row of the plan lacks its count")


def test_the_next_row_of_the_plan_is_the_first_that_is_not_made() -> None:
    # 40 oz dried ask for 2.5 lb × 9.8 = 24.5 lb prepped, 30.6 lb bought: two crates of 20 lb; at
    # 5.51 lb a run (a quarter of a square metre at 5 kg) five runs.
    packs = [
        {
            "key": "P",
            "product": "food",
            "container": "tin",
            "net": 8.0,
            "count": 10,
            "carried_running": 1.0,
            "carried_full": 1.0,
        }
    ]  # left from last season: of no bulk
    made = {**PLAN, "net": 8.0}
    found = figures(plan=[made, PLAN], packs=packs)
    assert found("products", "called") == "Food"
    assert found("plan", "said_of_buying", "2") == " buy 2 × crate;"
    assert found("plan", "said_of_runs", "2") == " runs of the machine: 5"
    assert found("plan", "unmade", "1") is False and found("plan", "unmade", "2") is True
    assert step(found, "plan_next") == "Food: buy 2 × crate; runs of the machine: 5"
    assert step(found, "plan_open") == 1


def test_what_is_not_known_is_left_out_of_the_words() -> None:
    found = figures(plan=[{**PLAN, "buy": None}], nominal_weights=[])
    assert step(found, "plan_next") == "Food: runs of the machine: 5"
    assert step(figures(plan=[{**PLAN, "dryer": None}], nominal_weights=[]), "plan_next") == "Food:"


def test_an_error_is_named_before_a_caution_that_stands_higher() -> None:
    offer = {"key": "o", "product": "food", "date": 45_000.0, "net": 4.0, "price": 9.0}
    lot = {
        "key": "l",
        "product": "food",
        "date": 46_000.0,
        "weighed": 10.0,
        "price_total": 9.0,
        "container": "crate",
    }
    # The offer is a thousand days old.
    day = {"as_of": 46_000.0, "dollar_sized": True}
    found = figures(season=[day], offers=[offer], lots=[lot | {"prepped_weighed": 9.0}])
    assert found("season", "errors") == 0 and found("season", "failing") > 0
    doubt = step(found, "look_at")
    assert "older" in str(doubt) and step(found, "look_first") == "o"
    # Two pounds gave forty ounces: it took out no water either.
    load = {"run": "r", "lot": "l", "wet": 2.0, "dry": 40.0}
    wrong = figures(season=[day], offers=[offer], lots=[lot], runs=[{"key": "r"}], loads=[load])
    checks = wrong.numbers.cells["checks"]
    errors = [n for n, bad in enumerate(checks["fails_badly"]) if bad]
    assert {checks["key"][n] for n in errors} == {"runs-no-water-removed", "loads-dry-above-wet"}
    assert checks["fails"].index(True) < errors[0]
    assert step(wrong, "look_at") == "A run that is done and took out no water."
    assert step(wrong, "look_first") == "r"
    assert step(wrong, "look_do") == "Correct the weights: a run gives off water."


def test_a_text_among_numbers_is_told_before_what_it_may_have_caused() -> None:
    """It counts as missing, and other checks then blame what is right."""
    of_text, *others = BOOK.checks
    assert (of_text.table.name, of_text.severity) == ("typed", "error")
    assert any(each.severity == "error" for each in others)
