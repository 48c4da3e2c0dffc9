"""The marks by which rows are known again when a workbook comes back: ``lots/3``.

A mark stands in a column of its own, hidden and locked, and moves with its row. The head and the
closing row of a table are marked, too, so that the table is found wherever it stands.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from reportgen.layout.blocks import TableBlock
from reportgen.layout.context import Context
from reportgen.layout.page import Band, Page, Strip, Style, Value
from reportgen.layout.placing import Placed

_MARK = re.compile(r"([a-z_]+)/(0|[1-9][0-9]*|end)")
_STYLE = Style("given", "@", "left")


def add(context: Context, page: Page, placed: Sequence[Placed]) -> None:
    """The column of marks, behind all others of the sheet."""
    marked = [each for each in placed if is_marked(each, context.contents.marked)]
    if not marked:
        return
    column = 1 + max(max(each.taken, default=0) for each in placed)
    for each in marked:
        assert isinstance(each.block, TableBlock)
        table = each.block.table
        used = context.numbers.rows(table)
        rows: list[Value] = [row(table.name, number) for number in range(1, used + 1)]
        rows += [None] * (each.rows - used)
        for first, values in (
            (each.first - 2, [head(table.name)]),
            (each.first, rows),
            (each.first + each.rows, [end(table.name)]),
        ):
            page.bands.append(Band(first, len(values), [Strip(column, _STYLE, values)]))
    page.unseen.add(column)


def is_marked(placed: Placed, tables: frozenset[str]) -> bool:
    """Whether a block holds the records of one of these tables, so that its rows are marked."""
    block = placed.block
    return isinstance(block, TableBlock) and block.keys and block.table.name in tables


def head(table: str) -> str:
    """The mark of a table's headings."""
    return f"{table}/0"


def row(table: str, number: int) -> str:
    """The mark of a record, by its place in the table as it was built, from 1."""
    return f"{table}/{number}"


def end(table: str) -> str:
    """The mark of the row that closes a table."""
    return f"{table}/end"


def read(text: str) -> tuple[str, str] | None:
    """The table of a mark and what it marks in it: ``0``, a number, ``end``; None for any other
    text."""
    found = _MARK.fullmatch(text)
    return (found[1], found[2]) if found is not None else None
