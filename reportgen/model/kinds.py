"""The kinds of field that are read as more than one value, or as none of their own."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from reportgen.algebra.inputs import Input
from reportgen.model.fields import Field, Quantity
from reportgen.units import DRIED, ENERGY, FRESH, MONEY, Unit


@dataclass(frozen=True)
class Weight(Quantity):
    """A weight as people write it: ``9.8 lb``, ``~2 oz``, ``{gross: 9.8 lb, tare: 2.1 lb}``.

    Where ``summed``, a list stands for the sum; where ``trays``, a list of gross weights without
    tare takes the weight of a tray of the run's dryer. Beside the weight stands whether it was
    written as an estimate and, where ``counted``, how many weighings it was made of. Where there
    is a flag for it, the word *rest* stands for all that is left, which that flag then says.
    """

    summed: bool = field(default=False, kw_only=True)
    counted: bool = field(default=False, kw_only=True)
    trays: bool = field(default=False, kw_only=True)
    rest: str = field(default="", kw_only=True)
    """The flag that takes the weight's place: all that is left."""

    def _inputs(self) -> tuple[Input, ...]:
        main = replace(super()._inputs()[0], about=f"{self.name}_about", head=self.head)
        named = self.head or self.name.replace("_", " ")
        about = Input(
            main.about,
            "flag",
            "An estimate, not a weighing: written as ~2 oz.",
            zero=True,
            head=f"{named}: about",
        )
        if self.rest:
            left = Input(self.rest, "flag", "All that was left: written as rest.", zero=True)
            return main, replace(left, head="all that was left"), about
        if not self.counted:
            return main, about
        return (
            main,
            about,
            Input(
                f"{self.name}_weighings",
                "number",
                "How many weighings it was made of; gross and tare are two.",
                one=True,
                least=1,
                head=f"{named}: weighings",
            ),
        )

    @cached_property
    def inputs(self) -> tuple[Input, ...]:
        """The weight and what stands beside it, each with its own heading."""
        return self._inputs()


@dataclass(frozen=True)
class TrayWeight(Quantity):
    """The weight of an empty tray, which is taken off when weights are read; no column."""

    def _inputs(self) -> tuple[Input, ...]:
        return ()


@dataclass(frozen=True)
class LotPrice(Field):
    """``28.50 USD/lug``, ``1.10 USD/lb`` or ``85 USD`` for the whole lot: one of three inputs."""

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input("price_each", "number", "Price of one container.", MONEY, least=0),
            Input("price_by_weight", "number", "Price by weight.", MONEY / FRESH, least=0),
            Input("price_total", "number", "Price of the whole lot.", MONEY, least=0),
        )


@dataclass(frozen=True)
class AtMost(Field):
    """``6 lug`` or ``120 lb``: so many containers, or a weight as bought."""

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input("at_most", "number", "At most so many containers.", least=0, above=True),
            Input("at_most_of", "text", "Of which container; blank, of what it is bought in.",
                  head="at most, of"),
            Input("at_most_weight", "number", "At most so much, as bought.", FRESH, least=0,
                  above=True, head="at most, by weight"),
        )  # fmt: skip


@dataclass(frozen=True)
class Energy(Field):
    """``21.8 kWh`` metered, or ``{from: 1042.3 kWh, to: 1064.1 kWh}`` as two meter readings."""

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input("energy", "number", "Energy by the meter.", ENERGY, least=0),
            Input("meter_from", "number", "Meter reading at the start.", ENERGY, least=0),
            Input("meter_to", "number", "Meter reading at the end.", ENERGY, least=0),
        )


@dataclass(frozen=True)
class Dryness(Field):
    """``{weights: [52.6 oz, 52.1 oz], water_activity: 0.24, moisture_meter: 2.1 %}``."""

    weighings: bool = field(default=True, kw_only=True)
    """It may be weighed until its weight no longer falls; else meters alone can tell."""

    def _inputs(self) -> tuple[Input, ...]:
        return (*(self._weighed() if self.weighings else ()), *self._read())

    def _weighed(self) -> tuple[Input, ...]:
        return (
            Input("weighing_before", "number", "Last weighing but one.", DRIED, least=0),
            Input("weighing_last", "number", "Last weighing.", DRIED, least=0),
            Input(
                "weighing_step",
                "number",
                "The coarser last digit of the two; the scale's step counts before it.",
                DRIED,
                least=0,
                above=True,
                head="last digit written",
            ),
        )

    def _read(self) -> tuple[Input, ...]:
        return (
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
class Purpose(Field):
    """What a use was for: one of a few words, or the channel it was sold through."""

    words: tuple[str, ...]

    def _inputs(self) -> tuple[Input, ...]:
        return (
            Input("purpose", "text", self.doc, choices=self.words),
            Input(
                "channel",
                "text",
                "The channel it was sold through, in place of what for.",
                ref="channels",
                head="sold through",
            ),
        )


@dataclass(frozen=True)
class CostChange(Field):
    """A scenario's change of a cost: ``0 %`` multiplies the part, ``18 USD/h`` replaces the rate.

    Yields ``<name>_factor`` and, where ``rate`` gives the rate's unit, ``<name>_rate``.
    """

    rate: Unit | None = None

    def _inputs(self) -> tuple[Input, ...]:
        factor = Input(
            f"{self.name}_factor",
            "number",
            self.doc,
            least=0,
            share=True,
            one=True,
            head=f"{self.name}, times",
        )
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

    def _inputs(self) -> tuple[Input, ...]:
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


@dataclass(frozen=True)
class Named(Field):
    """A mapping from names to values: a container's ``parts``.

    Each becomes a row of ``record``, whose ``label`` is the name and whose ``value`` field takes a
    bare value.
    """

    record: str
    value: str
    label: str = field(default="item", kw_only=True)


@dataclass(frozen=True)
class Across(Field):
    """A mapping from ids to values, one of several that make rows together: ``took: {P-1: 8}``.

    Each id that one of them names is a row of ``record``, the first field of which holds it;
    ``value`` is the field that takes what stands behind it, by default of the same name.
    """

    record: str
    value: str = ""

    @property
    def filled(self) -> str:
        """The field of the rows that it fills."""
        return self.value or self.name


@dataclass(frozen=True)
class Sourced(Field):
    """A recipe's ``{value, low, high, source}`` around a quantity.

    Inputs ``x``, ``x_low`` and ``x_high``. A bare value may stand for it in a season's own recipe.
    """

    of: Field

    def _inputs(self) -> tuple[Input, ...]:
        base = replace(self.of.inputs[0], measured=False)
        return (
            base,
            replace(base, name=f"{base.name}_low", doc=f"Lowest to expect. {base.doc}"),
            replace(base, name=f"{base.name}_high", doc=f"Highest to expect. {base.doc}"),
        )


@dataclass(frozen=True)
class Tariff(Quantity):
    """A price, or a list of prices by time of day, each of which becomes a row of ``periods``."""


@dataclass(frozen=True)
class Words(Field):
    """A list of words that hand-outs show: allergens."""


@dataclass(frozen=True)
class Cautions(Field):
    """A list of ``{text, source}`` that hand-outs and labels show."""
