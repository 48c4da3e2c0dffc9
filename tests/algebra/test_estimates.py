"""Measured is not estimated: each value knows what it rests on, by the branch that was taken."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

import pytest

from algebra.toy import Given, book, define, numbers, text
from reportgen.algebra.book import Book
from reportgen.algebra.expr import DefinitionError, Expr
from reportgen.algebra.functions import (
    ahead,
    count,
    estimate,
    find,
    first,
    first_known,
    known,
    missing,
    on_estimates,
    own_place,
    per_row,
    place_of,
    plain,
    rank,
    sentence,
    total,
    total_known,
    where,
)
from reportgen.algebra.numbers import Value
from reportgen.algebra.tables import COUNT, FLAG, TEXT, Table, constant
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


def marks(made: Book, rows: dict[str, Any], table: str, name: str) -> list[tuple[bool, bool]]:
    """Of each row, whether a quantity rests on estimates, and whether on measurements."""
    owner = made.tables[table]
    columns = [made.companion(owner, name, "estimated"), made.companion(owner, name, "measured")]
    for definition in [each for t in made.tables.values() for each in t.definitions.values()]:
        made.ensure(definition)
    found = numbers(made, rows)
    rules = [found.rule(each) for each in columns]
    return [(bool(rules[0](row)), bool(rules[1](row))) for row in range(found.rows(owner))]


def stalls() -> tuple[Book, dict[str, Any]]:
    """Stalls in two lanes; what two of them take is weighed, what the others take is guessed."""
    lanes = Table.of("lanes", "lane", [Given("place")])
    rows = Table.of(
        "stalls", "stall", [text("lane", "lanes"), Given("weighed"), Given("guess", measured=False)]
    )
    town = Table.of("town", "the town", [], single=True)
    define(rows, "taken", ONE, lambda weighed, guess: first_known(weighed, guess))
    define(rows, "order", ONE, lambda weighed: where(known(weighed), 0, 0))
    define(rows, "before", ONE, lambda taken, lane, order: ahead(taken, lane, order))
    define(rows, "guessed_before", ONE, lambda guess, lane, order: ahead(guess, lane, order))
    define(rows, "place", COUNT, lambda taken, lane: rank(taken, lane))
    define(rows, "as_it", COUNT, lambda stalls, taken: place_of(stalls.taken, taken))
    define(rows, "is_first", FLAG, lambda as_it: own_place(as_it))
    define(rows, "much", FLAG, lambda taken, lane: taken > lane.place)
    define(rows, "said", TEXT, lambda taken: sentence("{kg} taken", kg=plain(taken)))
    define(lanes, "stall", TEXT, lambda stalls, place: find(stalls.taken, place))
    define(town, "news", TEXT, lambda stalls: first(stalls.said, stalls.much))
    define(lanes, "one_each", ONE, lambda town: per_row(town.weighed, town.guessed))
    define(town, "weighed", ONE, lambda stalls: total_known(stalls.weighed))
    define(town, "guessed", ONE, lambda stalls: total_known(stalls.guess))
    return book(lanes, rows, town), {
        "lanes": {"key": ["a", "b"], "place": [3.0, 7.0]},
        "stalls": {
            "key": list("vwxyz"),
            "lane": ["a", "b", "a", "b", "a"],
            "weighed": [3.0, None, None, 8.0, None],
            "guess": [9.0, 7.0, 5.0, 9.0, 6.0],
        },
    }


MEASURED, ESTIMATED, MIXED, NOTHING = (False, True), (True, False), (True, True), (False, False)


@pytest.mark.parametrize(
    ("table", "name", "expected"),
    [
        # On what the rows above rest on; the first of a lane rests on nothing.
        ("stalls", "before", [NOTHING, NOTHING, MEASURED, ESTIMATED, MIXED]),
        ("stalls", "guessed_before", [NOTHING, NOTHING, ESTIMATED, ESTIMATED, ESTIMATED]),
        # A place among others, on all that were compared.
        ("stalls", "place", [MIXED] * 5),
        # The place of a row, on what was compared to find it.
        ("stalls", "as_it", [MEASURED, ESTIMATED, ESTIMATED, MEASURED, ESTIMATED]),
        ("stalls", "is_first", [MEASURED, ESTIMATED, ESTIMATED, MEASURED, ESTIMATED]),
        ("lanes", "stall", [MEASURED, MIXED]),
        # A text of the first that is marked: the mark only chooses.
        ("town", "news", [ESTIMATED]),
        # Another expression in each row.
        ("lanes", "one_each", [MEASURED, ESTIMATED]),
    ],
)
def test_figures_that_go_through_other_rows(
    table: str, name: str, expected: list[tuple[bool, bool]]
) -> None:
    made, rows = stalls()
    assert marks(made, rows, table, name) == expected


def test_only_a_column_of_the_row_can_be_asked() -> None:
    table = Table.of("things", "thing", [Given("a"), Given("b")])
    define(table, "result", FLAG, lambda a, b: on_estimates(a + b))
    with pytest.raises(DefinitionError, match=r"on_estimates\(\) takes a column of the row itself"):
        book(table)
