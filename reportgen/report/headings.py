"""What a heading means, as people see it on a sheet or page: the quantities that are called so."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property

from reportgen.algebra.book import Key
from reportgen.algebra.expr import Convert
from reportgen.algebra.factors import conversion
from reportgen.algebra.nodes import Constant, walk
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import PLACES, SMALLEST, Table
from reportgen.algebra.words import words_of

Say = Callable[[str], str]
Found = list[tuple[Table, str]]
_ALIKE, _NEAR = 0.5, 3
"""How much alike two headings are that may be meant for each other; how many are named."""


class Headings:
    """The headings of a season, in English and in its language.

    ``over``: those that stand over quantities, each with these; none where it stands over words.
    """

    def __init__(
        self, numbers: Numbers, say: Say, over: Iterable[tuple[str, Iterable[Key]]]
    ) -> None:
        self._tables, self._say = numbers.book.tables, say
        self._words = words_of(numbers.book, *numbers.slots.items())
        self._over: dict[str, list[Key]] = {}
        numbered = ((label, ()) for label in _named_numbers(numbers))
        for heading, keys in (*over, *numbered):
            for each in (heading, say(heading)):
                self._over.setdefault(_plain(each), []).extend(keys)

    def called(self, heading: str) -> Found:
        """The quantities with a heading, in the order of the tables; ``products: saved so far`` is
        one of that table's. What the program makes for itself stands behind, and is meant only
        where nothing else is called so."""
        found = self._labelled(heading, "")
        first, colon, last = heading.partition(":")
        return found or (self._labelled(last, first) if colon else [])

    def under(self, heading: str) -> Found | None:
        """The quantities that a heading stands over; None where there is no such heading."""
        keys = self._over.get(_plain(heading))
        if keys is None:
            return None
        return [(self._tables[table], name) for table, name in dict.fromkeys(keys)]

    def near(self, heading: str) -> list[str]:
        """Headings that may be meant, the likeliest first."""
        words = [*self._labels, *self._over]
        return difflib.get_close_matches(_plain(heading)[:80], words, _NEAR, _ALIKE)

    def _labelled(self, heading: str, of: str) -> Found:
        found = self._labels.get(_plain(heading), [])
        if of:
            found = [(table, name) for table, name in found if _plain(of) in self._calls(table)]
        made = [table.definitions.get(name) for table, name in found]
        first = [each for each, one in zip(found, made, strict=True)
                 if one is None or one.role == "derived"]  # fmt: skip
        return first or found

    def _calls(self, table: Table) -> set[str]:
        return {_plain(each) for each in (table.name, table.title, self._say(table.title))}

    @cached_property
    def _labels(self) -> dict[str, Found]:
        """The quantities by what they are called, checks by what they say as well."""
        found: dict[str, Found] = {}
        for table in self._tables.values():
            for name in _columns(table):
                label = self._words.label(table, name)
                made = table.definitions.get(name)
                said = [label, self._say(label)]
                if made is not None and made.role == "check":
                    said += [made.doc, self._say(made.doc)]
                for each in dict.fromkeys(map(_plain, said)):
                    found.setdefault(each, []).append((table, name))
        return found


def _named_numbers(numbers: Numbers) -> Iterator[str]:
    """What constants and factors between units are called on their sheet."""
    for each in numbers.book.order:
        for node in walk(each.tree) if each.tree is not None else ():
            if isinstance(node, Constant):
                yield node.label
            elif isinstance(node, Convert):
                factor = conversion(node.part.unit, node.unit, numbers.slots)
                yield from [factor.label] if factor is not None else []
    yield from (SMALLEST.label, PLACES.label)


def _columns(table: Table) -> Iterator[str]:
    yield from (name for name in (*table.definitions, *table.inputs) if name != "key")


def _plain(text: str) -> str:
    return " ".join(text.casefold().split()).rstrip(".?! ")
