"""``build``: the file it writes, and the files it leaves alone."""

from __future__ import annotations

import io
import shutil
import sys
import time
import zipfile
from pathlib import Path

import openpyxl
import pytest

from cli.seasons import BATCH, process, run, season
from reportgen.cli import progress

pytestmark = pytest.mark.slow


@pytest.fixture
def built(tmp_path: Path) -> Path:
    """A workbook as it was built, beside its season ``larch``."""
    target = tmp_path / "shelf.xlsx"
    assert run("build", season(tmp_path), "-o", target).exit_code == 0
    return target


def test_it_names_the_file_and_the_verdict(tmp_path: Path) -> None:
    target = tmp_path / "shelf.xlsx"
    done = run("build", season(tmp_path), "-o", target)
    assert done.exit_code == 0
    assert done.stdout.startswith(f"{target}: The figures can be used; some cautions are open.\n")
    assert "places to look at" in done.stdout
    assert done.stderr == ""
    assert "Summary" in openpyxl.load_workbook(target).sheetnames


def test_without_a_name_it_is_the_folders_in_the_current_one(tmp_path: Path) -> None:
    place = season(tmp_path)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    done = process("build", place, cwd=elsewhere)
    assert done.returncode == 0, done.stderr
    assert [each.name for each in elsewhere.iterdir()] == ["larch.xlsx"]
    assert done.stdout.startswith(b"larch.xlsx: ")


@pytest.mark.parametrize("named", [".", "season.yaml"])
def test_the_season_may_be_named_from_inside(tmp_path: Path, named: str) -> None:
    place = season(tmp_path)
    assert process("build", named, cwd=place).returncode == 0
    assert (place / "larch.xlsx").is_file()


def test_what_was_built_may_be_built_again(built: Path) -> None:
    before = built.read_bytes()
    (built.parent / "larch" / "batches" / "2025-09-05.yaml").write_text(
        BATCH.replace("price: 30 USD", "price: 33 USD")
    )
    assert run("build", built.parent / "larch", "-o", built).exit_code == 0
    assert built.read_bytes() != before


def edited_by_a_program(path: Path) -> None:
    book = openpyxl.load_workbook(path)
    assert book["Rates"]["C6"].value == 0.2  # the price of electricity
    book["Rates"]["C6"] = 0.25
    book.save(path)


def edited_in_one_cell(path: Path) -> None:
    """All that the file says of itself stays as it was; one number changes."""
    copy = io.BytesIO()
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(copy, "w") as new:
        for name in old.namelist():
            data = old.read(name)
            if name.startswith("xl/worksheets/sheet"):
                data = data.replace(b"<v>0.2</v>", b"<v>0.3</v>")
            new.writestr(name, data)
    path.write_bytes(copy.getvalue())


def merely_saved_again(path: Path) -> None:
    openpyxl.load_workbook(path).save(path)


def cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:5000])


def not_a_workbook(path: Path) -> None:
    path.write_bytes(b"dear diary")


@pytest.mark.parametrize(
    "change",
    [edited_by_a_program, edited_in_one_cell, cut_short, not_a_workbook],
)
def test_what_someone_changed_is_not_overwritten(built: Path, change: object) -> None:
    assert callable(change)
    original = built.read_bytes()
    change(built)
    changed = built.read_bytes()
    assert changed != original
    done = run("build", built.parent / "larch", "-o", built)
    assert done.exit_code == 2
    assert "changed since reportgen wrote it" in " ".join(done.stderr.split())
    assert built.read_bytes() == changed
    assert run("build", built.parent / "larch", "-o", built, "--force").exit_code == 0
    assert built.read_bytes() == original


def test_what_was_merely_saved_again_is_no_edit(built: Path) -> None:
    original = built.read_bytes()
    merely_saved_again(built)
    assert built.read_bytes() != original
    assert run("build", built.parent / "larch", "-o", built).exit_code == 0
    assert built.read_bytes() == original


def test_a_copy_is_as_good_as_the_original(built: Path) -> None:
    copy = built.with_name("copy.xlsx")
    shutil.copy(built, copy)
    assert run("build", built.parent / "larch", "-o", copy).exit_code == 0


def test_an_empty_file_may_be_filled(tmp_path: Path) -> None:
    target = tmp_path / "empty.xlsx"
    target.touch()
    assert run("build", season(tmp_path), "-o", target).exit_code == 0
    assert target.stat().st_size


def test_wrong_input_leaves_the_old_file_whole(built: Path) -> None:
    before = built.read_bytes()
    (built.parent / "larch" / "season.yaml").write_text("season: [\n")
    done = run("build", built.parent / "larch", "-o", built)
    assert done.exit_code == 1
    assert "no workbook was written" in done.stderr
    assert built.read_bytes() == before
    assert [each.name for each in built.parent.iterdir() if each.is_file()] == [built.name]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("season.yaml", "must end in .xlsx"),
        ("no/such/shelf.xlsx", "make it first"),
        ("folder.xlsx", "this is a folder"),
    ],
)
def test_a_place_that_cannot_be_written_ends_with_2(tmp_path: Path, name: str, told: str) -> None:
    (tmp_path / "folder.xlsx").mkdir()
    done = run("build", season(tmp_path), "-o", tmp_path / name)
    assert done.exit_code == 2
    assert told in " ".join(done.stderr.split())


def test_many_runs_are_told_of(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = season(tmp_path)
    target = tmp_path / "shelf.xlsx"
    monkeypatch.setattr("reportgen.cli.build.MANY_RUNS", 2)
    assert "runs:" not in run("build", place, "-o", target).stderr
    monkeypatch.setattr("reportgen.cli.build.MANY_RUNS", 1)
    assert "2 runs: a spreadsheet will take a while" in run("build", place, "-o", target).stderr


class Screen(io.StringIO):
    """What a terminal would show."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("seen", "patience", "drawn"),
    [(Screen, 0.01, True), (Screen, 9, False), (io.StringIO, 0.01, False)],
)
def test_the_bar_shows_only_where_it_takes_long_and_someone_looks(
    monkeypatch: pytest.MonkeyPatch, seen: type[io.StringIO], patience: float, drawn: bool
) -> None:
    screen = seen()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(progress, "PATIENCE", patience)
    with progress.Progress() as bar:
        for stage in progress.STAGES:
            bar(stage)
            time.sleep(0.05)
    assert ("Building" in screen.getvalue()) is drawn
    assert ("composing" in screen.getvalue()) is drawn
