"""Unit factors as they stand in a labelled cell: ``1 lb = 16 oz``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from reportgen.algebra.phrases import in_words, phrase
from reportgen.units import ONE, Unit, factor


@dataclass(frozen=True)
class Factor:
    """One ``source`` is ``value`` times one ``target``. ``divide``: the conversion asked for goes
    the other way. Always the direction in which the value is a terminating decimal, if one is."""

    source: Unit
    target: Unit
    value: Fraction
    divide: bool = field(compare=False)

    @property
    def label(self) -> str:
        """As the cell's label says it."""
        target, source = in_words(self.target, {}), in_words(self.source, {})
        return phrase("{target} in 1 {source}", target=target, source=source)


def conversion(source: Unit, target: Unit, slots: Mapping[str, str]) -> Factor | None:
    """The factor from one unit to another in a season; None where none is needed."""
    ratio = source.bound(slots) / target.bound(slots)
    value = factor(ratio, ONE)
    if value == 1:
        return None
    # What both units share cancels: from lb·USD/oz to USD is the factor from lb to oz.
    above = Unit.from_powers({n: p for n, p in ratio.powers if p > 0})
    below = Unit.from_powers({n: -p for n, p in ratio.powers if p < 0})
    turned = _exactness(1 / value) < _exactness(value)
    if turned:
        return Factor(below, above, 1 / value, True)
    return Factor(above, below, value, False)


def _exactness(value: Fraction) -> tuple[bool, bool]:
    """Sorts terminating decimals first, then values of 1 and more."""
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return (rest != 1, value < 1)
