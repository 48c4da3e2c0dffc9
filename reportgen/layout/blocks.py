"""What a sheet may hold. A sheet says what, not where: ``layout.py`` finds the cells."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from reportgen.algebra.book import Key
from reportgen.algebra.phrases import Phrase, phrase
from reportgen.algebra.tables import Table
from reportgen.layout.page import Look, Page


@dataclass(frozen=True)
class Group:
    """Neighbouring columns under one heading."""

    heading: str
    names: tuple[str, ...]
    echo: bool = False
    """The columns stand elsewhere and are only repeated here."""
    printed: bool = True
    """They are on the printed sheet; the others are for the screen."""
    quiet: bool = False
    """They are folded, too, where all that they show is 0: of use to few."""
    mirrored: frozenset[str] = frozenset()
    """Of them, those that stand further right on this sheet and are only repeated here: which,
    ``columns.py`` finds out."""


@dataclass(frozen=True)
class TableBlock:
    """The rows of a table, under headings. ``spare`` rows are ready to be filled in.

    A table may have blocks on several sheets, the first block of each; the one marked ``rest``
    also holds all columns that no block names.
    """

    table: Table
    groups: tuple[Group, ...]
    heading: str = ""
    spare: int = 0
    rest: bool = True
    keys: bool = True
    """The ids are typed here; else they are repeated from where they are."""
    ids: bool = True
    """There is a column of ids; else the first group stands in its place, and ids that are typed or
    made here stand behind the figures: of places in a list, which nobody names by them."""
    note: str = ""
    """A line below the table, as of what fills it."""

    @property
    def echoes(self) -> bool:
        """Whether it only repeats what stands on other sheets."""
        return not self.rest and not self.keys and all(group.echo for group in self.groups)

    @property
    def name(self) -> str:
        """What people see above it: its heading, else that of its first columns."""
        return self.heading or next(
            (group.heading for group in self.groups if group.heading), self.table.title
        )

    def over(self, group: Group) -> str:
        """What stands over a group; whose it is, where it may be far from its table."""
        if group.printed or not self.heading:
            return group.heading
        of = Phrase.of(self.table.title)
        return phrase("{group}: {table}", group=Phrase.of(group.heading), table=of)


@dataclass(frozen=True)
class ListBlock:
    """Figures of tables that have one row, one below the other: label, value, unit, meaning."""

    heading: str
    items: tuple[tuple[Table, tuple[str, ...]], ...]
    rest: bool = False
    """It also holds whatever of these tables no other list names."""


@dataclass(frozen=True)
class SentencesBlock:
    """A text of each row of a table, one below the other."""

    heading: str
    table: Table
    name: str


@dataclass(frozen=True)
class InWordsBlock:
    """How quantities of a table come about: the rule of each in words, and below it what it is."""

    heading: str
    table: Table
    names: tuple[str, ...]


@dataclass(frozen=True)
class ConstantsBlock:
    """Every named constant and unit factor that formulas use, with its source."""

    heading: str


@dataclass(frozen=True)
class RulesBlock:
    """Every quantity: name, unit, rule in words, source, where it stands."""

    heading: str


@dataclass(frozen=True)
class TextBlock:
    """Lines of text."""

    heading: str
    lines: tuple[str, ...]
    caution: bool = False


@dataclass(frozen=True)
class LegendBlock:
    """A sample of each kind of cell, and the sheets with what they are for."""

    heading: str
    printed: bool = True


@dataclass(frozen=True)
class ChartSpec:
    """A chart over the rows of a table: which columns, named how."""

    kind: Literal["bar", "stacked bar", "column", "stacked column", "curve"]
    title: str
    table: Table
    names: tuple[str, ...]
    labels: str
    """The column that names the categories."""
    axis: str
    """What the values are; their unit is added."""
    most_rows: int = 60
    """Beyond so many rows a chart shows nothing; it is left out."""
    width: float = 22.0
    """Centimetres."""
    curves: str = ""
    """For a curve over the numbers in ``labels``: the column whose first few values each have a
    curve of their own, over the rows that hold them."""


@dataclass(frozen=True)
class NewPage:
    """What follows begins a new printed page."""


@dataclass(frozen=True)
class ChartBlock:
    """Charts, one below the other."""

    charts: tuple[ChartSpec, ...]


Block = (
    TableBlock
    | ListBlock
    | SentencesBlock
    | InWordsBlock
    | ConstantsBlock
    | RulesBlock
    | TextBlock
    | LegendBlock
    | ChartBlock
    | NewPage
)


@dataclass(frozen=True)
class Use:
    """What makes a sheet of use: a column in which something stands."""

    table: Table
    name: str
    above: int = 0
    """In more rows than so many, of which it would say little; of a table with one row, a number
    above it."""


@dataclass(frozen=True)
class Sheet:
    """A sheet: its name, what it is for, its blocks."""

    name: str
    purpose: str
    blocks: Sequence[Block]
    tab: Literal["read", "record", "audit"]
    landscape: bool = True
    one_page: bool = False
    """It is printed on one page, as small as that makes it."""
    small: bool = False
    """It is printed as small as can just be read: many short texts, seldom asked for."""
    aside: bool = False
    """It is there for who looks closer: hidden, and no page of the printed season, until shown, or
    until a season has what it is used by."""
    used_by: tuple[Use, ...] = ()
    """What makes it of use, one of these; where none is named, what it shows decides."""


@dataclass(frozen=True)
class Contents:
    """What a workbook shows, and what the engine cannot know of its trade."""

    sheets: Sequence[Sheet]
    verdict: Key
    """The text that every sheet repeats at its top."""
    beside: Callable[[Iterable[Key]], list[str]] = lambda shown: []
    """What must be said on a sheet that shows these quantities."""
    looks: Mapping[Key, Mapping[str, Look]] = field(default_factory=dict)
    """Column of texts → how a cell looks that holds one of these words."""
    names: Mapping[str, tuple[str, str, int]] = field(default_factory=dict)
    """Defined name → the input that it stands for: table, column, row from 0."""
    said: Key | None = None
    """The column, of the table that has a row for each check, that says what a check found: it
    stands above the tables that follow from others' rows and lack some."""
    marked: frozenset[str] = frozenset()
    """Tables whose rows carry a mark, hidden and locked, that moves with them."""
    memory: Callable[[Mapping[str, Sequence[Any]], Sequence[Page], Any], Page] | None = None
    """From where the blocks stand, the finished pages and what of them is worked out: the page on
    which the workbook remembers what it was made of."""
