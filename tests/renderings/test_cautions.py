"""Where a figure could hurt whoever relies on it, what must be known stands beside it, everywhere.

What is to be said: freeze-drying is no kill step and moist food sealed without oxygen can carry
botulism (Utah State University Extension, Buying a Home Freeze-Dryer, 2019); weight alone cannot
prove dryness (sources of `trade/dryness.py`).
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from cli.seasons import run
from engines.cells import values
from handout.partner_cells import costing
from handout.seasons import gathered
from handout.sheets import made as sheet_of
from lxml import html
from samples.season import ROOT
from thorough import some

from renderings.seasons import LOCALES, of
from renderings.shown import in_html
from reportgen.algebra.book import Key
from reportgen.edits.memory import NAME as MEMORY
from reportgen.handout.season_page import cautions
from reportgen.layout.placing import Layout
from reportgen.past.sheets import SHEETS as COMPARED
from reportgen.program import texts
from reportgen.report.figures import quantities
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK
from reportgen.trade.safety import CAUTIONS, DRYNESS, KEEPING, OXYGEN, beside

pytestmark = pytest.mark.slow

SEASONS = tuple(LOCALES)[: some(of=len(LOCALES), at_every_change=3)]


def test_the_list_names_what_there_is() -> None:
    for table, name in CAUTIONS:
        found = BOOK.tables[table]
        assert name in found.definitions or name in found.inputs, (table, name)
    for words in (DRYNESS, OXYGEN, KEEPING):
        assert words in CAUTIONS.values()
        assert texts("fr-FR").knows(words)


def test_nothing_of_the_kind_is_left_out_of_the_list() -> None:
    said = (
        "moisture_left", "oxygen", "best-by", "dryness", "botulism", "how long it keeps",
        "may not be dry",
    )  # fmt: skip
    pages_to_people = {
        each.key: each.doc
        for table in BOOK.tables.values()
        for each in quantities(table)
        if each.kind.type != "flag"
        and any(word in f"{each.name} {each.doc}".lower() for word in said)
    }
    missing = {key: doc for key, doc in pages_to_people.items() if key not in CAUTIONS}
    assert missing == {}


def _on_sheets(layout: Layout) -> dict[str, set[Key]]:
    """Which quantities each sheet shows."""
    found: dict[str, set[Key]] = {}
    for sheet, table, name in layout.columns:
        found.setdefault(sheet, set()).add((table, name))
    for key, spot in layout.singles.items():
        found.setdefault(spot.sheet, set()).add(key)
    return found


def _sheets_wrong(path: Path, layout: Layout, locale: str = "") -> list[str]:
    """Cautions that a sheet lacks, in the language of the place."""
    held: dict[str, str] = {}
    for (sheet, _), value in values(path).items():
        held[sheet] = f"{held.get(sheet, '')}\n{value}"
    pages_ = [each.title for each in openpyxl.load_workbook(path) if each.title != MEMORY]
    names = dict(zip(layout.placed, pages_, strict=True))
    say = texts(locale).say
    return [
        f"{sheet}: {caution}"
        for sheet, shown in _on_sheets(layout).items()
        for caution in beside(shown)
        if say(caution) not in held[names[sheet]]
    ]


@pytest.mark.parametrize("name", SEASONS)
def test_every_sheet_of_the_workbook(name: str, tmp_path: Path) -> None:
    made = of(name)
    path = tmp_path / "season.xlsx"
    path.write_bytes(made.workbook)
    rows = {table: made.numbers.rows(each) for table, each in BOOK.tables.items()}
    layout = Layout(BOOK, contents(SHEETS, made.numbers), rows, made.season.slots)
    with_cautions = [sheet for sheet, shown in _on_sheets(layout).items() if beside(shown)]
    assert len(with_cautions) >= 2
    assert _sheets_wrong(path, layout, made.locale) == []


@pytest.mark.parametrize(
    ("name", "product"), [("windrow-lane", "peach-slices"), ("colline", "chives")]
)
def test_every_sheet_of_a_costing_workbook(name: str, product: str, tmp_path: Path) -> None:
    path = tmp_path / "costing.xlsx"
    path.write_bytes(sheet_of(name, product).workbook)
    layout = costing(name, product).layout
    assert any(beside(shown) for shown in _on_sheets(layout).values())
    assert _sheets_wrong(path, layout) == []


def test_the_comparison_shows_none_of_it() -> None:
    named = {
        (block.table.name, name)
        for sheet in COMPARED
        for block in sheet.blocks
        if hasattr(block, "groups")
        for group in block.groups
        for name in group.names
    }
    assert named and not beside(named)


@pytest.mark.parametrize("name", SEASONS)
def test_page_and_costing_sheets(name: str) -> None:
    made = of(name)
    warned = 0
    for page in (made.page, *made.sheets.values()):
        said = " ".join(html.fromstring(page).text_content().split())
        language = html.fromstring(page).get("lang")
        sample = {"fr": ("colline", "fr-FR")}.get(language, ("windrow-lane", ""))
        for caution in cautions(gathered(*sample)):
            assert caution in said
        warned += bool(beside((each.table, each.name) for each in in_html(page)))
    assert warned


@pytest.mark.parametrize("name", ["windrow-lane", "every question"])
def test_labels(name: str) -> None:
    page = html.fromstring(of(name).labels)
    assert "judge plausibility, not safety" in page.find("body/header").text_content()
    days = page.xpath("//*[starts-with(@data-figure, 'packs.best_by')]")
    assert days
    for each in days:
        assert "if it is dry and stays sealed" in each.text_content()


@pytest.mark.parametrize("name", SEASONS)
def test_figures_and_check(name: str) -> None:
    made = of(name)
    for caution in (DRYNESS, OXYGEN, KEEPING):
        assert caution in made.figures
        assert caution in made.check


@pytest.mark.parametrize(
    ("quantity", "caution"),
    [
        ("loads.dryness_verdict", DRYNESS),
        ("loads.moisture_left", DRYNESS),
        ("packs.dryness", DRYNESS),
        ("packs.best_by", KEEPING),
        ("packs.oxygen_here", OXYGEN),
        ("absorber_needs.count_needed", OXYGEN),
    ],
)
def test_explain(quantity: str, caution: str) -> None:
    place = ROOT / "samples" / "windrow-lane"
    table = quantity.partition(".")[0]
    row = str(of("windrow-lane").numbers.cells[table]["key"][0])
    for words in ([quantity], [quantity, row]):
        assert f"Caution: {caution}" in run("explain", place, *words).stdout.splitlines()
    other = run("explain", place, "products.running_cost", "pear-slices").stdout
    assert "Caution: " not in other
