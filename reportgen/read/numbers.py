"""A number as it is written, exactly; and why a text is none.

The form is that of YAML 1.2.2, section 10.3.2 (decimal integers and floats), so a number means
the same here as to any editor: ``0123`` is 123, ``1e3`` is 1000, ``.5`` a half.
"""

from __future__ import annotations

import re

from reportgen.read.near import short
from reportgen.read.problem import Refusal

NUMBER = r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?"
_PARTS = re.compile(r"([-+]?)([0-9]*)(?:\.([0-9]*))?(?:[eE]([-+]?[0-9]+))?")

_NOT_KNOWN = ("?", "??", "-", "--", "n/a", "na", "none", "unknown", "not known", "some", "tbd")
MOST_DIGITS = 30
LARGEST_EXPONENT = 15
LARGEST = 10**12
"""Nothing in a season is larger, in any unit."""


def ratio(text: str) -> tuple[int, int]:
    """A number's text as an exact fraction of two whole numbers, not reduced.

    Raises :class:`Refusal` for one that no measurement gives: thirty digits, a huge exponent.
    """
    match = _PARTS.fullmatch(text)
    assert match is not None
    sign, whole, decimals, exponent = match.groups()
    decimals = decimals or ""
    if len(whole) + len(decimals) > MOST_DIGITS:
        raise Refusal(
            f"'{short(text, 24)}' has {len(whole) + len(decimals)} digits",
            f"at most {MOST_DIGITS}",
            "round it",
        )
    power = 0
    if exponent:
        # The length first: turning a million digits into a number takes for ever.
        power = int(exponent) if len(exponent) < 5 else LARGEST_EXPONENT + 1
        if abs(power) > LARGEST_EXPONENT:
            raise Refusal(
                f"the exponent of '{short(text, 24)}' is too large",
                f"exponents from -{LARGEST_EXPONENT} to {LARGEST_EXPONENT}",
                "write the number out",
            )
    digits = int(f"{sign}{whole}{decimals}")
    power -= len(decimals)
    return (digits * 10**power, 1) if power > 0 else (digits, 10**-power)


def refuse(text: str, expected: str, example: str) -> Refusal:
    """Why a text that should begin with a number does not, and what to write instead."""
    shown = short(text)

    def because(what: str, do: str) -> Refusal:
        return Refusal(f"'{shown}' {what}", expected, do)

    if not text.strip():
        return Refusal("nothing stands here", expected, f"write for instance {example}")
    if len(text) > 100:
        return because("is too long to be a number with a unit", f"write for instance {example}")
    if re.search(r"[-+]?\.?\b(nan|inf|infinity)\b", text, re.I):
        return because("is no number that can be measured", "leave it out if it is not known")
    if re.match(r"\s*0[xXob]", text):
        return because("is not a decimal number", "write it in decimals")
    if re.search(r"\d\s*[A-Za-z%]*\s*[+*]\s*\d", text) and not re.search(r"[eE]\+", text):
        return because("is a sum to work out", "write the result")
    if re.search(r"\d\s*(\*|\^|x\s*\d|×|÷|\()|\d\s*[-+]\s*\d|=", text) and not re.search(
        r"[eE][-+]\d", text
    ):
        if re.fullmatch(r"\s*\d[\d.]*\s*-\s*\d[\d.]*\s*\D*", text):
            return because("is a range", "write one number")
        return because("is a sum to work out", "write the result")
    if re.search(r"\d_\d", text):
        plain = text.replace("_", "")
        return because("has an underscore in the number", f"write {short(plain)}")
    if found := re.search(r"\d[\d.]*(,\d+)+(\.\d+)?", text):
        return _comma(text, found.group(), because)
    if re.search(r"\d[ '’]\d{3}(?!\d)", text):
        plain = re.sub(r"(?<=\d)[ '’](?=\d{3})", "", text)
        return because("has its thousands set apart", f"write {short(plain)}")
    if re.search(r"\d\.\d+\.\d", text):
        plain = re.sub(r"\.(?=\d+\.)", "", text)
        return because("has two points in the number", f"write for instance {short(plain)}")
    if re.search(r"[½¼¾⅓⅔⅛⅜⅝⅞]|\d\s*/\s*\d", text):
        return because("is written with a fraction", "write decimals, as 0.5 for a half")
    if re.search(r"[-+]?\d", text) and re.match(r"\s*[-+~≈<>≤≥]|\s*(ca|about|approx)\b", text):
        return because(
            "says more than a number",
            "write the number alone; of a weight, an estimate is written as ~2 oz",
        )
    if text.strip().casefold() in _NOT_KNOWN:
        return because("says that it is not known", "leave the key out: what is unknown stays so")
    if re.match(r"\s*[^\W\d_]", text) and not re.search(r"\d", text):
        return because("has no number", f"write it in digits, as {example}")
    return because("does not begin with a number", f"write for instance {example}")


def _comma(text: str, number: str, because: object) -> Refusal:
    assert callable(because)
    refusal: Refusal
    if re.fullmatch(r"\d{1,3}(,\d{3})+(\.\d+)?", number):
        plain = text.replace(number, number.replace(",", ""))
        if number.count(",") == 1 and "." not in number:
            decimal = text.replace(number, number.replace(",", "."))
            refusal = because(
                "has a comma, which may part thousands or decimals",
                f"write {short(plain)} or {short(decimal)}",
            )
        else:
            refusal = because("has its thousands parted by commas", f"write {short(plain)}")
    else:
        plain = text.replace(number, number.replace(".", "").replace(",", "."))
        refusal = because("has a decimal comma", f"write {short(plain)}")
    return refusal
