"""The near match of a misspelt word, and lists of words as people write them."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence


def near(word: str, known: Iterable[str]) -> str:
    """The known word nearest to this one, for a hint; empty where none is near."""
    words = list(known)
    folded = {each.lower(): each for each in words}
    if word.lower() in folded:
        return folded[word.lower()]
    found = difflib.get_close_matches(word.lower()[:60], folded, n=1, cutoff=0.6)
    return folded[found[0]] if found else ""


def one_of(words: Sequence[str], most: int = 12) -> str:
    """``a, b or c``; a long list is cut."""
    shown = list(words[:most])
    if len(words) > most:
        return f"{', '.join(shown)} or {len(words) - most} more"
    if len(shown) < 2:
        return "".join(shown)
    return f"{', '.join(shown[:-1])} or {shown[-1]}"


def in_sentence(doc: str) -> str:
    """The words of a description, to stand inside a sentence."""
    return doc[:1].lower() + doc[1:].rstrip(".")


def short(text: str, most: int = 40) -> str:
    """A text as a message quotes it: on one line, cut where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 3] + "..."
