"""What the file format refuses: names, lengths, characters.

The limits are those of ECMA-376 and of the implementer notes to it ([MS-OI29500], [MS-XLSB]).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

TEXT_LENGTH = 32_767
"""Characters (UTF-16 units) a cell may hold."""
FORMULA_LENGTH = 8_192
SHEET_NAME_LENGTH = 31
NAME_LENGTH = 255
FOOTER_LENGTH = 255
ROWS, COLUMNS = 1_048_576, 16_384

_CELL = re.compile(r"[A-Za-z]{1,3}[0-9]+\Z")
# What begins like a reference in row-and-column notation: R1, C1, R1C1, RC; with what follows.
_ROW_COLUMN = re.compile(r"(?:[Rr][Cc]?|[Cc])(?:[0-9]|\Z)|[Rr][Cc](?![A-Za-z])")
_NAME = re.compile(r"(?:[^\W\d]|\\)[\w.\\?]*\Z")
_SHEET = re.compile(r"[:\\/?*\[\]\x00-\x1f]")
_UNHOLDABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_LINE_END = re.compile("\r\n?")


class Unwritable(ValueError):
    """Something that an .xlsx file cannot hold, in words for the user."""


def checked_name(name: str) -> str:
    """The name, if it may stand for a cell; else :class:`Unwritable`.

    Letters, digits, ``_ . \\ ?``, first a letter, ``_`` or ``\\``; at most 255; not the look of a
    cell (``TAX2024``) nor the beginning of a row-and-column reference (``R1C1``, ``C1_FOO``); not a
    truth value.
    """
    if len(name) > NAME_LENGTH:
        raise Unwritable(f"the name {name[:40]}… is longer than {NAME_LENGTH} characters")
    if not _NAME.match(name):
        raise Unwritable(
            f"the name {name!r} needs a letter or _ first, then letters, digits, _ or ."
        )
    if name.upper() in ("TRUE", "FALSE"):
        raise Unwritable(f"the name {name!r} is a truth value to a spreadsheet")
    if _CELL.match(name) or _ROW_COLUMN.match(name):
        raise Unwritable(f"the name {name!r} reads as the reference to a cell")
    return name


def checked_sheet(name: str) -> str:
    """The sheet's name, if the format allows it; else :class:`Unwritable`."""
    if not name.strip():
        raise Unwritable("a sheet needs a name")
    if len(name) > SHEET_NAME_LENGTH:
        raise Unwritable(f"the sheet name {name!r} is longer than {SHEET_NAME_LENGTH} characters")
    if _SHEET.search(name) or _UNHOLDABLE.search(name):
        raise Unwritable(f"the sheet name {name!r} holds one of : \\ / ? * [ ] or a control sign")
    if name.startswith("'") or name.endswith("'"):
        raise Unwritable(f"the sheet name {name!r} must not begin or end with an apostrophe")
    if name.casefold() == "history":
        raise Unwritable(f"the sheet name {name!r} is kept by the format for itself")
    return name


def checked_once(names: Iterable[str], what: str) -> None:
    """Refuse two names that a spreadsheet takes for one: it does not tell case apart."""
    seen: dict[str, str] = {}
    for name in names:
        other = seen.setdefault(name.casefold(), name)
        if other is not name:
            raise Unwritable(f"two {what}s have one name: {other!r} and {name!r}")


def checked_formula(formula: str) -> str:
    """The formula (without ``=``), if a cell can hold it; else :class:`Unwritable`."""
    if not formula or formula.startswith("="):
        raise Unwritable(f"a formula stands without its equals sign: {formula[:40]!r}")
    if _UNHOLDABLE.search(formula):
        raise Unwritable(f"a control sign in the formula {formula[:40]!r}")
    if len(formula) > FORMULA_LENGTH:
        raise Unwritable(
            f"a formula of {len(formula)} characters, at most {FORMULA_LENGTH}: {formula[:40]}…"
        )
    return formula


def holdable(text: str) -> str:
    """The text as the format can hold it.

    A line ends with a line feed; a control character, half a surrogate pair or a non-character
    becomes ``\\ufffd``, which is seen, so that nothing vanishes. A text too long for a cell is
    refused: a part of it would pass for the whole.
    """
    if "\r" in text:
        text = _LINE_END.sub("\n", text)
    if _UNHOLDABLE.search(text):
        text = _UNHOLDABLE.sub("\ufffd", text)
    if len(text) > TEXT_LENGTH // 2 and len(text.encode("utf-16-le")) // 2 > TEXT_LENGTH:
        raise Unwritable(f"a text of {len(text)} characters, at most {TEXT_LENGTH}: {text[:40]}…")
    return text


def clipped(text: str, length: int) -> str:
    """The text, cut at a word's end and marked with … where it is longer than the format allows."""
    text = holdable(text)
    if len(text) <= length:
        return text
    cut = text[: length - 1]
    return f"{cut[: cut.rfind(' ')] if ' ' in cut[length // 2 :] else cut}…"
