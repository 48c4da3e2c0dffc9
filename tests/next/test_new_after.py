"""The season that follows opens with what the last closed with: weight and money, every digit."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from cli.seasons import ROOT, run
from seasons import sample_seasons

from reportgen import program
from reportgen.algebra.numbers import Numbers, Value
from reportgen.next.closing import not_done
from reportgen.next.opening import next_name, opening
from reportgen.read.dates import day
from reportgen.report.basis import Bases

pytestmark = pytest.mark.seasons

GUESSED = """season: Guessed 2025
currency: USD
dryers: [{id: shed, load_limit: 20 lb}]
containers: [{id: jar, parts: {lid: 1 USD}}]
lots:
  - {id: plums, product: plum-halves, date: 2025-08-01, price: 20 USD, prepped: ~30 lb}
  - {id: greens, product: kale, date: 2025-08-01, price: 10 USD, prepped: 30 lb}
runs:
  - {id: one, started: 2025-08-02 18:00, duration: 30 h, energy: 15 kWh,
     loads: [{lot: plums, wet: 10 lb, dry: ~30 oz}]}
  - {id: two, started: 2025-08-04 18:00, duration: 20 h, energy: 10 kWh,
     loads: [{lot: greens, wet: 8 lb, dry: 16 oz}]}
packs:
  - {id: P, product: plum-halves, date: 2025-08-05, container: jar, count: 2, net: ~5 oz,
     from: [one]}
  - {id: Q, product: kale, date: 2025-08-06, container: jar, count: 2, net: 4 oz, from: [two]}
"""
"""Plums by guess, kale by the scale, some of each in packs, in bulk and still waiting."""
AT_LEAST = 25
"""Generated seasons whose runs are all done."""


def read(folder: Path) -> program.Read:
    return program.read(folder, as_of=day("2026-01-31"))


def follow(folder: Path, target: Path) -> Numbers:
    """The season after the one in a folder, written and read again."""
    last = read(folder)
    assert last.season is not None
    assert last.numbers is not None
    files, _ = opening(folder, last.season, last.numbers)
    for name, content in files.items():
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        (target / name).write_bytes(content)
    done = read(target)
    assert done.numbers is not None, done.problems
    assert done.problems == []
    return done.numbers


def rows(numbers: Numbers, table: str, names: str, key: str = "key") -> dict[Value, list[Value]]:
    cells = numbers.cells[table]
    columns = [cells[name] for name in names.split()]
    return {name: [*each] for name, *each in zip(cells[key], *columns, strict=True)}


def held(last: Numbers, following: Numbers) -> int:
    """Every weight and cost that goes over, against the last season's figures; how many."""
    figures = "on_hand running_each full_each dryness net product container date"
    packs = {k: v for k, v in rows(last, "packs", figures).items() if v[0] is None or v[0] > 0}  # type: ignore[operator]
    counted = {k: v for k, v in packs.items() if v[0] is not None}
    assert rows(following, "packs", figures) == counted

    lots = rows(last, "lots", "some_waiting waiting waiting_cost waiting_full product date source")
    waits = {key: values[1:] for key, values in lots.items() if values[0]}
    opened = "prepped_weighed carried_running carried_full product date source"
    assert rows(following, "lots", opened) == waits

    products = rows(last, "products", "left_in_bulk key unpacked running_bulk full_bulk")
    mixes = rows(last, "mixes", "some_left product left running_by_weight full_by_weight")
    left = [v[1:] for each in (products, mixes) for v in each.values() if v[0]]
    opened = "product dried running full"
    assert [*rows(following, "carried_over", opened).values()] == left

    for dryer, (done, saved, before) in rows(
        last, "dryers", "runs_done saved_in_all saved_before"
    ).items():
        now = rows(following, "dryers", "runs_done saved_before")[dryer]
        assert now == [done, before if saved is None else saved]
    return len(counted) + len(waits) + len(left)


@pytest.mark.slow
def test_generated_seasons_three_in_a_row(tmp_path: Path) -> None:
    done = went_over = mixed = 0
    for n, season in enumerate(sample_seasons(100, 11)):
        first = season.write(tmp_path / str(n))
        last = read(first)
        assert last.season is not None
        assert last.numbers is not None
        if not_done(last.season, last.numbers):
            continue
        second = follow(first, tmp_path / f"{n}-second")
        mixed += any(last.numbers.cells["mixes"]["some_left"])
        went_over += held(last.numbers, second)
        third = follow(tmp_path / f"{n}-second", tmp_path / f"{n}-third")
        held(second, third)
        done += 1
    assert done >= AT_LEAST
    assert went_over >= AT_LEAST
    assert mixed >= 3


@pytest.fixture
def lane(tmp_path: Path) -> Path:
    """The sample of a household, its open run given up."""
    place = shutil.copytree(ROOT / "samples" / "windrow-lane", tmp_path / "lane")
    batch = place / "batches" / "2025-10-11-apples.yaml"
    text = batch.read_text("utf-8")
    assert "- id: run-18\n" in text
    batch.write_text(text.replace("- id: run-18\n", "- id: run-18\n    failed: true\n"), "utf-8")
    return place


@pytest.mark.parametrize("sample", ["lane", "colline"])
def test_the_samples(sample: str, lane: Path, tmp_path: Path) -> None:
    folder = lane if sample == "lane" else ROOT / "samples" / "colline"
    last = read(folder).numbers
    assert last is not None
    second = follow(folder, tmp_path / "second")
    assert held(last, second) > 8
    assert held(second, follow(tmp_path / "second", tmp_path / "third")) > 8
    # What shops ask stays dated; last year's plan is there to read, and plans nothing.
    assert set(second.cells["offers"]["date"]) <= set(last.cells["offers"]["date"])
    assert second.cells["plan"]["key"] == []
    assert "# plan:" in (tmp_path / "second" / "season.yaml").read_text("utf-8")
    # The best-by day is the day that was printed on the label.
    for key, (closed,) in rows(last, "packs", "best_by").items():
        opened = rows(second, "packs", "best_by").get(key)
        if opened is not None and isinstance(closed, float):
            assert opened == [int(closed)]


def test_an_estimated_weight_is_an_estimate_in_the_next_season_too(tmp_path: Path) -> None:
    """Of each kind of record that weight is left in, one that was weighed and one that was not."""
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "season.yaml").write_text(GUESSED, encoding="utf-8")
    second = follow(tmp_path / "a", tmp_path / "b")
    third = follow(tmp_path / "b", tmp_path / "c")
    for numbers in (second, third):
        marks = {
            **dict(zip(*(numbers.cells["lots"][n] for n in ("key", "prepped_about")), strict=True)),
            **dict(zip(*(numbers.cells["packs"][n] for n in ("key", "net_about")), strict=True)),
            **dict(zip(*(numbers.cells["carried_over"][n] for n in ("product", "dried_about")),
                       strict=True)),
        }  # fmt: skip
        assert {key: bool(mark) for key, mark in marks.items()} == {
            "plums": True, "greens": False, "P": True, "Q": False,
            "plum-halves": True, "kale": False,
        }  # fmt: skip
        bases = Bases(numbers)
        bulk = dict(zip(numbers.cells["products"]["key"], range(9), strict=False))
        for product, basis in (("plum-halves", "estimated"), ("kale", "measured")):
            table = numbers.book.tables["products"]
            assert bases.of(table, "carried", bulk[product]) == basis


def test_settings_go_over_with_every_key(lane: Path, tmp_path: Path) -> None:
    follow(lane, tmp_path / "second")
    last, new = (
        yaml.safe_load((each / "season.yaml").read_text("utf-8"))
        for each in (lane, tmp_path / "second")
    )
    same = ("currency", "units", "rates", "overheads", "containers", "absorbers", "scale",
            "pricing", "maker", "scenarios")  # fmt: skip
    assert {key: new[key] for key in same} == {key: last[key] for key in same}
    for before, after in zip(last["dryers"], new["dryers"], strict=True):
        brought = ("runs_before", "saved_before")
        assert {k: v for k, v in after.items() if k not in brought} == {
            k: v for k, v in before.items() if k not in brought
        }
    assert new["season"] == "Windrow Lane 2026"
    assert (tmp_path / "second" / "recipes" / "squash-lentil-soup.yaml").is_file()
    said = (tmp_path / "second" / "season.yaml").read_text("utf-8")
    assert "# as if" not in said or "saved_before" in said
    assert "# our own time" in said  # the maker's comments go with the lines they stand on


def test_the_command_writes_a_season_that_checks(lane: Path, tmp_path: Path) -> None:
    made = run("new", tmp_path / "next", "--after", lane, "--as-of", "2025-12-31")
    assert made.exit_code == 0, made.output
    assert "batches/from-last-season.yaml" in made.stdout
    checked = run("check", tmp_path / "next", "--as-of", "2026-01-02")
    assert checked.exit_code == 0
    traced = run("explain", tmp_path / "next", "trace.source")
    assert "Windrow Lane 2025: " in traced.stdout


def test_a_run_that_is_not_done_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    done = run("new", tmp_path / "next", "--after", ROOT / "samples" / "windrow-lane")
    assert done.exit_code == 1
    assert "batches/2025-10-11-apples.yaml:23: the run run-18 is not done" in done.stderr
    assert not (tmp_path / "next").exists()


def test_a_folder_with_something_in_it_stays_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    done = run("new", tmp_path, "--after", ROOT / "samples" / "colline")
    assert done.exit_code == 2
    assert [each.name for each in tmp_path.iterdir()] == ["mine.txt"]


@pytest.mark.parametrize(
    ("name", "following"),
    [
        ("Larch Hollow 2025", "Larch Hollow 2026"),
        ("2025 at the hollow", "2026 at the hollow"),
        ("Larch Hollow", "Larch Hollow, next season"),
        ("From 2024 to 2025", "From 2024 to 2025, next season"),
    ],
)
def test_the_name_of_the_next(name: str, following: str) -> None:
    assert next_name(name) == following


def test_closed_days_are_of_their_year_and_a_wish_for_a_second_dryer_is_not(tmp_path: Path) -> None:
    last = tmp_path / "last"
    shutil.copytree(ROOT / "samples" / "colline", last)
    head = last / "season.yaml"
    dryer = yaml.safe_load(head.read_text("utf-8"))["dryers"][0]["id"]
    more = f"""closed:   # away
  - {{dryer: {dryer}, from: 2025-11-02, to: 2025-11-05}}
another: {{like: {dryer}, price: 2100 EUR}}
"""
    head.write_text(head.read_text("utf-8") + more, encoding="utf-8")
    second = follow(last, tmp_path / "second")
    assert second.cells["closed"]["key"] == []
    assert second.cells["another"]["price"] == [2100]
    said = (tmp_path / "second" / "season.yaml").read_text("utf-8")
    assert "# closed:   # away\n#   - {dryer" in said


def test_a_file_on_one_line_goes_over_too(tmp_path: Path) -> None:
    text = (
        "{season: Flow 2025, currency: USD, dryers: [{id: a, runs_before: 3}], "
        "rates: {labor: 5 USD/h}, containers: [{id: jar, parts: {lid: 1 USD}}]}\n"
    )
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "season.yaml").write_text(text)
    following = follow(tmp_path / "a", tmp_path / "b")
    assert following.value("rates", "labor") == 5
    assert following.value("dryers", "runs_before") == 3
    assert following.value("containers", "packaging_each") == 1
