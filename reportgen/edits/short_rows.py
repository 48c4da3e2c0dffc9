"""The lines of the short form that stand for several inputs: ``bought`` and ``packed``."""

from __future__ import annotations

from collections.abc import Mapping as Keys
from dataclasses import dataclass

from reportgen.edits.records import Home, Homes, record_of
from reportgen.edits.written import Like, Values, Writer
from reportgen.model.season import Season
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written
from reportgen.read import short_lines
from reportgen.read.nodes import Node as AnyNode
from reportgen.read.nodes import Scalar as Node
from reportgen.read.spans import Scalar, Span

Touched = dict[str, tuple[Written | None, Written | None]]
"""The keys of a record that change: what they said, what they are to say."""


@dataclass(frozen=True)
class Change:
    """New values of one record's inputs, by name; None: nothing is written any more."""

    table: str
    row: int
    values: Values


class ShortLines:
    """The files of a season, each with its pen. ``texts``: the files as they are."""

    def __init__(self, season: Season, texts: Keys[str, str]) -> None:
        self._season = season
        self.pens = {name: Pen(text) for name, text in texts.items()}
        self._before = dict(texts)
        self.homes = Homes(season, self.pens)
        self._writer = Writer(season.slots)
        self._finished: set[int] = set()
        """Lots of which it was typed whether they are finished."""
        self._moved: set[str] = set()
        """Files in the short form that get another day."""

    def line_anew(
        self, home: Home, change: Change,
        touched: dict[str, tuple[Written | None, Written | None]], new: Values, id_: str = "",
    ) -> None:  # fmt: skip
        """A line of ``packed``: its numbers in their places, else a mapping in its place."""
        assert home.line is not None
        pen, line = self.pens[home.file], home.line
        parts = dict(short_lines.packed(_as_node(line)))
        in_place = all(
            key in parts and isinstance(value, str) for key, (_, value) in touched.items()
        )
        if in_place and not id_:
            self._pieces(pen, line, {k: str(v) for k, (_, v) in touched.items()}, parts)
            return
        record = record_of(change.table)
        own = ("product", "from")
        written = {
            key: value
            for key, value in self._writer.record(record, new).items()
            if key not in own or key in touched
        }
        if id_:
            written = {"id": id_, **written}
        key = None
        if home.listing is None and home.under is not None:
            found = home.under[0].find(home.under[1])
            key = found[0] if found is not None else None
        pen.put(key, line, written)

    def beside_bought(
        self, entry: tuple[Scalar, Span], touched: Keys[str, object], new: Values, like: Like
    ) -> Touched:
        """What the line ``bought`` says until now and has no room for when it names a container: it
        gets a key of its own."""
        line = entry[1]
        assert isinstance(line, Scalar)
        written = self._writer.record(record_of("lots"), new, like)
        left = {key for key, _ in short_lines.bought(_as_node(line))} - {*said_of_bought(new)}
        return {key: (None, written[key]) for key in left if key in written and key not in touched}

    def _bought(
        self, pen: Pen, entry: tuple[Scalar, Span],
        touched: dict[str, tuple[Written | None, Written | None]], new: Values, like: Like,
    ) -> None:  # fmt: skip
        """What the line ``bought`` says: its numbers in their places, else the line anew."""
        line = entry[1]
        assert isinstance(line, Scalar)
        parts = dict(short_lines.bought(_as_node(line)))
        fits = {k: str(v) for k, (_, v) in touched.items() if k in parts and isinstance(v, str)}
        if len(fits) == len(touched):
            counted = "count" in parts
            if "price" in fits and counted:
                amount, slash, _ = fits["price"].rpartition("/")
                total = new.get("price_total") is not None
                how = pen.marked.text[line.start : line.end]
                if total != (" for " in how):
                    self._anew(pen, entry, new, like)
                    return
                each = new.get("price_each") is not None
                if slash and each and "/" not in _said(parts["price"]):
                    fits["price"] = amount
            self._pieces(pen, line, fits, parts)
            return
        self._anew(pen, entry, new, like)

    def _anew(self, pen: Pen, entry: tuple[Scalar, Span], new: Values, like: Like) -> None:
        written = self._writer.record(record_of("lots"), new, like)
        price = written.get("price")
        if new.get("container") is not None:
            text = f"{written.get('count', '1')} {written['container']}"
        elif new.get("grown") or "weighed" not in written:
            text = "grown"
        else:
            text = str(written["weighed"])
        if isinstance(price, str) and text != "grown":
            each = isinstance(new.get("price_each"), float)
            said = price.rpartition("/")[0] if each else price
            text += f" {'for' if new.get('price_total') is not None else 'at'} {said}"
        old = pen.marked.text[entry[1].start : entry[1].end]
        pen.put(entry[0], entry[1], text, f"was {old}")

    def _pieces(
        self, pen: Pen, line: Scalar, new: dict[str, str], parts: Keys[str, AnyNode]
    ) -> None:
        """Parts of one text, each in its own place, from the last to the first."""
        start = line.start + (pen.marked.text[line.start] in "'\"")
        for key, text in new.items():
            part = parts[key]
            at = part.column - 1
            pen.cut(start + at, start + at + part.length, text)


def said_of_bought(new: Values) -> tuple[str, ...]:
    """The keys of a lot that its line ``bought`` says: how many of which container, that it was
    grown, or a weight."""
    if new.get("container") is not None:
        return "count", "container", "price"
    if new.get("grown"):
        return ("grown",)
    return "weighed", "price", "grown", "container"


def _as_node(line: Scalar) -> Node:
    """A text as the reader of short lines takes it, its places counted from its first letter."""
    return Node(line.text, "", 1, 1, len(line.text))


def _said(node: AnyNode) -> str:
    """What stands in the file for a part of a line."""
    return node.written if isinstance(node, Node) else ""
