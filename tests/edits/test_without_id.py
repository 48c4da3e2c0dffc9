"""A row that was typed without an id: nothing counts it, it is red, and it does not come home."""

from __future__ import annotations

import re
from pathlib import Path

import openpyxl
import pytest
from engines import gnumeric
from thorough import every

from edits.desk import Desk, desk

pytestmark = pytest.mark.slow

TYPED: dict[str, dict[str, object]] = {
    "lots": {"product": "pear-slices", "date": 45_910.0, "weighed": 9.0},
    "packs": {"product": "pear-slices", "date": 45_945.0, "container": "jar", "count": 1.0},
    "draws": {"pack": "P-1", "run": "run-1"},
    "uses": {"date": 45_945.0, "pack": "P-1", "count": 1.0, "purpose": "household"},
    "counts": {"date": 45_946.0, "pack": "P-1", "counted": 1.0},
    "plan": {"product": "pear-slices", "container": "jar", "count": 2.0},
    "overheads": {"item": "stall", "cost": 12.0},
    "offers": {"product": "pear-slices", "seller": "shop", "date": 45_910.0},
}


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def red(at: Desk, table: str) -> tuple[str, str]:
    """The sheet, and the formula that turns the first spare row red."""
    sheet, cell = at.at.new(table, "key")
    row = int(cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
    for found in openpyxl.load_workbook(at.book)[sheet].conditional_formatting:
        (cells,) = found.sqref.ranges
        first, last = cells.min_row, cells.max_row
        for rule in found.rules:
            if first <= row <= last and rule.formula[0].startswith(f'($A{first}="")*'):
                return sheet, re.sub(rf"(?<=[A-Z]){first}\b", str(row), rule.formula[0])
    raise AssertionError(f"{sheet}: nothing turns row {row} red")


@pytest.mark.parametrize("table", every(2, [*TYPED]))
def test_it_is_red_and_refused_until_it_has_an_id(at: Desk, tmp_path: Path, table: str) -> None:
    files = at.texts()
    sheet, formula = red(at, table)
    at.formula(sheet, "ZZ1", formula.replace(">", "&gt;").replace("<", "&lt;"), 0)

    def is_red() -> bool:
        values = gnumeric.recalculate([at.book], tmp_path / "again")[at.book]
        return bool(values[sheet, "ZZ1"])

    assert not is_red()
    at.type({at.at.new(table, name): value for name, value in TYPED[table].items()})  # type: ignore[misc]
    assert is_red()
    done = at.run("take")
    assert done.exit_code == 1 and "so nothing counts it; type an id" in done.output
    assert at.texts() == files
    at.type({at.at.new(table, "key"): "mine-9"})
    assert not is_red()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() != files
    assert "added" not in at.kinds()


def test_an_id_as_others_there_have_it_is_named(at: Desk) -> None:
    at.type({at.at.new("uses", name): value for name, value in TYPED["uses"].items()})  # type: ignore[misc]
    assert "type an id, as use-3, or empty it" in at.run("compare").output
