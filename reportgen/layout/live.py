"""What a workbook remembers besides its records, so that it is told where it was typed over.

Formulas outside the tables of records and constants: by hidden names, which move with their cells.
Texts of the program's: by their sheet and the place where they stood."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from reportgen.algebra.phrases import spoken
from reportgen.layout.blocks import ListBlock, RulesBlock, SentencesBlock, TableBlock
from reportgen.layout.context import Context
from reportgen.layout.page import HIDDEN, Page, Value
from reportgen.layout.placing import Placed
from reportgen.layout.row_marks import is_marked
from reportgen.layout.row_marks import read as mark_of
from reportgen.layout.spots import letters, quoted

VERDICT_ROW = 3
Columns = tuple[list[tuple[str, str, str]], list[int], list[int], dict[int, list[Value]]]
"""Of a table: the quantity, label and unit of each column; the numbers, from 0, of those that hold
formulas; of those that hold one in the closing row; what stands in those that are no inputs."""


@dataclass
class Live:
    """``names``: the cell of each; ``lone``: name, table, row's id, quantity, and of a constant its
    value; ``tables``: the names of first heading and closing row, the table, its columns;
    ``labelled``: of each single figure its sheet, its column, what is said before it, and its unit;
    ``said``: the texts of each sheet, in runs along its rows: row, column, texts."""

    names: dict[str, str] = field(default_factory=dict)
    lone: list[list[Value]] = field(default_factory=list)
    tables: list[tuple[str, str, str, *Columns]] = field(default_factory=list)
    labelled: dict[tuple[str, str], tuple[str, int, str, str]] = field(default_factory=dict)
    said: dict[str, list[list[Value]]] = field(default_factory=dict)

    def name(self, sheet: str, row: int, column: int) -> str:
        """A new name for a cell."""
        made = f"{HIDDEN}at_{len(self.names) + 1}"
        self.names[made] = f"{quoted(sheet)}!${letters(column)}${row}"
        return made


def live(context: Context, pages: Sequence[Page]) -> Live:
    """What of the pages is worked out, tables of records left out: their rows have marks."""
    found, by_name = Live(), {page.name: page for page in pages}
    for page in pages:
        placed = context.layout.placed[page.name]
        tables = [each for each in placed if isinstance(each.block, TableBlock)]
        for each in tables:
            if not is_marked(each, context.contents.marked):
                _table(found, page, each)
        if not any(isinstance(each.block, RulesBlock) for each in placed):
            # Nobody decides by the words that tell how each quantity comes about.
            found.said[page.name] = _said(page, tables)
        inside = {row for each in tables for row in range(each.first, each.first + each.rows + 1)}
        known = dict(_known(context, page.name, placed))
        for row, column, value in _lone(page, inside):
            table, key, name = known.get(row, ("", "", ""))
            found.lone.append([found.name(page.name, row, column), table, key, name, *value])
    layout = context.layout
    for single, spot in layout.singles.items():
        texts = _texts(by_name[spot.sheet], spot.first)
        unit = texts.get(spot.column + 1, "")
        found.labelled[single] = spot.sheet, spot.column, texts.get(1, ""), unit
    for label, spot, constant in [
        *((c.label, layout.constants[n], c.value) for n, c in layout.used_constants.items()),
        *((f.label, layout.factors[f], float(f.value)) for f in layout.used_factors),
    ]:
        name = found.name(spot.sheet, spot.first, spot.column)
        found.lone.append([name, "constants", "", spoken(label, context.say), constant])
    return found


def columns_of(page: Page, placed: Placed) -> Columns:
    """What is remembered of a table's columns."""
    columns = [(column, name) for column, _, name in placed.spread]
    labels, units = (_texts(page, placed.first - above) for above in (2, 1))
    rows, closing = (_live_at(page, row) for row in (placed.first, placed.first + placed.rows))
    return (
        [(name, labels.get(column, ""), units.get(column, "")) for column, name in columns],
        [at for at, (column, _) in enumerate(columns) if column in rows],
        [at for at, (column, _) in enumerate(columns) if column in closing],
        _constants(page, placed, {column: at for at, (column, _) in enumerate(columns)}),
    )


def _constants(page: Page, placed: Placed, numbers: Mapping[int, int]) -> dict[int, list[Value]]:
    """The columns of a table in which something stands that nobody is to type, row by row."""
    found: dict[int, list[Value]] = {}
    for band in page.bands:
        at = band.first - placed.first
        if 0 <= at < placed.rows:
            for strip in band.strips:
                number = numbers.get(strip.column)
                if strip.style.role == "given" and number is not None and not strip.formula:
                    values = found.setdefault(number, [None] * placed.rows)
                    values[at : at + band.rows] = map(_plain, strip.values)
    return found


def _said(page: Page, tables: Sequence[Placed]) -> list[list[Value]]:
    """The program's texts on a page; what stands in the rows of its tables follows from records."""
    follow = [(range(each.first, each.first + each.rows + 1), each.taken) for each in tables]
    texts = {
        (row, strip.column): str(value)
        for band in page.bands
        for strip in band.strips
        if strip.style.role != "input"
        and not strip.formula
        and not any(band.first in rows and strip.column in taken for rows, taken in follow)
        for row, value in enumerate(strip.values, band.first)
        if isinstance(value, str) and value and mark_of(value) is None
    }
    runs: list[list[Value]] = []
    beyond = None
    for (row, column), text in sorted(texts.items()):
        if (row, column) == beyond:
            runs[-1].append(text)
        else:
            runs.append([row, column, text])
        beyond = row, column + 1
    return runs


def _plain(value: Value) -> Value:
    return str(value) if isinstance(value, str) else value


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


def _lone(page: Page, inside: Container[int]) -> Iterator[tuple[int, int, list[Value]]]:
    """The row and column of each formula outside the rows of tables, and of each number that the
    program put in there, with it."""
    for band in (each for each in page.bands if each.first not in inside):
        for strip in band.strips:
            for row, value in enumerate(strip.values, band.first):
                if strip.formula:
                    yield row, strip.column, []
                elif strip.style.role == "given" and not (value is None or isinstance(value, str)):
                    yield row, strip.column, [value]


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
