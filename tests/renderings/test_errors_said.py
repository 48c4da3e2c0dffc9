"""Where a check that is an error fails, no rendering shows a figure without saying so."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from cli.seasons import run
from lxml import html

pytestmark = pytest.mark.slow

SAID = "Do not rely on it yet: there are errors"
SEASON = """
season: Slip Lane
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.25 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}
dryers: [{id: barn, mean_power: 800 W, price: 3000 USD, life: 600 run}]
containers: [{id: tin, parts: {tin: 1.50 USD}}]
lots:
  - {id: t-1, product: pear-slices, date: 2025-09-01, weighed: 20 lb, prepped: 16 lb, price: 12 USD}
runs:
  - {id: r-1, started: 2025-09-02 8:00, duration: 30 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 16 lb, dry: 42 oz, dryness: {water_activity: 0.2}}]}
packs:
  - {id: P-1, product: pear-slices, date: 2025-09-04, container: tin, count: 5, net: 4 oz,
     from: [r-1]}
  - {id: P-2, product: pear-slices, date: 2025-09-04, container: tin, count: 2, net: 4 oz,
     from: [r-1]}
uses: [{pack: P-1, count: COUNT, date: 2025-10-01, for: spoiled}]
"""
COMMANDS = {
    "check": ("check", "SEASON"),
    "figures": ("figures", "SEASON"),
    "figures as data": ("figures", "SEASON", "--json"),
    "explain": ("explain", "SEASON", "products.running_per_packed", "pear-slices"),
    "build": ("build", "SEASON", "-o", "FOLDER/book.xlsx"),
    "page": ("page", "SEASON", "-o", "FOLDER/page.html"),
    "sheet": ("sheet", "SEASON", "pear-slices", "-o", "FOLDER"),
    "labels": ("labels", "SEASON", "-o", "FOLDER/labels.html"),
}


def ran(folder: Path, name: str, count: int) -> str:
    (folder / "season").mkdir()
    (folder / "season" / "season.yaml").write_text(SEASON.replace("COUNT", str(count)))
    words = (
        word.replace("SEASON", f"{folder}/season").replace("FOLDER", str(folder))
        for word in COMMANDS[name]
    )
    done = run(*words)
    assert done.exit_code == 0, done.output
    return done.stdout + done.stderr


def shown(folder: Path) -> dict[str, str]:
    """What every written file says to whoever opens it."""
    found = {path.name: html.parse(path).getroot().text_content() for path in folder.glob("*.html")}
    for path in folder.glob("*.xlsx"):
        pages = openpyxl.load_workbook(path, data_only=True)
        # The first sheet is what is opened.
        first = pages.worksheets[0]
        found[path.name] = "\n".join(str(c.value) for row in first for c in row if c.value)
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_an_error_is_said_wherever_figures_are(tmp_path: Path, name: str) -> None:
    assert SAID in ran(tmp_path, name, 6)
    assert all(SAID in text for text in shown(tmp_path).values())


@pytest.mark.parametrize("name", ["figures", "sheet", "labels", "page"])
def test_nothing_is_said_where_there_is_none(tmp_path: Path, name: str) -> None:
    assert SAID not in ran(tmp_path, name, 5)
    assert not any(SAID in text for text in shown(tmp_path).values())


def test_files_were_looked_at(tmp_path: Path) -> None:
    ran(tmp_path, "sheet", 6)
    assert {*shown(tmp_path)} == {"pear-slices.html", "pear-slices.xlsx"}
