"""A finished workbook as plain data: what the writer turns into a file.

Rows and columns count from 1. A formula stands without its equals sign; in a strip the mark
``reportgen.algebra.places.ROW`` in it stands for the number of the row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal, NamedTuple

HIDDEN = "_"
"""How a cell's name begins that is for the program only."""
USUAL_WIDTH = 8.43
"""Digits, of a column of which nothing is said (ECMA-376, 18.3.1.81)."""

Value = float | str | bool | None
"""What a cell holds, or what its formula gives: a number (a date is one), a text, nothing. A truth
value is written as 1 or 0."""

Role = Literal[
    "title",  # the sheet's name, in A1
    "purpose",  # one line on what the sheet is for
    "section",  # heading of a block
    "group",  # heading of neighbouring columns
    "header",  # a column's name
    "unit",  # a column's unit
    "key",  # a record's id
    "input",  # to be typed in
    "given",  # put in by the program, not to be typed over
    "formula",  # worked out
    "check",  # worked out: 1 where something is wrong
    "headline",  # a figure to be seen from afar
    "label",  # a row's name in a list
    "verdict",  # the master verdict, in a sentence
    "sentence",  # a text to be read first
    "text",  # running text of the program's
    "link",  # leads to another sheet
    "closing",  # the ruled row that ends a table
    "caution",  # a warning in words
]


class Style(NamedTuple):
    """How a cell looks: its role, its number format, its alignment."""

    role: Role
    format: str = "General"
    align: Literal["left", "right", "center", ""] = ""
    wrap: bool = False
    top: bool = False
    """It stands at the top of a row that another cell's text makes taller."""
    spill: bool = False
    """Its text runs over the empty cells beside it."""


class Strip(NamedTuple):
    """One column of a band: one value a row, and the formula that gives it, if any."""

    column: int
    style: Style
    values: Sequence[Value]
    formula: str | None = None


class Band(NamedTuple):
    """Consecutive rows with the same columns."""

    first: int
    rows: int
    strips: Sequence[Strip]
    height: float | None = None
    more: float = 0.0
    """Points of room below their texts, as for the buttons of a filter."""


class Validation(NamedTuple):
    """What may be typed into some cells, and what is said about it."""

    cells: str
    """``C7:C60``."""
    kind: Literal["decimal", "whole", "date", "list"]
    low: str | None = None
    """A number as text, or a reference; for a list the range of its choices or ``"a,b"``."""
    high: str | None = None
    above: bool = False
    title: str = ""
    prompt: str = ""


Look = Literal["bad", "caution", "good", "quiet"]
"""How cells stand out: ``bad`` where something is wrong, ``quiet`` in rows not in use."""


class Condition(NamedTuple):
    """Cells that look different while a formula holds."""

    cells: str
    formula: str
    look: Look


class Series(NamedTuple):
    """One series of a chart: references, and the values they hold now."""

    name: str
    """Reference to the cell with its name."""
    name_value: str
    categories: str
    category_values: Sequence[str]
    values: str
    value_values: Sequence[float | None]


class Chart(NamedTuple):
    """A live chart."""

    kind: Literal["bar", "stacked bar", "column", "stacked column", "line", "scatter", "curve"]
    title: str
    x_title: str
    y_title: str
    series: Sequence[Series]
    anchor: str
    """The cell of its top left corner."""
    width_cm: float
    height_cm: float
    alt: str
    """What it says, for who cannot see it."""
    format: str = "General"


class Piece(NamedTuple):
    """Rows that belong together in print.

    Where its columns do not fit on one sheet of paper they are parted, and the first column is
    repeated on each part; a piece without ``parts`` stays in one.
    """

    first: int
    last: int
    columns: int
    """The last column that is printed."""
    parts: tuple[int, ...] = ()
    """The last column of each group of columns, in order: where they may be parted."""
    head: int = 0
    """The row from which the further parts are printed; 0: from the first."""
    foot: int = 0
    """The row up to which they are; 0: up to the last. A line below the table begins in the first
    column, which is repeated on them: there it would be cut."""
    fresh: bool = False
    """It begins a new sheet of paper."""


@dataclass
class Page:
    """One sheet."""

    name: str
    widths: dict[int, float] = field(default_factory=dict)
    bands: list[Band] = field(default_factory=list)
    spans: list[tuple[int, int, str]] = field(default_factory=list)
    """Headings over several columns: first, last, text; the columns are made wide enough."""
    unseen: set[int] = field(default_factory=set)
    """Columns that are not shown."""
    comments: dict[str, str] = field(default_factory=dict)
    """Cell → what is said about it when it is pointed at."""
    links: dict[str, str] = field(default_factory=dict)
    """Cell → the place in this workbook that it leads to: ``Lots!A1``."""
    validations: list[Validation] = field(default_factory=list)
    conditions: list[Condition] = field(default_factory=list)
    charts: list[Chart] = field(default_factory=list)
    hidden: Literal["", "hidden", "veryHidden"] = ""
    """There is nothing in it yet: whoever wants it shows it."""
    folded: frozenset[int] = frozenset()
    """Columns that are put out of sight, since nothing is in them yet."""
    filtered: str = ""
    """``A6:K20``: a table whose rows can be filtered, its last heading included."""
    margin: int = 0
    """A blank column, behind which stands what is for the screen alone; 0: there is none."""
    freeze: str = "B5"
    title_rows: tuple[int, int] = (1, 4)
    """Rows repeated on each printed page; 0, 0: none. Rows from the first on are texts that run
    over their neighbours, so they are not repeated where columns are parted."""
    landscape: bool = True
    one_page: bool = False
    """Shrunk until it fits on one printed page, however small that makes it."""
    small: bool = False
    """Printed as small as can just be read."""
    zoom: int = 100
    tab: Literal["read", "record", "audit"] = "record"
    pieces: list[Piece] = field(default_factory=list)
    """What is printed, from the top, without a gap; without any, all of it."""

    def runs(self) -> Iterator[tuple[int, int, list[Band]]]:
        """Its rows, cut wherever a band begins or ends, for bands may stand side by side: the first
        row, the row behind the last, and the bands that hold them."""
        bands = [band for band in self.bands if band.rows and band.strips]
        edges = sorted({edge for band in bands for edge in (band.first, band.first + band.rows)})
        coming = sorted(bands, key=lambda band: -band.first)
        here: list[Band] = []
        for first, stop in pairwise(edges):
            here = [band for band in here if first < band.first + band.rows]
            while coming and coming[-1].first <= first:
                here.append(coming.pop())
            if here:
                yield first, stop, here

    def columns(self, first: int, last: int) -> int:
        """How many columns something stands in, of these rows."""
        bands = (band for band in self.bands if first <= band.first <= last)
        return max((strip.column for band in bands for strip in band.strips), default=1)

    def width(self, column: int) -> float:
        """Digits that a column takes on paper."""
        out_of_sight = column in self.folded or column in self.unseen
        return 0.0 if out_of_sight else self.widths.get(column, USUAL_WIDTH)


@dataclass
class Workbook:
    """All sheets, the names of cells, and what the file says of itself."""

    title: str
    language: str
    pages: list[Page]
    names: dict[str, str] = field(default_factory=dict)
    """Defined name → ``'Rates'!$C$7``. Names that begin with a low line are not shown."""
    properties: dict[str, str] = field(default_factory=dict)
    """Custom properties: program version, digest of the source."""
    paper: Literal["letter", "a4"] = "letter"
