"""Lists that follow from records say what was typed into the workbook and is not in them."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from engines import iron
from engines.cells import Value
from workbook import places

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.layout.compose import compose
from reportgen.layout.page import Page
from reportgen.layout.placing import Layout
from reportgen.program import Read, inputs, workbook
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK
from reportgen.trade.rows import follow
from trade.rich import reading

pytestmark = pytest.mark.seasons

Typed = Mapping[str, Any]
PACK = {"key": "P-9", "product": "turnip-cubes", "container": "tin", "count": 2.0, "net": 4.0}

# What is typed: table, row (None: a spare one) and cells. Then the sheets that must say so, with
# the record they name first.
CASES: dict[str, tuple[list[tuple[str, int | None, Typed]], dict[str, str]]] = {
    "a pack": ([("packs", None, PACK)], {"Absorbers": "P-9"}),
    "a pack of another size": (
        [("packs", None, {**PACK, "net": 7.0})],
        {"Absorbers": "P-9", "Pricing": "P-9"},
    ),
    "what a pack was drawn from": (
        [("draws", None, {"key": "draw-9", "pack": "P-2", "run": "r-5"})],
        {"Trace": "P-2", "Recall": "P-2"},
    ),
    "a load in a run that was drawn from": (
        [("loads", None, {"run": "r-1", "lot": "t-2", "wet": 2.0, "dry": 4.0})],
        {"Trace": "P-1", "Recall": "P-1"},
    ),
    "a pack of last season": (
        [("packs", None, {**PACK, "carried_from": "somewhere"})],
        {"Trace": "P-9", "Absorbers": "P-9"},
    ),
    "another run for a pack": (
        [("draws", 0, {"run": "r-5"})],
        {"Trace": "P-1", "Recall": "P-1"},
    ),
    "another lot for a load": ([("loads", 0, {"lot": "t-2"})], {"Recall": "P-1"}),
    "a pack of another run's product": (
        [("draws", 0, {"pack": "P-3"})],
        {"Trace": "P-1", "Recall": "P-1"},
    ),
    "an absorber size": (
        [("absorbers", None, {"key": "s-900", "oxygen": 900.0})],
        {"Absorbers": "P-1"},
    ),
    "a load after all that was left was taken": (
        [
            ("uses", 3, {"weight": None, "purpose": "household", "rest": True}),
            ("loads", None, {"run": "r-3", "lot": "t-1", "wet": 1.0, "dry": 2.0}),
        ],
        {"Left in bulk": "use-4"},
    ),
    "a scenario": (
        [("changes", None, {"key": "dear", "energy_factor": 2.0})],
        {"Scenarios": "dear"},
    ),
    "a row of the plan": (
        [("plan", None, {"key": "plan-9", "product": "beet-cubes", "count": 3.0, "net": 5.0})],
        {"Plan": "plan-1"},
    ),
    "a price, and nothing that lists follow": ([("lots", 1, {"price_each": 20.0})], {}),
}


@cache
def full() -> Read:
    with TemporaryDirectory() as folder:
        return reading(Path(folder))


def numbers() -> Numbers:
    made = full().numbers
    assert made is not None
    return made


def edited(typed: list[tuple[str, int | None, Typed]]) -> dict[str, Cells]:
    """The records with what is typed, and the lists as they were."""
    assert full().season is not None
    tables = deepcopy(inputs(full().season))  # type: ignore[arg-type]
    for table, row, cells in typed:
        columns = tables[table]
        for name, column in columns.items():
            if row is None:
                column.append(cells.get(name))
            elif name in cells:
                column[row] = cells[name]
    return tables


def calculated(tables: dict[str, Cells]) -> Numbers:
    assert full().season is not None
    return Numbers(BOOK, tables, full().season.slots)  # type: ignore[union-attr]


def lacking(made: Numbers) -> dict[str, list[str]]:
    """Sheet → what its tables' checks say, by the program."""
    cells, found = made.cells["checks"], {}
    shown = {
        sheet.name: {block.table.name for block in sheet.blocks if hasattr(block, "table")}
        for sheet in SHEETS
        if sheet.name != "Summary"
    }
    for number, check in enumerate(BOOK.checks):
        for table in check.lacking if cells["failing"][number] else ():
            for sheet in (name for name, tables in shown.items() if table.name in tables):
                found.setdefault(sheet, []).append(str(cells["first"][number]))
    return found


def lines(page: Page, values: Mapping[tuple[str, str], Value] | None = None) -> list[str]:
    """What stands above the first table, of the cells that a check fills."""
    found = [
        (band.first, strip.values[0])
        for band in page.bands
        for strip in band.strips
        if "Checks!" in (strip.formula or "") and strip.column == 1
    ]
    if values is not None:
        found = [(row, values.get((page.name, f"A{row}"))) for row, _ in found]
    return [str(value) for _, value in found if value not in (None, "")]


@pytest.mark.parametrize("case", CASES)
def test_a_list_names_what_it_lacks_until_it_is_built_again(case: str) -> None:
    typed, named = CASES[case]
    tables = edited(typed)
    found = lacking(calculated(tables))
    assert {sheet: said[0] for sheet, said in found.items()} == named
    # By another way: the lists of a fresh build are not what they were, just where that is said.
    again, was = follow(BOOK, tables), follow(BOOK, edited([]))
    assert (again != was) == bool(named)
    assert lacking(calculated({**tables, **again})) == {}


def test_nothing_is_lacking_as_it_is_built() -> None:
    assert lacking(numbers()) == {}
    book = compose(contents(SHEETS, numbers()), numbers(), "", "en", "a4")
    assert [page.name for page in book.pages if lines(page)] == []


def test_the_sheets_say_it_in_red_in_another_engine(tmp_path: Path) -> None:
    made, season = numbers(), full().season
    assert season is not None
    path = tmp_path / "s.xlsx"
    path.write_bytes(workbook(season, made))
    shown = contents(SHEETS, made)
    layout = Layout(BOOK, shown, {n: made.rows(t) for n, t in BOOK.tables.items()}, season.slots)
    book = compose(shown, made, "", "en", "a4")
    grids = places.grids(layout, made)
    opened = iron.Opened(path)
    before = opened.values()
    for case, (typed, named) in CASES.items():
        cells = {
            grids[table].columns[name].cell(grids[table].filled if row is None else row): value
            for table, row, record in typed
            for name, value in record.items()
        }
        opened.enter(cells)
        values = opened.values()
        expected = calculated(edited(typed)).cells["checks"]["said"]
        for page in book.pages:
            said = lines(page, values)
            assert bool(said) == (page.name in named), (case, page.name, said)
            assert all(f"the first {named[page.name]}:" in each for each in said[:1])
            assert {*said} <= {*expected}
        opened.enter({place: before.get(place) or None for place in cells})
    red = [c for p in book.pages for c in p.conditions if p.name == "Trace" and c.look == "bad"]
    assert len([c for c in red if c.cells.startswith("A")]) == 3
