"""The other nodes: what is read from tables, what functions make of it; and how to walk a tree."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields
from dataclasses import replace as with_fields
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal

from reportgen.algebra.expr import Expr
from reportgen.algebra.phrases import HOLE, Say
from reportgen.algebra.reading import Read, Rows

if TYPE_CHECKING:
    from reportgen.algebra.tables import Table


@dataclass(frozen=True, eq=False)
class Column(Expr):
    """A column of the row itself. ``default``: what it is when left out, 0 or 1."""

    table: Table
    name: str
    default: int | None = None

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.name, "own")


@dataclass(frozen=True, eq=False)
class Parent(Expr):
    """A column of the row that ``link`` points to."""

    table: Table
    link: str
    parent: Table
    name: str
    default: int | None = None

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.link, "own", chooses=True, located=True)
        yield Read(self.parent, "key", "parent", chooses=True)
        yield Read(self.parent, self.name, "parent")


@dataclass(frozen=True, eq=False)
class Single(Expr):
    """A column of a table that has one row."""

    table: Table
    name: str
    default: int | None = None

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.name, "single")


@dataclass(frozen=True, eq=False)
class Constant(Expr):
    """A named number with its source."""

    name: str
    value: float
    label: str
    source: str


@dataclass(frozen=True, eq=False)
class Aggregate(Expr):
    """Over the rows of ``child`` whose ``link`` equals the row's ``own`` text or number (all rows
    where None), of which every flag in ``filters`` is true and, where there is a ``bound``, the
    number or day ``under`` is below it: one that was left out is, one that is unknown is not.

    ``total``: the sum, unknown unless all are known. ``known``: the sum of the known ones.
    ``mean``: the mean of the known ones. ``count``: how many rows. ``missing``: how many rows
    lack the column. ``latest``, ``earliest``: the highest, the lowest of all rows (no link).
    ``first``: what ``of`` is in the first row whose flag ``name`` is true.
    """

    choosing = ("own", "bound")
    op: Literal["total", "known", "mean", "count", "missing", "latest", "earliest", "first"]
    child: Table
    link: str | None
    name: str | None
    filters: tuple[str, ...] = ()
    blank_is_zero: bool = False
    own: Column | None = None
    """The row's key, where the child's rows name it; else any text or number of the row."""
    of: str = "key"
    under: str | None = None
    bound: Column | None = None

    @property
    def linked(self) -> bool:
        """Whether the child's rows name this row, and do not just have something in common."""
        own = self.own
        return (
            own is not None
            and own.name == "key"
            and self.child.links.get(self.link or "") == own.table.name
        )

    def reads(self) -> Iterator[Read]:
        if self.link is not None:
            yield Read(self.child, self.link, "children", chooses=True, located=self.linked)
        if self.op == "first":
            yield Read(self.child, self.of, "first")
        if self.name is not None:
            chooses = self.op in ("missing", "first")
            yield Read(self.child, self.name, "children", chooses)
        for each in (*self.filters, *([self.under] if self.under else [])):
            yield Read(self.child, each, "children", chooses=True)


@dataclass(frozen=True, eq=False)
class Until(Expr):
    """Of a table whose rows are stretches from ``begin`` to ``end``: how much of them lies below
    the row's ``own``, each times its ``name`` where there is one; unknown unless all are known."""

    table: Table
    begin: str
    end: str
    name: str | None
    own: Column

    def reads(self) -> Iterator[Read]:
        read = (each for each in (self.begin, self.end, self.name) if each)
        yield from (Read(self.table, each, "children") for each in read)


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

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.link, "ahead", chooses=True)
        yield Read(self.table, self.order, "ahead", chooses=True)
        yield Read(self.table, self.name, "ahead")


@dataclass(frozen=True, eq=False)
class OwnPlace(Expr):
    """Whether a number is the row's own place in its table, from 1."""

    table: Table
    name: str

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.name, "own")


@dataclass(frozen=True, eq=False)
class Rank(Expr):
    """The rank of a column among the known rows with the same ``link``, from the lowest or from the
    highest, 1; ties in the order of the rows."""

    table: Table
    link: str
    name: str
    highest: bool = False

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, self.link, "group", chooses=True)
        yield Read(self.table, self.name, "group")


@dataclass(frozen=True, eq=False)
class Find(Expr):
    """The key of the first row of another table whose column equals one of the row itself; as a
    number, the row's place in its table."""

    table: Table
    name: str
    own: Column

    @property
    def itself(self) -> bool:
        """Whether the place is sought of the first row that is like the row itself."""
        own = self.own.table is self.table and self.own.name == self.name
        return own and self.type == "number"

    def reads(self) -> Iterator[Read]:
        yield Read(self.table, "key", "found", chooses=True)
        yield Read(self.table, self.name, "found")


@dataclass(frozen=True, eq=False)
class Strays(Expr):
    """How many cells of an input for numbers hold text; as a text, the address of the first."""

    table: Table
    name: str

    def reads(self) -> Iterator[Read]:
        rows: Rows = "single" if self.table.single else "children"
        yield Read(self.table, self.name, rows, chooses=True)


@dataclass(frozen=True, eq=False)
class Broken(Expr):
    """Whether the running columns of a workbook are no longer as they were built: rows were
    inserted or deleted among them. Outside of a workbook they never are."""


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

    choosing = ("part",)
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


@lru_cache(maxsize=1 << 14)
def walk(expr: Expr) -> tuple[Expr, ...]:
    """An expression and all it is made of; trees do not change, and are asked again and again."""
    found, left = [], [expr]
    while left:
        node = left.pop()
        found.append(node)
        left += [*node.inner()][::-1]
    return tuple(found)


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
