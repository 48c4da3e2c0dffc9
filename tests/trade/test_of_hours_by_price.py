"""Prices of electricity by the clock, with a pencil: what the season paid, which hours have a
price, and whether the clocks were changed during a run."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, tables
from trade.test_of_a_pack import told

# From 6:00 to 12:00 on the next day, of which one hour is dear: 29 at 1.00 and one at 1.70.
BY_CLOCK: dict[str, Any] = {
    "rates": {"electricity": None},
    "runs": {"started": TODAY - 7.75},
    "periods": {"key": "dear", "from_clock": "17:00", "to_clock": "18:00", "price": 1.7},
    "also_periods": {"key": "day", "price": 1.0},
}

OF_RATES: list[tuple[dict[str, Any], str, object]] = [
    ({}, "electricity_paid", 0.25),
    (BY_CLOCK, "electricity_paid", (29 * 1.0 + 1.7) / 30),
    # Another check tells of a period that is dear; this one is of the one price.
    (BY_CLOCK | {"periods": {"key": "day", "price": 3.0}}, "electricity_dear", False),
    # An hour of each day, and all the others.
    (BY_CLOCK, "week_hours", 7 * 24),
    (BY_CLOCK, "week_priced", 7 * (1.7 + 23 * 1.0)),
    # Someone emptied the price of one of them.
    (BY_CLOCK | {"also_periods": {"key": "day", "price": None}}, "week_priced", None),
]


@pytest.mark.parametrize(("changed", "name", "value"), OF_RATES)
def test_a_figure_of_the_rates(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("rates", name)
    assert told(found, value), found


@pytest.mark.parametrize(
    ("changed", "during"),
    [
        (TODAY - 9, False),
        (TODAY - 8, False),  # as it starts
        (TODAY - 7.5, True),
        (TODAY - 8 + 1.25, False),  # as it ends, after 30 hours
        (TODAY - 6.5, False),  # in the same week as the end
        (TODAY + 9, False),
    ],
)
def test_clocks_are_changed_between_start_and_end(changed: float, during: bool) -> None:
    made = tables(run_energy={"run": "run", "hours": 30.0, "clock_change": 1.0, "changed": changed})
    assert Figures(**made)("run_energy", "clock_changed") is during


@pytest.mark.parametrize(
    ("built", "changed"),
    [
        ({}, False),
        ({"to_built": "19:00"}, True),
        ({"days_built": "Sat"}, True),
    ],
)
def test_each_time_of_a_period_is_held_against_what_was_built(
    built: dict[str, str], changed: bool
) -> None:
    times = {"from_clock": "17:00", "to_clock": "18:00", "days": "Mon-Fri"}
    as_it_is = {"from_built": "17:00", "to_built": "18:00", "days_built": "Mon-Fri"}
    made = tables(
        periods={"key": "dear", "price": 1.0} | times,
        windows={"period": "dear", "begin": 65.0, "end": 66.0} | as_it_is | built,
    )
    assert Figures(**made)("windows", "times_changed") is changed
