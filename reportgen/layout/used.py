"""What the formulas of a season use: constants, unit factors, links to other rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportgen.algebra.expr import Convert, Expr
from reportgen.algebra.factors import Factor, conversion
from reportgen.algebra.nodes import (
    Aggregate,
    Constant,
    Parent,
    RoundUp,
    children,
    constants_of,
)
from reportgen.algebra.tables import PLACES, SMALLEST


def _walk(trees: Sequence[Expr]) -> list[Expr]:
    found: list[Expr] = []
    stack = list(reversed(trees))
    while stack:
        expr = stack.pop()
        found.append(expr)
        stack.extend(reversed(children(expr)))
    return found


def used_constants(trees: Sequence[Expr]) -> dict[str, Constant]:
    """The named constants, by name; those that the renderer puts in are among them."""
    found = constants_of(trees)
    found[SMALLEST.name] = SMALLEST
    walked = _walk(trees)
    if any(isinstance(expr, RoundUp) for expr in walked):
        found[PLACES.name] = PLACES
    return found


def used_factors(trees: Sequence[Expr], slots: Mapping[str, str]) -> list[Factor]:
    """The factors between units that this season does not show alike."""
    found: dict[Factor, None] = {}
    for expr in _walk(trees):
        if isinstance(expr, Convert):
            factor = conversion(expr.part.unit, expr.unit, slots)
            if factor is not None:
                found[factor] = None
    return list(found)


def used_links(trees: Sequence[Expr]) -> set[tuple[str, str]]:
    """The links by which some formula reads a parent or adds up children."""
    found = set()
    for expr in _walk(trees):
        if isinstance(expr, Parent):
            found.add((expr.table.name, expr.link))
        elif isinstance(expr, Aggregate) and expr.link is not None and expr.own is None:
            found.add((expr.child.name, expr.link))
    return found
