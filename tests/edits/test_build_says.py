"""What ``build`` says of a workbook in its place that somebody has edited, or only saved again."""

from __future__ import annotations

import shutil
from pathlib import Path

import openpyxl
import pytest
from cli.seasons import ROOT, run
from engines import gnumeric
from openpyxl.comments import Comment

pytestmark = pytest.mark.slow


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


def test_saved_again_by_a_suite_nothing_of_it_is_a_remark(tmp_path: Path) -> None:
    season, path = built(tmp_path)
    as_built = path.read_bytes()
    (saved,) = gnumeric.saved_again([path], tmp_path / "saved", "xlsx")
    shutil.copy(saved, path)
    assert path.read_bytes() != as_built
    done = run("build", season, "-o", path)
    assert done.exit_code == 0 and path.read_bytes() == as_built, done.output


def test_a_remark_is_not_lost_with_a_file_that_was_saved_again(tmp_path: Path) -> None:
    """A text in an empty cell, one over a label, a comment: three."""
    season, path = built(tmp_path)
    book = openpyxl.load_workbook(path)
    book["Lots"]["A1"] = "ask Ann about these"
    book["Lots"]["AZ3"] = "and Bo"
    book["Runs"]["A1"].comment = Comment("and Cy", "B")
    book.save(path)
    edited = path.read_bytes()
    done = run("build", season, "-o", path)
    said = " ".join(done.stderr.split())
    assert done.exit_code == 2 and path.read_bytes() == edited
    assert "Lots!A1: 'ask Ann about these', and 2 more" in said and "note of a record" in said
    assert run("build", season, "-o", path, "--force").exit_code == 0


def test_a_value_over_a_formula_is_not_lost_with_it(tmp_path: Path) -> None:
    """In a total and in a table that holds no record."""
    season, path = built(tmp_path)
    book = openpyxl.load_workbook(path)
    total = next(row[2] for row in book["Summary"].iter_rows() if row[0].value == "Money out")
    for cell, value in ((total, 77), (book["Cost"]["C7"], 5)):
        assert str(cell.value).startswith("=")
        cell.value = value
    book.save(path)
    edited = path.read_bytes()
    done = run("build", season, "-o", path)
    said = " ".join(done.stderr.split())
    assert done.exit_code == 2 and path.read_bytes() == edited
    assert ", and 1 more. None of it can be taken home" in said
    assert "Cost!C7: 5, and" in said or f"Summary!{total.coordinate}: 77, and" in said
    assert "reportgen compare" in said and "reportgen take" not in said
    with (season / "season.yaml").open("a", encoding="utf-8") as file:
        file.write("# a line of the maker's\n")
    done = run("build", season, "-o", path)
    assert done.exit_code == 2, done.output


def test_where_rows_have_moved_no_place_is_compared(tmp_path: Path) -> None:
    season, path = built(tmp_path)
    openpyxl.load_workbook(path).save(path)
    (season / "batches" / "late.yaml").write_text(
        "lots:\n  - {id: late-1, product: apple-rings, weighed: 9 lb, price: 4 USD}\n", "utf-8"
    )
    done = run("build", season, "-o", path)
    assert done.exit_code == 0, done.output


def test_what_was_typed_and_taken_is_no_remark(tmp_path: Path) -> None:
    season, path = built(tmp_path)
    book = openpyxl.load_workbook(path)
    sheet = book["Rates"]
    row = next(row for row in sheet.iter_rows() if row[0].value == "Electricity")
    row[2].value = "0,21"
    book.save(path)
    assert run("take", season, path).exit_code == 0
    assert run("build", season, "-o", path).exit_code == 0
