"""Marks that turn the order of letters round are shown as such, in the terminal and on pages."""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest
from cli.seasons import BATCH, SEASON, process, season

from reportgen.algebra.operations import as_text
from reportgen.marks import MARKS, seen

pytestmark = pytest.mark.slow

TURNED = "Larch \u202eLOOC\u2066 2025"
SHOWN = r"Larch \u202eLOOC\u2066 2025"


def test_the_marks_are_those_that_unicode_has() -> None:
    """All of the bidirectional classes that say nothing but the direction (Unicode Annex 9)."""
    explicit = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
    found = {chr(n) for n in range(0x110000) if unicodedata.bidirectional(chr(n)) in explicit}
    assert set(MARKS) == found | {"\u200e", "\u200f", "\u061c"}
    assert seen("пёс 松 شاي") == "пёс 松 شاي"


def turned(folder: Path) -> Path:
    settings = SEASON.replace("Larch Hollow 2025", f'"{TURNED}"')
    batch = BATCH.replace("date: 2025-09-05\n", 'date: 2025-09-05\n    source: "a\u202eb"\n')
    return season(folder, batch, settings)


@pytest.mark.parametrize("command", ["check", "figures", "page", "labels", "sheet"])
def test_terminal_and_pages(tmp_path: Path, command: str) -> None:
    place = turned(tmp_path)
    words = {"sheet": ["pear-slices", "--all"], "labels": ["--pack", "P-1", "--doubtful"]}
    done = process(command, place, *words.get(command, []), cwd=tmp_path)
    said = (done.stdout + done.stderr).decode()
    for page in tmp_path.glob("*.html"):
        said += page.read_text("utf-8")
    assert not set(said) & set(MARKS)
    assert SHOWN in said


def test_a_message_shows_them_and_the_caret_stands_right(tmp_path: Path) -> None:
    place = season(tmp_path, 'lots:\n  - {id: a, source: "a\u202eb", zzz: 1}\n')
    said = process("check", place).stderr.decode().splitlines()
    at = next(n for n, line in enumerate(said) if "'zzz'" in line) + 1
    assert "\\u202e" in said[at]
    assert said[at][said[at + 1].index("^") :].startswith("zzz")


def test_json_keeps_the_text(tmp_path: Path) -> None:
    done = process("figures", turned(tmp_path), "--json")
    assert "\\u202e" in done.stdout.decode()
    assert TURNED in json.dumps(json.loads(done.stdout), ensure_ascii=False)


@pytest.mark.parametrize("number", [-0.0, -0.001, -0.004, 0.0])
def test_nothing_is_not_less_than_nothing(number: float) -> None:
    """A spreadsheet rounds -0.001 to 0, and so does the text that the cache holds."""
    assert as_text(number, 2) == "0"
    assert as_text(number, 0) == "0"
