"""The numbers of a power log: with points or commas, units behind them, and words for nothing."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from reportgen.model.power_log.header import UNITS, Columns
from reportgen.read.near import short
from reportgen.read.problem import Refusal

_UNIT = re.compile(r"(?i)\s*(w|kw|wh|kwh|watts?)$")
_PLAIN = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?", re.I)
_GROUPS = re.compile(r"[-+]?\d{1,3}([,.])\d{3}")

Number = Callable[[str], float]


def number_of(commas: bool) -> Number:
    """The quick reader of a column. It raises ValueError for all that is not plainly a number.

    ``commas``: the column has decimal commas, so a point may part thousands.
    """
    if not commas:
        return float

    def read(text: str) -> float:
        if "." in text:
            raise ValueError(text)
        return float(text.replace(",", "."))

    return read


def odd_number(text: str, columns: Columns, commas: bool) -> float | None:
    """A number that the quick reader does not take; None for a word that stands for none."""
    unit = _UNIT.search(text.strip())
    scale = _scale(text, unit[1], columns) if unit else 1.0
    bare = re.sub(r"[\s'’\u00a0\u202f]", "", _UNIT.sub("", text.strip()))
    if not re.search(r"\d", bare):
        return None
    if "," in bare and "." in bare:
        decimal = max(bare.rfind(","), bare.rfind("."))
        bare = re.sub(r"[.,]", "", bare[:decimal]) + "." + bare[decimal + 1 :]
    elif "," in bare or commas:
        ambiguous = columns.delimiter == "," or "." in bare
        if ambiguous and _GROUPS.fullmatch(bare) and not bare.lstrip("+-").startswith("0"):
            raise Refusal(
                f"'{short(text)}' may be read as thousands or as decimals",
                "a decimal point, and thousands not set apart",
                "save the log again with plain numbers, as 1234.5",
            )
        bare = bare.replace(",", ".")
    if not _PLAIN.fullmatch(bare) or not math.isfinite(float(bare)):
        raise Refusal(
            f"'{short(text)}' is no number", "a reading, as 640.5", "correct the line, or delete it"
        )
    return float(bare) * scale


def _scale(text: str, unit: str, columns: Columns) -> float:
    """How many of the column's units one of the unit behind the number is."""
    kind, scale = UNITS[unit.casefold()]
    if kind != columns.kind:
        raise Refusal(
            f"'{short(text)}' has another unit than the column's header says",
            "one unit in a column",
            "correct the header or the line",
        )
    return scale / columns.scale


def has_commas(cells: list[str], delimiter: str) -> bool:
    """Whether some readings at the top of the file have decimal commas.

    Beside commas as separators, 1,234 alone does not say so: it may be thousands.
    """
    form = r"[-+]?(0?|\d*),\d+" if delimiter != "," else r"[-+]?(0?,\d+|\d+,(\d{1,2}|\d{4,}))"
    return any(re.fullmatch(rf"\s*{form}\s*[A-Za-z]*\s*", cell) for cell in cells)
