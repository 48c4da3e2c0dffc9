"""What a heading means, as people see it on a sheet or page: the quantities that are called so."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.algebra.words import Words

Say = Callable[[str], str]


def called(numbers: Numbers, heading: str, say: Say) -> list[tuple[Table, str]]:
    """The quantities with a heading, in English or in another language (``say``), in the order of
    the tables; ``products: saved so far`` is one of that table's. What the program makes for itself
    stands behind, and is meant only where nothing else is called so."""
    first, colon, last = heading.partition(":")
    wanted, of = (_plain(last), _plain(first)) if colon else (_plain(heading), "")
    words = Words(numbers.book, numbers.slots)
    found: list[tuple[Table, str]] = []
    behind: list[tuple[Table, str]] = []
    for table in numbers.book.tables.values():
        if of and of not in {_plain(each) for each in (table.name, table.title, say(table.title))}:
            continue
        for name in _columns(table):
            label = words.label(table, name)
            if wanted in (_plain(label), _plain(say(label))):
                made = table.definitions.get(name)
                own = made is not None and made.role != "derived"
                (behind if own else found).append((table, name))
    return found or behind


def _columns(table: Table) -> Iterator[str]:
    yield from (name for name in (*table.definitions, *table.inputs) if name != "key")


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())
