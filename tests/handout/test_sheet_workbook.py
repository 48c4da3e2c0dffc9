"""The costing workbook: three engines confirm it, it says what the season says, edits are followed.

Other programs: LibreOffice Calc and ironcalc recalculate every formula. Another path: the season
itself, whose definitions work out all products at once, and a season edited in its YAML.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest
from engines import gnumeric, iron, libreoffice
from engines.audit import faults
from engines.cells import Place, Value, values
from engines.edit import typed
from thorough import every
from workbook.places import read_back

from handout.partner_cells import Costing, costing, differing_inputs, wrong
from handout.seasons import of
from handout.sheets import ALL, made, place
from reportgen.algebra.book import Key
from reportgen.algebra.numbers import Numbers
from reportgen.handout.partner import partner_numbers
from reportgen.program import read

pytestmark = pytest.mark.slow


def saved(folder: Path, name: str, product: str, *words: str) -> Path:
    path = folder / f"{name}-{product}{'-all' if words else ''}.xlsx"
    path.write_bytes(made(name, product, "", *words).workbook)
    return path


def season(name: str) -> Numbers:
    numbers = of(name).numbers
    assert numbers is not None
    return numbers


@pytest.mark.parametrize("words", [(), ("--all",)], ids=["partner", "all"])
def test_the_engines_confirm_every_cell(tmp_path: Path, words: tuple[str, ...]) -> None:
    paths = [saved(tmp_path, *each, *words) for each in ALL]
    assert faults(paths, tmp_path / "out") == {}


@pytest.mark.parametrize("everything", [False, True], ids=["partner", "all"])
@pytest.mark.parametrize(("name", "product"), every(3, ALL))
def test_it_says_what_the_season_says(
    tmp_path: Path, name: str, product: str, everything: bool
) -> None:
    path = saved(tmp_path, name, product, *(["--all"] if everything else []))
    grids = costing(name, product, everything).grids
    found = read_back(values(path), grids)
    assert sum(len(row) for table in found.values() for row in table.values()) > 60
    assert {"products", "lots", "loads", "packs", "prices", "offers"} <= set(found)
    assert list(wrong(found, season(name), product, 1e-12)) == []


@dataclass(frozen=True)
class Edit:
    """What is changed: in a file of the season, and so in the workbook."""

    season: str
    product: str
    file: str
    old: str
    new: str
    inputs: set[tuple[str, str, str]]
    """Table, key and column of the cells that someone types into."""
    stale: frozenset[str] = frozenset()
    """Taken as given, and so not followed; the sheet says so."""
    without: Key | None = None
    """What the season shares with its other products: not compared."""


PEARS = "batches/2025-09-20-pears.yaml"
LOT = "pears-2025-09-20"
UNSURE = frozenset({"running_per_packed_u"})
EDITS = {
    "margin": Edit("windrow-lane", "pear-slices", "season.yaml", "margin: 30 %", "margin: 35 %",
                   {("pricing", "pricing", "margin")}),
    "fees": Edit("windrow-lane", "pear-slices", "season.yaml", "fees: 3 %", "fees: 6.5 %",
                 {("pricing", "pricing", "fees")}),
    "step": Edit("windrow-lane", "peach-slices", "season.yaml", "price_step: 0.25", "price_step: 1",
                 {("pricing", "pricing", "price_step")}),
    "offer": Edit("windrow-lane", "pear-slices", "season.yaml", "net: 6 oz, price: 19.80 USD",
                  "net: 6 oz, price: 25.10 USD", {("offers", "pears-c", "price")}),
    "canned": Edit("windrow-lane", "pear-slices", "season.yaml", "price: 1.85 USD, form: canned",
                   "price: 1.85 USD, form: freeze-dried", {("offers", "pears-tinned", "form")}),
    "can": Edit("windrow-lane", "pear-slices", "season.yaml", "can: 2.45 USD", "can: 3.10 USD",
                {("parts", "part-1", "cost")}, UNSURE),
    "lot price": Edit("windrow-lane", "pear-slices", PEARS, "at 1.10 USD/lb", "at 1.55 USD/lb",
                      {("lots", LOT, "purchase_cost")}, UNSURE),
    "prepped": Edit("windrow-lane", "pear-slices", PEARS, "prepped: 16.6 lb", "prepped: 18.1 lb",
                    {("lots", LOT, "prepped")}, UNSURE),
    "dry": Edit("windrow-lane", "pear-slices", PEARS, "dry: 43.9 oz", "dry: 41.2 oz",
                {("loads", f"{LOT}-run/{LOT}", "dry")}, UNSURE | {"evidence", "dryness_reason"},
                ("season", "overhead_by_weight")),
    "net": Edit("windrow-lane", "pear-slices", PEARS, "pouch-1qt of 3.4 oz", "pouch-1qt of 3.1 oz",
                {("packs", f"{LOT}-pack-2", "net"), ("products", "pear-slices", "kept_taken"),
                 ("prices", "pear-slices/pouch-1qt/3.1", "net"),
                 ("prices", "pear-slices/pouch-1qt/3.1", "product"),
                 ("prices", "pear-slices/pouch-1qt/3.1", "container")}, UNSURE),
    "count": Edit("windrow-lane", "pear-slices", PEARS, "3 pouch-1qt", "2 pouch-1qt",
                  {("packs", f"{LOT}-pack-2", "count")}, UNSURE),
    "paid margin": Edit("colline", "apricot-halves", "season.yaml", "margin: 25 %", "margin: 40 %",
                        {("pricing", "pricing", "margin")}),
    "jar": Edit("colline", "tomatoes", "season.yaml", "jar: {cost: 2.10 EUR, uses: 15}",
                "jar: {cost: 2.90 EUR, uses: 15}", {("parts", "part-1", "cost")}, UNSURE),
    "offer in g": Edit("colline", "chives", "season.yaml", "net: 30 g, price: 13.20 EUR",
                       "net: 30 g, price: 9.20 EUR", {("offers", "ciboulette-c", "price")}),
}  # fmt: skip


@dataclass(frozen=True)
class Followed:
    """A workbook with an edit typed in, and the season edited in its files."""

    edit: Edit
    path: Path
    costing: Costing
    after: Numbers


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> list[Followed]:
    return [_followed(edit, tmp_path_factory.mktemp("edit")) for edit in EDITS.values()]


def _followed(edit: Edit, folder: Path) -> Followed:
    files = place(edit.season, folder)
    file = files / edit.file
    text = file.read_text("utf-8")
    assert text.count(edit.old) == 1, edit
    file.write_text(text.replace(edit.old, edit.new), "utf-8")
    after = read(files).numbers
    assert after is not None
    here = costing(edit.season, edit.product)
    needed = differing_inputs(here.numbers, partner_numbers(after, edit.product))
    left = {place for place in needed if place[2] in edit.stale
            or (edit.without is not None and place[:1] + place[2:] == edit.without)}  # fmt: skip
    assert set(needed) - left == edit.inputs, edit
    cells = {_cell(here, *at): needed[at] for at in edit.inputs}
    path = saved(folder, edit.season, edit.product)
    return Followed(edit, typed(path, cells, folder / "edited.xlsx"), here, after)


def _cell(here: Costing, table: str, key: str, column: str) -> Place:
    grid = here.grids[table]
    keys = [str(each) for each in here.numbers.cells[table].get("key", [table])]
    row = keys.index(key) if key in keys else len(keys)  # the first spare row
    assert grid.single or row < grid.rows
    return grid.columns[column].cell(row)


def _judged(followed: list[Followed], engine: str, told: list[dict[Place, Value]]) -> list[str]:
    said = []
    for each, found in zip(followed, told, strict=True):
        edit = each.edit
        figures = read_back(found, each.costing.grids)
        # The rows of a price of which no pack is left stay where they are.
        figures["prices"] = {key: row for key, row in figures["prices"].items() if row["packed"]}
        faulty = wrong(figures, each.after, edit.product, 1e-9, edit.without)
        said += [f"{engine}, {edit.old} → {edit.new}: {one}" for one in faulty]
    return said


def test_ironcalc_makes_of_each_edit_what_a_fresh_season_does(followed: list[Followed]) -> None:
    told = [iron.recalculate(each.path) for each in followed]
    assert _judged(followed, "ironcalc", told) == []


def test_libreoffice_makes_of_each_edit_what_a_fresh_season_does(
    followed: list[Followed], tmp_path: Path
) -> None:
    told = libreoffice.recalculate([each.path for each in followed], tmp_path)
    assert _judged(followed, "LibreOffice", [told[each.path] for each in followed]) == []


def test_gnumeric_makes_of_each_edit_what_a_fresh_season_does(
    followed: list[Followed], tmp_path: Path
) -> None:
    told = gnumeric.recalculate([each.path for each in followed], tmp_path)
    assert _judged(followed, "Gnumeric", [told[each.path] for each in followed]) == []


def test_every_edit_moves_something(followed: list[Followed]) -> None:
    for each in followed:
        stale = read_back(values(each.path), each.costing.grids)
        assert list(wrong(stale, each.after, each.edit.product, 1e-9, each.edit.without)), each.edit
