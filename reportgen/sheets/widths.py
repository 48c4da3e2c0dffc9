"""Column widths from content: the longest number as shown, the longest word of a header."""

from __future__ import annotations

from reportgen.sheets.page import Page, Style, Value

_LEAST, _MOST = 7.0, 44.0
_SPILLS = {"title", "purpose", "section", "caution", "link"}
"""Roles whose text runs over the empty cells beside it."""


def widths(page: Page) -> dict[int, float]:
    """Width in characters of each column of a page."""
    found: dict[int, float] = {}
    for band in page.bands:
        for strip in band.strips:
            if strip.style.role in _SPILLS or (band.first == 3 and strip.column == 1):
                continue
            longest = max((_length(v, strip.style) for v in strip.values), default=0)
            found[strip.column] = max(found.get(strip.column, _LEAST), min(longest + 2, _MOST))
    return found


def _length(value: Value, style: Style) -> float:
    if value is None:
        return 0
    if isinstance(value, str):
        if style.wrap:
            longest = max((len(word) for word in value.split()), default=0)
            return max(longest + 1, len(value) / 2.4 + 1)
        return len(value)
    if style.format.startswith("yyyy"):
        return len(style.format)
    if '"' in style.format:
        return 5
    if style.format.endswith("%"):
        return len(f"{value * 100:.1f}%")
    decimals = len(style.format.partition(".")[2])
    return len(f"{value:,.{decimals}f}") if style.format != "General" else 10
