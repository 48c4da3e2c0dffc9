"""As built, as edited, as it is now: every combination, for each form of a record."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from edits.desk import LIST_FILE, SEASON_FILE, SHORT_FILE, Desk, desk

pytestmark = pytest.mark.slow


@dataclass(frozen=True)
class Input:
    """One input: where it stands, and texts of its file with other values of it."""

    table: str
    row: str | int
    name: str
    file: str
    built: str
    edited: float
    as_edited: str
    otherwise: str


INPUTS = {
    "a lot of a list": Input(
        "lots", "pears-1", "weighed", LIST_FILE,
        "weighed: 40 lb", 41.5, "weighed: 41.5 lb", "weighed: 39 lb",
    ),
    "a lot in braces": Input(
        "lots", "pears-2", "weighed", LIST_FILE,
        "weighed: 9 lb}", 9.25, "weighed: 9.25 lb}", "weighed: 8 lb}",
    ),
    "a run of the short form": Input(
        "runs", 1, "duration", SHORT_FILE,
        "duration: 31 h", 30.5, "duration: 30.5 h", "duration: 29 h",
    ),
    "a pack of the short form": Input(
        "packs", 1, "count", SHORT_FILE,
        "[3 jar of 2 oz]", 4.0, "[4 jar of 2 oz]", "[5 jar of 2 oz]",
    ),
    "a use, without an id": Input(
        "uses", 2, "weight", LIST_FILE,
        "weight: 1.5 oz", 1.75, "weight: 1.75 oz", "weight: 2 oz",
    ),
    "a count, without an id": Input(
        "counts", 1, "counted", LIST_FILE,
        "counted: 3", 2.0, "counted: 2", "counted: 5",
    ),
    "a part of a container": Input(
        "parts", 1, "cost", SEASON_FILE,
        "lid: 0.40 USD", 0.45, "lid: 0.45 USD", "lid: 0.5 USD",
    ),
    "a part with uses": Input(
        "parts", 2, "uses", SEASON_FILE,
        "uses: 20", 25.0, "uses: 25", "uses: 30",
    ),
    "a rate": Input(
        "rates", "rates", "electricity", SEASON_FILE,
        "electricity: 0.20 USD/kWh", 0.25, "electricity: 0.25 USD/kWh", "electricity: 0.30 USD/kWh",
    ),
}  # fmt: skip


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def type_it(at: Desk, one: Input) -> None:
    at.type({at.at.cell(one.table, one.row, one.name): one.edited})


def untouched(at: Desk, before: dict[str, str], code: int = 1) -> None:
    """``take`` writes nothing."""
    done = at.run("take")
    assert done.exit_code == code, done.output
    assert at.texts() == before


each_input = pytest.mark.parametrize("one", INPUTS.values(), ids=INPUTS)


@each_input
def test_same_in_the_workbook_and_changed_in_the_file_is_nothing(at: Desk, one: Input) -> None:
    at.write(one.file, one.built, one.otherwise)
    assert at.kinds() == []
    untouched(at, at.texts(), code=0)


@each_input
def test_changed_in_the_workbook_alone_is_a_change(at: Desk, one: Input) -> None:
    type_it(at, one)
    (change,) = at.compare()
    assert change["kind"] == "change" and change["edited"] == one.edited
    assert change["file"] == one.file and change["line"] in _lines(at, one)
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    after = at.texts()
    assert after == {**before, one.file: before[one.file].replace(one.built, one.as_edited)}
    kept = at.folder / (one.file + ".before")
    assert kept.read_text("utf-8") == before[one.file]
    assert "left" in at.run("compare").output
    again = at.run("take")
    assert again.exit_code == 0 and at.texts() == after


@each_input
def test_changed_to_the_same_is_home(at: Desk, one: Input) -> None:
    type_it(at, one)
    at.write(one.file, one.built, one.as_edited)
    assert at.kinds() == ["home"]
    untouched(at, at.texts(), code=0)


@each_input
def test_changed_otherwise_is_a_conflict_with_three_sides(at: Desk, one: Input) -> None:
    type_it(at, one)
    at.write(one.file, one.built, one.otherwise)
    # A use is known by its text: with another text it is another record.
    by_text = one.table in ("uses", "counts")
    (change,) = at.compare(exit_code=int(by_text))
    assert change["kind"] == ("refused" if by_text else "conflict")
    built, edited, now = (change[side] for side in ("built", "edited", "now"))
    assert edited == one.edited and built != now
    assert (now is None) == by_text
    said = at.run("compare").output
    if by_text:
        assert f"{change['sheet']}!{change['cell']}: {one.table[:-1]} " in said
        assert f"its entry in {one.file} is gone, or is written otherwise" in said
    else:
        assert all(each in said for each in ("as built", "in the workbook", "in the files now"))
    untouched(at, at.texts())


@each_input
def test_theirs_takes_the_workbooks_side(at: Desk, one: Input) -> None:
    type_it(at, one)
    at.write(one.file, one.built, one.otherwise)
    before = at.texts()
    done = at.run("take", "--theirs")
    if one.table in ("uses", "counts"):
        # The record as it was is not there any more, so there is nothing to write into.
        assert done.exit_code == 1 and "is gone, or is written otherwise" in done.output
        assert at.texts() == before
        return
    assert done.exit_code == 0, done.output
    wanted = before[one.file].replace(one.otherwise, one.as_edited)
    assert at.texts() == {**before, one.file: wanted}


def _lines(at: Desk, one: Input) -> range:
    text = (at.folder / one.file).read_text("utf-8")
    line = text[: text.index(one.built)].count("\n") + 1
    return range(line, line + 1)


# --- records as wholes --------------------------------------------------------------------

PEARS_2 = (
    "  - {id: pears-2, product: pear-slices, date: 2025-09-06, price: 12 USD, weighed: 9 lb}\n"
)
CRUMBS = "  - {date: 2025-09-21, product: pear-slices, weight: 1.5 oz, for: crumbs}\n"
TIN = "  - {id: tin, volume: 3236 mL, parts: {can: 2.45 USD}}     # named by nothing\n"
WHOLE = {
    "a lot": ("lots", "pears-2", "weighed", 9.5, LIST_FILE, PEARS_2, "weighed: 9 lb}"),
    "a use": ("uses", 2, "weight", 1.75, LIST_FILE, CRUMBS, "weight: 1.5 oz"),
    "a part": ("parts", 1, "cost", 0.45, SEASON_FILE, "lid: 0.40 USD, ", "lid: 0.40 USD"),
}
each_whole = pytest.mark.parametrize("one", WHOLE.values(), ids=WHOLE)
Whole = tuple[str, str | int, str, float, str, str, str]


@each_whole
def test_changed_in_the_workbook_and_removed_from_the_file(at: Desk, one: Whole) -> None:
    table, row, name, value, file, record, _ = one
    at.type({at.at.cell(table, row, name): value})
    at.write(file, record, "")
    by_text = table != "lots"
    assert at.kinds(exit_code=int(by_text)) == ["refused" if by_text else "conflict"]
    untouched(at, at.texts())


def test_changed_in_the_workbook_and_renamed_in_the_file(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "weighed"): 9.5})
    at.write(LIST_FILE, "id: pears-2", "id: pears-b")
    assert at.kinds() == ["conflict"]
    untouched(at, at.texts())


@each_whole
def test_removed_from_the_workbook(at: Desk, one: Whole) -> None:
    table, row, _, _, file, record, _ = one
    at.clear(table, row)
    assert at.kinds() == ["removed"]
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0 and "--removals" in done.output
    assert at.texts() == before
    done = at.run("take", "--removals")
    assert done.exit_code == 0, done.output
    assert at.texts() == {**before, file: before[file].replace(record, "")}
    assert f"-{record}" in done.output or table == "parts"
    assert at.kinds() == ["home"]


@each_whole
def test_removed_from_the_workbook_and_changed_in_the_file(at: Desk, one: Whole) -> None:
    table, row, _, _, file, _, text = one
    at.clear(table, row)
    at.write(file, text, text.replace("9 lb", "8 lb").replace("1.5", "1.4").replace("0.40", "0.41"))
    assert at.kinds() == ["conflict"]
    untouched(at, at.texts())


@each_whole
def test_removed_from_both_is_home(at: Desk, one: Whole) -> None:
    table, row, _, _, file, record, _ = one
    at.clear(table, row)
    at.write(file, record, "")
    assert at.kinds() == ["home"]
    untouched(at, at.texts(), code=0)


def test_a_record_that_others_name_cannot_be_removed(at: Desk) -> None:
    at.clear("lots", "pears-1")
    before = at.texts()
    done = at.run("take", "--removals")
    assert done.exit_code == 1
    assert "names it, so it cannot be removed" in done.output
    assert at.texts() == before


def test_renamed_in_the_workbook_and_what_names_it_follows(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-1", "key"): "orchard-1"})
    (change,) = at.compare()
    assert (change["kind"], change["built"], change["edited"]) == (
        "renamed",
        "pears-1",
        "orchard-1",
    )
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() == {**before, LIST_FILE: before[LIST_FILE].replace("pears-1", "orchard-1")}
    assert at.kinds() == ["home"]


def test_renamed_otherwise_is_a_conflict(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "key"): "pears-b"})
    at.write(LIST_FILE, "id: pears-2", "id: pears-c")
    assert set(at.kinds()) == {"conflict"}
    untouched(at, at.texts())


def test_renamed_alike_is_home(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "key"): "pears-b"})
    at.write(LIST_FILE, "id: pears-2", "id: pears-b")
    assert at.kinds() == ["home"]
    untouched(at, at.texts(), code=0)


def test_an_id_in_other_letters_is_the_same(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "key"): " PEARS-2 "})
    assert at.kinds() == []


NEW = {"key": "pears-3", "product": "pear-slices", "date": 45910.0, "weighed": 7.5}
PEARS_3 = "  - {id: pears-3, product: pear-slices, date: 2025-09-10, weighed: 7.5 lb}\n"


def add(at: Desk) -> None:
    at.type({at.at.new("lots", name): value for name, value in NEW.items()})


def test_added_in_the_workbook(at: Desk) -> None:
    add(at)
    assert at.kinds() == ["added"]
    before = at.texts()
    done = at.run("take", "--into", LIST_FILE)
    assert done.exit_code == 0, done.output
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace(PEARS_2, PEARS_2 + PEARS_3),
    }
    assert at.kinds() == ["home"]
    after = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == after


def test_a_new_record_goes_to_a_file_of_its_day(at: Desk) -> None:
    add(at)
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() == {**before, "batches/2025-09-10.yaml": "lots:\n" + PEARS_3}


def test_a_new_record_goes_to_the_file_that_holds_its_day(at: Desk) -> None:
    at.type({at.at.new("lots", name): value for name, value in {**NEW, "date": 45906.0}.items()})
    before = at.texts()
    assert at.run("take").exit_code == 0
    record = PEARS_3.replace("09-10", "09-06")
    assert at.texts() == {**before, LIST_FILE: before[LIST_FILE].replace(PEARS_2, PEARS_2 + record)}


def test_added_on_both_sides_alike_is_home(at: Desk) -> None:
    add(at)
    at.write(LIST_FILE, PEARS_2, PEARS_2 + PEARS_3)
    assert at.kinds() == ["home"]
    untouched(at, at.texts(), code=0)


def test_added_on_both_sides_otherwise_is_a_conflict(at: Desk) -> None:
    add(at)
    at.write(LIST_FILE, PEARS_2, PEARS_2 + PEARS_3.replace("7.5", "7"))
    assert at.kinds() == ["conflict"]
    untouched(at, at.texts())


def test_added_with_more_in_the_file_is_a_conflict(at: Desk) -> None:
    add(at)
    at.write(LIST_FILE, PEARS_2, PEARS_2 + PEARS_3.replace("lb}", "lb, prepped: 5 lb}"))
    assert at.kinds() == ["conflict"]


def test_a_default_that_gets_a_value_becomes_a_key(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "labor"): 1.5, at.at.cell("runs", 1, "labor"): 0.5})
    assert at.kinds() == ["change", "change"]
    before = at.texts()
    assert at.run("take").exit_code == 0
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace("weighed: 9 lb}", "weighed: 9 lb, labor: 1.5 h}"),
        SHORT_FILE: before[SHORT_FILE].replace("19 kWh}", "19 kWh, labor: 0.5 h}"),
    }


def test_a_default_written_by_now_is_a_conflict(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-2", "labor"): 1.5})
    at.write(LIST_FILE, "weighed: 9 lb}", "weighed: 9 lb, labor: 2 h}")
    assert at.kinds() == ["conflict"]


def test_a_cleared_cell_takes_its_key_away_and_its_comment_stays(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-1", "weighed"): None})
    before = at.texts()
    assert at.run("take").exit_code == 0
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace(
            "    weighed: 40 lb                # on the kitchen scale\n",
            "    # on the kitchen scale\n",
        ),
    }


# --- what is refused, and what is chosen --------------------------------------------------


def test_where_one_cell_is_refused_nothing_is_written(at: Desk) -> None:
    good, bad = at.at.cell("lots", "pears-2", "weighed"), at.at.cell("lots", "pears-1", "weighed")
    at.type({good: 9.5, bad: "a few"})
    before = at.texts()
    assert sorted(at.kinds(exit_code=1)) == ["change", "refused"]
    done = at.run("take")
    assert done.exit_code == 1 and "!".join(bad) in done.output and "a few" in done.output
    assert at.texts() == before
    # The cell that can be taken is taken alone.
    done = at.run("take", "--only", "!".join(good))
    assert done.exit_code == 0, done.output
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace("weighed: 9 lb}", "weighed: 9.5 lb}"),
    }


def test_where_one_is_a_conflict_nothing_is_written_but_what_is_chosen(at: Desk) -> None:
    good, bad = at.at.cell("rates", "rates", "labor"), at.at.cell("lots", "pears-1", "weighed")
    at.type({good: 11, bad: 41})
    at.write(LIST_FILE, "weighed: 40 lb", "weighed: 39 lb")
    before = at.texts()
    untouched(at, before)
    assert at.run("take", "--only", "!".join(good).lower()).exit_code == 0
    assert at.texts() == {
        **before,
        SEASON_FILE: before[SEASON_FILE].replace("10 USD/h", "11 USD/h"),
    }


def test_only_a_cell_that_holds_no_change_is_said(at: Desk) -> None:
    at.type({at.at.cell("lots", "pears-1", "weighed"): 41})
    before = at.texts()
    done = at.run("take", "--only", "Lots!Z99")
    assert done.exit_code == 2 and "Lots!Z99" in done.output
    assert at.texts() == before


def test_what_a_season_refuses_is_refused_with_its_cell(at: Desk) -> None:
    cell = at.at.cell("lots", "pears-1", "product")
    at.type({cell: "no-such-thing"})
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1 and "!".join(cell) in done.output
    assert "no-such-thing" in done.output
    assert at.texts() == before


def test_a_required_input_cannot_be_cleared(at: Desk) -> None:
    cell = at.at.cell("lots", "pears-2", "product")
    at.type({cell: None})
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1 and "!".join(cell) in done.output
    assert at.texts() == before


def test_a_row_with_inputs_and_no_id_is_refused_with_its_cell(at: Desk) -> None:
    at.type({at.at.new("lots", "product"): "pear-slices", at.at.new("lots", "weighed"): 7.0})
    (change,) = at.compare(exit_code=1)
    assert change["kind"] == "refused"
    assert (change["sheet"], change["cell"]) == at.at.new("lots", "key")
    untouched(at, at.texts())


def test_formulas_typed_over_are_told_and_not_taken(at: Desk) -> None:
    cell = at.at.cell("lots", "pears-1", "purchase_cost")
    at.type({cell: 99.0})
    (change,) = at.compare()
    assert change["kind"] == "overwritten"
    assert (change["sheet"], change["cell"], change["edited"]) == (*cell, 99.0)
    assert change["now"] == 30.0
    untouched(at, at.texts(), code=0)


def test_a_formula_in_an_input_is_taken_with_computed_only(at: Desk) -> None:
    import openpyxl

    book = openpyxl.load_workbook(at.book)
    sheet, ref = at.at.cell("lots", "pears-1", "weighed")
    book[sheet][ref] = "=38+3"
    book.save(at.book)
    assert at.kinds(exit_code=1) == ["refused"]
    before = at.texts()
    done = at.run("take", "--computed")
    assert done.exit_code == 1, "openpyxl stores no value, so there is none to take"
    assert at.texts() == before


def test_what_a_formula_gave_is_taken_with_computed(at: Desk) -> None:
    sheet, ref = at.at.cell("lots", "pears-1", "weighed")
    at.formula(sheet, ref, "38+3", 41)
    assert at.kinds(exit_code=1) == ["refused"]
    before = at.texts()
    untouched(at, before)
    done = at.run("take", "--computed")
    assert done.exit_code == 0, done.output
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace("weighed: 40 lb", "weighed: 41 lb"),
    }


def test_a_dry_run_shows_and_writes_nothing(at: Desk) -> None:
    type_it(at, INPUTS["a rate"])
    before = at.texts()
    done = at.run("take", "--dry-run")
    assert done.exit_code == 0
    assert "-  electricity: 0.20 USD/kWh       # since March" in done.output
    assert "+  electricity: 0.25 USD/kWh       # since March" in done.output
    assert at.texts() == before and not list(at.folder.rglob("*.before"))


@pytest.mark.parametrize("new", [True, False])
def test_an_id_that_another_row_has_is_refused_with_that_row(at: Desk, new: bool) -> None:
    """Typed into a new row, or over another record's."""
    sheet, ref = at.at.new("lots", "key") if new else at.at.cell("lots", "pears-1", "key")
    row = at.at.cell("lots", "pears-2", "key")[1][1:]
    at.type({(sheet, ref): "Pears-2"})
    if new:
        at.type({at.at.new("lots", "product"): "pear-slices"})
    before = at.texts()
    for options in ((), ("--theirs",)):
        done = at.run("take", *options)
        assert done.exit_code == 1 and at.texts() == before
        assert f"{sheet}!{ref}" in done.output and f"already the id of row {row}" in done.output


def test_two_new_rows_with_one_id_are_refused(at: Desk) -> None:
    add(at)
    sheet, ref = at.at.new("lots", "key")
    below = f"{ref[0]}{int(ref[1:]) + 1}"
    at.type({(sheet, below): "pears-3", (sheet, f"B{below[1:]}"): "pear-slices"})
    done = at.run("take")
    assert done.exit_code == 1
    assert f"{sheet}!{below}" in done.output
    assert f"already the id of row {ref[1:]}" in done.output


def test_records_without_an_id_are_named_as_people_see_them(at: Desk) -> None:
    at.clear("uses", 2)
    at.type({at.at.new("loads", "run"): "run-1", at.at.new("loads", "lot"): "pears-2",
             at.at.new("loads", "wet"): 3.0, at.at.cell("uses", 1, "price"): 4.0,
             at.at.cell("parts", 1, "cost"): 0.5})  # fmt: skip
    said = at.run("compare").output
    assert "load run-1, pears-2" in said
    assert "use 2025-09-21, pear-slices, crumbs" in said
    assert "use 2025-09-20, P-1, stall: price" in said
    assert "part jar, lid: cost" in said


def test_a_removal_is_chosen_by_its_cell_or_by_what_it_was_called(at: Desk) -> None:
    sheet = at.at.cell("lots", "pears-2", "key")[0]
    at.clear("lots", "pears-2")
    at.clear("uses", 2)
    (cell,) = [each["cell"] for each in at.compare() if each["row"] == "pears-2"]
    before = at.texts()
    done = at.run("take", "--removals", "--only", f"{sheet}!{cell}", "--dry-run")
    assert done.exit_code == 0 and "-  - {id: pears-2" in done.output
    assert "crumbs" not in done.output
    assert at.run("take", "--only", f"{sheet}!pears-2").exit_code == 0 and at.texts() == before
    done = at.run("take", "--removals", "--only", f"{sheet}!pears-2")
    assert done.exit_code == 0, done.output
    assert at.texts() == {**before, LIST_FILE: before[LIST_FILE].replace(PEARS_2, "")}


def test_a_load_of_another_lot_is_home_once_it_is_taken(at: Desk) -> None:
    """It is called after its lot: what was typed is found again under another name."""
    at.type({at.at.cell("loads", "run-1/pears-1", "lot"): "pears-2",
             at.at.cell("loads", "run-1/pears-1", "wet"): 8.0})  # fmt: skip
    assert at.kinds() == ["change", "change"]
    assert at.run("take").exit_code == 0
    assert set(at.kinds()) == {"home"}
    after = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == after
