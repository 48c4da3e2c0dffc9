"""The first renderer: from a book and a season's inputs to the value of every quantity.

Each tree becomes a function of the row's number; ``None`` is unknown. The operations and their
order are those of the formula renderer, so that both agree to the last digits.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from math import ceil, sqrt

from reportgen.algebra.book import Book
from reportgen.algebra.expr import (
    Aggregate,
    Arithmetic,
    Call,
    Column,
    Compare,
    Constant,
    Convert,
    DefinitionError,
    Estimate,
    Expr,
    FirstKnown,
    Fixed,
    Join,
    Known,
    Logic,
    Parent,
    PerRow,
    Rank,
    RoundUp,
    Single,
    Unknown,
    Where,
)
from reportgen.algebra.factors import Factor, conversion
from reportgen.algebra.guards import Guards
from reportgen.algebra.tables import PLACES, SMALLEST, Definition, Table

Value = float | str | bool | None
Cells = dict[str, list[Value]]
Rule = Callable[[int], Value]

_ARITHMETIC: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


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
            table: {name: list(map(_blank_is_none, values)) for name, values in columns.items()}
            for table, columns in inputs.items()
        }
        self.guards = Guards(book)
        self._groups: dict[tuple[str, str], dict[str, list[int]]] = {}
        self._found: dict[tuple[str, str], list[int | None]] = {}
        for definition in book.order:
            self.compute(definition)

    def compute(self, definition: Definition) -> list[Value]:
        """The column of one definition, computed if it is not there yet."""
        cells = self.cells[definition.table.name]
        if definition.name not in cells:
            assert definition.tree is not None
            rule = self.rule(definition.tree)
            rows = range(self.rows(definition.table))
            if definition.kind.type in ("number", "date"):
                cells[definition.name] = [_as_number(rule(i)) for i in rows]
            else:
                cells[definition.name] = [_blank_is_none(rule(i)) for i in rows]
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
        match expr:
            case Fixed():
                fixed: Value = bool(expr.value) if expr.type == "flag" else expr.value
                return lambda i: fixed
            case Unknown():
                return lambda i: None
            case Constant():
                number = expr.value
                return lambda i: number
            case Column():
                column = self._column(expr.table, expr.name, expr.default)
                return column.__getitem__
            case Single():
                single = self._column(expr.table, expr.name, expr.default)
                return lambda i: single[0]
            case Parent():
                return self._parent(expr)
            case Aggregate():
                return self._aggregate(expr)
            case PerRow():
                rules = tuple(map(self.rule, expr.parts))
                return lambda i: rules[i](i)
            case Rank():
                return self._rank(expr)
            case Arithmetic():
                return self._arithmetic(expr)
            case Compare():
                return self._compare(expr)
            case Logic():
                return self._logic(expr)
            case Call():
                return self._call(expr)
            case RoundUp():
                return self._round_up(expr)
            case Where():
                test, then, otherwise = map(self.rule, (expr.condition, expr.then, expr.otherwise))

                def choose(i: int) -> Value:
                    holds = test(i)
                    return None if holds is None else then(i) if holds else otherwise(i)

                return choose
            case FirstKnown():
                options = tuple(map(self.rule, expr.options))
                return lambda i: next((v for o in options if (v := o(i)) is not None), None)
            case Known():
                part = self.rule(expr.part)
                return lambda i: part(i) is not None
            case Estimate():
                return self.rule(expr.part)
            case Convert():
                return self._convert(expr)
            case Join():
                parts = tuple(map(self.rule, expr.parts))

                def joined(i: int) -> Value:
                    texts = [p(i) for p in parts]
                    return None if None in texts else "".join(map(str, texts))

                return joined
        raise DefinitionError(f"numbers: no rule for {type(expr).__name__}")

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
            keys = cells["key"]
            first = next((keys[r] for r, fails in enumerate(column) if fails), None)
            return lambda i: first
        filters = [cells[name] for name in expr.filters]
        fold = _fold(expr, column)

        def kept(rows: Sequence[int]) -> Sequence[int]:
            return [r for r in rows if all(f[r] for f in filters)] if filters else rows

        if expr.link is None:
            everything: list[Value] = [fold(kept(range(self.rows(expr.child))))]
            return lambda i: everything[0]
        groups = self.group(expr.child, expr.link)
        parents = self._keys_of_parent(expr.child.links[expr.link])
        return lambda i: fold(kept(groups.get(parents[i], ())))

    def _keys_of_parent(self, table: str) -> list[str]:
        return [str(key).casefold() for key in self.cells[table]["key"]]

    def _rank(self, expr: Rank) -> Rule:
        column = self.cells[expr.table.name][expr.name]
        ranks: dict[int, Value] = {}
        for rows in self.group(expr.table, expr.link).values():
            known = sorted(
                (r for r in rows if column[r] is not None), key=lambda r: _num(column[r])
            )
            ranks.update({row: place for place, row in enumerate(known, 1)})
        return ranks.get

    def _arithmetic(self, expr: Arithmetic) -> Rule:
        left, right = self.rule(expr.left), self.rule(expr.right)
        if expr.op == "/":
            return _quotient(left, right, 0.0 if self.guards.exact(expr.right) else SMALLEST.value)
        act = _ARITHMETIC[expr.op]

        def work(i: int) -> Value:
            a = left(i)
            if a is None:
                return None
            b = right(i)
            return None if b is None else act(a, b)  # type: ignore[arg-type]

        return work

    def _compare(self, expr: Compare) -> Rule:
        left, right = self.rule(expr.left), self.rule(expr.right)
        if expr.left.type == "text":
            equal = expr.op == "="
            parents = [e for e in (expr.left, expr.right) if isinstance(e, Parent)]
            rows = [self.found(e.table, e.link) for e in parents]

            def alike(i: int) -> Value:
                if any(row[i] is None for row in rows):
                    return None
                return (_folded(left(i)) == _folded(right(i))) is equal

            return alike
        holds = _HOLDS[expr.op]

        def compare(i: int) -> Value:
            a, b = left(i), right(i)
            return None if a is None or b is None else holds(_num(a) - _num(b))

        return compare

    def _logic(self, expr: Logic) -> Rule:
        parts = tuple(map(self.rule, expr.parts))
        if expr.op == "not":
            part = parts[0]
            return lambda i: None if (v := part(i)) is None else not v
        settle = all if expr.op == "and" else any

        def logic(i: int) -> Value:
            values = [p(i) for p in parts]
            return None if None in values else settle(map(bool, values))

        return logic

    def _call(self, expr: Call) -> Rule:
        parts = tuple(map(self.rule, expr.parts))

        def call(i: int) -> Value:
            values = [p(i) for p in parts]
            if None in values:
                return None
            numbers = [_num(v) for v in values]
            match expr.op:
                case "min":
                    return min(numbers)
                case "max":
                    return max(numbers)
                case "abs":
                    return abs(numbers[0])
                case "sqrt":
                    return sqrt(numbers[0]) if numbers[0] >= 0 else None

        return call

    def _round_up(self, expr: RoundUp) -> Rule:
        value, step = self.rule(expr.value), self.rule(expr.step)
        quotient = _quotient(value, step, 0.0 if self.guards.exact(expr.step) else SMALLEST.value)

        def rounded(i: int) -> Value:
            ratio = quotient(i)
            if ratio is None:
                return None
            cleaned = rounded_half_away(_num(ratio), int(PLACES.value))
            away = ceil(abs(cleaned))
            return (away if cleaned >= 0 else -away) * _num(step(i))

        return rounded

    def _convert(self, expr: Convert) -> Rule:
        part = self.rule(expr.part)
        factor: Factor | None = conversion(expr.part.unit, expr.unit, self.slots)
        if factor is None:
            return part
        number = float(factor.value)
        if factor.divide:
            return lambda i: None if (v := part(i)) is None else _num(v) / number
        return lambda i: None if (v := part(i)) is None else _num(v) * number


def _quotient(left: Rule, right: Rule, smallest: float) -> Rule:
    def divide(i: int) -> Value:
        a, b = left(i), right(i)
        if a is None or b is None or abs(_num(b)) <= smallest:
            return None
        return _num(a) / _num(b)

    return divide


def _fold(expr: Aggregate, column: list[Value]) -> Callable[[Sequence[int]], Value]:
    match expr.op:
        case "count":
            return len
        case "missing":
            return lambda rows: sum(1 for r in rows if column[r] is None)
        case "total" if not expr.blank_is_zero:

            def total(rows: Sequence[int]) -> Value:
                values = [column[r] for r in rows]
                return None if None in values else sum(map(_num, values), 0.0)

            return total
        case "total" | "known":
            return lambda rows: sum((_num(v) for r in rows if (v := column[r]) is not None), 0.0)
        case "mean":

            def mean(rows: Sequence[int]) -> Value:
                values = [_num(v) for r in rows if (v := column[r]) is not None]
                return sum(values) / len(values) if values else None

            return mean
        case "latest":
            return lambda rows: max(
                (_num(v) for r in rows if (v := column[r]) is not None), default=None
            )
    raise DefinitionError(f"numbers: no aggregate {expr.op}")


_HOLDS: dict[str, Callable[[float], bool]] = {
    "<": lambda d: d < -SMALLEST.value,
    "<=": lambda d: d <= SMALLEST.value,
    ">": lambda d: d > SMALLEST.value,
    ">=": lambda d: d >= -SMALLEST.value,
    "=": lambda d: abs(d) <= SMALLEST.value,
    "<>": lambda d: abs(d) > SMALLEST.value,
}


def rounded_half_away(number: float, places: int) -> float:
    """Rounded as spreadsheets do: half away from zero, on the decimal digits that are shown."""
    step = Decimal(1).scaleb(-places)
    return float(Decimal(repr(number)).quantize(step, ROUND_HALF_UP))


def _num(value: Value) -> float:
    return value  # type: ignore[return-value]


def _blank_is_none(value: Value) -> Value:
    # A spreadsheet cannot tell an empty text from none.
    return None if value == "" else value


def _as_number(value: Value) -> Value:
    return int(value) if isinstance(value, bool) else value


def _folded(value: Value) -> str:
    return "" if value is None else str(value).casefold()


__all__ = ["Cells", "Numbers", "Value", "rounded_half_away"]
