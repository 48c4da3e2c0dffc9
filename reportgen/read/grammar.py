"""The grammar of values: number and unit, exactly.

``72.4 lb``, ``3 lb 4 oz``, ``34:30``, ``28.50 USD/lug``, ``84.5 %``, ``600 run``. Each number is
taken as an exact fraction and converted by an exact factor; only the result is rounded, once, to
a float. No expression is ever worked out.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from reportgen.read.currencies import CENTS, SIGNS
from reportgen.read.near import near, one_of, short
from reportgen.read.numbers import LARGEST, NUMBER, ratio, refuse
from reportgen.read.problem import Refusal
from reportgen.read.units import kind, unit_of
from reportgen.units import FRESH, HOUR, ONE, VOLUME, Unit, factor

_SPACES = str.maketrans({each: " " for each in "\u00a0\u2007\u2009\u202f\t\n"})
_WITH_UNIT = re.compile(rf"({NUMBER})\s*((?![eE][-+]?\d)[^\s\d.,_'’:*^()+=<>~-][^\s,*()+=<>~:]*)")
_BARE = re.compile(NUMBER)
_LETTERS = re.compile(r"(?=[OoIl]*[0-9])(?=[0-9.]*[OoIl])[0-9OoIl.]+(?=\s)")
"""A number in which a letter stands for a digit that looks like it."""
_DIGIT_OF = str.maketrans("OoIl", "0011")
_COMPOUND = re.compile(rf"(?:{NUMBER}\s*[A-Za-z][A-Za-z-]*\s*){{2,4}}")
_PIECE = re.compile(rf"({NUMBER})\s*([A-Za-z][A-Za-z-]*)")
_CLOCK = re.compile(r"([0-9]{1,4}):([0-9]{2})(?::([0-9]{2}))?")
_SIGN_FIRST = re.compile(rf"([{SIGNS}])\s*({NUMBER})(.*)")
_PER = re.compile(r"\s*/\s*|\s+(?:per|an?)\s+(?=[A-Za-z])")
_FLUID = re.compile(r"\bfl\.?\s+oz\b\.?")
_LAST = re.compile(r"[0-9]*(?:\.([0-9]*))?\s*([A-Za-z-]+)\s*$")
_UNIT_FIRST = re.compile(rf"([A-Za-z]+)\s*({NUMBER})")


def per(text: str) -> str:
    """``16 USD per flat`` as ``16 USD/flat``."""
    return _PER.sub("/", text)


def last_digit(text: str) -> str:
    """One of the last digit of a quantity, with its unit: of ``3 lb 4.5 oz``, ``0.1 oz``."""
    match = _LAST.search(text)
    if match is None:
        return text
    decimals = len(match.group(1) or "")
    return f"{1 / 10**decimals:.{decimals}f} {match.group(2)}"


class Measure:
    """Reads the quantities of one field, in the unit that the season shows."""

    def __init__(
        self,
        unit: Unit,
        slots: Mapping[str, str] | None = None,
        words: tuple[str, ...] = (),
    ) -> None:
        names = dict(slots or {})
        self.currency = names.pop("money", "")
        self.unit = unit.bound(names)
        self.words = words
        self._scales: dict[str, tuple[int, int]] = {}
        noun, example = kind(self.unit)
        self.shown = self.unit.text({"money": self.currency})
        if words:
            self.shown = re.sub(r"^1/", f"{words[0]}/", self.shown)
        self.example = example.format(self.shown)
        self.expected = f"{noun}, as {self.example}"

    def read(self, text: str) -> float:
        """The number in the field's unit. Raises :class:`Refusal`, with what to write instead."""
        above, below = self.exact(text)
        # The quotient of two whole numbers is rounded correctly, so this is the nearest float.
        return above / below

    def exact(self, text: str) -> tuple[int, int]:
        """The number as an exact fraction, not reduced."""
        match = _WITH_UNIT.fullmatch(text)
        if match is None:
            above, below = self._other(text.translate(_SPACES).strip())
        else:
            number, name = match.groups()
            scale = self._scales.get(name) or self._scale(name)
            above, below = ratio(number)
            above *= scale[0]
            below *= scale[1]
        if not -LARGEST * below < above < LARGEST * below:
            raise Refusal(
                f"'{short(text)}' is larger than anything in a season",
                self.expected,
                "check the number and its unit",
            )
        return above, below

    def _scale(self, name: str) -> tuple[int, int]:
        """How many of the field's units make one of the unit named."""
        money, slash, rest = name.partition("/")
        if self.currency in CENTS and money.strip().lower() in CENTS[self.currency]:
            above, below = self._scale(f"{self.currency}{slash}{rest}")
            self._scales[name] = above, below * 100
            return self._scales[name]
        unit = unit_of(name, self.unit, self.currency, self.words)
        if unit.dimension != self.unit.dimension:
            do = "check the unit, and whether the value belongs to another key"
            if (unit.dimension, self.unit.dimension) == (VOLUME.dimension, FRESH.dimension):
                do = "weigh it, a volume says nothing of that; where a scale showed it, write oz"
            raise Refusal(f"{short(name)} makes this {kind(unit)[0]}", self.expected, do)
        exact = factor(unit, self.unit)
        self._scales[name] = exact.numerator, exact.denominator
        return self._scales[name]

    def _other(self, text: str) -> tuple[int, int]:
        """What is not simply a number and a unit: clock time, several units, or wrong."""
        written, text = text, _FLUID.sub("floz", per(text))
        if _WITH_UNIT.fullmatch(text):
            return self.exact(text)
        digits = _LETTERS.match(text)
        if digits is not None:
            fixed = digits.group().translate(_DIGIT_OF) + text[digits.end() :]
            if _WITH_UNIT.fullmatch(fixed):
                raise Refusal(
                    f"'{short(text)}' has a letter in its number", self.expected, f"write {fixed}"
                )
        if self.unit.dimension == HOUR.dimension and (clock := _CLOCK.fullmatch(text)):
            return self._clock(text, clock)
        product = re.search(r"\dx\s*\d|\d\s+x\s*\d", text)
        if _COMPOUND.fullmatch(text) and not re.match(r"0[xXob]", text) and not product:
            return self._compound(text)
        if _BARE.fullmatch(text):
            above, below = ratio(text)
            if self.unit == ONE:
                return above, below
            raise Refusal(
                f"'{short(text)}' has no unit",
                self.expected,
                f"write {short(text)} {self.shown}, if that is the unit",
            )
        raise self._refusal(written)

    def _clock(self, text: str, clock: re.Match[str]) -> tuple[int, int]:
        hours, minutes, seconds = (int(each or 0) for each in clock.groups())
        if minutes > 59 or seconds > 59:
            raise Refusal(
                f"'{text}' has more than 59 minutes or seconds",
                "hours:minutes, as 34:30",
                "write it as 34.5 h, or count the hours up",
            )
        exact = Fraction(hours * 3600 + minutes * 60 + seconds, 3600) * factor(HOUR, self.unit)
        return exact.numerator, exact.denominator

    def _compound(self, text: str) -> tuple[int, int]:
        """``3 lb 4 oz``: whole numbers but for the last, from the larger unit to the smaller."""
        total, last = Fraction(0), Fraction(0)
        pieces = _PIECE.findall(text)
        for index, (number, name) in enumerate(pieces):
            if name == "m" and self.unit.dimension == HOUR.dimension:
                raise Refusal(
                    f"m makes this a length in '{short(text)}'", self.expected, "write min"
                )
            exact = Fraction(*(self._scales.get(name) or self._scale(name)))
            above, below = ratio(number)
            if (index and (exact >= last or number[0] in "+-")) or (
                index < len(pieces) - 1 and above % below
            ):
                raise Refusal(
                    f"'{short(text)}' is not one weight, length or time in several units",
                    "whole numbers from the larger unit to the smaller, as 3 lb 4.5 oz",
                    "write it in one unit",
                )
            last = exact
            part = Fraction(above, below) * exact
            total += -part if text.startswith("-") and index else part
        return total.numerator, total.denominator

    def _refusal(self, text: str) -> Refusal:
        if sign := _SIGN_FIRST.fullmatch(text):
            rest = sign.group(3).strip()
            shown = f"{sign.group(2)} {self.currency}{rest if rest.startswith('/') else ''}"
            return Refusal(
                f"'{short(text)}' has a sign that several currencies share",
                self.expected,
                f"write {shown}" if self.unit.dimension != ONE.dimension else "write a number",
            )
        if (match := _UNIT_FIRST.fullmatch(text)) and not re.fullmatch(r"\d*[eE]?", match.group(1)):
            return Refusal(
                f"'{short(text)}' has the unit before the number",
                self.expected,
                f"write {match.group(2)} {match.group(1)}",
            )
        if re.match(rf"{NUMBER}\s*[A-Za-z]+\.", text):
            plain = re.sub(r"(?<=[A-Za-z])\.", "", text)
            return Refusal(
                f"'{short(text)}' has points behind its units",
                self.expected,
                f"write {short(plain)}",
            )
        if re.fullmatch(rf"{NUMBER}\s*[A-Za-z]+\s*{NUMBER}", text):
            return Refusal(
                f"'{short(text)}' ends with a number that has no unit",
                self.expected,
                "write each number with its unit, as 3 lb 4 oz or 3 h 20 min",
            )
        if match := _BARE.match(text):
            rest = text[match.end() :].strip()
            if rest and rest[0].isalpha() and " " in rest and not re.search(r"\d", rest):
                return Refusal(
                    f"'{short(text)}' has words after the unit",
                    self.expected,
                    f"write {match.group()} {rest.split()[0]}, and the rest as a comment after #",
                )
        return refuse(text, self.expected, self.example)


def share(text: str) -> float:
    """``35 %`` as 0.35."""
    text = text.translate(_SPACES).strip()
    if text.endswith("%") and _BARE.fullmatch(number := text[:-1].rstrip()):
        above, below = ratio(number)
        return above / (below * 100)
    expected = "a share, as 35 %"
    if _BARE.fullmatch(text):
        above, below = ratio(text)
        value = above / below
        percent = f"{value * 100:.10g} %" if abs(value) <= 1 else f"{text} %"
        raise Refusal(f"'{short(text)}' has no %", expected, f"write {percent}, if that is meant")
    if _WITH_UNIT.fullmatch(text):
        raise Refusal(f"'{short(text)}' is not in per cent", expected, "write it in per cent")
    raise refuse(text, expected, "35 %")


def count(text: str, words: tuple[str, ...] = ()) -> float:
    """``3`` or, where a word may follow, ``600 run``: a whole number."""
    text = text.translate(_SPACES).strip()
    example = f"20 {words[0]}" if words else "3"
    expected = f"a whole number, as {example}"
    match = _BARE.match(text)
    if match is None:
        raise refuse(text, expected, example)
    word = text[match.end() :].strip()
    if word and word not in words:
        if not re.fullmatch(r"[^\W\d_][\w/%-]*", word) or re.match(r"[eE]\d", word):
            raise refuse(text, expected, example)
        hint = near(word, words)
        raise Refusal(
            f"'{short(word)}' is not wanted after the number",
            expected + (f"; the word may be {one_of(words)}" if words else ""),
            f"write {match.group()} {words[0]}, if that is what is counted"
            if words and not hint
            else f"write {match.group()} {hint}".rstrip(),
        )
    above, below = ratio(match.group())
    if above % below:
        raise Refusal(f"'{short(text)}' is not a whole number", expected, "count whole things")
    value = above / below
    if abs(value) >= LARGEST:
        raise Refusal(f"'{short(text)}' is larger than anything in a season", expected, "check it")
    return value
