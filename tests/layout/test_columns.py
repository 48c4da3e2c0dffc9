"""The order of columns: none reads back to its own right by way of another sheet."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from cli.seasons import run
from meta.laid_out import workbook
from texts.asked import Kind, kinds

from layout import boats
from layout.reading_back import reading_back
from reportgen.algebra.expr import DefinitionError
from reportgen.layout import columns
from reportgen.layout.blocks import Contents, Group, Sheet, TableBlock
from reportgen.layout.compose import compose
from reportgen.layout.page import Page
from reportgen.program import read
from reportgen.sheets.all import SHEETS, contents

pytestmark = pytest.mark.slow

KINDS: dict[str, Kind] = {kind.name: kind for kind in kinds()}


def pages(kind: Kind) -> list[Page]:
    return compose(contents(kind.sheets, kind.numbers), kind.numbers, kind.title, "en", "a4").pages


@pytest.mark.parametrize("name", KINDS)
def test_no_column_of_any_workbook_reads_back(name: str) -> None:
    assert list(reading_back(pages(KINDS[name]))) == []


def test_nor_in_a_made_up_season_and_in_the_one_to_start_from(tmp_path: Path) -> None:
    assert list(reading_back(workbook().pages)) == []
    assert run("new", tmp_path / "s").exit_code == 0
    done = read(tmp_path / "s")
    assert done.numbers is not None
    made = compose(contents(SHEETS, done.numbers), done.numbers, "", "en", "a4")
    assert list(reading_back(made.pages)) == []


def test_in_the_order_that_the_sheets_ask_for_some_would(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is looked for is there to be found: the dryness of packs, on the sheet Packed from."""
    monkeypatch.setattr(columns._Order, "settled", lambda self: self.groups)
    found = list(reading_back(pages(KINDS["windrow-lane"])))
    assert any(each.startswith("Packed from!D") for each in found)
    assert len(found) > 40


@cache
def apart() -> list[Page]:
    """Boats and trips on a sheet each: a trip's part of its boat's income reads back."""
    first, second = (block for block in boats.SHEETS[1].blocks if isinstance(block, TableBlock))
    trips = TableBlock(
        second.table, (Group("Worked out", ("of_its_boat", "carried", "income")),), spare=3
    )
    sheets = (
        boats.SHEETS[0],
        Sheet("Boats", "", (first,), "record"),
        Sheet("Trips", "", (trips,), "record"),
        *boats.SHEETS[2:],
    )
    shown = Contents(sheets, verdict=("pier", "verdict"))
    return compose(shown, boats.numbers(), "", "en", "a4").pages


def test_it_stands_further_right_and_is_repeated_where_it_was_asked_for() -> None:
    page = next(page for page in apart() if page.name == "Trips")
    heads = {
        strip.column: strip.values[0]
        for band in page.bands
        for strip in band.strips
        if strip.style.role == "header"
    }
    twice = [column for column, head in heads.items() if head == "Of its boat"]
    assert twice[0] == 2 and len(twice) == 2, heads
    assert max(twice) > max(column for column, head in heads.items() if head == "Income")
    strips = {s.column: s for band in page.bands if band.rows > 1 for s in band.strips}
    repeated, worked_out = strips[twice[0]], strips[twice[1]]
    assert repeated.formula is not None and repeated.formula.startswith("$")
    assert "Boats!" in str(worked_out.formula)
    assert repeated.values == worked_out.values
    assert list(reading_back(apart())) == []


def test_a_sheet_with_two_homes_of_one_table_is_refused_by_name() -> None:
    book = boats.numbers().book
    write_down = TableBlock(boats.boats, (Group("Write down", ("load",)),))
    worked_out = TableBlock(boats.boats, (), heading="Worked out", rest=False)
    repeated = TableBlock(
        boats.boats, (Group("Again", ("load",), echo=True),), rest=False, keys=False
    )
    columns.columns_of(book, [Sheet("Harbour", "", (write_down, repeated), "record")])
    with pytest.raises(DefinitionError, match=r"Harbour.*'Write down' and 'Worked out'.*boats"):
        columns.columns_of(book, [Sheet("Harbour", "", (write_down, worked_out), "record")])
