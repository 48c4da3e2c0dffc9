"""Sizes, areas and grids as they are typed: ``99x38``, ``4x2in``, ``54in2``, ``2x7``."""

from __future__ import annotations

import re
from fractions import Fraction

from reportgen.labels.type_size import INCH
from reportgen.read.problem import Refusal

_NUMBER = r"(\d{1,4}(?:\.\d{1,4})?)"
_PAIR = re.compile(rf"{_NUMBER}\s*[x×]\s*{_NUMBER}\s*(mm|cm|in)?", re.IGNORECASE)
_AREA = re.compile(rf"{_NUMBER}\s*(mm2|cm2|in2)", re.IGNORECASE)
_GRID = re.compile(r"(\d{1,2})\s*[x×]\s*(\d{1,2})", re.IGNORECASE)
_LENGTHS = {"mm": Fraction(1), "cm": Fraction(10), "in": INCH}


def pair(text: str) -> tuple[Fraction, Fraction]:
    """Width and height, or left and top, in millimetres. Raises :class:`Refusal`."""
    found = _PAIR.fullmatch(text.strip())
    if found is None:
        raise Refusal(f"'{text[:40]}' is no pair of lengths", "as 99x38 (millimetres) or 4x2in")
    unit = _LENGTHS[(found[3] or "mm").lower()]
    return Fraction(found[1]) * unit, Fraction(found[2]) * unit


def area(text: str) -> Fraction:
    """An area in square inches. Raises :class:`Refusal`."""
    found = _AREA.fullmatch(text.strip())
    if found is None or not Fraction(found[1]):
        raise Refusal(f"'{text[:40]}' is no area", "as 54in2 or 350cm2")
    unit = _LENGTHS[found[2][:2].lower()]
    return Fraction(found[1]) * unit**2 / INCH**2


def grid(text: str) -> tuple[int, int]:
    """Labels across and down. Raises :class:`Refusal`."""
    found = _GRID.fullmatch(text.strip())
    if found is None or not int(found[1]) or not int(found[2]):
        raise Refusal(f"'{text[:40]}' is no grid", "labels across and down, as 2x7")
    return int(found[1]), int(found[2])
