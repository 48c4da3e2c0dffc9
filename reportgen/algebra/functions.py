"""What a definition may call besides the operators."""

from __future__ import annotations

from typing import Literal

from reportgen.algebra.expr import (
    DAYS,
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Operand,
    Unknown,
    Where,
    aligned,
    convert,
    flag,
    is_zero,
    lift,
)
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Broken,
    Call,
    Column,
    Find,
    Join,
    Known,
    OwnPlace,
    PerRow,
    Plain,
    Rank,
    Rests,
    RoundUp,
    Strays,
    Until,
)
from reportgen.algebra.phrases import HOLE
from reportgen.algebra.tables import TEXT_PLACES, Table
from reportgen.algebra.views import ChildColumn, Children, counted
from reportgen.units import ONE


def where(condition: Expr, then: Operand, otherwise: Operand) -> Expr:
    """``then`` where the condition holds, else ``otherwise``."""
    a, b = aligned((lift(then), lift(otherwise)))
    leading = b if isinstance(a, Unknown) or is_zero(a) else a
    return Where(leading.type, leading.unit, flag(condition), a, b)


def first_known(*options: Operand) -> Expr:
    """The first option that is known: measured, else estimated."""
    parts = aligned(tuple(lift(each) for each in options))
    return FirstKnown(parts[0].type, parts[0].unit, parts)


def unknown() -> Expr:
    """No value, of whatever type the other branch has."""
    return Unknown("number", ONE)


def known(part: Expr) -> Expr:
    """Whether the part has a value."""
    return Known("flag", ONE, part)


def on_estimates(part: Expr) -> Expr:
    """Whether a column of the row rests on estimates: true where the book finds that it does."""
    if not isinstance(part, Column):
        raise DefinitionError("on_estimates() takes a column of the row itself")
    return Rests("flag", ONE, "estimated", part)


def estimate(part: Expr) -> Expr:
    """The part, marked as an estimate."""
    return Estimate(part.type, part.unit, part)


def _call(op: Literal["min", "max", "abs", "sqrt"], *operands: Operand) -> Expr:
    parts = aligned(tuple(lift(each) for each in operands))
    unit = next((p.unit for p in parts if p.unit != ONE), ONE)
    return Call("date" if parts[0].type == "date" else "number", unit, op, parts)


def least(*parts: Operand) -> Expr:
    """The smallest of the parts."""
    return _call("min", *parts)


def greatest(*parts: Operand) -> Expr:
    """The largest of the parts."""
    return _call("max", *parts)


def size(part: Operand) -> Expr:
    """The part without its sign."""
    return _call("abs", part)


def square_root(part: Operand) -> Expr:
    """The square root of a plain number."""
    expr = lift(part)
    if expr.unit != ONE:
        raise DefinitionError("the square root is taken of plain numbers")
    return _call("sqrt", expr)


def power(base: Operand, exponent: Operand) -> Expr:
    """A plain number to a power; unknown where that is none."""
    parts = (lift(base), lift(exponent))
    if any(part.unit != ONE for part in parts):
        raise DefinitionError("powers are taken of plain numbers")
    return Call("number", ONE, "power", parts)


def broken() -> Expr:
    """Whether rows were inserted or deleted in a workbook where its running columns pass."""
    return Broken("flag", ONE)


def strays(table: Table, name: str) -> Expr:
    """How many cells of an input hold text where a number or a day belongs."""
    return Strays("number", ONE, table, name)


def first_stray(table: Table, name: str) -> Expr:
    """The address of the first of them."""
    return Strays("text", ONE, table, name)


def no() -> Expr:
    """The truth value that says no."""
    return Fixed("flag", ONE, 0)


def per_row(*parts: Operand) -> Expr:
    """Another expression in each row of a table whose rows stand for quantities."""
    exprs = aligned(tuple(lift(each) for each in parts))
    return PerRow(exprs[0].type, exprs[0].unit, exprs)


def rank(column: Expr, group: Expr, *, highest: bool = False) -> Expr:
    """The place of a column among the known rows of its group, from the lowest or the highest."""
    if not isinstance(column, Column) or not isinstance(group, Column):
        raise DefinitionError("rank() takes two columns of the row itself")
    if column.name in column.table.inputs:
        # A blank cell would count as 0, and come before all.
        raise DefinitionError(f"rank() takes a quantity, and {column.name} is an input")
    return Rank("number", ONE, column.table, group.name, column.name, highest)


def find(column: ChildColumn, own: Expr) -> Expr:
    """The first row of another table whose number or text equals this row's, as that of a rank."""
    return Find("text", ONE, *_sought(column, own))


def place_of(column: ChildColumn, own: Expr) -> Expr:
    """Where that row stands in its table, from 1: a number is compared faster than a text."""
    return Find("number", ONE, *_sought(column, own))


def _sought(column: ChildColumn, own: Expr) -> tuple[Table, str, Column]:
    child = column.rows.child
    if not isinstance(own, Column) or own.type != child.kind_of(column.name).type:
        raise DefinitionError("find() compares with a column of the row itself, of the same type")
    own = Column(own.type, own.unit, own.table, own.name, own.default)
    return child, column.name, own


def plain(number: Expr, places: Operand = TEXT_PLACES) -> Expr:
    """A number as part of a text, rounded to so many places: to six as part of an id."""
    return Plain("text", ONE, number, lift(places))


def same(rows: ChildColumn, own: Expr) -> Children:
    """The rows of another table whose text or number equals this row's."""
    if not isinstance(own, Column) or own.type not in ("text", "number"):
        raise DefinitionError("same() compares with a text or number of the row itself")
    own = Column(own.type, own.unit, own.table, own.name)
    return Children(rows.rows.book, rows.rows.child, rows.name, own)


def until(
    begin: ChildColumn, end: ChildColumn, own: Expr, times: ChildColumn | None = None
) -> Expr:
    """How much of all rows of a table, stretches from a number to another, lies below a number of
    the row; each stretch ``times`` a column of its own."""
    child, unit = begin.rows.child, begin.rows.child.kind_of(begin.name).unit
    if not isinstance(own, Column) or not own.unit == unit == child.kind_of(end.name).unit:
        raise DefinitionError("until() compares numbers of one unit with a column of the row")
    if not {begin.name, end.name} <= {*child.inputs}:
        # The cells of a formula may hold a text, with which a sheet cannot reckon.
        raise DefinitionError("until() takes stretches that are written down")
    name = None if times is None else times.name
    made = unit if name is None else unit * child.kind_of(name).unit
    own = Column(own.type, own.unit, own.table, own.name)
    return Until("number", made, child, begin.name, end.name, name, own)


def round_up(value: Expr, step: Operand) -> Expr:
    """The value rounded up to a multiple of the step; a date, counted from a Saturday long ago, to
    one of a stretch of days."""
    if value.type == "date":
        return RoundUp("date", ONE, value, convert(lift(step), DAYS, "a date's "))
    a, b = aligned((value, lift(step)))
    return RoundUp("number", value.unit, a, b)


def join(*parts: Operand) -> Expr:
    """Texts one after the other; unknown where one is."""
    holes = {f"{at}": lift(each) for at, each in enumerate(parts) if not isinstance(each, str)}
    pattern = "".join(
        each if isinstance(each, str) else f"{{{at}}}" for at, each in enumerate(parts)
    )
    return sentence(pattern, **holes)


def sentence(pattern: str, **parts: Expr) -> Expr:
    """A fixed text with others in its ``{holes}``; unknown where one is."""
    if sorted(HOLE.findall(pattern)) != sorted(parts):
        raise DefinitionError(f"the holes of {pattern!r} are not {sorted(parts)}")
    return Join("text", ONE, pattern, tuple(parts), tuple(map(lift, parts.values())))


def total(column: ChildColumn, *filters: ChildColumn) -> Expr:
    """The sum over the rows; unknown unless all of them are known."""
    return column.aggregate("total", filters)


def total_known(column: ChildColumn, *filters: ChildColumn) -> Expr:
    """The sum over the rows that are known; stands beside a count of the missing."""
    return column.aggregate("known", filters)


def mean_known(column: ChildColumn, *filters: ChildColumn) -> Expr:
    """The mean over the rows that are known."""
    return column.aggregate("mean", filters)


def count(rows: Children | ChildColumn, *filters: ChildColumn) -> Expr:
    """How many rows, of those for which every filter is true."""
    if isinstance(rows, ChildColumn):
        filters = (rows, *filters)
        rows = rows.rows
    names = tuple(each.filter_name for each in filters)
    return counted(rows, names)


def missing(column: ChildColumn, *filters: ChildColumn) -> Expr:
    """How many rows lack the column."""
    return column.aggregate("missing", filters)


def latest(column: ChildColumn) -> Expr:
    """The last date of all rows."""
    return column.aggregate("latest", ())


def earliest(column: ChildColumn) -> Expr:
    """The first date of all rows."""
    return column.aggregate("earliest", ())


def first(text: ChildColumn, flag: ChildColumn) -> Expr:
    """A text of the first of all rows for which the flag is true."""
    child = text.rows.child
    if child.kind_of(text.name).type != "text":
        raise DefinitionError(f"first of {child.name}.{text.name}, which is no text")
    return Aggregate("text", ONE, "first", child, None, flag.filter_name, of=text.name)


def ahead(column: Expr, link: Expr, order: Expr) -> Expr:
    """The sum of a column of the row's own table over the rows with the same link that come before
    by a number that every row has, rows of one number as they stand; unknown unless all are."""
    if not all(isinstance(each, Column) for each in (column, link, order)):
        raise DefinitionError("ahead() adds up a column of the row's own table")
    assert isinstance(column, Column) and isinstance(link, Column) and isinstance(order, Column)
    return Ahead(column.type, column.unit, column.table, link.name, column.name, order.name)


def own_place(place: Expr) -> Expr:
    """Whether a number is the row's own place: of rows alike, the first speaks for all."""
    if not isinstance(place, Column) or place.type != "number":
        raise DefinitionError("own_place() looks at a number of the row itself")
    return OwnPlace("flag", ONE, place.table, place.name)


def median(column: ChildColumn) -> Expr:
    """The median of the known rows: the middle one, or the mean of the two in the middle."""
    return column.aggregate("mean", (column.middle(),))


def lowest(column: ChildColumn) -> Expr:
    """The lowest of the known rows."""
    return column.aggregate("mean", (column.rank_one(),))
