"""What one cell was worked out from: of a choice only the branch that was taken."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reportgen.algebra.expr import Expr, FirstKnown, Where
from reportgen.algebra.nodes import (
    Aggregate,
    Column,
    Constant,
    Parent,
    PerRow,
    Rank,
    Single,
    children,
)
from reportgen.algebra.numbers import Numbers, Value
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
    """The cells that an aggregate was taken of; none where there are no such rows."""

    expr: Aggregate
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
        numbers, child = self.numbers, expr.child
        if expr.link is None:
            found = list(range(numbers.rows(child)))
        else:
            parent, name = child.links.get(expr.link, ""), "key"
            if expr.own is not None:
                parent, name = expr.own.table.name, expr.own.name
            keys = numbers.cells[parent][name]
            found = numbers.group(child, expr.link).get(str(keys[row]).casefold(), [])
        columns = [numbers.cells[child.name][name] for name in expr.filters]
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
            case Column():
                if expr.name != "key":
                    yield Cell(expr.table, expr.name, row)
            case Single():
                yield Cell(expr.table, expr.name, 0)
            case Parent():
                found = self.numbers.found(expr.table, expr.link)[row]
                yield NoRow(expr) if found is None else Cell(expr.parent, expr.name, found)
            case Constant():
                yield expr
            case Aggregate():
                name = expr.name
                rows = self.rows(expr, row)
                cells = () if name is None else tuple(Cell(expr.child, name, r) for r in rows)
                yield Rows(expr, cells)
            case Rank():
                yield Cell(expr.table, expr.name, row)
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
                for part in children(expr):
                    yield from self._reads(part, row)
