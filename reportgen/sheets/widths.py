"""Column widths from content, so that nothing is cut off and nothing is wider than it needs."""

from __future__ import annotations

from reportgen.sheets.page import Page, Style, Value

_LEAST, _MOST = 6.0, 46.0
_SPILLS = {"title", "purpose", "section", "group", "caution", "link", "label"}
"""Roles whose text runs over the empty cells beside it."""
_NOTE = 5
_EMPTY = 8.4
"""Width of a column that nothing is said of."""
_INDENT = 1.5
_WRAPPED = 1.15
"""Bold and proportional letters: a line holds a little less than its width says."""


def widths(page: Page) -> dict[int, float]:
    """Width in characters of each column of a page."""
    found: dict[int, float] = {}
    for band in page.bands:
        last = max((strip.column for strip in band.strips), default=0)
        for strip in band.strips:
            alone = strip.column == last and not strip.style.wrap and strip.style.align != "right"
            if strip.style.role in _SPILLS or (alone and strip.style.role in ("text", "given")):
                continue
            if band.first == 3 or (strip.style.role == "formula" and _long_text(strip.values)):
                continue
            longest = max((_length(v, strip.style) for v in strip.values), default=0)
            longest += _INDENT if strip.style.align == "left" else 0
            found[strip.column] = max(found.get(strip.column, _LEAST), min(longest + 1.5, _MOST))
    _fit_labels(page, found)
    for first, last, text in page.spans:
        columns = range(first, last + 1)
        short = len(text) * 1.1 + 2 - sum(found.get(c, _LEAST) for c in columns)
        for column in columns:
            found[column] = found.get(column, _LEAST) + max(short, 0) / len(columns)
    return found


def _fit_labels(page: Page, found: dict[int, float]) -> None:
    """A list's labels run over the first two columns, up to the value in the third."""
    labels = [
        str(strip.values[0])
        for band in page.bands
        if any(strip.column == 3 for strip in band.strips)
        for strip in band.strips
        if strip.style.role == "label"
    ]
    longest = max((len(label) for label in labels), default=0) * 0.95 + 1
    short = longest - found.get(1, _LEAST) - found.get(2, _LEAST)
    if short > 0:
        found[1] = found.get(1, _LEAST) + short


def columns_for_notes(page: Page) -> int:
    """The last column that a list's notes, which begin in the fifth, run over."""
    notes = [
        len(str(strip.values[0]))
        for band in page.bands
        if band.rows == 1
        for strip in band.strips
        if strip.style.role == "text" and strip.column == _NOTE and not strip.style.wrap
    ]
    left, column = max(notes, default=0) * 0.9, _NOTE
    while left > page.widths.get(column, _EMPTY):
        left -= page.widths.get(column, _EMPTY)
        column += 1
    return column if notes else 0


def _long_text(values: object) -> bool:
    return any(isinstance(v, str) and len(v) > 24 for v in values)  # type: ignore[attr-defined]


def _length(value: Value, style: Style) -> float:
    if value is None:
        return 0
    if isinstance(value, str):
        if style.role == "unit":
            return len(value) * 0.9
        if style.wrap:
            longest = max((len(word) for word in value.split()), default=0)
            return max(longest * _WRAPPED + 0.5, len(value) / 3)
        return len(value) * 1.05
    if style.format.startswith("yyyy"):
        return len(style.format) + 1
    if '"' in style.format:
        return 5
    if style.format.endswith("%"):
        return len(f"{value * 100:.1f}%") + 1
    decimals = len(style.format.partition(".")[2])
    return len(f"{value:,.{min(decimals, 6)}f}") + 1
