"""The phrases of the short form: what was bought, and what was packed."""

from __future__ import annotations

import re

from reportgen.read import dates
from reportgen.read.currencies import CURRENCIES
from reportgen.read.grammar import per
from reportgen.read.near import short
from reportgen.read.nodes import Node, Scalar
from reportgen.read.numbers import NUMBER
from reportgen.read.problem import Refusal
from reportgen.units import FRESH, SPELLINGS

BOUGHT = (
    "what was bought, as 3 lug at 28.50 USD, 72.4 lb at 1.10 USD/lb, 3 lug for 85 USD, or grown"
)
PACKED = "how many of which container, as 4 can-10 of 11.0 oz, or 4 can-10 of 11.0 oz on 2026-09-08"

_FIGURE = rf"{NUMBER}(?:[.,]\d+)*"
"""A number, or what is meant as one: who reads it says what is wrong with its commas."""
_BOUGHT = re.compile(r"(?P<what>.+?)(?:\s+(?P<how>at|for)\s+(?P<price>.+?))?\s*")
_COUNTED = re.compile(rf"(?P<count>{_FIGURE})\s+(?P<container>[A-Za-z][A-Za-z0-9-]*)")
_FIRST = re.compile(rf"(?:[~≈]\s*|about\s+)?{_FIGURE}\s*([A-Za-z]+)")
_EACH = re.compile(r"\s+(?:each|apiece|ea\.?)$")
_PACKED = re.compile(
    rf"(?P<count>{_FIGURE})\s+(?P<container>\S+)(?:\s+of\s+(?P<net>.+?))?"
    r"(?:\s+on\s+(?P<date>\d\S*))?\s*"
)
_CLOCK = re.compile(rf"\s*{dates.CLOCK}\s*", re.I)

Parts = list[tuple[str, Node]]


def is_clock(text: str) -> bool:
    """Whether a text is a time of day alone."""
    return _CLOCK.fullmatch(text) is not None


def bought(node: Scalar) -> Parts:
    """What a lot's ``bought`` says: count and container, or weight, and the price.

    Raises :class:`Refusal`.
    """
    text = node.text
    if text.strip() == "grown":
        return [("grown", _piece(node, 0, len(text), "true"))]
    match = _BOUGHT.fullmatch(text)
    if match is None:
        raise Refusal("nothing stands here", BOUGHT, "say what was bought, or delete the line")
    start = match.start("what")
    what = match.group("what")
    counted = _COUNTED.fullmatch(what)
    container = counted.group("container") if counted else ""
    if container in CURRENCIES:
        raise Refusal(
            f"'{short(text)}' is a price, and does not say of what",
            BOUGHT,
            f"write 'price: {short(text)}', or what was bought before it, as 3 lug for {what}",
        )
    if container in SPELLINGS and not _is_weight(container):
        raise Refusal(
            f"'{container}' is a unit, and no container",
            BOUGHT,
            "write the weight, or how many of which container",
        )
    weighed = not counted or _is_weight(container)
    first = _FIRST.match(what)
    if weighed and not (first and _is_weight(first.group(1))):
        raise Refusal(f"'{short(text)}' does not say what was bought", BOUGHT, "write it so")
    if weighed:
        parts: Parts = [("weighed", _piece(node, start, match.end("what")))]
    else:
        assert counted is not None
        parts = [
            ("count", _piece(node, start + counted.start("count"), start + counted.end("count"))),
            ("container", _piece(node, start + counted.start("container"), match.end("what"))),
        ]
    price = match.group("price")
    if price is None:
        return parts
    price = per(price)
    at = match.span("price")
    if match.group("how") == "for":
        if "/" in price:
            raise Refusal(
                f"'for {short(price)}' is the price of the whole, and of one",
                BOUGHT,
                "write 'at' for the price of one, or leave out what follows the /",
            )
        parts.append(("price", _piece(node, *at, price)))
    elif weighed and "/" not in price:
        price = _EACH.sub("", price)
        raise Refusal(
            f"'at {short(price)}' does not say for which weight",
            BOUGHT,
            f"write 'at {short(price)}/lb', or 'for {short(price)}' if it is the price of all",
        )
    else:
        price = _EACH.sub("", price)
        whole = price if "/" in price else f"{price}/{container}"
        parts.append(("price", _piece(node, *at, whole)))
    return parts


def packed(node: Scalar) -> Parts:
    """What a line of ``packed`` says: count, container, net weight. Raises :class:`Refusal`."""
    match = _PACKED.fullmatch(node.text)
    if match is None:
        raise Refusal(
            f"'{short(node.text)}' does not say how many of which container", PACKED, "write it so"
        )
    names = [
        each for each in ("count", "container", "net", "date") if match.group(each) is not None
    ]
    return [(name, _piece(node, *match.span(name))) for name in names]


def _is_weight(word: str) -> bool:
    unit = SPELLINGS.get(word)
    return unit is not None and unit.dimension == FRESH.dimension


def _piece(node: Scalar, start: int, end: int, text: str | None = None) -> Scalar:
    piece = node.piece(start, end, text)
    piece.quoted = True
    return piece
