"""The third renderer: from a definition's tree to its rule in words."""

from __future__ import annotations

from collections.abc import Mapping

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
from reportgen.algebra.nodes import (
    Above,
    Aggregate,
    Call,
    Column,
    Constant,
    Find,
    First,
    Join,
    Known,
    Parent,
    PerRow,
    Plain,
    Rank,
    RoundUp,
    Single,
)
from reportgen.algebra.tables import Definition, Table

_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "÷"}
_LEVEL = {"+": 1, "-": 1, "*": 2, "/": 2}
_COMPARISONS = {
    "<": "is below", "<=": "is at most", ">": "is above", ">=": "is at least",
    "=": "is", "<>": "is not",
}  # fmt: skip


class Words:
    """Says definitions in the trade's words."""

    def __init__(self, book: Book, slots: Mapping[str, str] | None = None) -> None:
        self._book = book
        self._slots = slots or {}

    def rule(self, definition: Definition) -> str:
        """The rule of a quantity: ``wet × the lot's cost per prepped``."""
        assert definition.tree is not None
        return self.phrase(definition.tree)[0]

    def label(self, table: Table, name: str) -> str:
        """A column's name in words."""
        if name in table.definitions:
            return table.definitions[name].label
        head = table.inputs[name].head if name in table.inputs else ""
        return head or ("id" if name == "key" else name.replace("_", " "))

    def phrase(self, expr: Expr) -> tuple[str, int]:
        """An expression in words, and how tightly it binds (9: as one word)."""
        match expr:
            case Fixed():
                if expr.type == "flag":
                    return ("yes" if expr.value else "no"), 9
                return (f"“{expr.value}”" if isinstance(expr.value, str) else str(expr.value)), 9
            case Unknown():
                return "unknown", 9
            case Constant():
                number = f"{expr.value:g} {expr.unit.text(self._slots)}".strip()
                return f"{expr.label[0].lower()}{expr.label[1:]} ({number})", 9
            case Column():
                return self.label(expr.table, expr.name), 9
            case Single():
                return f"{expr.table.one}: {self.label(expr.table, expr.name)}", 9
            case Parent():
                owner = self.label(expr.table, expr.link)
                return f"the {owner}'s {self.label(expr.parent, expr.name)}", 9
            case Aggregate():
                return self._aggregate(expr), 9
            case PerRow():
                return "another in each row", 9
            case Above():
                name, link = self.label(expr.table, expr.name), self.label(expr.table, expr.link)
                return f"the total {name} of the rows above with the same {link}", 9
            case First():
                return f"no row above has the same {self.label(expr.table, expr.link)}", 0
            case Rank():
                end = "highest" if expr.highest else "lowest"
                return f"place of its {self.label(expr.table, expr.name)} from the {end}", 9
            case Find():
                name, own = self.label(expr.table, expr.name), self.phrase(expr.own)[0]
                return f"the {expr.table.one} whose {name} is the {own}", 9
            case Arithmetic():
                level = _LEVEL[expr.op]
                left, right = self._bound(expr.left, level), self._bound(expr.right, level + 1)
                return f"{left} {_SIGNS[expr.op]} {right}", level
            case Compare():
                left, right = self.phrase(expr.left)[0], self.phrase(expr.right)[0]
                return f"{left} {_COMPARISONS[expr.op]} {right}", 0
            case Logic():
                if expr.op == "not":
                    return f"not ({self.phrase(expr.parts[0])[0]})", 0
                return f", {expr.op} ".join(self.phrase(p)[0] for p in expr.parts), 0
            case Call():
                return self._call(expr), 9
            case RoundUp():
                step = self.phrase(expr.step)[0]
                by = "to a whole number" if step == "1" else f"to a multiple of {step}"
                return f"{self._bound(expr.value, 3)} rounded up {by}", 0
            case Where():
                then, test = self.phrase(expr.then)[0], self.phrase(expr.condition)[0]
                return f"{then} where {test}; else {self.phrase(expr.otherwise)[0]}", 0
            case FirstKnown():
                return "; else ".join(self.phrase(o)[0] for o in expr.options), 0
            case Known():
                return f"{self._bound(expr.part, 3)} is known", 0
            case Estimate():
                return f"{self._bound(expr.part, 2)} (an estimate)", 2
            case Convert():
                return self.phrase(expr.part)
            case Plain():
                return self.phrase(expr.part)
            case Join():
                return " followed by ".join(self.phrase(p)[0] for p in expr.parts), 0
        raise DefinitionError(f"words: no rule for {type(expr).__name__}")

    def _bound(self, expr: Expr, least: int) -> str:
        text, level = self.phrase(expr)
        return text if level >= least else f"({text})"

    def _call(self, expr: Call) -> str:
        parts = [self.phrase(part)[0] for part in expr.parts]
        match expr.op:
            case "min":
                return f"the least of ({', '.join(parts)})"
            case "max":
                return f"the greatest of ({', '.join(parts)})"
            case "abs":
                return f"the size of ({parts[0]})"
            case "power":
                return f"({parts[0]}) to the power of ({parts[1]})"
            case "sqrt":
                return f"the square root of ({parts[0]})"

    def _aggregate(self, expr: Aggregate) -> str:
        rows = expr.child.title
        if expr.filters:
            marks = " and ".join(self.label(expr.child, name) for name in expr.filters)
            rows = f"{rows} marked {marks}"
        its = f"its {rows}" if expr.link else f"all {rows}"
        if expr.op == "count" or expr.name is None:
            return f"the number of {its}"
        name = self.label(expr.child, expr.name)
        match expr.op:
            case "missing":
                return f"the number of {its} without {name}"
            case "mean":
                return f"the mean {name} of {its}"
            case "first":
                of = "" if expr.of == "key" else f"{self.label(expr.child, expr.of)} of the "
                return f"the {of}first of {its} marked {name}"
            case "earliest":
                return f"the first {name} of {its}"
            case "latest":
                return f"the latest {name} of {its}"
            case "known":
                return f"the total {name} of {its}, as far as known"
        return f"the total {name} of {its}"
