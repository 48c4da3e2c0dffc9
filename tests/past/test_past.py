"""Past seasons side by side: what is copied, what is worked out, and that engines agree on it."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from cli.seasons import BATCH, SEASON, run
from engines import audit, iron
from engines.cells import cells, values
from engines.edit import typed

pytestmark = pytest.mark.slow

KG_OF_LB, G_OF_OZ = 0.45359237, 28.349523125
"""Exact: NIST Special Publication 811, appendix B.8."""

WHOLE = BATCH.replace("count: 2, from", "count: 2, net: 3 oz, from")
METRIC = SEASON.replace("fresh: lb, dried: oz", "fresh: kg, dried: g")


def write(folder: Path, year: int, batch: str = WHOLE, settings: str = SEASON) -> Path:
    """The small season of the commands' tests, in another year."""
    (folder / "batches").mkdir(parents=True)
    settings = settings.replace("2025", str(year)) + f"as_of: {year}-12-31\n"
    (folder / "season.yaml").write_text(settings, "utf-8")
    batch = batch.replace("2025-", f"{year}-")
    (folder / "batches" / f"{year}-09-05.yaml").write_text(batch, "utf-8")
    return folder


def figures(season: Path) -> dict[str, float | None]:
    """The pears' figures, from the command that tells them."""
    told = json.loads(run("figures", season, "--json").stdout)
    return {k: v["value"] for k, v in told["tables"]["products"]["pear-slices"].items()}


def table(workbook: Path) -> dict[str, dict[str, object]]:
    """The rows of the first sheet by their key, each by the names above the columns."""
    found = values(workbook)
    sheet = "Seasons compared"
    letters = [place[1][:-1] for place in found if place[0] == sheet and place[1][-1:] == "5"
               and place[1][:-1].isalpha()]  # fmt: skip
    heads = {letter: str(found[sheet, f"{letter}5"]).lower() for letter in letters}
    rows = {}
    for row in range(7, 40):
        key = found.get((sheet, f"A{row}"))
        if not key:
            break
        rows[str(key)] = {head: found.get((sheet, f"{c}{row}")) for c, head in heads.items()}
    return rows


@pytest.fixture
def three(tmp_path: Path) -> list[Path]:
    """Two seasons in lb and oz, between them one in kg and g; the first is the newest."""
    cheaper = WHOLE.replace("price: 30 USD", "price: 21 USD").replace("energy: 20", "energy: 24")
    return [
        write(tmp_path / "newest", 2024),
        write(tmp_path / "middle", 2023, cheaper, METRIC),
        write(tmp_path / "oldest", 2022, WHOLE.replace("- {id: o-1", "- {id: o-2")),
    ]


def built(seasons: list[Path], target: Path) -> Path:
    done = run("build", *seasons, "-o", target)
    assert done.exit_code == 0, done.stderr
    return target


def test_each_figure_is_the_seasons_own_in_the_units_of_the_first(
    three: list[Path], tmp_path: Path
) -> None:
    rows = table(built(three, tmp_path / "all.xlsx"))
    assert list(rows) == [f"pear-slices/season-{n}" for n in (1, 2, 3)]
    for row, season in zip(rows.values(), reversed(three), strict=True):
        own = figures(season)
        metric = season.name == "middle"
        for head, name in (
            ("overall yield", "overall_yield"),
            ("drying ratio", "drying_ratio"),
            ("rests on estimates", "estimated_share"),
            ("energy by water removed", "specific_energy"),
        ):
            assert row[head] == pytest.approx(own[name], rel=1e-12)
        for head, name in (
            ("running cost by weight", "running_per_packed"),
            ("full cost by weight", "full_per_packed"),
            ("shops' median price", "retail_median"),
        ):
            value = own[name]
            assert value is not None
            by_ounce = value * G_OF_OZ if metric else value
            assert row[head] == pytest.approx(by_ounce, rel=1e-12)


def test_energy_by_water_by_hand(three: list[Path]) -> None:
    # run-1: 10 lb wet, 26 oz dry, 20 kWh; run-2 is not done and does not count.
    water = (10 - 26 / 16) * KG_OF_LB
    assert figures(three[0])["specific_energy"] == pytest.approx(20 / water, rel=1e-12)


def test_changes_are_against_the_season_before(three: list[Path], tmp_path: Path) -> None:
    first, second, third = table(built(three, tmp_path / "all.xlsx")).values()
    for head, change in (
        ("running cost by weight", "running change"),
        ("full cost by weight", "full change"),
        ("energy by water removed", "energy change"),
        ("shops' median price", "retail change"),
    ):
        assert first[change] in (None, "")
        for before, after in ((first, second), (second, third)):
            ratio = float(str(after[head])) / float(str(before[head]))
            assert after[change] == pytest.approx(ratio - 1, abs=1e-12)
    assert second["energy change"] == pytest.approx(24 / 20 - 1)


def test_the_engines_agree_and_a_copied_figure_typed_over_is_followed(
    three: list[Path], tmp_path: Path
) -> None:
    path = built(three, tmp_path / "all.xlsx")
    assert audit.faults([path], tmp_path / "out") == {}
    contents = cells(path)
    sheet = "Seasons compared"
    heads = {str(contents[sheet, f"{c}5"].value).lower(): c for c in "ABCDEFGHIJKLMNOP"
             if (sheet, f"{c}5") in contents}  # fmt: skip
    running, change = heads["running cost by weight"], heads["running change"]
    was = contents[sheet, f"{running}7"].value
    assert isinstance(was, float)
    after = iron.recalculate(
        typed(path, {(sheet, f"{running}7"): was * 2}, tmp_path / "typed.xlsx")
    )
    now = contents[sheet, f"{running}8"].value
    assert isinstance(now, float)
    assert after[sheet, f"{change}8"] == pytest.approx(now / (was * 2) - 1)


def test_the_workbook_says_from_where_and_when_it_was_copied(
    three: list[Path], tmp_path: Path
) -> None:
    found = values(built(three, tmp_path / "all.xlsx"))
    texts = {str(value) for value in found.values()}
    assert {f"{name}/season.yaml" for name in ("newest", "middle", "oldest")} <= texts
    assert any("copied from the seasons" in text for text in texts)
    assert not any(str(tmp_path) in text for text in texts)


def test_the_same_seasons_give_the_same_bytes(three: list[Path], tmp_path: Path) -> None:
    one, two = (built(three, tmp_path / name).read_bytes() for name in ("a.xlsx", "b.xlsx"))
    assert one == two


def test_a_product_of_one_season_has_one_row(three: list[Path], tmp_path: Path) -> None:
    other = write(tmp_path / "other", 2021, WHOLE.replace("pear-slices", "apple-rings"))
    rows = table(built([*three, other], tmp_path / "all.xlsx"))
    assert list(rows) == ["apple-rings/season-1", *(f"pear-slices/season-{n}" for n in (2, 3, 4))]


def test_a_product_that_a_season_did_not_make_is_no_lack(three: list[Path], tmp_path: Path) -> None:
    """Its shop price is compared all the same; where nothing at all is known there is no row."""
    none = WHOLE[: WHOLE.index("lots:")] + WHOLE[WHOLE.index("offers:") :]
    offered = write(tmp_path / "offered", 2021, none)
    empty = tmp_path / "empty"
    empty.mkdir()
    (empty / "season.yaml").write_text(SEASON, "utf-8")
    rows = table(built([*three, offered, empty], tmp_path / "all.xlsx"))
    assert list(rows) == [f"pear-slices/season-{n}" for n in (1, 2, 3, 4)]
    (first, *_) = rows.values()
    assert first["season"] == rows["pear-slices/season-1"]["season"]
    assert first["dried"] == 0 and first["running cost by weight"] in (None, "")
    assert first["shops' median price"] is not None
    done = run("build", *three, offered, "-o", tmp_path / "again.xlsx")
    # One for each season with cautions of its own, none for a product without a cost.
    assert "cautions are open" in done.stdout and "4 places to look at" in done.stdout


def test_cautions_of_a_season_are_told_and_how_many(three: list[Path], tmp_path: Path) -> None:
    """Its own figures say how many; one without would be no place to look at."""
    found = values(built(three, tmp_path / "all.xlsx"))
    heads = {str(found["Seasons", f"{letter}5"]): letter for letter in "ABCDEF"
             if ("Seasons", f"{letter}5") in found}  # fmt: skip
    letter = next(letter for head, letter in heads.items() if head.lower() == "doubted")
    # The first row is the oldest season.
    first = next(n for n in range(6, 10) if found.get(("Seasons", f"A{n}")) == "season-1")
    for row, season in enumerate(reversed(three), first):
        told = json.loads(run("figures", season, "--json").stdout)["tables"]["season"]["season"]
        doubted = told["failing"]["value"] - told["errors"]["value"]
        assert found["Seasons", f"{letter}{row}"] == doubted > 0


def test_a_season_with_errors_is_told(three: list[Path], tmp_path: Path) -> None:
    # Six used of five.
    overdrawn = WHOLE.replace("count: 1, for: stall", "count: 6, for: stall")
    wrong = write(tmp_path / "wrong", 2020, overdrawn)
    done = run("build", *three, wrong, "-o", tmp_path / "all.xlsx")
    assert done.exit_code == 0
    assert "Do not rely on it yet" in done.stdout
    # The error, and a caution for each of the four seasons.
    assert "5 places to look at" in done.stdout


def test_two_currencies_are_refused(three: list[Path], tmp_path: Path) -> None:
    euro = write(tmp_path / "euro", 2021, WHOLE.replace("USD", "EUR"), METRIC.replace("USD", "EUR"))
    done = run("build", three[0], euro, "-o", tmp_path / "all.xlsx")
    assert done.exit_code == 1
    said = " ".join(done.stderr.split())
    assert "euro/season.yaml: its currency is EUR, that of newest/season.yaml is USD" in said
    assert "1 error: no workbook was written" in said
    assert not (tmp_path / "all.xlsx").exists()


def test_a_faulty_season_stops_it(three: list[Path], tmp_path: Path) -> None:
    faulty = write(tmp_path / "faulty", 2021, WHOLE.replace("40 lb", "40 pints"))
    done = run("build", three[0], faulty, "-o", tmp_path / "all.xlsx")
    assert done.exit_code == 1 and not (tmp_path / "all.xlsx").exists()
    assert "faulty/batches/2021-09-05.yaml:" in done.stderr
    assert run("build", three[0], tmp_path / "nix", "-o", tmp_path / "all.xlsx").exit_code == 2


def test_a_season_named_twice_is_refused(three: list[Path], tmp_path: Path) -> None:
    done = run("build", three[0], three[1], f"{three[0]}/", "-o", tmp_path / "all.xlsx")
    assert done.exit_code == 2 and "newest is named twice" in done.stderr


def test_the_samples_of_two_currencies_are_told_apart(tmp_path: Path) -> None:
    samples = Path(__file__).parent.parent.parent / "samples"
    done = run("build", samples / "windrow-lane", samples / "colline", "-o", tmp_path / "a.xlsx")
    assert done.exit_code == 1
    assert "colline/season.yaml: its currency is EUR" in done.stderr


def test_a_sample_and_its_copy_in_other_units_say_the_same(tmp_path: Path) -> None:
    samples = Path(__file__).parent.parent.parent / "samples"
    copy = tmp_path / "copy"
    shutil.copytree(samples / "windrow-lane", copy)
    text = (copy / "season.yaml").read_text("utf-8")
    (copy / "season.yaml").write_text(text.replace("fresh: lb, dried: oz", "fresh: kg, dried: g"))
    path = built([samples / "windrow-lane", copy], tmp_path / "all.xlsx")
    assert audit.faults([path], tmp_path / "out") == {}
    rows = list(table(path).values())
    assert len(rows) == 14
    for one, two in zip(rows[::2], rows[1::2], strict=True):
        for head, change in (
            ("running cost by weight", "running change"),
            ("overall yield", "yield change"),
            ("shops' median price", "retail change"),
        ):
            assert one[head] == pytest.approx(two[head], rel=1e-12)
            assert two[change] == pytest.approx(0, abs=1e-12)
