"""A rule with the numbers of one row put in: ``21.8 kWh × 0.148 USD/kWh``."""

from __future__ import annotations

from collections.abc import Callable

from reportgen.algebra.expr import Estimate, Expr, FirstKnown, Unknown, Where
from reportgen.algebra.nodes import (
    Aggregate,
    Ahead,
    Column,
    Find,
    OwnPlace,
    Parent,
    PerRow,
    Rank,
    Single,
    Strays,
    Until,
)
from reportgen.algebra.numbers import Value
from reportgen.algebra.phrases import Phrase, joined, phrase
from reportgen.algebra.tables import Kind
from reportgen.algebra.words import Words
from reportgen.report.reads import Reads
from reportgen.report.show import UNKNOWN, amount

_MOST = 6
"""Terms of a sum that are written out."""
_ONE_WORD = 9


class Spoken(Words):
    """Says expressions with the values of a row in place of the names; ``shown``: how values are
    written, by default as on the terminal."""

    def __init__(
        self, reads: Reads, row: int, shown: Callable[[Value, Kind], str] | None = None
    ) -> None:
        super().__init__(reads.numbers.book, reads.numbers.slots)
        self._reads, self._row = reads, row
        self._shown = shown or (lambda value, kind: amount(value, kind, self._slots))

    def phrase(self, expr: Expr) -> tuple[str, int]:
        """An expression with its values, and how tightly it binds."""
        match expr:
            case Column() | Single() | Parent():
                table = expr.parent if isinstance(expr, Parent) else expr.table
                return self._value(expr, table.kind_of(expr.name)), _ONE_WORD
            case Rank() | Find() | OwnPlace() | Strays():
                return self._value(expr, Kind(expr.type)), _ONE_WORD
            case Ahead() | Until():
                return self._value(expr, Kind(expr.type, expr.unit)), _ONE_WORD
            case Unknown():
                return Phrase(UNKNOWN), _ONE_WORD
            case Aggregate():
                return self._rows(expr), _ONE_WORD
            case PerRow():
                return self.phrase(expr.parts[self._row])
            case Where() | FirstKnown():
                taken = self._reads.branch(expr, self._row)
                return (Phrase(UNKNOWN), _ONE_WORD) if taken is None else self.phrase(taken)
            case Estimate():
                return self.phrase(expr.part)
        return super().phrase(expr)

    def _value(self, expr: Expr, kind: Kind) -> str:
        value = self._reads.value(expr, self._row)
        return self._shown("" if value is None and kind.type == "text" else value, kind)

    def _rows(self, expr: Aggregate) -> str:
        value = self._reads.value(expr, self._row)
        rows = self._reads.rows(expr, self._row)
        if expr.name is None or expr.op in ("count", "missing"):
            return f"{value:g}" if isinstance(value, int | float) else Phrase(UNKNOWN)
        name = expr.of if expr.op == "first" else expr.name
        kind = expr.child.kind_of(name)
        column = self._reads.numbers.cells[expr.child.name][name]
        parts = [self._shown(column[each], kind) for each in rows]
        if expr.op in ("total", "known") and 1 < len(parts) <= _MOST:
            return phrase("({a})", a=joined("{a} + {b}", parts))
        if expr.op == "mean" and 1 < len(parts) <= _MOST:
            return phrase("the mean of ({a})", a=joined("{a}, {b}", parts))
        return self._shown(value, kind)
