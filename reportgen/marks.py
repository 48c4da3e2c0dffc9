"""Directional marks, which turn the order of letters on a screen round, shown as what they are."""

from __future__ import annotations

MARKS = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""The characters with the property Bidi_Control (Unicode Annex 9)."""
_SHOWN = {ord(each): f"\\u{ord(each):04x}" for each in MARKS}


def seen(text: str) -> str:
    """The text with each mark written out, as ``\\u202e``, which JSON reads as the mark again."""
    return text if text.isascii() else text.translate(_SHOWN)
