"""What a node declares of the columns that it reads."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from reportgen.algebra.tables import Table

Rows = Literal["own", "single", "parent", "children", "ahead", "group", "first", "found"]
"""Which rows of a column are read: the row itself; the only one; the one that a link names; those
that name the row (or all); of those with the same text as the row, the ones that come before, or
all; the first that is marked; the one that was found."""


class Read(NamedTuple):
    """A column that a node reads by itself. ``chooses``: it only tells which rows are taken, and
    the value does not rest on it. ``located``: a link, read as the place of the row it names."""

    table: Table
    name: str
    rows: Rows
    chooses: bool = False
    located: bool = False
