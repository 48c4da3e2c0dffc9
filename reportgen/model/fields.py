"""An input, and the kinds of field that yield inputs.

A *field* is a key of a YAML record; an *input* is a column of a table. Most fields yield one input
of the same name; a price yields three, of which one is given.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from reportgen.units import (
    DRIED,
    ENERGY,
    FRESH,
    MONEY,
    ONE,
    Unit,
)

Type = Literal["number", "text", "date", "flag"]


@dataclass(frozen=True)
class Input:
    """A column of a table that is written down, not worked out.

    ``least`` and ``most`` bound a number, both included unless ``above`` (least excluded) or
    ``below`` (most excluded); ``zero`` says that left out means 0; ``ref`` names the table that a
    text's ids belong to; ``clock`` that a date carries the time of day; ``given`` False that it
    comes from the product data and so counts as an estimate.
    """

    name: str
    type: Type
    doc: str
    unit: Unit = ONE
    zero: bool = False
    least: float | None = None
    most: float | None = None
    above: bool = False
    below: bool = False
    whole: bool = False
    share: bool = False
    clock: bool = False
    ref: str | None = None
    choices: tuple[str, ...] = ()
    measured: bool = True


@dataclass(frozen=True)
class Field:
    """A key of a record. The subclasses say how its text is read."""

    name: str
    doc: str
    required: bool = field(default=False, kw_only=True)
    column: str = field(default="", kw_only=True)
    """The input's name, where the key is no name (``for``)."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        raise NotImplementedError

    @property
    def input_name(self) -> str:
        return self.column or self.name


@dataclass(frozen=True)
class Quantity(Field):
    """A number with a unit: ``72.4 lb``, ``3 h 20 min``, ``0.148 USD/kWh``."""

    unit: Unit = ONE
    zero: bool = field(default=False, kw_only=True)
    positive: bool = field(default=False, kw_only=True)
    """Zero is refused too."""
    summed: bool = field(default=False, kw_only=True)
    """A list of them may stand for their sum, as weights by tray do."""
    per: tuple[str, ...] = field(default=(), kw_only=True)
    """Words that may follow as a plain count: ``600 run``, ``18 USD/run``."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (
            Input(
                self.input_name,
                "number",
                self.doc,
                self.unit,
                zero=self.zero,
                least=0,
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

    @property
    def inputs(self) -> tuple[Input, ...]:
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

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (
            Input(
                self.input_name,
                "number",
                self.doc,
                zero=self.zero,
                least=0,
                above=self.positive,
                whole=True,
            ),
        )


@dataclass(frozen=True)
class Text(Field):
    """Free text, kept as it stands."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc),)


@dataclass(frozen=True)
class Id(Field):
    """The record's own id, unique over the season."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()


@dataclass(frozen=True)
class Ref(Field):
    """The id of a record of another table."""

    table: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc, ref=self.table),)


@dataclass(frozen=True)
class Refs(Field):
    """A list of ids; each becomes a row of ``rows`` with this record's id beside it."""

    table: str
    rows: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()


@dataclass(frozen=True)
class Day(Field):
    """A calendar day: ``2026-09-05``; with ``clock`` a time of day may follow."""

    clock: bool = field(default=False, kw_only=True)

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "date", self.doc, clock=self.clock),)


@dataclass(frozen=True)
class Flag(Field):
    """True or false; left out means false."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "flag", self.doc, zero=True),)


@dataclass(frozen=True)
class Choice(Field):
    """One of a few words."""

    words: tuple[str, ...]
    default: str | None = field(default=None, kw_only=True)

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(self.input_name, "text", self.doc, choices=self.words),)


@dataclass(frozen=True)
class LotPrice(Field):
    """``28.50 USD/lug``, ``1.10 USD/lb`` or ``85 USD`` for the whole lot: one of three inputs."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (
            Input("price_each", "number", "Price of one container.", MONEY, least=0),
            Input("price_by_weight", "number", "Price by weight.", MONEY / FRESH, least=0),
            Input("price_total", "number", "Price of the whole lot.", MONEY, least=0),
        )


@dataclass(frozen=True)
class Energy(Field):
    """``21.8 kWh`` metered, or ``{from: 1042.3 kWh, to: 1064.1 kWh}`` as two meter readings."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (
            Input("energy", "number", "Energy by the meter.", ENERGY, least=0),
            Input("meter_from", "number", "Meter reading at the start.", ENERGY, least=0),
            Input("meter_to", "number", "Meter reading at the end.", ENERGY, least=0),
        )


@dataclass(frozen=True)
class Dryness(Field):
    """``{weights: [52.6 oz, 52.1 oz], water_activity: 0.24, moisture_meter: 2.1 %}``."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (
            Input("weighing_before", "number", "Last weighing but one.", DRIED, least=0),
            Input("weighing_last", "number", "Last weighing.", DRIED, least=0),
            Input(
                "water_activity",
                "number",
                "Water activity, by a meter.",
                least=0,
                most=1,
            ),
            Input(
                "moisture_meter",
                "number",
                "Moisture by a meter, wet basis.",
                least=0,
                most=1,
                share=True,
            ),
        )


@dataclass(frozen=True)
class CostChange(Field):
    """A scenario's change of a cost: ``0 %`` multiplies the part, ``18 USD/h`` replaces the rate.

    Yields ``<name>_factor`` and, where ``rate`` gives the rate's unit, ``<name>_rate``.
    """

    rate: Unit | None = None

    @property
    def inputs(self) -> tuple[Input, ...]:
        factor = Input(f"{self.name}_factor", "number", self.doc, least=0, share=True)
        if self.rate is None:
            return (factor,)
        return (
            factor,
            Input(
                f"{self.name}_rate",
                "number",
                f"{self.doc} As a rate.",
                self.rate,
                least=0,
            ),
        )


@dataclass(frozen=True)
class Nested(Field):
    """A mapping of fields whose inputs join the record's: a pack's ``carried``."""

    fields: tuple[Field, ...]
    prefix: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        return tuple(
            replace(each, name=f"{self.prefix}{each.name}")
            for inner in self.fields
            for each in inner.inputs
        )


@dataclass(frozen=True)
class Items(Field):
    """A list of records of their own; where the list stands in a record, each names its owner."""

    record: str
    alone: bool = field(default=False, kw_only=True)
    """A single value may stand for a list of one."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()


@dataclass(frozen=True)
class Named(Field):
    """A mapping from names to values: a container's ``parts``. Each becomes a row of ``record``,
    whose ``item`` is the name and whose ``value`` field takes a bare value."""

    record: str
    value: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()


@dataclass(frozen=True)
class Sourced(Field):
    """A recipe's ``{value, low, high, source}`` around a quantity: inputs ``x``, and, where
    ``spread``, ``x_low`` and ``x_high``. A bare value may stand for it in a season's own recipe."""

    of: Field
    spread: bool = False

    @property
    def inputs(self) -> tuple[Input, ...]:
        base = replace(self.of.inputs[0], measured=False)
        if not self.spread:
            return (base,)
        return (
            base,
            replace(base, name=f"{base.name}_low", doc=f"Lowest to expect. {base.doc}"),
            replace(base, name=f"{base.name}_high", doc=f"Highest to expect. {base.doc}"),
        )


@dataclass(frozen=True)
class Record:
    """A kind of record: a table of the algebra.

    ``key`` says where a row's key comes from: its ``id``, its ``position`` from 1, or ``derived``
    (worked out by the trade). ``owner`` names the table whose record holds the list.
    """

    name: str
    doc: str
    fields: tuple[Field, ...]
    key: Literal["id", "position", "derived", "single"] = "id"
    owner: str | None = None

    @property
    def inputs(self) -> tuple[Input, ...]:
        return tuple(each for f in self.fields for each in f.inputs)
