"""What must be known for an expression to have a value.

Both renderers follow this: an expression is unknown when one of its needs is not met. A choice
(``where``, ``first_known``) asks only for the branch it takes, so it stands at the top of a
definition or in a branch of another choice; inside arithmetic it may stand only where its branches
are always known.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

from reportgen.algebra.book import Book
from reportgen.algebra.estimates import identity
from reportgen.algebra.expr import (
    Arithmetic,
    Compare,
    Convert,
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Logic,
    Unknown,
    Where,
)
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Broken,
    Call,
    Column,
    Constant,
    Find,
    Join,
    Known,
    OwnPlace,
    Parent,
    PerRow,
    Plain,
    Rank,
    RoundUp,
    Single,
    Strays,
    Until,
)


class Need(NamedTuple):
    """``value``: it is there. ``text``: it is not blank. ``divisor``: it is there and not 0.
    ``row``: the parent row is found. ``rows``: every row of a total is known. ``some``: one is.
    ``never``: there is nothing to be had."""

    kind: Literal["value", "text", "divisor", "row", "rows", "some", "never"]
    expr: Expr


@lru_cache(maxsize=4)
def guards_of(book: Book) -> Guards:
    """The guards of a book; its trees do not change, so they are those of every season."""
    return Guards(book)


class Guards:
    """The needs of expressions, given which columns of the book are always known."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._certain: dict[tuple[str, str], bool] = {}
        self._found: dict[Expr, list[Need]] = {}

    def needs(self, expr: Expr) -> list[Need]:
        """The needs of an expression that is no choice, without repeats."""
        if expr not in self._found:
            needs = self._needs(expr)
            self._found[expr] = _once(needs) if len(needs) > 1 else needs
        return self._found[expr]

    def certain(self, table: str, name: str) -> bool:
        """Whether a column has a value in every row that exists."""
        key = (table, name)
        if key not in self._certain:
            owner = self._book.tables[table]
            tree = owner.definitions[name].tree if name in owner.definitions else None
            self._certain[key] = tree is not None and self.always(tree)
        return self._certain[key]

    def always(self, expr: Expr) -> bool:
        """Whether an expression always has a value, choices included."""
        match expr:
            case Where():
                return (
                    self.always(expr.condition)
                    and self.always(expr.then)
                    and self.always(expr.otherwise)
                )
            case FirstKnown():
                return any(self.always(option) for option in expr.options)
            case Estimate() | Convert():
                return self.always(expr.part)
            case PerRow():
                return all(map(self.always, expr.parts))
        return not any(True for _ in self._needs(expr))

    def _needs(self, expr: Expr) -> list[Need]:
        match expr:
            case Fixed() | Constant() | Known() | Broken():
                return []
            case Unknown():
                return [Need("never", expr)]
            case Column() | Single():
                if expr.type == "text":
                    return [] if expr.name == "key" else [Need("text", expr)]
                if expr.default is not None:
                    return []
                return [] if self.certain(expr.table.name, expr.name) else [Need("value", expr)]
            case Parent():
                if expr.default is not None:
                    return [Need("row", expr)]
                return [Need("text" if expr.type == "text" else "value", expr)]
            case OwnPlace():
                return [Need("value", Column("number", expr.unit, expr.table, expr.name))]
            case Ahead():
                if not self.certain(expr.table.name, expr.order):
                    raise DefinitionError("the number that rows come in order of is always known")
                group = Need("text", Column("text", expr.unit, expr.table, expr.link))
                return [group, Need("rows", expr)]
            case Rank():
                # A row that belongs to no group has no place in one.
                return [
                    Need("text", Column("text", expr.unit, expr.table, expr.link)),
                    Need("value", Column(expr.type, expr.unit, expr.table, expr.name)),
                ]
            case Find():
                return [*self._needs(expr.own), *([] if expr.itself else [Need("some", expr)])]
            case Until():
                # The sum is known where all that the stretches are multiplied by is.
                rows = Aggregate("number", expr.unit, "total", expr.table, None, expr.name)
                return [*self._needs(expr.own), *self._of_rows(rows)]
            case Strays():
                return [Need("some", expr)] if expr.type == "text" else []
            case Aggregate():
                bound = [] if expr.bound is None else self._needs(expr.bound)
                return [*bound, *self._of_rows(expr)]
            case Compare() if expr.left.type == "text":
                # A blank text is compared as it is: it differs from every word.
                return [Need("row", part) for part in expr.inner() if isinstance(part, Parent)]
            case Where() if self.always(expr.then) and self.always(expr.otherwise):
                return self._needs(expr.condition)
            case FirstKnown() if self.always(expr):
                return []
            case Where() | FirstKnown():
                raise DefinitionError("a choice inside arithmetic: give it a name of its own")
            case Join():
                return [n for part in expr.parts for n in self._needs(part)]
            case RoundUp():
                return [
                    *self._needs(expr.value),
                    *self._needs(expr.step),
                    Need("divisor", expr.step),
                ]
            case Arithmetic(op="/"):
                above = self._needs(expr.left)
                return [*above, *self._divisor(expr.right)]
            case Call(op="sqrt" | "power"):
                # There is no root of what is below 0; an empty cell alone would be read as 0.
                return [*self._needs(expr.parts[0]), Need("value", expr)]
            case Arithmetic() | Call() | Compare() | Convert() | Estimate() | Logic() | Plain():
                return [need for part in expr.inner() for need in self._needs(part)]
        raise DefinitionError(f"guards: no rule for {type(expr).__name__}")

    def _divisor(self, expr: Expr) -> list[Need]:
        if isinstance(expr, Constant | Fixed):
            return []
        # A leaf that is there and not 0 is one need; a divisor worked out has needs of its own.
        # So has an input with a default of a parent, who may not be there.
        leaf = isinstance(expr, Column | Single) or (
            isinstance(expr, Parent) and expr.default is None
        )
        return [*([] if leaf else self._needs(expr)), Need("divisor", expr)]

    def _of_rows(self, expr: Aggregate) -> list[Need]:
        if expr.op in ("mean", "latest", "earliest", "first"):
            return [Need("some", expr)]
        if expr.op != "total" or expr.blank_is_zero or expr.name is None:
            return []
        return [] if self.certain(expr.child.name, expr.name) else [Need("rows", expr)]

    def exact(self, divisor: Expr) -> bool:
        """Whether a divisor was written down, so that it is 0 or is not; what was worked out
        counts as 0 when it is smaller than the smallest amount."""
        match divisor:
            case Column() | Single():
                return divisor.name in divisor.table.inputs
            case Parent():
                return divisor.name in divisor.parent.inputs
        return False


def _once(needs: list[Need]) -> list[Need]:
    found: dict[object, Need] = {}
    for need in needs:
        found.setdefault((need.kind, identity(need.expr)), need)
    return list(found.values())
