"""Rows of the plan that wait for each other and for days on which the dryer is closed, row by row,
with a pencil; with one dryer and with two."""

from __future__ import annotations

from typing import Any

import pytest

from trade.test_windows import DAY, MADE, figures

# A run takes 24 hours with the turnaround and gives one container. Of the four pairs, each row with
# each, the first is the first row itself.
LONG: dict[str, Any] = {"count": 6}
FIFTH: dict[str, Any] = {"count": 1, "start": DAY + 5}


def test_a_row_without_a_start_comes_last() -> None:
    found = figures({"count": 1, "start": None}, {"count": 1})
    assert found.numbers.cells["queue"]["comes_before"] == [True, True, False, True]


def test_two_dryers_wait_where_one_does_not() -> None:
    """Six runs before the fifth day, at 120 h: one dryer takes 144 h, two take 72."""
    found = figures(LONG, FIFTH).numbers.cells
    assert found["queue"]["slack"] == [0, None, 0, 6 * 24 - 120]
    assert found["queue"]["slack_of_two"] == [0, None, 0, 3 * 24 - 120]
    # They stand still for want of a start, one dryer does not.
    assert found["queue"]["slack_lowest"] == [True, None, True, False]
    assert found["queue"]["slack_of_two_lowest"] == [True, None, False, True]
    assert found["plan"]["until_of_two"] == [0, 120]
    assert found["plan"]["time_until"] == [0, 6 * 24]


@pytest.mark.parametrize(
    ("first", "last", "closes", "opens"),
    [(DAY + 1, DAY + 2, 24, 72), (None, DAY + 2, None, None), (DAY + 1, None, None, None)],
)
def test_days_of_which_one_is_missing_are_not_closed(
    first: float | None, last: float | None, closes: float | None, opens: float | None
) -> None:
    found = figures(LONG, closed=[("barn", first, last)])
    assert found("closed", "closes") == closes
    assert found("closed", "opens") == opens


@pytest.mark.parametrize(("last", "turned"), [(DAY + 1, True), (DAY + 1.5, False)])
def test_a_time_typed_beside_a_day_may_turn_it_round(last: float, turned: bool) -> None:
    """A workbook takes a clock time: from noon it is closed to the midnight before, or to noon."""
    found = figures(LONG, closed=[("barn", DAY + 1.5, last)])
    assert found("closed", "turned_round") is turned


@pytest.mark.parametrize(("minutes", "hours"), [(1.0, None), (1.5, 0.025), (90.0, 1.5)])
def test_a_minute_in_which_it_is_closed_is_none(minutes: float, hours: float | None) -> None:
    """From noon of the first day until so many minutes after, as only a workbook lets one type."""
    last = DAY - 1 + 0.5 + minutes / (24 * 60)
    found = figures(LONG, closed=[("barn", DAY + 0.5, last)])
    assert found("plan", "closed_within") == (hours and pytest.approx(hours, abs=1e-6))


def test_runs_that_earn_nothing_do_not_pay_for_a_dryer() -> None:
    """A shop asks 8 for what cost 8: three runs more fit, and each is worth nothing."""
    shop = {"offers": [{"key": "o", "product": "food", "net": 1.0, "price": 8.0}]}
    two = {"another": [{"like": "barn", "price": 660.0}]}
    found = figures({"count": 8, "until": DAY + 3}, **MADE | shop, **two)
    names = ("runs_more", "earned_year", "earned_per_run", "payback_runs")
    assert [found("another", name) for name in names] == [3, 0, None, None]
