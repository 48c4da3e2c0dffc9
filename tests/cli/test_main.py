"""The command line as a whole: help, exit codes, streams, and the last resort."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from cli.seasons import ROOT, SEASON, process, run, season
from reportgen.cli import app

pytestmark = pytest.mark.slow

COMMANDS = ("new", "check", "build", "compare", "take", "figures", "explain", "recipes")


def test_the_commands_stand_in_the_order_of_the_work() -> None:
    listed = app.list_commands(app.make_context("reportgen", ["check"]))
    assert tuple(listed)[: len(COMMANDS)] == COMMANDS


def test_help_says_what_it_does_how_to_begin_and_what_to_mind() -> None:
    text = run("--help").stdout
    plain = " ".join(text.split())
    assert "Begin with: reportgen new my-season" in plain
    assert "does not make food safe" in plain
    assert "Exit codes: 0 done, 1 the input is wrong, 2 the command line is wrong" in plain


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(command: str) -> None:
    done = run(command, "--help")
    assert done.exit_code == 0
    assert len(done.stdout.splitlines()) > 8
    assert "..." not in run("--help").stdout.partition("Commands:")[2]


def test_version() -> None:
    assert run("--version").stdout.startswith("reportgen ")


def test_nothing_at_the_path_is_a_wrong_command_line(tmp_path: Path) -> None:
    for command in ("check", "build", "figures"):
        done = run(command, tmp_path / "nix")
        assert done.exit_code == 2
        assert "there is no file or folder" in " ".join(done.stderr.split())


def test_a_folder_that_is_no_season_is_wrong_input(tmp_path: Path) -> None:
    for command in ("check", "build", "figures"):
        done = run(command, tmp_path)
        assert done.exit_code == 1
        assert done.stderr.startswith("season.yaml: this folder has no season.yaml")


def test_an_unknown_command_or_option_ends_with_2(tmp_path: Path) -> None:
    assert run("chekc", tmp_path).exit_code == 2
    assert run("check", tmp_path, "--fast").exit_code == 2


@pytest.mark.parametrize("locale", ["C", "en_US.ISO-8859-1"])
def test_output_is_utf_8_in_every_locale(tmp_path: Path, locale: str) -> None:
    place = season(tmp_path, settings=SEASON.replace("Larch Hollow", "Lärchengrund 松"))
    done = process(
        "figures", place, LC_ALL=locale, PYTHONUTF8="0", PYTHONCOERCECLOCALE="0",
        PYTHONIOENCODING="ascii",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "Lärchengrund 松 2025".encode() in done.stdout
    assert "≈".encode() in done.stdout


@pytest.mark.slow
def test_no_colour_codes(tmp_path: Path) -> None:
    place = season(tmp_path)
    for words in (
        ("check", place),
        ("figures", place),
        ("build", place, "-o", tmp_path / "a.xlsx"),
    ):
        done = process(*words)
        assert b"\x1b" not in done.stdout + done.stderr


def test_a_reader_that_leaves_early_is_no_error(tmp_path: Path) -> None:
    place = season(tmp_path)
    line = [sys.executable, "-m", "reportgen", "figures", str(place), "--json"]
    with subprocess.Popen(
        line, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as command:
        assert command.stdout is not None and command.stderr is not None
        command.stdout.close()
        assert command.stderr.read() == b""
        command.wait(30)


def test_a_fault_of_the_program_is_told_as_one(tmp_path: Path) -> None:
    code = (
        "import reportgen.program as p, reportgen.cli as c\n"
        "def read(*_): raise KeyError('shed')\n"
        "p.read = read\n"
        "raise SystemExit(c.main())\n"
    )
    line = [sys.executable, "-c", code, "check", str(season(tmp_path))]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 3
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert "a fault of reportgen, not of your season" in done.stderr
    assert "KeyError at <string>:2" in done.stderr


def test_help_needs_nothing_heavy() -> None:
    code = (
        "import sys, reportgen.cli\n"
        "heavy = {'pint', 'openpyxl', 'jinja2', 'yaml', 'reportgen.trade', 'reportgen.program'}\n"
        "print(sorted(heavy & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout == "[]\n"


def test_a_build_loads_nothing_that_only_libraries_would_take_along(tmp_path: Path) -> None:
    code = (
        "import os, sys, reportgen.__main__ as command\n"
        "def end(code):\n"
        "    print([name for name in command._UNUSED if sys.modules.get(name)])\n"
        "    raise SystemExit(code)\n"
        "os._exit = end\n"
        "command.main()\n"
    )
    words = ["build", str(season(tmp_path)), "-o", str(tmp_path / "s.xlsx")]
    line = [sys.executable, "-c", code, *words]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    assert done.stdout.endswith("[]\n")
