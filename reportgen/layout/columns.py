"""Which columns a table has on each sheet, and in which order.

LibreOffice works columns out in groups, several at a time. A column that reads another sheet's,
which leads back to a column further right of its own, is worked out wrong there, in the first row.
So no column does: it stands further right than all that it rests on by way of another sheet, and
where the reader wants it, it is only repeated.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from graphlib import TopologicalSorter

from reportgen.algebra.book import Book, Key, reads_of
from reportgen.algebra.expr import DefinitionError
from reportgen.algebra.places import OWN_ROW, locator
from reportgen.algebra.running import Running
from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock

BEHIND, CHECKS, REPEATED = "Behind the figures", "Checks", "Repeated from other sheets"
FURTHER = "Further inputs"

At = tuple[str, int]
"""A sheet's name and a block's number on it."""
Stand = tuple[str, str, str]
"""A sheet, and the table and name of what stands on it."""


@dataclass(frozen=True)
class Columns:
    """The columns of every table block, and what of them is named by some block."""

    groups: dict[At, tuple[Group, ...]]
    named: frozenset[Key]


def columns_of(book: Book, sheets: Sequence[Sheet], running: Running | None = None) -> Columns:
    """Every table block's columns, in an order that every program works out alike.

    A sheet where a table has more than one home is refused: a row's own number has one there.
    """
    for sheet in sheets:
        _once(sheet)
    named = frozenset(_named(sheets))
    links = _located(book)
    parents = {book.tables[table].links[link] for table, link in links}
    groups = {
        (sheet.name, number): _groups(block, named, links, parents, running)
        for sheet in sheets
        for number, block in enumerate(sheet.blocks)
        if isinstance(block, TableBlock)
    }
    return Columns(_Order(book, sheets, groups, running).settled(), named)


def _once(sheet: Sheet) -> None:
    homes: dict[str, TableBlock] = {}
    for block in sheet.blocks:
        if isinstance(block, TableBlock) and not block.echoes:
            first = homes.setdefault(block.table.name, block)
            if first is not block:
                raise DefinitionError(
                    f"sheet {sheet.name}: its tables {first.name!r} and {block.name!r} both hold "
                    f"{block.table.title}; put one on another sheet, or only repeat its columns"
                )


def _named(sheets: Sequence[Sheet]) -> Iterator[Key]:
    for block in (block for sheet in sheets for block in sheet.blocks):
        if isinstance(block, TableBlock):
            for group in block.groups:
                yield from ((block.table.name, name) for name in group.names if not group.echo)
        elif isinstance(block, ListBlock):
            yield from ((table.name, name) for table, names in block.items for name in names)


def _located(book: Book) -> set[Key]:
    """The links by which some formula reads a parent or adds up children."""
    trees = (each.tree for each in book.order if each.tree is not None)
    reads = (read for tree in trees for read in reads_of(tree) if read.located)
    return {(read.table.name, read.name) for read in reads}


def _groups(
    block: TableBlock,
    named: frozenset[Key],
    links: set[Key],
    parents: set[str],
    running: Running | None,
) -> tuple[Group, ...]:
    """The block's columns: the key, what the sheet names, and the rest with what they need."""
    ids = [Group("", ("key",), echo=not block.keys)] if block.ids else []
    unseen = [] if block.ids else ["key"]
    # What is printed stands together, so that it is one range of columns.
    groups = [*ids, *sorted(block.groups, key=lambda group: not group.printed)]
    if not block.rest:
        return tuple(groups)
    table = block.table
    unnamed = [n for n in table.inputs if (table.name, n) not in named]
    # What the program fills in is nothing to type.
    ours = [n for n in unnamed if table.inputs[n].fixed]
    rest = [n for n in unnamed if not table.inputs[n].fixed]
    others = [d for d in table.definitions.values() if (table.name, d.name) not in named]
    others = [d for d in others if d.name != "key" and d.role != "measured"]
    locators = [locator(link) for link in table.links if (table.name, link) in links]
    if table.name in parents:
        locators.append(OWN_ROW)
    if running is not None:
        locators += running.of(table.name)
    for heading, names in (
        (FURTHER, rest),
        (BEHIND, [*unseen, *ours, *(d.name for d in others if d.role != "check"), *locators]),
        (CHECKS, [d.name for d in others if d.role == "check"]),
    ):
        if names:
            groups.append(Group(heading, tuple(names), printed=False))
    return tuple(groups)


class _Order:
    """What every column rests on, as bits: quick where there are a thousand of them."""

    def __init__(
        self,
        book: Book,
        sheets: Sequence[Sheet],
        groups: dict[At, tuple[Group, ...]],
        running: Running | None,
    ) -> None:
        self.book, self.groups, self.running = book, groups, running
        self.tables = {
            (sheet.name, number): block.table.name
            for sheet in sheets
            for number, block in enumerate(sheet.blocks)
            if isinstance(block, TableBlock)
        }
        self.homes: dict[Key, Stand] = {}
        self.echoes: dict[Stand, bool] = {}
        """What stands in a column → whether it is only repeated there."""
        for (sheet, number), found in groups.items():
            table = self.tables[sheet, number]
            for name, echo in ((name, group.echo) for group in found for name in group.names):
                stand = (sheet, table, name)
                self.echoes[stand] = echo and self.echoes.get(stand, True)
                if not echo:
                    self.homes.setdefault((table, name), stand)
        for sheet_, key in _listed(sheets):
            self.homes.setdefault(key, (sheet_, *key))
        stands = dict.fromkeys((*self.homes.values(), *self.echoes))
        self.reads = {stand: list(dict.fromkeys(self._reads(stand))) for stand in stands}
        order = list(TopologicalSorter(self.reads).static_order())
        self.ranks = {stand: rank for rank, stand in enumerate(order)}
        self.leads: dict[Stand, int] = {}
        """Stand → it and all that it rests on, a bit each."""
        for stand in order:
            self.leads[stand] = 1 << self.ranks[stand]
            for each in self.reads[stand]:
                self.leads[stand] |= self.leads[each]

    def _reads(self, stand: Stand) -> Iterator[Stand]:
        sheet, table, name = stand
        if self.echoes.get(stand):
            yield self.homes[table, name]
            return
        keys = [*_read_by(self.book, table, name)]
        keys += [] if self.running is None else self.running.reads(table, name)
        for key in keys:
            here = (sheet, *key)
            if here in self.echoes:
                yield here
            elif key in self.homes:
                yield self.homes[key]

    def settled(self) -> dict[At, tuple[Group, ...]]:
        """The groups, with what read back to its own right moved there."""
        for at, groups in self.groups.items():
            self.groups[at] = tuple(
                replace(each, names=self._sorted(at, each.names))
                if each.heading in (BEHIND, CHECKS)
                else each
                for each in groups
            )
        while wrong := self._wrong():
            for at, names in wrong.items():
                self.groups[at] = self._moved(at, names)
        return self.groups

    def _sorted(self, at: At, names: Iterable[str]) -> tuple[str, ...]:
        """Each after all that it rests on."""
        return tuple(sorted(names, key=lambda name: self.ranks[at[0], self.tables[at], name]))

    def _wrong(self) -> dict[At, list[str]]:
        """The columns that read another sheet's which leads back to their right, and can move."""
        places: dict[str, list[tuple[int, Stand, At | None]]] = {}
        for at, groups in self.groups.items():
            names = [(n, g) for g in groups for n in g.names]
            for column, (name, group) in enumerate(names):
                stand = (at[0], self.tables[at], name)
                if name not in group.mirrored:
                    # What is behind the others already has nowhere to go.
                    may_move = group.heading not in (BEHIND, CHECKS, REPEATED)
                    places.setdefault(at[0], []).append((column, stand, at if may_move else None))
        wrong: dict[At, list[str]] = {}
        for sheet, there in places.items():
            here = dict.fromkeys((column for column, _, _ in there), 0)
            for column, stand, _ in there:
                here[column] |= 1 << self.ranks[stand]
            right, beyond = {}, 0
            for column in sorted(here, reverse=True):
                right[column] = beyond
                beyond |= here[column]
            for column, stand, block in there:
                away = [each for each in self.reads[stand] if each[0] != sheet]
                if block is not None and any(self.leads[each] & right[column] for each in away):
                    wrong.setdefault(block, []).append(stand[2])
        return wrong

    def _moved(self, at: At, wrong: Iterable[str]) -> tuple[Group, ...]:
        """The columns with those that are wrong behind the others, repeated in their place."""
        made: list[Group] = []
        own: list[str] = []
        echoes: list[str] = []
        for group in self.groups[at]:
            here = [name for name in group.names if name in wrong and name not in group.mirrored]
            (echoes if group.echo else own).extend(here)
            made.append(replace(group, mirrored=group.mirrored | set(here)))
        return tuple(self._behind(at, made, own, echoes))

    def _behind(
        self, at: At, groups: list[Group], own: list[str], echoes: list[str]
    ) -> Iterator[Group]:
        """With so many more columns in the group behind the others."""
        old = [name for group in groups if group.heading == BEHIND for name in group.names]
        more = Group(BEHIND, self._sorted(at, [*old, *own]), printed=False)
        for group in groups:
            if group.heading == CHECKS and more.names:
                yield more
                more = replace(more, names=())
            if group.heading != BEHIND or group.echo:
                yield group
        if more.names:
            yield more
        if echoes:
            yield Group(REPEATED, tuple(echoes), echo=True, printed=False)


def _listed(sheets: Sequence[Sheet]) -> Iterator[tuple[str, Key]]:
    """The single figures, and the sheets they stand on: those first that a list names."""
    lists = [(s.name, b) for s in sheets for b in s.blocks if isinstance(b, ListBlock)]
    for sheet, block in lists:
        yield from ((sheet, (table.name, name)) for table, names in block.items for name in names)
    for sheet, block in lists:
        if block.rest:
            for table, _ in block.items:
                names = (*table.inputs, *table.definitions)
                yield from ((sheet, (table.name, name)) for name in names)


def _read_by(book: Book, table: str, name: str) -> Iterator[Key]:
    """The columns that a column's formula reads, those among them that find rows."""
    links = book.tables[table].links
    if name == OWN_ROW:
        yield table, "key"
    elif name in (found := {locator(link): link for link in links}):
        yield table, found[name]
        yield links[found[name]], "key"
    elif name in book.tables[table].definitions:
        tree = book.tables[table].definitions[name].tree
        if not book.tables[table].single and name != "key":
            yield table, "key"
        for read in () if tree is None else reads_of(tree):
            if not read.located:
                yield read.table.name, read.name
                continue
            yield read.table.name, locator(read.name)
            if read.rows == "children":
                yield read.table.links[read.name], OWN_ROW
