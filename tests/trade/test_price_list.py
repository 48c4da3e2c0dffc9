"""The price list by hand, and each step on the way from a written price to one that holds."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

DAY = 46_000.0
SIZE = {"product": "food", "container": "tin", "net": 10.0}


def found() -> Figures:
    return Figures(
        "lb",
        "oz",
        season=[{"as_of": DAY}],
        products=[{"key": "food"}],
        containers=[{"key": "tin"}],
        packs=[
            {"key": "P", **SIZE, "count": 9, "carried_running": 6.0, "carried_full": 9.0},
            {
                "key": "Q",
                **SIZE,
                "net": 4.0,
                "count": 2,
                "carried_running": 3.0,
                "carried_full": 4.0,
            },
        ],
        asking=[
            SIZE | {"price": 20.0, "since": DAY - 5},
            SIZE | {"price": 18.0},
            SIZE | {"price": 25.0, "since": DAY + 3},
        ],
        pricing=[{"margin": 0.2, "fees": 0.1, "price_step": 0.25}],
        channels=[
            {"key": "stall", "of_stall": True, "tax": 0.25},
            {"key": "cafe", "fees": 0.05, "discount": 0.4},
            {"key": "dear", "fees": 0.85},
        ],
        uses=[
            {"pack": "P", "channel": "cafe", "count": 2, "date": DAY - 6},
            {"pack": "P", "channel": "stall", "count": 3, "date": DAY - 5, "total": 25.0},
            {"pack": "P", "purpose": "gift", "date": DAY},
        ],
    )


def of(table: str, key: str, *names: str) -> list[Any]:
    figures = found()
    return [figures(table, name, key) for name in names]


def test_each_size_has_a_row_in_each_channel() -> None:
    assert found().numbers.cells["price_list"]["key"] == [
        f"{channel}/{row}" for channel in ("stall", "cafe", "dear") for row in (1, 2)
    ]
    assert of("price_list", "cafe/2", "size") == ["food/tin/4"]
    assert of("channels", "cafe", "not_on_list") == [False]


NAMES = ("floor", "price_to_ask", "asked", "price", "unit_price")


@pytest.mark.parametrize(
    ("key", "values"),
    [
        # 1 / 1.25 is 0.8 without tax, 0.7 after fees; four fifths of 0.8 less 0.1 is 0.54.
        ("stall/1", [9 / 0.7, 16.75, 20, 20, 2.0]),
        ("stall/2", [4 / 0.7, 7.5, None, 7.5, 1.875]),
        # No tax: 0.95 after fees, 0.75 for the cost; 40 % off 20 is 12.
        ("cafe/1", [9 / 0.95, 12, 12, 12, 1.2]),
        ("cafe/2", [4 / 0.95, 5.5, None, 5.5, 1.375]),
        # Fees of 85 % and a margin of 20 % are more than all.
        ("dear/2", [4 / 0.15, None, None, None, None]),
    ],
)
def test_by_hand(key: str, values: list[float | None]) -> None:
    assert of("price_list", key, *NAMES) == [
        None if each is None else pytest.approx(each) for each in values
    ]


def test_what_of_a_price_may_go_to_the_full_cost() -> None:
    found_in = {key: of("channels", key, "for_cost", "for_cost_left") for key in ("stall", "cafe")}
    assert found_in["stall"] == pytest.approx([0.54, 0.54])
    assert found_in["cafe"] == pytest.approx([0.75, 0.75])
    assert of("channels", "dear", "for_cost", "for_cost_left") == [pytest.approx(-0.05), None]


def test_the_stalls_shares() -> None:
    assert of("channels", "stall", "fees_taken", "net_share", "left_share") == pytest.approx(
        [0.1, 0.8, 0.7]
    )
    shares = ("stall_net", "stall_fees", "stall_left", "stall_for_cost")
    assert [found()("season", name) for name in shares] == pytest.approx([0.8, 0.1, 0.7, 0.54])
    assert found()("prices", "net_asked", "food/tin/10") == pytest.approx(16.75 * 0.8)
    assert found()("prices", "running_packed", "food/tin/10") == 6
    assert found()("prices", "full_packed", "food/tin/4") == 4


def test_how_many_on_the_shelf_are_past_their_day() -> None:
    packs = [
        {"key": key, **SIZE, "count": n, "carried_running": 6.0, "carried_full": 9.0,
         "carried_best_by": DAY + days}
        for key, n, days in (("P", 4, -1), ("Q", 3, 0), ("R", 2, 9))
    ]  # fmt: skip
    old = Figures(
        "lb", "oz", season=[{"as_of": DAY}], products=[{"key": "food"}],
        containers=[{"key": "tin"}], packs=packs,
        uses=[{"pack": "P", "purpose": "gift", "count": 1, "date": DAY}],
    )  # fmt: skip
    assert [old("prices", name, "food/tin/10") for name in ("on_hand", "past_best_by")] == [8, 3]


def test_prices_are_numbered_by_their_first_days() -> None:
    names = ("priced_as", "first_day", "turn", "place")
    rows = [of("asking", key, *names) for key in ("1", "2", "3")]
    size = "food/tin/10"
    assert [row[0] for row in rows] == [size] * 3
    assert [row[1] for row in rows] == [DAY - 5, DAY - 36_500, DAY + 3]
    assert [row[2] for row in rows] == [2, 1, 3]
    assert [row[3] for row in rows] == [f"{size}/2", f"{size}/1", f"{size}/3"]
    names = ("day_after", "times_asked", "asked_place", "asked", "asked_by_weight")
    assert of("prices", size, *names) == [DAY + 1, 2, f"{size}/2", 20, 2]
    assert of("prices", "food/tin/4", *names) == [DAY + 1, 0, "food/tin/4/0", None, None]


def test_what_a_sale_took() -> None:
    names = ("priced_as", "day_after", "times_asked", "asked_place", "asked", "asked_there")
    size = "food/tin/10"
    assert of("uses", "1", *names) == [size, DAY - 5, 1, f"{size}/1", 18, pytest.approx(10.8)]
    assert of("uses", "2", *names) == [size, DAY - 4, 2, f"{size}/2", 20, 20]
    names = ("price_written", "price_each", "paid_for_packs", "paid", "sold", "of_stall")
    each = pytest.approx(25 / 3)
    assert of("uses", "1", *names) == [None, pytest.approx(10.8), pytest.approx(21.6),
                                       pytest.approx(21.6), True, False]  # fmt: skip
    assert of("uses", "2", *names) == [each, each, 25, 25, True, True]
    assert of("uses", "3", *names) == [None, 0, 0, 0, False, False]
    names = ("revenue", "tax_in_it", "fees", "got")
    assert of("uses", "2", *names) == pytest.approx([20, 5, 2.5, 17.5])
    assert of("uses", "3", *names) == [0, 0, 0, None]
    assert found()("season", "sales_out") == pytest.approx(5 + 2.5 + 21.6 * 0.05)
