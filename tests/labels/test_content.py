"""What stands on a label, and what is left to be filled in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from cli.seasons import SEASON

import reportgen
from labels.made import BATCH, MAKER, labels, season, speech
from reportgen.labels.content import Label
from reportgen.program import read

pytestmark = pytest.mark.seasons


def texts(label: Label) -> list[str]:
    return [
        f"{line.head}: {line.text}" if line.text else line.head
        for line in (*label.beside, *label.below)
    ]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Label]:
    return labels(season(tmp_path_factory.mktemp("labels") / "larch"))


def test_a_whole_label(made: dict[str, Label]) -> None:
    label = made["P-1"]
    assert (label.name, label.form) == ("Pear slices", "freeze-dried")
    # By hand: 11.2 oz x 28.349523125 = 317.5 g.
    assert label.net.replace("\N{NO-BREAK SPACE}", " ") == "Net wt 11.2 oz (317 g)"
    found = texts(label)
    assert found[:4] == [
        "Pack: P-1, packed Sep 8, 2025",
        # Twelve months in the product data.
        "Best by: Sep 8, 2026, if it is dry and stays sealed",
        "Ingredients: pears",
        "Allergens: none named",
    ]
    assert found[-3:] == [
        "Made by: Larch Hollow kitchen, 7 Mill Track, Larch Hollow",
        "Permit: K-114",
        ": Made in a home kitchen.",
    ]


def test_water_for_one_container(made: dict[str, Label], tmp_path: Path) -> None:
    use = next(line for line in made["P-1"].below if line.head == "To use")
    # By hand: both done runs: 18 lb gave 56 oz, ratio 5.142857; 11.2 oz x 4.142857 = 46.4 oz,
    # 2.9 lb, 1.315 kg.
    assert use.text.replace("\N{NO-BREAK SPACE}", " ").endswith(
        "Water for all of it: up to 2.9 lb (1.3 kg)."
    )


def test_raw_food_says_so(made: dict[str, Label]) -> None:
    found = texts(made["P-egg"])
    assert "Cook before eating." in found
    assert "Contains: egg" in found
    assert "Cook before eating." not in texts(made["P-1"])


@pytest.mark.parametrize(
    ("pack", "warning"),
    [("P-1", ""), ("P-wet", "DOUBTFUL"), ("P-egg", "Not shown"), ("P-early", "Not shown")],
)
def test_dryness(made: dict[str, Label], pack: str, warning: str) -> None:
    # P-early names a run that is not done: nothing shows that it is dry.
    dry = [line.head for line in made[pack].beside
           if line.kind == "warning" and "Cook" not in line.head]  # fmt: skip
    assert [each.startswith(warning) for each in dry] == ([True] if warning else [])
    if warning == "DOUBTFUL":
        assert "botulism" in dry[0]
        assert "Best by" not in {line.head for line in made[pack].beside}


def test_a_pack_past_its_day_says_so_first(made: dict[str, Label], tmp_path: Path) -> None:
    # Twelve months in the product data; judged on Sep 20, 2025.
    batch = BATCH.replace("date: 2025-09-08", "date: 2024-09-01", 1)
    warned = labels(season(tmp_path / "s", batch))["P-1"]
    assert [line.head.partition(":")[0] for line in warned.beside if line.kind == "warning"] == [
        "PAST ITS BEST-BY DAY"
    ]
    assert not any("PAST" in line.head for line in made["P-1"].beside)


def test_a_pack_of_unknown_origin_says_so(tmp_path: Path) -> None:
    batch = BATCH.replace("from: [run-1]", "carried: {running: 2 USD}", 1)
    label = labels(season(tmp_path / "s", batch))["P-1"]
    assert any("not on record" in line.head for line in label.beside)


def test_what_is_missing_is_a_ruled_space(tmp_path: Path) -> None:
    batch = BATCH.replace("count: 3\n", "count: 3\n    net: 2 oz\n")
    label = labels(season(tmp_path / "s", batch, SEASON))["P-blank"]
    blanks = [line.head for line in (*label.beside, *label.below) if line.kind == "blank"]
    assert blanks == ["Packed on", "Best by", "Made by", "As local law asks", ""]
    # No legal text is invented.
    assert all(not line.text for line in label.below if line.kind == "blank")


def test_allergens_that_nobody_named_are_a_ruled_space(tmp_path: Path) -> None:
    place = season(tmp_path / "s", BATCH.replace("pear-slices", "quince"))
    (place / "recipes").mkdir()
    (place / "recipes" / "quince.yaml").write_text("name: Quince\n", "utf-8")
    blanks = [line.head for line in labels(place)["P-1"].below if line.kind == "blank"]
    assert blanks == ["Ingredients", "Allergens"]


def test_a_short_label_keeps_what_may_hurt(tmp_path: Path) -> None:
    label = labels(season(tmp_path / "s"), short=True)["P-egg"]
    assert label.below == ()
    assert {"Cook before eating.", "Contains: egg"} <= set(texts(label))


def test_in_french(tmp_path: Path) -> None:
    found = labels(season(tmp_path / "s"), "fr-FR")["P-1"]
    assert found.net.replace("\N{NO-BREAK SPACE}", " ") == "Poids net 11,2 oz (317 g)"
    assert texts(found)[0] == "Lot: P-1, conditionné le 8 sept. 2025"


def test_every_text_is_used() -> None:
    folder = Path(reportgen.__file__).parent
    code = "".join(path.read_text("utf-8") for path in folder.glob("labels/*.py"))
    quoted = set(re.findall(r"""["'](\w+)["']""", code))
    assert [name for name in speech().texts if name not in quoted] == []


def test_the_numbers_are_those_of_figures(tmp_path: Path) -> None:
    done = read(season(tmp_path / "s"))
    assert done.numbers is not None
    water = done.numbers.cells["packs"]["water_to_add"][0]
    assert water == pytest.approx(2.9)


SCALE = "scale: {resolution: 0.1 oz}\n"


def test_the_containers_own_keeping_time_is_named_as_such(tmp_path: Path) -> None:
    """Ten years for what is sealed dry with enough absorber; else the product data's, as before."""
    jar = "{id: jar, volume: 946 mL, parts: {lid: 0.40 USD}}"
    assert jar in SEASON
    well = SEASON.replace(jar, jar[:-1] + ", absorber: 900 mL, keeps: 10 year}")
    best = _best_by(labels(season(tmp_path / "well", settings=well + SCALE + MAKER))["P-1"])
    assert best == "Sep 6, 2035 by the container's maker, if it is dry and stays sealed"
    short = SEASON.replace(jar, jar[:-1] + ", absorber: 9 mL, keeps: 10 year}")
    assert "maker" not in _best_by(
        labels(season(tmp_path / "short", settings=short + SCALE + MAKER))["P-1"]
    )


def _best_by(label: Label) -> str:
    return next(line.text for line in label.beside if line.head == "Best by")
