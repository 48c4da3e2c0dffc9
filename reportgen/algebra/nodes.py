"""The other nodes: what is read from tables, what functions make of it; and how to walk a tree."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, fields
from dataclasses import replace as with_fields
from typing import TYPE_CHECKING, Any, Literal

from reportgen.algebra.expr import (
    Arithmetic,
    Compare,
    Convert,
    Estimate,
    Expr,
    FirstKnown,
    Logic,
    Where,
)
from reportgen.algebra.phrases import HOLE, Say

if TYPE_CHECKING:
    from reportgen.algebra.tables import Table


@dataclass(frozen=True, eq=False)
class Column(Expr):
    """A column of the row itself. ``default``: what it is when left out, 0 or 1."""

    table: Table
    name: str
    default: int | None = None


@dataclass(frozen=True, eq=False)
class Parent(Expr):
    """A column of the row that ``link`` points to."""

    table: Table
    link: str
    parent: Table
    name: str
    default: int | None = None


@dataclass(frozen=True, eq=False)
class Single(Expr):
    """A column of a table that has one row."""

    table: Table
    name: str
    default: int | None = None


@dataclass(frozen=True, eq=False)
class Constant(Expr):
    """A named number with its source."""

    name: str
    value: float
    label: str
    source: str


@dataclass(frozen=True, eq=False)
class Aggregate(Expr):
    """Over the rows of ``child`` that point here by ``link`` (all rows where None), and of which
    every flag in ``filters`` is true.

    ``total``: the sum, unknown unless all are known. ``known``: the sum of the known ones.
    ``mean``: the mean of the known ones. ``count``: how many rows. ``missing``: how many rows
    lack the column. ``latest``, ``earliest``: the highest, the lowest of all rows (no link).
    ``first``: the text ``of`` the first row whose flag ``name`` is true.
    """

    op: Literal["total", "known", "mean", "count", "missing", "latest", "earliest", "first"]
    child: Table
    link: str | None
    name: str | None
    filters: tuple[str, ...] = ()
    blank_is_zero: bool = False
    own: Column | None = None
    """The row's own text or number that the child's must equal, where it is not the row's key."""
    of: str = "key"


@dataclass(frozen=True, eq=False)
class PerRow(Expr):
    """Another expression in each row: the column of a table whose rows stand for quantities."""

    parts: tuple[Expr, ...]


@dataclass(frozen=True, eq=False)
class Ahead(Expr):
    """The sum of a column over the rows that have the same ``link`` and come before by the number
    ``order``, rows of one number as they stand; unknown unless all of them are known."""

    table: Table
    link: str
    name: str
    order: str


@dataclass(frozen=True, eq=False)
class OwnPlace(Expr):
    """Whether a number is the row's own place in its table, from 1."""

    table: Table
    name: str


@dataclass(frozen=True, eq=False)
class Rank(Expr):
    """The rank of a column among the known rows with the same ``link``, from the lowest or from the
    highest, 1; ties in the order of the rows."""

    table: Table
    link: str
    name: str
    highest: bool = False


@dataclass(frozen=True, eq=False)
class Find(Expr):
    """The key of the first row of another table whose column equals one of the row itself; as a
    number, the row's place in its table."""

    table: Table
    name: str
    own: Column


@dataclass(frozen=True, eq=False)
class Call(Expr):
    """The least or greatest of some numbers, the size of one, its square root."""

    op: Literal["min", "max", "abs", "sqrt", "power"]
    parts: tuple[Expr, ...]


@dataclass(frozen=True, eq=False)
class RoundUp(Expr):
    """``value`` rounded up to a multiple of ``step`` (the quotient to 9 places first)."""

    value: Expr
    step: Expr


@dataclass(frozen=True, eq=False)
class Known(Expr):
    """Whether ``part`` has a value."""

    part: Expr


@dataclass(frozen=True, eq=False)
class Rests(Expr):
    """Whether ``part`` rests on estimates (or on measurements); the book puts a column in its
    place."""

    mark: Literal["estimated", "measured"]
    part: Column


@dataclass(frozen=True, eq=False)
class Plain(Expr):
    """A number as text, without trailing zeros, rounded to so many places."""

    part: Expr
    places: Expr


@dataclass(frozen=True, eq=False)
class Join(Expr):
    """A fixed text with others in its holes, ``{cost} {unit} packed``; another language has
    another pattern, with the holes in its own order."""

    pattern: str
    names: tuple[str, ...]
    parts: tuple[Expr, ...]

    def pieces(self, say: Say) -> list[str | Expr]:
        """Fixed texts and expressions by turns, in the order of a language."""
        split = HOLE.split(say(self.pattern))
        named = dict(zip(self.names, self.parts, strict=True))
        found = [named[piece] if at % 2 else piece for at, piece in enumerate(split)]
        return [piece for piece in found if not isinstance(piece, str) or piece]


def children(expr: Expr) -> tuple[Expr, ...]:
    """The nodes an expression is made of."""
    match expr:
        case Arithmetic() | Compare():
            return (expr.left, expr.right)
        case Logic() | Call() | Join() | PerRow():
            return expr.parts
        case RoundUp():
            return (expr.value, expr.step)
        case Where():
            return (expr.condition, expr.then, expr.otherwise)
        case FirstKnown():
            return expr.options
        case Plain():
            return (expr.part, expr.places)
        case Known() | Estimate() | Convert():
            return (expr.part,)
    return ()


def replace(expr: Expr, change: Callable[[Expr], Expr | None]) -> Expr:
    """The tree with every node for which ``change`` gives one replaced by it."""
    changed = change(expr)
    if changed is not None:
        return changed
    parts: dict[str, Any] = {}
    for each in fields(expr):
        value = getattr(expr, each.name)
        if isinstance(value, Expr):
            parts[each.name] = replace(value, change)
        elif isinstance(value, tuple) and value and isinstance(value[0], Expr):
            parts[each.name] = tuple(replace(v, change) for v in value)
    return with_fields(expr, **parts) if parts else expr


def constants_of(trees: Iterable[Expr]) -> dict[str, Constant]:
    """The named constants that some expressions use, by name."""
    found: dict[str, Constant] = {}

    def visit(expr: Expr) -> None:
        if isinstance(expr, Constant):
            found[expr.name] = expr
        for part in children(expr):
            visit(part)

    for tree in trees:
        visit(tree)
    return found
