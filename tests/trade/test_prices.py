"""What to ask for a pack, by hand: margin and fees, steps, break-even, other forms of the food."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from published.figures import Figures

from trade.small import HEAD, season

# Packs left from last season keep their cost each, so that any cost can be set: 9 running, 12 full.
PACK = {
    "key": "P", "product": "food", "container": "tin", "count": 4, "net": 10.0,
    "carried_running": 9.0, "carried_full": 12.0,
}  # fmt: skip
PRICING = {"margin": 0.40, "fees": 0.0, "price_step": 0.25, "stall": 30.0, "days": 4.0}
ROW = "food/tin/10"


def figures(pricing: dict[str, Any] | None = None, **tables: Any) -> Figures:
    made: dict[str, Any] = {
        "products": [{"key": "food"}],
        "containers": [{"key": "tin"}, {"key": "jar"}],
        "packs": [PACK],
        "pricing": [PRICING | (pricing or {})],
    }
    return Figures("lb", "oz", **made | tables)


def of(found: Figures, *names: str, row: str = ROW) -> list[object]:
    return [found("prices", name, row) for name in names]


def close(*values: float) -> object:
    return pytest.approx(list(values), rel=1e-12)


def test_margin_is_of_the_price_and_markup_of_the_cost() -> None:
    # 12 / (1 - 0.40) = 20: 8 of 20 is 40 %, 8 on 12 is 66.7 %.
    found = figures()
    assert of(found, "price_asked", "margin_kept", "markup") == close(20, 0.40, 8 / 12)
    assert of(found, "price_floor") == close(12)


def test_fees_come_off_the_price_too() -> None:
    # 12 / (1 - 0.40 - 0.10) = 24; of which 2.40 are fees, 12 cost, 9.60 is 40 %.
    found = figures({"fees": 0.10})
    assert of(found, "price_asked", "margin_kept", "markup") == close(24, 0.40, 1.0)
    assert of(found, "price_floor") == close(12 / 0.9), "not rounded"


@pytest.mark.parametrize(
    ("full", "step", "asked"),
    [
        (12.0, 0.25, 20.0),  # on the step already
        (12.01, 0.25, 20.25),  # 20.0167
        (12.01, 0.05, 20.05),
        (12.01, 1.0, 21.0),
        (12.0, 3.0, 21.0),
        (0.0, 0.25, 0.0),
    ],
)
def test_rounded_up_to_the_step(full: float, step: float, asked: float) -> None:
    found = figures({"price_step": step}, packs=[PACK | {"carried_full": full}])
    assert found("prices", "price_asked") == pytest.approx(asked, abs=1e-12)


def test_rounding_up_leaves_at_least_the_margin() -> None:
    found = figures(packs=[PACK | {"carried_full": 12.01}])
    assert found("prices", "margin_kept") == pytest.approx(8.24 / 20.25)


@pytest.mark.parametrize("left_out", ["margin", "price_step"])
def test_what_pricing_leaves_out_is_not_made_up(left_out: str) -> None:
    assert figures({left_out: None})("prices", "price_asked") is None


def test_fees_stall_and_days_left_out_are_none() -> None:
    found = figures({"fees": None, "stall": None})
    assert found("prices", "price_asked") == figures({"fees": 0.0})("prices", "price_asked")
    assert found("season", "stall_cost") == 0


def test_break_even_if_it_stood_alone() -> None:
    # 120 for four days; each sale leaves 20 - 9 = 11: 10.9, so 11.
    found = figures()
    assert found("season", "stall_cost") == 120
    assert of(found, "earned_each", "contribution", "break_even_count") == [11, 11, 11]
    # With 10 % fees: 24 × 0.9 - 9 = 12.60, so 9.5: 10.
    assert of(figures({"fees": 0.1}), "earned_each", "break_even_count") == close(12.6, 10)
    # 110 / 11 is 10, and not 11.
    assert of(figures({"stall": 27.5}), "break_even_count") == [10]


def test_where_a_sale_leaves_nothing_no_count_pays() -> None:
    found = figures(packs=[PACK | {"carried_running": 20.0}])
    assert of(found, "earned_each", "contribution", "break_even_count") == [0, None, None]
    assert found("prices", "earns_nothing") is True


def test_a_row_for_each_product_container_and_net() -> None:
    packs = [
        PACK,
        PACK | {"key": "Q", "count": 1, "carried_running": 14.0, "carried_full": 22.0},
        PACK | {"key": "R", "net": 4.25},
        PACK | {"key": "S", "container": "jar"},
        PACK | {"key": "T", "net": None},
        PACK | {"key": "U", "container": None},
    ]
    uses = [{"pack": "P", "count": 3, "purpose": "gift"}]
    found = figures(packs=packs, uses=uses)
    assert found.numbers.cells["prices"]["key"] == [ROW, "food/tin/4.25", "food/jar/10"]
    # Four at 9 and one at 14: 50 / 5; in full (48 + 22) / 5.
    assert of(found, "packed", "running_each", "full_each", "on_hand") == close(5, 10, 14, 2)
    assert [found("packs", name, "P") for name in ("running_all", "full_all")] == [36, 48]
    assert found("packs", "priced_as", "R") == "food/tin/4.25"
    assert found("packs", "priced_as", "T") is None


def test_against_the_shops() -> None:
    offers = [
        {"key": "a", "product": "food", "net": 5.0, "price": 12.0, "shipping": 3.0},  # 3 an ounce
        {"key": "b", "product": "food", "net": 10.0, "price": 20.0},  # 2
    ]
    found = figures(offers=offers)
    assert of(found, "retail_equivalent", "price_to_retail") == close(25, 0.8)
    assert of(figures(), "retail_equivalent", "price_to_retail") == [None, None]


def test_net_is_plain_in_the_unit_of_the_season(tmp_path: Path) -> None:
    text = """
packs:
  - {id: P-1, product: turnip-cubes, date: 2025-09-05, container: tin, count: 5, net: 11.0 oz}
  - {id: P-2, product: turnip-cubes, date: 2025-09-05, container: tin, count: 5, net: 0.25 lb}
"""
    head = HEAD.replace("fees: 10 %", "fees: 10 %, price_step: 1 USD")
    keys = season(tmp_path, text, head).numbers.cells["prices"]["key"]
    assert keys == ["turnip-cubes/tin/11", "turnip-cubes/tin/4"]


# --- the whole stall ----------------------------------------------------------------------------


def use(word: str, count: int, price: float | None = None) -> dict[str, Any]:
    column = "channel" if word in ("stall", "co-op") else "purpose"
    return {column: word, "count": count, "price": price, "pack": "P"}


def test_sales_that_pay_for_the_whole_stall() -> None:
    # Three sold at 20 and one at 15: 75; less 10 % of the stall's 60 and 9 running each:
    # 69 - 36 = 33, which is 44 % of it. 120 / 0.44 = 272.73.
    sold = [use("stall", 3, 20.0), use("co-op", 1, 15.0), use("gift", 1), use("household", 2)]
    found = figures({"fees": 0.10}, uses=sold, packs=[PACK | {"count": 9}])
    assert found("season", "sales") == 75
    assert found("season", "sales_left") == pytest.approx(33)
    assert found("season", "left_after_stall") == pytest.approx(33 - 120)
    assert found("season", "sales_left_share") == pytest.approx(0.44)
    assert found("season", "break_even_sales") == pytest.approx(120 / 0.44)
    assert found("uses", "running_out", "1") == 27
    assert found("uses", "left_over", "1") == pytest.approx(54 - 27)
    # Revenue 75, full cost 12 each: 69 - 48.
    assert found("season", "revenue") == 75
    assert found("season", "profit") == pytest.approx(21)


def test_a_stall_that_leaves_nothing_never_breaks_even() -> None:
    found = figures(uses=[use("stall", 2, 9.0)])
    assert found("season", "sales_left") == 0
    assert found("season", "sales_left_share") is None
    assert found("season", "break_even_sales") is None
    none = figures()
    assert [none("season", name) for name in ("sales", "sales_left", "break_even_sales")] == [
        0,
        0,
        None,
    ]


# --- the same food frozen, canned or fresh ------------------------------------------------------


def test_other_forms_are_compared_by_fresh_equivalent() -> None:
    # 16 lb became 32 oz: eight to one. Eight ounces of ours stand for 4 lb of fresh.
    found = Figures(
        "lb", "oz",
        products=[{"key": "food", "prep_yield": 1.0}],
        rates=[{"electricity": 0.25}],
        dryers=[{"key": "barn"}],
        lots=[{"key": "a", "product": "food", "weighed": 16.0, "prepped_weighed": 16.0,
               "price_total": 44.0, "count": 1}],
        runs=[{"key": "1", "dryer": "barn", "energy": 16.0}],
        loads=[{"run": "1", "lot": "a", "wet": 16.0, "dry": 32.0}],
        containers=[{"key": "tin"}],
        parts=[],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 4, "net": 8.0}],
        offers=[
            {"key": "dry", "product": "food", "net": 8.0, "price": 16.0, "form": "freeze-dried"},
            {"key": "plain", "product": "food", "net": 8.0, "price": 24.0},
            {"key": "cold", "product": "food", "net": 32.0, "price": 5.0, "form": "frozen"},
            {"key": "tinned", "product": "food", "net": 16.0, "price": 1.5, "shipping": 0.5,
             "form": "canned"},
            {"key": "new", "product": "food", "net": 16.0, "price": 4.0, "form": "fresh"},
        ],
    )  # fmt: skip
    forms = ("dry", "plain", "cold", "tinned", "new")
    assert [found("offers", "alike", key) for key in forms] == [True, True, False, False, False]
    assert [found("offers", "another_form", key) for key in forms] == [
        False, False, True, True, True,
    ]  # fmt: skip
    # 8 oz × 8 = 4 lb; 32 oz = 2 lb; 1 lb; 1 lb.
    fresh = [found("offers", "fresh_equivalent", key) for key in forms]
    assert fresh == close(4, 4, 2, 1, 1)
    assert [found("offers", "price_fresh", key) for key in forms] == close(4, 6, 2.5, 2, 4)
    others = [found("offers", "price_other", key) for key in forms]
    assert others == [None, None, pytest.approx(2.5), pytest.approx(2.0), pytest.approx(4.0)]
    assert found("products", "alternatives_median") == pytest.approx(2.5)
    # The freeze-dried ones alone make the retail median: 2 and 3 an ounce.
    assert found("products", "retail_median") == 2.5
    assert found("products", "offers_count") == 2
    # 44 for produce and 4 for energy over 32 oz: 1.50 an ounce, and 32 oz are 16 lb of fresh: 3.00.
    assert found("products", "running_per_packed") == pytest.approx(1.5)
    assert found("products", "running_per_fresh") == pytest.approx(3.0)
    assert found("products", "running_to_alternatives") == pytest.approx(1.2)
