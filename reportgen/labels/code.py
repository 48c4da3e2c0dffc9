"""What a label's QR code says, and how large such a code is.

The text is plain and names no address: whoever reads it finds the pack in the season's own files.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

CAPACITY = (14, 26, 42, 62, 84, 106, 122, 152, 180, 213)
"""Bytes that a code of version 1, 2, ... holds with error correction M (ISO/IEC 18004, table 7)."""
QUIET = 4
"""Modules of white on each side (ISO/IEC 18004, 5.3.8)."""
_LONGEST = 60
"""Letters of a season's name past which it is cut; ids are no longer than that either."""


def slug(text: str) -> str:
    """A season's name as a word: ``windrow-lane-2025``."""
    apart = unicodedata.normalize("NFKD", text.lower())
    plain = "".join(each for each in apart if not unicodedata.combining(each))
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST] or "season"


def trace(season: str, pack: str, packed: str, runs: Sequence[str], lots: Sequence[str]) -> str:
    """``reportgen:windrow-lane-2025/P-0908 packed 2025-09-08 from run-07 lots pears-1``.

    What is not known is left out. Where it would be too long for a code, runs and lots are counted;
    the pack still leads to them.
    """
    head = f"reportgen:{slug(season)}/{pack}" + (f" packed {packed}" if packed else "")
    whole = head + _named("from", runs) + _named("lots", lots)
    if size(whole) is not None:
        return whole
    return head + _counted("from", runs, "runs") + _counted("of", lots, "lots")


def _named(word: str, ids: Sequence[str]) -> str:
    return f" {word} {' '.join(ids)}" if ids else ""


def _counted(word: str, ids: Sequence[str], what: str) -> str:
    return f" {word} {len(ids)} {what}" if ids else ""


def version(text: str) -> int | None:
    """The version of the code that holds a text; None where it is too long."""
    length = len(text.encode())
    return next((n for n, most in enumerate(CAPACITY, 1) if length <= most), None)


def size(text: str) -> int | None:
    """Modules along a side, the quiet zone included."""
    found = version(text)
    return None if found is None else 17 + 4 * found + 2 * QUIET
