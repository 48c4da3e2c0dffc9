"""Measured is not estimated: from a definition's tree, the tree of what it rests on.

``rests_on(tree, "estimated", ...)`` is a condition, live in the workbook like any other: true for
the rows whose value rests on an estimate, by the branch that was taken.

A value rests on all that it was worked out from, as the nodes declare it (``Expr.reads``), but for
what only chooses: the condition of a ``where``, the filters of a total, the link to a parent, what
is only asked whether it is known. A rank rests on all that was ranked, and the place of a row, as a
number or a key, on what was compared to find it; where rank, place or key only choose the rows of a
total or the row of a parent, they count for nothing, as any filter or link. A count and the number
of those missing rest on no value.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any, Literal

from reportgen.algebra.expr import (
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Logic,
    Where,
)
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Column,
    Find,
    Known,
    OwnPlace,
    Parent,
    PerRow,
    Rank,
    Rests,
    Single,
    Until,
)
from reportgen.algebra.reading import Read
from reportgen.algebra.tables import Table
from reportgen.units import ONE

Mark = Literal["estimated", "measured"]
Companion = Callable[[Table, str, Mark], Expr]


def rests_on(tree: Expr, mark: Mark, companion: Companion) -> Expr:
    """The condition that ``tree`` rests on something estimated, or something measured."""

    def visit(expr: Expr) -> Expr:
        match expr:
            case Estimate():
                return _fixed(int(mark == "estimated"))
            case Where():
                return _choose(expr.condition, visit(expr.then), visit(expr.otherwise))
            case FirstKnown():
                *others, result = (visit(option) for option in expr.options)
                for option, rests in zip(
                    reversed(expr.options[:-1]), reversed(others), strict=True
                ):
                    result = _choose(Known("flag", ONE, option), rests, result)
                return result
            case PerRow():
                return _per_row(tuple(map(visit, expr.parts)))
            case Rests():
                raise DefinitionError("estimates: on_estimates() has no answer yet")
        reads = (read for read in expr.reads() if not read.chooses)
        marked = ((read, companion(read.table, read.name, mark)) for read in reads)
        return _any(
            *(_of_rows(expr, read, found) for read, found in marked),
            *(visit(part) for part in expr.inner(resting=True)),
        )

    return visit(tree)


def _fixed(value: int) -> Expr:
    return Fixed("flag", ONE, value)


def _value(expr: Expr) -> int | str | None:
    return expr.value if isinstance(expr, Fixed) else None


def _of_rows(node: Expr, read: Read, found: Expr) -> Expr:
    """Whether one of the rows that a node reads is marked by ``found``: a column of their table,
    or the literal 0 or 1 for all of them."""
    if _value(found) == 0:
        return found
    name = found.name if isinstance(found, Column) else None
    flags = () if name is None else (name,)
    match node, read.rows:
        case ((Column() | Single() | Parent()), _):
            # The same row, another column.
            if name is None:
                return found
            default = found.default if isinstance(found, Column) else None
            return replace(node, type="flag", unit=ONE, name=name, default=default)
        case Aggregate(), "children":
            counted = replace(node, type="number", unit=ONE, op="count", name=None)
            return replace(counted, filters=(*node.filters, *flags)) > 0
        case Aggregate(), "first":
            if name is not None:
                return replace(node, type="flag", of=name)
            assert node.name is not None
            return _count(node.child, node.link, node.own, (node.name,))
        case Until(), "children":
            return _count(node.table, None, None, flags)
        case Ahead(), "ahead":
            # Of rows that are all marked, a sum of 0 rests on nothing: there are none, or only 0.
            return node != 0 if name is None else replace(node, unit=ONE, name=name) > 0
        case Rank(), "group":
            own = Column("text", ONE, node.table, node.link)
            return _count(node.table, node.link, own, flags)
        case Find(), "found":
            return _count(node.table, node.name, node.own, flags)
        case OwnPlace(), "own":
            return found
    raise DefinitionError(f"estimates: no rule for {type(node).__name__}")


def _count(table: Table, link: str | None, own: Column | None, filters: tuple[str, ...]) -> Expr:
    """Whether there are such rows."""
    return Aggregate("number", ONE, "count", table, link, None, filters, own=own) > 0


def _per_row(parts: tuple[Expr, ...]) -> Expr:
    if all(_value(part) is not None and _value(part) == _value(parts[0]) for part in parts):
        return parts[0]
    return PerRow("flag", ONE, parts)


def _choose(condition: Expr, then: Expr, otherwise: Expr) -> Expr:
    if _value(then) is not None and _value(then) == _value(otherwise):
        return then
    return Where("flag", ONE, condition, then, otherwise)


def _any(*parts: Expr) -> Expr:
    if any(_value(part) == 1 for part in parts):
        return _fixed(1)
    left = tuple({identity(part): part for part in parts if _value(part) != 0}.values())
    if not left:
        return _fixed(0)
    if len(left) == 1:
        return left[0]
    choice = next((part for part in left if isinstance(part, Where)), None)
    if choice is not None:
        # A choice stands at the top of its formula.
        others = [part for part in left if part is not choice]
        then, otherwise = _any(*others, choice.then), _any(*others, choice.otherwise)
        return _choose(choice.condition, then, otherwise)
    return Logic("flag", ONE, "or", left)


def identity(expr: Expr) -> object:
    """Equal for nodes that read the same; one that reads nothing by itself is like no other."""
    if next(expr.reads(), None) is None:
        return id(expr)
    # A link is a column, whatever can be read through it.
    kind = Column if isinstance(expr, Column) else type(expr)
    found = (getattr(expr, each.name) for each in fields(kind) if each.name not in _SAID)
    return kind, *(_plain(value) for value in found)


_SAID = ("type", "unit", "default")
"""What follows from the column that is read."""


def _plain(value: Any) -> object:
    return identity(value) if isinstance(value, Expr) else getattr(value, "name", value)
