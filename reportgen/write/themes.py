"""The colours of what is read on a screen: by day those of the workbook, by night their own.

The pairs that must be told apart reach 4.5:1 as texts and 3:1 as shapes in both (WCAG 2.2, 1.4.3
and 1.4.11); ``tests/write/test_html_themes.py`` measures them.
"""

from __future__ import annotations

from reportgen.layout import look

DAY = {
    "ground": look.WHITE, "sheet": "F6F9FB", "ink": look.INK, "muted": look.MUTED,
    "deep": look.DEEP, "pale": look.PALE, "hair": look.HAIR, "frame": "7B8790",
    "warn-ink": "7A3E00", "warn-ground": "FFF6E6", "warn-edge": "B35C00",
    "good-ink": look.DEEP, "good-ground": "DDEEF8", "focus": "0B5FA5",
}  # fmt: skip
NIGHT = {
    "ground": "11181D", "sheet": "18222A", "ink": "E9EFF3", "muted": "AAB8C2",
    "deep": "8FCBEB", "pale": "22303A", "hair": "35444F", "frame": "7D8C97",
    "warn-ink": "FFD9A0", "warn-ground": "33240F", "warn-edge": "E69F00",
    "good-ink": "BFE3F6", "good-ground": "17394B", "focus": "8FCBEB",
}  # fmt: skip
TEXTS = (
    ("ink", "ground"), ("ink", "sheet"), ("muted", "ground"), ("muted", "sheet"),
    ("deep", "ground"), ("deep", "sheet"), ("ink", "pale"), ("deep", "pale"),
    ("warn-ink", "warn-ground"), ("good-ink", "good-ground"),
)  # fmt: skip
"""Texts with their grounds."""
SHAPES = (
    ("frame", "ground"), ("frame", "sheet"), ("warn-edge", "ground"), ("focus", "ground"),
    ("focus", "sheet"), ("ink", "sheet"),
)  # fmt: skip
"""Edges and outlines with their grounds."""

BLACK = "000000"
SERIES = look.SERIES
"""Fills of a picture's pieces; each piece has an outline in ``ink``."""


def on(fill: str) -> str:
    """The ink that reads best on a fill."""
    return max((BLACK, look.WHITE), key=lambda ink: look.contrast(ink, fill))
