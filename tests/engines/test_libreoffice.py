"""LibreOffice recalculates for certain, and says so when it cannot."""

from __future__ import annotations

from pathlib import Path

import pytest

from engines import libreoffice
from engines.compare import differences
from engines.handmade import write

WRONG = {
    "A1": 6.0,
    "A2": 7.0,
    "A3": ("A1*A2", 41.0),
    "A4": ('IF(A1>5,"big","small")', "small"),
    "A5": ("A1>5", False),
    "A6": ('IF(A1>5,"",1)', 1.0),
    "A7": ('IF(A1>5,1,"")', ""),
}
RIGHT = {"A3": 42.0, "A4": "big", "A5": True, "A6": "", "A7": 1.0}


def test_caches_that_are_wrong_come_back_right(tmp_path: Path) -> None:
    path = write(tmp_path / "wrong.xlsx", WRONG)
    found = libreoffice.recalculate([path], tmp_path / "out")[path]
    assert {cell: found.get(("Sheet", cell), "") for cell in RIGHT} == RIGHT


def test_without_the_forced_recalculation_the_wrong_number_would_be_believed(
    tmp_path: Path,
) -> None:
    """Shows that the setting matters: otherwise every comparison confirms what was written."""
    path = write(tmp_path / "wrong.xlsx", WRONG)
    found = libreoffice.recalculate([path], tmp_path / "out", trust_caches=True)[path]
    assert found["Sheet", "A3"] == 41.0


def test_a_stale_cache_is_noticed(tmp_path: Path) -> None:
    path = write(tmp_path / "wrong.xlsx", WRONG)
    found = libreoffice.recalculate([path], tmp_path / "out")[path]
    assert [each.cell for each in differences(path, found)] == list(RIGHT)


def test_right_caches_make_no_difference(tmp_path: Path) -> None:
    right = {ref: (WRONG[ref][0], value) for ref, value in RIGHT.items()}
    path = write(tmp_path / "right.xlsx", WRONG | right)
    found = libreoffice.recalculate([path], tmp_path / "out")[path]
    assert differences(path, found) == []


def test_workbooks_of_one_name_are_kept_apart(tmp_path: Path) -> None:
    paths = []
    for number in range(3):
        (tmp_path / str(number)).mkdir()
        contents = {"A1": float(number), "A2": ("A1+1", 0.0)}
        paths.append(write(tmp_path / str(number) / "season.xlsx", contents))
    found = libreoffice.recalculate(paths, tmp_path / "out")
    assert [found[path]["Sheet", "A2"] for path in paths] == [1.0, 2.0, 3.0]


def test_a_file_that_is_no_workbook_is_named(tmp_path: Path) -> None:
    good = write(tmp_path / "good.xlsx", {"A1": 1.0})
    bad = tmp_path / "bad.xlsx"
    bad.write_bytes(b"PK\x03\x04 not a workbook at all")
    with pytest.raises(libreoffice.EngineFailed, match=r"bad\.xlsx"):
        libreoffice.recalculate([good, bad], tmp_path / "out")


@pytest.mark.parametrize(
    ("setting", "outcome"), [("required", pytest.fail.Exception), ("", pytest.skip.Exception)]
)
def test_a_missing_engine_fails_where_required_and_else_is_skipped_loudly(
    setting: str, outcome: type[BaseException], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(libreoffice, "program", lambda: None)
    monkeypatch.setenv("REPORTGEN_ENGINES", setting)
    with pytest.raises(outcome, match="ENGINE MISSING: LibreOffice"):
        libreoffice.recalculate([tmp_path / "any.xlsx"], tmp_path / "out")
