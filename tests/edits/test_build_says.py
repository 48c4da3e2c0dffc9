"""What ``build`` says of a workbook in its place that somebody has edited, or only saved again."""

from __future__ import annotations

import shutil
from pathlib import Path

import openpyxl
from cli.seasons import ROOT, run


def built(tmp_path: Path) -> tuple[Path, Path]:
    season = tmp_path / "season"
    shutil.copytree(ROOT / "templates" / "season", season)
    path = tmp_path / "season.xlsx"
    assert run("build", season, "-o", path).exit_code == 0
    return season, path


def test_one_that_was_only_saved_again_is_built_anew(tmp_path: Path) -> None:
    season, path = built(tmp_path)
    as_built = path.read_bytes()
    openpyxl.load_workbook(path).save(path)
    assert path.read_bytes() != as_built
    assert run("build", season, "-o", path).exit_code == 0
    assert path.read_bytes() == as_built


def test_edits_are_counted_and_the_way_home_is_named(tmp_path: Path) -> None:
    season, path = built(tmp_path)
    book = openpyxl.load_workbook(path)
    sheet = book["Rates"]
    row = next(row for row in sheet.iter_rows() if row[0].value == "Electricity")
    row[2].value = 0.5
    book.save(path)
    edited = path.read_bytes()
    done = run("build", season, "-o", path)
    said = " ".join(done.stderr.split())
    assert done.exit_code == 2 and path.read_bytes() == edited
    assert "1 cell and what stands" in said
    assert "reportgen compare" in said and "reportgen take" in said
    assert run("take", season, path).exit_code == 0
    assert "0.5 USD/kWh" in (season / "season.yaml").read_text("utf-8")
    assert run("build", season, "-o", path).exit_code == 0
