"""What a workbook remembers: the records it was built from, as written and as read.

It stands on a sheet of its own, because a sheet is what every suite keeps. It is data and never
trusted: what is changed in it, or missing, is noticed by its digest.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from reportgen.algebra.phrases import Say
from reportgen.layout.blocks import TableBlock
from reportgen.layout.live import Live, columns_of
from reportgen.layout.page import Band, Page, Piece, Strip, Style, Value
from reportgen.layout.placing import Placed
from reportgen.layout.row_marks import is_marked
from reportgen.model import notebook
from reportgen.model.records import RECORDS
from reportgen.model.season import Season

NAME = "Memory"
TITLE = "What this workbook was built from, so that edits can be taken home. Leave it as it is."
VERSION = 1
_LONGEST = 30_000
"""Letters of one cell; a spreadsheet's ends at 32,767."""
_TEXT = Style("text", "@", "left", spill=True)

WRITTEN_AS = {"changes": "scenarios", "asking": "asked"}
"""Tables of the book whose records go by another name in a season's files."""
TABLES = frozenset([*RECORDS, *WRITTEN_AS, notebook.NAME, "prices"])
"""Those whose records are remembered."""
SINGLE = ("season", "rates", "pricing", "scale", "place", "maker")
"""Tables that have one row, whose inputs have a defined name each."""


@dataclass(frozen=True)
class Built:
    """A record as it was when the workbook was built. ``written``: what stood in its file, by
    input; ``values``: what that came to, defaults and product data included."""

    table: str
    number: int
    key: str
    file: str
    line: int
    values: Mapping[str, Value]
    written: Mapping[str, str]


class Heading(NamedTuple):
    """A column's quantity or input, its name as it is read, and its unit."""

    name: str
    label: str
    unit: str


class Spoken(NamedTuple):
    """A single figure in a list: its sheet, its column, the text at the beginning of its row, its
    unit."""

    sheet: str
    column: int
    label: str
    unit: str


@dataclass(frozen=True)
class Formulas:
    """The columns of a table, and which of them, from 0, hold formulas: in its rows, and in the one
    that closes it. ``constants``: what stands in those that are neither formulas nor inputs."""

    headings: Sequence[Heading]
    rows: Sequence[int]
    closing: Sequence[int]
    constants: Mapping[int, Sequence[Value]]


@dataclass(frozen=True)
class Shown:
    """A table that is worked out. ``head`` and ``end``: the names of its first heading and of the
    first cell of the row that closes it."""

    head: str
    end: str
    table: str
    formulas: Formulas


@dataclass(frozen=True)
class Lone:
    """A formula by itself, or, with a ``value``, a number that nobody is to type; by the name of
    its cell."""

    cell: str
    table: str
    row: str
    name: str
    value: Value = None


@dataclass
class Memory:
    """All that a workbook remembers. ``columns``: the headings of each table's columns, in their
    order, with the input or quantity below each; ``whole``: the digest agrees."""

    as_of: float | None = None
    units: dict[str, str] = field(default_factory=dict)
    columns: dict[str, list[Heading]] = field(default_factory=dict)
    cells: dict[tuple[str, str], str] = field(default_factory=dict)
    """Inputs of tables that have one row → the defined names of their cells."""
    spoken: dict[tuple[str, str], Spoken] = field(default_factory=dict)
    """Of these, those in lists."""
    records: dict[tuple[str, int], Built] = field(default_factory=dict)
    whole: bool = True
    product: tuple[str, bool] | None = None
    """Of a costing sheet: its product, and whether what is private is shown."""
    formulas: dict[str, Formulas] = field(default_factory=dict)
    shown: list[Shown] = field(default_factory=list)
    lone: list[Lone] = field(default_factory=list)
    said: dict[str, dict[tuple[int, int], str]] = field(default_factory=dict)
    """The program's texts, by sheet, row and column."""


Entry = list[Any]
"""A record in the memory: table, number, key, file, line, its inputs. An input stands as
``[value, text]``, the text where it was written in a file."""


@dataclass(frozen=True)
class Remembered:
    """What a workbook is to remember. ``marked``: the tables whose rows are marked; ``product``: of
    which it is the costing sheet, and whether what is private is shown; nothing for a season's."""

    marked: frozenset[str]
    as_of: Value
    slots: Mapping[str, str]
    records: Iterable[Entry]
    product: tuple[str, bool] | None = None


def of_season(season: Season, marked: frozenset[str]) -> Remembered:
    """What the workbook of a season remembers."""
    return Remembered(
        marked, season.tables["season"].values["as_of"][0], season.slots, _records(season)
    )


def page_of(
    remembered: Remembered,
    say: Say,
    names: Mapping[str, tuple[str, str, int]],
    placed: Mapping[str, Sequence[Placed]],
    pages: Sequence[Page],
    live: Live,
) -> Page:
    """The sheet that holds the memory of a workbook, whose blocks and pages these are.
    ``names``: the inputs that have a defined name; ``live``: what is worked out elsewhere."""
    named = {page.name: page for page in pages}
    columns, formulas = {}, {}
    for sheet, blocks in placed.items():
        for each in blocks:
            if is_marked(each, remembered.marked):
                assert isinstance(each.block, TableBlock)
                table = each.block.table.name
                columns[table], *formulas[table] = columns_of(named[sheet], each)
    cells = {
        name: [at[0], at[1], *live.labelled.get((at[0], at[1]), ())]
        for name, at in names.items()
        if at[0] not in columns
    }
    live_cells = [formulas, live.tables, live.lone, live.said]
    head = [VERSION, remembered.as_of, remembered.slots, columns, cells, live_cells]
    tables = {*columns, *(str(table) for table, *_ in cells.values())}
    lines = [
        _packed([*head, remembered.product] if remembered.product else head),
        *(_packed(record) for record in remembered.records if record[0] in tables),
    ]
    lines.append(digest(lines))
    most = max(-(-len(line) // _LONGEST) for line in lines)
    page = Page(NAME, tab="audit", hidden="veryHidden", pieces=[Piece(1, 1, 1)])
    page.bands = [
        Band(1, 1, [Strip(1, Style("title"), [NAME]), Strip(2, _TEXT, [say(TITLE)])]),
        Band(2, len(lines), [Strip(at + 1, _TEXT, _part(lines, at)) for at in range(most)]),
    ]
    return page


def _part(texts: Sequence[str], at: int) -> list[Value]:
    return [text[at * _LONGEST : (at + 1) * _LONGEST] or None for text in texts]


def _records(season: Season) -> Iterator[Entry]:
    for table in (*SINGLE, *sorted(TABLES - set(SINGLE))):
        rows = season.tables.get(WRITTEN_AS.get(table, table))
        if rows is None:
            continue
        for row, (key, place) in enumerate(zip(rows.keys, rows.places, strict=True)):
            inputs: dict[str, list[Value]] = {}
            for name, column in rows.values.items():
                origin = rows.origins[name][row]
                if column[row] is None:
                    continue
                given = origin is not None and origin.kind == "given"
                inputs[name] = [column[row], origin.text] if given and origin else [column[row]]
            yield [table, row + 1, key, place.file, place.line, inputs]


def _packed(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def digest(lines: Sequence[str]) -> str:
    """By which a memory that was changed is noticed."""
    return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogatepass")).hexdigest()
