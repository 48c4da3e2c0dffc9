"""The text of a unit: ``lb``, ``USD/kWh``, ``m2``, ``run/week``."""

from __future__ import annotations

from reportgen.read.currencies import CURRENCIES, SIGNS
from reportgen.read.near import near, short
from reportgen.read.problem import Refusal
from reportgen.units import (
    AREA,
    DENSITY,
    DISTANCE,
    ENERGY,
    FRESH,
    HOUR,
    MONEY,
    ONE,
    POWER,
    SPELLINGS,
    VOLUME,
    Unit,
)

_DAY = Unit.of("d")

# What a unit measures, with an example: {} stands for the unit the season shows.
_KINDS: tuple[tuple[Unit, str, str], ...] = (
    (FRESH, "a weight", "12.5 {}"),
    (HOUR, "a duration", "34.5 h or 3 h 20 min"),
    (MONEY, "an amount of money", "28.50 {}"),
    (MONEY / FRESH, "a price by weight", "1.10 {}"),
    (MONEY / ENERGY, "a price of electricity", "0.15 {}"),
    (MONEY / HOUR, "a price by time", "18 {}"),
    (MONEY / DISTANCE, "a price by distance", "0.67 {}"),
    (DISTANCE, "a length", "14 {}"),
    (ENERGY, "an energy", "21.8 kWh"),
    (POWER, "a power", "780 W"),
    (AREA, "an area", "0.135 m2"),
    (VOLUME, "a volume", "946 mL"),
    (DENSITY, "a density", "1400 kg/m3"),
    (FRESH / AREA, "a weight by area", "8 kg/m2"),
    (ONE / HOUR, "a number by time", "3 run/week"),
    (ONE, "a plain number", "0.24"),
)


def kind(unit: Unit) -> tuple[str, str]:
    """What a unit measures, and an example of it: ``a weight``, ``12.5 {}``."""
    for known, noun, example in _KINDS:
        if known.dimension == unit.dimension:
            return noun, example
    return "a number with its unit", "1 {}"


_COINS = ("dollar", "dollars", "buck", "bucks", "euro", "euros", "pound", "pounds")


def unit_of(text: str, wanted: Unit, currency: str, words: tuple[str, ...]) -> Unit:
    """The unit that a text names; ``words`` are plain counts (``run``) and count for nothing.

    ``wanted`` only helps to guess what a misspelt one was to be. Money is
    :data:`~reportgen.units.MONEY`, whatever the season's currency is. Raises :class:`Refusal`.
    """
    unit = ONE
    for index, name in enumerate(each.strip() for each in text.split("/")):
        if name in words:
            part = ONE
        elif name == currency:
            part = MONEY
        elif name in SPELLINGS and name != "%":
            part = SPELLINGS[name]
        else:
            raise _unknown(name, text, wanted, currency, words)
        unit = unit / part if index else part
    return unit


def _unknown(name: str, text: str, wanted: Unit, currency: str, words: tuple[str, ...]) -> Refusal:
    noun, example = kind(wanted)
    expected = f"{noun}, as {example.format(wanted.text({'money': currency}))}"
    if name == "%":
        return Refusal("a share of something is not wanted here", expected, "check the unit")
    if name in CURRENCIES:
        return Refusal(
            f"{name} is not the season's currency",
            f"{currency}, one currency a season",
            f"write the amount in {currency}",
        )
    if any(sign in name for sign in SIGNS):
        return Refusal(
            f"'{short(name)}' is a sign that several currencies share",
            f"the code {currency}",
            f"write {currency} in its place",
        )
    word = name.rstrip("0123456789")
    if word != name and word in SPELLINGS:
        return Refusal(
            f"'{short(name)}' ends with a number that has no unit",
            expected,
            "write each number with its unit, as 3 lb 4 oz or 3 h 20 min",
        )
    if wanted.dimension == MONEY.dimension and name.casefold() in _COINS:
        return Refusal(
            f"'{short(name)}' is no currency code", expected, f"write {currency} in its place"
        )
    if not name:
        return Refusal(f"'{short(text)}' ends without a unit", expected, "complete the unit")
    plain = name.replace("²", "2").replace("³", "3").replace("^", "")
    if plain in SPELLINGS:
        return Refusal(f"the unit '{short(name)}' is not known", expected, f"write {plain}")
    wanted_parts = {part for part, _ in wanted.dimension}
    candidates = [
        spelling
        for spelling, unit in SPELLINGS.items()
        if wanted_parts & {part for part, _ in unit.dimension}
    ]
    if MONEY.dimension[0][0] in wanted_parts:
        candidates.append(currency)
    match = near(name, [*candidates, *words])
    do = f"did you mean {match}?" if match else "check the unit"
    return Refusal(f"the unit '{short(name)}' is not known", expected, do)
