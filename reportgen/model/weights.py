"""Weights as people write them: about, gross and tare, tray by tray.

Taking a tare off a gross weight and adding up trays is reading: it happens here, once, and what
was written stays as the value's origin. All other arithmetic on weights is a definition.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from reportgen.algebra.inputs import Input
from reportgen.model.draft import Draft, Gathering
from reportgen.model.kinds import TrayWeight, Weight
from reportgen.model.readers import Reader, within
from reportgen.read.grammar import Measure
from reportgen.read.near import near, one_of, short
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Refusal
from reportgen.units import FRESH, factor

_ABOUT = re.compile(
    r"\s*(?:[~≈]|(?:about|around|approx\.?|approximately|roughly|ca\.?)\s)\s*", re.I
)
_KEYS = ("gross", "tare")
REST = "rest"
"""Written in place of a weight: all that is left."""


@dataclass
class _Sum:
    """What a weight comes to: its sum, whether a part is an estimate, how many weighings."""

    total: Fraction
    about: bool
    weighings: int
    text: str
    trays: int = 0
    """Gross weights of which the weight of a tray is still to be taken off."""

    def plus(self, other: _Sum) -> _Sum:
        """Both together."""
        return _Sum(
            self.total + other.total,
            self.about or other.about,
            self.weighings + other.weighings,
            f"{self.text} + {other.text}",
            self.trays + other.trays,
        )


@dataclass
class Gross:
    """A weight whose trays wait to be taken off, until it is known which dryer they are of."""

    draft: Draft
    field: Weight
    node: Node
    trays: int


def weight(field: Weight, gathering: Gathering) -> Reader:
    """The reader of a weight."""
    main = field.inputs[0]
    about = next(each for each in field.inputs if each.name == main.about)
    measure = Measure(field.unit, gathering.slots, field.per)

    def one(node: Node) -> _Sum:
        if not isinstance(node, Scalar):
            raise _Wrong(node, _shape(node, field))
        match = _ABOUT.match(node.text)
        text = node.text[match.end() :] if match else node.text
        try:
            value = Fraction(*measure.exact(text))
            within(float(value), main, node.text)
        except Refusal as refusal:
            raise _Wrong(node, refusal) from None
        return _Sum(value, match is not None, 1, node.written)

    def net(node: Mapping) -> _Sum:
        for key, _ in node.entries:
            if key.text not in _KEYS:
                match = near(key.text, _KEYS)
                do = f"did you mean {match}?" if match else "write {gross: 9.8 lb, tare: 2.1 lb}"
                what = f"'{short(key.text)}' is not a key of a weight"
                raise _Wrong(key, Refusal(what, one_of(_KEYS), do))
        gross, tare = node.get("gross"), node.get("tare")
        if gross is None:
            do = "write {gross: 9.8 lb, tare: 2.1 lb}"
            raise _Wrong(node, Refusal("no gross weight stands here", "gross and tare", do))
        listed = gross.items if isinstance(gross, Sequence) else [gross]
        if not field.summed and len(listed) != 1:
            raise _Wrong(gross, _shape(gross, field))
        if not listed:
            raise _Wrong(gross, Refusal("the list is empty", "gross weights", "fill it in"))
        if tare is None:
            return untared(gross, [one(each) for each in listed])
        tares = tare.items if isinstance(tare, Sequence) else [tare]
        if len(tares) != len(listed):
            raise _Wrong(
                tare,
                Refusal(
                    f"the list has {len(listed)} gross weights, and {len(tares)} tare stands here",
                    "a tare for each gross weight",
                    "write a tare for each, or tray_weight: of the dryer where trays weigh alike",
                ),
            )
        parts = [less(node, *map(one, pair)) for pair in zip(listed, tares, strict=True)]
        return _added(parts)

    def less(node: Node, gross: _Sum, tare: _Sum) -> _Sum:
        if tare.total >= gross.total:
            what = f"the tare of {tare.text} is not below the gross weight of {gross.text}"
            raise _Wrong(node, Refusal(what, "what the empty tray or bowl weighs", "check both"))
        text = f"{gross.text} - {tare.text}"
        return _Sum(gross.total - tare.total, gross.about or tare.about, 2, text)

    def untared(node: Node, parts: list[_Sum]) -> _Sum:
        if not field.trays:
            do = "write {gross: 9.8 lb, tare: 2.1 lb}"
            raise _Wrong(node, Refusal("a gross weight without its tare", "gross and tare", do))
        if not isinstance(node, Sequence):
            raise _Wrong(
                node,
                Refusal(
                    "one gross weight of nobody knows how many trays",
                    "a gross weight for each tray, or the tare",
                    "write gross as a list, tray by tray, or add tare:",
                ),
            )
        whole = _added(parts)
        whole.trays = len(parts)
        return whole

    def whole(node: Node) -> _Sum | None:
        if isinstance(node, Sequence) and field.summed:
            _no_commas(node)
            parts = [part for part in map(whole, node.items) if part is not None]
            return _added(parts) if parts else None
        if isinstance(node, Mapping):
            return net(node)
        return None if isinstance(node, Scalar) and node.empty else one(node)

    def read(node: Node, draft: Draft) -> None:
        if field.rest and isinstance(node, Scalar) and node.text.strip().casefold() == REST:
            draft.values[field.rest] = True
            draft.origins[field.rest] = gathering.origin(node)
            return
        try:
            found = whole(node)
        except _Wrong as wrong:
            gathering.refuse(wrong.node, wrong.refusal)
            draft.broken.add(main.name)
            return
        if found is None:
            return
        simple = isinstance(node, Scalar)
        written = node if isinstance(node, Scalar) else _told(found.text, node)
        draft.values[main.name] = float(found.total)
        draft.origins[main.name] = gathering.origin(written)
        if found.about:
            _beside(draft, main, about, True)
        if field.counted and not simple and found.weighings > 1:
            _beside(draft, main, field.inputs[2], float(found.weighings))
        if found.trays:
            gathering.gross.append(Gross(draft, field, node, found.trays))

    return read


def _no_commas(listed: Sequence) -> None:
    """Raises where commas of a list stand in its numbers: ``[3,1 lb, 2,9 lb]``, which would be four
    weights."""
    for one, other in pairwise(listed.items):
        if not isinstance(one, Scalar) or not isinstance(other, Scalar):
            continue
        close = one.line == other.line and other.column == one.column + one.length + 1
        if close and one.text.isdigit() and other.text[:1].isdigit():
            raise _Wrong(
                one,
                Refusal(
                    f"'{one.text},{short(other.text)}' has a decimal comma, which parts a list",
                    "a decimal point",
                    f"write {one.text}.{short(other.text)}",
                ),
            )


def tray_weight(field: TrayWeight, gathering: Gathering) -> Reader:
    """The reader of what an empty tray weighs: kept beside the dryer's columns."""
    measure = Measure(field.unit, gathering.slots)
    bounds = Input(field.name, "number", field.doc, field.unit, least=0, above=True)

    def read(node: Node, draft: Draft) -> None:
        if isinstance(node, Scalar) and node.empty:
            return
        try:
            if not isinstance(node, Scalar):
                raise Refusal(f"{node.shape} stands here", "a weight", "write a single value")
            draft.values[field.name] = value = measure.read(node.text)
            within(value, bounds, node.text)
            draft.origins[field.name] = gathering.origin(node)
        except Refusal as refusal:
            gathering.refuse(node, refusal)
            draft.broken.add(field.name)

    return read


def take_off_trays(gathering: Gathering) -> None:
    """Take the trays off gross weights, once each run has its dryer."""
    names = {key: value for key, value in gathering.slots.items() if key != "money"}
    dryers = {dryer.key: dryer for dryer in gathering.of("dryers")}
    for gross in gathering.gross:
        draft, main = gross.draft, gross.field.inputs[0]
        run = draft.owner if draft.record.name == "loads" else draft
        dryer = dryers.get(run.text("dryer")) if run is not None else None
        tray = dryer.number("tray_weight") if dryer is not None else None
        value = draft.number(main.name)
        if dryer is None or value is None or "tray_weight" in dryer.broken:
            continue  # told where it is wrong
        if tray is None:
            gathering.refuse(
                gross.node,
                Refusal(
                    f"gross weights without a tare, and the dryer {dryer.key} has no tray_weight",
                    "what an empty tray weighs",
                    "add tray_weight: to the dryer in season.yaml, or a tare beside each weight",
                ),
            )
            continue
        off = gross.trays * tray * float(factor(FRESH.bound(names), main.unit.bound(names)))
        text = (
            f"{draft.origins[main.name].text} - {gross.trays} × {dryer.origins['tray_weight'].text}"
        )
        if off >= value:
            what = f"the trays weigh more than what is on them: {text}"
            gathering.refuse(gross.node, Refusal(what, "gross weights", "check tray_weight"))
            continue
        draft.values[main.name] = value - off
        draft.origins[main.name] = draft.origins[main.name]._replace(text=text)
        if gross.field.counted:
            # One weighing of a tray is taken off each time: it counts by the square.
            _beside(draft, main, gross.field.inputs[2], float(gross.trays + gross.trays**2))


def _added(parts: list[_Sum]) -> _Sum:
    whole, *others = parts
    for part in others:
        whole = whole.plus(part)
    return whole


def _told(text: str, node: Node) -> Scalar:
    return Scalar(text, node.file, node.line, node.column, node.length, True)


def _beside(draft: Draft, main: Input, column: Input, value: float | bool) -> None:
    """What a weight says of itself stands beside it, at the same place."""
    draft.values[column.name] = value
    draft.origins[column.name] = draft.origins[main.name]


def _shape(node: Node, field: Weight) -> Refusal:
    forms = "a weight, as 9.8 lb, or {gross: 9.8 lb, tare: 2.1 lb}"
    return Refusal(f"{node.shape} stands here", forms, "write a single value")


class _Wrong(Exception):
    """A part of a weight that cannot be read."""

    def __init__(self, node: Node, refusal: Refusal) -> None:
        super().__init__(refusal.what)
        self.node = node
        self.refusal = refusal
