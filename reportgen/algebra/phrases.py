"""Fixed texts that know what they are made of, so that they can be said in another language.

Everything is written in English. The English text is the key to its translations; one that is put
together is looked up by its pattern, ``the total {name} of {rows}``, and filled anew.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache, reduce
from typing import Literal

from reportgen.units import Unit

Say = Callable[[str], str]
"""From an English text, or the pattern of one, to the same in some language."""

HOLE = re.compile(r"\{(\w+)\}")


class Phrase(str):
    """An English text, filled; what is in its holes is said too where it is a phrase itself.

    ``first``: the case of its first letter, wherever the text comes from.
    """

    pattern: str
    parts: Mapping[str, str]
    first: Literal["", "lower", "upper"]

    def __new__(
        cls,
        pattern: str,
        parts: Mapping[str, str] | None = None,
        first: Literal["", "lower", "upper"] = "",
    ) -> Phrase:
        """The text in English."""
        made = super().__new__(cls, _begun(_filled(pattern, parts or {}), first))
        made.pattern, made.parts, made.first = pattern, parts or {}, first
        return made

    @classmethod
    def of(cls, text: str) -> Phrase:
        """The text as a phrase, if it is none yet."""
        return text if isinstance(text, Phrase) else cls(text)

    def said(self, say: Say) -> str:
        """The text in another language."""
        parts = {name: spoken(part, say) for name, part in self.parts.items()}
        return _begun(_filled(say(self.pattern), parts), self.first)


def phrase(pattern: str, **parts: str) -> Phrase:
    """A pattern with its holes filled; parts that are not phrases stay as they are."""
    return Phrase(pattern, parts)


def as_it_is(text: str) -> Phrase:
    """A text that stays as it is in every language."""
    return phrase("{text}", text=text)


def lowered(text: str) -> Phrase:
    """A text as it stands within another."""
    return _cased(text, "lower")


def raised(text: str) -> Phrase:
    """A text as it begins a line."""
    return _cased(text, "upper")


def joined(pattern: str, parts: Sequence[str]) -> str:
    """Several parts, the first two by the pattern, then what they make and the next."""
    return reduce(lambda a, b: phrase(pattern, a=a, b=b), parts)


def in_words(unit: Unit, slots: Mapping[str, str]) -> str:
    """A unit, each of its names a phrase but that of the money."""
    names = dict(unit.powers)
    parts = {
        name: slots.get(name, name) if name == "money" else Phrase(slots.get(name, name))
        for name in names
    }
    return Phrase(unit.text({name: f"{{{name}}}" for name in names}, raised=True), parts)


def spoken(text: str, say: Say) -> str:
    """A part in another language: a phrase, or someone's own words, which stay."""
    return text.said(say) if isinstance(text, Phrase) else text


def is_neutral(pattern: str) -> bool:
    """Whether there is nothing to translate: no letter outside the holes."""
    return not any(letter.isalpha() for letter in HOLE.sub("", pattern))


def _cased(text: str, first: Literal["lower", "upper"]) -> Phrase:
    known = Phrase.of(text)
    return Phrase(known.pattern, known.parts, first)


def _filled(pattern: str, parts: Mapping[str, str]) -> str:
    if not parts:
        return pattern
    texts = [*_pieces(pattern)]
    texts[1::2] = [parts.get(name, f"{{{name}}}") for name in texts[1::2]]
    return "".join(texts)


@lru_cache(maxsize=1 << 12)
def _pieces(pattern: str) -> tuple[str, ...]:
    """A pattern's own text and the names of its holes, in turn."""
    return tuple(HOLE.split(pattern))


def _begun(text: str, first: str) -> str:
    if not text or not first:
        return text
    return (text[0].lower() if first == "lower" else text[0].upper()) + text[1:]
