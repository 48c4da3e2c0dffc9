"""What a person looks for in a workbook stands where they look for it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from cli.seasons import run
from openpyxl import Workbook, load_workbook
from openpyxl.utils import range_boundaries
from openpyxl.worksheet.worksheet import Worksheet
from samples.season import ROOT, sample
from texts.asked import kinds, made

from reportgen.layout.blocks import TableBlock
from reportgen.layout.placing import Layout
from reportgen.program import build
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK

pytestmark = pytest.mark.slow

KINDS = {kind.name: kind for kind in kinds()}
LISTS = "Not used yet", "For who looks closer"


@cache
def book(name: str) -> Workbook:
    """A workbook of a kind, its values read back."""
    return load_workbook(BytesIO(made(KINDS[name], "en-US")), data_only=True)


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Workbook:
    """What somebody sees first."""
    place: Path = tmp_path_factory.mktemp("starter") / "season"
    assert run("new", place).exit_code == 0
    data, problems = build(place)
    assert data is not None and not problems
    return load_workbook(BytesIO(data), data_only=True)


def texts(sheet: Worksheet) -> dict[int, str]:
    """The texts of the first column by their row."""
    return {cell.row: cell.value for cell in sheet["A"] if isinstance(cell.value, str)}


# --- hidden sheets ---------------------------------------------------------------------------


def listed(sheet: Worksheet) -> Iterator[tuple[int, str]]:
    """The headings over what is hidden, with their rows."""
    yield from ((row, text) for row, text in texts(sheet).items() if text in LISTS)


def test_how_a_hidden_sheet_is_shown_stands_under_the_heading_of_each_list() -> None:
    found = 0
    for name in KINDS:
        for row, _ in listed(book(name).worksheets[0]):
            assert "Unhide" in texts(book(name).worksheets[0])[row + 1]
            found += 1
    assert found >= 4


def test_the_lists_name_the_hidden_sheets(starter: Workbook) -> None:
    summary = starter.worksheets[0]
    rows = dict(listed(summary))
    assert tuple(rows.values()) == LISTS
    named = {text for row, text in texts(summary).items() if row > min(rows)}
    hidden = {sheet.title for sheet in starter if sheet.sheet_state == "hidden"}
    assert "Notebook" in hidden and hidden <= named


def test_the_first_sheet_leads_to_its_lists_from_the_top(starter: Workbook) -> None:
    summary = starter.worksheets[0]
    (link,) = (cell for cell in summary["A"][:8] if cell.hyperlink and "hidden" in str(cell.value))
    _, _, cell = link.hyperlink.location.rpartition("!")
    heading = summary[cell]
    assert heading.value == "How to read this workbook"
    assert heading.row < min(row for row, _ in listed(summary))


def test_lots_say_where_a_days_work_may_be_typed(starter: Workbook) -> None:
    (line,) = (text for text in texts(starter["Lots"]).values() if "Notebook" in text)
    assert "Unhide" in line


def test_the_readme_names_both_lists_and_what_weeks_need() -> None:
    told = (ROOT / "README.md").read_text(encoding="utf-8")
    paragraph = next(each for each in told.split("\n\n") if "is out of the way" in each)
    assert all(f"*{name}*" in paragraph for name in LISTS)
    assert "Weeks once" in paragraph.replace("\n", " ") and "`until`" in paragraph


# --- columns ---------------------------------------------------------------------------------


def test_what_is_typed_stands_beside_its_table() -> None:
    """One blank column at most lies between what is printed of it and what else is typed there."""
    numbers = sample("windrow-lane").numbers
    assert numbers is not None
    rows = {name: numbers.rows(table) for name, table in BOOK.tables.items()}
    layout = Layout(BOOK, contents(SHEETS, numbers), rows, numbers.slots)
    apart = []
    for sheet in SHEETS:
        for placed in layout.placed[sheet.name]:
            block = placed.block
            if not isinstance(block, TableBlock) or not placed.printed:
                continue
            end = max(column for column, group, _ in placed.spread if group.printed)
            start = min((c for c, group, _ in placed.spread if not group.printed), default=end)
            typed = [
                name
                for _, group, name in placed.spread
                if not group.printed and name in block.table.inputs
                if not block.table.inputs[name].fixed
            ]
            if start > end + 2 and typed:
                apart.append((sheet.name, block.table.name, typed))
    assert apart == []


def test_what_is_behind_the_figures_says_of_which_table(starter: Workbook) -> None:
    """Beside a table further down it may be a screen away from it."""
    found = 0
    for sheet in starter:
        heads = [cell for row in sheet.iter_rows() for cell in row
                 if str(cell.value).startswith("Behind the figures")]  # fmt: skip
        for cell in heads:
            if cell.row > 8:
                assert cell.value.startswith("Behind the figures: "), (sheet.title, cell.coordinate)
                found += 1
    assert found >= 5
    assert starter["Product data"]["AD13"].value == "Behind the figures: nominal weights"


def test_a_line_below_a_table_is_printed_once(starter: Workbook) -> None:
    """A wide table is parted on paper, its first column repeated: the line would be cut there."""
    for name in ("Lots", "Loads"):
        sheet = starter[name]
        (row,) = (
            row for row, text in texts(sheet).items() if "Notebook" in text or "below 0" in text
        )
        parts = [range_boundaries(each.rpartition("!")[2].replace("$", ""))
                 for each in str(sheet.print_area).split(",")]  # fmt: skip
        assert len(parts) > 1
        assert [left for left, top, _, bottom in parts if top <= row <= bottom] == [1]


# --- water left ------------------------------------------------------------------------------


def test_water_left_below_nothing_is_explained_where_it_stands(starter: Workbook) -> None:
    sheet = starter["Loads"]
    heads = [cell for row in sheet.iter_rows(max_row=8) for cell in row
             if str(cell.value).startswith("Moisture left") and cell.comment]  # fmt: skip
    assert [cell.value for cell in heads] == [
        "Moisture left", "Moisture left, at least", "Moisture left, at most",
    ]  # fmt: skip
    assert all("Below 0" in cell.comment.text for cell in heads)
    assert any("below 0" in text for text in texts(sheet).values())


def test_the_starters_loads_are_dry_by_their_product_data(starter: Workbook) -> None:
    """Worked out here: wet in lb, dry in oz, water of the recipes. A range that begins below 0 and
    ends above it is what the solids of one lot and another differ by."""
    sheet, data = starter["Loads"], starter["Product data"]
    names = {cell.value: cell.column for cell in sheet[6] if cell.value}
    water = {row[0].value: [cell.value for cell in row[3:6]] for row in data.iter_rows(7, 9)}
    found = 0
    for row in sheet.iter_rows(8):
        load = {name: row[column - 1].value for name, column in names.items()}
        if not isinstance(load["Dry"], float):
            continue
        usual, low, high = (
            1 - (1 - each) * load["Wet"] * 16 / load["Dry"] for each in water[load["Product"]]
        )
        assert low < 0.02 < usual < 0.07 < high
        assert load["Moisture left"] == pytest.approx(usual)
        assert load["Moisture left, at least"] == pytest.approx(low)
        found += 1
    assert found == 4
