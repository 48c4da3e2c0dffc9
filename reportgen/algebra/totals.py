"""Formulas over the rows of a table: which row, totals, counts, means, ranks."""

from __future__ import annotations

from reportgen.algebra.nodes import Aggregate, Ahead, Find, OwnPlace, Rank, Strays, Until
from reportgen.algebra.places import ABOVE, OWN_ROW, ROW, Places, locator, quoted
from reportgen.algebra.tables import Table

_EMPTY = '""'


def own_row(table: Table, places: Places) -> str:
    """A row's own number."""
    key = places.cell(table.name, "key")
    first = places.span(table.name, "key").partition(":")[0]
    return f'IF({key}<>"",ROW({key})-ROW({first})+1,"")'


def row_number(table: Table, link: str, places: Places, kept: tuple[str, str] | None = None) -> str:
    """The parent's row by its id, empty where there is none; ``kept``: where it stood as the
    workbook was made, behind the condition that it still does."""
    keys = places.span(table.links[link], "key")
    own = places.cell(table.name, link)
    match = f"MATCH({own},{keys},0)"
    here = places.cell(table.name, locator(link)).replace(ROW, ABOVE)
    # Often the row names the same as the one above, or the next, or what it named; only else it is
    # looked for. An empty cell must not find the key of a row that is not in use.
    guess = f"MAX(0,{here})+1"
    there, guess = kept or (f"INDEX({keys},{guess})={own}", guess)
    found = f'IF({there},{guess},IF(COUNT({match}),{match},""))'
    return f'IF({own}="","",IF({own}={own.replace(ROW, ABOVE)},{here},{found}))'


def _span(places: Places, table: Table, column: str | None) -> str:
    assert column is not None
    return places.span(table.name, column)


def _rows(expr: Aggregate, places: Places) -> list[str]:
    """The conditions, as arrays of 1 and 0, that pick the rows of a total.

    A link is compared by the parent's row number: over thousands of rows that takes a
    twentieth of the time that COUNTIFS and SUMIFS take over the ids. The arrays go into SUMPRODUCT
    with commas, a fifth quicker than as one product; a filter is 1 or 0 by itself, a text is 0.
    """
    picked = []
    if expr.link is not None and expr.own is not None:
        if expr.linked:
            rows = places.span(expr.child.name, locator(expr.link))
            picked.append(f"({rows}={places.cell(expr.own.table.name, OWN_ROW)})*1")
        else:
            own = places.cell(expr.own.table.name, expr.own.name)
            # What is unknown would pick the spare rows, whose own is empty as well.
            picked.append(f"({_span(places, expr.child, expr.link)}={own})*({own}<>{_EMPTY})")
    if expr.bound is not None:
        under = _span(places, expr.child, expr.under)
        # A blank cell is 0; what was worked out and is unknown, an empty text, is above all.
        picked.append(f"({under}<{places.cell(expr.bound.table.name, expr.bound.name)})*1")
    return picked + [_span(places, expr.child, name) for name in expr.filters]


def _in_use(expr: Aggregate, places: Places) -> str:
    return f"({_span(places, expr.child, 'key')}<>{_EMPTY})*1"


def aggregate(expr: Aggregate, places: Places) -> str:
    """A total, count, mean, latest or first, without its guard."""
    rows = ",".join(_rows(expr, places))
    match expr.op:
        case "count":
            return f"SUMPRODUCT({rows or _in_use(expr, places)})"
        case "missing":
            return missing(expr, places)
        case "first":
            of, marked = (_span(places, expr.child, each) for each in (expr.of, expr.name))
            return f"INDEX({of},MATCH(1,{marked},0))" + ('&""' if expr.type == "text" else "")
        case "latest":
            return f"MAX({_span(places, expr.child, expr.name)})"
        case "earliest":
            return f"MIN({_span(places, expr.child, expr.name)})"
        case "mean":
            return _mean(expr, places)
    span = _span(places, expr.child, expr.name)
    return f"SUMPRODUCT({rows},{span})" if rows else f"SUM({span})"


def some(expr: Aggregate, places: Places) -> str:
    """The guard of an aggregate that has a value where one of its rows has."""
    if expr.op == "mean":
        return f"COUNT({_mean(expr, places)})"
    span = _span(places, expr.child, expr.name)
    return f"COUNTIF({span},1)" if expr.op == "first" else f"COUNT({span})"


def _mean(expr: Aggregate, places: Places) -> str:
    span, criteria = _span(places, expr.child, expr.name), []
    if expr.own is not None:
        own = places.cell(expr.own.table.name, expr.own.name)
        criteria += [_span(places, expr.child, expr.link), own]
    for name in expr.filters:
        criteria += [_span(places, expr.child, name), "1"]
    return f"AVERAGEIFS({','.join([span, *criteria])})" if criteria else f"AVERAGE({span})"


def missing(expr: Aggregate, places: Places) -> str:
    """How many of the rows lack the column."""
    span = _span(places, expr.child, expr.name)
    rows = _rows(expr, places) or [_in_use(expr, places)]
    return f"SUMPRODUCT({','.join(rows)},({span}={_EMPTY})*1)"


def among(expr: Ahead | Rank, places: Places) -> str:
    """What a row is among the rows of its group."""
    if isinstance(expr, Rank):
        return _rank(expr, places)
    return f"SUMPRODUCT({_ahead(expr, places)},{places.span(expr.table.name, expr.name)})"


def missing_ahead(expr: Ahead, places: Places) -> str:
    """How many of the rows that come before lack the column."""
    span = places.span(expr.table.name, expr.name)
    return f"SUMPRODUCT({_ahead(expr, places)},({span}={_EMPTY})*1)"


def _ahead(expr: Ahead, places: Places) -> str:
    """The condition, as an array of 1 and 0, that picks the rows of the group that come before."""
    table = expr.table.name
    group, own_group = places.span(table, expr.link), places.cell(table, expr.link)
    order, own = places.span(table, expr.order), places.cell(table, expr.order)
    before = f"({order}<{own})+({order}={own})*(ROW({order})<ROW({own}))"
    return f"({group}={own_group})*({before})"


def until(expr: Until, own: str, places: Places) -> str:
    """How much of the stretches lies below a number."""
    table = expr.table.name
    begin, end = places.span(table, expr.begin), places.span(table, expr.end)
    below = f"({own}>{begin})*({own}-{begin})-({own}>{end})*({own}-{end})"
    return f"SUMPRODUCT({below}{'' if expr.name is None else ',' + places.span(table, expr.name)})"


def own_place(expr: OwnPlace, places: Places) -> str:
    """Whether a number is the row's own place."""
    own = places.cell(expr.table.name, expr.name)
    top = places.span(expr.table.name, expr.name).partition(":")[0]
    return f"{own}=ROW({own})-ROW({top})+1"


def _rank(expr: Rank, places: Places) -> str:
    """A row's place in its group: the rows before it, itself included."""
    table = expr.table.name
    group, values = places.span(table, expr.link), places.span(table, expr.name)
    own_group, own = places.cell(table, expr.link), places.cell(table, expr.name)
    sign = ">" if expr.highest else "<"
    before = f"({values}{sign}{own})+({values}={own})*(ROW({values})<=ROW({own}))"
    # An empty text is above every number, and an empty cell is below those that are above 0.
    picked = f"({group}={own_group})*({values}<>{_EMPTY})"
    return f"SUMPRODUCT({picked}*({before}))"


def own_find(expr: Find, here: str, places: Places) -> str:
    """The place of the first row that is like the row itself: that of the row above, where that is
    like it, and found in any case."""
    own = places.cell(expr.table.name, expr.name)
    before, above = own.replace(ROW, ABOVE), here.replace(ROW, ABOVE)
    exists = f'({places.cell(expr.table.name, "key")}<>"")*({own}<>"")'
    return f'IF({exists},IF({own}={before},{above},{place(expr, own, places)}),"")'


def place(expr: Find, own: str, places: Places) -> str:
    """Where in its table the row stands whose number is ``own``."""
    return f"MATCH({own},{places.span(expr.table.name, expr.name)},0)"


def find(expr: Find, own: str, places: Places) -> str:
    """The key of that row, or its place."""
    if expr.type == "number":
        return place(expr, own, places)
    return f"INDEX({places.span(expr.table.name, 'key')},{place(expr, own, places)})&{_EMPTY}"


def _cells(expr: Strays, places: Places) -> str:
    at = places.single if expr.table.single else places.span
    return at(expr.table.name, expr.name)


def strays(expr: Strays, places: Places) -> str:
    """How many cells of an input hold text."""
    cells = _cells(expr, places)
    return f"COUNTA({cells})-COUNT({cells})"


def first_stray(expr: Strays, places: Places) -> str:
    """The address of the first of them: a text is above an empty one, a number is not."""
    address = quoted(places.address(expr.table.name, expr.name))
    if expr.table.single:
        return address
    cells = _cells(expr, places)
    before = f"ROW({cells.partition(':')[0]})-1"
    return f"{address}&(SUMPRODUCT(MATCH(1,({cells}>{_EMPTY})*1,0))+{before})"
