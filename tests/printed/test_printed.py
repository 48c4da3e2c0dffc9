"""Every sheet of every workbook on paper: as many pages as it reckons with, and nothing cut.

LibreOffice prints; poppler reads the words with their places. A cell's text must stand in the
cell's own room, whole: so nothing is cut, hidden under its neighbour or shown as ###.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, replace
from pathlib import Path

import openpyxl
import pytest
from cli.seasons import run
from engines import libreoffice
from engines.need import missing
from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet
from past.test_past import WHOLE, write

from printed import paper
from reportgen import program
from reportgen.edits.memory import NAME as MEMORY
from reportgen.layout.page import Workbook
from reportgen.layout.paging import paging
from reportgen.trade import BOOK

SAMPLES = Path(__file__).parents[2] / "samples"
SELLING = ("Worth drying", "Price list", "Asked", "Channels")
LEAST, MOST = 60, 100
"""Percent: what is printed is neither blown up nor too small to be read."""


@dataclass
class Printed:
    """A workbook, as it reckons with and as it is printed. ``reckoned``: the pages of each sheet
    that is not hidden."""

    path: Path
    reckoned: dict[str, int]
    pdf: Path = Path()


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> list[Printed]:
    """Both samples on both papers, one with its hidden sheets shown, a costing workbook and a
    comparison; printed at one go."""
    if shutil.which("pdftotext") is None:
        missing("pdftotext", "On Debian or Ubuntu: apt-get install poppler-utils")
    folder = tmp_path_factory.mktemp("printed")
    found: list[Printed] = []
    compose = program.compose
    on, all_shown = "", False

    def kept(*given: object, **named: object) -> Workbook:
        book = compose(*given, **named)  # type: ignore[arg-type]
        book = replace(book, paper=on or book.paper)  # type: ignore[arg-type]
        for page in book.pages:
            page.hidden = "" if all_shown and page.name != MEMORY else page.hidden
        shown = [page for page in book.pages if not page.hidden]
        found.append(Printed(folder, {p.name: paging(p, book.paper).pages for p in shown}))
        return book

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(program, "compose", kept)
        for on in ("letter", "a4"):
            for sample in ("windrow-lane", "colline"):
                path = folder / f"{sample}-{on}.xlsx"
                all_shown = (sample, on) == ("colline", "letter")
                assert run("build", SAMPLES / sample, "-o", path).exit_code == 0
                found[-1].path = path
        on = ""
        assert run("sheet", SAMPLES / "windrow-lane", "pear-slices", "-o", folder).exit_code == 0
        found[-1].path = folder / "pear-slices.xlsx"
        years = [write(folder / f"of-{year}", year) for year in (2024, 2023)]
        path = folder / "years.xlsx"
        assert run("build", *years, "-o", path).exit_code == 0
        found[-1].path = path
    assert WHOLE and len({each.path for each in found}) == len(found) == 6
    for each, pdf in zip(
        found, libreoffice.printed([each.path for each in found], folder / "pdf"), strict=True
    ):
        each.pdf = pdf
    return found


def shown(book: openpyxl.Workbook) -> list[Worksheet]:
    return [sheet for sheet in book if sheet.sheet_state == "visible"]


def test_as_many_pages_as_reckoned_each_of_its_sheet(books: list[Printed]) -> None:
    for book in books:
        pages = paper.pages(book.pdf)
        print(book.path.name, book.reckoned, len(pages))
        assert sum(book.reckoned.values()) == len(pages), book.path.name
        at = 0
        for name, count in book.reckoned.items():
            for page in pages[at : at + count]:
                at += 1
                words = " ".join(word.text for word in page)
                assert name in words and f"{at} / {len(pages)}" in words, (book.path, at)


def test_what_is_hidden_or_for_auditing_is_no_page_of_the_season(books: list[Printed]) -> None:
    """LibreOffice prints a hidden sheet that has a range of its own, and Excel none that is hidden:
    the pages above are only those of sheets in sight."""
    lane, all_of_colline = books[0], books[1]
    hidden = {s.title for s in openpyxl.load_workbook(lane.path) if s.sheet_state != "visible"}
    assert {"Method", "Constants", "Energy", MEMORY} <= hidden
    assert not hidden & ({*paper.areas(lane.path)} | {*lane.reckoned})
    # Letter, the longer of both papers: what to dry and what to ask has four short sheets
    # (the price list takes two pages, the others one each); the season's others stay below 75.
    selling = sum(lane.reckoned[name] for name in SELLING)
    assert selling <= len(SELLING) + 1
    assert sum(lane.reckoned.values()) - selling < 75
    # Asked for, the rules of all quantities are printed small: thirty to a page, at least.
    assert all_of_colline.reckoned["Method"] <= len(BOOK.order) / 30
    assert MEMORY not in all_of_colline.reckoned


def test_the_file_itself_asks_for_these_pages_at_a_size_that_is_read(books: list[Printed]) -> None:
    for book in books:
        ranges = paper.areas(book.path)
        for sheet in shown(openpyxl.load_workbook(book.path)):
            asked = paper.sheetfuls(sheet, ranges[sheet.title])
            assert len(asked) == book.reckoned[sheet.title], sheet.title
            assert not sheet.sheet_properties.pageSetUpPr.fitToPage
            assert LEAST <= sheet.page_setup.scale <= MOST, sheet.title


def test_nothing_is_cut(books: list[Printed]) -> None:
    cells = 0
    for book in books:
        pages, ranges, at = paper.pages(book.pdf), paper.areas(book.path), 0
        wrong: list[str] = []
        for sheet in shown(openpyxl.load_workbook(book.path, data_only=True)):
            for sheetful in paper.sheetfuls(sheet, ranges[sheet.title]):
                wrong += paper.faults(sheet, sheetful, pages[at])
                cells += sum(
                    bool(paper.shown(sheet.cell(row, column)))
                    for row in sheetful.rows
                    for column in sheetful.columns
                )
                at += 1
        assert wrong == [], book.path.name
    assert cells > 20_000


def test_what_to_do_and_what_may_harm_are_on_the_first_page(books: list[Printed]) -> None:
    """Of a season with seven products, on both papers."""
    for book in (books[0], books[2]):
        words = " ".join(word.text for word in paper.pages(book.pdf)[0])
        assert "What to do next" in words
        assert "The figures here judge plausibility, not safety." in words


def test_ids_and_headings_stand_on_every_page_of_a_record_sheet(books: list[Printed]) -> None:
    parted = 0
    for book in books[:4]:
        ranges = paper.areas(book.path)
        for sheet in shown(openpyxl.load_workbook(book.path)):
            if not sheet.freeze_panes or sheet.freeze_panes[0] == "A":
                continue
            first = sheet[sheet.freeze_panes].row
            if first < 7:
                continue
            found = paper.sheetfuls(sheet, ranges[sheet.title])
            parted += len(found) > 1
            for each in found:
                assert each.columns[0] == 1 and first - 1 in each.rows, sheet.title
    assert parted > 10


def test_what_is_cut_is_found(tmp_path: Path) -> None:
    """The proof's own proof: a text under its neighbour, a number too wide, a row too low."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Cut"
    sheet["A1"], sheet["B1"] = "a text that is far too long for here", "its neighbour"
    sheet["A2"], sheet["A2"].number_format = 123456789.123, "#,##0.00"
    sheet["A3"] = "several words on lines of their own"
    sheet["A3"].alignment = Alignment(wrap_text=True)
    sheet["A6"] = "fits"
    for column in "AB":
        sheet.column_dimensions[column].width = 10
    for row in range(1, 7):
        sheet.row_dimensions[row].height = 15
    sheet.print_area, sheet.page_setup.scale = "A1:B6", 100
    sheet.page_margins.left = sheet.page_margins.top = 0.5
    path = tmp_path / "cut.xlsx"
    book.save(path)
    (pdf,) = libreoffice.printed([path], tmp_path / "pdf")
    (sheetful,) = paper.sheetfuls(sheet, ["A1:B6"])
    wrong = "".join(paper.faults(sheet, sheetful, paper.pages(pdf)[0]))
    for cell in ("A1", "A2", "A3"):
        assert f"Cut!{cell}:" in wrong
    assert "###" in wrong and "Cut!A6" not in wrong
