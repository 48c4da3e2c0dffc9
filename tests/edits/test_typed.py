"""What people type into a cell: units, commas, estimates, times, days, words."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from engines import gnumeric

from edits.desk import LIST_FILE, LISTS, SHORT_FILE, Desk, desk, write_season
from reportgen import program
from reportgen.algebra.inputs import Input
from reportgen.edits.typed import Reader, Typed
from reportgen.edits.written import Writer
from reportgen.model.records import RECORDS
from reportgen.read.grammar import Measure
from reportgen.read.problem import Refusal
from reportgen.returned.cells import Cell, Value
from reportgen.units import FRESH, HOUR, Unit

pytestmark = pytest.mark.slow

SLOTS = {"fresh": "lb", "dried": "oz", "money": "USD", "distance": "mile"}
READER = Reader(SLOTS, {"Obst": "fruit"})


def column(table: str, name: str) -> Input:
    return next(each for each in RECORDS[table].inputs if each.name == name)


def read(table: str, name: str, value: Value, shown: str = "number") -> Typed:
    return READER.read(Cell(value, shown=shown), column(table, name), table)  # type: ignore[arg-type]


POUND_IN_OUNCES = 16.0
"""The avoirdupois pound (NIST Handbook 44, appendix C)."""


@pytest.mark.parametrize(
    ("table", "name", "typed", "value"),
    [
        ("lots", "weighed", "3 lb 4 oz", 3 + 4 / POUND_IN_OUNCES),
        ("lots", "weighed", "52 oz", 52 / POUND_IN_OUNCES),
        ("lots", "weighed", "1,5", 1.5),
        ("lots", "weighed", "1,5 lb", 1.5),
        ("lots", "weighed", " 1.5 ", 1.5),
        ("lots", "weighed", "1,50", 1.5),
        ("lots", "weighed", "2", 2.0),
        ("loads", "dry", "1 lb 10 oz", 26.0),
        ("lots", "labor", "1 h 30 min", 1.5),
        ("lots", "labor", "45 min", 0.75),
        ("pricing", "margin", "30 %", 0.3),
        ("pricing", "margin", "12,5 %", 0.125),
        ("rates", "electricity", "0.20 USD/kWh", 0.2),
        ("rates", "electricity", "0,2", 0.2),
        ("dryers", "life", "500 run", 500.0),
    ],
)
def test_text_is_read_as_a_file_is(table: str, name: str, typed: str, value: float) -> None:
    found = read(table, name, typed)
    assert found.value == pytest.approx(value, rel=1e-15) and not found.about


@pytest.mark.parametrize("typed", ["~2", "~ 2", "~2 lb", "about 2 lb", "~2,0"])
def test_an_estimate_is_one(typed: str) -> None:
    assert read("lots", "weighed", typed) == Typed(2.0, about=True)


@pytest.mark.parametrize("typed", ["1,500", "1,500 lb", "12,345", "~1,500", "1 lb 1,250 oz"])
def test_a_comma_before_three_digits_is_ambiguous(typed: str) -> None:
    with pytest.raises(Refusal, match="may mean"):
        read("lots", "weighed", typed)


@pytest.mark.parametrize(
    ("table", "name", "typed"),
    [
        ("lots", "weighed", "3 h"),
        ("lots", "weighed", "a few"),
        ("lots", "weighed", "1,234,567"),
        ("lots", "weighed", "-2"),
        ("lots", "weighed", -2.0),
        ("lots", "weighed", True),
        ("lots", "weighed", "3 kg 4"),
        ("packs", "count", 2.5),
        ("packs", "count", "2 lb"),
        ("pricing", "margin", 1.5),
        ("lots", "date", "last week"),
        ("lots", "date", 12.0),
        ("lots", "date", "2026-02-30"),
        ("lots", "finished", "perhaps"),
        ("lots", "finished", 2.0),
        ("rates", "electricity", "0.2 EUR/kWh"),
    ],
)
def test_what_cannot_be_is_refused(table: str, name: str, typed: Value) -> None:
    with pytest.raises(Refusal):
        read(table, name, typed)


@pytest.mark.parametrize(
    ("typed", "value"),
    [("yes", True), ("no", False), ("true", True), (True, True), (False, False), (1.0, True),
     (0.0, False), ("oui", True), ("non", False), ("YES", True), ("vrai", True), ("FAUX", False)],
)  # fmt: skip
def test_flags(typed: Value, value: bool) -> None:
    assert read("lots", "finished", typed).value is value


@pytest.mark.parametrize("hours", [34.5, 30.25, 3.5, 100.0])
def test_hours_typed_with_a_colon_became_part_of_a_day(hours: float) -> None:
    assert read("runs", "duration", hours / 24, "time").value == pytest.approx(hours, abs=1e-9)
    assert read("lots", "labor", hours / 24, "time").value == pytest.approx(hours, abs=1e-9)


def test_hours_that_may_be_part_of_a_day_are_asked_about() -> None:
    with pytest.raises(Refusal, match="very short run") as refused:
        read("runs", "duration", 1.4375)
    assert "34:30" in refused.value.do
    with pytest.raises(Refusal, match="very short run"):
        read("runs", "duration", 2.9 / 24, "time")
    assert read("lots", "labor", 1.4375).value == 1.4375, "labor may be short"


@pytest.mark.parametrize("clock", [1.75, 0.75, 1.5, 2, 3, 4, 7.6])
def test_a_time_of_day_in_a_cell_of_hours_is_asked_about(clock: float) -> None:
    """1:45, 0:45, ...: a part of a day, where the cell kept its format of a number."""
    for table in ("lots", "runs", "packs"):
        with pytest.raises(Refusal, match="looks like a time of day") as refused:
            read(table, "labor", clock / 24)
        assert "type 1.75" in refused.value.do


@pytest.mark.parametrize("hours", [0.25, 0.5, 0.1, 0.05, 0.75, 0.4321, 1.0, 1.4375, 3.5])
def test_hours_as_people_type_them_are_hours(hours: float) -> None:
    assert read("lots", "labor", hours).value == hours


def test_what_was_not_typed_is_not_asked_about(tmp_path: Path) -> None:
    """A run of two hours and five minutes of work, as the files have them."""
    made = write_season(tmp_path / "made")
    short = LISTS.replace("duration: 30 h", "duration: 2 h\n    labor: 5 min")
    (made / LIST_FILE).write_text(short, "utf-8")
    at = desk(tmp_path / "desk", made)
    assert at.compare() == []
    at.type({at.at.cell("runs", "run-1", "energy"): 21.0})
    assert at.kinds() == ["change"]
    assert at.run("take").exit_code == 0
    assert "energy: 21 kWh" in at.texts()[LIST_FILE]


def test_a_weight_that_is_a_day_is_asked_about() -> None:
    with pytest.raises(Refusal, match="looks like a day"):
        read("lots", "weighed", 45906.0)
    with pytest.raises(Refusal, match="made a day"):
        read("lots", "weighed", 12.0, "day")
    assert read("lots", "weighed", 45906.5).value == 45906.5


@pytest.mark.parametrize(
    ("table", "name", "typed", "value"),
    [
        # 2025-09-05 is 45905 days after 1899-12-30 (ISO/IEC 29500-1, 18.17.4).
        ("lots", "date", 45905.0, 45905.0),
        ("lots", "date", "2025-09-05", 45905.0),
        ("runs", "started", 45905.75, 45905.75),
        ("runs", "started", "2025-09-05 18:00", 45905.75),
        ("runs", "started", 45905.750000001, 45905.75),
        ("lots", "date", 45905.25, 45905.0),
    ],
)
def test_days(table: str, name: str, typed: Value, value: float) -> None:
    shown = "day" if isinstance(typed, float) else "number"
    assert read(table, name, typed, shown).value == pytest.approx(value, abs=1e-9)


def test_a_number_in_a_column_of_texts_is_that_text() -> None:
    assert read("lots", "note", 7.0).value == "7"
    assert read("lots", "source", 0.1).value == "0.1"


# --- in the workbook ----------------------------------------------------------------------


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def test_typed_into_the_workbook_it_comes_home(at: Desk) -> None:
    at.type(
        {
            at.at.cell("lots", "pears-1", "weighed"): "39 lb 8 oz",
            at.at.cell("lots", "pears-1", "prepped_weighed"): "~29,5",
            at.at.cell("lots", "pears-2", "weighed"): "9,25",
            at.at.cell("lots", "pears-2", "finished"): True,
            at.at.cell("lots", "pears-2", "date"): "2025-09-07",
            at.at.cell("runs", 1, "labor"): "40 min",
        }
    )
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE]
        .replace("weighed: 40 lb ", "weighed: 39 lb 8 oz ")
        .replace("prepped: 30 lb", "prepped: ~29.5 lb")
        .replace(
            "2025-09-06, price: 12 USD, weighed: 9 lb}",
            "2025-09-07, price: 12 USD, weighed: 9.25 lb, finished: true}",
        ),
        SHORT_FILE: before[SHORT_FILE].replace("19 kWh}", "19 kWh, labor: 40 min}"),
    }
    assert set(at.kinds()) == {"home"}


def test_a_unit_that_was_typed_comes_home_with_its_last_digit(at: Desk) -> None:
    """A weighing to the nearest pound, turned into ounces or grams, would look like a fine one."""
    names = ("dry", "weighing_before", "weighing_last")
    at.type({at.at.cell("loads", 2, name): "1,6 lb" for name in names})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert "dry: 1.6 lb" in at.texts()[LIST_FILE]
    assert "weights: [1.6 lb, 1.6 lb]" in at.texts()[LIST_FILE]
    numbers = program.read(at.folder).numbers
    assert numbers is not None
    assert numbers.value("loads", "step", 1) == pytest.approx(0.1 * POUND_IN_OUNCES)
    assert at.kinds() == ["home"] * len(at.kinds())


@pytest.mark.parametrize(
    ("value", "unit", "was", "text"),
    [
        (2 / 3, HOUR, "", "40 min"),
        (2 / 3, HOUR, "1 h", "40 min"),
        (2 / 3, HOUR, "15 min", "40 min"),
        (1.75, HOUR, "", "1.75 h"),
        (1 / 7, HOUR, "", f"{1 / 7!r} h"),
        (float(Fraction("0.1") / Fraction("0.45359237")), FRESH, "", "100 g"),
        (0.1 + 0.2, FRESH, "", "0.30000000000000004 lb"),
    ],
)
def test_a_time_or_weight_is_written_shortly_where_that_is_the_same_number(
    value: float, unit: Unit, was: str, text: str
) -> None:
    # A pound is 0.45359237 kg by the international agreement of 1959.
    measure = Measure(unit, SLOTS)
    assert Writer(SLOTS).amount(value, was, measure.read, measure.shown) == text
    assert measure.read(text) == value


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("weighed", "1,500", "1.500 or 1500"),
        ("weighed", 45906.0, "looks like a day"),
        ("weighed", "#VALUE!", "#VALUE!"),
        ("labor", "soon", "soon"),
    ],
)
def test_what_is_refused_is_refused_with_its_cell(
    at: Desk, name: str, typed: Value, said: str
) -> None:
    cell = at.at.cell("lots", "pears-1", name)
    at.type({cell: typed})
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1
    assert "!".join(cell) in done.output and said in done.output
    assert at.texts() == before


@pytest.mark.parametrize("ending", ["xlsx", "ods"])
def test_a_yes_is_no_formula_where_a_suite_saves_it_as_one(at: Desk, ending: str) -> None:
    """LibreOffice saves a truth value in a cell of numbers as =TRUE()."""
    sheet, ref = at.at.cell("lots", "pears-2", "finished")
    at.formula(sheet, ref, "TRUE()", 1)
    if ending == "ods":
        (at.book,) = gnumeric.saved_again([at.book], at.folder.parent / "saved", "ods")
    (change,) = at.compare()
    assert (change["kind"], change["field"], change["edited"]) == ("change", "finished", True)


def test_a_time_typed_into_hours(at: Desk) -> None:
    book = openpyxl.load_workbook(at.book)
    sheet, ref = at.at.cell("runs", "run-1", "duration")
    book[sheet][ref] = 1.4375
    book[sheet][ref].number_format = "[h]:mm"
    book.save(at.book)
    before = at.texts()
    assert at.run("take").exit_code == 0
    assert at.texts()[LIST_FILE] == before[LIST_FILE].replace("duration: 30 h", "duration: 34.5 h")


def test_a_date_typed_as_its_program_shows_it(at: Desk) -> None:
    book = openpyxl.load_workbook(at.book)
    sheet, ref = at.at.cell("lots", "pears-1", "date")
    book[sheet][ref] = 45908
    book[sheet][ref].number_format = "d/m/yy"
    book.save(at.book)
    assert at.run("take").exit_code == 0
    assert "date: 2025-09-08\n" in at.texts()[LIST_FILE]


def test_choices_of_a_french_workbook_come_home_in_english(tmp_path: Path) -> None:
    season = write_season(tmp_path / "made")
    settings = season / "season.yaml"
    settings.write_text(
        settings.read_text("utf-8").replace("units:", "locale: fr-FR\nunits:"), "utf-8"
    )
    at = desk(tmp_path, season)
    assert at.kinds() == []
    book = openpyxl.load_workbook(at.book)
    shown = {
        str(book[sheet][ref].value): (sheet, ref)
        for sheet, ref in (at.at.cell("uses", row, "purpose") for row in (1, 2))
    }
    assert "crumbs" not in shown, "the workbook says it in French"
    gift = program.texts("fr").say("gift")
    assert gift != "gift"
    at.type({at.at.cell("uses", 1, "purpose"): gift, at.at.cell("uses", 1, "channel"): None})
    assert [change["edited"] for change in at.compare()] == ["gift", None]
    before = at.texts()
    assert at.run("take").exit_code == 0
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace("for: stall", "for: gift"),
    }


def test_all_that_was_left_comes_home_as_a_word(at: Desk) -> None:
    before = at.texts()
    at.type({at.at.cell("uses", 2, "weight"): None, at.at.cell("uses", 2, "rest"): 1})
    assert at.run("take").exit_code == 0
    line = "weight: rest, for: crumbs"
    assert at.texts() == {
        **before,
        LIST_FILE: before[LIST_FILE].replace("weight: 1.5 oz, for: crumbs", line),
    }
    assert at.kinds() == ["home", "home"]
