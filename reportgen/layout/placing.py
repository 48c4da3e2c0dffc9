"""Where every name lives: sheet, column, rows. The only module that knows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from reportgen.algebra.book import Book
from reportgen.algebra.factors import Factor
from reportgen.algebra.running import Running
from reportgen.algebra.tables import Definition, Table
from reportgen.layout.blocks import (
    Block,
    ChartBlock,
    ConstantsBlock,
    Contents,
    Group,
    InWordsBlock,
    LegendBlock,
    ListBlock,
    NewPage,
    RulesBlock,
    SentencesBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.layout.chart_room import chart_rows
from reportgen.layout.columns import columns_of
from reportgen.layout.spots import Seen, Spot, letters, quoted
from reportgen.layout.used import used_constants, used_factors

FIRST_ROW = 7
"""The first row of every sheet's first table, so that one table may go on over several sheets."""
CAUTIONS_ROW = 4
"""Below title, purpose and verdict."""
VALUE_COLUMN = 3
"""Where a list's values stand; its labels run over the first two columns."""
LEGEND_ROWS = 11
"""Samples of cells, headings above lists of sheets, how to show what is hidden: at most."""
_LIST = 5
"""Columns of a list: its label, which takes two, its value, unit and meaning."""
_ABOVE_TABLE = 3
"""Rows of a table's headings: group, name, unit."""


@dataclass(frozen=True)
class Placed:
    """A block with its place on the sheet. ``columns``: what stands in which column of a table."""

    block: Block
    top: int
    """The row of its heading."""
    first: int
    """The first row of its content."""
    rows: int
    """Rows of content, spare ones included, the closing row not."""
    columns: tuple[Group, ...] = ()
    margin: int = 0
    """The blank column, of the whole sheet, behind which stands what is for the screen alone."""
    fresh: bool = False  # it begins a new printed page

    @property
    def spread(self) -> Iterator[tuple[int, Group, str]]:
        """What stands in which column of a table."""
        column = 0
        for group in self.columns:
            if self.behind and not group.printed:
                column = max(column, self.margin)
            for name in group.names:
                column += 1
                yield column, group, name

    @property
    def taken(self) -> frozenset[int]:
        """The columns of a table."""
        return frozenset(column for column, _, _ in self.spread)

    @property
    def behind(self) -> bool:
        """Whether it is printed and has columns that are not."""
        return self.printed and not all(group.printed for group in self.columns)

    @property
    def printed(self) -> bool:
        """Whether more of a table is printed than its ids."""
        return any(group.heading and group.printed for group in self.columns)

    @property
    def last(self) -> int:
        """The last row that holds something: a table's is the line below its closing row."""
        below = 1 + bool(self.block.note) if isinstance(self.block, TableBlock) else 0
        return self.first + self.rows - 1 + below


class Layout:
    """Gives each table's columns, each single figure, constant and factor its place.

    ``rows``: how many rows each table has this season; ``slots``: what the units stand for;
    ``hidden``: the sheets that are out of sight.
    """

    def __init__(
        self,
        book: Book,
        contents: Contents,
        rows: Mapping[str, int],
        slots: Mapping[str, str],
        hidden: frozenset[str] = frozenset(),
        running: Running | None = None,
    ) -> None:
        self.book, self.slots, self.hidden = book, slots, hidden
        self.contents, sheets = contents, contents.sheets
        self.columns: dict[tuple[str, str, str], Spot] = {}
        self.mirrors: dict[tuple[str, str, str], Spot] = {}
        """Where a column of the same sheet is repeated, further left."""
        self.homes: dict[tuple[str, str], Spot] = {}
        self.singles: dict[tuple[str, str], Spot] = {}
        self.constants: dict[str, Spot] = {}
        self.factors: dict[Factor, Spot] = {}
        self.placed: dict[str, list[Placed]] = {}
        self.cautions: dict[str, list[str]] = {}
        """Sheet → what must stand beside its figures."""
        self.lacking: dict[str, list[int]] = {}
        """Sheet → the checks, by number, that find what its tables lack."""
        self._columns_of = columns_of(book, sheets, running)
        trees = [d.tree for d in book.order if d.tree is not None]
        self.used_constants = used_constants(trees)
        self.used_factors = used_factors(trees, slots)
        for sheet in sheets:
            self.lacking[sheet.name] = self._lacking(sheet)
            self._place(sheet, rows, sheets)

    # --- placing ----------------------------------------------------------------------

    def _lacking(self, sheet: Sheet) -> list[int]:
        if self.contents.said is None:
            return []
        own = {
            block.table.name
            for block in sheet.blocks
            if isinstance(block, TableBlock) and not block.echoes
        }
        return [
            number
            for number, check in enumerate(self.book.checks)
            if own & {table.name for table in check.lacking}
        ]

    def _place(self, sheet: Sheet, rows: Mapping[str, int], sheets: Sequence[Sheet]) -> None:
        placed: list[Placed] = []
        self.placed[sheet.name] = placed
        # A first table has no heading: it would stand in row 3, which every sheet gives to the
        # verdict. Its row of groups shares row 4 with the way back to the first sheet.
        tabled = bool(sheet.blocks) and isinstance(sheet.blocks[0], TableBlock)
        cautions = self.cautions[sheet.name] = self.contents.beside(self._shown(sheet))
        said = len(cautions) + len(self.lacking[sheet.name])
        next_row = FIRST_ROW - _ABOVE_TABLE - (1 if tabled else -1) + said
        margin = self._margin(sheet)
        fresh = False
        for number, block in enumerate(sheet.blocks):
            top = next_row
            match block:
                case NewPage():
                    fresh = True
                    continue
                case TableBlock():
                    first = top + 1 + _ABOVE_TABLE
                    # With the closing row every range has two cells at least: SUMPRODUCT of one
                    # that is blank is an error in some suites.
                    count = max(rows.get(block.table.name, 0) + block.spare, 1)
                    groups = self._columns_of.groups[sheet.name, number]
                    made = Placed(block, top, first, count, groups, margin=margin)
                    self._columns(sheet.name, made)
                    next_row = first + count + 2
                case ListBlock():
                    first = top + 1
                    items = self.items(block)
                    for offset, (table, name) in enumerate(items):
                        row = first + offset
                        self.singles.setdefault(
                            (table.name, name), Spot(sheet.name, VALUE_COLUMN, row, row)
                        )
                    made = Placed(block, top, first, len(items))
                    next_row = first + len(items) + 1
                case ConstantsBlock():
                    first = top + 1
                    for offset, constant in enumerate(self.used_constants.values()):
                        row = first + offset
                        self.constants[constant.name] = Spot(sheet.name, VALUE_COLUMN, row, row)
                    below = first + len(self.used_constants)
                    for offset, factor in enumerate(self.used_factors):
                        row = below + offset
                        self.factors[factor] = Spot(sheet.name, VALUE_COLUMN, row, row)
                    made = Placed(block, top, first, below - first + len(self.used_factors))
                    next_row = first + made.rows + 1
                case RulesBlock():
                    made = Placed(block, top, top + 2, len(self.book.order))
                    next_row = made.first + made.rows + 1
                case ChartBlock():
                    tall = sum(chart_rows(c, rows.get(c.table.name, 0)) for c in block.charts)
                    made = Placed(block, top, top, tall)
                    next_row = top + tall
                case SentencesBlock():
                    made = Placed(block, top, top + 1, rows.get(block.table.name, 0))
                    next_row = made.first + made.rows + 1
                case LegendBlock():
                    made = Placed(block, top, top + 1, LEGEND_ROWS + len(sheets))
                    next_row = made.first + made.rows + 1
                case InWordsBlock():
                    made = Placed(block, top, top + 1, 2 * len(block.names))
                    next_row = made.first + made.rows + 1
                case TextBlock():
                    made = Placed(block, top, top + 1, len(block.lines))
                    next_row = made.first + made.rows + 1
            placed.append(replace(made, fresh=fresh))
            fresh = False

    def _margin(self, sheet: Sheet) -> int:
        """The column past all that is printed of a sheet: of each table, and of lists. Texts and
        charts that reach further get room there (``print_pieces.py``)."""
        tables = [
            sum(
                len(group.names)
                for group in self._columns_of.groups[sheet.name, n]
                if group.printed
            )
            for n, block in enumerate(sheet.blocks)
            if isinstance(block, TableBlock)
        ]
        lists = [_LIST for block in sheet.blocks if isinstance(block, ListBlock | ConstantsBlock)]
        return 1 + max([*tables, *lists], default=0)

    def _shown(self, sheet: Sheet) -> Iterator[tuple[str, str]]:
        for number, block in enumerate(sheet.blocks):
            if isinstance(block, ListBlock):
                yield from ((table.name, name) for table, name in self.items(block))
            elif isinstance(block, TableBlock):
                groups = self._columns_of.groups[sheet.name, number]
                yield from ((block.table.name, name) for group in groups for name in group.names)

    def _columns(self, sheet: str, made: Placed) -> None:
        assert isinstance(made.block, TableBlock)
        table = made.block.table.name
        last = made.first + made.rows
        for column, group, name in made.spread:
            spot = Spot(sheet, column, made.first, last)
            if name in group.mirrored:
                self.mirrors[sheet, table, name] = spot
                continue
            self.columns[sheet, table, name] = spot
            if not group.echo:
                self.homes.setdefault((table, name), spot)

    def items(self, block: ListBlock) -> list[tuple[Table, str]]:
        """The figures of a list, in order."""
        found = [(table, name) for table, names in block.items for name in names]
        if block.rest:
            for table, _ in block.items:
                names, named = [*table.inputs, *table.definitions], self._columns_of.named
                found += [(table, n) for n in names if (table.name, n) not in named]
        return found

    # --- finding ----------------------------------------------------------------------

    def column(self, table: str, name: str, sheet: str = "") -> Spot:
        """A column's place: on the given sheet if it stands there, else wherever it does."""
        here = self.columns.get((sheet, table, name))
        return here or self.homes[table, name]

    def read_at(self, table: str, name: str, sheet: str = "") -> Spot:
        """Where people and charts read a column: as it is repeated, if it is."""
        spot = self.column(table, name, sheet)
        return self.mirrors.get((spot.sheet, table, name), spot)

    def where(self, definition: Definition) -> Spot:
        """Where a quantity stands."""
        if definition.table.single:
            return self.singles[definition.key]
        return self.read_at(*definition.key)

    def named(self) -> dict[str, str]:
        """Defined name → the cell of its input."""
        found = {}
        for name, (table, column, row) in self.contents.names.items():
            single = self.book.tables[table].single
            spot = (self.singles if single else self.homes)[table, column]
            found[name] = f"{quoted(spot.sheet)}!${letters(spot.column)}${spot.first + row}"
        return found

    def seen_from(self, sheet: str) -> Seen:
        """The places as formulas on one sheet write them."""
        return Seen(self, sheet)
