"""An expression, its operators and the nodes that they make. Nodes do not print or compute
themselves; renderers visit them.

Every node knows its ``type`` and, for numbers, its ``unit``: decided where the operation is
decided, so that adding money to mass is refused when the definition is loaded. It also declares,
once, what it is made of (its fields) and what it reads (``reads``): whatever walks a tree goes by
that, so that no kind of node can be forgotten.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from inspect import get_annotations
from typing import TYPE_CHECKING, ClassVar, Literal, NoReturn

from reportgen.units import ONE, Unit

if TYPE_CHECKING:
    from reportgen.algebra.reading import Read

Type = Literal["number", "flag", "text", "date"]
DAYS = Unit.of("d")


class DefinitionError(Exception):
    """A definition that cannot be meant; raised when definitions are loaded, before any data."""


@dataclass(frozen=True, eq=False)
class Expr:
    """An expression: a symbol has no truth value and no number until it is rendered."""

    type: Type
    unit: Unit
    choosing: ClassVar[tuple[str, ...]] = ()
    """The fields whose expressions only choose: a branch, some rows, whether there is a value."""

    def __init_subclass__(cls) -> None:
        """A node that holds a table reads from it, and must say what."""
        if "Table" in get_annotations(cls).values() and cls.reads is Expr.reads:
            raise TypeError(f"{cls.__name__} holds a table and does not say what it reads")

    def reads(self) -> Iterator[Read]:
        """The columns that the node reads by itself, apart from what its parts read."""
        return iter(())

    def inner(self, *, resting: bool = False) -> Iterator[Expr]:
        """The nodes it is made of, in order; ``resting``: only those that its value rests on."""
        for name, value in vars(self).items():
            if resting and name in self.choosing:
                continue
            if isinstance(value, Expr):
                yield value
            elif isinstance(value, tuple):
                yield from (each for each in value if isinstance(each, Expr))

    def __bool__(self) -> NoReturn:
        raise DefinitionError(
            "an expression has no truth value: write where(condition, a, b) instead of if, "
            "and & | ~ instead of and, or, not"
        )

    def __add__(self, other: Operand) -> Expr:
        return _sum("+", self, lift(other))

    def __radd__(self, other: Operand) -> Expr:
        return _sum("+", lift(other), self)

    def __sub__(self, other: Operand) -> Expr:
        return _sum("-", self, lift(other))

    def __rsub__(self, other: Operand) -> Expr:
        return _sum("-", lift(other), self)

    def __mul__(self, other: Operand) -> Expr:
        return _product("*", self, lift(other))

    def __rmul__(self, other: Operand) -> Expr:
        return _product("*", lift(other), self)

    def __truediv__(self, other: Operand) -> Expr:
        return _product("/", self, lift(other))

    def __rtruediv__(self, other: Operand) -> Expr:
        return _product("/", lift(other), self)

    def __lt__(self, other: Operand) -> Expr:
        return _compare("<", self, lift(other))

    def __le__(self, other: Operand) -> Expr:
        return _compare("<=", self, lift(other))

    def __gt__(self, other: Operand) -> Expr:
        return _compare(">", self, lift(other))

    def __ge__(self, other: Operand) -> Expr:
        return _compare(">=", self, lift(other))

    def __eq__(self, other: object) -> Expr:  # type: ignore[override]
        return _compare("=", self, lift(other))

    def __ne__(self, other: object) -> Expr:  # type: ignore[override]
        return _compare("<>", self, lift(other))

    def __and__(self, other: Expr) -> Expr:
        return Logic("flag", ONE, "and", (flag(self), flag(other)))

    def __or__(self, other: Expr) -> Expr:
        return Logic("flag", ONE, "or", (flag(self), flag(other)))

    def __invert__(self) -> Expr:
        return Logic("flag", ONE, "not", (flag(self),))

    __hash__ = object.__hash__

    def _fits(self, what: str) -> None:
        """Raise unless the node may stand in an expression on its own."""


Operand = Expr | int | str | object


@dataclass(frozen=True, eq=False)
class Fixed(Expr):
    """0, 1 or a fixed text. Any other number wants a name: it is a constant."""

    value: int | str


@dataclass(frozen=True, eq=False)
class Unknown(Expr):
    """No value: what a choice gives where there is nothing to say."""


@dataclass(frozen=True, eq=False)
class Arithmetic(Expr):
    """``left`` + - * / ``right``."""

    op: Literal["+", "-", "*", "/"]
    left: Expr
    right: Expr


@dataclass(frozen=True, eq=False)
class Compare(Expr):
    """A comparison; of numbers with the tolerance that tells amounts apart."""

    op: Literal["<", "<=", ">", ">=", "=", "<>"]
    left: Expr
    right: Expr


@dataclass(frozen=True, eq=False)
class Logic(Expr):
    """And, or, not."""

    op: Literal["and", "or", "not"]
    parts: tuple[Expr, ...]


@dataclass(frozen=True, eq=False)
class Where(Expr):
    """``then`` where the condition holds, else ``otherwise``; the other branch is not asked."""

    choosing = ("condition",)
    condition: Expr
    then: Expr
    otherwise: Expr


@dataclass(frozen=True, eq=False)
class FirstKnown(Expr):
    """The first of the options that is known."""

    options: tuple[Expr, ...]


@dataclass(frozen=True, eq=False)
class Estimate(Expr):
    """``part``, marked as an estimate whatever it rests on."""

    part: Expr


@dataclass(frozen=True, eq=False)
class Convert(Expr):
    """``part`` in another unit of the same dimension; the factor is a labelled cell."""

    part: Expr


def lift(value: object) -> Expr:
    """A Python value as a node. Only 0, 1 and texts: other numbers are constants with a name."""
    if isinstance(value, Expr):
        value._fits("an operand")
        return value
    if isinstance(value, str):
        return Fixed("text", ONE, value)
    if isinstance(value, int) and value in (0, 1) and not isinstance(value, bool):
        return Fixed("number", ONE, value)
    raise DefinitionError(f"{value!r} in a definition: give it a name, a unit and a source")


def is_zero(expr: Expr) -> bool:
    """Whether the node is the literal 0, which has every unit."""
    return isinstance(expr, Fixed) and expr.value == 0 and expr.type == "number"


def _fits_any(expr: Expr) -> bool:
    if isinstance(expr, Where):
        return _fits_any(expr.then) and _fits_any(expr.otherwise)
    return is_zero(expr) or isinstance(expr, Unknown)


def convert(expr: Expr, unit: Unit, where: str = "") -> Expr:
    """``expr`` in ``unit``; refuses another dimension."""
    if expr.type != "number" or is_zero(expr) or expr.unit == unit:
        return expr
    if isinstance(expr, Unknown):
        return Unknown("number", unit)
    if not _fits_any(expr) and expr.unit.dimension != unit.dimension:
        raise DefinitionError(
            f"{where}{expr.unit.text() or 'a plain number'} cannot become "
            f"{unit.text() or 'a plain number'}"
        )
    match expr:
        # Branches are converted one by one, so that a choice stays at the top of its formula.
        case Where():
            then, otherwise = convert(expr.then, unit), convert(expr.otherwise, unit)
            return Where("number", unit, expr.condition, then, otherwise)
        case FirstKnown():
            return FirstKnown("number", unit, tuple(convert(o, unit) for o in expr.options))
        case Estimate():
            return Estimate("number", unit, convert(expr.part, unit))
    return Convert("number", unit, expr)


def flag(expr: Expr) -> Expr:
    """``expr``, which must be a truth value."""
    if expr.type != "flag":
        raise DefinitionError(f"a condition was wanted, not a {expr.type}")
    return expr


def aligned(parts: tuple[Expr, ...]) -> tuple[Expr, ...]:
    """The parts in one type and unit: that of the first that is not the literal 0."""
    first = next((p for p in parts if not _fits_any(p)), parts[0])
    for part in parts:
        fits = isinstance(part, Unknown) or (is_zero(part) and first.type in ("number", "date"))
        if part.type != first.type and not fits:
            raise DefinitionError(f"a {part.type} beside a {first.type}")
    return tuple(convert(p, first.unit) for p in parts)


def _sum(op: Literal["+", "-"], left: Expr, right: Expr) -> Expr:
    if left.type == "date" or right.type == "date":
        if op == "-" and left.type == right.type:
            return Arithmetic("number", DAYS, op, left, right)
        if left.type == "date" and right.type == "number":
            return Arithmetic("date", ONE, op, left, convert(right, DAYS, "a date and "))
        raise DefinitionError(f"a {left.type} {op} a {right.type}")
    _numbers(op, left, right)
    left, right = aligned((left, right))
    return Arithmetic("number", right.unit if is_zero(left) else left.unit, op, left, right)


def _product(op: Literal["*", "/"], left: Expr, right: Expr) -> Expr:
    _numbers(op, left, right)
    unit = left.unit * right.unit if op == "*" else left.unit / right.unit
    return Arithmetic("number", unit, op, left, right)


def _numbers(op: str, *parts: Expr) -> None:
    for part in parts:
        # A truth value counts as 1 or 0, so that an amount times a flag is the amount or nothing.
        if part.type not in ("number", "flag"):
            raise DefinitionError(f"{op} on a {part.type}")


def _compare(op: Literal["<", "<=", ">", ">=", "=", "<>"], left: Expr, right: Expr) -> Expr:
    left, right = aligned((left, right))
    if left.type == "text" and op not in ("=", "<>"):
        raise DefinitionError(f"texts have no order: {op}")
    return Compare("flag", ONE, op, left, right)
