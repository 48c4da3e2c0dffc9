"""What the parameters of a definition are: own columns, a parent, child rows, a single table."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from reportgen.algebra.expr import DefinitionError, Expr
from reportgen.algebra.nodes import Aggregate, Column, Parent, Single
from reportgen.algebra.tables import Table
from reportgen.units import ONE

if TYPE_CHECKING:
    from reportgen.algebra.book import Book


def default_of(table: Table, name: str) -> int | None:
    """What an input is when it is left out: 0, 1 or, for most, nothing."""
    found = table.inputs.get(name)
    return None if found is None else 0 if found.zero else 1 if found.one else None


@dataclass(frozen=True, eq=False)
class Link(Column):
    """The column that holds a parent's id; its attributes are the parent row's columns."""

    parent: Table = field(kw_only=True)

    def __getattr__(self, name: str) -> Expr:
        if name.startswith("_"):
            raise AttributeError(name)
        kind, default = self.parent.kind_of(name), default_of(self.parent, name)
        return Parent(kind.type, kind.unit, self.table, self.name, self.parent, name, default)


class SingleRow:
    """A table that has one row; its attributes are its columns."""

    def __init__(self, table: Table) -> None:
        self._table = table

    def __getattr__(self, name: str) -> Expr:
        kind, default = self._table.kind_of(name), default_of(self._table, name)
        return Single(kind.type, kind.unit, self._table, name, default)


class Children:
    """The rows of another table that point here; attributes are their columns, for totals."""

    def __init__(
        self,
        book: Book,
        child: Table,
        link: str | None,
        own: Column | None = None,
        under: str | None = None,
        bound: Column | None = None,
    ) -> None:
        self.book, self.child, self.link, self.own = book, child, link, own
        self.under, self.bound = under, bound

    def __getattr__(self, name: str) -> ChildColumn:
        self.child.kind_of(name)
        return ChildColumn(self, name)


def counted(rows: Children, filters: tuple[str, ...]) -> Expr:
    """How many of the rows have every flag in ``filters``."""
    return Aggregate(
        "number", ONE, "count", rows.child, rows.link, None, filters,
        own=rows.own, under=rows.under, bound=rows.bound,
    )  # fmt: skip


@dataclass(frozen=True)
class ChildColumn:
    """A column of the child rows: what a total is taken of, or a filter."""

    rows: Children
    name: str

    @property
    def filter_name(self) -> str:
        """The column's name, which must hold truth values to be a filter."""
        if self.rows.child.kind_of(self.name).type != "flag":
            raise DefinitionError(f"{self.rows.child.name}.{self.name} is no filter: not a flag")
        return self.name

    def aggregate(
        self,
        op: Literal["total", "known", "mean", "missing", "latest", "earliest"],
        filters: tuple[ChildColumn, ...],
    ) -> Expr:
        """The aggregate node over these rows."""
        child, kind = self.rows.child, self.rows.child.kind_of(self.name)
        if self.rows.under and op not in ("total", "known", "missing"):
            raise DefinitionError(f"{op} of {child.name}.{self.name} before a day")
        if kind.type != ("date" if op in ("latest", "earliest") else "number") and op != "missing":
            raise DefinitionError(f"{op} of {child.name}.{self.name}, which is a {kind.type}")
        found = child.inputs.get(self.name)
        if found and found.one:
            # A sheet adds up what stands in the cells, and a blank one counts as nothing.
            raise DefinitionError(
                f"{child.name}.{self.name} is 1 where it is left out: {op} a quantity of it"
            )
        return Aggregate(
            "number" if op == "missing" else kind.type,
            ONE if op == "missing" else kind.unit,
            op,
            child,
            self.rows.link,
            self.name,
            tuple(each.filter_name for each in filters),
            bool(found and found.zero),
            self.rows.own,
            under=self.rows.under,
            bound=self.rows.bound,
        )

    def before(self, own: Expr) -> Children:
        """Of the rows, those of which this number or day is below one of the row itself: one that
        was left out comes before all, one that was worked out and is unknown does not."""
        rows, kind = self.rows, self.rows.child.kind_of(self.name)
        if rows.link is None or not isinstance(own, Column) or own.default is not None:
            raise DefinitionError("before() compares rows of a group with a column of the row")
        if (kind.type, kind.unit) != (own.type, own.unit) or kind.type not in ("number", "date"):
            raise DefinitionError("before() compares numbers of one unit, or days")
        return Children(rows.book, rows.child, rows.link, rows.own, self.name, own)

    def middle(self) -> ChildColumn:
        """A flag column of the child: whether the row is in the middle of its group."""
        return ChildColumn(self.rows, self.rows.book.middle_of(self))

    def rank_one(self) -> ChildColumn:
        """A flag column of the child: whether the row is the lowest of its group."""
        return ChildColumn(self.rows, self.rows.book.first_of(self))
