"""Totals that cost their own length: columns that run along the rows of a group.

The rows of one parent usually stand together. Then a column on their own sheet adds each row to the
one below it while both belong to the same group, so that the first row of such a block holds the
total of the block; the parent finds the place of that row once and reads whatever it needs from
there. Only a parent whose rows stand apart adds them up the long way, over all rows.

Which groups are worth their columns is seen in the season: those with many blocks. Nothing here
changes what a total is; it is only how a workbook comes to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from reportgen.algebra import order, standing, stood
from reportgen.algebra.blocks import Group, Helper, Kind
from reportgen.algebra.book import reads_of
from reportgen.algebra.nodes import Aggregate, Rank, walk
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.operations import Value, folded, num
from reportgen.algebra.places import OWN_ROW, locator
from reportgen.algebra.reading import Read
from reportgen.algebra.tables import Table

MANY = 50
"""Blocks of a group, or rows that are ranked, from which on their columns are worth their room."""
VAIN = 10
"""How many times that many rows make it worth that most of them have none to total."""


class Running:
    """The running columns of one workbook: which there are, and what stands in them."""

    def __init__(self, numbers: Numbers, many: int = MANY) -> None:
        self._numbers = numbers
        self._groups: dict[tuple[str, str, bool], Group | None] = {}
        self.helpers: dict[tuple[str, str], Helper] = {}
        self._links: set[tuple[str, str]] = set()
        self._many = many
        for definition in numbers.book.order:
            assert definition.tree is not None
            for node in walk(definition.tree):
                if isinstance(node, Aggregate) and self.group(node) is not None:
                    self._need(node)
                if isinstance(node, Rank) and numbers.rows(node.table) >= many:
                    self._add(*order.helpers(node))
            for read in reads_of(definition.tree):
                self._name(read)

    def _name(self, read: Read) -> None:
        """The place that a link names is kept where many rows would look for it."""
        table, link = read.table, read.name
        if read.located and (table.name, link) not in self._links:
            self._links.add((table.name, link))
            ids, places = self._numbers.cells[table.name][link], self._numbers.found(table, link)
            if standing.searches(ids, places) >= self._many:
                group = Group(table, link, linked=True)
                self._add(Helper(stood.named(link), table, "named", group))

    def names(self, table: Table, link: str) -> bool:
        """Whether each row keeps the place of the row that its link named."""
        return (table.name, stood.named(link)) in self.helpers

    def group(self, expr: Aggregate) -> Group | None:
        """The group of a total, where it has running columns."""
        if expr.link is None or expr.own is None or expr.own.table.single:
            return None
        if expr.op not in ("total", "known", "count", "missing") or expr.bound is not None:
            return None
        at = (expr.child.name, expr.link, expr.linked)
        if at not in self._groups:
            found = Group(expr.child, expr.link, expr.linked)
            self._groups[at] = found if self._worth(found) else None
        return self._groups[at]

    def _worth(self, group: Group) -> bool:
        """Whether many groups have all their rows in one block; or few have rows at all, most of
        them in one block, where very many would look for theirs in vain."""
        begun: dict[Value, int] = {}
        for before, own in pairwise([None, *self._keys(group)]):
            if own is not None and own != before:
                begun[own] = begun.get(own, 0) + 1
        together = sum(1 for times in begun.values() if times == 1)
        if not group.linked or together >= self._many:
            return together >= self._many
        owner = self._numbers.book.tables[group.child.links[group.link]]
        if self._numbers.rows(group.child) < 2:
            # A range of one cell is an error in some suites, and as quick as any.
            return False
        return 2 * together >= len(begun) and self._numbers.rows(owner) >= VAIN * self._many

    def _need(self, expr: Aggregate) -> None:
        group, own = self.group(expr), expr.own
        assert group is not None and own is not None
        child, owner = group.child, own.table
        # Left to right as each needs those before it.
        self._add(Helper(f"{group.link}_rows", child, "rows", group))
        kinds = _KINDS[expr.op]
        if expr.op == "total" and not self._numbers.guards.needs(expr):
            kinds = kinds[:1]
        for kind in kinds:
            if kind != "count" or expr.filters:
                named = None if kind == "count" else expr.name
                name = group.helper(expr, kind)
                self._add(Helper(name, child, kind, group, None, named, expr.filters))
        if not group.linked and group.own != group.link:
            self._add(Helper(group.own, child, "own", group))
        self._add(Helper(f"{group.link}_apart", child, "apart", group, owner))
        if not self._itself(group, expr) and not group.names_place(owner, own.name):
            first = Helper(group.of(owner, "first"), owner, "first", group, owner, own.name)
            if (owner.name, first.name) not in self.helpers and self._searches(first):
                self._add(*stood.helpers(group, owner, own.name))
            self._add(first)
        self._add(Helper(group.of(owner, "from"), owner, "from", group, owner, own.name))

    def _searches(self, first: Helper) -> bool:
        """Whether many rows would look for theirs among all, and what is kept saves that."""
        owner, column = first.owner, first.column
        if owner is None or column is None or not stood.may(first.group, owner, column):
            return False
        found = standing.found(self._owns(first), self._keys(first.group), guessing=True)
        return sum(1 for each in found if each.searched) >= self._many

    def keeps(self, group: Group, owner: Table) -> bool:
        """Whether each row of who totals keeps where its rows stood."""
        return (owner.name, group.of(owner, "stood")) in self.helpers

    @staticmethod
    def _itself(group: Group, expr: Aggregate) -> bool:
        """Whether the rows total their own group."""
        own = expr.own
        return own is not None and (own.table.name, own.name) == (group.child.name, group.link)

    def _add(self, *helpers: Helper) -> None:
        for helper in helpers:
            self.helpers.setdefault((helper.table.name, helper.name), helper)

    def of(self, table: str) -> list[str]:
        """The names of a table's helpers, those that run side by side."""
        mine = [each for (name, _), each in self.helpers.items() if name == table]
        return [each.name for each in sorted(mine, key=lambda each: _ORDER.index(each.kind))]

    def reads(self, table: str, name: str) -> Iterator[tuple[str, str]]:
        """What a helper's formula reads, or that of a quantity for the totals in it."""
        if (table, name) in self.helpers:
            yield from self._read_by(self.helpers[table, name])
            return
        for link in self._numbers.book.tables[table].links:
            if locator(link) == name and self.names(self._numbers.book.tables[table], link):
                yield table, stood.named(link)
        definition = self._numbers.book.tables[table].definitions.get(name)
        for node in () if definition is None or definition.tree is None else walk(definition.tree):
            if isinstance(node, Rank) and self.ranked(node):
                yield from ((table, order.name(node, kind)) for kind in ("was", "moved"))
            group = self.group(node) if isinstance(node, Aggregate) else None
            if group is None or not isinstance(node, Aggregate) or node.own is None:
                continue
            yield node.own.table.name, group.of(node.own.table, "from")
            for kind in ("rows", *_KINDS[node.op]):
                helper = f"{group.link}_rows" if kind == "rows" else group.helper(node, kind)
                if (group.child.name, helper) in self.helpers:
                    yield group.child.name, helper

    def ranked(self, expr: Rank) -> bool:
        """Whether the order is kept in which rows stood."""
        return (expr.table.name, order.name(expr, "moved")) in self.helpers

    def _read_by(self, helper: Helper) -> Iterator[tuple[str, str]]:
        if helper.ranks is not None:
            for each in order.reads(helper.ranks, helper.kind):
                yield helper.table.name, each
            return
        if helper.kind in stood.KINDS:
            yield from stood.reads(helper)
            return
        group, owner, child = helper.group, helper.owner, helper.group.child.name
        yield child, group.key
        if helper.kind == "apart" and not group.linked:
            yield child, group.own
        yield from ((child, name) for name in helper.filters)
        if helper.runs and helper.column is not None:
            yield child, helper.column
        if owner is None:
            return
        if helper.kind in ("first", "from"):
            yield owner.name, "key"
            yield owner.name, OWN_ROW if group.linked else str(helper.column)
            yield child, f"{group.link}_rows"
        if helper.kind == "first" and self.keeps(group, owner):
            yield owner.name, group.of(owner, "stood")
            yield child, stood.told(group, owner)
        if helper.kind != "first" and (owner.name, group.of(owner, "first")) in self.helpers:
            yield owner.name, group.of(owner, "first")
        elif helper.kind == "from":
            yield child, group.own
        if helper.kind == "from":
            yield child, f"{group.link}_apart"

    # --- what stands in them -------------------------------------------------------------------

    def _keys(self, group: Group) -> list[Value]:
        """What tells each row's group; none where it belongs to none."""
        if group.linked:
            rows = self._numbers.found(group.child, group.link)
            return [None if row is None else row + 1 for row in rows]
        return [folded(each) for each in self._numbers.cells[group.child.name][group.link]]

    def values(self, helper: Helper) -> list[Value]:
        """A helper's column."""
        if helper.ranks is not None:
            return order.values(helper.ranks, helper.kind, self._numbers)
        keys = self._keys(helper.group)
        match helper.kind:
            case "named":
                return keys
            case "own":
                first = {key: row for row, key in reversed(list(enumerate(keys, 1)))}
                return [None if key is None else first[key] for key in keys]
            case "apart":
                return self._apart(helper.group, keys)
            case "stood":
                places = standing.found(self._owns(helper), keys, guessing=False)
                return [each.first or 0 for each in places]
            case "strange":
                return [None if key is None else 0 for key in keys]
            case "first" | "from":
                return self._of_owner(helper, keys)
        cells = self._numbers.cells[helper.table.name]
        column = cells[helper.column] if helper.column else [None] * len(keys)
        flags = [cells[name] for name in helper.filters]
        found: list[Value] = [None] * len(keys)
        for row in reversed(range(len(keys))):
            if keys[row] is None:
                continue
            taken = all(flag[row] for flag in flags)
            match helper.kind:
                case "sum":
                    value: float = num(column[row]) if taken and column[row] is not None else 0
                case "missing":
                    value = int(taken and column[row] is None)
                case _:
                    value = int(taken)
            goes_on = row + 1 < len(keys) and keys[row + 1] == keys[row]
            found[row] = value + (num(found[row + 1]) if goes_on else 0)
        return found

    def closing(self, helper: Helper) -> Value:
        """What stands below the last row: how many blocks stand apart; that the column is whole."""
        if helper.kind not in ("apart", "strange"):
            return 0
        return sum(num(value) for value in self.values(helper) if value is not None)

    def _apart(self, group: Group, keys: Sequence[Value]) -> list[Value]:
        first = self._firsts(group, keys)
        found: list[Value] = []
        for row, (before, key) in enumerate(pairwise([None, *keys])):
            begins = key is not None and key != before
            found.append(None if key is None else int(begins and first.get(key) != row + 1))
        return found

    def _firsts(self, group: Group, keys: Sequence[Value]) -> dict[Value, int]:
        """The place at which the block of each group begins, of several the one that is found."""
        found: dict[Value, int] = {}
        for row, key in enumerate(keys, 1):
            if key is not None:
                found.setdefault(key, row)
        if group.linked:
            helpers = (each for each in self.helpers.values() if each.kind == "first")
            helper = next(each for each in helpers if each.group is group)
            firsts = self._of_owner(helper, keys)
            found = {n: int(num(first)) for n, first in enumerate(firsts, 1) if first is not None}
        return found

    def _of_owner(self, helper: Helper, keys: Sequence[Value]) -> list[Value]:
        group, owner = helper.group, helper.owner
        assert owner is not None
        guessing = (owner.name, group.of(owner, "first")) in self.helpers
        guessing = guessing and not self.keeps(group, owner)
        found = standing.found(self._owns(helper), keys, guessing)
        return [each.first if helper.kind == "first" else each.read_from for each in found]

    def _owns(self, helper: Helper) -> Sequence[Value]:
        """By what the rows know each row of who totals."""
        assert helper.owner is not None and helper.column is not None
        if helper.group.linked:
            return range(1, self._numbers.rows(helper.owner) + 1)
        return [folded(each) for each in self._numbers.cells[helper.owner.name][helper.column]]


_KINDS: Mapping[str, Sequence[Kind]] = {
    "total": ("sum", "missing"), "known": ("sum",), "count": ("count",), "missing": ("missing",),
}  # fmt: skip
"""The running columns that a total needs."""
_ORDER: Sequence[Kind] = (
    "rows", "sum", "missing", "count", "own", *stood.KINDS, "first", "apart", "from",
    *order.KINDS,
)  # fmt: skip
"""Left to right: what a column needs on its own sheet stands before it."""
