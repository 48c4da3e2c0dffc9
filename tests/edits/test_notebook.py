"""A day's work typed into the notebook: what stands beside it at once, and the file it becomes."""

from __future__ import annotations

from pathlib import Path

import pytest
from engines import gnumeric
from engines.cells import Value
from openpyxl.utils import get_column_letter

from edits.desk import SETTINGS, Desk, desk
from reportgen import program

pytestmark = pytest.mark.slow

DAY = 45919.0
"""2025-09-19."""
WHOLE: dict[str, Value] = {
    "product": "pear-slices", "date": DAY, "count": 2.0, "container": "lug", "price": 28.5,
    "weighed": "48 lb 8 oz", "prepped": 41.0, "wet": "~19,5", "started": DAY + 0.8125,
    "hours": 34.5, "meter_from": 1042.3, "meter_to": 1064.1, "dry": 52.1, "weighing_before": 52.6,
    "weighing_last": 52.1, "packed": 4.0, "packed_in": "jar", "net": 2.0, "note": "late: very",
}  # fmt: skip
TEXT = """\
product: pear-slices
bought: 2 lug at 28.5 USD
weighed: 48 lb 8 oz
prepped: 41 lb
wet: ~19.5 lb
run: {started: 19:30, duration: 34.5 h, energy: {from: 1042.3 kWh, to: 1064.1 kWh}}
dry: 52.1 oz
dryness: {weights: [52.6 oz, 52.1 oz]}
packed: 4 jar of 2 oz
note: "late: very"
"""
FILE = "batches/2025-09-19-pear-slices.yaml"


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def cell(at: Desk, name: str, row: int = 0) -> tuple[str, str]:
    sheet, first = at.at.spare["notebook"]
    return sheet, f"{get_column_letter(at.at.columns['notebook'][name])}{first + row}"


def write(at: Desk, *rows: dict[str, Value]) -> None:
    at.type({cell(at, name, n): held for n, row in enumerate(rows) for name, held in row.items()})


def test_a_row_becomes_a_file_of_the_short_form(at: Desk) -> None:
    before = at.texts()
    write(at, WHOLE)
    (change,) = at.compare()
    assert (change["kind"], change["table"], change["row"]) == (
        "added",
        "notebook",
        "pear-slices 2025-09-19",
    )
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() == {**before, FILE: TEXT}


def test_a_run_of_another_dryer_says_so(at: Desk) -> None:
    write(at, {"product": "pear-slices", "date": DAY, "wet": 9.0, "dryer": "Porch", "dry": 20.0})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert "run: {dryer: porch}\n" in at.texts()[FILE]
    assert at.kinds() == ["home"]


def test_days_are_told_as_days_and_estimates_as_such(at: Desk) -> None:
    write(at, WHOLE)
    assert at.run("take").exit_code == 0
    assert "added: " not in (said := at.run("compare").output)
    assert "nothing" not in said and "45919" not in said


def test_what_was_taken_counts_and_nothing_is_left(at: Desk) -> None:
    write(at, WHOLE)
    assert at.run("take").exit_code == 0
    numbers = program.read(at.folder).numbers
    assert numbers is not None
    row = numbers.cells["loads"]["key"].index("pear-slices-2025-09-19-run/pear-slices-2025-09-19")
    # 19.5 lb of 16 oz, over 52.1 oz.
    assert numbers.cells["loads"]["drying_ratio"][row] == pytest.approx(19.5 * 16 / 52.1)
    assert at.kinds() == ["home"]
    texts = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == texts


def test_days_alike_are_told_apart_and_each_is_taken_once(at: Desk) -> None:
    other = {"product": "Pear-Slices", "started": DAY + 0.25, "wet": 9.0}
    write(at, {**WHOLE, "note": None}, other, other)
    assert at.run("take").exit_code == 0
    assert [n for n in at.texts() if "2025-09-19" in n] == [
        "batches/2025-09-19-pear-slices-2.yaml",
        "batches/2025-09-19-pear-slices-3.yaml",
        FILE,
    ]
    assert at.kinds() == ["home"] * 3


def test_a_file_that_says_otherwise_by_now_is_a_conflict(at: Desk) -> None:
    write(at, WHOLE)
    assert at.run("take").exit_code == 0
    at.write(FILE, "dry: 52.1 oz", "dry: 51 oz")
    before = at.texts()
    assert at.kinds() == ["conflict"]
    assert at.run("take").exit_code == 1 and at.texts() == before


def test_what_its_maker_adds_to_the_file_is_no_conflict(at: Desk) -> None:
    write(at, WHOLE)
    assert at.run("take").exit_code == 0
    at.write(FILE, "dry: 52.1 oz\n", "dry: 52.1 oz\nlabor: 2 h\n")
    assert at.kinds() == ["home"]


@pytest.mark.parametrize(
    ("row", "where", "why"),
    [
        ({"product": "pear-slices", "wet": 9.0}, "date", "it has no day"),
        ({"date": DAY, "wet": 9.0}, "product", "it names no product"),
        ({"product": "../pears", "date": DAY}, "product", "'../pears' cannot be an id"),
        ({"product": "pear-slices", "date": DAY, "wet": "some"}, "wet", "some"),
        ({"product": "pear-slices", "started": DAY, "hours": 1.4}, "hours", "a very short run"),
        ({"product": "pear-slices", "date": DAY, "wet": -2.0}, "wet", "-2"),
        ({"product": "pear-slices", "date": DAY, "wet": 2.0, "dry": 60.0}, "", "more dry than"),
        ({"product": "quinces", "date": DAY, "wet": 9.0}, "", "quinces"),
    ],
)
def test_what_cannot_be_a_days_work_is_refused_with_its_cell(
    at: Desk, row: dict[str, Value], where: str, why: str
) -> None:
    before = at.texts()
    write(at, row)
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    sheet, ref = cell(at, where or "product")
    assert f"{sheet}!{ref}" in done.output and why in done.output, done.output


def test_yield_ratio_and_count_of_rows_stand_beside_it_at_once(at: Desk, tmp_path: Path) -> None:
    write(at, WHOLE | {"wet": 19.5}, {"product": "pear-slices"})
    found = gnumeric.recalculate([at.book], tmp_path / "again")[at.book]
    for name, expected in (("dried_yield", 52.1 / 312), ("drying_ratio", 312 / 52.1)):
        assert found[cell(at, name)] == pytest.approx(expected)
        assert found.get(cell(at, name, 1)) in (None, "")
    assert found[cell(at, "key")] == found[cell(at, "key", 1)] == "waits"
    said = [str(value) for (sheet, _), value in found.items() if sheet == "Checks"]
    assert any("Rows of the notebook wait" in each for each in said)
    (row,) = (ref[1:] for (_, ref), value in found.items() if value == "Rows that wait")
    assert found["Notebook", f"C{row}"] == 2


def test_its_head_says_when_rows_count(at: Desk) -> None:
    import openpyxl

    sheet = openpyxl.load_workbook(at.book)["Notebook"]
    head = " ".join(str(c.value) for row in sheet["A1:C4"] for c in row if c.value)
    assert "Rows count in the season after 'reportgen take'" in head


def test_who_writes_the_short_form_more_than_once_may_type_it(at: Desk) -> None:
    import io

    import openpyxl

    write(at, WHOLE)
    assert at.run("take").exit_code == 0
    for path, state in ((FILE, "visible"), ("batches/2025-09-12-apples.yaml", "hidden")):
        data, _ = program.build(at.folder)
        assert data is not None
        assert openpyxl.load_workbook(io.BytesIO(data))["Notebook"].sheet_state == state, path
        (at.folder / path).unlink()


def test_a_season_in_a_single_file_says_where_to_type_it(tmp_path: Path) -> None:
    one = tmp_path / "as-written" / "all"
    one.mkdir(parents=True)
    (one / "season.yaml").write_text(SETTINGS + "lots: []\n", "utf-8")
    at = desk(tmp_path, one)
    (at.folder / "season.yaml").rename(at.folder / "alder.yaml")
    at.folder = at.folder / "alder.yaml"
    write(at, WHOLE)
    done = at.run("take")
    assert done.exit_code == 1 and "type it into Lots, Runs, Loads and Packs" in done.output
