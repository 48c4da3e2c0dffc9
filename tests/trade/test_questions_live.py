"""Every question live in the workbook: two engines, edited cells, other units, nothing recorded."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any

import pytest
from cli.seasons import run as command
from engines import iron, libreoffice
from engines.audit import faults
from engines.cells import Place, Value
from engines.edit import typed
from meta.contract import CONTRACT
from thorough import every
from workbook import forms, places

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.model.season import slots_of
from reportgen.program import Read, inputs, workbook
from reportgen.trade import BOOK
from reportgen.units import ONE, factor
from trade.rich import BARE, FULL, reading
from trade.written import HEAD, MIXED

pytestmark = pytest.mark.seasons

TABLES = ("prices", "scenarios", "plan", "queue", "absorber_needs", "trace", "drivers",
          "ranking", "worth_drying", "dryers", "packs", "loads", "products", "season",
          "eat_first", "uses", "markets", "market_packs", "counts", "upkeep", "mixes", "mix_parts",
          "bought_parts", "draws", "worth_mixing", "closed", "weeks", "another")  # fmt: skip


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Read:
    return reading(tmp_path_factory.mktemp("full"))


def of(done: Read) -> Numbers:
    assert done.numbers is not None
    return done.numbers


WHERE_SOMETHING_IS_MISSING = [
    "dryers.lacking_first", "dryers.unpacked_first", "dryers.said_of_nothing",
    "dryers.said_of_lacking", "dryers.payback_without", "loads.lacking_place",
    "loads.unpacked_place", "mix_parts.carried_from", "products.uncertainty_lacks",
]  # fmt: skip
"""What has a value only there; ``test_payback.py``, ``test_mixes.py`` and ``test_uncertainty.py``
ask for each."""


def test_the_seasons_ask_every_question(full: Read, tmp_path: Path) -> None:
    """So that nothing below is true of nothing: most quantities have a value somewhere in it."""
    numbers = of(full)
    silent = [
        f"{table}.{name}"
        for table in TABLES
        for name, made in BOOK.tables[table].definitions.items()
        if made.role == "derived" and not any(v is not None for v in numbers.cells[table][name])
    ]
    written = of(reading(tmp_path, HEAD + MIXED)).cells
    silent = [
        each
        for each in silent
        if not any(v is not None for v in written[each.partition(".")[0]][each.partition(".")[2]])
    ]
    assert {*silent} <= {*WHERE_SOMETHING_IS_MISSING}
    verdicts = {*numbers.cells["packs"]["dryness"]}
    assert verdicts == {"dry", "doubtful", "not shown", "origin not named"}


@pytest.mark.parametrize("text", [FULL, BARE], ids=["full", "bare"])
def test_the_engines_confirm_every_cell(tmp_path: Path, text: str) -> None:
    done = reading(tmp_path / "season", text)
    assert done.season is not None
    path = tmp_path / "season.xlsx"
    path.write_bytes(workbook(done.season, of(done)))
    assert faults([path], tmp_path / "out") == {}


# --- what is typed into a cell is what a fresh calculation says -----------------------------------

# Table, column, row from 0, and what is typed; None empties the cell.
EDITS: list[tuple[str, str, int, Value]] = [
    ("pricing", "price_step", 0, 1.0),
    ("pricing", "margin", 0, 0.40),
    ("pricing", "fees", 0, None),
    # What a market day cost, brought back, asked and took in.
    ("markets", "fee", 0, 80.0),
    ("markets", "date", 0, 45_900.0),
    ("market_packs", "back", 0, 2.0),
    ("market_packs", "price_written", 0, None),
    ("market_packs", "samples", 1, None),
    ("market_takings", "amount", 0, 20.0),
    ("pricing", "would_buy", 0, 0.01),
    ("changes", "ingredients_factor", 1, 0.5),
    ("changes", "ingredients_factor", 0, 0.0),
    ("changes", "electricity", 1, None),
    ("changes", "labor_rate", 2, 0.0),
    ("changes", "container", 3, "tin"),
    ("changes", "container", 3, None),
    ("changes", "net", 4, None),
    ("drivers", "change", 0, 0.25),
    ("drivers", "change", 5, 0.5),
    # The order follows: upkeep becomes the first, the dried weight the last.
    ("drivers", "change", 3, 1.0),
    ("drivers", "change", 5, 0.0),
    ("drivers", "change", 2, None),
    ("absorbers", "oxygen", 0, 50.0),
    ("absorbers", "cost", 1, None),
    ("place", "altitude", 0, 0.0),
    ("place", "altitude", 0, None),
    ("scale", "resolution", 0, 0.5),
    ("scale", "resolution", 0, None),
    ("dryers", "mean_power_spread", 0, 0.5),
    ("dryers", "runs_per_year", 1, None),
    ("dryers", "price", 0, 100.0),
    ("containers", "absorber", 0, None),
    ("containers", "volume", 1, 2500.0),
    ("products", "skeletal_density", 0, 1200.0),
    ("products", "best_by", 0, None),
    ("loads", "water_activity", 0, 0.8),
    ("loads", "weighing_before", 1, None),
    ("loads", "moisture_meter", 3, 0.3),
    ("lots", "water", 0, 0.8),
    ("lots", "weighed_count", 0, None),
    ("lots", "prepped_weighed", 0, None),
    ("lots", "price_by_weight", 0, 2.0),
    ("runs", "energy", 0, None),
    ("plan", "start", 0, 46_000.0),
    ("plan", "start", 2, None),
    ("plan", "dryer", 1, "barn"),
    ("plan", "pace", 0, 1.5),
    # As fast as no machine is; a limit that bites; what is bought in as it was last bought.
    ("plan", "pace", 3, 99.0),
    ("plan", "buy", 2, None),
    ("dryers", "load_limit", 0, 5.0),
    ("lots", "date", 0, 46_500.0),
    # The day, the shelf, the maker's own figure.
    ("season", "as_of", 0, 46_100.0),
    ("packs", "date", 0, 45_000.0),
    ("containers", "keeps", 0, None),
    # Sold or kept, paid or not, what earlier seasons saved.
    ("uses", "purpose", 0, "household"),
    ("overheads", "paid", 0, None),
    ("rates", "labor_paid", 0, True),
    ("dryers", "saved_before", 1, 5000.0),
    ("dryers", "runs_when_bought", 0, 7.0),
    ("offers", "price", 4, None),
    ("plan", "pace", 3, None),
    ("plan", "count", 4, 200.0),
    ("plan", "buy", 2, "crate"),
    ("uses", "price", 0, 3.0),
    ("uses", "purpose", 1, "gift"),
    ("offers", "form", 0, "frozen"),
    ("offers", "form", 2, None),
    ("packs", "count", 0, 9.0),
]


def fresh(done: Read, edit: tuple[str, str, int, Value]) -> Numbers:
    """The season calculated anew with the one input changed."""
    assert done.season is not None
    table, column, row, value = edit
    tables: dict[str, Cells] = inputs(done.season)
    tables[table][column][row] = value
    return Numbers(BOOK, tables, done.season.slots)


def test_an_edited_cell_is_a_fresh_calculation_in_both_engines(tmp_path: Path, full: Read) -> None:
    """LibreOffice gets each second of them."""
    before, wrong, unmoved = of(full), [], []
    assert full.season is not None
    path = forms.write(full.season, before, tmp_path / "before.xlsx")
    grids = places.grids(forms.layout(before), before)
    was = places.figures(before, grids)
    opened = iron.Opened(path)
    expected: list[places.Figures] = []
    for edit in EDITS:
        table, column, row, value = edit
        cell: Place = grids[table].columns[column].cell(row)
        expected.append(places.figures(fresh(full, edit), grids))
        if not any(places.differing(was, expected[-1])):
            unmoved.append(edit)
        opened.enter({cell: value})
        found = places.read_back(opened.values(), grids)
        wrong += [f"ironcalc, {edit}: {each}" for each in places.differing(found, expected[-1])]
        opened.enter({cell: before.cells[table][column][row]})
    edited: dict[Path, int] = {}
    for number in every(5, range(len(EDITS))):
        table, column, row, value = EDITS[number]
        cell = grids[table].columns[column].cell(row)
        edited[typed(path, {cell: value}, tmp_path / f"{number}.xlsx")] = number
    for copy, values in libreoffice.recalculate(list(edited), tmp_path / "out").items():
        number, found = edited[copy], places.read_back(values, grids)
        said = places.differing(found, expected[number])
        wrong += [f"LibreOffice, {EDITS[number]}: {each}" for each in said]
    assert wrong == []
    assert unmoved == [], "an edit that changes nothing proves nothing"


# --- other units ----------------------------------------------------------------------------------


def test_units_change_no_answer(tmp_path: Path, full: Read) -> None:
    metric = of(reading(tmp_path / "metric", FULL.replace(
        "units: {fresh: lb, dried: oz}", "units: {fresh: kg, dried: g}")))  # fmt: skip
    here, tried = of(full), 0
    for table in TABLES:
        for name, made in BOOK.tables[table].definitions.items():
            if made.kind.type not in ("number", "date", "flag"):
                continue
            scale = 1.0
            if made.kind.type == "number":
                there = slots_of("kg", "g", "USD")
                unit = made.kind.unit
                scale = float(factor(unit.bound(here.slots) / unit.bound(there), ONE))
            for one, two in zip(here.cells[table][name], metric.cells[table][name], strict=True):
                tried += one is not None
                if one is None or two is None or isinstance(one, bool):
                    assert one == two, (table, name)
                else:
                    assert isinstance(one, float | int) and isinstance(two, float | int)
                    close = math.isclose(one * scale, two, rel_tol=1e-9, abs_tol=1e-9)
                    assert close, (table, name, one, two)
    assert tried > 1000
    verdicts = ("dryness_verdict", "evidence", "dryness_reason")
    for name in verdicts:
        assert here.cells["loads"][name] == metric.cells["loads"][name]
    assert "turnip-cubes/tin/4" in here.cells["prices"]["key"]
    assert "turnip-cubes/tin/113.398" in str(metric.cells["prices"]["key"])


# --- what other programs read ---------------------------------------------------------------------


def exported(folder: Path) -> dict[str, Any]:
    done = command("figures", folder, "--json")
    assert done.exit_code == 0
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_figures_has_every_name_with_its_unit_and_keys(tmp_path: Path) -> None:
    reading(tmp_path / "season")
    found = exported(tmp_path / "season")["tables"]
    words = {"fresh": "lb", "dried": "oz", "money": "USD"}
    for table, units in CONTRACT.items():
        for unit, names in units.items():
            said = re.sub(r"fresh|dried|money", lambda match: words[match[0]], unit)
            for name in names.split():
                for key, row in found[table].items():
                    assert row[name]["unit"] == ("" if unit in ("flag", "date") else said), name
                    assert row[name]["basis"] in ("measured", "estimated", "mixed"), (key, name)
                values = [row[name]["value"] for row in found[table].values()]
                assert any(value is not None for value in values), f"{table}.{name}"
    assert list(found["prices"]) == [
        "turnip-cubes/tin/4", "turnip-cubes/pouch/9", "beet-cubes/tin/5",
        "beet-cubes/pouch/9", "turnip-cubes/tin/4.5",
    ]  # fmt: skip
    assert list(found["plan"]) == [f"plan-{n}" for n in range(1, 6)]
    assert list(found["dryers"]) == ["barn", "shed"]
    assert list(found["scenarios"])[:3] == [
        "as-is/turnip-cubes",
        "as-is/beet-cubes",
        "free/turnip-cubes",
    ]
    assert re.fullmatch(r"\d{4}-\d\d-\d\d(T\d\d:\d\d)?", found["plan"]["plan-1"]["finish"]["value"])


def test_an_empty_season_answers_with_nothing(tmp_path: Path) -> None:
    text = FULL[: FULL.index("carried_over:")]
    done = reading(tmp_path / "season", text)
    found = exported(tmp_path / "season")["tables"]
    season = {name: each["value"] for name, each in found["season"]["season"].items()}
    assert {
        season[name] for name in ("sales", "sales_left", "cost_bulk_running", "running_cost")
    } == {0}
    unknown = ("sales_left_share", "break_even_sales", "plan_start", "last_end")
    assert [season[name] for name in unknown] == [None] * 4
    assert season["stall_cost"] == 75
    for table in ("prices", "scenarios", "plan", "products", "packs"):
        assert found.get(table, {}) == {}
    barn = found["dryers"]["barn"]
    assert barn["saved"]["value"] == 0
    assert barn["saving_per_run"]["value"] is None and barn["payback_date"]["value"] is None
    assert done.season is not None
    path = tmp_path / "season.xlsx"
    path.write_bytes(workbook(done.season, of(done)))
    values = iron.recalculate(path).values()
    assert not [each for each in values if isinstance(each, str) and each.startswith("#")]
