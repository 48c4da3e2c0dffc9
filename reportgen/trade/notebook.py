"""Days' work typed into the workbook: what can be known of a row before it counts."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, known, unknown, where
from reportgen.algebra.tables import COUNT, SHARE, TEXT, Kind
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import notebook, season
from reportgen.units import ONE


@notebook.derived(TEXT, label="state")
def key(product: Link, date: Expr, started: Expr, weighed: Expr, wet: Expr, dry: Expr) -> Expr:
    """That something is written in the row, which waits: it counts once it has been taken into the
    season's files."""
    bought = known(product) | known(date) | known(weighed)
    return where(bought | known(started) | known(wet) | known(dry), "waits", unknown())


@notebook.derived(SHARE)
def dried_yield(dry: Expr, wet: Expr) -> Expr:
    """What came out of what went in."""
    return dry / wet


@notebook.derived(Kind("number", ONE))
def drying_ratio(wet: Expr, dry: Expr) -> Expr:
    """Weight that went in for each weight that came out."""
    return wet / dry


@season.derived(COUNT, label="rows that wait")
def notebook_waiting(notebook: Children) -> Expr:
    """How many days' work in the notebook no sum counts yet."""
    return count(notebook)


@season.check(
    "caution",
    "Send the workbook to who keeps the season's files: reportgen take SEASON WORKBOOK writes each "
    "row into a file of its own.",
)
def notebook_waits(notebook_waiting: Expr) -> Expr:
    """Rows of the notebook wait: they count once they have been taken into the season's files."""
    return notebook_waiting > 0
