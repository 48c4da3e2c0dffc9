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
    assert of(found, "gained", "paid_beside") == pytest.approx([20, 0])
    assert found("products", "gain") == pytest.approx(10)
    assert [found("loads", "saving", key) for key in ("1/a", "2/b")] == pytest.approx([10, 10])
    assert of(found, "saved", "runs_this_season", "saving_per_run") == pytest.approx([20, 2, 10])
    # 600 / 10 = 60 runs, 12 of which are done; 48 at 73 a year are 240 days.
    names = ("payback_runs", "runs_done", "payback_left", "runs_to_go", "payback_time")
    assert of(found, *names) == pytest.approx([60, 12, 48, 48, 240 * 24])
    # The last run ended at DAY + 2 and 36 h.
    assert found("season", "last_end") == DAY + 3.5
    assert of(found, "payback_date") == pytest.approx([DAY + 3.5 + 240])
    assert of(found, "payback_word") == ["on its way"]


def test_what_was_got_counts_for_what_was_sold_alone() -> None:
    # Half a kilogram at 20, less a tenth: 18. The gift, the meal and the jar left: 1.5 kg at 15.
    uses = [
        {"pack": "P", "count": 1, "channel": "stall", "price": 20.0},
        {"pack": "P", "count": 1, "purpose": "gift"},
        {"pack": "P", "count": 1, "purpose": "household"},
    ]
    found = figures(uses=uses)
    assert found("uses", "got", "1") == pytest.approx(18)
    assert found("uses", "got", "2") is None
    totals = ("sales_got", "sold_weight", "kept_weight", "instead", "worth")
    assert [found("products", name) for name in totals] == pytest.approx(
        [18, 0.5, 1.5, 22.5, 20.25]
    )
    assert of(found, "saving_per_run", "payback_runs") == pytest.approx([15.25, 600 / 15.25])


def test_what_was_paid_beside_is_borne_by_dried_weight() -> None:
    # 10 for a permit, 2 days at 3, 4 h of packing at 1, paid: 20, half of it to each kilogram. What
    # no money leaves for is not in it.
    found = figures(
        overheads=[{"item": "permit", "cost": 10.0}, {"item": "shed", "cost": 99.0, "paid": False}],
        pricing=[{"would_buy": 0.5, "fees": 0.1, "stall": 3.0, "days": 2.0}],
        rates=[{"electricity": 0.1, "labor": 1.0, "labor_paid": True}],
        packs=[{"key": "P", "product": "food", "container": "jar", "count": 4, "net": 0.5,
                "labor": 4.0}],
    )  # fmt: skip
    assert of(found, "gained", "dried", "paid_beside", "saved") == pytest.approx([20, 2, 20, 0])
    assert of(found, "payback_word") == ["nothing is saved: it does not pay for itself"]
    unpaid = figures(rates=[{"electricity": 0.1, "labor": 1.0}])
    assert of(unpaid, "paid_beside", "saved") == pytest.approx([0, 20])


def test_where_nothing_is_saved_it_never_pays() -> None:
    for price in (10.0, 8.0):  # half of it is 5 and 4: as much as it cost, or less
        found = figures(offers=[{"key": "o", "product": "food", "net": 1.0, "price": price}])
        assert of(found, "saving_known", "payback_runs", "payback_left", "payback_date") == [
            None, None, None, None,
        ]  # fmt: skip
        assert of(found, "payback_word") == ["nothing is saved: it does not pay for itself"]


def test_what_has_paid_for_itself_has_nothing_left() -> None:
    found = figures(dryers=[BARN | {"price": 120.0}])
    assert of(found, "payback_runs", "payback_left") == pytest.approx([12, 0])
    assert of(found, "payback_word") == ["already paid for"]
    assert of(found, "payback_time", "payback_date") == [None, None]
    # It did so six runs ago: none are left, and not fewer than none.
    found = figures(dryers=[BARN | {"price": 60.0}])
    assert of(found, "payback_runs", "payback_left") == pytest.approx([6, 0])
    assert of(found, "payback_date") == [None]


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


def test_runs_of_a_former_owner_never_count() -> None:
    # 180 runs of somebody else and 6 of ours at 10 each: 60 of 120 is saved, and 6 runs are left.
    six = [
        {"key": str(n), "dryer": "barn", "started": DAY + n, "duration": 24.0, "energy": 10.0}
        for n in range(6)
    ]
    lots = [lot(str(n)) for n in range(6)]
    loads = [{"run": str(n), "lot": str(n), "wet": 8.0, "dry": 1.0} for n in range(6)]
    packs = [{"key": "P", "product": "food", "container": "jar", "count": 12, "net": 0.5}]
    used = {"key": "barn", "price": 120.0, "runs_when_bought": 180, "runs_per_year": 73}
    upkeep = [{"dryer": "barn", "item": "seal", "cost": 0.0, "every": 100}]
    found = figures(dryers=[used], runs=six, lots=lots, loads=loads, packs=packs, upkeep=upkeep)
    assert of(found, "runs_done", "runs_of_machine") == [6, 186]
    assert of(found, "saved", "payback_left") == pytest.approx([60, 6])
    assert of(found, "payback_word", "payback_before") == ["on its way", "none"]
    assert found("upkeep", "due_in", "1") == 14


def test_what_earlier_seasons_saved_counts_as_written() -> None:
    # 600 - 380 - 20 = 200 at 10 a run.
    found = figures(dryers=[BARN | {"saved_before": 380.0}])
    names = ("price_left", "left_by_money", "left_by_runs", "payback_left", "payback_time")
    assert of(found, *names) == pytest.approx([200, 20, 48, 20, 100 * 24])
    assert of(found, "payback_before") == ["at what they saved"]
    # Half a run more is a whole one to go.
    found = figures(dryers=[BARN | {"saved_before": 375.0}])
    assert of(found, "payback_left", "runs_to_go") == pytest.approx([20.5, 21])
    assert of(figures(), "payback_before") == ["as if each had saved as much"]
    # What has reached the price is paid for, whatever a run saves now.
    loss = [{"key": "o", "product": "food", "net": 1.0, "price": 8.0}]
    found = figures(dryers=[BARN | {"saved_before": 700.0}], offers=loss)
    assert of(found, "saving_known", "payback_left", "payback_date") == [None, 0, None]
    assert of(found, "payback_word") == ["already paid for"]


def test_what_keeps_it_unknown_is_named() -> None:
    names = ("saving_per_run", "payback_runs", "payback_word")
    food = {"key": "food", "name": "Beans"}
    sold = [{"pack": "P", "count": 1, "channel": "stall"}]
    for tables, lacks in (
        ({"offers": []}, "a shop price"),
        ({"pricing": [{"fees": 0.1}]}, "the share you would have bought"),
        ({"uses": sold}, "the price of what was sold"),
        ({"lots": [lot("a"), lot("b") | {"price_total": None}]}, "a running cost by weight"),
    ):
        found = figures(products=[food], **tables)
        assert of(found, *names) == [None, None, f"not known: Beans lacks {lacks}"]
        assert found("products", "worth_lacks") == lacks
        assert of(found, "said_of_left", "said_of_nothing", "product_lacking") == [
            None,
            None,
            "food",
        ]
    assert of(figures(runs=[], loads=[]), *names, "saved") == [
        None, None, "not known: no run is done this season", 0,
    ]  # fmt: skip
    assert found("products", "price_lacks") == "the share you would have bought"
    assert of(figures(), "said_of_idle", "said_of_left")[1] == "on its way"
    no_price = figures(dryers=[{"key": "barn"}])
    assert of(no_price, "payback_word") == ["not known: the dryer's price is not written"]
    permit = figures(overheads=[{"item": "permit"}])
    assert of(permit, *names) == [
        None,
        None,
        "not known: an overhead, the stall or paid time lacks its price",
    ]


def test_each_dryer_names_its_own_product() -> None:
    """Of two products without a price each dryer names the one that it dried."""
    tables: dict[str, Any] = {
        "products": [{"key": n, "name": n.title()} for n in ("peas", "beans", "leeks")],
        "dryers": [BARN, {"key": "shed", "price": 1000.0}],
        "lots": [lot("a") | {"product": "beans"}, lot("b") | {"product": "leeks"}],
        "runs": [{"key": "1", "dryer": "barn", "duration": 9.0, "energy": 10.0},
                 {"key": "2", "dryer": "shed", "duration": 9.0, "energy": 10.0}],
        "packs": [{"key": "P", "product": "beans", "container": "jar", "count": 2, "net": 0.5},
                  {"key": "Q", "product": "leeks", "container": "jar", "count": 2, "net": 0.5}],
    }  # fmt: skip
    found = figures(**tables)
    said = [of(found, "payback_word", key=key)[0] for key in ("barn", "shed")]
    assert said == [f"not known: {name} lacks a shop price" for name in ("Beans", "Leeks")]
    assert [found("products", "row_place", key) for key in ("peas", "beans", "leeks")] == [1, 2, 3]


def test_what_is_not_packed_yet_counts_nothing_and_is_named() -> None:
    lots = [lot("a"), lot("b") | {"product": "leeks"}]
    products = [{"key": "food"}, {"key": "leeks", "name": "Leeks"}]
    packs = [{"key": "P", "product": "food", "container": "jar", "count": 2, "net": 0.5}]
    found = figures(lots=lots, products=products, packs=packs)
    assert [found("loads", "saving", key) for key in ("1/a", "2/b")] == pytest.approx([10, 0])
    assert of(found, "saved", "saving_per_run") == pytest.approx([10, 5])
    assert [found("products", "none_packed", key) for key in ("food", "leeks")] == [False, True]
    assert found("products", "gain_packed", "leeks") is None
    assert of(found, "payback_without") == ["Leeks: none of it is packed yet"]
    assert of(figures(), "payback_without") == [None]


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
    # Each counts from the end of its own last run.
    assert [found("runs", "end_to_last", key) for key in "123"] == pytest.approx([216, 216, 0])
    assert [of(found, "last_end", key=key)[0] for key in ("barn", "shed")] == [DAY + 1, DAY + 10]


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


def test_the_first_of_several_that_lack_something_is_named() -> None:
    """Pears and plums are packed and have no shop price; of quinces nothing is packed."""
    names = ("food", "pear", "plum", "quince")
    lots = [lot(key) | {"key": key, "product": key} for key in names]
    loads = [
        {"run": "1", "lot": "food", "wet": 4.0, "dry": 0.5},
        {"run": "1", "lot": "plum", "wet": 4.0, "dry": 0.5},
        {"run": "2", "lot": "pear", "wet": 3.0, "dry": 0.5},
        {"run": "2", "lot": "quince", "wet": 3.0, "dry": 0.5},
        {"id": "q2", "run": "1", "lot": "quince", "wet": 2.0, "dry": 0.4},
        {"id": "on", "run": "3", "lot": "pear", "wet": 2.0},
    ]
    packs = [
        {"key": key, "product": key, "container": "jar", "count": 1, "net": 0.5}
        for key in names[:3]
    ]
    runs = [{"key": key, "dryer": "barn", "energy": 10.0} for key in "123"]
    found = figures(
        products=[{"key": key} for key in names], lots=lots, loads=loads, packs=packs, runs=runs
    )
    keys = ("1/food", "1/plum", "2/pear", "2/quince", "on")
    assert [found("loads", "lacking_place", key) for key in keys] == [None, 3, 2, None, None]
    assert of(found, "lacking_first", "unpacked_first") == [2, 4]
