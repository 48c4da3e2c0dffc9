"""Each error a user can make: a tiny season, and exactly what is said about it.

A case is a file of ``cases/``: sections headed ``--- file name ---`` with what the file holds, the
last one headed ``--- expected ---``. A season.yaml that passes stands in where a case has none.
What the messages should be like is our own wish; the tests hold them to it, word for word.
"""

from __future__ import annotations

import os
import re
import tempfile
import time
from pathlib import Path

import pytest

from reportgen.model import load
from reportgen.read.files import lines_of
from reportgen.read.report import text

HERE = Path(__file__).parent
CASES = sorted((HERE / "cases").glob("*.txt"))
SEASON = """season: Test
currency: USD
units: {fresh: lb, dried: oz}
dryers: [{id: shed, trays: 5}]
containers: [{id: can-10}]
"""


def said(files: dict[str, str | bytes], name: str = "") -> str:
    """All that is said of a season made of these files, in under two seconds."""
    with tempfile.TemporaryDirectory() as folder:
        season = Path(folder, "season")
        season.mkdir()
        for path, held in {"season.yaml": SEASON, **files}.items():
            (season / path).parent.mkdir(parents=True, exist_ok=True)
            (season / path).write_bytes(held if isinstance(held, bytes) else held.encode())
        return said_of(season / name)


def said_of(path: Path) -> str:
    before = time.perf_counter()
    season, problems = load(path, HERE / "product-data")
    folder = path if os.path.isdir(path) else path.parent
    message = "\n".join(text(each, lines_of(folder)) for each in problems)
    assert time.perf_counter() - before < 2
    assert (season is None) == any(each.severity == "error" for each in problems)
    assert "Traceback" not in message
    return message


def sections(case: str) -> dict[str, str]:
    parts = re.split(r"^--- (.+) ---\n", case, flags=re.M)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_case(path: Path) -> None:
    files = sections(path.read_text("utf-8"))
    expected = files.pop("expected")
    assert said(dict(files)) == expected.removesuffix("\n")


def test_there_are_enough_cases() -> None:
    assert len(CASES) >= 200


# What cannot be written down in a text file of a few lines.
MADE: dict[str, tuple[dict[str, str | bytes], str]] = {
    "nine megabytes": (
        {"batches/a.yaml": b"# " + b"x" * 9_000_000},
        "batches/a.yaml: the file is larger than 5 MB; expected batches in files of a few hundred "
        "runs at most; split it into several files",
    ),
    "binary": (
        {"batches/a.yaml": b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"},
        "batches/a.yaml: this is no text file (a zero byte on line 3); expected YAML, which is "
        "plain text; move the file out of the season, or save it as plain text",
    ),
    "latin 1": (
        {"batches/a.yaml": "lots:\n- source: Hofladen Müller\n".encode("latin-1")},
        "batches/a.yaml: the file is not in UTF-8 (first seen on line 2); expected text in UTF-8; "
        "save it again with the encoding UTF-8",
    ),
    "utf 16": (
        {"season.yaml": "season: Test\n".encode("utf-16")},
        "season.yaml: the file is saved as UTF-16; expected UTF-8; save it again with the "
        "encoding UTF-8",
    ),
    "a byte order mark passes": ({"season.yaml": b"\xef\xbb\xbf" + SEASON.encode()}, ""),
    "windows line ends pass": ({"season.yaml": SEASON.replace("\n", "\r\n")}, ""),
    "fifty thousand brackets": (
        {"batches/a.yaml": "lots: " + "[" * 50_000},
        "batches/a.yaml:1: lists and mappings are nested too deeply; expected a few levels; look "
        "for a bracket that is not closed\n"
        f"    ...{'[' * 100}...\n"
        f"    {' ' * 23}^",
    ),
}


@pytest.mark.parametrize("name", MADE)
def test_made(name: str) -> None:
    files, expected = MADE[name]
    assert said(files) == expected


def test_a_folder_without_a_season(tmp_path: Path) -> None:
    assert said_of(tmp_path) == (
        "season.yaml: this folder has no season.yaml; expected the season's name, currency, rates "
        "and dryers in it; name the season's folder, or begin one with: reportgen new DIR"
    )


def test_nothing_there(tmp_path: Path) -> None:
    assert said_of(tmp_path / "pears") == (
        "pears: there is no such file or folder; expected a season's folder, or its file; check "
        "the name, or begin a season with: reportgen new pears"
    )


def test_a_name_longer_than_any_file(tmp_path: Path) -> None:
    assert "there is no such file or folder" in said_of(tmp_path / ("x" * 5000))


def test_a_batch_that_is_a_folder(tmp_path: Path) -> None:
    (tmp_path / "season.yaml").write_text(SEASON)
    (tmp_path / "batches" / "pears.yaml").mkdir(parents=True)
    assert said_of(tmp_path) == ""


def test_a_link_to_nowhere(tmp_path: Path) -> None:
    (tmp_path / "season.yaml").write_text(SEASON)
    (tmp_path / "batches").mkdir()
    (tmp_path / "batches" / "pears.yaml").symlink_to(tmp_path / "gone")
    assert said_of(tmp_path) == (
        "batches/pears.yaml: the file cannot be read (no such file or directory); expected a file "
        "that you may open; check that it is there and that you have the right to read it"
    )


def test_no_two_messages_are_the_same() -> None:
    # A message that fits two different faults explains neither.
    first: dict[str, str] = {}
    for path in CASES:
        expected = sections(path.read_text("utf-8"))["expected"]
        assert expected not in first or not expected, (path.stem, first.get(expected))
        first[expected] = path.stem
