"""Made-up seasons are sound: the program reads every one, and an edit changes what it says."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from thorough import some
from workbook.typing_in import WRITTEN

from reportgen.model.load import load
from reportgen.model.season import Season as Read
from reportgen.trade import BOOK
from seasons import PRODUCTS, Edit, Season, edited_seasons, make, sample_edits, sample_seasons, tiny
from seasons import leaves as inputs
from seasons.edits import KINDS
from seasons.outlook import FORMS
from seasons.strategies import seasons

pytestmark = pytest.mark.slow

RECIPES = Path(__file__).parents[2] / "recipes"
MANY = some(of=120, at_every_change=60)


def read(season: Season, folder: Path) -> Read:
    found, problems = load(season.write(folder), RECIPES)
    assert found is not None, "\n".join(map(str, problems))
    return found


def values(season: Read) -> dict[tuple[str, str, str], object]:
    """Every input by table, key and name."""
    return {
        (table, key, name): column[n]
        for table, rows in season.tables.items()
        if table not in ("products", "nominal_weights")
        for name, column in rows.values.items()
        for n, key in enumerate(rows.keys)
    }


@pytest.mark.parametrize("size", ["small", "medium"])
def test_the_program_reads_every_season(size: str, tmp_path: Path) -> None:
    for n, season in enumerate(sample_seasons(MANY, 1, size)):
        read(season, tmp_path / str(n))


def test_the_program_reads_every_edited_season_and_finds_just_that_edit(tmp_path: Path) -> None:
    for n, (season, edit) in enumerate(sample_edits(MANY, 1)):
        before = values(read(season, tmp_path / f"{n}-before"))
        after = values(read(edit.season, tmp_path / f"{n}-after"))
        changed = {
            place for place in before.keys() | after.keys() if before.get(place) != after.get(place)
        }
        # A count of 1 that is left out is still 1.
        assert changed or (edit.kind, edit.inputs) == ("blank", ("count",)), edit
        assert {(table, key) for table, key, _ in changed} <= touched(edit), edit
        assert {name for _, _, name in changed} <= {*edit.inputs, *owners(edit)}, edit


def touched(edit: Edit) -> set[tuple[str, str]]:
    return {(edit.table, edit.key), (edit.table, edit.new_key)}


def owners(edit: Edit) -> set[str]:
    """Columns that come with a new row, or with another key: all of its own."""
    whole = edit.kind == "added" or edit.new_key != edit.key
    named = {written: name for name, written in WRITTEN.items()}
    return {*BOOK.tables[named.get(edit.table, edit.table)].inputs} if whole else set()


def test_edits_of_every_kind_and_table_are_made() -> None:
    edits = [edit for _, edit in sample_edits(1000, 2)]
    assert {edit.kind for edit in edits} == set(KINDS)
    assert {edit.table for edit in edits} >= set(inputs.FIELDS) - {"carried_over"}


def test_a_seed_gives_the_same_seasons_and_another_seed_others() -> None:
    some = [season.texts() for season in sample_seasons(5, 7)]
    assert [season.texts() for season in sample_seasons(8, 7)][:5] == some
    assert [season.texts() for season in sample_seasons(5, 8)] != some


def test_seasons_hold_all_that_real_ones_do() -> None:
    """Each turn of events is met often enough to be of use in a batch of 300."""
    met: Counter[str] = Counter()
    for season in sample_seasons(300, 3):
        records = {table: [row.record for row in season.table(table)] for table in inputs.FIELDS}
        lots, loads, runs = records["lots"], records["loads"], records["runs"]
        prices = {inputs.price_input(lot["price"], lot.get("container")) for lot in lots
                  if "price" in lot}  # fmt: skip
        met.update(prices)
        met.update(
            name
            for name, there in {
                "nothing at all": not lots and not runs,
                "one file": len(season.files) == 1,
                "weighed in part": any("weighed_count" in lot for lot in lots),
                "not weighed": any("weighed" not in lot for lot in lots),
                "neither weighed nor counted": any(
                    "weighed" not in lot and "container" not in lot for lot in lots
                ),
                "grown": any(lot.get("grown") == "true" for lot in lots),
                "unpriced": any("price" not in lot and "grown" not in lot for lot in lots),
                "finished": any(lot.get("finished") == "true" for lot in lots),
                "lost and set aside": any({"lost", "set_aside"} <= set(lot) for lot in lots),
                "metered": any(isinstance(run.get("energy"), str) for run in runs),
                "two readings": any(isinstance(run.get("energy"), dict) for run in runs),
                "unmetered": any("energy" not in run for run in runs),
                "no duration": any(not {"duration", "ended"} & set(run) for run in runs),
                "no loads": any("loads" not in run for run in runs),
                "mixed": any(len({load.get("lot") for load in run.get("loads", [])}) > 1
                             for run in runs),
                "not done": any("dry" not in load for load in loads),
                "again": any("again" in load for load in loads),
                "weights by tray": any(isinstance(load.get("wet"), list) for load in loads),
                "carried packs": any("carried" in pack for pack in records["packs"]),
                "bulk used": any(use["for"] == "crumbs" for use in records["uses"]),
                "spoiled packs": any(use["for"] == "spoiled" for use in records["uses"]),
                "a pack counted": any("pack" in each for each in records["counts"]),
                "bulk counted": any("product" in each for each in records["counts"]),
                "counted twice": any(
                    sum(each.get("pack") == key for each in records["counts"]) > 1
                    for key in {each.get("pack") for each in records["counts"]} - {None}
                ),
                "offers": bool(records["offers"]),
                "carried over": bool(records["carried_over"]),
                "overhead over a weight": any("over" in each for each in records["overheads"]),
                "overhead over all": any("over" not in each for each in records["overheads"]),
                "two dryers": len(records["dryers"]) > 1,
                "a part used again": any("uses" in part for part in records["parts"]),
                "spoiled in sealing": any("spoiled" in each for each in records["containers"]),
                "a trip for several lots": any(
                    sum(lot.get("trip") == f"trip-{n}" for lot in lots) > 1 for n in (1, 2)
                ),
                "at a height": bool(records["place"]),
                "absorbers at hand": bool(records["absorbers"]),
                "scenarios": len(records["scenarios"]) > 1,
                "a rate instead": any("/" in s.get("labor", "") for s in records["scenarios"]),
                "another container": any("container" in each for each in records["scenarios"]),
                "a plan": bool(records["plan"]),
                "a product planned twice": len({p["product"] for p in records["plan"]})
                < len(records["plan"]),
                "a pace": any("pace" in each for each in records["plan"]),
                "another form": any(each.get("form", FORMS[0]) != FORMS[0]
                                    for each in records["offers"]),
                "a stated spread": any("mean_power_spread" in each for each in records["dryers"]),
                "a reading": any("water_activity" in load.get("dryness", {}) for load in loads),
                "a moist reading": any(
                    float(load.get("dryness", {}).get("water_activity", 0)) > 0.6 for load in loads
                ),
                "unlike units": {season.head["units"]["fresh"], season.head["units"]["dried"]}
                in ({"lb", "g"}, {"kg", "oz"}),
            }.items()
            if there
        )  # fmt: skip
    rare = {name: n for name, n in met.items() if n < 4}
    assert not rare
    assert len(met) == 48


def test_every_product_asked_for_is_met() -> None:
    met = {
        lot.record["product"] for season in sample_seasons(60, 4) for lot in season.table("lots")
    }
    assert met == set(PRODUCTS)
    only = make(Random(0), "medium", ["parsley"])
    assert {lot.record["product"] for lot in only.table("lots")} == {"parsley"}


@settings(max_examples=15)
@given(seasons())
def test_hypothesis_can_draw_seasons(season: Season) -> None:
    assert "season.yaml" in season.texts()


@settings(max_examples=15)
@given(edited_seasons())
def test_hypothesis_can_draw_edits(drawn: tuple[Season, Edit]) -> None:
    season, edit = drawn
    assert edit.season.texts() != season.texts()


def test_the_tiny_season_is_read_with_any_input_left_out(tmp_path: Path) -> None:
    season = tiny()
    read(season, tmp_path / "whole")
    for n, leaf in enumerate(inputs.optional(season)):
        read(inputs.without(season, [leaf]), tmp_path / str(n))
