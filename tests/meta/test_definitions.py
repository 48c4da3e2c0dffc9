"""What every definition owes: a unit, a sentence, a source, a place."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest

import reportgen.trade
from meta.contract import NAMED
from meta.laid_out import LAYOUT
from reportgen.algebra.tables import Definition
from reportgen.algebra.views import Link
from reportgen.algebra.words import Words
from reportgen.layout.blocks import TableBlock
from reportgen.layout.used import constants_of
from reportgen.sheets.all import SHEETS
from reportgen.trade import BOOK
from reportgen.units import ONE

ALL = list(BOOK.order)
"""As they stand before a test runs: what one asks for, the algebra makes, and it has no place."""
OWN = [each for each in ALL if each.role in ("derived", "check", "link")]
"""Definitions that someone wrote; the others the algebra makes from them."""


def name_of(definition: Definition) -> str:
    return ".".join(definition.key)


def without(good: Callable[[Definition], object], among: Sequence[Definition]) -> list[str]:
    """The definitions that lack something."""
    return sorted(name_of(each) for each in among if not good(each))


@pytest.mark.parametrize(("table", "name", "unit"), NAMED)
def test_what_other_programs_read_is_defined_in_its_unit(table: str, name: str, unit: str) -> None:
    kind = BOOK.definition(table, name).kind
    if unit in ("flag", "date"):
        assert kind.type == unit
    else:
        assert (kind.type, kind.unit.text()) == ("number", unit)


def test_each_says_what_it_is() -> None:
    assert without(lambda d: re.fullmatch(r"[A-Z].{3,200}\.", d.doc), BOOK.order) == []
    assert without(lambda d: re.fullmatch(r"[a-z][a-z0-9_]*", d.name), BOOK.order) == []


def test_each_has_a_label_for_people() -> None:
    assert without(lambda d: re.fullmatch(r"[^\s_{}]([^_{}]*[^\s_{}])?", d.label), BOOK.order) == []


def test_each_names_its_source() -> None:
    assert without(lambda d: d.source == "definition" or len(d.source) > 12, BOOK.order) == []
    sourced = {name_of(d) for d in OWN if d.source != "definition"}
    assert {"dryers.wear_per_run", "loads.moisture_left", "products.running_bulk"} <= sourced


def test_each_has_one_kind_and_unit() -> None:
    def whole(d: Definition) -> bool:
        if d.tree is None:
            return False
        if d.kind.type != "number":
            return d.tree.type == d.kind.type and d.kind.unit == ONE and not d.kind.show
        if d.tree.type == "flag":
            return d.kind.unit == ONE
        return d.tree.unit.dimension == d.kind.unit.dimension

    assert without(whole, BOOK.order) == []


def test_each_rule_reads_in_words() -> None:
    words = Words(BOOK, {"fresh": "lb", "dried": "oz", "money": "USD"})

    def readable(d: Definition) -> bool:
        rule = words.rule(d)
        return bool(rule) and not re.search(r"_|None|  |<|\bkey\b", rule)

    assert without(readable, BOOK.order) == []


def test_each_has_a_place_on_a_sheet() -> None:
    def placed(d: Definition) -> bool:
        try:
            return LAYOUT.where(d).sheet in LAYOUT.placed
        except KeyError:
            return False

    assert without(placed, ALL) == []


def test_no_sheet_holds_a_table_twice() -> None:
    # A formula finds the other columns of its row in its own row of the sheet.
    for sheet in SHEETS:
        tables = [each.table.name for each in sheet.blocks if isinstance(each, TableBlock)]
        assert sorted(set(tables)) == sorted(tables), sheet.name


def test_no_two_stand_in_one_cell() -> None:
    spots = [LAYOUT.where(each) for each in ALL]
    assert len({(spot.sheet, spot.column, spot.first) for spot in spots}) == len(spots)


def test_each_check_says_what_to_do_and_nothing_else_does() -> None:
    checks = [d for d in OWN if d.role == "check"]
    assert without(lambda d: re.fullmatch(r"[A-Z].*\.", d.do), checks) == []
    assert without(lambda d: d.kind.type == "flag", checks) == []
    assert {d.severity for d in checks} == {"error", "caution"}
    assert without(lambda d: d.role == "check" or not d.do, OWN) == []


def test_every_constant_has_a_source() -> None:
    constants = constants_of(each.tree for each in BOOK if each.tree is not None)
    assert {"sublimation_floor", "stale_after", "balance", "rounding", "one_day"} <= set(constants)
    for constant in constants.values():
        assert constant.label and len(constant.source) >= len("definition")


RESERVED = {each for each in dir(Link) if each[0] != "_"} | {*Link.__dataclass_fields__}


def test_no_definition_reads_a_parents_column_by_a_name_the_link_has_itself() -> None:
    # ``product.name`` would be the name of the link, not that of the product.
    for module in reportgen.trade.SUBJECTS:
        path = Path(module.__file__ or "")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef):
                taken = [name for name in _read_through_links(node) if name in RESERVED]
                assert taken == [], f"{module.__name__}.{node.name}"


def _read_through_links(body: ast.FunctionDef) -> Iterator[str]:
    links = {
        each.arg
        for each in body.args.args
        if isinstance(each.annotation, ast.Name) and each.annotation.id == "Link"
    }
    for part in ast.walk(body):
        if isinstance(part, ast.Attribute) and ast.unparse(part.value) in links:
            yield part.attr
