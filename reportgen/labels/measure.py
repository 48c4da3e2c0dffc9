"""How much room a text takes, estimated high, since nobody knows which face a browser will use.

Widths are upper bounds over the usual upright faces without serifs; the wide one that many systems
fall back on sets most of them. A test holds them against the faces it finds.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from math import fsum

LINE = 1.2
"""Height of a line by its type size; the style sheet sets the same."""

_GROUPS = {
    0.30: "'ijl",
    0.35: "I ,./:;\\|·’‘\N{NO-BREAK SPACE}",
    0.43: "()-[]ft",
    0.45: "!r",
    0.55: '"*J`°csz',
    0.60: "?L_kvxy–“”",
    0.65: "$0123456789FTabdeghnopqu{}«»",
    0.70: "ABEKPSVXYZ",
    0.75: "CNRU",
    0.80: "&DGHOQ",
    0.85: "#+<=>^w~×",
    0.90: "M",
    1.00: "%Wm—…",
    1.05: "@",
}
"""Characters by their width."""
_BOLD = 1.17
_ROUNDING = 1e-9  # a line is added up word by word: its sum may differ from the text's own
_IDEOGRAPH, _PICTURE, _UNUSUAL, _ACCENTED = 1.05, 1.45, 1.10, 0.35
_WIDTHS = {character: width for width, group in _GROUPS.items() for character in group}


def width(text: str, bold: bool = False) -> float:
    """The width of a text by its type size."""
    return fsum(map(_width, text)) * (_BOLD if bold else 1)


def _width(character: str) -> float:
    known = _WIDTHS.get(character)
    if known is not None:
        return known
    if unicodedata.combining(character):
        return 0.0
    if unicodedata.east_asian_width(character) in "WF":
        return _IDEOGRAPH if ord(character) < 0x10000 else _PICTURE
    plain = unicodedata.normalize("NFD", character)[0]
    if plain != character:
        return max(_width(plain), _ACCENTED)
    return _UNUSUAL if ord(character) < 0x10000 else _PICTURE


def lines(pieces: Sequence[tuple[str, bool]], room: float) -> int:
    """How many lines texts take that follow one another in ``room`` times their type size.

    Each piece is a text and whether it is bold. Breaks where there is a space, and inside a word
    only where it is longer than a line.
    """
    count, used = 1, 0.0
    for text, bold in pieces:
        for word in text.split(" "):
            needs = width(word, bold)
            space = width(" ", bold) if used else 0.0
            if used + space + needs <= room + _ROUNDING:
                used += space + needs
                continue
            count, used = count + (used > 0), needs
            # Of a word that is broken, a line may stay short by a character.
            while used > room:
                count, used = count + 1, used - max(room - _PICTURE, room / 2)
    return count
