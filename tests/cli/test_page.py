"""``page``: the file it writes, and what it says where it cannot."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cli.seasons import BATCH, SEASON, process, run, season

pytestmark = pytest.mark.seasons


def test_it_writes_one_file_and_names_the_verdict(tmp_path: Path) -> None:
    target = tmp_path / "larch.html"
    done = run("page", season(tmp_path), "-o", target)
    assert done.exit_code == 0
    assert done.stdout == f"{target}: The figures can be used; some cautions are open.\n"
    text = target.read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>") and "Larch Hollow 2025" in text
    assert text.count("botulism") >= 1


def test_who_sells_nothing_reads_first_what_to_eat(tmp_path: Path) -> None:
    dated = BATCH.replace("container: jar, count: 5", "container: jar, date: 2025-09-08, count: 5")
    eaten = dated.replace("for: stall", "for: household")
    sold = dated.replace("for: stall", "for: stall, price: 9 USD")
    for name, batch, first in (("eaten", eaten, "eat"), ("sold", sold, "glance")):
        target = tmp_path / f"{name}.html"
        assert run("page", season(tmp_path / name, batch), "-o", target).exit_code == 0
        text = target.read_text(encoding="utf-8")
        sections = re.findall('<section id="(eat|glance)"', text)
        assert sorted(sections) == ["eat", "glance"] and sections[0] == first
        assert re.findall('<li><a href="#(eat|glance)"', text) == sections
        # Of sales it speaks where something is sold.
        assert ("season.revenue/" in text) == (name == "sold")
        assert ('<section id="prices"' in text) == (name == "sold")


def test_without_a_name_it_is_the_folders(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    done = process("page", season(tmp_path), cwd=elsewhere)
    assert done.returncode == 0, done.stderr
    assert [each.name for each in elsewhere.iterdir()] == ["larch.html"]


def test_the_same_season_gives_the_same_bytes(tmp_path: Path) -> None:
    place = season(tmp_path)
    for name in ("one.html", "two.html"):
        assert run("page", place, "-o", tmp_path / name).exit_code == 0
    assert (tmp_path / "one.html").read_bytes() == (tmp_path / "two.html").read_bytes()


def test_it_follows_the_locale(tmp_path: Path) -> None:
    target = tmp_path / "larch.html"
    place = season(tmp_path, settings=SEASON + "locale: fr-FR\n")
    assert run("page", place, "-o", target).exit_code == 0
    assert '<html lang="fr">' in target.read_text(encoding="utf-8")


def test_an_unknown_locale_is_wrong_input(tmp_path: Path) -> None:
    target = tmp_path / "larch.html"
    place = season(tmp_path, settings=SEASON + "locale: xx-YY-zz\n")
    done = run("page", place, "-o", target)
    assert done.exit_code == 1
    assert "the locale 'xx-YY-zz' is not known, expected a language and a place" in done.stderr
    assert not target.exists()


def test_a_name_that_cannot_be_is_a_wrong_command_line(tmp_path: Path) -> None:
    place = season(tmp_path)
    for name, said in (("x.pdf", "end in .html"), ("no/x.html", "there is no folder")):
        done = run("page", place, "-o", tmp_path / name)
        assert done.exit_code == 2
        assert said in done.stderr
