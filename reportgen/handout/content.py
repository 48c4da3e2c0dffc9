"""What a hand-out is made of, as plain data: the writer turns it into HTML."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from reportgen.algebra.numbers import Value

Basis = Literal["", "measured", "mixed", "estimated"]


@dataclass(frozen=True)
class Figure:
    """One value, as data and as it is read."""

    key: str
    """Table, quantity and row: ``products.running_per_packed/pear-slices``."""
    value: Value
    text: str
    """Without its unit."""
    whole: str
    """With its unit."""
    basis: Basis = ""
    known: bool = True
    language: str = ""
    """Of a text that is not in the language of the hand-out."""


Sentence = tuple["str | Figure", ...]


@dataclass(frozen=True)
class Worked:
    """One row of an origin: what was put into the rule."""

    name: str
    figure: Figure
    filled: str


@dataclass(frozen=True)
class Origin:
    """Where a number comes from: what it is, its rule in words, its source, and each row's."""

    label: str
    what: str
    rule: str
    source: str
    rows: Sequence[Worked]


@dataclass(frozen=True)
class Column:
    """The head of a column, and where its numbers come from."""

    label: str
    unit: str
    number: bool
    origin: Origin | None


@dataclass(frozen=True)
class Row:
    """A row of a table: its head and its cells."""

    head: str
    cells: Sequence[Figure]


@dataclass(frozen=True)
class Grid:
    """A table."""

    id: str
    title: str
    purpose: str
    corner: str
    """What the heads of the rows are."""
    columns: Sequence[Column]
    rows: Sequence[Row]


@dataclass(frozen=True)
class Term:
    """A named figure with its origin."""

    label: str
    figure: Figure
    origin: Origin


@dataclass(frozen=True)
class Part:
    """A piece of a bar: its series (counted from 0), where it begins and how wide it is, in shares
    of the whole width."""

    series: int
    figure: Figure
    start: float
    width: float


@dataclass(frozen=True)
class Bar:
    """The pieces of one bar, or the bars of one group."""

    name: str
    parts: Sequence[Part]
    total: Figure | None = None


@dataclass(frozen=True)
class Bars:
    """A picture of bars. ``stacked``: pieces one after the other; else one below the other."""

    id: str
    title: str
    about: str
    """What it says, for who cannot see it."""
    series: Sequence[str]
    bars: Sequence[Bar]
    stacked: bool


@dataclass(frozen=True)
class Curve:
    """A quantity over time: its points in shares of width and height, from the top left."""

    name: str
    points: Sequence[tuple[float, float]]
    highest: Figure
    last: Figure
    """Where the time ends."""
    total: Figure


@dataclass(frozen=True)
class Curves:
    """A picture of curves, one below the other, each as high as its highest point."""

    id: str
    title: str
    about: str
    """What it says, for who cannot see it."""
    curves: Sequence[Curve]
    more: int
    """How many there are besides."""


@dataclass(frozen=True)
class Card:
    """A product at a glance."""

    id: str
    name: str
    headline: Figure
    sentence: Sentence
    terms: Sequence[Term]


@dataclass(frozen=True)
class Item:
    """Something to do: what, where it stands; in which language."""

    text: str
    place: str = ""
    do: str = ""
    language: str = ""


@dataclass(frozen=True)
class Todo:
    """Things to do, under one heading."""

    heading: str
    items: Sequence[Item]


@dataclass(frozen=True)
class SeasonPage:
    """The page of a season."""

    language: str
    title: str
    subtitle: str
    verdict: Item
    good: bool
    cautions: Sequence[str]
    terms: Sequence[Term]
    cards: Sequence[Card]
    pictures: Sequence[Bars]
    power: Curves | None
    ahead: Sequence[Grid]
    """Tables that stand before all money."""
    grids: Sequence[Grid]
    todos: Sequence[Todo]
    texts: dict[str, str] = field(repr=False)


@dataclass(frozen=True)
class ProductSheet:
    """The costing sheet of one product, for a partner."""

    language: str
    title: str
    subtitle: str
    sentence: Sentence
    doubt: str
    """That the season has errors; empty where it has none."""
    facts: Sequence[tuple[str, str]]
    terms: Sequence[Term]
    parts: Sequence[Term]
    picture: Bars
    sure: Sentence
    grids: Sequence[Grid]
    cautions: Sequence[str]
    product_cautions: Sequence[str]
    private: Sequence[tuple[str, Sequence[Figure]]]
    left_out: Sequence[str]
    texts: dict[str, str] = field(repr=False)
