"""Measured is not estimated: each value knows what it rests on, by the branch that was taken."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import pytest

from algebra.toy import Given, book, define, numbers, text
from reportgen.algebra.expr import DefinitionError, Expr
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    known,
    missing,
    on_estimates,
    total,
    where,
)
from reportgen.algebra.numbers import Value
from reportgen.algebra.tables import COUNT, FLAG, Table, constant
from reportgen.units import ONE

HALF = constant("half", 0.5, ONE, "Half", "definition")


def rests(
    body: Callable[..., Expr],
    mark: Literal["estimated", "measured"] = "estimated",
    **given: Value,
) -> bool:
    """Whether a quantity rests on estimates. ``guess`` comes from a handbook; a and b do not."""
    inputs = [
        Given("a"),
        Given("b"),
        Given("guess", measured=False),
        Given("f", type="flag", zero=True),
    ]
    things = Table.of("things", "thing", inputs)
    define(things, "by_handbook", ONE, lambda a, guess: a * guess)
    define(things, "nominal", ONE, lambda b: estimate(b))
    define(things, "result", ONE, body)
    made = book(things)
    column = made.companion(things, "result", mark)
    definition = things.definitions.get(f"result_{mark}")
    if definition is not None:
        made.ensure(definition)
    found = numbers(made, {"things": {"key": ["only"], **{n: [v] for n, v in given.items()}}})
    return bool(found.rule(column)(0))


@pytest.mark.parametrize(
    ("body", "given", "estimated"),
    [
        (lambda a, b: a * b, {"a": 1.0, "b": 2.0}, False),
        (lambda guess: guess, {"guess": 2.0}, True),
        (lambda a, guess: a + guess, {"a": 1.0, "guess": 2.0}, True),
        (lambda a: a * HALF, {"a": 1.0}, False),
        (lambda a: estimate(a), {"a": 1.0}, True),
        (lambda a, by_handbook: a + by_handbook, {"a": 1.0, "guess": 2.0}, True),
        (lambda a, nominal: first_known(a, nominal), {"a": 1.0, "b": 2.0}, False),
        (lambda a, nominal: first_known(a, nominal), {"a": None, "b": 2.0}, True),
        (lambda a, b, guess: first_known(a, b, guess), {"b": 2.0, "guess": 3.0}, False),
        (lambda a, b, guess: first_known(a, b, guess), {"guess": 3.0}, True),
        (lambda a, guess: first_known(guess, a), {"a": 1.0}, False),
        (lambda f, a, guess: where(f, a, guess), {"f": True, "a": 1.0, "guess": 2.0}, False),
        (lambda f, a, guess: where(f, a, guess), {"f": False, "a": 1.0, "guess": 2.0}, True),
        # What only chooses the branch is not what the value rests on.
        (lambda a, b, guess: where(guess > 1, a, b), {"guess": 2.0, "a": 1.0}, False),
        (lambda a, guess: a * known(guess), {"a": 1.0, "guess": 2.0}, False),
        (lambda a, guess: a * 0 * guess, {"a": 1.0, "guess": 2.0}, True),
    ],
)
def test_by_the_branch_that_was_taken(
    body: Callable[..., Expr], given: dict[str, Value], estimated: bool
) -> None:
    assert rests(body, **given) is estimated


@pytest.mark.parametrize(
    ("body", "given", "measured"),
    [
        (lambda a, guess: a + guess, {"a": 1.0, "guess": 2.0}, True),
        (lambda guess: guess, {"guess": 2.0}, False),
        (lambda nominal: nominal, {"b": 2.0}, False),
        (lambda nominal, a: first_known(a, nominal), {"a": 1.0, "b": 2.0}, True),
    ],
)
def test_what_rests_on_measurements_too(
    body: Callable[..., Expr], given: dict[str, Value], measured: bool
) -> None:
    assert rests(body, "measured", **given) is measured


def test_across_tables_and_only_for_the_rows_counted() -> None:
    boats = Table.of("boats", "boat", [Given("size", measured=False), Given("width")])
    trips = Table.of("trips", "trip", [text("boat", "boats"), Given("weighed"), Given("share")])
    define(trips, "weight", ONE, lambda weighed, boat: first_known(weighed, estimate(boat.width)))
    define(trips, "heavy", FLAG, lambda weight: weight > 1)
    define(trips, "of_size", ONE, lambda weighed, boat: weighed * boat.size)
    define(trips, "of_width", ONE, lambda weighed, boat: weighed * boat.width)
    define(trips, "guessed", ONE, lambda weight: weight * on_estimates(weight))
    define(boats, "carried", ONE, lambda trips: total(trips.weight))
    define(boats, "carried_heavy", ONE, lambda trips: total(trips.weight, trips.heavy))
    define(boats, "made", COUNT, lambda trips: count(trips) + missing(trips.weight))
    made = book(boats, trips)
    for table, name in (
        (trips, "weight"), (trips, "of_size"), (trips, "of_width"), (boats, "carried"),
        (boats, "carried_heavy"), (boats, "made"),
    ):  # fmt: skip
        made.companion(table, name, "estimated")
        if f"{name}_estimated" in table.definitions:
            made.ensure(table.definitions[f"{name}_estimated"])
    found = numbers(
        made,
        {
            "boats": {"key": ["x", "y", "z"], "size": [1.0] * 3, "width": [0.5, 5.0, 5.0]},
            "trips": {
                "key": list("abcdef"),
                "boat": ["x", "x", "y", "y", "z", "z"],
                "weighed": [2.0, None, 2.0, None, 3.0, 4.0],
            },
        },
    )
    trip, boat = found.cells["trips"], found.cells["boats"]
    assert trip["weight_estimated"] == [False, True, False, True, False, False]
    assert trip["guessed"] == [0, 0.5, 0, 5.0, 0, 0]
    assert boat["carried_estimated"] == [True, True, False]
    # The trip of x that was not weighed is light, so it is not in the total of the heavy ones.
    assert boat["carried_heavy_estimated"] == [False, True, False]
    assert "of_size_estimated" not in trip, "plain from the definition: no column is spent on it"
    assert made.companion(trips, "of_size", "estimated").value == 1  # type: ignore[attr-defined]
    assert made.companion(trips, "of_width", "estimated").value == 0  # type: ignore[attr-defined]
    assert made.companion(boats, "made", "estimated").value == 0  # type: ignore[attr-defined]


def test_only_a_column_of_the_row_can_be_asked() -> None:
    table = Table.of("things", "thing", [Given("a"), Given("b")])
    define(table, "result", FLAG, lambda a, b: on_estimates(a + b))
    with pytest.raises(DefinitionError, match=r"on_estimates\(\) takes a column of the row itself"):
        book(table)
