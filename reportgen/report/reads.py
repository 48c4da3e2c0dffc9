"""What one cell was worked out from: of a choice only the branch that was taken.

Which columns, and of which rows, the nodes say themselves; here the rows are found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from reportgen.algebra import reading
from reportgen.algebra.expr import DefinitionError, Expr, FirstKnown, Where
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Constant,
    Find,
    Parent,
    PerRow,
    Rank,
    Strays,
    Until,
)
from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.operations import below, folded, num
from reportgen.algebra.tables import Table


@dataclass(frozen=True)
class Cell:
    """One cell: a column of a table, and the number of the row."""

    table: Table
    name: str
    row: int

    @property
    def id(self) -> tuple[str, str, int]:
        """What tells it from other cells."""
        return self.table.name, self.name, self.row


@dataclass(frozen=True)
class Rows:
    """The cells of a column, of several rows of a table; none where there are no such rows."""

    table: Table
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class NoRow:
    """A parent's column where the link points to no row."""

    expr: Parent


Read = Cell | Rows | NoRow | Constant


class Reads:
    """Finds what cells were worked out from."""

    def __init__(self, numbers: Numbers) -> None:
        self.numbers = numbers

    def value(self, expr: Expr, row: int) -> Value:
        """An expression's value in a row."""
        return self.numbers.rule(expr)(row)

    def branch(self, expr: Where | FirstKnown, row: int) -> Expr | None:
        """The branch that was taken; none where none is known."""
        if isinstance(expr, FirstKnown):
            known = (each for each in expr.options if self.value(each, row) is not None)
            return next(known, None)
        holds = self.value(expr.condition, row)
        return None if holds is None else expr.then if holds else expr.otherwise

    def rows(self, expr: Aggregate, row: int) -> list[int]:
        """The child rows that an aggregate takes."""
        numbers, flags = self.numbers, list(expr.filters)
        found: Sequence[int] = range(numbers.rows(expr.child))
        if expr.link is not None and expr.own is not None:
            own = numbers.value(expr.own.table.name, expr.own.name, row)
            found = numbers.group(expr.child, expr.link).get(str(own).casefold(), [])
        if expr.op == "first" and expr.name is not None:
            flags.append(expr.name)
        if expr.under is not None and expr.bound is not None:
            days, limit = numbers.cells[expr.child.name][expr.under], self.value(expr.bound, row)
            found = below(days, limit, expr.under in expr.child.inputs, found)
        columns = [numbers.cells[expr.child.name][name] for name in flags]
        return [each for each in found if all(column[each] for column in columns)]

    def of(self, cell: Cell) -> list[Read]:
        """What a cell was worked out from, each once, in the order of its rule."""
        tree = cell.table.definitions[cell.name].tree
        assert tree is not None
        found: dict[object, Read] = {}
        for each in self._reads(tree, cell.row):
            found.setdefault(each.id if isinstance(each, Cell) else id(each), each)
        return list(found.values())

    def _reads(self, expr: Expr, row: int) -> Iterator[Read]:
        match expr:
            case Constant():
                yield expr
            case PerRow():
                yield from self._reads(expr.parts[row], row)
            case Where():
                yield from self._reads(expr.condition, row)
                taken = self.branch(expr, row)
                if taken is not None:
                    yield from self._reads(taken, row)
            case FirstKnown():
                taken = self.branch(expr, row)
                for option in expr.options if taken is None else (taken,):
                    yield from self._reads(option, row)
            case _:
                for part in expr.inner():
                    yield from self._reads(part, row)
                yield from self._columns(expr, row)

    def _columns(self, expr: Expr, row: int) -> Iterator[Read]:
        """The cells that a node reads by itself; of a count, what chose the rows it counted."""
        reads = [read for read in expr.reads() if read.name != "key"]
        resting = [read for read in reads if not read.chooses]
        for read in resting or reads:
            rows = self._rows(expr, read, row)
            if isinstance(rows, NoRow):
                yield rows
            else:
                cells = tuple(Cell(read.table, read.name, each) for each in rows)
                if read.rows in ("children", "ahead", "group"):
                    yield Rows(read.table, cells)
                else:
                    yield from cells

    def _rows(self, expr: Expr, read: reading.Read, row: int) -> Sequence[int] | NoRow:
        match expr, read.rows:
            case _, "own":
                return [row]
            case _, "single":
                return [0]
            case Parent(), "parent":
                there = self.numbers.found(expr.table, expr.link)[row]
                return NoRow(expr) if there is None else [there]
            case Aggregate(), "children":
                return self.rows(expr, row)
            case Strays(), "children":
                return range(self.numbers.rows(expr.table))
            case Aggregate(), "first":
                return self.rows(expr, row)[:1]
            case Until(), "children":
                return range(self.numbers.rows(expr.table))
            case Ahead(), "ahead":
                order = self.numbers.cells[expr.table.name][expr.order]
                rows = sorted(self._group(expr, row), key=lambda each: num(order[each]))
                return rows[: rows.index(row)] if row in rows else []
            case Rank(), "group":
                return self._group(expr, row)
            case Find(), "found":
                own = folded(self.value(expr.own, row))
                column = self.numbers.cells[expr.table.name][expr.name]
                equal = (n for n, each in enumerate(column) if folded(each) == own)
                return [] if own is None else list(islice(equal, 1))
        raise DefinitionError(f"reads: no rule for {type(expr).__name__}")

    def _group(self, expr: Ahead | Rank, row: int) -> Sequence[int]:
        """The rows with the same text as a row."""
        own = self.numbers.cells[expr.table.name][expr.link][row]
        return self.numbers.group(expr.table, expr.link).get(str(own).casefold(), [])
