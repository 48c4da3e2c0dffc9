"""The book of all tables: runs every definition once, checks units, sorts by dependencies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Literal

from reportgen.algebra.estimates import Mark, rests_on
from reportgen.algebra.expr import DefinitionError, Expr, Fixed, Where, convert
from reportgen.algebra.nodes import (
    Aggregate,
    Call,
    Column,
    Parent,
    PerRow,
    Rank,
    Rests,
    Single,
    replace,
    walk,
)
from reportgen.algebra.phrases import Phrase, phrase
from reportgen.algebra.reading import Read
from reportgen.algebra.tables import COUNT, FLAG, TEXT, Definition, Kind, Table
from reportgen.algebra.views import ChildColumn, Children, Link, SingleRow, default_of
from reportgen.units import ONE

Key = tuple[str, str]
_RESTS_ON = {"estimated": "estimates", "measured": "measurements"}


class Book:
    """All tables and definitions, ready to be rendered.

    ``order`` lists the definitions so that each comes after all it depends on. ``checks``: the
    table that gets a row for each check; those of ``first`` come before all others.
    """

    def __init__(self, tables: Iterable[Table], checks: Table, first: Table | None = None) -> None:
        self.tables = {table.name: table for table in tables}
        self.order: list[Definition] = []
        self._sorted: set[Key] = set()
        self.checks = [
            definition
            for table in sorted(self.tables.values(), key=lambda table: table is not first)
            for definition in table.definitions.values()
            if definition.role == "check"
        ]
        self._gather(checks)
        for table in self.tables.values():
            for definition in list(table.definitions.values()):
                self._run(definition)
        self._sort()

    def definition(self, table: str, name: str) -> Definition:
        """One definition; KeyError where there is none."""
        return self.tables[table].definitions[name]

    def __iter__(self) -> Iterator[Definition]:
        return iter(self.order)

    # --- running the bodies -------------------------------------------------------------------

    def _run(self, definition: Definition) -> None:
        if definition.body is None or definition.tree is not None:
            return
        where = f"{definition.table.name}.{definition.name}: "
        try:
            code = definition.body.__code__
            names = code.co_varnames[: code.co_argcount]
            tree = definition.body(**{n: self._parameter(definition, n) for n in names})
            if not isinstance(tree, Expr):
                raise DefinitionError("the body must return an expression")
            tree._fits("a result")
            definition.tree = self._fit(self._settle(tree), definition.kind)
        except DefinitionError as error:
            raise DefinitionError(where + str(error)) from None

    def _parameter(self, definition: Definition, name: str) -> object:
        table = definition.table
        if name == "key":
            return Column("text", ONE, table, "key")
        if name in table.links and name != definition.name:
            return Link("text", ONE, table, name, parent=self.tables[table.links[name]])
        if name in table.inputs or name in table.definitions:
            kind = table.kind_of(name)
            leaf = Single if table.single else Column
            return leaf(kind.type, kind.unit, table, name, default_of(table, name))
        if name in self.tables:
            other = self.tables[name]
            if other.single:
                return SingleRow(other)
            # A table that does not point here is read by a text in common, with same().
            points = table.name in other.links.values() and not table.single
            if not points:
                return Children(self, other, None)
            own = Column("text", ONE, table, "key")
            return Children(self, other, other.link_to(table), own)
        raise DefinitionError(f"no column, link or table is called {name}")

    def _gather(self, table: Table) -> None:
        """Give the table of checks, a row a check, its two columns: how often, and where first."""
        for name, op, kind, label, doc in (
            ("failing", "count", COUNT, "failing", "How many rows fail the check."),
            ("first", "first", TEXT, "first of them", "The first row that fails it."),
        ):
            parts = tuple(
                _rows_of(check, "count" if op == "count" else "first") for check in self.checks
            )
            tree = PerRow(kind.type, ONE, parts)
            table.definitions[name] = Definition(
                table, name, kind, doc, None, label, role="helper", tree=tree
            )

    def _settle(self, tree: Expr) -> Expr:
        """The tree with each ``on_estimates`` replaced by the column that answers it."""

        if not any(isinstance(node, Rests) for node in walk(tree)):
            return tree

        def answer(expr: Expr) -> Expr | None:
            if not isinstance(expr, Rests):
                return None
            return self.companion(expr.part.table, expr.part.name, expr.mark)

        return replace(tree, answer)

    @staticmethod
    def _fit(tree: Expr, kind: Kind) -> Expr:
        if kind.type == "number" and tree.type == "flag":
            return tree
        if tree.type != kind.type:
            raise DefinitionError(f"declared a {kind.type}, but the body gives a {tree.type}")
        return convert(tree, kind.unit, "the body's ")

    # --- columns that the algebra makes itself --------------------------------------------------

    def _helper(self, table: Table, name: str, kind: Kind, label: str, doc: str, tree: Expr) -> str:
        if name not in table.definitions:
            made = Definition(table, name, kind, doc, None, label, role="helper", tree=tree)
            table.definitions[name] = made
        return name

    def rank_of(self, column: ChildColumn) -> str:
        """The rank column of a child's column within its group."""
        child, link = column.rows.child, column.rows.link
        assert link is not None
        if column.name in child.inputs:
            # A sheet reads the blank cells of an input as 0; those of a formula it passes over.
            raise DefinitionError(f"{child.name}.{column.name} is an input: rank a quantity of it")
        label = Phrase.of(child.definitions[column.name].label)
        return self._helper(
            child, f"{column.name}_rank", COUNT, phrase("{label}: rank", label=label),
            phrase("Place of the {label} among those of the same {link}, from the lowest.",
                   label=label, link=Phrase(link)),
            Rank("number", ONE, child, link, column.name),
        )  # fmt: skip

    def middle_of(self, column: ChildColumn) -> str:
        """The flag column that tells the middle row, or the two, of each group."""
        child, link = column.rows.child, column.rows.link
        assert link is not None
        parent = self.tables[child.links[link]]
        rank = Column("number", ONE, child, self.rank_of(column))
        label = Phrase.of(child.definitions[column.name].label)
        rows = Phrase(child.title)
        counted = self._helper(
            parent,
            f"{column.name}_known",
            COUNT,
            phrase("{rows}: {label} known", rows=rows, label=label),
            phrase("How many {rows} have a {label}.", rows=rows, label=label),
            Aggregate("number", ONE, "count", child, link, None, own=column.rows.own)
            - Aggregate("number", ONE, "missing", child, link, column.name, own=column.rows.own),
        )
        of_all = Parent("number", ONE, child, link, parent, counted)
        distance = Call("number", ONE, "abs", (rank + rank - of_all - 1,))
        return self._helper(
            child, f"{column.name}_middle", FLAG, phrase("{label}: in the middle", label=label),
            phrase("Whether the {label} stands in the middle of those of the same {link}.",
                   label=label, link=Phrase(link)),
            distance <= 1,
        )  # fmt: skip

    def first_of(self, column: ChildColumn) -> str:
        """The flag column that tells the lowest row of each group."""
        child = column.rows.child
        rank = Column("number", ONE, child, self.rank_of(column))
        label = Phrase.of(child.definitions[column.name].label)
        return self._helper(
            child, f"{column.name}_lowest", FLAG, phrase("{label}: lowest", label=label),
            phrase("Whether the {label} is the lowest of its group.", label=label),
            rank <= 1,
        )  # fmt: skip

    def companion(self, table: Table, name: str, mark: Mark) -> Expr:
        """Whether a column rests on estimates (or on measurements): a column of its own, or the
        literal 0 or 1 where that is plain from the definition."""
        if name in table.inputs:
            about, measured = table.inputs[name].about, table.inputs[name].measured
            if about and mark == "estimated":
                return Column("flag", ONE, table, about, default_of(table, about))
            return Fixed("flag", ONE, int(measured == (mark == "measured")))
        if name not in table.definitions:
            return Fixed("flag", ONE, 0)
        column = f"{name}_{mark}"
        if column not in table.definitions:
            origin = table.definitions[name]
            self._run(origin)
            assert origin.tree is not None
            tree = rests_on(origin.tree, mark, self.companion)
            if isinstance(tree, Fixed | Column):
                return tree
            label, word = Phrase.of(origin.label), _RESTS_ON[mark]
            table.definitions[column] = Definition(
                table, column, FLAG, phrase(f"Whether the {{label}} rests on {word}.", label=label),
                None, phrase(f"{{label}}: {mark}", label=label), role=mark, tree=tree,
            )  # fmt: skip
        return Column("flag", ONE, table, column)

    # --- sorting --------------------------------------------------------------------

    def _sort(self) -> None:
        for table in self.tables.values():
            for definition in list(table.definitions.values()):
                self._place(definition, [])

    def ensure(self, definition: Definition) -> None:
        """Add a definition made after loading (a companion) and all it needs to the order."""
        self._place(definition, [])

    def _place(self, definition: Definition, path: list[Key]) -> None:
        if definition.key in self._sorted:
            return
        if definition.key in path:
            loop = [*path[path.index(definition.key) :], definition.key]
            names = " → ".join(".".join(key) for key in loop)
            raise DefinitionError(f"these quantities depend on each other in a loop: {names}")
        self._run(definition)
        assert definition.tree is not None
        for table, name in dependencies(definition.tree):
            needed = self.tables[table].definitions.get(name)
            if needed is not None:
                self._place(needed, [*path, definition.key])
        self._sorted.add(definition.key)
        self.order.append(definition)


def _rows_of(check: Definition, op: Literal["count", "first"]) -> Expr:
    """How many rows of its table fail a check, or the first that does."""
    table, name = check.table, check.name
    if table.single:
        failed = Single("flag", ONE, table, name)
        if op == "count":
            return Where("number", ONE, failed, Fixed("number", ONE, 1), Fixed("number", ONE, 0))
        return Fixed("text", ONE, "")
    if op == "count":
        return Aggregate("number", ONE, "count", table, None, None, (name,))
    return Aggregate("text", ONE, "first", table, None, name, of=check.names)


def dependencies(tree: Expr) -> list[Key]:
    """The columns an expression reads, links and filters included."""
    return list(dict.fromkeys((read.table.name, read.name) for read in reads_of(tree)))


@lru_cache(maxsize=1 << 14)
def reads_of(tree: Expr) -> tuple[Read, ...]:
    """What an expression and all it is made of read, in order; a column that several read, each
    time."""
    return tuple(read for node in walk(tree) for read in node.reads())
