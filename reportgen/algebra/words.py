"""The third renderer: from a definition's tree to its rule in words.

A rule is a phrase made of phrases, so that it can be said in any language that has its patterns.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

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
from reportgen.algebra.phrases import Phrase, in_words, joined, lowered, phrase
from reportgen.algebra.tables import Definition, Table

_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "÷"}
_ENDS = {True: "highest", False: "lowest"}
_LEVEL = {"+": 1, "-": 1, "*": 2, "/": 2}
_COMPARISONS = {
    "<": "{a} is below {b}", "<=": "{a} is at most {b}", ">": "{a} is above {b}",
    ">=": "{a} is at least {b}", "=": "{a} is {b}", "<>": "{a} is not {b}",
}  # fmt: skip
_CALLS = {
    "min": "the least of ({a})", "max": "the greatest of ({a})", "abs": "the size of ({a})",
    "power": "({a}) to the power of ({b})", "sqrt": "the square root of ({a})",
}  # fmt: skip
_AGGREGATES = {
    "count": "the number of {rows}", "missing": "the number of {rows} without {name}",
    "mean": "the mean {name} of {rows}", "first": "the first of {rows} marked {name}",
    "earliest": "the first {name} of {rows}", "latest": "the latest {name} of {rows}",
    "known": "the total {name} of {rows}, as far as known", "total": "the total {name} of {rows}",
}  # fmt: skip


@lru_cache(maxsize=8)
def words_of(book: Book, *slots: tuple[str, str]) -> Words:
    """The words of a book in some units, each slot with its own; its trees do not change, and are
    said again and again."""
    return Words(book, dict(slots))


class Words:
    """Says definitions in the trade's words."""

    def __init__(self, book: Book, slots: Mapping[str, str]) -> None:
        self._book = book
        self._slots = slots
        self._rules: dict[tuple[str, str], str] = {}
        self._labels: dict[tuple[str, str], Phrase] = {}

    def rule(self, definition: Definition) -> str:
        """The rule of a quantity: ``wet × the lot's cost per prepped``."""
        assert definition.tree is not None
        if definition.key not in self._rules:
            self._rules[definition.key] = self.phrase(definition.tree)[0]
        return self._rules[definition.key]

    def comment(self, definition: Definition) -> Phrase:
        """What a quantity is, what to do where it is a check, and its rule."""
        doc, do, rule = Phrase.of(definition.doc), Phrase(definition.do), self.rule(definition)
        if definition.do:
            return phrase("{doc} {do}\n= {rule}", doc=doc, do=do, rule=rule)
        return phrase("{doc}\n= {rule}", doc=doc, rule=rule)

    def label(self, table: Table, name: str) -> Phrase:
        """A column's name in words."""
        key = table.name, name
        if key not in self._labels:
            self._labels[key] = _label(table, name)
        return self._labels[key]

    def phrase(self, expr: Expr) -> tuple[str, int]:
        """An expression in words, and how tightly it binds (9: as one word)."""
        match expr:
            case Fixed():
                if expr.type == "flag":
                    return Phrase("yes" if expr.value else "no"), 9
                if isinstance(expr.value, str):
                    return phrase("“{text}”", text=Phrase(expr.value)), 9
                return str(expr.value), 9
            case Unknown():
                return Phrase("unknown"), 9
            case Broken():
                return Phrase("sums that run along rows are no longer those of the rows"), 0
            case Strays():
                name = self.label(expr.table, expr.name)
                count = "how many cells for its {name} hold text"
                said = count if expr.type == "number" else "the first cell for its {name} with text"
                return phrase(said, name=name), 0
            case Constant():
                name = lowered(expr.label)
                if not expr.unit.powers:
                    return phrase("{name} ({number})", name=name, number=f"{expr.value:g}"), 9
                unit = in_words(expr.unit, self._slots)
                number = f"{expr.value:g}"
                return phrase("{name} ({number} {unit})", name=name, number=number, unit=unit), 9
            case Column():
                return self.label(expr.table, expr.name), 9
            case Single():
                name = self.label(expr.table, expr.name)
                return phrase("{owner}: {name}", owner=Phrase(expr.table.one), name=name), 9
            case Parent():
                owner = self.label(expr.table, expr.link)
                name = self.label(expr.parent, expr.name)
                return phrase("the {owner}'s {name}", owner=owner, name=name), 9
            case Aggregate():
                return self._aggregate(expr), 9
            case PerRow():
                return Phrase("another in each row"), 9
            case Ahead():
                name, link = self.label(expr.table, expr.name), self.label(expr.table, expr.link)
                order = self.label(expr.table, expr.order)
                pattern = "the total {name} of the rows ahead by {order} with the same {link}"
                return phrase(pattern, name=name, link=link, order=order), 9
            case Until():
                rows, own = Phrase(expr.table.title), self.phrase(expr.own)[0]
                if expr.name is None:
                    return phrase("what of all {rows} lies before the {own}", rows=rows, own=own), 9
                name = self.label(expr.table, expr.name)
                pattern = "what of all {rows} lies before the {own}, times its {name}"
                return phrase(pattern, rows=rows, own=own, name=name), 9
            case OwnPlace():
                name = self.label(expr.table, expr.name)
                return phrase("the {name} is the row's own place", name=name), 0
            case Rank():
                name, end = self.label(expr.table, expr.name), _ENDS[expr.highest]
                return phrase(f"place of its {{name}} from the {end}", name=name), 9
            case Find():
                one, name = Phrase(expr.table.one), self.label(expr.table, expr.name)
                own = self.phrase(expr.own)[0]
                if expr.type == "number":
                    said = "the place of the {one} whose {name} is the {own}"
                else:
                    said = "the {one} whose {name} is the {own}"
                return phrase(said, one=one, name=name, own=own), 9
            case Arithmetic():
                level = _LEVEL[expr.op]
                left, right = self._bound(expr.left, level), self._bound(expr.right, level + 1)
                return phrase(f"{{a}} {_SIGNS[expr.op]} {{b}}", a=left, b=right), level
            case Compare():
                left, right = self.phrase(expr.left)[0], self.phrase(expr.right)[0]
                return phrase(_COMPARISONS[expr.op], a=left, b=right), 0
            case Logic():
                parts = [self.phrase(part)[0] for part in expr.parts]
                if expr.op == "not":
                    return phrase("not ({a})", a=parts[0]), 0
                return joined(f"{{a}}, {expr.op} {{b}}", parts), 0
            case Call():
                return self._call(expr), 9
            case RoundUp():
                step = self.phrase(expr.step)[0]
                whole = "{a} rounded up to a whole number"
                pattern = whole if step == "1" else "{a} rounded up to a multiple of {b}"
                return phrase(pattern, a=self._bound(expr.value, 3), b=step), 0
            case Where():
                then, test = self.phrase(expr.then)[0], self.phrase(expr.condition)[0]
                other = self.phrase(expr.otherwise)[0]
                return phrase("{a} where {test}; else {b}", a=then, test=test, b=other), 0
            case FirstKnown():
                return joined("{a}; else {b}", [self.phrase(o)[0] for o in expr.options]), 0
            case Known():
                return phrase("{a} is known", a=self._bound(expr.part, 3)), 0
            case Estimate():
                return phrase("{a} (an estimate)", a=self._bound(expr.part, 2)), 2
            case Convert():
                return self.phrase(expr.part)
            case Plain():
                return self.phrase(expr.part)
            case Join():
                filled = {
                    name: phrase("[{a}]", a=self.phrase(part)[0])
                    for name, part in zip(expr.names, expr.parts, strict=True)
                }
                return phrase("“{text}”", text=Phrase(expr.pattern, filled)), 9
        raise DefinitionError(f"words: no rule for {type(expr).__name__}")

    def _bound(self, expr: Expr, least: int) -> str:
        text, level = self.phrase(expr)
        return text if level >= least else phrase("({a})", a=text)

    def _call(self, expr: Call) -> str:
        parts = [self.phrase(part)[0] for part in expr.parts]
        if expr.op == "power":
            return phrase(_CALLS[expr.op], a=parts[0], b=parts[1])
        return phrase(_CALLS[expr.op], a=joined("{a}, {b}", parts))

    def _aggregate(self, expr: Aggregate) -> str:
        rows: str = Phrase(expr.child.title)
        if expr.filters:
            marks = [self.label(expr.child, name) for name in expr.filters]
            rows = phrase("{rows} marked {marks}", rows=rows, marks=joined("{a} and {b}", marks))
        rows = phrase("its {rows}" if expr.link else "all {rows}", rows=rows)
        if expr.under is not None and expr.bound is not None:
            under, own = self.label(expr.child, expr.under), self.phrase(expr.bound)[0]
            rows = phrase("{rows} whose {name} is before {own}", rows=rows, name=under, own=own)
        if expr.name is None:
            return phrase(_AGGREGATES["count"], rows=rows)
        name = self.label(expr.child, expr.name)
        if expr.of != "key":
            of = self.label(expr.child, expr.of)
            return phrase("{of} of the first of {rows} marked {name}", of=of, rows=rows, name=name)
        return phrase(_AGGREGATES[expr.op], name=name, rows=rows)


def _label(table: Table, name: str) -> Phrase:
    if name == "key":
        return Phrase("id")
    if name in table.definitions:
        return Phrase.of(table.definitions[name].label)
    head = table.inputs[name].head if name in table.inputs else ""
    return Phrase(head or name.replace("_", " "))
