"""The same number in the page, in the workbook and in ``figures``, for every figure shown."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from io import BytesIO

import openpyxl
import pytest
from lxml import html

from handout.seasons import of, page
from reportgen.program import workbook
from reportgen.report.figures import figures
from reportgen.report.show import iso
from reportgen.sheets.all import SHEETS
from reportgen.sheets.layout import Layout
from reportgen.trade import BOOK

SAMPLES = ("windrow-lane", "colline")


@dataclass(frozen=True)
class Shown:
    """A figure as a page shows it."""

    table: str
    name: str
    row: str
    value: str | None
    text: str


def shown(document: bytes) -> Iterator[Shown]:
    """Every figure of a page: those in texts and tables, and those in pictures."""
    for each in html.fromstring(document.decode()).iter():
        key = each.get("data-figure") if isinstance(each.tag, str) else None
        if key:
            column, _, row = key.partition("/")
            table, _, name = column.partition(".")
            text = "".join(t for t in each.itertext()).replace("\N{NO-BREAK SPACE}", " ").strip()
            if each.tag == "text" and each.find("tspan") is not None:
                text = (each.find("tspan").tail or "").strip()  # behind the number of its series
            yield Shown(table, name, row, each.get("value") or each.get("data-value"), text)


@cache
def in_workbook(sample: str):
    """Sheets by name, with cached values, and the layout that says where each quantity stands."""
    done = of(sample)
    book = openpyxl.load_workbook(BytesIO(workbook(done.season, done.numbers)), data_only=True)
    rows = {name: done.numbers.rows(table) for name, table in BOOK.tables.items()}
    return book, Layout(BOOK, SHEETS, rows, done.season.slots)


def cell_of(sample: str, figure: Shown):
    """The cell of a figure."""
    book, layout = in_workbook(sample)
    table = BOOK.tables[figure.table]
    if table.single:
        spot, row = layout.singles[figure.table, figure.name], 0
    else:
        spot = layout.column(figure.table, figure.name)
        row = [str(key) for key in of(sample).numbers.cells[figure.table]["key"]].index(figure.row)
    return book[spot.sheet].cell(spot.first + row, spot.column)


def read_back(text: str) -> float:
    """The number in a text as ``$1,234.50/oz`` or ``12.5%``."""
    found = re.search(r"(-?)[^\d-]*([\d,]+(\.\d+)?)", text)
    assert found, text
    number = float(found[1] + found[2].replace(",", ""))
    return number / 100 if text.endswith("%") else number


@pytest.mark.parametrize("sample", SAMPLES)
def test_many_are_shown(sample: str) -> None:
    found = list(shown(page(sample)))
    assert len(found) > 300
    assert {"season", "products", "prices", "packs", "plan", "dryers"} <= {f.table for f in found}


@pytest.mark.parametrize("sample", SAMPLES)
def test_each_has_the_value_of_its_cell(sample: str) -> None:
    for figure in shown(page(sample)):
        cell = cell_of(sample, figure)
        if figure.value is None:
            assert cell.value in (None, ""), figure
        elif isinstance(cell.value, datetime):
            assert figure.value.startswith(cell.value.date().isoformat()), figure
        elif isinstance(cell.value, int | float):
            assert float(figure.value) == pytest.approx(cell.value, rel=1e-12, abs=1e-12), figure
        else:
            assert figure.value == str(cell.value), figure


@pytest.mark.parametrize("sample", SAMPLES)
def test_each_is_read_as_its_cell_is(sample: str) -> None:
    compared = 0
    for figure in shown(page(sample)):
        cell = cell_of(sample, figure)
        if figure.value is None or not isinstance(cell.value, int | float):
            continue
        # The workbook's number format says how many decimals are read there.
        form = cell.number_format
        decimals = len(form.rstrip("%").partition(".")[2])
        step = 10.0**-decimals / (100 if form.endswith("%") else 1)
        text = figure.text
        if form.endswith("%") and not text.endswith("%"):
            text += "%"
        assert read_back(text) == pytest.approx(cell.value, abs=step * 0.5000001), figure
        bare = re.search(r"\.(\d+)", figure.text)
        assert len(bare[1] if bare else "") == decimals, (figure, form)
        compared += 1
    assert compared > 200


@pytest.mark.parametrize("sample", SAMPLES)
def test_each_is_that_of_the_figures_command(sample: str) -> None:
    done = of(sample)
    tables = figures(done.season, done.numbers)["tables"]
    compared = 0
    for figure in shown(page(sample)):
        known = tables.get(figure.table, {}).get(figure.row, {}).get(figure.name)
        if known is not None:
            value = known["value"]
            assert figure.value == (None if value is None else str(value)), figure
            compared += 1
    assert compared > 200


def test_days_are_days() -> None:
    done = of("windrow-lane")
    for figure in shown(page("windrow-lane")):
        if figure.table == "packs" and figure.name == "date" and figure.value:
            row = done.numbers.cells["packs"]["key"].index(figure.row)
            assert figure.value == iso(done.numbers.cells["packs"]["date"][row])
            assert datetime.strptime(figure.text, "%b %d, %Y").date().isoformat() == figure.value
