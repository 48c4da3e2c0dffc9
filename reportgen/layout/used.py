"""What the formulas of a season use: constants, unit factors, links to other rows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from reportgen.algebra.expr import Convert, Expr
from reportgen.algebra.factors import Factor, conversion
from reportgen.algebra.nodes import Constant, RoundUp, walk
from reportgen.algebra.tables import PLACES, SMALLEST


def constants_of(trees: Iterable[Expr]) -> dict[str, Constant]:
    """The named constants that some expressions use, by name."""
    found = (node for tree in trees for node in walk(tree))
    return {node.name: node for node in found if isinstance(node, Constant)}


def used_constants(trees: Sequence[Expr]) -> dict[str, Constant]:
    """The named constants, by name; those that the renderer puts in are among them."""
    found = constants_of(trees)
    found[SMALLEST.name] = SMALLEST
    if any(isinstance(expr, RoundUp) for tree in trees for expr in walk(tree)):
        found[PLACES.name] = PLACES
    return found


def used_factors(trees: Sequence[Expr], slots: Mapping[str, str]) -> list[Factor]:
    """The factors between units that this season does not show alike."""
    found: dict[Factor, None] = {}
    for expr in (node for tree in trees for node in walk(tree)):
        if isinstance(expr, Convert):
            factor = conversion(expr.part.unit, expr.unit, slots)
            if factor is not None:
                found[factor] = None
    return list(found)
