"""Formulas outside the tables of records, as a workbook remembers them: by hidden names, which move
with their cells, so that one that was typed over is found when the workbook comes back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from reportgen.algebra.phrases import spoken
from reportgen.layout.blocks import ListBlock, SentencesBlock, TableBlock
from reportgen.layout.context import Context
from reportgen.layout.page import HIDDEN, Page, Value
from reportgen.layout.placing import Placed
from reportgen.layout.row_marks import is_marked
from reportgen.layout.spots import letters, quoted

VERDICT_ROW = 3


@dataclass
class Live:
    """``names``: the cell of each; ``lone``: name, table, row's id, quantity, and of a constant its
    value; ``tables``: the names of first heading and closing row, the table, its columns."""

    names: dict[str, str] = field(default_factory=dict)
    lone: list[list[Value]] = field(default_factory=list)
    tables: list[tuple[str, str, str, list[tuple[str, str]], list[int], list[int]]] = field(
        default_factory=list
    )

    def name(self, sheet: str, row: int, column: int) -> str:
        """A new name for a cell."""
        made = f"{HIDDEN}at_{len(self.names) + 1}"
        self.names[made] = f"{quoted(sheet)}!${letters(column)}${row}"
        return made


def live(context: Context, pages: Sequence[Page]) -> Live:
    """What of the pages is worked out, tables of records left out: their rows have marks."""
    found = Live()
    for page in pages:
        placed = context.layout.placed[page.name]
        tables = [each for each in placed if isinstance(each.block, TableBlock)]
        for each in tables:
            if not is_marked(each, context.contents.marked):
                _table(found, page, each)
        inside = {row for each in tables for row in range(each.first, each.first + each.rows + 1)}
        known = dict(_known(context, page.name, placed))
        for row, column in _formulas(page):
            if row not in inside:
                table, key, name = known.get(row, ("", "", ""))
                found.lone.append([found.name(page.name, row, column), table, key, name])
    layout = context.layout
    for label, spot, value in [
        *((c.label, layout.constants[n], c.value) for n, c in layout.used_constants.items()),
        *((f.label, layout.factors[f], float(f.value)) for f in layout.used_factors),
    ]:
        name = found.name(spot.sheet, spot.first, spot.column)
        found.lone.append([name, "constants", "", spoken(label, context.say), value])
    return found


def columns_of(page: Page, placed: Placed) -> tuple[list[tuple[str, str]], list[int], list[int]]:
    """The columns of a table, each with its quantity and label; the numbers, from 0, of those that
    hold formulas; and of those that hold one in the closing row."""
    columns = [(column, name) for column, _, name in placed.spread]
    labels = _texts(page, placed.first - 2)
    rows, closing = (_live_at(page, row) for row in (placed.first, placed.first + placed.rows))
    return (
        [(name, labels.get(column, "")) for column, name in columns],
        [at for at, (column, _) in enumerate(columns) if column in rows],
        [at for at, (column, _) in enumerate(columns) if column in closing],
    )


def _texts(page: Page, row: int) -> dict[int, str]:
    """The texts of a row, by column."""
    return {
        strip.column: str(strip.values[0])
        for band in page.bands
        if band.first == row
        for strip in band.strips
    }


def _table(found: Live, page: Page, placed: Placed) -> None:
    assert isinstance(placed.block, TableBlock)
    head, end = (
        found.name(page.name, row, 1) for row in (placed.first - 2, placed.first + placed.rows)
    )
    found.tables.append((head, end, placed.block.table.name, *columns_of(page, placed)))


def _live_at(page: Page, row: int) -> set[int]:
    return {
        strip.column
        for band in page.bands
        if band.first <= row < band.first + band.rows
        for strip in band.strips
        if strip.formula
    }


def _formulas(page: Page) -> Iterator[tuple[int, int]]:
    """The row and column of each formula."""
    for band in page.bands:
        for strip in band.strips:
            for row in range(band.first, band.first + band.rows) if strip.formula else ():
                yield row, strip.column


def _known(
    context: Context, sheet: str, placed: Sequence[Placed]
) -> Iterator[tuple[int, tuple[str, str, str]]]:
    """What stands in the rows outside of tables: table, row's id, quantity."""
    table_name, name = context.contents.verdict
    yield VERDICT_ROW, (table_name, table_name, name)
    for each in placed:
        block = each.block
        if isinstance(block, ListBlock):
            for row, (table, quantity) in enumerate(context.layout.items(block), each.first):
                yield row, (table.name, table.name, quantity)
        elif isinstance(block, SentencesBlock):
            keys = context.numbers.cells[block.table.name]["key"]
            for row, key in enumerate(keys, each.first):
                yield row, (block.table.name, str(key), block.name)
