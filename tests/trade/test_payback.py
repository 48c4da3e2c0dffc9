"""When the machine has paid for itself, by hand; and a clear word where it never does."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

DAY = 46_000.0
Records = list[dict[str, Any]]

# Two runs of 8 kg to 1 kg, 4 in produce and 1 in energy a run; packed in two jars at nothing:
# 5 a kilogram running cost. Shops ask 30, of which half would have been bought: 15, so 10 saved.
BARN = {"key": "barn", "price": 600.0, "runs_before": 10, "runs_per_year": 73}


def lot(key: str) -> dict[str, Any]:
    return {"key": key, "product": "food", "count": 1, "prepped_weighed": 8.0, "price_total": 4.0}


def figures(**tables: Any) -> Figures:
    made: dict[str, Any] = {
        "rates": [{"electricity": 0.1}],
        "pricing": [{"would_buy": 0.5, "fees": 0.1}],
        "products": [{"key": "food"}],
        "dryers": [BARN],
        "containers": [{"key": "jar"}],
        "lots": [lot("a"), lot("b")],
        "runs": [
            {"key": "1", "dryer": "barn", "started": DAY, "duration": 30.0, "energy": 10.0},
            {"key": "2", "dryer": "barn", "started": DAY + 2, "duration": 36.0, "energy": 10.0},
        ],
        "loads": [
            {"run": "1", "lot": "a", "wet": 8.0, "dry": 1.0},
            {"run": "2", "lot": "b", "wet": 8.0, "dry": 1.0},
        ],
        "packs": [{"key": "P", "product": "food", "container": "jar", "count": 4, "net": 0.5}],
        "offers": [{"key": "o", "product": "food", "net": 1.0, "price": 30.0}],
    }
    return Figures(**made | tables)


def of(found: Figures, *names: str, key: str = "barn") -> list[object]:
    return [found("dryers", name, key) for name in names]


def test_by_what_shops_ask() -> None:
    found = figures()
    assert found("products", "running_per_packed") == pytest.approx(5)
    assert found("products", "shop_worth") == found("products", "worth") == 15
    assert found("products", "gain") == pytest.approx(10)
    assert [found("loads", "saving", key) for key in ("1/a", "2/b")] == pytest.approx([10, 10])
    assert of(found, "saved", "runs_this_season", "saving_per_run") == pytest.approx([20, 2, 10])
    # 600 / 10 = 60 runs, 12 of which are done; 48 at 73 a year are 240 days.
    names = ("payback_runs", "runs_done", "payback_left", "payback_time")
    assert of(found, *names) == pytest.approx([60, 12, 48, 240 * 24])
    # The last run ended at DAY + 2 and 36 h.
    assert found("season", "last_end") == DAY + 3.5
    assert of(found, "payback_date") == pytest.approx([DAY + 3.5 + 240])
    assert of(found, "payback_word") == ["on its way"]


def test_what_was_got_counts_where_it_was_sold() -> None:
    # Half a kilogram at 20, less a tenth: 36 a kilogram. What was given away has no price.
    uses = [{"pack": "P", "count": 1, "purpose": "stall", "price": 20.0},
            {"pack": "P", "count": 1, "purpose": "gift"},
            {"pack": "P", "count": 1, "purpose": "household"}]  # fmt: skip
    found = figures(uses=uses)
    assert found("uses", "got", "1") == pytest.approx(18)
    assert found("uses", "got", "2") is None
    totals = ("sales_got", "sales_weight", "sold_worth", "worth")
    assert [found("products", name) for name in totals] == pytest.approx([18, 0.5, 36, 36])
    assert of(found, "saving_per_run", "payback_runs") == pytest.approx([31, 600 / 31])


def test_where_nothing_is_saved_it_never_pays() -> None:
    for price in (10.0, 8.0):  # half of it is 5 and 4: as much as it cost, or less
        found = figures(offers=[{"key": "o", "product": "food", "net": 1.0, "price": price}])
        assert of(found, "saving_known", "payback_runs", "payback_left", "payback_date") == [
            None, None, None, None,
        ]  # fmt: skip
        assert of(found, "payback_word") == ["nothing is saved: it does not pay for itself"]


def test_what_has_paid_for_itself_has_nothing_left() -> None:
    found = figures(dryers=[BARN | {"price": 120.0}])
    assert of(found, "payback_runs", "payback_left", "payback_time") == pytest.approx([12, 0, 0])
    assert of(found, "payback_word") == ["it has paid for itself"]
    assert of(found, "payback_date") == pytest.approx([DAY + 3.5])
    # It did so six runs ago: none are left, and not fewer than none.
    found = figures(dryers=[BARN | {"price": 60.0}])
    assert of(found, "payback_runs", "payback_left", "payback_time") == pytest.approx([6, 0, 0])
    assert of(found, "payback_date") == pytest.approx([DAY + 3.5])


@pytest.mark.parametrize(
    ("left_out", "unknown", "known"),
    [
        ("price", ["payback_runs", "payback_left", "payback_date"], ["saving_per_run"]),
        ("runs_per_year", ["payback_time", "payback_date"], ["payback_left"]),
        ("runs_before", [], ["payback_left", "payback_date"]),
    ],
)
def test_what_is_left_out(left_out: str, unknown: list[str], known: list[str]) -> None:
    found = figures(dryers=[{k: v for k, v in BARN.items() if k != left_out}])
    assert of(found, *unknown) == [None] * len(unknown)
    assert None not in of(found, *known)
    if left_out == "runs_before":
        assert of(found, "runs_done", "payback_left") == pytest.approx([2, 58])


def test_without_a_price_to_compare_with_nothing_is_known() -> None:
    found = figures(offers=[])
    assert of(found, "saving_per_run", "payback_runs", "payback_known") == [None, None, None]
    (word,) = of(found, "payback_word")
    assert str(word).startswith("not known yet: no run is done, or something dried lacks")
    idle = figures(runs=[], loads=[])
    assert of(idle, "runs_this_season", "saving_per_run") == [0, None]


def test_each_dryer_by_its_own_loads() -> None:
    shed = {"key": "shed", "price": 1000.0}
    runs: Records = [
        {"key": "1", "dryer": "barn", "started": DAY, "ended": DAY + 1, "energy": 10.0},
        {"key": "2", "dryer": "shed", "started": DAY, "duration": 24.0, "energy": 10.0},
        {"key": "3", "dryer": "shed", "started": DAY + 9, "duration": 24.0},
    ]
    loads: Records = [
        {"run": "1", "lot": "a", "wet": 8.0, "dry": 1.5},
        {"run": "2", "lot": "b", "wet": 4.0, "dry": 0.5},
        {"run": "3", "lot": "b", "wet": 4.0},
    ]
    found = figures(dryers=[BARN, shed], runs=runs, loads=loads)
    # 4 + 2 for produce and 2 for energy over 2 kg; the run that is not done does not count.
    assert found("products", "running_per_packed") == pytest.approx(4)
    assert [found("loads", "dryer", key) for key in ("1/a", "2/b")] == ["barn", "shed"]
    assert of(found, "saving_per_run", "runs_this_season") == pytest.approx([16.5, 1])
    assert of(found, "saving_per_run", "payback_runs", key="shed") == pytest.approx(
        [5.5, 1000 / 5.5]
    )
    assert [found("runs", "end", key) for key in "123"] == [DAY + 1, DAY + 1, DAY + 10]


def test_what_went_back_in_is_not_saved_twice() -> None:
    # 1.2 kg came out, went back in and came out as 1 kg: the dryer gave 1 kg, not 2.2.
    loads = [
        {"run": "1", "lot": "a", "wet": 8.0, "dry": 1.2},
        {"run": "2", "lot": "a", "again": "1/a", "wet": 1.2, "dry": 1.0},
    ]
    found = figures(loads=loads)
    weights = [found("loads", "weight_gained", key) for key in ("1/a", "2/a")]
    assert weights == pytest.approx([1.2, -0.2])
    gain = found("products", "gain")
    assert isinstance(gain, float)
    assert of(found, "saved", "saving_per_run") == pytest.approx([gain, gain / 2])
