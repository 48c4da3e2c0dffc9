"""Ranks that cost their own length: the order in which rows stood when the workbook was made.

Each row keeps its rank of then (``was``) and the place of the row that came before it in its group
(``before``; of the first, less than 0, where the first row of its group stands). Whether the order
is still that one is seen a row at a time (``moved``): every row still comes behind the one it came
behind. While that holds in all, a rank is what it was; only after a change that turns rows round
is each counted among all others.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.algebra import totals
from reportgen.algebra.blocks import Group, Helper, Kind
from reportgen.algebra.nodes import Rank
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.operations import Value, num, rank
from reportgen.algebra.places import Places

KINDS: Sequence[Kind] = ("was", "before", "moved")
TYPED: Sequence[Kind] = ("was", "before")
"""Those that are no formulas."""


def name(expr: Rank, kind: Kind) -> str:
    """The name of a column that a rank needs."""
    ends = ("highest", kind) if expr.highest else (kind,)
    return "_".join((expr.name, expr.link, *ends))


def helpers(expr: Rank) -> list[Helper]:
    """The columns that a rank needs, on its own sheet."""
    group = Group(expr.table, expr.link, linked=False)
    return [
        Helper(name(expr, kind), expr.table, kind, group, column=expr.name, ranks=expr)
        for kind in KINDS
    ]


def reads(expr: Rank, kind: Kind) -> list[str]:
    """The columns of its own table that one of them reads."""
    others = [name(expr, each) for each in TYPED]
    return [] if kind in TYPED else ["key", expr.link, expr.name, *others]


def values(expr: Rank, kind: Kind, numbers: Numbers) -> list[Value]:
    """What stands in one of them as the workbook is made."""
    column = numbers.cells[expr.table.name][expr.name]
    if kind == "moved":
        return [0 for _ in column]
    groups = numbers.group(expr.table, expr.link).values()
    ranks = rank(column, groups, expr.highest)
    was = [ranks(row) for row in range(len(column))]
    if kind == "was":
        return was
    before: list[Value] = [None] * len(column)
    for rows in groups:
        places = {num(was[row]): row + 1 for row in rows if was[row] is not None}
        for place, row in places.items():
            before[row - 1] = places.get(place - 1, -(rows[0] + 1))
    return before


def formula(expr: Rank, places: Places) -> str:
    """Whether a row does not come behind the row that it came behind: 1, else 0."""
    table = expr.table.name
    value, group = places.cell(table, expr.name), places.cell(table, expr.link)
    was, before = (places.cell(table, name(expr, kind)) for kind in TYPED)
    values, groups, ranks = (
        places.span(table, each) for each in (expr.name, expr.link, name(expr, "was"))
    )
    top = values.partition(":")[0]
    other, sign = f"INDEX({values},{before})", ">" if expr.highest else "<"
    behind = f"({other}{sign}{value})+({other}={value})*({before}<ROW({value})-ROW({top})+1)"
    alike = f"(INDEX({groups},{before})={group})*(INDEX({ranks},{before})={was}-1)"
    follows = f"IF({alike}*({behind}),0,1)"
    begins = f"IF(-{before}=MATCH({group},{groups},0),0,1)"
    ranked = f"IF(COUNT({was})=0,1,IF({before}<0,{begins},{follows}))"
    stays = f'IF(({value}="")+({group}=""),COUNT({was}),{ranked})'
    return f'IF({places.cell(table, "key")}="","",{stays})'


def formula_of_rank(expr: Rank, places: Places) -> str:
    """A row's rank: as it was, while all rows stand in the order of then."""
    moved = places.span(expr.table.name, name(expr, "moved"))
    was = places.cell(expr.table.name, name(expr, "was"))
    above, _, last = moved.partition(":")
    sheet, mark, _ = above.rpartition("!")
    return f"IF({sheet}{mark}{last}=0,{was},{totals.among(expr, places)})"
