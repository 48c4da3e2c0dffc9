"""The first renderer: from a book and a season's inputs to the value of every quantity.

Each tree becomes a function of the row's number; ``None`` is unknown. The operations and their
order are those of the formula renderer, so that both agree to the last digits.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportgen.algebra import operations
from reportgen.algebra.book import Book
from reportgen.algebra.expr import (
    Arithmetic,
    Compare,
    Convert,
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Logic,
    Unknown,
    Where,
)
from reportgen.algebra.factors import conversion
from reportgen.algebra.guards import guards_of
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Broken,
    Call,
    Column,
    Constant,
    Find,
    Join,
    Known,
    OwnPlace,
    Parent,
    PerRow,
    Plain,
    Rank,
    RoundUp,
    Single,
    Strays,
    Until,
)
from reportgen.algebra.operations import Rule, Value
from reportgen.algebra.phrases import Say
from reportgen.algebra.tables import SMALLEST, Definition, Table

Cells = dict[str, list[Value]]


class Numbers:
    """Columns of values by table and name; inputs at first, then every quantity as it is asked.

    ``inputs``: table → column → values, with ``key`` among the columns unless it is derived;
    ``slots``: what the units' slots stand for.
    """

    def __init__(
        self,
        book: Book,
        inputs: Mapping[str, Mapping[str, Sequence[Value]]],
        slots: Mapping[str, str],
    ) -> None:
        self.book = book
        self.slots = slots
        self.cells: dict[str, Cells] = {
            table: {
                name: list(map(operations.blank_is_none, values))
                for name, values in columns.items()
            }
            for table, columns in inputs.items()
        }
        self.guards = guards_of(book)
        self.say: Say = str
        """The language of fixed texts; see ``language.py``."""
        self._groups: dict[tuple[str, str], dict[str, list[int]]] = {}
        self._found: dict[tuple[str, str], list[int | None]] = {}
        for definition in book.order:
            self.compute(definition)
        # Much memory where rows are many, and few ask again: they make them anew.
        self._groups.clear()
        self._found.clear()

    def compute(self, definition: Definition) -> list[Value]:
        """The column of one definition, computed if it is not there yet."""
        cells = self.cells[definition.table.name]
        if definition.name not in cells:
            assert definition.tree is not None
            rows = range(self.rows(definition.table))
            # A season has rows in few tables.
            rule = self.rule(definition.tree) if rows else operations.always(None)
            if definition.kind.type in ("number", "date"):
                cells[definition.name] = [operations.as_number(rule(i)) for i in rows]
            else:
                cells[definition.name] = [operations.blank_is_none(rule(i)) for i in rows]
        return cells[definition.name]

    def rows(self, table: Table) -> int:
        """How many rows a table has."""
        if table.single:
            return 1
        columns = self.cells[table.name]
        return len(next(iter(columns.values()))) if columns else 0

    def value(self, table: str, name: str, row: int = 0) -> Value:
        """One cell."""
        return self.cells[table][name][row]

    # --- from tree to function ------------------------------------------------------

    def rule(self, expr: Expr) -> Rule:
        """The function that gives an expression's value in a row."""
        match expr:  # the commonest kinds first: they are asked one after the other
            case Column():
                column = self._column(expr.table, expr.name, expr.default)
                return column.__getitem__
            case Arithmetic():
                return self._arithmetic(expr)
            case Aggregate():
                return self._aggregate(expr)
            case Fixed():
                return self._fixed(expr)
            case Where():
                test, then, otherwise = map(self.rule, (expr.condition, expr.then, expr.otherwise))

                def choose(i: int) -> Value:
                    holds = test(i)
                    return None if holds is None else then(i) if holds else otherwise(i)

                return choose
            case Parent():
                return self._parent(expr)
            case Strays():
                return operations.always(0 if expr.type == "number" else None)
            case Compare():
                return self._compare(expr)
            case Logic():
                return operations.logic(expr.op, tuple(map(self.rule, expr.parts)))
            case Single():
                single = self._column(expr.table, expr.name, expr.default)
                return lambda i: single[0]
            case FirstKnown():
                options = tuple(map(self.rule, expr.options))
                return lambda i: next((v for o in options if (v := o(i)) is not None), None)
            case Known():
                part = self.rule(expr.part)
                return lambda i: part(i) is not None
            case Constant():
                number = expr.value
                return lambda i: number
            case Unknown():
                return lambda i: None
            case Convert():
                return self._convert(expr)
            case Join():
                pieces = expr.pieces(self.say)
                return operations.joined(
                    tuple(
                        operations.always(p) if isinstance(p, str) else self.rule(p) for p in pieces
                    )
                )
            case Call():
                return operations.call(expr.op, tuple(map(self.rule, expr.parts)))
            case Broken():
                return lambda i: False
            case PerRow():
                rules = tuple(map(self.rule, expr.parts))
                return lambda i: rules[i](i)
            case Ahead():
                added, order = (self.cells[expr.table.name][n] for n in (expr.name, expr.order))
                groups = self.group(expr.table, expr.link).values()
                return operations.ahead(added, order, groups)
            case Until():
                cells = self.cells[expr.table.name]
                times = None if expr.name is None else cells[expr.name]
                own = self.rule(expr.own)
                return operations.until(cells[expr.begin], cells[expr.end], times, own)
            case OwnPlace():
                here = self.cells[expr.table.name][expr.name]
                return lambda i: None if here[i] is None else here[i] == i + 1
            case Rank():
                ranked = self.cells[expr.table.name][expr.name]
                groups = self.group(expr.table, expr.link).values()
                return operations.rank(ranked, groups, expr.highest)
            case Find():
                return self._find(expr)
            case RoundUp():
                ratio = self._quotient(expr.value, expr.step)
                return operations.rounded_up(ratio, self.rule(expr.step))
            case Estimate():
                return self.rule(expr.part)
            case Plain():
                shown, places = self.rule(expr.part), operations.num(self.rule(expr.places)(0))
                return lambda i: None if (v := shown(i)) is None else operations.as_text(v, places)
        raise DefinitionError(f"numbers: no rule for {type(expr).__name__}")

    def _fixed(self, expr: Fixed) -> Rule:
        if isinstance(expr.value, str):
            return operations.always(self.say(expr.value))
        return operations.always(bool(expr.value) if expr.type == "flag" else expr.value)

    def _column(self, table: Table, name: str, default: int | None) -> list[Value]:
        column = self.cells[table.name][name]
        return column if default is None else [default if v is None else v for v in column]

    def _parent(self, expr: Parent) -> Rule:
        where = self.found(expr.table, expr.link)
        column = self._column(expr.parent, expr.name, expr.default)

        def read(i: int) -> Value:
            row = where[i]
            return None if row is None else column[row]

        return read

    def found(self, table: Table, link: str) -> list[int | None]:
        """For each row of a table, the number of the parent's row that its link points to."""
        at = (table.name, link)
        if at not in self._found:
            parent = self.cells[table.links[link]]["key"]
            rows = {str(key).casefold(): n for n, key in reversed(list(enumerate(parent))) if key}
            ids = self.cells[table.name][link]
            self._found[at] = [rows.get(str(each).casefold()) if each else None for each in ids]
        return self._found[at]

    def group(self, child: Table, link: str) -> dict[str, list[int]]:
        """The rows of a child table by the id in their link."""
        at = (child.name, link)
        if at not in self._groups:
            groups: dict[str, list[int]] = {}
            for row, each in enumerate(self.cells[child.name][link]):
                if each:
                    groups.setdefault(str(each).casefold(), []).append(row)
            self._groups[at] = groups
        return self._groups[at]

    def _aggregate(self, expr: Aggregate) -> Rule:
        cells = self.cells[expr.child.name]
        column = cells[expr.name] if expr.name else []
        if expr.op == "first":
            texts = cells[expr.of]
            first = next((texts[r] for r, fails in enumerate(column) if fails), None)
            return lambda i: first
        filters = [cells[name] for name in expr.filters]
        fold = operations.fold(expr, column)

        def kept(rows: Sequence[int]) -> Sequence[int]:
            return [r for r in rows if all(f[r] for f in filters)] if filters else rows

        if expr.link is None:
            everything: list[Value] = [fold(kept(range(self.rows(expr.child))))]
            return lambda i: everything[0]
        groups = self.group(expr.child, expr.link)
        assert expr.own is not None
        owns = self.cells[expr.own.table.name][expr.own.name]
        named = ["" if own is None else str(own).casefold() for own in owns]
        if expr.bound is not None and expr.under is not None:
            blank, bound = expr.under in expr.child.inputs, self.rule(expr.bound)
            earlier = operations.before(cells[expr.under], bound, fold, blank)
            return lambda i: earlier(i, kept(groups.get(named[i], ())))
        return lambda i: fold(kept(groups.get(named[i], ())))

    def _find(self, expr: Find) -> Rule:
        keys, column = self.cells[expr.table.name]["key"], self.cells[expr.table.name][expr.name]
        told = range(1, len(keys) + 1) if expr.type == "number" else keys
        first = dict(zip(map(operations.folded, reversed(column)), reversed(told), strict=True))
        own = self.rule(expr.own)
        return lambda i: None if (value := own(i)) is None else first.get(operations.folded(value))

    def _arithmetic(self, expr: Arithmetic) -> Rule:
        if expr.op == "/":
            return self._quotient(expr.left, expr.right)
        return operations.arithmetic(expr.op, self.rule(expr.left), self.rule(expr.right))

    def _quotient(self, left: Expr, right: Expr) -> Rule:
        smallest = 0.0 if self.guards.exact(right) else SMALLEST.value
        return operations.quotient(self.rule(left), self.rule(right), smallest)

    def _compare(self, expr: Compare) -> Rule:
        left, right = self.rule(expr.left), self.rule(expr.right)
        if expr.left.type != "text":
            return operations.comparison(expr.op, left, right)
        parents = [each for each in (expr.left, expr.right) if isinstance(each, Parent)]
        rows = [self.found(each.table, each.link) for each in parents]
        return operations.alike(left, right, expr.op == "=", rows)

    def _convert(self, expr: Convert) -> Rule:
        part = self.rule(expr.part)
        factor = conversion(expr.part.unit, expr.unit, self.slots)
        if factor is None:
            return part
        return operations.scaled(part, float(factor.value), factor.divide)


__all__ = ["Cells", "Numbers", "Value"]
