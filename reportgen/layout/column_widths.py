"""Column widths from content, so that nothing is cut off and nothing is wider than it needs."""

from __future__ import annotations

from math import fsum

from reportgen.layout.page import Page, Strip, Style, Value
from reportgen.layout.text_width import broken, digits, lines

_LEAST, _MOST = 6.0, 46.0
_BESIDE = 1.8
"""Digits of a column that no text stands in."""
_UNBROKEN = 110.0
"""Digits of a column whose texts are not broken: it is for the screen alone."""
_APART = 1.0
"""Digits more beside a header, so that two of them do not read as one."""
_INDENT = 1.7
_STEP = 0.25
_SMALL = 0.9
"""How much smaller the type of units and groups is."""
_LINES = 3
_WRAPPED = 1.12
"""Lines are not filled to their end."""
LONG = 34.0
"""Digits of a text that is broken into lines."""
_NARROW = 26.0
"""Digits of a line that a text is not broken below."""
_OVER = frozenset(
    ("title", "purpose", "verdict", "section", "group", "caution", "sentence", "label")
)
"""Roles of texts that run over their neighbours."""
_LABELLED = 3
"""The column of a list's values, up to which its labels run."""


def long(values: object) -> bool:
    """Whether some of a column's texts are broken into lines."""
    return any(isinstance(v, str) and digits(v) > LONG for v in values)  # type: ignore[attr-defined]


def widths(page: Page) -> dict[int, float]:
    """Width in digits of each column of a page; those that it gives already stay."""
    found: dict[int, float] = {}
    for band in page.bands:
        for strip in band.strips:
            if runs_over(strip.style) or strip.column in page.widths:
                continue
            needed = _needed(strip)
            if strip.style.format.startswith("yyyy"):  # room for one that is typed in later
                needed = max(needed, digits(shown(0, strip.style.format)))
            needed += _BESIDE + (_INDENT if strip.style.align == "left" else 0)
            needed += _APART if strip.style.role == "header" else 0
            found[strip.column] = max(found.get(strip.column, _LEAST), needed)
    found |= page.widths
    _fit_labels(page, found)
    for first, last, text in page.spans:
        columns = range(first, last + 1)
        short = digits(text, 9, bold=True) + 2 - fsum(found.get(c, _LEAST) for c in columns)
        for column in columns:
            found[column] = found.get(column, _LEAST) + max(short, 0) / len(columns)
    _keep_apart(page, found)
    return {column: round(width, 2) for column, width in sorted(found.items())}


def runs_over(style: Style) -> bool:
    """Whether a text runs over the empty cells beside it."""
    return style.spill or style.role in _OVER


def _fit_labels(page: Page, found: dict[int, float]) -> None:
    """A list's labels run over the first two columns, up to the value in the third."""
    labels = [
        str(strip.values[0])
        for band in page.bands
        if any(strip.column == _LABELLED for strip in band.strips)
        for strip in band.strips
        if strip.style.role == "label"
    ]
    longest = max((digits(label) for label in labels), default=0) + 1
    short = longest - found.get(1, _LEAST) - found.get(2, _LEAST)
    if short > 0:
        found[1] = found.get(1, _LEAST) + short


def _keep_apart(page: Page, found: dict[int, float]) -> None:
    """Room beside each header however its lines are broken: some programs put a word more on a line
    and let it take what the column has to spare."""
    heads: dict[int, list[tuple[str, float]]] = {}
    for strip in (strip for band in page.bands for strip in band.strips):
        if strip.style.role == "header" and strip.column not in page.widths:
            indent = _INDENT if strip.style.align == "left" else 0.0
            heads.setdefault(strip.column, []).extend(
                (value, indent) for value in strip.values if isinstance(value, str)
            )
    for column, texts in heads.items():
        while any(_touches(text, found[column] - indent) for text, indent in texts):
            found[column] += _STEP


def _touches(header: str, room: float) -> bool:
    return max(broken(header, room, bold=True)) > room - _APART


def _needed(strip: Strip) -> float:
    """Digits that a column's values take."""
    if not strip.style.wrap:
        if len(strip.values) == 1:  # as in all lists
            return _width(strip.values[0], strip.style)
        values = set(strip.values)
        texts = {value for value in values if isinstance(value, str)}
        numbers = [v for v in values if v is not None and not isinstance(v, str)]
        # Digits are of one width, so the widest number is one of the two at the ends.
        ends = (min(numbers), max(numbers)) if numbers else ()
        return max((_width(value, strip.style) for value in (*texts, *ends)), default=0.0)
    bold = strip.style.role in ("header", "key")
    size = _SMALL if strip.style.role == "unit" else 1.0
    wrapped = [value for value in strip.values if isinstance(value, str)] or [""]
    whole = max(digits(text, bold=bold) * size for text in wrapped)
    word = max(digits(each, bold=bold) * size for text in wrapped for each in text.split() or [""])
    if strip.style.role == "header":
        return min(max(_least_room(text) for text in wrapped), _MOST)
    least = min(whole, _NARROW)
    return min(max(word, whole / _LINES * _WRAPPED, least), _MOST)


def _least_room(header: str) -> float:
    """The least width at which a header takes few lines."""
    room = max((digits(each, bold=True) for each in header.split()), default=0.0)
    while lines(header, room, bold=True) > _LINES:
        room += 0.5
    return room


def _width(value: Value, style: Style) -> float:
    if value is None:
        return 0
    if isinstance(value, str):
        size = _SMALL if style.role == "unit" else 1.0
        return min(digits(value, bold=style.role == "key") * size, _UNBROKEN)
    return digits(shown(value, style.format))


def shown(value: float, format: str) -> str:
    """About what a number looks like: as wide, at least."""
    if format.startswith("yyyy"):
        return format.upper()
    if '"' in format:
        words = format.split('"')[1::2]
        figure = format.partition("]")[2].partition(";")[0]  # of one that has conditions
        return max([*words, *([shown(value, figure)] if figure else [])], key=digits)
    if format.endswith("%"):
        return f"{value * 100:,.1f}%"
    return f"{value:,.{len(format.partition('.')[2])}f}"
