"""A value as a season's files write it: the way back from what the readers of ``model`` do.

What was typed with its unit comes home as typed, a bare number in the unit that the maker wrote in
where that is exact in twelve digits, else in the unit of the column; where that takes more, in
another unit of its kind that does not: ``40 min``, not ``0.6666666666666666 h``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from fractions import Fraction

from reportgen.algebra.inputs import Input
from reportgen.edits.amounts import DIGITS, AsTyped, as_it_stands, day, decimal, in_unit, to_digit
from reportgen.model import fields as one
from reportgen.model import kinds
from reportgen.model.fields import Field, Record
from reportgen.model.readers import parser
from reportgen.model.season import Value
from reportgen.model.weights import REST
from reportgen.pen.scalars import Written
from reportgen.read.grammar import Measure
from reportgen.read.numbers import NUMBER
from reportgen.units import ENERGY, FRESH, MONEY, ONE, Unit

Values = Mapping[str, Value]
Like = Callable[[str], str]
"""What was written for an input before; empty where nothing was."""

UNWRITTEN = ("_weighings", "weighing_step")
"""How inputs end that say how another was written; they have no key of their own."""

_AMOUNT = re.compile(rf"\s*(?:~|about\s)?\s*({NUMBER})(\s*\D.*|)")
_ALIKE = (("h", "min"), ("lb", "oz", "kg", "g"))
"""Units in place of one another."""


class Unsaid(ValueError):
    """What stands in a row is nothing that a file can say; the text says why, and what to do.
    ``names``: the inputs that it is about; none: all of the row."""

    def __init__(self, why: str, *names: str) -> None:
        super().__init__(why)
        self.names = names


def twice(value: Value, column: Input, *names: str) -> Unsaid:
    """Cells say what one key holds, ``names`` and a column in which ``value`` stands."""
    shown = value
    if column.type == "date" and isinstance(value, float):
        shown = day(value, column.clock)
    if isinstance(shown, float):
        shown = decimal(shown)
    return Unsaid(
        f"'{shown}' stands in {column.head or column.name.replace('_', ' ')} of the same row, and "
        "one key holds both; clear one of the two cells",
        *names,
    )


def nothing(name: str) -> str:
    """No input was written before."""
    return ""


class Writer:
    """Writes the values of one season, whose units are given by its slots."""

    def __init__(self, slots: Mapping[str, str]) -> None:
        self._slots = dict(slots)

    def record(self, record: Record, values: Values, like: Like = nothing) -> dict[str, Written]:
        """All keys of a record that have something to say, in the order of its fields."""
        found = {each.name: self.field(each, values, like) for each in record.fields}
        return {key: value for key, value in found.items() if value is not None}

    def field(self, field: Field, values: Values, like: Like = nothing) -> Written | None:
        """What stands behind a field's key; None where there is nothing to say."""
        match field:
            case kinds.LotPrice():
                return self._price(values, like)
            case kinds.AtMost():
                return self._at_most(values, like)
            case kinds.Energy():
                return self._energy(values, like)
            case kinds.Dryness():
                return self._dryness(field, values, like)
            case kinds.Purpose():
                named = values.get("channel") or values.get("purpose")
                if values.get("channel") and values.get("purpose"):
                    raise twice(named, field.inputs[1], "purpose", "channel")
                return named if isinstance(named, str) else None
            case kinds.CostChange():
                return self._cost_change(field, values, like)
            case kinds.Nested():
                inner = {
                    each.name: self._single(each, values, like, field.prefix)
                    for each in field.fields
                }
                return {k: v for k, v in inner.items() if v is not None} or None
        if not field.inputs:
            return None
        text = self._single(field, values, like)
        if text is None and isinstance(field, kinds.Weight) and values.get(field.rest):
            return REST
        return f"~{text}" if text and values.get(f"{field.name}_about") else text

    def check(self, field: Field, values: Values, typed: Collection[str], like: Like) -> None:
        """Raises :class:`Unsaid` where something in the inputs of a field is not in what is written
        for all of them. (Energy takes the place of the readings that it was made of.)"""
        given = [each for each in field.inputs if values.get(each.name) not in (None, False)]
        written = self.field(field, values, like)
        for column in given:
            was_typed = column.name in typed
            beside = column.type == "flag" or column.name.endswith(UNWRITTEN)
            if not was_typed and (beside or isinstance(field, kinds.Energy)):
                continue
            try:
                if self.field(field, {**values, column.name: None}, like) != written:
                    continue
            except Unsaid:
                continue
            others = [each for each in given if each is not column and each.type != "flag"]
            if not others:
                lacks = "weight" if column.name.endswith("_about") else "day"
                raise Unsaid(
                    f"no {lacks} stands beside it that it could be of; type the {lacks}, or empty "
                    "this cell",
                    column.name,
                )
            standing = others[0] if was_typed else column
            names = [column.name] if was_typed else [each.name for each in field.inputs]
            raise twice(values[standing.name], standing, *names)

    def shown(self, value: float, column: Input) -> str:
        """A number of an input as somebody would write it: with its unit, a share in per cent."""
        if column.share:
            return f"{decimal(value * 100)} %"
        if column.whole or column.type != "number" or column.unit == ONE:
            return decimal(value)
        numbers = value, float(decimal(value))
        return min((self._quantity(each, column.unit, "") for each in numbers), key=len)

    def _single(self, field: Field, values: Values, like: Like, prefix: str = "") -> str | None:
        (name, *_) = [prefix + each.name for each in field.inputs]
        value = values.get(name)
        if value is None:
            return None
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, str):
            return value
        if isinstance(field, one.Day):
            said = day(value, field.clock)
            return f"{said} 00:00" if values.get(field.midnight) and " " not in said else said
        if isinstance(field, one.Share):
            return self.amount(value, like(name), parser(field, self._slots), "%", 100)
        if isinstance(field, one.Count):
            return self.amount(value, like(name), parser(field, self._slots), "")
        assert isinstance(field, one.Quantity)
        return self._quantity(value, field.unit, like(name), field.per)

    def _quantity(self, value: float, unit: Unit, was: str, per: tuple[str, ...] = ()) -> str:
        measure = Measure(unit, self._slots, per)
        return self.amount(value, was, measure.read, measure.shown)

    def amount(
        self, value: float, was: str, read: Callable[[str], Value], unit: str, times: int = 1
    ) -> str:
        """A number with its unit: the one it was typed with or was written in, else ``unit``."""
        for said in (value.text if isinstance(value, AsTyped) else "", was):
            found = _AMOUNT.fullmatch(said)
            if found is not None:
                text = as_it_stands(value, found, read) or in_unit(value, found[2].rstrip(), read)
                if text:
                    return text
        text = decimal(float(Fraction(repr(value)) * times), exact=True)
        short = [] if sum(map(str.isdigit, text.strip("0."))) <= DIGITS else self._others(unit)
        shown = (in_unit(value, f" {other}", read) for other in short)
        return min((each for each in shown if each), key=len, default=f"{text} {unit}".rstrip())

    @staticmethod
    def _others(unit: str) -> tuple[str, ...]:
        """Units that people write in place of one, where it is a plain time or weight."""
        return next((each for each in _ALIKE if unit in each), ())

    def _price(self, values: Values, like: Like) -> str | None:
        each, by_weight, total = (
            values.get(name) for name in ("price_each", "price_by_weight", "price_total")
        )
        if isinstance(each, float):
            container = values.get("container")
            if container is None:
                raise Unsaid(
                    "the price is of one container, and none is named; type which, or the price of "
                    "the whole",
                    "price_each",
                )
            was = like("price_each").rpartition("/")[0] or like("price_each")
            return f"{self._quantity(each, MONEY, was)}/{container}"
        if isinstance(by_weight, float):
            return self._quantity(by_weight, MONEY / FRESH, like("price_by_weight"))
        if isinstance(total, float):
            return self._quantity(total, MONEY, like("price_total"))
        return None

    def _at_most(self, values: Values, like: Like) -> str | None:
        weight, count = values.get("at_most_weight"), values.get("at_most")
        if isinstance(weight, float):
            return self._quantity(weight, FRESH, like("at_most_weight"))
        if isinstance(count, float):
            return f"{decimal(count, exact=True)} {values.get('at_most_of') or ''}".rstrip()
        return None

    def _energy(self, values: Values, like: Like) -> Written | None:
        def text(name: str) -> str | None:
            value = values.get(name)
            return self._quantity(value, ENERGY, like(name)) if isinstance(value, float) else None

        amount = text("energy")
        if amount is not None:
            return amount
        ends = {"from": text("meter_from"), "to": text("meter_to")}
        return {k: v for k, v in ends.items() if v is not None} or None

    def _dryness(self, field: kinds.Dryness, values: Values, like: Like) -> Written | None:
        *weighed, activity, moisture = field.inputs
        digit = values.get("weighing_step")

        def weight(name: str, unit: Unit) -> list[str]:
            value = values.get(name)
            if not isinstance(value, float):
                return []
            text = self._quantity(value, unit, like(name))
            if isinstance(digit, float) and not isinstance(value, AsTyped):
                text = to_digit(text, digit)
            return [text]

        if field.weighings and values.get("weighing_before") and not values.get("weighing_last"):
            raise Unsaid(
                "one weighing alone shows nothing; type the last one beside it, or empty this cell",
                "weighing_before",
                "weighing_last",
            )
        found: dict[str, Written] = {}
        weights = [text for each in weighed[:2] for text in weight(each.name, each.unit)]
        if weights:
            found["weights"] = weights
        reading = values.get(activity.name)
        if isinstance(reading, float):
            found["water_activity"] = decimal(reading, exact=True)
        share = values.get(moisture.name)
        if isinstance(share, float):
            found["moisture_meter"] = f"{decimal(float(Fraction(repr(share)) * 100), exact=True)} %"
        return found or None

    def _cost_change(self, field: kinds.CostChange, values: Values, like: Like) -> str | None:
        if field.rate is not None:
            rate = values.get(f"{field.name}_rate")
            if isinstance(rate, float):
                return self._quantity(rate, field.rate, like(f"{field.name}_rate"))
        factor = values.get(f"{field.name}_factor")
        if not isinstance(factor, float):
            return None
        return f"{decimal(float(Fraction(repr(factor)) * 100), exact=True)} %"
