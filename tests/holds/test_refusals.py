"""What the system refuses is a message with a name in it; exit code 3 is for faults of ours."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from cli.seasons import BATCH, ROOT, SEASON, process, run, season
from click.testing import Result

from reportgen.cli.refused import message

pytestmark = pytest.mark.slow

LONG = "x" * 300
WRITERS = (("build", ".xlsx"), ("page", ".html"), ("labels", ".html"))


def told(done: Result) -> str:
    return " ".join(done.stderr.split())


def refused(done: Result, *words: str) -> None:
    assert done.exit_code in (1, 2), done.output
    assert "fault of reportgen" not in done.stderr
    for word in words:
        assert word in told(done), done.stderr


@pytest.mark.parametrize("command", ["check", "build", "figures", "page", "labels"])
def test_a_name_too_long_as_season(tmp_path: Path, command: str) -> None:
    refused(run(command, tmp_path / LONG), LONG[:50], "longer than the system takes")


@pytest.mark.parametrize(("command", "ending"), WRITERS)
def test_a_name_too_long_as_output(tmp_path: Path, command: str, ending: str) -> None:
    done = run(command, season(tmp_path), "-o", tmp_path / f"{LONG}{ending}")
    refused(done, LONG[:50], "longer than the system takes")


@pytest.mark.parametrize("name", [f"{LONG}.csv", "a\0b.csv"])
def test_a_name_too_long_as_meter(tmp_path: Path, name: str) -> None:
    written = '"' + name.replace("\0", "\\0") + '"'
    batch = BATCH.replace("    energy: 20 kWh\n", f"    meter: {written}\n")
    refused(run("check", season(tmp_path, batch)), "batches/2025-09-05.yaml:")


@pytest.mark.parametrize("name", ["a\0b", "a\udcffb"])
def test_a_name_that_no_file_has(tmp_path: Path, name: str) -> None:
    refused(run("check", tmp_path / name))


@pytest.mark.parametrize("at", ["season", "season.yaml", "batches", "recipes", "log", "batch"])
def test_links_in_a_circle(tmp_path: Path, at: str) -> None:
    batch = BATCH.replace("    energy: 20 kWh\n", "    meter: log.csv\n") if at == "log" else BATCH
    place = season(tmp_path, batch)
    named = {"season": place, "log": place / "log.csv", "batch": place / "batches" / "b.yaml"}
    link = named.get(at, place / at)
    if link.exists():
        link.rename(tmp_path / "away")
    link.symlink_to(link)
    refused(run("check", place), link.name)


@pytest.mark.parametrize("epoch", ["abc", "1e9", "9" * 30, "-" + "9" * 30])
def test_an_instant_that_is_none(tmp_path: Path, monkeypatch, epoch: str) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    done = run("build", season(tmp_path), "-o", tmp_path / "a.xlsx")
    refused(done, f"SOURCE_DATE_EPOCH: '{epoch}")
    assert not (tmp_path / "a.xlsx").exists()


@pytest.mark.parametrize("command", ["build", "page", "figures", "check"])
def test_a_plan_for_ages(tmp_path: Path, command: str) -> None:
    """A day past the year 9999, which no calendar of any program here has."""
    settings = SEASON.replace("trays: 4", "trays: 4, load_limit: 0.1 lb")
    ages = "plan: [{product: pear-slices, container: jar, count: 1000000, net: 2 oz, start: 2026-09-05}]\n"  # noqa: E501
    place = season(tmp_path, settings=settings + ages)
    output = ("-o", tmp_path / f"a.{'xlsx' if command == 'build' else 'html'}")
    done = run(command, place, *output if command in ("build", "page") else ())
    assert done.exit_code == 0, done.stderr


@pytest.mark.parametrize("command", ["build", "page"])
def test_a_dryer_paid_for_in_ages(tmp_path: Path, command: str) -> None:
    settings = SEASON.replace("price: 2000 USD", "price: 900000000 USD, runs_per_year: 1")
    place = season(tmp_path, settings=settings)
    done = run(command, place, "-o", tmp_path / f"a.{'xlsx' if command == 'build' else 'html'}")
    assert done.exit_code == 0, done.stderr


def test_the_current_folder_is_gone(tmp_path: Path) -> None:
    season(tmp_path)
    (tmp_path / "gone").mkdir()
    line = f'rmdir "$PWD"; exec "{sys.executable}" -m reportgen check ../larch'
    done = subprocess.run(
        ["sh", "-c", line], cwd=tmp_path / "gone", env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2, done.stderr
    assert "the folder you are in is gone" in done.stderr
    assert "Traceback" not in done.stderr


def test_python_without_docstrings(tmp_path: Path) -> None:
    done = process("check", season(tmp_path), PYTHONOPTIMIZE="2")
    assert done.returncode == 2
    assert b"PYTHONOPTIMIZE=2 takes away the words" in done.stderr
    assert process("check", tmp_path / "larch", PYTHONOPTIMIZE="1").returncode == 0


def shell(place: Path, words: Sequence[object], streams: str) -> subprocess.CompletedProcess[str]:
    line = f'exec "$@" {streams}'
    command = ["sh", "-c", line, "sh", sys.executable, "-m", "reportgen", *map(str, words)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    ("streams", "code", "said"),
    [
        (">&-", 2, "the output: it is closed"),
        (">/dev/full", 2, "the output: the disk is full"),
        ("2>&-", 0, ""),
        ("2>/dev/full", 0, ""),
        (">&- 2>&-", 2, ""),
        (">/dev/full 2>/dev/full", 2, ""),
        ("<&-", 0, ""),
    ],
)
def test_streams_that_take_nothing(tmp_path: Path, streams: str, code: int, said: str) -> None:
    done = shell(tmp_path, ["check", season(tmp_path)], streams)
    assert (done.returncode, "Traceback" in done.stderr) == (code, False), done.stderr
    assert said in done.stderr


def test_wrong_input_is_that_though_nobody_hears_of_it(tmp_path: Path) -> None:
    place = season(tmp_path, settings="season: [\n")
    assert shell(tmp_path, ["check", place], "2>&-").returncode in (1, 2)
    assert shell(tmp_path, ["check", place], "2>/dev/full").returncode in (1, 2)


def test_a_reader_that_leaves(tmp_path: Path) -> None:
    code = f'"{sys.executable}" -m reportgen figures "{season(tmp_path)}" --json'
    line = f'( {code}; echo "code $?" >&2 ) | true'
    done = subprocess.run(["sh", "-c", line], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.stderr in ("code 141\n", "code 0\n")


@pytest.mark.parametrize("number", sorted(errno.errorcode))
def test_whatever_the_system_says(number: int) -> None:
    said = message(OSError(number, os.strerror(number), "shelf.xlsx"))
    assert said.startswith("shelf.xlsx: ") and "; " in said
    assert said.partition(": ")[2][0].islower()


def test_memory_that_is_full(tmp_path: Path, monkeypatch) -> None:
    def full(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("reportgen.program.read", full)
    refused(run("check", season(tmp_path)), "the memory is full")
