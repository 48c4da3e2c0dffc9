"""Faults made by machine from the trees of definitions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields
from dataclasses import replace as with_fields
from typing import Any

from reportgen.algebra.book import Book
from reportgen.algebra.expr import (
    DAYS,
    Arithmetic,
    Compare,
    Convert,
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Logic,
    Where,
    convert,
)
from reportgen.algebra.guards import Guards
from reportgen.algebra.nodes import (
    Aggregate,
    Call,
    Column,
    Constant,
    Join,
    Known,
    Parent,
    PerRow,
    Rank,
    RoundUp,
    Single,
)
from reportgen.algebra.tables import Definition, Table
from reportgen.algebra.words import Words
from reportgen.units import ONE

Change = tuple[str, Expr]
MADE_BY_THE_ALGEBRA = ("estimated", "measured")
"""Roles of columns that follow from other definitions' trees: a fault there is the algebra's."""


@dataclass(frozen=True)
class Fault:
    """A definition with another tree."""

    table: str
    name: str
    kind: str
    before: str
    after: str
    tree: Expr

    @property
    def id(self) -> str:
        """What it is, in words that stay while other definitions change."""
        return f"{self.table}.{self.name} | {self.kind} | {self.before} → {self.after}"


def every_fault(book: Book) -> tuple[list[Fault], int]:
    """All faults of a book, and how many more the units refuse."""
    found: dict[str, Fault] = {}
    refused = 0
    words, guards = Words(book, {}), Guards(book)
    for at, definition in enumerate(book.order):
        if definition.tree is None or definition.role in MADE_BY_THE_ALGEBRA:
            continue
        before = {each.key for each in book.order[:at]}
        for node, put in _nodes(definition.tree):
            for kind, changed in _faults(node, definition, before):
                if _same(node, changed, guards):
                    continue
                try:
                    tree = put(_fitted(changed, node))
                except DefinitionError:
                    refused += 1
                    continue
                said, becomes = words.phrase(node)[0], words.phrase(changed)[0]
                fault = Fault(*definition.key, kind, str(said), str(becomes), tree)
                if fault.id in found:
                    again = sum(each.startswith(fault.id) for each in found)
                    fault = with_fields(fault, kind=f"{kind} (place {again + 1})")
                found[fault.id] = fault
    return list(found.values()), refused


def _same(node: Expr, changed: Expr, guards: Guards) -> bool:
    """Whether a total is of a column that every row has, so that as far as known is all of it."""
    if not isinstance(node, Aggregate) or not isinstance(changed, Aggregate):
        return False
    if (node.op, changed.op) != ("total", "known"):
        return False
    return node.blank_is_zero or guards.certain(node.child.name, str(node.name))


def other_values(book: Book) -> list[Fault]:
    """A fault for each definition: another value in every row that has one."""
    return [
        Fault(*each.key, "another value", "its value", "one beside it", _beside(each.tree))
        for each in book.order
        if each.tree is not None and each.role not in MADE_BY_THE_ALGEBRA
    ]


def _beside(tree: Expr) -> Expr:
    match tree.type:
        case "flag":
            return Logic("flag", ONE, "not", (tree,))
        case "text":
            return Join("text", ONE, "{text}'", ("text",), (tree,))
        case "date":
            return Arithmetic("date", ONE, "+", tree, Fixed("number", DAYS, 1))
    return Arithmetic("number", tree.unit, "+", tree, Fixed("number", tree.unit, 1))


def _fitted(changed: Expr, node: Expr) -> Expr:
    """The node's successor in its unit; refused where it is of another type or dimension."""
    if changed.type != node.type:
        raise DefinitionError("another type")
    return convert(changed, node.unit) if node.type == "number" else changed


def _nodes(tree: Expr) -> Iterator[tuple[Expr, Callable[[Expr], Expr]]]:
    """Every node of a tree, with what puts another in its place."""
    yield tree, lambda changed: changed
    for each in fields(tree):
        value: Any = getattr(tree, each.name)
        parts = value if isinstance(value, tuple) else (value,)
        for at, part in enumerate(parts):
            if not isinstance(part, Expr):
                continue

            def put(changed: Expr, name: str = each.name, at: int = at, whole: Any = value) -> Expr:
                many = isinstance(whole, tuple)
                new = (*whole[:at], changed, *whole[at + 1 :]) if many else changed
                return with_fields(tree, **{name: new})

            for node, inner in _nodes(part):
                yield node, lambda changed, put=put, inner=inner: put(inner(changed))


# --- what can be wrong with a node ----------------------------------------------------------------

_TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "<>", "<>": "="}
_EDGE = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
_AGGREGATES = {
    "total": "known", "known": "mean", "mean": "known", "count": None, "missing": "count",
    "latest": "earliest", "earliest": "latest", "first": None,
}  # fmt: skip


def _faults(node: Expr, definition: Definition, before: set[tuple[str, str]]) -> Iterator[Change]:
    match node:
        case Arithmetic():
            yield from _arithmetic(node)
        case Compare():
            yield "a comparison turned", with_fields(node, op=_TURNED[node.op])
            if node.op in _EDGE:
                yield "the edge of a comparison", with_fields(node, op=_EDGE[node.op])
        case Logic(op="not"):
            yield "a not dropped", node.parts[0]
        case Logic():
            yield "and and or exchanged", with_fields(node, op="or" if node.op == "and" else "and")
            yield from _dropped("a condition dropped", node)
        case Where():
            then, otherwise = node.then, node.otherwise
            yield "branches exchanged", with_fields(node, then=otherwise, otherwise=then)
            yield "a guard left out", then
            yield "a case left out", otherwise
        case FirstKnown():
            yield from _dropped("an option left out", node, "options")
            yield "options turned round", with_fields(node, options=node.options[::-1])
        case Estimate():
            yield "an estimate not marked", node.part
        case Convert():
            yield "a conversion left out", with_fields(node.part, unit=node.unit)
        case Known():
            yield "a guard left out", Fixed("flag", ONE, 1)
            yield "a guard turned", Logic("flag", ONE, "not", (node,))
        case Call(op="min" | "max"):
            yield (
                "least and greatest exchanged",
                with_fields(node, op="max" if node.op == "min" else "min"),
            )
            yield from _dropped("a part dropped", node)
        case Call(op="power"):
            yield "base and exponent exchanged", with_fields(node, parts=node.parts[::-1])
            yield "a power dropped", node.parts[0]
        case Call():
            yield f"{node.op} dropped", node.parts[0]
        case RoundUp():
            yield "a rounding left out", node.value
        case Rank():
            yield "counted from the other end", with_fields(node, highest=not node.highest)
        case Join() | PerRow():
            for at, (one, other) in enumerate(zip(node.parts, node.parts[1:], strict=False)):
                parts = (*node.parts[:at], other, one, *node.parts[at + 2 :])
                if one.type == other.type:
                    yield "parts exchanged", with_fields(node, parts=parts)
        case Constant():
            yield "another number", with_fields(node, value=node.value * 2)
        case Aggregate():
            yield from _aggregate(node)
    yield from _columns(node, definition, before)


def _arithmetic(node: Arithmetic) -> Iterator[Change]:
    left, right = node.left, node.right
    match node.op:
        case "+":
            yield "a term dropped", left
            yield "a term dropped", right
            yield "+ become −", with_fields(node, op="-")
        case "-":
            yield "operands exchanged", with_fields(node, left=right, right=left)
            yield "a term dropped", left
            yield "− become +", with_fields(node, op="+")
        case "*":
            yield "a factor dropped", left
            yield "a factor dropped", right
            yield "× become ÷", with_fields(node, op="/", unit=left.unit / right.unit)
        case "/":
            turned = with_fields(node, left=right, right=left, unit=right.unit / left.unit)
            yield "operands exchanged", turned
            yield "a divisor dropped", left
            yield "÷ become ×", with_fields(node, op="*", unit=left.unit * right.unit)


def _dropped(kind: str, node: Any, name: str = "parts") -> Iterator[Change]:
    parts = getattr(node, name)
    for at in range(len(parts)):
        left = (*parts[:at], *parts[at + 1 :])
        yield kind, left[0] if len(left) == 1 else with_fields(node, **{name: left})


def _aggregate(node: Aggregate) -> Iterator[Change]:
    other = _AGGREGATES[node.op]
    if other == "count":
        yield "all rows counted", with_fields(node, op="count", name=None)
    elif other:
        yield f"{node.op} become {other}", with_fields(node, op=other)
    for at in range(len(node.filters)):
        filters = (*node.filters[:at], *node.filters[at + 1 :])
        yield "a filter dropped", with_fields(node, filters=filters)
    if node.link is not None:
        yield "all rows, not its own", with_fields(node, link=None, own=None)


def _columns(node: Expr, definition: Definition, before: set[tuple[str, str]]) -> Iterator[Change]:
    """The column next to it of the same type and unit; what is left out no longer 0."""
    match node:
        case Column() | Single() | Aggregate(name=str()):
            table = node.child if isinstance(node, Aggregate) else node.table
        case Parent():
            table = node.parent
        case _:
            return
    other = _neighbour(table, str(node.name), before)
    if other is not None:
        yield "the wrong column", with_fields(node, name=other)
    if getattr(node, "default", None) is not None:
        yield "left out is unknown", with_fields(node, default=None)


def _neighbour(table: Table, name: str, before: set[tuple[str, str]]) -> str | None:
    """Another column that could stand in for one, and is worked out earlier; the next one round."""
    if name == "key" or name in table.links:
        return None
    kind = table.kind_of(name)
    alike = [
        each
        for each in (*table.inputs, *table.definitions)
        if (each in table.inputs or (table.name, each) in before)
        and each not in table.links
        and (table.kind_of(each).type, table.kind_of(each).unit) == (kind.type, kind.unit)
    ]
    if name not in alike:
        alike.append(name)
    return alike[(alike.index(name) + 1) % len(alike)] if len(alike) > 1 else None
