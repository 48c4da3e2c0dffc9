"""The formulas of running columns, and how totals are read from them (``running.py``)."""

from __future__ import annotations

import re

from reportgen.algebra import order, stood, totals
from reportgen.algebra.blocks import Helper, Kind
from reportgen.algebra.nodes import Aggregate, Ahead, Rank
from reportgen.algebra.places import ABOVE, BELOW, OWN_ROW, ROW, Places
from reportgen.algebra.running import Running
from reportgen.algebra.tables import SMALLEST, Table

_EDGES = re.compile(r"\$(\d+):\$[A-Z]+\$(\d+)$")


def total(running: Running | None, expr: Aggregate, places: Places) -> str:
    """A total, count, mean, latest or first, without its guard."""
    kinds: dict[str, Kind] = {"missing": "missing", "count": "count" if expr.filters else "rows"}
    return _read(running, expr, kinds.get(expr.op, "sum"), totals.aggregate(expr, places), places)


def missing(running: Running | None, expr: Aggregate, places: Places) -> str:
    """How many of the rows of a total lack the column."""
    return _read(running, expr, "missing", totals.missing(expr, places), places)


def row_number(running: Running, table: Table, link: str, places: Places) -> str:
    """The place of the row that a link names."""
    if not running.names(table, link):
        return totals.row_number(table, link, places)
    keys, own = places.span(table.links[link], "key"), places.cell(table.name, link)
    kept = f"MAX(1,{places.cell(table.name, stood.named(link))})"
    there = stood.stands(f"INDEX({keys},{kept})", own)
    return totals.row_number(table, link, places, (there, kept))


def among(running: Running | None, expr: Ahead | Rank, places: Places) -> str:
    """What a row is among the rows of its group."""
    if isinstance(expr, Rank) and running is not None and running.ranked(expr):
        return order.formula_of_rank(expr, places)
    return totals.among(expr, places)


def _read(running: Running | None, expr: Aggregate, kind: Kind, long: str, places: Places) -> str:
    """A total from its running column; the long way where the rows stand apart."""
    group = running.group(expr) if running is not None else None
    if group is None or expr.own is None:
        return long
    place = places.cell(expr.own.table.name, group.of(expr.own.table, "from"))
    name = f"{group.link}_rows" if kind == "rows" else group.helper(expr, kind)
    found = f"INDEX({places.span(group.child.name, name)},{place})"
    # A row that is not in use has an empty text there, which to a sheet is more than any number.
    return f"IF(SUM({place})>0,{found},IF(SUM({place})<0,{long},0))"


def formula(running: Running, helper: Helper, places: Places) -> str | None:
    """The formula of a helper's column, where it has one."""
    if helper.typed:
        return None
    if helper.ranks is not None:
        return order.formula(helper.ranks, places)
    if helper.kind == "strange":
        return stood.formula(helper, places)
    group, table = helper.group, helper.table.name
    child = group.child.name
    keys = places.span(child, group.key)
    if helper.kind in ("first", "from"):
        return _of_owner(running, helper, keys, places)
    key = places.cell(child, group.key)
    if helper.runs:
        next_one = _beside(places.cell(table, helper.name), BELOW)
        below = f"IF({_beside(key, BELOW)}={key},{next_one},0)"
        return f'IF({key}="","",{_added(helper, places)}+{below})'
    above = _beside(key, ABOVE)
    if helper.kind == "own":
        before = _beside(places.cell(table, helper.name), ABOVE)
        return f'IF({key}="","",IF({key}={above},{before},MATCH({key},{keys},0)))'
    place = f"ROW({key})-ROW({keys.partition(':')[0]})+1"
    assert helper.owner is not None
    if group.linked:
        firsts = places.span(helper.owner.name, group.of(helper.owner, "first"))
        first = f"INDEX({firsts},{key})"
    else:
        first = places.cell(child, group.own)
    return f'IF({key}="","",IF({key}={above},0,IF({first}={place},0,1)))'


def _beside(cell: str, mark: str) -> str:
    """The cell above or below."""
    return cell.replace(ROW, mark)


def _added(helper: Helper, places: Places) -> str:
    """What a row adds."""
    table = helper.table.name
    flags = [f"({places.cell(table, name)}=1)" for name in helper.filters]
    if helper.column is None:
        return f"IF({'*'.join(flags)},1,0)" if flags else "1"
    column = places.cell(table, helper.column)
    if helper.kind == "missing":
        lacks = f'({column}="")'
        return f"IF({'*'.join([*flags, lacks])},1,0)"
    return f"IF({'*'.join([*flags, f'COUNT({column})'])},{column},0)"


def _of_owner(running: Running, helper: Helper, keys: str, places: Places) -> str:
    group, owner = helper.group, helper.owner
    assert owner is not None and helper.column is not None
    child = group.child.name
    own = places.cell(owner.name, OWN_ROW if group.linked else helper.column)
    rows = places.span(child, f"{group.link}_rows")
    own_first = (owner.name, group.of(owner, "first"))
    if group.names_place(owner, helper.column):
        at = (owner.name, helper.column)
    else:
        at = own_first if own_first in running.helpers else (child, group.own)
    first = places.cell(*at)
    if helper.kind == "first":
        before, match = _beside(first, ABOVE), f"MATCH({own},{keys},0)"
        # Often the rows begin where those of the row above end; only else they are looked for.
        guess = f"IF(COUNT({before}),{before}+INDEX({rows},{before}),1)"
        search = f'IF(COUNT({match}),{match},"")'
        hit = f"INDEX({keys},{guess})={own}"
        if running.keeps(group, owner):
            guess = stood.place(group, owner, own, places)
            search = f'IF({_end(places, child, stood.told(group, owner))}=0,"",{search})'
            hit = stood.stands(f"INDEX({keys},{guess})", own)
        return f'IF({own}="","",IF({hit},{guess},{search}))'
    length, some = f"INDEX({rows},{first})", _end(places, child, f"{group.link}_apart")
    # The row that closes the table has the count of all blocks that stand apart.
    together = f"IF({some}=0,{first},IF(COUNTIF({keys},{own})={length},{first},-1))"
    exists = f'{places.cell(owner.name, "key")}<>""'
    return f'IF({exists},IF(COUNT({first}),{together},0),"")'


def closing(helper: Helper, places: Places) -> str | None:
    """What stands below a helper's last row: of blocks apart, how many; of a running column,
    whether the blocks' first rows hold something else than the column itself; of an order, how
    many rows no longer stand in it."""
    if helper.kind in ("apart", "moved", "strange"):
        return f"SUM({_rows(places, helper.table, helper.name)})"
    if not helper.runs:
        return None
    key = helper.group.key
    keys, above = _rows(places, helper.table, key), _rows(places, helper.table, key, -1)
    blocks = f"SUMPRODUCT(({keys}<>{above})*1,{_rows(places, helper.table, helper.name)})"
    picked = [f'({keys}<>"")*1', *(_rows(places, helper.table, f) for f in helper.filters)]
    if helper.column is not None:
        column = _rows(places, helper.table, helper.column)
        picked.append(f'({column}="")*1' if helper.kind == "missing" else column)
    whole = f"SUMPRODUCT({','.join(picked)})"
    least = places.constant(SMALLEST.name)
    return f"IF(COUNT(1/(ABS({blocks}-{whole})<={least}*(1+ABS({whole})))),0,1)"


def broken(running: Running | None, places: Places) -> str:
    """Whether a running column of the workbook is not what its rows add up to, or lost a cell."""
    helpers = [] if running is None else running.helpers.values()
    ends = [_end(places, each.table.name, each.name) for each in helpers if each.runs]
    return f"COUNT(1/(SUM({','.join(ends)})=0))=0" if ends else "0"


def _end(places: Places, table: str, column: str) -> str:
    """The cell that closes a column."""
    before, _, span = places.span(table, column).rpartition("!")
    return f"{before}!{span.rpartition(':')[2]}" if before else span.rpartition(":")[2]


def _rows(places: Places, table: Table, column: str, up: int = 0) -> str:
    """A column's rows without the closing one, or as many that begin one row higher."""
    span = places.span(table.name, column)
    edges = _EDGES.search(span)
    assert edges is not None
    letter = span[: edges.start()].rpartition("$")[2]
    first, last = int(edges[1]) + up, int(edges[2]) - 1 + up
    return f"{span[: edges.start()]}${first}:${letter}${last}"
