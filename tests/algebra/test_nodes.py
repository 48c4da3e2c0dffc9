"""Nodes are closed: every kind goes through every visitor, and one that is unknown is named."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

import pytest

from algebra.ferries import sailings
from algebra.toy import SLOTS
from algebra.toy_workbook import ToyPlaces
from reportgen.algebra import nodes
from reportgen.algebra.book import dependencies
from reportgen.algebra.estimates import Mark, identity, rests_on
from reportgen.algebra.expr import DefinitionError, Expr, Fixed
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.guards import Guards
from reportgen.algebra.nodes import (
    Aggregate,
    Column,
    PerRow,
    Rests,
    replace,
    walk,
)
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import FLAG, Definition, Table
from reportgen.algebra.words import Words
from reportgen.layout.used import constants_of, used_constants, used_factors
from reportgen.report.reads import Cell, Reads
from reportgen.report.spoken import Spoken
from reportgen.units import ONE


def kinds(of: type[Expr] = Expr) -> Iterator[type[Expr]]:
    """Every kind of node that the program has."""
    for kind in of.__subclasses__():
        if kind.__module__.startswith("reportgen."):
            yield kind
        yield from kinds(kind)


@cache
def examples() -> dict[type[Expr], tuple[Definition, Expr]]:
    """A node of each kind, and the definition it stands in."""
    found: dict[type[Expr], tuple[Definition, Expr]] = {}
    for definition in numbers().book:
        assert definition.tree is not None
        for node in walk(definition.tree):
            found.setdefault(type(node), (definition, node))
    port = numbers().book.definition("port", "all_late")
    amount = numbers().book.definition("trips", "best")
    assert port.tree is not None
    found[PerRow] = (port, PerRow("number", ONE, (port.tree, Fixed("number", ONE, 1))))
    own = Column("number", amount.kind.unit, amount.table, "best")
    # Said by the sheets' own check alone.
    found[nodes.Broken] = (port, nodes.Broken("flag", ONE))
    found[Rests] = (amount, Rests("flag", ONE, "estimated", own))
    return found


@cache
def numbers() -> Numbers:
    return sailings()


def companion(table: Table, name: str, mark: Mark) -> Expr:
    return numbers().book.companion(table, name, mark)


def through_formulas(definition: Definition, node: Expr) -> object:
    trial = Definition(definition.table, "trial", definition.kind, "", None, "trial", tree=node)
    formulas, places = Formulas(numbers().book, SLOTS), ToyPlaces(numbers())
    if isinstance(node, PerRow):
        return formulas.formulas(trial, places)
    return formulas.formula(trial, places)


def through_explain(definition: Definition, node: Expr) -> object:
    name = f"trial_{type(node).__name__}"
    table = definition.table
    table.definitions[name] = Definition(table, name, FLAG, "", None, name, tree=node)
    try:
        return Reads(numbers()).of(Cell(table, name, 0))
    finally:
        del table.definitions[name]


VISITORS: dict[str, Callable[[Definition, Expr], object]] = {
    "guards": lambda _, node: Guards(numbers().book).always(node),
    "estimated": lambda _, node: rests_on(node, "estimated", companion),
    "measured": lambda _, node: rests_on(node, "measured", companion),
    "numbers": lambda _, node: numbers().rule(node)(0),
    "formulas": through_formulas,
    "words": lambda _, node: Words(numbers().book, SLOTS).phrase(node),
    "spoken": lambda _, node: Spoken(Reads(numbers()), 0).phrase(node),
    "explain": through_explain,
}
"""What makes something else of each kind; what only walks is in ``WALKERS``."""

WALKERS: dict[str, Callable[[Expr], object]] = {
    "dependencies": dependencies,
    "constants": lambda node: constants_of([node]),
    "used constants": lambda node: used_constants([node]),
    "used factors": lambda node: used_factors([node], SLOTS),
    "replace": lambda node: replace(node, lambda each: None),
    "identity": identity,
}


def test_there_is_an_example_of_each_kind() -> None:
    assert {kind.__name__ for kind in set(kinds())} - {k.__name__ for k in examples()} == set()


@pytest.mark.parametrize("kind", sorted(set(kinds()), key=lambda kind: kind.__name__))
@pytest.mark.parametrize("visitor", [*VISITORS, *WALKERS])
def test_every_kind_goes_through_every_visitor(kind: type[Expr], visitor: str) -> None:
    definition, node = examples()[kind]
    if visitor in WALKERS:
        WALKERS[visitor](node)
    elif kind is Rests and visitor != "explain":
        # The book puts a column in its place; whoever meets one says so.
        with pytest.raises(DefinitionError, match=r"Rests|on_estimates"):
            VISITORS[visitor](definition, node)
    else:
        VISITORS[visitor](definition, node)


@pytest.mark.parametrize("kind", sorted(set(kinds()), key=lambda kind: kind.__name__))
def test_every_node_in_a_field_is_walked(kind: type[Expr]) -> None:
    _, node = examples()[kind]
    held = []
    for value in (getattr(node, name) for name in kind.__dataclass_fields__):
        several = value if isinstance(value, tuple) else (value,)
        held += [id(each) for each in several if isinstance(each, Expr)]
    assert [id(each) for each in node.inner()] == held
    assert {*map(id, node.inner(resting=True))} <= {*held}
    assert all(name in kind.__dataclass_fields__ for name in kind.choosing)


@pytest.mark.parametrize("kind", sorted(set(kinds()), key=lambda kind: kind.__name__))
def test_every_column_named_in_a_field_is_read(kind: type[Expr]) -> None:
    _, node = examples()[kind]
    read = [each.name for each in node.reads()]
    if not any(isinstance(getattr(node, name), Table) for name in kind.__dataclass_fields__):
        assert read == []
        return
    held = vars(node)
    named = [held.get("link"), held.get("name"), *held.get("filters", ())]
    assert {name for name in named if name is not None} <= {*read}


@dataclass(frozen=True, eq=False)
class Twice(Expr):
    """A kind of node that nobody knows."""

    part: Expr


@pytest.mark.parametrize(
    "visitor", [each for each in VISITORS if each not in ("estimated", "measured", "explain")]
)
def test_an_unknown_kind_is_named(visitor: str) -> None:
    definition, node = examples()[nodes.Column]
    with pytest.raises(DefinitionError, match="Twice"):
        VISITORS[visitor](definition, Twice("number", ONE, node))


def test_what_goes_by_the_declaration_is_right_for_an_unknown_kind() -> None:
    definition = numbers().book.definition("trips", "best")
    own = Column("number", definition.kind.unit, definition.table, "best")
    node = Twice("number", ONE, own)
    assert dependencies(node) == [("trips", "best")]
    found = rests_on(node, "estimated", companion)
    assert isinstance(found, Column) and found.name == "best_estimated"
    assert through_explain(definition, node) == [Cell(definition.table, "best", 0)]


def test_a_kind_that_holds_a_table_must_say_what_it_reads() -> None:
    with pytest.raises(TypeError, match="Silent holds a table and does not say what it reads"):

        class Silent(Expr):
            table: Table


def test_a_total_knows_whether_its_rows_name_the_row() -> None:
    by_link = next(n for _, n in _aggregates() if n.link == "boat")
    by_text = next(n for _, n in _aggregates() if n.link == "cause")
    assert by_link.linked and not by_text.linked


def _aggregates() -> Iterator[tuple[Definition, Aggregate]]:
    for definition in numbers().book:
        assert definition.tree is not None
        for node in walk(definition.tree):
            if isinstance(node, Aggregate):
                yield definition, node
