"""How tall rows are.

Every row says its height: no program but Excel, and it only sometimes, fits rows to wrapped text
when it opens a file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from reportgen.layout import look
from reportgen.layout.page import USUAL_WIDTH, Band, Page, Strip
from reportgen.layout.text_width import lines

_LINE = 1.28
"""Points a line takes for each point of type."""
_PADDING, _INDENT = 0.9, 1.7
"""Digits of a column's width that no text stands in."""
_LOOSE = 0.96
"""The share of a line that is filled: programs round letters their own way."""
_MOST = 409.0
"""Points a row may have."""


class Height(NamedTuple):
    """Points; ``kept`` also when someone types a longer text."""

    points: float
    kept: bool


def page_heights(page: Page) -> list[Height | None]:
    """The height of each row from the first to the last that holds something; None where nothing
    stands between."""
    found: list[Height | None] = []
    for first, stop, bands in page.runs():
        found += [None] * (first - 1 - len(found))
        found += _heights(bands, first, stop - first, page.widths)
    return found


def _heights(
    bands: Sequence[Band], first: int, count: int, widths: Mapping[int, float]
) -> list[Height]:
    """The height of each of ``count`` rows from row ``first`` on, which ``bands`` share."""
    given = [band.height for band in bands if band.height is not None]
    if given:
        return [Height(max(given), True)] * count
    strips = [(band, strip) for band in bands for strip in band.strips]
    usual = max(look.FACES[s.style.role].height or look.ROW_HEIGHT for _, s in strips)
    wrapping = [
        (strip, first - band.first)
        for band, strip in strips
        if strip.style.wrap or look.FACES[strip.style.role].wrap
    ]
    more = max(band.more for band in bands)
    if not wrapping:
        return [Height(usual + more, True)] * count
    found = [usual] * count
    for strip, skip in wrapping:
        face, room = look.FACES[strip.style.role], _room(strip, widths)
        for at, text in enumerate(strip.values[skip : skip + count]):
            if text and isinstance(text, str):
                found[at] = max(found[at], _needed(text, room, face))
    # Most rows are as tall as others: each height is made once.
    made = {p: Height(min(p + more, _MOST), p == usual) for p in set(found)}
    return [made[points] for points in found]


def _room(strip: Strip, widths: Mapping[int, float]) -> float:
    """Digits that a line of the strip's texts may fill."""
    width = widths.get(strip.column, USUAL_WIDTH)
    return max((width - _PADDING - _INDENT * look.indented(strip.style)) * _LOOSE, 1.0)


def _needed(text: str, room: float, face: look.Face) -> float:
    """Points that a wrapped text needs."""
    count = lines(text, room, face.size, face.bold)
    return count * face.size * _LINE + 2 if count > 1 else 0.0
