"""docs/how-to.md: every situation is read as it stands, and its figures are those of the text.

The figures in the text are worked out with a pencil, from the round numbers of its season.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from cli.seasons import run

from reportgen.program import read
from reportgen.report.figures import keys
from samples.season import ROOT

TEXT = (ROOT / "docs" / "how-to.md").read_text(encoding="utf-8")
HEAD, *SECTIONS = re.split(r"^## ", TEXT, flags=re.MULTILINE)
_BLOCK = re.compile(r"```yaml\n# (\S+\.yaml)(?:, in its place)?\n(.*?)```", re.DOTALL)
_FIGURE = re.compile(r"^→ `(\w+)\.(\w+)(?: (\S+))?` = ([\d.]+)(?: \S+)?$", re.MULTILINE)
_KEY = re.compile(r"^(?=\w+:)", re.MULTILINE)


def write(section: str, folder: Path) -> None:
    """The season of a section; keys of its season.yaml take the place of those of the first."""
    ((_, base),) = _BLOCK.findall(HEAD)
    for name, body in _BLOCK.findall(section):
        if name == "season.yaml":
            own = {part.partition(":")[0] for part in _KEY.split(body) if part}
            kept = [part for part in _KEY.split(base) if part.partition(":")[0] not in own]
            base = "".join([*kept, body])
            continue
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(body, encoding="utf-8")
    (folder / "season.yaml").write_text(base, encoding="utf-8")


@pytest.mark.parametrize("section", SECTIONS, ids=lambda text: text.partition("\n")[0])
def test_its_figures_are_those_of_the_program(section: str, tmp_path: Path) -> None:
    write(section, tmp_path)
    figures = _FIGURE.findall(section)
    assert section.count("→") == len(figures) and bool(_BLOCK.findall(section)) == bool(figures)
    done = read(tmp_path)
    assert done.problems == [] and done.numbers is not None
    for table, name, row, said in figures:
        rows = keys(done.numbers, done.numbers.book.tables[table])
        value = done.numbers.value(table, name, rows.index(row) if row else 0)
        assert value == pytest.approx(float(said), abs=10.0 ** -len(said) / 2), (table, name)


def test_there_are_a_dozen() -> None:
    assert sum(bool(_FIGURE.findall(section)) for section in SECTIONS) >= 12


def test_a_season_is_closed_as_it_says(tmp_path: Path) -> None:
    (section,) = (each for each in SECTIONS if each.startswith("Closing a season"))
    write(section, tmp_path / "this")
    assert run("new", tmp_path / "next", "--after", tmp_path / "this").exit_code == 0
    numbers = read(tmp_path / "next").numbers
    assert numbers is not None
    assert numbers.value("carried_over", "dried", 0) == pytest.approx(10)
    assert numbers.value("packs", "on_hand", 0) == 3
