"""A part of a book: some quantities with all they need, down to quantities that are taken as given.

What is given becomes an input; everything else keeps its one definition, whose body is run again
over the part's own tables. So a small workbook of its own comes out, live and without a formula
that stands nowhere else.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from typing import Literal

from reportgen.algebra.book import Book, Key, dependencies
from reportgen.algebra.inputs import Input
from reportgen.algebra.tables import Definition, Table
from reportgen.trade import verdict
from reportgen.trade.tables import like

_GATHERED = {("checks", "failing"), ("checks", "first")}
"""What a book makes itself for its checks."""


@dataclass(frozen=True)
class Given(Input):
    """A quantity that is taken as given, shown as it is where it is worked out."""

    shown: str = ""

    @property
    def show(self) -> Literal["", "share", "count", "fine"]:
        """How a plain number is read."""
        return self.shown  # type: ignore[return-value]


def part_of(
    book: Book, wanted: Iterable[Key], given: Collection[Key], fixed: Collection[Key] = ()
) -> Book:
    """The part of a book that works out ``wanted`` from inputs and from what is ``given``; of
    that, ``fixed`` is not to be typed over.

    Every check that the part can judge comes with it, and the verdict over them.
    """
    needed = _needed(book, wanted, given)
    for check in book.checks:
        if check.table.single is False and _needed(book, [check.key], given) <= needed | {
            check.key
        }:
            needed.add(check.key)
    names = {table for table, _ in needed}
    tables = {
        name: _table(table, needed, given, fixed, names)
        for name, table in book.tables.items()
        if name in names
    }
    checks, typed = like(book.tables["checks"]), like(book.tables["typed"])
    season = tables.setdefault("season", Table.of("season", "the sheet", [], single=True))
    verdict.judge(checks, season, typed, tables.values())
    return Book([*tables.values(), checks, typed], checks)


def _needed(book: Book, wanted: Iterable[Key], given: Collection[Key]) -> set[Key]:
    """The quantities asked for, and all they rest on down to inputs and what is given."""
    found: set[Key] = set()
    waiting = list(wanted)
    while waiting:
        key = waiting.pop()
        if key in found or key in _GATHERED:
            continue
        found.add(key)
        definition = book.tables[key[0]].definitions.get(key[1])
        if definition is not None and key not in given:
            assert definition.tree is not None
            waiting += dependencies(definition.tree)
    return found


def _table(
    table: Table,
    needed: Collection[Key],
    given: Collection[Key],
    fixed: Collection[Key],
    tables: Collection[str],
) -> Table:
    inputs = [
        _within(each, tables) for each in table.inputs.values() if (table.name, each.name) in needed
    ]
    for each in table.definitions.values():
        if each.key in needed and each.key in given and each.name != "key":
            inputs.append(_given(each, each.key in fixed))
    made = Table.of(table.name, table.one, inputs, title=table.title, single=table.single)
    for each in table.definitions.values():
        if each.key in needed and each.key not in given and each.body is not None:
            own = replace(each, table=made, tree=None)
            made.definitions[each.name] = own
            if each.role == "link":
                made.links[each.name] = table.links[each.name]
    return made


def _within(found: Input, tables: Collection[str]) -> Input:
    """An input as it is; one that names a row of a table left out is a plain text."""
    return found if found.ref in tables else replace(found, ref=None)


def _given(definition: Definition, fixed: bool) -> Given:
    kind = definition.kind
    return Given(
        definition.name, kind.type, definition.doc, kind.unit, fixed=fixed, shown=kind.show,
        whole=kind.show == "count", share=kind.show == "share", head=definition.label,
        ours=kind.type == "text" and definition.role != "link",
    )  # fmt: skip
