"""A costing sheet that came back from a partner: what was changed in it, and what that does.

It shows one product and leaves out what is private, so nothing of it is written into the season's
files: it is compared, against the same sheet as it would be made now.
"""

from __future__ import annotations

from reportgen.algebra.book import Book
from reportgen.algebra.numbers import Cells, Numbers
from reportgen.edits import sides
from reportgen.edits.apply import Taken
from reportgen.edits.differences import Difference
from reportgen.edits.effects import Effect, effects
from reportgen.edits.memory import Entry, Memory, Remembered
from reportgen.edits.typed_over import beside
from reportgen.handout.partner import partner_numbers
from reportgen.model.fields import Record
from reportgen.model.records import RECORDS
from reportgen.model.season import Origin, Rows, Season
from reportgen.read.problem import Place, Refusal
from reportgen.returned.cells import Workbook
from reportgen.trade.rows import of_book

_ONE = "products"
"""The table that has one row in a costing sheet: its inputs have names, not marks."""
_PRICES = (("prices", "price_asked"), ("prices", "price_floor"))
"""What a partner looks for besides what is told of a season."""


def remembered(own: Numbers, product: str, everything: bool) -> Remembered:
    """What the workbook of a costing sheet remembers: what it shows, no file and nothing else."""
    tables = _typed(own.book)
    entries: list[Entry] = []
    for table, names in tables.items():
        for row, key in enumerate(_keys(own, table)):
            inputs = {
                name: [own.cells[table][name][row]]
                for name in names
                if own.cells[table][name][row] is not None
            }
            entries.append([table, row + 1, key, "", 0, inputs])
    marked = frozenset(name for name in tables if not own.book.tables[name].single and name != _ONE)
    return Remembered(marked, None, own.slots, entries, (product, everything))


def compared(
    workbook: Workbook, memory: Memory, season: Season, numbers: Numbers, words: dict[str, str],
    computed: bool,
) -> tuple[Difference, Taken, list[Effect], Book]:  # fmt: skip
    """What was changed in a costing sheet, set against the season as it is now, and what it does.

    Raises :class:`Refusal` where the season does not have its product any more.
    """
    assert memory.product is not None
    product, everything = memory.product
    known = [str(key) for key in numbers.cells["products"]["key"]]
    if product.casefold() not in (key.casefold() for key in known):
        raise Refusal(
            f"this workbook is the costing sheet of {product}, which the season does not have",
            "one of a product of this season",
            "give the season that it was made from",
        )
    own = partner_numbers(numbers, product, everything)
    found = sides.compare(
        workbook, memory, _as_season(season, own), own.book.tables, words, computed
    )
    found.changes = [beside(own, None, each) for each in found.changes]
    after = _with(own, found)
    return found, Taken(), effects(own, after, _PRICES), own.book


def _typed(book: Book) -> dict[str, list[str]]:
    """The inputs that a partner may change, by table."""
    found = {
        table.name: [name for name, each in table.inputs.items() if not each.fixed]
        for table in book.tables.values()
    }
    return {name: names for name, names in found.items() if names}


def _keys(own: Numbers, table: str) -> list[str]:
    if own.book.tables[table].single:
        return [table]
    return [str(key) for key in own.cells[table]["key"]]


def _as_season(season: Season, own: Numbers) -> Season:
    """The product's part of a season as its costing sheet has it, each record with the place where
    the season's files have it."""
    tables = {table: _rows(season, own, table, names) for table, names in _typed(own.book).items()}
    return Season(
        season.name, season.currency, season.fresh, season.dried, season.folder, season.locale,
        tables,
    )  # fmt: skip


def _rows(season: Season, own: Numbers, table: str, names: list[str]) -> Rows:
    record = RECORDS.get(table)
    rows = Rows(Record(table, "", (), "derived"), _keys(own, table))
    rows.values = {name: own.cells[table][name] for name in names}
    there = season.tables.get(table, Rows(rows.record))
    if record is not None and record.key == "id":
        rows.record = Record(table, "", ())
    at = {key.casefold(): row for row, key in enumerate(there.keys)}
    stand = [at.get(key.casefold()) for key in rows.keys]
    rows.places = [Place("", 0) if row is None else there.places[row] for row in stand]
    for name in names:
        origins: list[Origin | None] = there.origins.get(name, [])
        rows.origins[name] = [None if row is None or not origins else origins[row] for row in stand]
    return rows


def _with(own: Numbers, found: Difference) -> Numbers:
    """The costing sheet with what was changed in it."""
    tables: dict[str, Cells] = {}
    for table in own.book.tables.values():
        columns = [*table.inputs, *([] if "key" in table.definitions else ["key"])]
        cells = own.cells[table.name]
        tables[table.name] = {name: list(cells.get(name, [table.name])) for name in columns}
    for each in found.of("change", "conflict"):
        at = found.at.get((each.table, each.row))
        if at is not None and each.field in tables[each.table]:
            tables[each.table][each.field][at] = each.edited
    for number, new in enumerate(found.added, 1):
        for name, column in tables[new.table].items():
            column.append((new.key or f"new-{number}") if name == "key" else new.values.get(name))
    for table_name, gone in _gone(found).items():
        for column in tables[table_name].values():
            column[:] = [value for row, value in enumerate(column) if row not in gone]
    return Numbers(own.book, {**tables, **of_book(own.book)}, own.slots)


def _gone(found: Difference) -> dict[str, set[int]]:
    """The rows that were taken away, by table."""
    gone: dict[str, set[int]] = {}
    for each in found.of("removed"):
        at = found.at.get((each.table, each.row))
        if at is not None:
            gone.setdefault(each.table, set()).add(at)
    return gone
