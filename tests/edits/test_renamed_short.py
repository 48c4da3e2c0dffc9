"""Ids of a day in the short form, which come from its file's name until somebody types others."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import SHORT_FILE, desk
from reportgen import program

pytestmark = pytest.mark.slow

DAY = "apples-2025-09-12"
IDS = {"lots": DAY, "runs": f"{DAY}-run", "packs": f"{DAY}-pack-1"}


@pytest.mark.parametrize("table", IDS)
def test_one_that_is_renamed_takes_no_other_along(tmp_path: Path, table: str) -> None:
    """The pack still comes from its run, the load from its lot."""
    at = desk(tmp_path)
    at.type({at.at.cell(table, IDS[table], "key"): "garden"})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert "garden" in at.texts()[SHORT_FILE]
    numbers = program.read(at.folder).numbers
    assert numbers is not None
    wanted = IDS | {table: "garden"}
    for each, key in wanted.items():
        assert key in numbers.cells[each]["key"], each
    drawn = dict(zip(numbers.cells["draws"]["pack"], numbers.cells["draws"]["run"], strict=True))
    assert drawn[wanted["packs"]] == wanted["runs"]
    loaded = dict(zip(numbers.cells["loads"]["run"], numbers.cells["loads"]["lot"], strict=True))
    assert loaded[wanted["runs"]] == wanted["lots"]
    assert set(at.kinds()) == {"home"}
