"""Whether a figure rests on measurements, on estimates, or on both."""

from __future__ import annotations

from typing import Literal

from reportgen.algebra.estimates import Mark, rests_on
from reportgen.algebra.expr import Expr, Fixed
from reportgen.algebra.nodes import Column
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import FLAG, Definition, Table
from reportgen.units import ONE

Basis = Literal["measured", "estimated", "mixed"]


class Bases:
    """The basis of every cell of a season.

    The conditions are those that the book makes; here they are worked out beside the book, which
    is the same for all seasons and stays as it was loaded.
    """

    def __init__(self, numbers: Numbers) -> None:
        self._numbers = numbers
        self._found: dict[tuple[str, str, Mark], Expr] = {}

    def of(self, table: Table, name: str, row: int) -> Basis:
        """The basis of one cell; of an unknown one, of what is known of it."""
        measured = self._holds(self._companion(table, name, "measured"), row)
        if not self._holds(self._companion(table, name, "estimated"), row):
            return "measured"
        return "mixed" if measured else "estimated"

    def _holds(self, found: Expr, row: int) -> bool:
        if isinstance(found, Fixed):
            return bool(found.value)
        assert isinstance(found, Column)
        return bool(self._numbers.value(found.table.name, found.name, row))

    def _companion(self, table: Table, name: str, mark: Mark) -> Expr:
        """The column that tells of each row whether it rests on the mark, or 0 or 1 for all."""
        key = (table.name, name, mark)
        if key not in self._found:
            self._found[key] = self._made(table, name, mark)
        return self._found[key]

    def _made(self, table: Table, name: str, mark: Mark) -> Expr:
        column = f"{name}_{mark}"
        given = table.inputs.get(name)
        if given is not None and given.about and mark == "measured":
            tree = ~Column("flag", ONE, table, given.about, 0)
            self._numbers.compute(
                Definition(table, column, FLAG, "", None, column, role=mark, tree=tree)
            )
            return Column("flag", ONE, table, column)
        if name in table.inputs or name not in table.definitions:
            return self._numbers.book.companion(table, name, mark)
        if column not in table.definitions:
            origin = table.definitions[name]
            assert origin.tree is not None
            tree = rests_on(origin.tree, mark, self._companion)
            if isinstance(tree, Fixed | Column):
                return tree
            made = Definition(table, column, FLAG, "", None, column, role=mark, tree=tree)
            self._numbers.compute(made)
        return Column("flag", ONE, table, column)
