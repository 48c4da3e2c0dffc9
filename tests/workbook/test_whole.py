"""Workbooks as the program writes them: samples, the season to start from, some made-up ones."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest
from cli.seasons import run
from engines import audit, iron, libreoffice
from engines.cells import cells, formula_cells
from engines.compare import differences
from engines.edit import typed as typed_into
from seasons import Edit, Season, sample_edits, sample_seasons
from thorough import some
from trade.test_properties import renamed

from reportgen.program import build
from reportgen.sheets.all import SHEETS
from workbook import forms, places
from workbook.making import by_gnumeric, confirmed, engines_are_here, in_processes, read, wrong
from workbook.typing_in import renaming, typed

pytestmark = pytest.mark.slow
MANY = 100

ROOT = Path(__file__).parents[2]
SAMPLES = sorted(path for path in (ROOT / "samples").iterdir() if path.is_dir())


def write(season: Path, path: Path) -> Path:
    content, problems = build(season)
    assert content is not None, problems
    path.write_bytes(content)
    return path


EMPTY = "season: Nothing yet\ncurrency: USD\nunits: {fresh: lb, dried: oz}\n"


def test_the_engines_confirm_the_samples_and_the_seasons_to_start_from(tmp_path: Path) -> None:
    started, empty = tmp_path / "started", tmp_path / "empty"
    assert run("new", started).exit_code == 0
    empty.mkdir()
    (empty / "season.yaml").write_text(EMPTY, encoding="utf-8")
    assert len(SAMPLES) >= 2
    paths = [write(each, tmp_path / f"{each.name}.xlsx") for each in [*SAMPLES, started, empty]]
    assert audit.faults(paths, tmp_path / "out") == {}
    assert min(len(formula_cells(path)) for path in paths) > 2000


def confirm(job: tuple[Season, Path]) -> list[str]:
    season, folder = job
    path = write(season.write(folder), folder / "season.xlsx")
    contents = cells(path)
    return [*confirmed(contents, iron.recalculate(path)), *confirmed(contents, by_gnumeric(path))]


def test_ironcalc_and_gnumeric_confirm_made_up_seasons_on_the_programs_own_sheets(
    tmp_path: Path,
) -> None:
    engines_are_here(tmp_path)
    made_up = sample_seasons(some(of=12, at_every_change=2), 31)
    made_up += sample_seasons(some(of=2, at_every_change=1), 32, "medium")
    jobs = [(season, tmp_path / str(number)) for number, season in enumerate(made_up)]
    assert [each for each in in_processes(confirm, jobs) if each] == []


def build_whole(job: tuple[Season, Path]) -> Path:
    season, folder = job
    return write(season.write(folder), folder.with_suffix(".xlsx"))


def test_libreoffice_confirms_a_hundred_with_its_threads_on(tmp_path: Path) -> None:
    """It works out several columns at a time, and only some seasons are such that this shows."""
    engines_are_here(tmp_path)
    made_up = sample_seasons(MANY, 33)
    paths = in_processes(build_whole, [(s, tmp_path / str(n)) for n, s in enumerate(made_up)])
    found = libreoffice.recalculate(paths, tmp_path / "out")
    assert {path.name: bad for path in paths if (bad := differences(path, found[path]))} == {}


def type_in(job: tuple[Season, Edit, Path]) -> tuple[str, list[str]]:
    source, edit, folder = job
    path = write(source.write(folder / "before"), folder / "before.xlsx")
    before, after = read(source, folder / "before")[1], read(edit.season, folder / "after")[1]
    grids = places.grids(forms.layout(before, SHEETS), before)
    entered = typed(before, after, edit, grids)
    copy = typed_into(path, entered.cells, folder / "after.xlsx")
    found, expected = places.read_back(iron.recalculate(copy), grids), places.figures(after, grids)
    return str(edit), wrong(found, expected, entered.told)


def test_an_edit_on_the_programs_own_sheets_is_an_edit_of_the_season(tmp_path: Path) -> None:
    """Few, for such workbooks take long; many more go through two sheets."""
    engines_are_here(tmp_path)
    made_up = sample_edits(some(of=16, at_every_change=6), 41)
    assert len({edit.kind for _, edit in made_up}) > 4
    jobs = [(*each, tmp_path / str(number)) for number, each in enumerate(made_up)]
    assert [each for each in in_processes(type_in, jobs) if each[1]] == []


_BUILD = (
    "import sys; from pathlib import Path; from reportgen.program import build; "
    "sys.stdout.buffer.write(build(Path(sys.argv[1]))[0])"
)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_the_same_season_gives_the_same_bytes_in_every_process(sample: Path) -> None:
    digests = set()
    for seed in ("1", "4242"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        done = subprocess.run(
            [sys.executable, "-c", _BUILD, str(sample)],
            env=environment, cwd="/", capture_output=True, check=True,
        )  # fmt: skip
        digests.add(hashlib.sha256(done.stdout).hexdigest())
        assert len(done.stdout) > 50_000
    assert len(digests) == 1


def test_other_names_for_all_ids_change_no_figure(tmp_path: Path) -> None:
    """Every id typed over with another, in its own cell and wherever a cell refers to it."""
    for number, season in enumerate(sample_seasons(some(of=5, at_every_change=1), 34, "medium")):
        folder = tmp_path / str(number)
        read_as, before = read(season, folder / "before")
        other, names = renamed(season)
        assert len(names) > 5
        _, after = read(other, folder / "after")
        path = forms.write(read_as, before, folder / "before.xlsx")
        grids = places.grids(forms.layout(before), before)
        renames = renaming(before, after, grids)
        assert len(renames) > len(names)
        other_path = typed_into(path, renames, folder / "renamed.xlsx")
        by_calc = libreoffice.recalculate([other_path], folder / "out")[other_path]
        expected = places.figures(after, grids)
        for values in (iron.recalculate(other_path), by_calc):
            assert list(places.differing(places.read_back(values, grids), expected)) == []
        assert places.without_keys(expected) == places.without_keys(places.figures(before, grids))
