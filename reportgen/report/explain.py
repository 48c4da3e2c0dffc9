"""Where a number comes from: the tree of its inputs, down to the line of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reportgen.algebra.book import Key
from reportgen.algebra.nodes import Constant, PerRow
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Definition, Table
from reportgen.algebra.words import words_of
from reportgen.model.season import Season
from reportgen.report.basis import Bases
from reportgen.report.figures import keys
from reportgen.report.origins import of_input, record
from reportgen.report.reads import Cell, NoRow, Read, Reads, Rows
from reportgen.report.show import amount, shown
from reportgen.report.spoken import Spoken
from reportgen.report.verdicts import note_of
from reportgen.trade.safety import beside

MOST_ROWS = 12
"""Rows of a sum that are gone into, unless all are asked for."""
_STEP = "  "


class Explainer:
    """Explains cells of one season. ``depth``: how many steps down, all where None; ``every``: go
    into every row of a sum."""

    def __init__(
        self, season: Season, numbers: Numbers, depth: int | None = None, every: bool = False
    ) -> None:
        self._season, self._numbers = season, numbers
        self._depth, self._every = depth, every
        self._reads, self._bases = Reads(numbers), Bases(numbers)
        self._words = words_of(numbers.book, *season.slots.items())
        self._keys: dict[str, list[str]] = {}
        self._seen: set[object] = set()
        self._shown: set[Key] = set()

    def column(self, table: Table, name: str) -> Iterator[str]:
        """What a column is, and its value in every row."""
        label = self._words.label(table, name)
        yield f"{label} of {table.title}"
        yield from self._about(table, name)
        kind = table.kind_of(name)
        if not self._rows(table):
            yield f"No {table.title} are recorded yet."
        for row, key in enumerate(self._rows(table)):
            value = self._numbers.value(table.name, name, row)
            yield f"{_STEP}{key} = {shown(value, kind, self._season.slots)}"
        yield from _cautions({(table.name, name)})

    def cell(self, cell: Cell) -> Iterator[str]:
        """One cell, and all it was worked out from."""
        self._shown.clear()
        yield self._headline(cell)
        yield from (_STEP + line for line in self._about(cell.table, cell.name))
        where = record(self._season, cell.table.name, cell.row)
        if where and not cell.table.single:
            yield f"{_STEP}The {cell.table.one} stands at {where}."
        note = note_of(self._numbers, cell.table, cell.row)
        if note:
            yield f"{_STEP}Note: {note}"
        self._seen.add(cell.id)
        yield from self._body(cell, 1)
        yield from _cautions(self._shown)

    def _about(self, table: Table, name: str) -> Iterator[str]:
        definition = table.definitions.get(name)
        if definition is not None:
            yield definition.doc
            if definition.do:
                yield f"Where it fails: {definition.do}"
            yield f"Rule: {self._words.rule(definition)}"
            yield f"Source: {definition.source}"
        elif name in table.inputs:
            yield table.inputs[name].doc

    def _headline(self, cell: Cell) -> str:
        self._shown.add((cell.table.name, cell.name))
        label = self._words.label(cell.table, cell.name)
        return f"{label} of {self._row(cell)} = {self._amount(cell)}{self._rests(cell)}"

    def _amount(self, cell: Cell) -> str:
        value = self._numbers.value(cell.table.name, cell.name, cell.row)
        kind = cell.table.kind_of(cell.name)
        if value is None and kind.type == "text":
            return "none"
        return amount(value, kind, self._season.slots)

    def _rests(self, cell: Cell) -> str:
        kind = cell.table.kind_of(cell.name)
        if kind.type != "number" or kind.show == "count" or cell.name in cell.table.inputs:
            return ""
        match self._bases.of(cell.table, cell.name, cell.row):
            case "estimated":
                return "   (rests on estimates)"
            case "mixed":
                return "   (rests in part on estimates)"
        return ""

    def _row(self, cell: Cell) -> str:
        if cell.table.single:
            return cell.table.one
        return f"{cell.table.one} {self._rows(cell.table)[cell.row]}"

    def _rows(self, table: Table) -> list[str]:
        if table.name not in self._keys:
            self._keys[table.name] = keys(self._numbers, table)
        return self._keys[table.name]

    def _body(self, cell: Cell, level: int) -> Iterator[str]:
        """What stands below a cell's own line."""
        indent = _STEP * level
        definition = cell.table.definitions.get(cell.name)
        if definition is None:
            yield f"{indent}{of_input(self._season, cell)}"
            return
        if level > 1:
            yield f"{indent}= {self._rule(definition, cell.row)}"
        filled = self._filled(definition, cell.row)
        if filled != self._amount(cell):
            yield f"{indent}= {filled}"
        for read in self._reads.of(cell):
            yield from self._read(read, level)

    def _rule(self, definition: Definition, row: int) -> str:
        if isinstance(definition.tree, PerRow):
            return self._words.phrase(definition.tree.parts[row])[0]
        return self._words.rule(definition)

    def _filled(self, definition: Definition, row: int) -> str:
        assert definition.tree is not None
        return Spoken(self._reads, row).phrase(definition.tree)[0]

    def _read(self, read: Read, level: int) -> Iterator[str]:
        indent = _STEP * level
        match read:
            case Cell():
                yield from self._below(read, level)
            case Rows():
                most = len(read.cells) if self._every else MOST_ROWS
                for each in read.cells[:most]:
                    yield from self._below(each, level)
                if len(read.cells) > most:
                    more = f"{len(read.cells) - most:,} more {read.table.title}"
                    yield f"{indent}- and {more} (--all goes into them)"
            case NoRow():
                column = self._words.label(read.expr.parent, read.expr.name)
                link = read.expr.link.replace("_", " ")
                yield f"{indent}- {column}: no {link} is named"
            case Constant():
                if read.name not in self._seen:
                    self._seen.add(read.name)
                    unit = read.unit.text(self._season.slots, raised=True)
                    number = f"{read.value:g} {unit}".rstrip()
                    yield f"{indent}- {read.label} = {number}"
                    yield f"{indent}{_STEP}  constant; source: {read.source}"

    def _below(self, cell: Cell, level: int) -> Iterator[str]:
        line = f"{_STEP * level}- {self._headline(cell)}"
        if cell.id in self._seen:
            yield f"{line}   (as above)"
        elif self._depth is not None and level > self._depth:
            yield f"{line} ..."
        else:
            self._seen.add(cell.id)
            yield line
            yield from self._body(cell, level + 1)


def _cautions(shown: Iterable[Key]) -> Iterator[str]:
    """What must stand beside figures that could do harm."""
    yield from (f"Caution: {each}" for each in beside(shown))
