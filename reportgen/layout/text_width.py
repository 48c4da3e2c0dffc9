"""How wide a text is in the workbook's typeface, in digits: the unit that columns are counted in.

Widths of Helvetica, which Arial and Liberation Sans share (Adobe Core 14 font metrics, from
memory; the printed sheets are held against them in ``tests/printed``).
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache

_GROUPS = {
    191: "'",
    222: "ijl’‘",
    278: "!,./:;\\|I ft·\N{NO-BREAK SPACE}[]",
    333: "()-r`²³“”°„",
    355: '"',
    389: "*{}",
    500: "Jckvsxyz",
    556: "#$0123456789?L_abdeghnopqu–«»€",
    584: "+<=>~×÷−±^≈≤≥√",
    611: "FTZ",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ",
    833: "Mm",
    889: "%",
    944: "W",
    1015: "@—…←→",
}
"""Characters by their width in thousandths of the type's size."""
_WIDTHS = {character: width for width, group in _GROUPS.items() for character in group}
_DIGIT, _SPACE, _UNUSUAL = 556, _WIDTHS[" "], 1000
_BOLD = 1.08
"""How much wider bold letters are."""


def digits(text: str, points: float = 10.0, bold: bool = False) -> float:
    """The width of a text on one line, in digits of ten points."""
    return _thousandths(text) * _of_one(points, bold)


def _of_one(points: float, bold: bool) -> float:
    """Digits that a thousandth of the type's size takes."""
    return points / 10 * (_BOLD if bold else 1) / _DIGIT


@lru_cache(1 << 14)  # the words of a workbook are few, and its texts say them again and again
def _thousandths(text: str) -> int:
    try:
        return sum([_WIDTHS[character] for character in text])
    except KeyError:
        return sum(map(_width, text))


def _width(character: str) -> int:
    known = _WIDTHS.get(character)
    if known is not None:
        return known
    if unicodedata.combining(character):
        return 0
    plain = unicodedata.normalize("NFD", character)[0]
    return _width(plain) if plain != character else _UNUSUAL


def lines(text: str, room: float, points: float = 10.0, bold: bool = False) -> int:
    """How many lines a text takes in a column of ``room`` digits."""
    return len(broken(text, room, points, bold))


@lru_cache(1 << 14)  # asked by who pages a sheet and by who writes it
def broken(text: str, room: float, points: float = 10.0, bold: bool = False) -> tuple[float, ...]:
    """The lines that a text takes in a column of ``room`` digits: how far each is filled.

    Breaks where there is a space or after a hyphen, and inside a word only where it is longer
    than a line.
    """
    found: list[float] = []
    one = _of_one(points, bold)
    most = room / one
    for words in _paragraphs(text):
        used = filled = 0.0
        for letters, space in words:
            needs: float = letters
            if used and used + needs > most:
                found.append(filled * one)
                used = 0.0
            while needs > most:
                found.append(room)
                needs -= most
            filled = used + needs
            used = filled + space
        found.append(filled * one)
    return tuple(found)


@lru_cache(1 << 12)  # a heading is broken for one width after another, until it fits
def _paragraphs(text: str) -> tuple[tuple[tuple[int, int], ...], ...]:
    """By paragraph and word its width, and that of the space behind it, in thousandths."""
    return tuple(
        tuple(
            [
                (_thousandths(word[:-1]), _SPACE) if word[-1:] == " " else (_thousandths(word), 0)
                for word in paragraph.replace("-", "-\0").replace(" ", " \0").split("\0")
            ]
        )
        for paragraph in text.split("\n")
    )
