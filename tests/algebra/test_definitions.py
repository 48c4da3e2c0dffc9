"""Definitions that cannot be meant are refused when they load, before any data, and by name."""

from __future__ import annotations

from typing import Any

import pytest

from algebra.toy import SLOTS, Given, book, define, numbers, one_row, text
from reportgen.algebra.expr import Convert, DefinitionError
from reportgen.algebra.factors import conversion
from reportgen.algebra.functions import (
    count,
    first_known,
    greatest,
    join,
    known,
    least,
    median,
    round_up,
    square_root,
    total,
    where,
)
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT, Kind, Table, constant
from reportgen.units import DISTANCE, DRIED, FRESH, HOUR, KG, MONEY, ONE, Unit, factor

LB = Unit.of("lb")


def refusal(kind: Kind | Unit, body: Any, *inputs: Given, child: bool = False) -> str:
    """What loading a definition is refused with."""
    table = Table.of("things", "thing", inputs)
    items = Table.of("items", "item", [text("thing", "things"), Given("mass", KG), text("note")])
    define(table, "result", kind, body)
    with pytest.raises(DefinitionError) as caught:
        book(table, items) if child else book(table)
    said = str(caught.value)
    assert said.startswith("things.result: ") or "loop" in said
    return said.removeprefix("things.result: ")


cost, mass, time = Given("cost", MONEY), Given("mass", KG), Given("time", HOUR)


@pytest.mark.parametrize(
    ("kind", "body", "says"),
    [
        (MONEY, lambda cost, mass: cost + mass, "kg cannot become money"),
        (MONEY, lambda cost, mass: cost - mass, "kg cannot become money"),
        (MONEY / HOUR, lambda cost, mass: cost / mass, "money/kg cannot become money/h"),
        (MONEY, lambda cost, mass: cost * mass, "kg·money cannot become money"),
        (KG, lambda mass: mass + 1, "a plain number cannot become kg"),
        (FLAG, lambda cost, mass: cost > mass, "kg cannot become money"),
        (MONEY, lambda cost, mass: least(cost, mass), "kg cannot become money"),
        (MONEY, lambda cost, mass: greatest(cost, mass), "kg cannot become money"),
        (MONEY, lambda cost, mass: first_known(cost, mass), "kg cannot become money"),
        (MONEY, lambda cost, mass: where(cost > 0, cost, mass), "kg cannot become money"),
        (MONEY, lambda cost, mass: round_up(cost, mass), "kg cannot become money"),
        (ONE, lambda mass: square_root(mass), "the square root is taken of plain numbers"),
        (KG, lambda mass: mass * mass, "kg2 cannot become kg"),
        (ONE, lambda mass, cost: mass / cost, "kg/money cannot become a plain number"),
    ],
)
def test_units_that_do_not_fit_are_refused(kind: Unit, body: Any, says: str) -> None:
    assert says in refusal(kind, body, cost, mass)


@pytest.mark.parametrize(
    ("kind", "body", "says"),
    [
        (TEXT, lambda mass: mass, "declared a text, but the body gives a number"),
        (KG, lambda note: note, "declared a number, but the body gives a text"),
        (DATE, lambda mass: mass, "declared a date, but the body gives a number"),
        (KG, lambda note: note + 1, "+ on a text"),
        (KG, lambda mass, note: mass * note, "* on a text"),
        (FLAG, lambda note: note < "x", "texts have no order: <"),
        (FLAG, lambda mass, note: mass == note, "a text beside a number"),
        (FLAG, lambda mass: mass & mass, "a condition was wanted, not a number"),
        (KG, lambda mass: where(mass, mass, mass), "a condition was wanted, not a number"),
        (KG, lambda mass, note: where(mass > 0, mass, note), "a text beside a number"),
        (DATE, lambda day, mass: day + mass, "a date and kg cannot become d"),
        (DATE, lambda day: day + day, "a date + a date"),
        (DATE, lambda mass, day: mass - day, "a number - a date"),
        (KG, lambda mass: 5, "the body must return an expression"),
        (KG, lambda weight: weight, "no column, link or table is called weight"),
    ],
)
def test_types_that_do_not_fit_are_refused(kind: Kind | Unit, body: Any, says: str) -> None:
    assert says in refusal(kind, body, mass, text("note"), Given("day", type="date"))


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (lambda items: total(items.note), "total of items.note, which is a text"),
        (lambda items: total(items.mass, items.mass), "items.mass is no filter: not a flag"),
        (lambda items: count(items.mass), "items.mass is no filter: not a flag"),
        (lambda items: total(items.length), "items has no column length"),
    ],
)
def test_totals_of_what_has_none_are_refused(body: Any, says: str) -> None:
    assert says in refusal(KG, body, child=True)


@pytest.mark.parametrize("literal", [2, -1, 0.5, 1.0, True, 100, None])
def test_a_number_without_a_name_is_refused(literal: object) -> None:
    said = refusal(KG, lambda mass: mass * literal, mass)
    assert said == f"{literal!r} in a definition: give it a name, a unit and a source"


def test_a_symbol_has_no_truth_value() -> None:
    said = refusal(KG, lambda mass: mass if mass > 0 else 0 - mass, mass)
    assert said.startswith("an expression has no truth value: write where(condition, a, b)")
    said = refusal(FLAG, lambda mass: (mass > 0) and (mass < 1), mass)
    assert "& | ~ instead of and, or, not" in said


def test_a_loop_is_refused_by_name() -> None:
    table = Table.of("things", "thing", [])
    define(table, "hen", KG, lambda egg: egg)
    define(table, "egg", KG, lambda nest: nest)
    define(table, "nest", KG, lambda hen: hen)
    with pytest.raises(DefinitionError) as caught:
        book(table)
    loop = "things.hen → things.egg → things.nest → things.hen"
    assert str(caught.value) == f"these quantities depend on each other in a loop: {loop}"


def test_a_loop_through_another_table_is_refused() -> None:
    things = Table.of("things", "thing", [])
    items = Table.of("items", "item", [text("thing", "things")])
    define(things, "whole", KG, lambda items: total(items.part))
    define(items, "part", KG, lambda thing: thing.whole)
    with pytest.raises(DefinitionError, match=r"things\.whole → items\.part → things\.whole"):
        book(things, items)


def test_a_column_never_depends_on_itself() -> None:
    assert "loop: things.result → things.result" in refusal(KG, lambda result: result)


def test_what_is_defined_twice_or_says_nothing_is_refused() -> None:
    table = Table.of("things", "thing", [mass])
    with pytest.raises(DefinitionError, match=r"things\.mass is defined twice"):
        define(table, "mass", KG, lambda mass: mass)

    def silent(mass: Any) -> Any:
        return mass

    with pytest.raises(DefinitionError, match=r"things\.silent has no docstring"):
        table.derived(KG)(silent)


def test_two_ways_to_a_parent_are_refused() -> None:
    things = Table.of("things", "thing", [])
    items = Table.of("items", "item", [text("one", "things"), text("other", "things")])
    define(things, "made", COUNT, lambda items: count(items))
    with pytest.raises(DefinitionError, match=r"items points to things by \['one', 'other'\]"):
        book(things, items)


# --- conversions ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("source", "target", "value", "divide"),
    [
        # Exact by definition: NIST SP 811 (2008), appendix B; from memory, not seen.
        (LB, Unit.of("oz"), 16, False),
        (Unit.of("oz"), LB, 16, True),
        (LB, KG, 0.45359237, False),
        (KG, LB, 0.45359237, True),
        (Unit.of("g"), KG, 1000, True),
        (HOUR, Unit.of("min"), 60, False),
        (Unit.of("d"), HOUR, 24, False),
        (Unit.of("W") * HOUR, Unit.of("kWh"), 1000, True),
        (FRESH, DRIED, 16, False),  # as the season has it: lb and oz
        (MONEY / FRESH, MONEY / DRIED, 16, True),
        (DISTANCE, Unit.of("km"), 1.609344, False),
    ],
)
def test_a_conversion_is_one_exact_factor(
    source: Unit, target: Unit, value: float, divide: bool
) -> None:
    found = conversion(source, target, SLOTS)
    assert found is not None
    assert (float(found.value), found.divide) == (value, divide)


def test_no_factor_where_the_season_shows_one_unit() -> None:
    assert conversion(FRESH, DRIED, {"fresh": "kg", "dried": "kg"}) is None
    same = {"fresh": "kg", "dried": "kg", "money": "EUR", "distance": "km"}
    assert one_row(DRIED, lambda a, b: a + b, same, a=(2.0, FRESH), b=(3.0, DRIED)) == 5.0


@pytest.mark.parametrize(
    ("kind", "body", "value"),
    [
        # 2 lb and 8 oz: 2.5 lb, 40 oz (16 oz make 1 lb).
        (FRESH, lambda a, b: a + b, 2.5),
        (DRIED, lambda a, b: a + b, 40.0),
        (DRIED, lambda a, b: a - b, 24.0),
        # 2 lb over 8 oz is 4, whatever the units.
        (ONE, lambda a, b: a / b, 4.0),
        (ONE, lambda a, b: b / a, 0.25),
        (DRIED, lambda a, b: least(a, b), 8.0),
        (FRESH, lambda a, b: greatest(b, a), 2.0),
        (FLAG, lambda a, b: a > b, True),
        (DRIED, lambda a, b: first_known(a, b), 32.0),
        (DRIED, lambda a, b: where(a > b, a, b), 32.0),
        (DRIED, lambda a, b: round_up(a, b), 32.0),
    ],
)
def test_units_of_one_dimension_are_converted(kind: Kind | Unit, body: Any, value: float) -> None:
    assert one_row(kind, body, a=(2.0, FRESH), b=(8.0, DRIED)) == value


def test_the_conversion_is_in_the_tree_once() -> None:
    table = Table.of("things", "thing", [Given("a", KG), Given("b", LB)])
    define(table, "result", KG, lambda a, b: a + b)
    tree: Any = book(table).definition("things", "result").tree
    assert isinstance(tree.right, Convert) and not isinstance(tree.left, Convert)
    assert (tree.right.part.unit, tree.right.unit) == (LB, KG)
    assert factor(LB, KG) == factor(LB, Unit.of("g")) / 1000


def test_an_amount_by_another_is_converted_as_one() -> None:
    # 12 kWh for 3 lb: 4 kWh/lb, and 1 kg is 1/0.45359237 lb, so 4/0.45359237 kWh/kg.
    value = one_row(
        Unit.of("kWh", kg=-1), lambda a, b: a / b, a=(12.0, Unit.of("kWh")), b=(3.0, FRESH)
    )
    assert value == pytest.approx(4 / 0.45359237, rel=1e-15)


def test_dates_count_days() -> None:
    # Days are counted from 1899-12-30, as a spreadsheet does: 2026-09-06 18:30 is 46271 + 18.5/24.
    table = Table.of(
        "things", "thing", [Given("start", type="date"), Given("end", type="date"), time]
    )
    define(table, "lasted", HOUR, lambda start, end: end - start)
    define(table, "due", DATE, lambda start, time: start + time)
    define(table, "began", DATE, lambda end, time: end - time)
    define(table, "first", DATE, lambda start, end: least(start, end))
    define(table, "late", FLAG, lambda start, end: end > start)
    row = {"start": [46271 + 18.5 / 24], "end": [46273.0], "time": [34.5]}
    found = numbers(book(table), {"things": row})
    assert found.value("things", "lasted") == pytest.approx(29.5)
    assert found.value("things", "due") == pytest.approx(46271 + 53 / 24)
    assert found.value("things", "began") == pytest.approx(46273 - 34.5 / 24)
    assert found.value("things", "first") == row["start"][0]
    assert found.value("things", "late") is True


def test_zero_has_every_unit_and_one_has_none() -> None:
    assert one_row(KG, lambda mass: greatest(mass, 0), mass=(-3.0, KG)) == 0
    assert one_row(KG, lambda mass: 0 - mass, mass=(3.0, KG)) == -3
    assert one_row(KG, lambda mass: where(mass > 0, mass, 0), mass=(-3.0, KG)) == 0
    assert one_row(ONE, lambda share: 1 - share, share=0.25) == 0.75
    assert "cannot become kg" in refusal(KG, lambda mass: greatest(mass, 1), mass)


# --- order --------------------------------------------------------------------------------------


def _made() -> Numbers:
    things = Table.of("things", "thing", [mass])
    items = Table.of("items", "item", [text("thing", "things"), cost])
    half = constant("half", 0.5, ONE, "Half", "definition")
    define(things, "third", KG, lambda second: second * half)
    define(things, "second", KG, lambda first: first * half)
    define(things, "first", KG, lambda mass, spent: mass + mass * (spent / spent))
    define(things, "spent", MONEY, lambda items: total(items.cost))
    define(things, "middle", MONEY, lambda items: median(items.paid))
    define(items, "paid", MONEY, lambda cost: cost)
    define(items, "has", FLAG, lambda cost: known(cost))
    define(items, "label", TEXT, lambda thing: join(thing, "!"))
    return numbers(
        book(things, items),
        {
            "things": {"key": ["a", "b"], "mass": [2.0, 3.0]},
            "items": {"key": ["i", "j"], "thing": ["a", "b"], "cost": [5.0, 7.0]},
        },
    )


def test_definitions_are_sorted_by_what_they_need_always_alike() -> None:
    first, second = _made(), _made()
    names = [definition.key for definition in first.book]
    assert names == [definition.key for definition in second.book]
    assert first.cells == second.cells
    at = {key: place for place, key in enumerate(names)}
    for before, after in (("spent", "first"), ("first", "second"), ("second", "third")):
        assert at["things", before] < at["things", after]
    assert first.cells["things"]["third"] == [1.0, 1.5]
