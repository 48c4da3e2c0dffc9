"""The papers beside the code say what is so: commands, examples, files they point to."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from reportgen.cli import app
from reportgen.program import read
from reportgen.sheets.all import SHEETS
from samples.season import ROOT

PAPERS = ("README.md", "DEVELOPERS.md", "CHANGELOG.md", "samples/README.md", "docs/how-to.md")


def text_of(paper: str) -> str:
    return (ROOT / paper).read_text(encoding="utf-8")


def test_readme_lists_the_commands_there_are_in_their_order() -> None:
    listed = re.findall(r"^\| `reportgen (\w+)", text_of("README.md"), re.MULTILINE)
    assert listed == list(app.commands)


@pytest.mark.parametrize("paper", PAPERS)
def test_commands_shown_exist(paper: str) -> None:
    shown = set(re.findall(r"reportgen ([a-z]+) (?:[A-Z]|samples/|my-)", text_of(paper)))
    assert shown <= set(app.commands)


@pytest.mark.parametrize("paper", PAPERS)
def test_links_lead_to_files(paper: str) -> None:
    for link in re.findall(r"\]\((?!https?:)([^)#]+)\)", text_of(paper)):
        assert (ROOT / paper).parent.joinpath(link).is_file(), link


def test_the_season_of_the_readme_reads_as_it_stands(tmp_path: Path) -> None:
    blocks = re.findall(r"```yaml\n# (\S+\.yaml)\n(.*?)```", text_of("README.md"), re.DOTALL)
    assert len(blocks) == 4
    for name, body in blocks:
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(body, encoding="utf-8")
    done = read(tmp_path)
    assert done.problems == []
    assert done.numbers is not None
    assert done.numbers.value("season", "errors", 0) == 0
    # By hand: 42.4 oz of pears in 3 cans of 11 oz, 37.6 oz of apples in 5 of 7 oz; and what was
    # weighed together or dried twice, 46 and 30 oz. What was left of the apples was eaten.
    assert done.numbers.value("season", "unpacked", 0) == pytest.approx(9.4 + 46 + 30)
    # The run that the power cut short.
    assert done.numbers.value("season", "runs_given_up", 0) == 1


def test_what_the_readme_adds_reads_as_it_stands(tmp_path: Path) -> None:
    """Periods of the day, a log, absorbers, scenarios, a plan: put to the season above."""
    text = text_of("README.md")
    for name, body in re.findall(r"```yaml\n# (\S+\.yaml)\n(.*?)```", text, re.DOTALL):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(body, encoding="utf-8")
    season, batch = re.findall(r"```yaml\n# more for (?:\S+)\n(.*?)```", text, re.DOTALL)
    first = (tmp_path / "season.yaml").read_text(encoding="utf-8")
    kept = [line for line in first.splitlines() if not line.startswith("rates:")]
    (tmp_path / "season.yaml").write_text("\n".join([*kept, season]), encoding="utf-8")
    (tmp_path / "batches" / "more.yaml").write_text(batch, encoding="utf-8")
    (log,) = re.findall(r"```csv\n(.*?)```", text, re.DOTALL)
    (tmp_path / "batches" / "logs").mkdir()
    (tmp_path / "batches" / "logs" / "run-2.csv").write_text(log, encoding="utf-8")
    done = read(tmp_path)
    assert [each.what for each in done.problems] == []
    assert done.numbers is not None
    found = done.numbers.cells
    row = found["runs"]["key"].index("run-2")
    # 655.2 and 648 W ten minutes apart; a Sunday, so none of it is dear.
    assert found["runs"]["log_energy"][row] == pytest.approx((0.6552 + 0.648) / 2 / 6)
    assert found["run_energy"]["period"][-1] == "period-2"
    assert found["runs"]["energy_cost"][row] == pytest.approx(0.12 * 0.6516 / 6)
    assert found["absorber_needs"]["count_needed"][0] is not None
    # Twelve cans are wanted; of the five that were filled two were sold.
    assert found["plan"]["count_left"] == [9] and found["plan"]["finish"][0] is not None
    assert len(found["scenarios"]["running_per_packed"]) == 4


def test_the_picture_is_small_enough_to_look_at() -> None:
    picture = ROOT / "docs" / "summary.png"
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert picture.stat().st_size < 300_000


@pytest.mark.parametrize(
    "said",
    [
        "does not make food safe",
        "botulism",
        "Raw meat, egg and dairy",
        "Weight alone cannot prove",
        "last word",
        "plausibility, not safety",
    ],
)
def test_readme_has_the_cautions_before_anything_is_built(said: str) -> None:
    before = text_of("README.md").split("## What you get")[0]
    assert said in before


def test_readme_names_every_sheet() -> None:
    table = text_of("README.md").partition("| sheets | for |")[2].partition("\n\n")[0]
    named = [name for row in re.findall(r"^\| ([A-Z][^|]*) \|", table, re.MULTILINE)
             for name in row.split(", ")]  # fmt: skip
    assert sorted(named) == sorted(sheet.name for sheet in SHEETS)
