"""A record, and the kinds of field that are read as one value.

A *field* is a key of a YAML record; an *input* is a column of a table. The fields here yield one
input each; those of ``kinds.py`` none or several.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from reportgen.algebra.inputs import Input
from reportgen.units import ONE, Unit


@dataclass(frozen=True)
class Field:
    """A key of a record. The subclasses say how its text is read."""

    name: str
    doc: str
    required: bool = field(default=False, kw_only=True)
    column: str = field(default="", kw_only=True)
    """The input's name, where the key is no name (``for``)."""
    head: str = field(default="", kw_only=True)
    """What its column is called, where its name does not say it."""

    @cached_property
    def inputs(self) -> tuple[Input, ...]:
        """The columns that the key fills."""
        made = self._inputs()
        return tuple(replace(each, head=self.head) for each in made) if self.head else made

    def _inputs(self) -> tuple[Input, ...]:
        return ()

    @property
    def input_name(self) -> str:
        """The name of its column, where it fills one."""
        return self.column or self.name


@dataclass(frozen=True)
class Quantity(Field):
    """A number with a unit: ``72.4 lb``, ``3 h 20 min``, ``0.148 USD/kWh``."""

    unit: Unit = ONE
    zero: bool = field(default=False, kw_only=True)
    positive: bool = field(default=False, kw_only=True)
    """Zero is refused too."""
    signed: bool = field(default=False, kw_only=True)
    """It may be below zero."""
    per: tuple[str, ...] = field(default=(), kw_only=True)
    """Words that may follow as a plain count: ``600 run``, ``18 USD/run``."""

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input(
                self.input_name,
                "number",
                self.doc,
                self.unit,
                zero=self.zero,
                least=None if self.signed else 0,
                above=self.positive,
            ),
        )


@dataclass(frozen=True)
class Share(Field):
    """A share of a whole: ``35 %``, kept as 0.35."""

    zero: bool = field(default=False, kw_only=True)
    below_all: bool = field(default=False, kw_only=True)
    """100 % is refused too."""
    default: float | None = field(default=None, kw_only=True)

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input(
                self.input_name,
                "number",
                self.doc,
                zero=self.zero,
                least=0,
                most=1,
                below=self.below_all,
                share=True,
            ),
        )


@dataclass(frozen=True)
class Count(Field):
    """A whole number of things, alone or with a word: ``3``, ``600 run``."""

    zero: bool = field(default=False, kw_only=True)
    positive: bool = field(default=False, kw_only=True)
    default: int | None = field(default=None, kw_only=True)
    words: tuple[str, ...] = field(default=(), kw_only=True)

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input(
                self.input_name,
                "number",
                self.doc,
                zero=self.zero,
                least=0,
                above=self.positive,
                one=self.default == 1,
                whole=True,
            ),
        )


@dataclass(frozen=True)
class Text(Field):
    """Free text, kept as it stands; ``ours``: where it is in the catalogue, in its language."""

    ours: bool = field(default=False, kw_only=True)

    def _inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc, ours=self.ours),)


@dataclass(frozen=True)
class Id(Field):
    """The record's own id, unique over the season. It is the row's key, not a column."""


@dataclass(frozen=True)
class OwnId(Text):
    """An id that a record may go without; a column, for the key is made from it."""


@dataclass(frozen=True)
class Word(Text):
    """A name of one word, with the letters of an id."""


@dataclass(frozen=True)
class Several(Text):
    """Words in one text, parted by commas; in YAML a list, too: an empty one is the word *none*."""


@dataclass(frozen=True)
class Clock(Text):
    """A clock time: ``16:00``, up to ``24:00``."""


@dataclass(frozen=True)
class Days(Text):
    """Days of the week: ``mon-fri``, ``sat sun``, or a list of them."""


@dataclass(frozen=True)
class LogFile(Text):
    """A file beside the batch, inside the season's folder."""


@dataclass(frozen=True)
class Ref(Field):
    """The id of a record of another table."""

    table: str

    def _inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc, ref=self.table),)


@dataclass(frozen=True)
class Refs(Field):
    """A list of ids; each becomes a row of ``rows`` with this record's id beside it."""

    table: str
    rows: str


@dataclass(frozen=True)
class Day(Field):
    """A calendar day: ``2026-09-05``; with ``clock`` a time of day may follow."""

    clock: bool = field(default=False, kw_only=True)
    midnight: str = field(default="", kw_only=True)
    """The flag beside it that tells midnight from a day without a time."""

    def _inputs(self) -> tuple[Input, ...]:
        day = Input(self.input_name, "date", self.doc, clock=self.clock)
        if not self.midnight:
            return (day,)
        return day, Input(self.midnight, "flag", "0:00 is the time, not a day alone.", zero=True)


@dataclass(frozen=True)
class Flag(Field):
    """True or false; left out means false, but where it is not ``zero``: then it is not known."""

    zero: bool = field(default=True, kw_only=True)

    def _inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "flag", self.doc, zero=self.zero),)


@dataclass(frozen=True)
class Choice(Field):
    """One of a few words."""

    words: tuple[str, ...]
    default: str | None = field(default=None, kw_only=True)

    def _inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc, choices=self.words),)


@dataclass(frozen=True)
class Record:
    """A kind of record: a table of the algebra.

    ``key`` says where a row's key comes from: its ``id``, its ``position`` (:func:`placed`), or
    ``derived`` (worked out by the trade). ``owner`` names the table whose record holds the list.
    """

    name: str
    doc: str
    fields: tuple[Field, ...]
    key: Literal["id", "position", "derived", "single"] = "id"
    owner: str | None = None
    named: bool = False
    """They are written as a mapping from ids to records, not as a list."""

    @cached_property
    def inputs(self) -> tuple[Input, ...]:
        """Its columns, in the order of its fields."""
        return tuple(each for f in self.fields for each in f.inputs)

    @property
    def one(self) -> str:
        """What messages call a single one of it."""
        return _ONE.get(self.name, self.name.removesuffix("s"))


def placed(what: str, number: int) -> str:
    """The key of a row without an id of its own. It has letters, for a spreadsheet turns a text of
    digits into a number as soon as someone enters it again."""
    return f"{what.partition(' ')[0]}-{number}"


_ONE = {
    "rates": "rates",
    "plan": "plan row",
    "closed": "closed time",
    "another": "dryer to buy",
    "carried_over": "bulk carried over",
    "products": "recipe",
    "nominal_weights": "nominal weight",
    "periods": "period",
    "upkeep": "upkeep item",
    "absorbers": "absorber size",
    "run_energy": "energy of a period",
    "asked": "asked price",
    "mixes": "mix",
    "mix_parts": "part of a mix",
    "bought_parts": "bought part",
    "market_packs": "pack at a market",
    "market_takings": "takings of a market",
}
