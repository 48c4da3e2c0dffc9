"""Definitions made up at random from everything that definitions may use."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import Any

from algebra.toy import SLOTS, Given, book, define, numbers, text
from reportgen.algebra.expr import DefinitionError, Expr
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    greatest,
    join,
    known,
    least,
    mean_known,
    missing,
    round_up,
    size,
    total,
    total_known,
    unknown,
    where,
)
from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.tables import FLAG, TEXT, Kind, Table
from reportgen.algebra.views import Children, SingleRow
from reportgen.units import ONE, Unit

_OPERATIONS: Sequence[Callable[[Expr, Expr], Expr]] = (
    lambda a, b: a + b,
    lambda a, b: a - b,
    lambda a, b: a * b,
    lambda a, b: a / b,
    lambda a, b: 1 - a / b,
    least,
    greatest,
    lambda a, b: size(a - b),
    lambda a, b: round_up(a, size(b)),
)
_COMPARISONS: Sequence[Callable[[Expr, Expr], Expr]] = (
    lambda a, b: a < b,
    lambda a, b: a <= b,
    lambda a, b: a > b,
    lambda a, b: a >= b,
    lambda a, b: a == b,
    lambda a, b: a != b,
    lambda a, b: a > 0,
    lambda a, b: b <= 0,
)


class Maker:
    """Grows expressions over some leaves of each type."""

    def __init__(
        self, rng: Random, amounts: Sequence[Expr], flags: Sequence[Expr], words: Sequence[Expr]
    ) -> None:
        self.rng, self.amounts, self.flags, self.words = rng, amounts, flags, words

    def amount(self, depth: int) -> Expr:
        """An amount without a choice, except one that is always known."""
        if not depth or self.rng.random() < 0.25:
            return self.rng.choice(self.amounts)
        if self.rng.random() < 0.1:
            return where(self.flag(depth - 1), 1, 0)
        act = self.rng.choice(_OPERATIONS)
        return act(self.amount(depth - 1), self.amount(depth - 1))

    def flag(self, depth: int) -> Expr:
        way = self.rng.randrange(6 if depth else 2)
        match way:
            case 0 | 1:
                return self.rng.choice(self.flags)
            case 2:
                compare = self.rng.choice(_COMPARISONS)
                return compare(self.amount(depth - 1), self.amount(depth - 1))
            case 3:
                word = self.rng.choice(self.words)
                return self.rng.choice((word == "red", word != "red", word == ""))
            case 4:
                return known(self.rng.choice((self.amount(depth - 1), *self.words)))
        left, right = self.flag(depth - 1), self.flag(depth - 1)
        return self.rng.choice((left & right, left | right, ~left))

    def choice(self, depth: int) -> Expr:
        """An amount at the top of a definition: choices stand here."""
        match self.rng.randrange(4) if depth else 0:
            case 0:
                return self.amount(2)
            case 1:
                other = unknown() if self.rng.random() < 0.2 else self.choice(depth - 1)
                return where(self.flag(1), self.choice(depth - 1), other)
            case 2:
                return first_known(self.amount(1), self.amount(1), self.choice(depth - 1))
        return estimate(self.choice(depth - 1))

    def label(self) -> Expr:
        first, second = self.rng.choice(self.words), self.rng.choice(self.words)
        return self.rng.choice((join(first, "/", second), where(self.flag(1), first, second)))


class _Nowhere:
    """Places enough to see whether a definition can be rendered at all."""

    def __getattr__(self, name: str) -> Callable[..., str]:
        return lambda *of: "X1"


def random_numbers(seed: int, many: int) -> Numbers:
    """A book of about ``many`` random definitions, over rows in which anything may be missing."""
    rng = Random(f"trees {seed}")
    wall = Table.of("wall", "wall", [Given("w"), Given("v", zero=True)], single=True)
    pots = Table.of(
        "pots", "pot", [Given("p"), Given("q", zero=True), Given("r", one=True), text("hue")]
    )
    flag = Given("f", type="flag", zero=True)
    pegs = Table.of(
        "pegs",
        "peg",
        [text("pot", "pots"), Given("a"), Given("b"), Given("c", zero=True), flag, text("hue")],
    )
    define(pegs, "marked", FLAG, lambda f, a: f | (a > 1))

    def add(table: Table, name: str, kind: Kind | Unit, body: Callable[..., Expr]) -> None:
        """Add a definition, unless it is refused, as a choice inside arithmetic is."""
        define(table, name, kind, body)
        try:
            trial = book(wall, pots, pegs)
            Formulas(trial, SLOTS).formula(trial.definition(table.name, name), _Nowhere())
        except DefinitionError:
            del table.definitions[name]

    for n in range(many):
        kind, way = _WAYS[n % len(_WAYS)]
        if n % 3:
            add(pegs, f"n{n}", kind, _of_pegs(rng.random(), way))
        else:
            add(pots, f"n{n}", kind, _of_pots(rng.random(), way))
    return numbers(book(wall, pots, pegs), _rows(rng))


def _of_pegs(seed: float, way: Way) -> Callable[..., Expr]:
    def body(pot: Any, a: Expr, b: Expr, c: Expr, f: Expr, hue: Expr, wall: SingleRow) -> Expr:
        amounts = [a, b, c, pot.p, pot.q, pot.r, wall.w, wall.v]
        return way(Maker(Random(seed), amounts, [f, a > b, pot.q > 1], [hue, pot.hue, pot]))

    return body


def _of_pots(seed: float, way: Way) -> Callable[..., Expr]:
    def body(p: Expr, q: Expr, r: Expr, hue: Expr, pegs: Children, wall: SingleRow) -> Expr:
        sums = [
            total(pegs.a), total(pegs.a, pegs.marked), total_known(pegs.b), total(pegs.c),
            mean_known(pegs.b), count(pegs, pegs.marked), missing(pegs.a, pegs.marked),
        ]  # fmt: skip
        return way(Maker(Random(seed), [p, q, r, wall.w, *sums], [p > q], [hue]))

    return body


Way = Callable[[Maker], Expr]

_WAYS: Sequence[tuple[Kind | Unit, Way]] = (
    (ONE, lambda maker: maker.choice(2)),
    (FLAG, lambda maker: maker.flag(3)),
    (TEXT, lambda maker: maker.label()),
    (ONE, lambda maker: maker.amount(3)),
)


def _rows(rng: Random) -> dict[str, dict[str, list[Value]]]:
    def some() -> Value:
        return (
            None if rng.random() < 0.25 else rng.choice((0.0, 1.0, 2.5, -1.5, 0.1 + 0.2, 0.3, 7.25))
        )

    def hue() -> Value:
        return rng.choice((None, "red", "Red", "blue"))

    pots, pegs = range(8), range(60)
    return {
        "wall": {"w": [some()], "v": [some()], "key": ["wall"]},
        "pots": {
            "key": [f"pot-{n}" for n in pots],
            "p": [some() for _ in pots], "q": [some() for _ in pots], "r": [some() for _ in pots],
            "hue": [hue() for _ in pots],
        },
        "pegs": {
            "key": [f"peg-{n}" for n in pegs],
            "pot": [rng.choice((None, *(f"pot-{n}" for n in range(7)))) for _ in pegs],
            "a": [some() for _ in pegs], "b": [some() for _ in pegs], "c": [some() for _ in pegs],
            "f": [rng.choice((None, True, False)) for _ in pegs], "hue": [hue() for _ in pegs],
        },
    }  # fmt: skip
