"""The second renderer: from a definition's tree to the formula of its column.

One formula serves every row; the mark :data:`ROW` stands where the row's number goes. Guards come
from the same tree (``guards.py``): a formula shows an empty text while something it needs is
unknown, and never an error value. Only functions that every suite has are used, and no number but
0 and 1; constants and unit factors are references to their labelled cells.
"""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra import presence, running_formulas, totals
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
from reportgen.algebra.guards import Need, guards_of
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
from reportgen.algebra.phrases import Say
from reportgen.algebra.places import Places, locator, quoted
from reportgen.algebra.running import Running
from reportgen.algebra.tables import PLACES, SMALLEST, Definition, Table

_COMPARE, _JOIN, _SUM, _PRODUCT, _ATOM = range(1, 6)
_PRECEDENCE = {"+": _SUM, "-": _SUM, "*": _PRODUCT, "/": _PRODUCT}
_CALLS = {"min": "MIN", "max": "MAX", "abs": "ABS", "sqrt": "SQRT", "power": "POWER"}
_LOGIC = {"and": "AND", "or": "OR", "not": "NOT"}
_COMPARISONS = {">": "{}>{}", ">=": "{}>=-{}", "=": "ABS({})<={}", "<>": "ABS({})>{}"}

Text = tuple[str, int]
"""A piece of a formula and how tightly it binds."""


class Formulas:
    """Renders formulas of one book for one season's units; ``say``: fixed texts in a language."""

    def __init__(
        self, book: Book, slots: Mapping[str, str], say: Say = str, running: Running | None = None
    ) -> None:
        self.guards, self.running = guards_of(book), running
        self.slots, self.say = slots, say

    def formulas(self, definition: Definition, places: Places) -> list[str]:
        """The formulas of a column that has another one in each row."""
        assert isinstance(definition.tree, PerRow)
        page = _Page(self, places)
        return [page.choice(part) for part in definition.tree.parts]

    def formula(self, definition: Definition, places: Places) -> str:
        """The formula of a definition's column, without the equals sign."""
        assert definition.tree is not None
        page = _Page(self, places)
        if definition.table.single:
            return page.choice(definition.tree)
        key = places.cell(definition.table.name, "key")
        if definition.name == "key":
            return page.choice(definition.tree)
        if isinstance(definition.tree, Find) and definition.tree.itself:
            return totals.own_find(definition.tree, places.cell(*definition.key), places)
        return page.choice(definition.tree, exists=f'{key}<>""')

    def fixed(self, text: str) -> str:
        """A fixed text as formulas write it, in the language of the workbook."""
        return quoted(self.say(text))


class _Page:
    """Renders one formula, as seen from one sheet."""

    def __init__(self, formulas: Formulas, places: Places) -> None:
        self.guards, self.slots, self.places = formulas.guards, formulas.slots, places
        self.running = formulas.running
        self.say, self.fixed = formulas.say, formulas.fixed

    # --- choices: lazy, branch by branch --------------------------------------------------------

    def choice(self, expr: Expr, exists: str = "") -> str:
        """An expression at the top of a formula or of a branch."""
        match expr:
            case Unknown():
                return '""'
            case Where() if not self._plain(expr):
                then, otherwise = self.choice(expr.then), self.choice(expr.otherwise)
                test = self.condition(expr.condition)
                return self._guarded(
                    f"IF({test},{then},{otherwise})", self.guards.needs(expr.condition), exists
                )
            case FirstKnown() if not self._plain(expr):
                last = self.choice(expr.options[-1])
                return self._guarded(self._first(expr, last), [], exists)
            case Estimate():
                return self.choice(expr.part, exists)
        return self._guarded(self._result(expr), self.guards.needs(expr), exists)

    def _first(self, expr: FirstKnown, text: str) -> str:
        """The first known option, ``text`` being the last one's."""
        for option in reversed(expr.options[:-1]):
            guard, known = self._product(self.guards.needs(option)), self.text(option)[0]
            text = f"IF({guard},{known},{text})" if guard else known
        return text

    def _plain(self, expr: Expr) -> bool:
        """Whether a choice asks for nothing and can stand as it is."""
        return not isinstance(expr, Where | FirstKnown) or (
            isinstance(expr, Where)
            and isinstance(expr.then, Fixed)
            and isinstance(expr.otherwise, Fixed)
        )

    def _result(self, expr: Expr) -> str:
        text, _ = self.text(expr)
        # A reference to an empty text cell would show 0.
        return f'{text}&""' if expr.type == "text" and isinstance(expr, Column | Parent) else text

    def _guarded(self, text: str, needs: list[Need], exists: str) -> str:
        guard = self._product(needs)
        if exists and guard:
            return f'IF(({exists})*{guard},{text},"")'
        if exists or guard:
            return f'IF({exists or guard},{text},"")'
        return text

    def _product(self, needs: list[Need]) -> str:
        return "*".join(self._need(need) for need in needs)

    def _need(self, need: Need) -> str:
        if need.kind == "divisor":
            text = self.text(need.expr)[0]
            if self.guards.exact(need.expr):
                return f"COUNT(1/{text})"
            return f"COUNT(1/(ABS({text})>{self.places.constant(SMALLEST.name)}))"
        own = need.expr.own if isinstance(need.expr, Find) else need.expr
        # What stands for rows is asked of the rows; all else of the reference itself.
        known = need.kind in ("value", "text") or isinstance(need.expr, Find)
        text = self.text(own)[0] if known and own is not None else ""
        return presence.guard(need, text, self.running, self.places)

    # --- plain expressions ------------------------------------------------------------------------

    def condition(self, expr: Expr) -> str:
        """A truth value as IF takes it."""
        match expr:
            case Compare():
                return self._compare(expr)
            case Logic():
                parts = ",".join(self._truth(part) for part in expr.parts)
                return f"{_LOGIC[expr.op]}({parts})"
            case Known():
                needs = self.guards.needs(expr.part)
                guard = self._product(needs)
                if len(needs) == 1 and guard.startswith("("):
                    # A truth value by itself, and to a sheet even "false" is more than 0.
                    return guard
                return f"{guard}>0" if guard else "1"
            case OwnPlace():
                return totals.own_place(expr, self.places)
            case Broken():
                return running_formulas.broken(self.running, self.places)
        return self.text(expr)[0]

    def _truth(self, expr: Expr) -> str:
        """A condition inside AND, OR, NOT, which read a bare cell each in their own way."""
        plain = isinstance(expr, Column | Parent | Single | Where)
        return f"{self.text(expr)[0]}>0" if plain else self.condition(expr)

    def text(self, expr: Expr) -> Text:
        """An expression that is no choice, and how tightly it binds."""
        match expr:
            case Fixed():
                if isinstance(expr.value, str):
                    return self.fixed(expr.value), _ATOM
                return str(expr.value), _ATOM
            case Constant():
                return self.places.constant(expr.name), _ATOM
            case Column():
                return self._default(self.places.cell(expr.table.name, expr.name), expr.default)
            case Single():
                return self._default(self.places.single(expr.table.name, expr.name), expr.default)
            case Parent():
                row = self.places.cell(expr.table.name, locator(expr.link))
                found = f"INDEX({self._span(expr.parent, expr.name)},{row})"
                return self._default(found, expr.default, summed=False)
            case Aggregate():
                return running_formulas.total(self.running, expr, self.places), _ATOM
            case Strays() if expr.type == "text":
                return totals.first_stray(expr, self.places), _JOIN
            case Strays():
                return totals.strays(expr, self.places), _SUM
            case Ahead() | Rank():
                return running_formulas.among(self.running, expr, self.places), _ATOM
            case Until():
                return totals.until(expr, self.text(expr.own)[0], self.places), _ATOM
            case Find():
                return totals.find(expr, self.text(expr.own)[0], self.places), _ATOM
            case Arithmetic():
                return self._arithmetic(expr)
            case Compare() | Logic() | Known() | OwnPlace() | Broken():
                return f"IF({self.condition(expr)},1,0)", _ATOM
            case Call():
                return f"{_CALLS[expr.op]}({','.join(self.text(p)[0] for p in expr.parts)})", _ATOM
            case RoundUp():
                step = self._bound(expr.step, _PRODUCT + 1)
                ratio = f"{self._bound(expr.value, _PRODUCT)}/{step}"
                whole = f"ROUNDUP(ROUND({ratio},{self.places.constant(PLACES.name)}),0)"
                return f"{whole}*{step}", _PRODUCT
            case Where():
                then, otherwise = self.text(expr.then)[0], self.text(expr.otherwise)[0]
                return f"IF({self.condition(expr.condition)},{then},{otherwise})", _ATOM
            case FirstKnown():
                return self._first(expr, self.text(expr.options[-1])[0]), _ATOM
            case Estimate():
                return self.text(expr.part)
            case Convert():
                return self._convert(expr)
            case Plain():
                places = self.text(expr.places)[0]
                return f"ROUND({self.text(expr.part)[0]},{places})", _ATOM
            case Join():
                texts = (
                    quoted(piece) if isinstance(piece, str) else self._bound(piece, _JOIN + 1)
                    for piece in expr.pieces(self.say)
                )
                return "&".join(texts), _JOIN
        raise DefinitionError(f"formulas: no rule for {type(expr).__name__}")

    def _default(self, reference: str, default: int | None, summed: bool = True) -> Text:
        if default is None:
            return reference, _ATOM
        # A sum reads an empty cell and a text as 0 in every suite, but a text through INDEX is an
        # error in one; N() of an empty cell is an error in another.
        if default == 0 and summed:
            return f"SUM({reference})", _ATOM
        return f"IF(COUNT({reference}),{reference},{default})", _ATOM

    def _bound(self, expr: Expr, least: int) -> str:
        text, precedence = self.text(expr)
        return text if precedence >= least else f"({text})"

    def _arithmetic(self, expr: Arithmetic) -> Text:
        level = _PRECEDENCE[expr.op]
        # The right side of - and / binds tighter; so does that of + and *, to keep Python's order.
        left, right = self._bound(expr.left, level), self._bound(expr.right, level + 1)
        return f"{left}{expr.op}{right}", level

    def _convert(self, expr: Convert) -> Text:
        factor = conversion(expr.part.unit, expr.unit, self.slots)
        if factor is None:
            return self.text(expr.part)
        part = self._bound(expr.part, _PRODUCT)
        return f"{part}{'/' if factor.divide else '*'}{self.places.factor(factor)}", _PRODUCT

    def _compare(self, expr: Compare) -> str:
        if expr.left.type == "text":
            return f"{self.text(expr.left)[0]}{expr.op}{self.text(expr.right)[0]}"
        left, right, op = expr.left, expr.right, expr.op
        if op in ("<", "<="):
            left, right, op = right, left, ">" if op == "<" else ">="
        if isinstance(right, Fixed) and right.value == 0:
            difference = self._bound(left, _COMPARE + 1)
        elif isinstance(left, Fixed) and left.value == 0:
            difference = f"-{self._bound(right, _ATOM)}"
        else:
            difference = f"{self._bound(left, _SUM)}-{self._bound(right, _SUM + 1)}"
        return _COMPARISONS[op].format(difference, self.places.constant(SMALLEST.name))

    def _span(self, table: Table, column: str | None) -> str:
        assert column is not None
        return self.places.span(table.name, column)
