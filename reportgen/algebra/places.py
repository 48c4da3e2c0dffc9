"""Where names live, as the formula renderer asks: who lays sheets out answers."""

from __future__ import annotations

from typing import Protocol

from reportgen.algebra.factors import Factor

ROW = "\ue000"
"""Stands for the row's number in a rendered formula."""

ABOVE, BELOW = "\ue001", "\ue002"
"""Stand for the numbers of the rows above and below."""

OWN_ROW = "row"
"""The name of the column that holds a row's own number in its table."""


def locator(link: str) -> str:
    """The name of the column that holds the parent's row number."""
    return f"{link}_row"


def at_row(formula: str, row: int) -> str:
    """A formula as it stands in a row."""
    for mark, number in ((ROW, row), (ABOVE, row - 1), (BELOW, row + 1)):
        formula = formula.replace(mark, str(number))
    return formula


def quoted(text: str) -> str:
    """A text as formulas write it."""
    escaped = text.replace('"', '""')
    return f'"{escaped}"'


class Places(Protocol):
    """Where names live, as seen from the sheet a formula is written on."""

    def cell(self, table: str, column: str) -> str:
        """A column's cell in the same row: ``$F`` with :data:`ROW`."""

    def span(self, table: str, column: str) -> str:
        """All rows of a column: ``Runs!$K$6:$K$99``."""

    def single(self, table: str, column: str) -> str:
        """The cell of a table that has one row."""

    def address(self, table: str, column: str) -> str:
        """As people say it: of a table that has one row the cell, ``Rates C9``; else sheet and
        column, ``Lots E``."""

    def constant(self, name: str) -> str:
        """The cell of a named constant."""

    def factor(self, factor: Factor) -> str:
        """The cell of a unit factor."""
