"""The engine alone makes a workbook of another trade: nothing of food comes in by any door."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from engines import gnumeric, iron, libreoffice
from engines.cells import Fault, cells
from engines.compare import differences, uncached

pytestmark = pytest.mark.seasons

HERE = Path(__file__).parents[1]
ENGINE = {"algebra", "layout", "units", "write", "clock"}
"""And what tells the time of day, which knows nothing of anything."""
_MAKE = """
import sys
from pathlib import Path
from layout.boats import contents, numbers
from reportgen.layout.compose import compose
from reportgen.write.workbook import render
say = str.upper if len(sys.argv) > 2 else str
book = compose(contents(), numbers(), "The pier", "en", "a4", say)
Path(sys.argv[1]).write_bytes(render(book))
print(*sorted({name.split(".")[1] for name in sys.modules if name.startswith("reportgen.")}))
"""


def made(path: Path, *more: str) -> set[str]:
    """Write the workbook in a process of its own; the folders of the program it took."""
    done = subprocess.run(
        [sys.executable, "-c", _MAKE, str(path), *more],
        cwd=HERE, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return set(done.stdout.split())


def test_it_takes_nothing_of_the_trade(tmp_path: Path) -> None:
    assert made(tmp_path / "boats.xlsx") == ENGINE


def test_three_engines_confirm_it(tmp_path: Path) -> None:
    paths = [tmp_path / "boats.xlsx", tmp_path / "loud.xlsx"]
    made(paths[0])
    made(paths[1], "loud")
    by_calc = libreoffice.recalculate(paths, tmp_path / "calc")
    by_gnumeric = gnumeric.recalculate(paths, tmp_path / "gnumeric")
    for path in paths:
        contents = cells(path)
        assert sum(cell.formula is not None for cell in contents.values()) > 90
        assert uncached(contents) == []
        assert not [at for at, cell in contents.items() if isinstance(cell.value, Fault)]
        for found in (iron.recalculate(path), by_calc[path], by_gnumeric[path]):
            assert differences(contents, found) == []


def test_what_it_says(tmp_path: Path) -> None:
    path = tmp_path / "boats.xlsx"
    made(path)
    book = openpyxl.load_workbook(path, data_only=True)
    assert book.sheetnames == ["Pier", "Boats and trips", "Rules", "Checks"]
    sheet = book["Boats and trips"]
    assert sheet["A3"].value == "Look again"
    said = [cell.value for row in sheet.iter_rows() for cell in row]
    assert "A full boat is slow." in said
    rows = {row[0].value: row for row in sheet.iter_rows()}
    # 610.5 kg on a boat of 1200 lb, of 0.45359237 kg each (NIST SP 811, B.8).
    assert rows["t-3"][7].value == 610.5 / (1200 * 0.45359237)
    assert book.defined_names["pier_fee"].attr_text.startswith("Pier!$C$")
    formula = openpyxl.load_workbook(path)["Boats and trips"][rows["t-3"][7].coordinate].value
    assert formula.startswith("=")
