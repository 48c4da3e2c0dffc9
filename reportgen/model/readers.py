"""A reader for each kind of field that is one value: text in, value and origin out.

A reader is made once for a field and a season, and called for every record that has the key.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from reportgen.algebra.inputs import Input
from reportgen.model import fields as kind
from reportgen.model.draft import Draft, Gathering, shape_problem
from reportgen.model.fields import Field
from reportgen.model.season import Value
from reportgen.read import dates, ids
from reportgen.read.grammar import Measure, count, share
from reportgen.read.near import in_sentence, near, one_of, short
from reportgen.read.nodes import Node, Scalar
from reportgen.read.problem import Refusal

Reader = Callable[[Node, Draft], None]
Parse = Callable[[str], Value]

LONGEST = 2000
"""Letters of a text; a spreadsheet's cell ends at 32,767."""

_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def parser(field: Field, slots: dict[str, str]) -> Parse:
    """The function that turns the field's text into its value. It raises :class:`Refusal`."""
    makers: dict[type, Callable[[Any], Parse]] = {
        kind.Quantity: lambda f: Measure(f.unit, slots, f.per).read,
        kind.Share: lambda f: share,
        kind.Count: lambda f: lambda text: count(text, f.words),
        kind.Text: lambda f: text_,
        kind.OwnId: lambda f: id_,
        kind.Word: lambda f: id_,
        kind.Ref: lambda f: text_,
        kind.Day: lambda f: lambda text: dates.day(text, f.clock),
        kind.Flag: lambda f: flag,
        kind.Choice: lambda f: lambda text: choice(text, f.words),
        kind.Clock: lambda f: clock,
        kind.Days: lambda f: days,
    }
    return next(makers[each] for each in type(field).__mro__ if each in makers)(field)


def single(field: Field, gathering: Gathering, column: Input | None = None) -> Reader:
    """The reader of a field whose value is one text; ``column`` where it is not its own."""
    column = column or field.inputs[0]
    return of_text(parser(field, gathering.slots), column, gathering)


def of_text(parse: Parse, column: Input, gathering: Gathering) -> Reader:
    """A reader that parses a text and keeps its value within the column's bounds."""
    name = column.name
    bounded = column.type == "number"
    known: dict[str, Value] = {}
    """Texts read before; a season says the same price or day over and over."""

    def read(node: Node, draft: Draft) -> None:
        if not isinstance(node, Scalar):
            shape_problem(
                gathering, node, f"one value, {in_sentence(column.doc)}", "write a single value"
            )
            draft.broken.add(name)
            return
        if node.empty:
            return
        text = node.text
        value = known.get(text)
        if value is None:
            try:
                value = parse(text)
                if bounded:
                    within(value, column, text)
            except Refusal as refusal:
                gathering.refuse(node, refusal)
                draft.broken.add(name)
                return
            known[text] = value
        draft.values[name] = value
        draft.origins[name] = gathering.origin(node)

    return read


def within(value: Value, column: Input, text: str) -> None:
    """Refuse a number outside the bounds of its column."""
    assert isinstance(value, float)
    least, most = column.least, column.most
    if (least is None or value > least) and (most is None or value < most):
        return
    shown = short(text)
    if least is not None and value < least:
        raise Refusal(f"'{shown}' is negative", _bounds(column), "check the sign")
    if column.above and value == least:
        raise Refusal(
            f"'{shown}' is zero", "more than 0", "correct it, or leave it out if it is not known"
        )
    if column.share and "%" not in text and 1 < value <= 100:
        do = f"write {value:g} %, or {value / 100:g}"
        raise Refusal(f"'{shown}' without a % is {value:.0f} times the whole", _bounds(column), do)
    if most is not None and value > most:
        raise Refusal(f"'{shown}' is too much", _bounds(column), "check the number")
    if column.below and value == most:
        raise Refusal(f"'{shown}' would leave nothing", "less than 100 %", "check the number")


def _bounds(column: Input) -> str:
    if column.most is not None:
        return "a share from 0 to 100 %" if column.share or column.below else "a number from 0 to 1"
    return "more than 0" if column.above else "0 or more"


def text_(text: str) -> str:
    """A free text, without the characters that no workbook can hold."""
    if _CONTROL.search(text):
        raise Refusal("a control character stands in this text", "plain text", "delete it")
    if len(text) > LONGEST:
        raise Refusal("this text is too long", f"at most {LONGEST} letters", "shorten it")
    return text.strip()


def id_(text: str) -> str:
    """A text that may be an id."""
    ids.check(text)
    return text


def flag(text: str) -> bool:
    """``true`` or ``false``, as YAML 1.2.2 spells them in section 10.3.2."""
    if text in ("true", "True", "TRUE"):
        return True
    if text in ("false", "False", "FALSE"):
        return False
    folded = text.lower()
    do = "write one of the two"
    if folded in ("yes", "y", "on", "1"):
        do = "write true"
    elif folded in ("no", "n", "off", "0"):
        do = "write false"
    raise Refusal(f"'{short(text)}' is neither true nor false", "true or false", do)


def choice(text: str, words: tuple[str, ...]) -> str:
    """One of a few words."""
    if text in words:
        return text
    match = near(text, words)
    raise Refusal(
        f"'{short(text)}' is not one of the words that can stand here",
        one_of(words),
        f"did you mean {match}?" if match else "write one of them",
    )


def clock(text: str) -> str:
    """A clock time as ``HH:MM``."""
    seconds = dates.seconds(text, last=True)
    if seconds % 60:
        raise Refusal(f"'{short(text)}' has seconds", "hours and minutes", "leave the seconds out")
    return f"{seconds // 3600:02}:{seconds // 60 % 60:02}"


def days(text: str) -> str:
    """Days of the week, with spaces between: ``mon tue wed``. Raises :class:`Refusal`."""
    found: set[str] = set()
    for word in re.split(r"[\s,]+", text.strip().lower()):
        first, dash, last = word.partition("-")
        last = last if dash else first
        if first not in _DAYS or last not in _DAYS:
            raise Refusal(
                f"'{short(word)}' is no day of the week",
                f"{one_of(_DAYS)}, or a span as mon-fri",
                "write three letters of the English name",
            )
        begin, end = _DAYS.index(first), _DAYS.index(last)
        found.update(_DAYS[(begin + step) % 7] for step in range((end - begin) % 7 + 1))
    return " ".join(day for day in _DAYS if day in found)
