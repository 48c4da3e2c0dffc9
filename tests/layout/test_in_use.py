"""Sheets in use: what a season does not use is out of the way, and says how to come back."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import openpyxl
import pytest
from cli.seasons import run
from texts.asked import Kind, kinds

from layout import boats, household
from reportgen.layout.blocks import TableBlock
from reportgen.layout.columns import BEHIND, CHECKS, FURTHER
from reportgen.layout.compose import compose
from reportgen.layout.in_use import charted, unused
from reportgen.layout.page import Page, Workbook
from reportgen.layout.paging import paging
from reportgen.model.complete import CHANNELS
from reportgen.program import read, workbook
from reportgen.sheets.all import SHEETS, contents
from reportgen.write.workbook import render

pytestmark = pytest.mark.slow

KINDS: dict[str, Kind] = {kind.name: kind for kind in kinds()}


@cache
def started() -> Kind:
    """The season to start from: one dryer, no scenarios, no plan."""
    with TemporaryDirectory() as folder:
        assert run("new", Path(folder) / "s").exit_code == 0
        done = read(Path(folder) / "s")
    assert done.season is not None and done.numbers is not None
    return Kind("started", done.numbers, SHEETS, done.season, "")


def made(kind: Kind) -> Workbook:
    return compose(contents(kind.sheets, kind.numbers), kind.numbers, kind.title, "en", "a4")


@cache
def of_kind(name: str) -> Workbook:
    return made(KINDS[name])


def texts(page: Page) -> dict[str, object]:
    return {
        f"{strip.column}/{band.first}": strip.values[0]
        for band in page.bands
        for strip in band.strips
        if band.rows
    }


def test_what_the_season_to_start_from_does_not_use_is_hidden() -> None:
    hidden = {page.name for page in made(started()).pages if page.hidden}
    unused = {"Scenarios", "What if", "Plan", "Trips", "Energy", "Absorbers"}
    # Nobody outside the household has any of it, and none is for sale.
    unused |= {"Pricing", "Trace", "Recall", "Left in bulk", "Counts", "Asked", "Channels"}
    unused |= {"Market days", "Markets", "At markets", "Takings"}
    unused |= {"Price list", "Mixes", "Mixed from", "Bought for mixes", "What mixes bring"}
    unused |= {"Weeks", "Closed", "One more dryer"}
    # One file of the short form is there as an example.
    unused |= {"Notebook"}
    # The first sheet lists the whole shelf, which is short.
    closer = {"Method", "Constants", "Yield and energy", *SELLING - {"Pricing"}}
    assert hidden == unused | {"Whole shelf"} | closer


@cache
def shown_of(runs: int, more: tuple[str, ...], head: str = "") -> frozenset[str]:
    """The sheets in sight of a household's season, with some more written down."""
    with TemporaryDirectory() as folder:
        path = household.written(Path(folder) / "s", runs, more)
        with (path / "season.yaml").open("a", encoding="utf-8") as opened:
            opened.write(head)
        done = read(path)
    assert done.numbers is not None, done.problems
    return frozenset(sheet.name for sheet in SHEETS) - unused(SHEETS, done.numbers)


def test_a_household_that_sells_and_plans_nothing_sees_about_a_dozen_sheets() -> None:
    reading, auditing = {"Summary", "Cost"}, {"Checks"}
    recording = {"Lots", "Runs", "Loads", "Packs", "Packed from", "Stock", "Offers"}
    settings = {"Rates", "Equipment", "Product data"}
    assert shown_of(8, ()) == reading | recording | settings | auditing
    assert len(shown_of(8, ())) == 13
    seen = {sheet.name for sheet in SHEETS} - unused(SHEETS, started().numbers)
    assert seen == shown_of(8, ())


SELLING = {"Pricing", "Sold and saved", "Shop prices", "Worth drying", "How sure"}
PLAN = "plan: [{product: pear-slices, container: jar, count: 24, net: 6 oz, start: 2025-12-02}]\n"
OFFER = (
    "{{id: o-{n}, product: apple-rings, date: 2025-09-04, net: 4 oz, price: 9 USD, form: {form}}}"
)


def short(day: int) -> str:
    return (
        f"product: plum-halves\ndate: 2025-10-0{day}\nwet: 9 lb\ndry: 20 oz\n"
        'run: {started: "18:00", duration: 40 h}\npacked: 3 jar of 6 oz\n'
    )


def offers(count: int, form: str) -> str:
    return f"offers: [{', '.join(OFFER.format(n=n, form=form) for n in range(count))}]\n"


USES: dict[str, tuple[int, tuple[str, ...], str, set[str]]] = {
    "a gift": (8, ("uses: [{pack: p-1, for: gift}]\n",), "", {"Trace", "Recall"}),
    "a sale": (
        8, ("uses: [{pack: p-1, for: stall, price: 6 USD}]\n",), "",
        {"Trace", "Recall"} | SELLING,
    ),
    "a plan": (8, (), PLAN, {"Plan", "Worth drying", "How sure"}),
    "a scenario": (
        8, (), "scenarios: [{id: grown, ingredients: 0 %}]\n",
        {"Scenarios", "What if", "Worth drying", "How sure"},
    ),
    "eleven loads": (11, (), "", set()),
    "twelve loads": (12, (), "", {"Yield and energy"}),
    "eleven prices": (8, (offers(8, "freeze-dried"),), "", set()),
    "twelve prices": (8, (offers(9, "freeze-dried"),), "", {"Shop prices"}),
    "a frozen one": (8, (offers(1, "frozen"),), "", {"Shop prices"}),
    "a short file": (8, (short(1),), "", set()),
    "two short files": (8, (short(1), short(4)), "", {"Notebook"}),
}  # fmt: skip


@pytest.mark.parametrize("name", USES)
def test_what_a_season_uses_is_shown(name: str) -> None:
    runs, more, head, shown = USES[name]
    assert shown_of(runs, more, head) - shown_of(8, ()) == shown
    assert shown_of(8, ()) <= shown_of(runs, more, head)


def test_what_leaves_the_house_is_priced_and_traced(tmp_path: Path) -> None:
    assert run("new", tmp_path / "s").exit_code == 0
    path = tmp_path / "s" / "batches" / "used.yaml"
    for purpose, shown in (
        ("gift", {"Trace", "Recall"}),
        ("stall, price: 6.50 USD", {"Trace", "Recall", *SELLING}),
    ):
        kept = path.read_text()
        path.write_text(kept.replace("count: 2, for: household", f"count: 2, for: {purpose}"))
        numbers = read(tmp_path / "s").numbers
        path.write_text(kept)
        assert numbers is not None
        before = unused(SHEETS, started().numbers)
        assert before - unused(SHEETS, numbers) == shown


def test_the_first_sheet_lists_what_is_hidden_and_does_not_lead_there() -> None:
    first, *others = made(started()).pages
    hidden = {page.name for page in others if page.hidden}
    said = list(texts(first).values())
    below = said[said.index("Not used yet") :]
    assert any("Unhide" in str(each) for each in below)
    assert hidden <= set(below)
    led = {target.rpartition("!")[0].strip("'") for target in first.links.values()}
    assert led == {page.name for page in (first, *others) if not page.hidden}
    for page in others:
        assert not [t for t in page.links.values() if t.rpartition("!")[0].strip("'") in hidden]


@pytest.mark.parametrize("name", KINDS)
def test_only_what_has_neither_a_row_nor_a_filled_input_is_hidden(name: str) -> None:
    """Told from the finished page: nobody's inputs are filled, and no check fails there. Channels
    that need not be named are no inputs of anybody, nor are the numbers of the sizes."""
    sizes = range(1, len(KINDS[name].numbers.cells.get("prices", {}).get("key", [])) + 1)
    for page in of_kind(name).pages:
        if not page.hidden:
            continue
        for band in page.bands:
            for strip in band.strips:
                if strip.style.role in ("input", "check"):
                    filled = {each for each in strip.values if each} - {*CHANNELS, *sizes}
                    assert not filled, (page.name, strip.column)


def test_a_sheet_with_a_check_that_fails_is_not_hidden() -> None:
    numbers = boats.numbers()
    away = boats.SHEETS[1]
    blank = {
        **boats.RECORDS,
        "boats": {"key": ["dora"], "load": [None]},
        "trips": {name: [] for name in boats.RECORDS["trips"]},
    }
    assert away.name not in unused(boats.SHEETS, numbers)
    nothing = boats.worked_out(blank)
    assert away.name in unused(boats.SHEETS, nothing)
    checked = boats.worked_out({**blank, "boats": {"key": ["dora"], "load": [-1.0]}})
    assert away.name not in unused(boats.SHEETS, checked)


@pytest.mark.parametrize("name", KINDS)
def test_what_is_folded_holds_nothing_and_no_chart_reads_it(name: str) -> None:
    kind = KINDS[name]
    shown = {*charted(kind.sheets)}
    book = of_kind(name)
    assert any(page.folded for page in book.pages) or name != "colline"
    quiet = {
        sheet.name
        for sheet in kind.sheets
        for block in sheet.blocks
        if isinstance(block, TableBlock) and any(group.quiet for group in block.groups)
    }
    for page in book.pages:
        assert 1 not in page.folded
        nothing = (None, "", 0) if page.name in quiet else (None, "")
        for band in page.bands:
            for strip in band.strips:
                if strip.column in page.folded and band.rows > 1:
                    assert not [each for each in strip.values if each not in nothing]
    assert shown or kind.sheets[0].name == "Costing"


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", KINDS)
def test_what_is_for_the_screen_alone_is_on_no_paper(name: str, paper: Any) -> None:
    """Told by the headings above the columns: each is on paper, or none of its columns is."""
    groups = [
        group for sheet in KINDS[name].sheets for block in sheet.blocks
        if isinstance(block, TableBlock) for group in block.groups
    ]  # fmt: skip
    alone = {group.heading for group in groups if not group.printed} | {FURTHER, BEHIND, CHECKS}
    both = alone & {group.heading for group in groups if group.printed}
    seen = 0
    for page in of_kind(name).pages:
        areas = [] if page.hidden else paging(page, paper).areas
        lasts = {(first, heading): last for first, last, heading in page.spans}
        headings = [
            (band.first, strip.column, str(strip.values[0]))
            for band in page.bands if areas for strip in band.strips
            if strip.style.role == "group" and (strip.column, strip.values[0]) in lasts
            and strip.values[0] not in both
        ]  # fmt: skip
        for row, first, heading in headings:
            # Beside a table further down it says whose it is: "Behind the figures: upkeep".
            apart = heading in alone or heading.rpartition(": ")[0] in alone
            last = lasts[first, heading] if apart else first
            on_paper = [
                area
                for area in areas
                if area.first_row <= row <= area.last_row
                and area.first_column <= last
                and first <= area.last_column
            ]
            seen += apart
            assert bool(on_paper) != apart, (page.name, heading)
    assert seen or KINDS[name].sheets is not SHEETS


def test_the_file_hides_folds_and_filters(tmp_path: Path) -> None:
    kind = started()
    path = tmp_path / "s.xlsx"
    path.write_bytes(workbook(kind.season, kind.numbers))
    book, pages = openpyxl.load_workbook(path), made(kind).pages
    assert book[book.sheetnames[0]].sheet_state == "visible" and book.active.title == "Summary"
    for page in pages:
        sheet = book[page.name]
        assert sheet.sheet_state == (page.hidden or "visible")
        assert (sheet.auto_filter.ref or "") == page.filtered
        bare = [each.colId + 1 for each in sheet.auto_filter.filterColumn if each.hiddenButton]
        assert bare == ([page.margin] if page.filtered and page.margin else [])
        assert sheet.protection.sheet and sheet.protection.autoFilter == (not page.filtered)
        folded = {
            column
            for each in sheet.column_dimensions.values()
            if each.hidden
            for column in range(each.min, each.max + 1)
        }
        # The marks of its rows, too, stand in a column that nobody sees.
        assert page.folded <= folded and len(folded - page.folded) <= 1


def test_records_can_be_filtered_where_a_sheet_is_theirs_alone() -> None:
    pages = {page.name: page for page in made(KINDS["windrow-lane"]).pages}
    sheets = {sheet.name: sheet for sheet in SHEETS}
    filtered = {name for name, page in pages.items() if page.filtered}
    assert {"Lots", "Runs", "Loads", "Packs", "Stock", "Offers", "Trace"} <= filtered
    for name in filtered:
        assert len(sheets[name].blocks) == 1 and sheets[name].tab == "record"


def test_charts_show_what_is_filtered_or_folded_away(tmp_path: Path) -> None:
    path = tmp_path / "boats.xlsx"
    path.write_bytes(render(compose(boats.contents(), boats.numbers(), "", "en", "a4")))
    chart = openpyxl.load_workbook(path)["Pier"]._charts[0]
    assert chart.visible_cells_only is False
