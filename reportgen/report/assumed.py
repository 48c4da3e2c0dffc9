"""What a season's figures rest on that nobody weighed, metered or wrote down.

From the figures back to where an estimate begins: a weight written as about, a step that is marked
as an estimate. Only what is estimated is followed, and of a choice only the branch that was taken.
"""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.algebra.expr import Estimate, Expr, FirstKnown, Where
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.words import words_of
from reportgen.model.fields import Day
from reportgen.model.records import RECORDS
from reportgen.model.season import Season
from reportgen.report.basis import Bases
from reportgen.report.figures import keys
from reportgen.report.origins import at, record
from reportgen.report.reads import Cell, Reads, Rows
from reportgen.report.show import shown

FIGURES = (
    ("season", "running_cost"),
    ("products", "running_per_packed"),
    ("products", "full_per_packed"),
    ("products", "overall_yield"),
    ("products", "unpacked"),
)
"""What is told of a season first, and all that these rest on."""

Listed = tuple[str, str]


def assumed(season: Season, numbers: Numbers) -> list[Listed]:
    """Every assumption in words, with its record's place; days last."""
    return [*_Search(season, numbers).estimates(), *_days(season, numbers)]


def share_said(numbers: Numbers) -> str:
    """The share of the running cost that rests on estimates, in words; empty where none does."""
    value = numbers.value("season", "estimated_share")
    if not value:
        return ""
    kind = numbers.book.tables["season"].kind_of("estimated_share")
    return f"{shown(value, kind, numbers.slots)} of the running cost rests on estimates"


class _Search:
    def __init__(self, season: Season, numbers: Numbers) -> None:
        self._season, self._numbers = season, numbers
        self._reads, self._bases = Reads(numbers), Bases(numbers)
        self._words = words_of(numbers.book, *season.slots.items())

    def estimates(self) -> list[Listed]:
        """Where estimates begin, in the order of their records."""
        tables = self._numbers.book.tables
        ahead = [
            Cell(tables[table], name, row)
            for table, name in FIGURES
            for row in range(self._numbers.rows(tables[table]))
        ]
        seen = {cell.id for cell in ahead}
        found: dict[tuple[str, int, str], Listed] = {}
        while ahead:
            cell = ahead.pop()
            if not self._estimated(cell):
                continue
            definition = cell.table.definitions.get(cell.name)
            tree = definition.tree if definition is not None else None
            known = self._numbers.value(cell.table.name, cell.name, cell.row) is not None
            if known and (tree is None or self._begins(tree, cell.row)):
                said = self._said(cell, definition.doc if definition is not None else "")
                found[cell.table.name, cell.row, cell.name] = said
            if tree is None:
                continue
            for each in self._cells(cell):
                if each.id not in seen:
                    seen.add(each.id)
                    ahead.append(each)
        order = list(tables)
        return [found[k] for k in sorted(found, key=lambda k: (order.index(k[0]), *k[1:]))]

    def _cells(self, cell: Cell) -> Iterator[Cell]:
        for read in self._reads.of(cell):
            if isinstance(read, Cell):
                yield read
            elif isinstance(read, Rows):
                yield from read.cells

    def _estimated(self, cell: Cell) -> bool:
        given = cell.table.inputs.get(cell.name)
        if given is not None:
            return bool(given.about and self._numbers.value(cell.table.name, given.about, cell.row))
        return self._bases.of(cell.table, cell.name, cell.row) != "measured"

    def _begins(self, expr: Expr, row: int) -> bool:
        """Whether a rule becomes an estimate here, by the branch that was taken."""
        if isinstance(expr, Estimate):
            return True
        if isinstance(expr, Where | FirstKnown):
            taken = self._reads.branch(expr, row)
            return taken is not None and self._begins(taken, row)
        return any(self._begins(part, row) for part in expr.inner(resting=True))

    def _said(self, cell: Cell, doc: str) -> Listed:
        table = cell.table
        value = self._numbers.value(table.name, cell.name, cell.row)
        told = shown(value, table.kind_of(cell.name), self._season.slots)
        key = keys(self._numbers, table)[cell.row]
        what = doc or f"{self._words.label(table, cell.name)}, written as about"
        place = record(self._season, table.name, cell.row)
        return f"{table.one} {key}: {told}: {what[0].lower()}{what[1:].rstrip('.')}", place


def _days(season: Season, numbers: Numbers) -> Iterator[Listed]:
    """Days that follow from another record: not those that stand in a file's name."""
    for name, rows in season.tables.items():
        table = numbers.book.tables.get(name)
        if table is None or name not in RECORDS:
            continue
        for field in RECORDS[name].fields:
            if not isinstance(field, Day):
                continue
            for row, origin in enumerate(rows.origins[field.input_name]):
                if origin is None or origin.kind != "default" or origin.place is None:
                    continue
                if origin.place == rows.places[row]:
                    continue
                day = shown(rows.values[field.input_name][row], table.kind_of(field.input_name),
                            numbers.slots)  # fmt: skip
                place = at(rows.places[row])
                yield f"{table.one} {rows.keys[row]}: {day}: {origin.text}", place
