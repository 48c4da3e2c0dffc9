"""Entries of the catalogue as they are written: the English text, and what it is in a language."""

from __future__ import annotations

import textwrap

WIDTH = 100


def entry(english: str, text: str) -> str:
    """A line where it is short enough, else the translation folded below its key."""
    key, value = _quoted(english), _quoted(text)
    line = f"  {key}: {value}"
    if len(line) <= WIDTH:
        return line
    folded = textwrap.wrap(
        value, WIDTH - 4, break_long_words=False, break_on_hyphens=False, drop_whitespace=True
    )
    return "\n    ".join([f"  {key}:", *folded])


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
