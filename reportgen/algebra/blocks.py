"""Groups of rows that stand together, and the columns that serve them (``running.py``,
``order.py``)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from reportgen.algebra.nodes import Aggregate, Find, Rank
from reportgen.algebra.places import locator
from reportgen.algebra.tables import Table

Kind = Literal[
    "rows", "sum", "missing", "count", "own", "apart", "stood", "strange", "first", "from",
    "named", "was", "before", "moved",
]  # fmt: skip


@dataclass(frozen=True, eq=False)
class Helper:
    """A column that a group needs, on the sheet of its rows or on that of who totals them.

    ``rows``: how many rows of the block from here on. ``sum``, ``missing``, ``count``: of these,
    the sum of a column as far as known, how many lack it, how many pass the filters. ``own``: the
    place of the first row of the same group. ``apart``: whether a block begins though its group has
    another. Of who totals: ``first``: the place of the first of its rows; ``from``: the place from
    which the total is read, 0 where there are no rows, -1 where they stand apart; ``stood``, and of
    the rows ``strange``: what saves looking for them (``stood.py``). Of a link, ``named``: the
    place of the row that it named. Of a rank (``ranks``): ``was``, ``before``, ``moved``
    (``order.py``).
    """

    name: str
    table: Table
    kind: Kind
    group: Group
    owner: Table | None = None
    column: str | None = None
    filters: tuple[str, ...] = ()
    ranks: Rank | None = None

    @property
    def runs(self) -> bool:
        """Whether it adds each row to the one below."""
        return self.kind in ("rows", "sum", "missing", "count")

    @property
    def typed(self) -> bool:
        """Whether it keeps what was when the workbook was made, and is no formula."""
        return self.kind in ("was", "before", "stood", "named")


@dataclass(frozen=True, eq=False)
class Group:
    """The rows of a table that have the same text, number or parent."""

    child: Table
    link: str
    linked: bool

    @property
    def key(self) -> str:
        """The column by which rows are told to belong together."""
        return locator(self.link) if self.linked else self.link

    @property
    def own(self) -> str:
        """The column with the place of the first row of the group."""
        found = first_alike(self.child, self.link)
        return f"{self.link}_own" if found is None else self.link

    def names_place(self, owner: Table, column: str) -> bool:
        """Whether a column of who totals is itself the place of the first row of the group."""
        sought = first_alike(self.child, self.link)
        there = _place(owner, column)
        return (
            sought is not None
            and there is not None
            and ((there.table, there.name) == (sought.table, sought.name))
        )

    def helper(self, expr: Aggregate, kind: Kind) -> str:
        """The name of a running column for a total."""
        parts = (self.link, kind, *([] if kind == "count" else [expr.name]), *expr.filters)
        return "_".join(each for each in parts if each)

    def of(self, owner: Table, kind: Kind) -> str:
        """The name of a column of who totals the rows."""
        return f"{self.child.name}_{self.link}_{kind}"


def _place(table: Table, name: str) -> Find | None:
    """How a column finds the place of a row, if that is what it does."""
    tree = table.definitions[name].tree if name in table.definitions else None
    return tree if isinstance(tree, Find) and tree.type == "number" else None


def first_alike(table: Table, name: str) -> Find | None:
    """How a column finds the first row of its own table that is like the row itself."""
    found = _place(table, name)
    return found if found is not None and found.itself else None
