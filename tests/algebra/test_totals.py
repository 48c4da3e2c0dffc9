"""Totals, counts, means, medians and ranks over child rows, against Python's and numpy's own."""

from __future__ import annotations

import statistics
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from algebra.toy import Given, book, define, numbers, text
from reportgen.algebra.expr import DefinitionError
from reportgen.algebra.functions import (
    count,
    latest,
    lowest,
    mean_known,
    median,
    missing,
    total,
    total_known,
)
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import COUNT, DATE, FLAG, Table
from reportgen.units import ONE

Amount = float | None


def shops(rows: Sequence[tuple[str | None, Amount, Amount]], keys: Sequence[str]) -> Numbers:
    """Goods, and what shops ask for them: good, price, shipping (0 where it is left out)."""
    goods = Table.of("goods", "good", [])
    asked = Table.of(
        "asked",
        "price",
        [text("good", "goods"), Given("price", ONE), Given("shipping", ONE, zero=True),
         Given("day", type="date")],
    )  # fmt: skip
    market = Table.of("market", "the market", [], single=True)
    define(asked, "paid", ONE, lambda price: price)
    define(asked, "dear", FLAG, lambda price: price > 1)
    define(asked, "shipped", FLAG, lambda shipping: shipping > 0)
    for name, kind, body in (
        ("all_of_it", ONE, lambda asked: total(asked.price)),
        ("as_known", ONE, lambda asked: total_known(asked.price)),
        ("shipping", ONE, lambda asked: total(asked.shipping)),
        ("dear", ONE, lambda asked: total(asked.price, asked.dear)),
        ("dear_shipped", COUNT, lambda asked: count(asked, asked.dear, asked.shipped)),
        ("rows", COUNT, lambda asked: count(asked)),
        ("lacking", COUNT, lambda asked: missing(asked.price)),
        ("lacking_shipped", COUNT, lambda asked: missing(asked.price, asked.shipped)),
        ("mean", ONE, lambda asked: mean_known(asked.price)),
        ("middle", ONE, lambda asked: median(asked.paid)),
        ("least", ONE, lambda asked: lowest(asked.paid)),
    ):
        define(goods, name, kind, body)
    define(market, "everything", ONE, lambda asked: total(asked.price))
    define(market, "known", ONE, lambda asked: total_known(asked.price))
    define(market, "last", DATE, lambda asked: latest(asked.day))
    good, price, shipping = zip(*rows, strict=True) if rows else ((), (), ())
    return numbers(
        book(goods, asked, market),
        {
            "goods": {"key": list(keys)},
            "asked": {
                "key": [str(n) for n in range(len(rows))],
                "good": good,
                "price": price,
                "shipping": shipping,
                "day": [46000.0 + n if n % 2 else None for n in range(len(rows))],
            },
        },
    )


ROWS = st.lists(
    st.tuples(
        st.sampled_from(["tea", "Tea", "salt", "none-such", None]),
        st.none() | st.integers(-500, 500).map(lambda n: n / 4) | st.floats(0.01, 1e4),
        st.none() | st.sampled_from([0.0, 1.5, 4.0]),
    ),
    max_size=14,
)


@given(ROWS)
def test_against_the_reference_libraries(rows: list[tuple[str | None, Amount, Amount]]) -> None:
    found = shops(rows, ["tea", "salt", "rice"])
    for at, good in enumerate(("tea", "salt", "rice")):
        mine = [r for r in rows if r[0] and r[0].casefold() == good]
        prices = [p for _, p, _ in mine if p is not None]
        whole = len(prices) == len(mine)

        def value(name: str, at: int = at) -> object:
            return found.value("goods", name, at)

        def about(number: float) -> object:
            return pytest.approx(number, rel=1e-12, abs=1e-12)

        assert value("rows") == len(mine)
        assert value("lacking") == len(mine) - len(prices)
        assert value("as_known") == about(float(np.sum(prices)))
        assert value("all_of_it") == (about(float(np.sum(prices))) if whole else None)
        assert value("shipping") == about(sum(s or 0 for _, _, s in mine))
        dear = [p for p in prices if p > 1 + 1e-9]
        assert value("dear") == about(float(np.sum(dear))), "an unknown flag lets nothing through"
        assert value("dear_shipped") == sum(
            1 for _, p, s in mine if p is not None and p > 1 + 1e-9 and s
        )
        assert value("lacking_shipped") == sum(1 for _, p, s in mine if p is None and s)
        assert value("mean") == (about(float(np.mean(prices))) if prices else None)
        assert value("middle") == (about(statistics.median(prices)) if prices else None)
        assert value("middle") == (about(float(np.median(prices))) if prices else None)
        assert value("least") == (min(prices) if prices else None)


@pytest.mark.parametrize(
    ("prices", "middle"),
    [
        ([3.0], 3.0),
        ([3.0, 1.0], 2.0),
        ([5.0, 1.0, 3.0], 3.0),
        ([5.0, 1.0, 3.0, 4.0], 3.5),
        ([2.0, 2.0, 2.0, 9.0], 2.0),
        ([2.0, 7.0, 2.0, 7.0], 4.5),
        ([None, 2.0, None, 4.0], 3.0),
        ([None], None),
        ([], None),
        ([0.3, 0.1 + 0.2, 0.3], 0.3),
        ([-1.0, 0.0, 1.0], 0.0),
    ],
)
def test_the_median_of_even_odd_ties_and_gaps(prices: list[Amount], middle: Amount) -> None:
    found = shops([("tea", price, None) for price in prices], ["tea"])
    assert found.value("goods", "middle") == middle


def test_ranks_go_from_the_lowest_and_ties_by_position() -> None:
    prices = [5.0, 2.0, None, 2.0, 9.0, 1.0]
    found = shops([("tea", price, None) for price in prices] + [("salt", 0.5, None)], ["tea"])
    assert found.cells["asked"]["paid_rank"] == [4, 2, None, 3, 5, 1, 1]


def test_no_rows_sum_to_nothing_and_have_no_mean() -> None:
    found = shops([], ["tea"])
    of_tea = {name: found.value("goods", name) for name in found.cells["goods"]}
    assert (of_tea["all_of_it"], of_tea["as_known"], of_tea["rows"]) == (0, 0, 0)
    assert (of_tea["mean"], of_tea["middle"], of_tea["least"]) == (None, None, None)
    assert found.value("market", "everything") == 0
    assert found.value("market", "last") is None


def test_over_all_rows_whatever_they_point_to() -> None:
    found = shops([("tea", 1.0, None), (None, 2.0, None), ("none-such", 4.0, None)], ["tea"])
    assert found.value("market", "everything") == 7.0
    assert found.value("market", "last") == 46001.0
    found = shops([("tea", 1.0, None), (None, None, None)], ["tea"])
    assert found.value("market", "everything") is None
    assert found.value("market", "known") == 1.0


def test_a_total_over_what_a_season_lacks_is_unknown_only_where_it_lacks() -> None:
    found = shops([("tea", 1.0, None), ("salt", None, None)], ["tea", "salt"])
    assert found.cells["goods"]["all_of_it"] == [1.0, None]


def test_the_median_of_an_input_wants_a_quantity() -> None:
    goods = Table.of("goods", "good", [])
    asked = Table.of("asked", "price", [text("good", "goods"), Given("price", ONE)])
    define(goods, "middle", ONE, lambda asked: median(asked.price))
    with pytest.raises(DefinitionError, match=r"asked\.price is an input"):
        book(goods, asked)


def test_the_total_of_an_input_that_left_out_is_1_wants_a_quantity() -> None:
    """Else a row whose cell is emptied would drop out of the total, or make it unknown."""
    goods = Table.of("goods", "good", [])
    asked = Table.of("asked", "price", [text("good", "goods"), Given("boxes", ONE, one=True)])
    define(goods, "boxes", ONE, lambda asked: total(asked.boxes))
    with pytest.raises(DefinitionError, match=r"asked\.boxes is 1 where it is left out"):
        book(goods, asked)
    del goods.definitions["boxes"]
    define(asked, "full", ONE, lambda boxes: boxes)
    define(goods, "boxes", ONE, lambda asked: total(asked.full))
    rows = {"good": ["tea", "tea"], "boxes": [None, 4.0]}
    found = numbers(book(goods, asked), {"goods": {"key": ["tea"]}, "asked": rows})
    assert found.cells["goods"]["boxes"] == [5.0]
