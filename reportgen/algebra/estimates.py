"""Measured is not estimated: from a definition's tree, the tree of what it rests on.

``rests_on(tree, "estimated", ...)`` is a condition, live in the workbook like any other: true for
the rows whose value rests on an estimate, by the branch that was taken.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from reportgen.algebra.expr import Estimate, Expr, FirstKnown, Fixed, Logic, Where
from reportgen.algebra.nodes import Aggregate, Column, Find, Known, Parent, Rank, Single, children
from reportgen.algebra.tables import Table
from reportgen.units import ONE

Mark = Literal["estimated", "measured"]
Companion = Callable[[Table, str, Mark], Expr]


def rests_on(tree: Expr, mark: Mark, companion: Companion) -> Expr:
    """The condition that ``tree`` rests on something estimated, or something measured."""

    def visit(expr: Expr) -> Expr:
        match expr:
            case Column():
                return companion(expr.table, expr.name, mark)
            case Single():
                return _elsewhere(companion(expr.table, expr.name, mark), expr)
            case Parent():
                return _elsewhere(companion(expr.parent, expr.name, mark), expr)
            case Aggregate():
                return _of_rows(expr, mark, companion)
            case Rank() | Find() | Known():
                return _fixed(0)
            case Estimate():
                return _fixed(int(mark == "estimated"))
            case Where():
                # What only chooses the branch is not what the value rests on.
                return _choose(expr.condition, visit(expr.then), visit(expr.otherwise))
            case FirstKnown():
                *others, result = (visit(option) for option in expr.options)
                for option, rests in zip(
                    reversed(expr.options[:-1]), reversed(others), strict=True
                ):
                    result = _choose(Known("flag", ONE, option), rests, result)
                return result
        return _any(*(visit(part) for part in children(expr)))

    return visit(tree)


def _fixed(value: int) -> Expr:
    return Fixed("flag", ONE, value)


def _value(expr: Expr) -> int | str | None:
    return expr.value if isinstance(expr, Fixed) else None


def _elsewhere(found: Expr, expr: Single | Parent) -> Expr:
    """The companion column, read from where ``expr`` reads its column."""
    if not isinstance(found, Column):
        return found
    if isinstance(expr, Single):
        return Single("flag", ONE, expr.table, found.name, found.default)
    return Parent("flag", ONE, expr.table, expr.link, expr.parent, found.name, found.default)


def _of_rows(expr: Aggregate, mark: Mark, companion: Companion) -> Expr:
    if expr.name is None or expr.op == "missing":
        return _fixed(0)
    found = companion(expr.child, expr.name, mark)
    if _value(found) == 0:
        return found
    filters = expr.filters
    if isinstance(found, Column):
        filters = (*filters, found.name)
    return Aggregate("number", ONE, "count", expr.child, expr.link, None, filters, own=expr.own) > 0


def _choose(condition: Expr, then: Expr, otherwise: Expr) -> Expr:
    if _value(then) is not None and _value(then) == _value(otherwise):
        return then
    return Where("flag", ONE, condition, then, otherwise)


def _identity(expr: Expr) -> object:
    match expr:
        case Column() | Single():
            return type(expr), expr.table.name, expr.name
        case Parent():
            return type(expr), expr.link, expr.name
    return expr


def _any(*parts: Expr) -> Expr:
    if any(_value(part) == 1 for part in parts):
        return _fixed(1)
    left = tuple({_identity(part): part for part in parts if _value(part) != 0}.values())
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
