"""Gnumeric recalculates for certain, is strict where others are not, and says when it cannot."""

from __future__ import annotations

from pathlib import Path

import pytest

from engines import gnumeric, iron
from engines.cells import Fault
from engines.compare import differences
from engines.handmade import write
from engines.test_libreoffice import RIGHT, WRONG


def recalculated(path: Path, *, trust_caches: bool = False) -> dict:
    out = path.parent / "out"
    return gnumeric.recalculate([path], out, trust_caches=trust_caches)[path]


def test_caches_that_are_wrong_come_back_right(tmp_path: Path) -> None:
    path = write(tmp_path / "wrong.xlsx", WRONG)
    found = recalculated(path)
    assert {cell: found["Sheet", cell] for cell in RIGHT} == RIGHT
    assert [each.cell for each in differences(path, found)] == list(RIGHT)


def test_without_the_forced_recalculation_the_wrong_number_would_be_believed(
    tmp_path: Path,
) -> None:
    """Shows that the option matters: otherwise every comparison confirms what was written."""
    found = recalculated(write(tmp_path / "wrong.xlsx", WRONG), trust_caches=True)
    assert found["Sheet", "A3"] == 41.0


def test_numbers_come_back_with_all_their_digits(tmp_path: Path) -> None:
    contents = {"A1": 0.1, "B1": ("A1+0.2", 0.0), "A2": 7.0, "B2": ("1/A2", 0.0)}
    found = recalculated(write(tmp_path / "digits.xlsx", contents))
    assert found["Sheet", "B1"] == pytest.approx(0.1 + 0.2, rel=1e-15)
    assert found["Sheet", "B2"] == pytest.approx(1 / 7, rel=1e-15)


def test_it_is_strict_where_another_engine_is_not(tmp_path: Path) -> None:
    """What makes it worth having: both are errors, and the second engine shows 0."""
    contents = {"B1": ("SUMPRODUCT(A1:A1)", 0.0), "B2": ("N(A1)", 0.0), "B3": ("1/A1", 0.0)}
    path = write(tmp_path / "strict.xlsx", contents)
    found, lenient = recalculated(path), iron.recalculate(path)
    for cell in contents:
        assert isinstance(found["Sheet", cell], Fault)
    assert [lenient["Sheet", cell] for cell in ("B1", "B2")] == [0.0, 0.0]


def test_a_number_joined_to_a_text_has_the_digits_that_others_give_it(tmp_path: Path) -> None:
    contents = {
        "A1": 0.04406299,
        "B1": ('"net "&ROUND(A1,6)', ""),
        "B2": ('"12345678901234567890 and 1.5"&""', ""),
    }
    found = recalculated(write(tmp_path / "joined.xlsx", contents))
    assert found["Sheet", "B1"] == "net 0.044063"
    assert found["Sheet", "B2"] == "12345678901234567890 and 1.5"


def test_workbooks_of_one_name_are_kept_apart(tmp_path: Path) -> None:
    paths = []
    for number in range(3):
        (tmp_path / str(number)).mkdir()
        contents = {"A1": float(number), "A2": ("A1+1", 0.0)}
        paths.append(write(tmp_path / str(number) / "season.xlsx", contents))
    found = gnumeric.recalculate(paths, tmp_path / "out")
    assert [found[path]["Sheet", "A2"] for path in paths] == [1.0, 2.0, 3.0]


def test_a_file_that_is_no_workbook_is_named(tmp_path: Path) -> None:
    bad = tmp_path / "bad.xlsx"
    bad.write_bytes(b"PK\x03\x04 not a workbook at all")
    with pytest.raises(gnumeric.EngineFailed, match=r"bad\.xlsx"):
        recalculated(bad)


@pytest.mark.parametrize(
    ("setting", "outcome"), [("required", pytest.fail.Exception), ("", pytest.skip.Exception)]
)
def test_a_missing_engine_fails_where_required_and_else_is_skipped_loudly(
    setting: str, outcome: type[BaseException], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(gnumeric, "program", lambda: None)
    monkeypatch.setenv("REPORTGEN_ENGINES", setting)
    with pytest.raises(outcome, match="ENGINE MISSING: Gnumeric"):
        recalculated(tmp_path / "any.xlsx")
