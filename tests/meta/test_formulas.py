"""What formulas are made of: functions that every suite has, and no number but 0 and 1."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

import pytest
from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token

from meta.laid_out import formulas, workbook

pytestmark = pytest.mark.seasons

PORTABLE = {
    *("SUM", "MIN", "MAX", "ROUND", "ROUNDUP", "ABS", "SQRT", "POWER"),
    *("COUNT", "COUNTA", "COUNTIF", "COUNTIFS", "SUMIFS", "SUMPRODUCT", "AVERAGE", "AVERAGEIFS"),
    *("IF", "AND", "OR", "NOT", "INDEX", "MATCH", "ROW"),
}
"""In Excel 2010 and later, LibreOffice and Google Sheets alike; none is volatile."""

LONGEST = 300
NESTED = 4
"""A guard, and at most three choices below it."""


def tokens(formula: str) -> list[Token]:
    return [token for token in Tokenizer("=" + formula).items if token.type != "WHITE-SPACE"]


def functions(formula: str) -> Iterator[str]:
    for token in tokens(formula):
        if token.type == "FUNC" and token.subtype == "OPEN":
            yield token.value.rstrip("(").upper()


def depth(formula: str) -> int:
    """How many IFs stand inside one another."""
    deepest = 0
    stack: list[bool] = []
    for token in tokens(formula):
        if token.subtype == "OPEN":
            stack.append(token.value.upper() == "IF(")
            deepest = max(deepest, sum(stack))
        elif token.subtype == "CLOSE":
            stack.pop()
    return deepest


def test_there_are_many() -> None:
    assert len(formulas()) > 300
    assert len(set(formulas().values())) > 250


def test_functions_are_portable() -> None:
    used = Counter(name for text in formulas().values() for name in functions(text))
    assert set(used) <= PORTABLE, {name for name in used if name not in PORTABLE}


def test_no_number_is_typed_but_0_and_1() -> None:
    for place, text in formulas().items():
        for token in tokens(text):
            if token.type == "OPERAND" and token.subtype == "NUMBER":
                assert token.value in ("0", "1"), f"{place}: {text}"
            assert token.subtype not in ("LOGICAL", "ERROR"), f"{place}: {text}"


def test_no_formula_reaches_outside_or_into_names() -> None:
    for place, text in formulas().items():
        assert "[" not in text and "#" not in text and "{" not in text, place
        for token in tokens(text):
            if token.type == "OPERAND" and token.subtype == "RANGE":
                cell = token.value.rpartition("!")[2]
                assert re.fullmatch(r"\$?[A-Z]{1,2}\$?\d+(:\$?[A-Z]{1,2}\$?\d+)?", cell), place


def test_formulas_are_short_enough_to_read() -> None:
    long = {place: text for place, text in formulas().items() if len(text) > LONGEST}
    assert long == {}, "name an intermediate quantity"


def test_formulas_are_not_nested_deeply() -> None:
    deep = {place: text for place, text in formulas().items() if depth(text) > NESTED}
    assert deep == {}, "name an intermediate quantity"


def test_sheets_are_named_as_the_format_allows() -> None:
    names = [page.name for page in workbook().pages]
    assert len({name.casefold() for name in names}) == len(names)
    assert all(re.fullmatch(r"[A-Za-z][A-Za-z ]{0,30}", name) for name in names)


def test_the_same_season_gives_the_same_formulas() -> None:
    before = formulas()
    workbook.cache_clear()
    assert formulas() == before
