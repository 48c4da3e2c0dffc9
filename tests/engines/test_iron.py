"""IronCalc works everything out from nothing, and faults are told from texts."""

from __future__ import annotations

from pathlib import Path

from engines import iron
from engines.cells import Fault
from engines.compare import differences
from engines.handmade import write
from engines.test_libreoffice import RIGHT, WRONG


def test_caches_that_are_wrong_come_back_right(tmp_path: Path) -> None:
    path = write(tmp_path / "wrong.xlsx", WRONG)
    found = iron.recalculate(path)
    assert {cell: found["Sheet", cell] for cell in RIGHT} == RIGHT
    assert [each.cell for each in differences(path, found)] == list(RIGHT)


def test_a_fault_is_no_text(tmp_path: Path) -> None:
    contents = {
        "A1": 0.0,
        "AB2": ("1/A1", Fault("#DIV/0!")),
        "A3": ('"#DIV/0!"', "#DIV/0!"),
    }
    found = iron.recalculate(write(tmp_path / "faults.xlsx", contents))
    assert isinstance(found["Sheet", "AB2"], Fault)
    assert not isinstance(found["Sheet", "A3"], Fault)
    assert found["Sheet", "A3"] == "#DIV/0!"
