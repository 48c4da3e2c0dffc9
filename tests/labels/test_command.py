"""The command: what it prints and says, and what it refuses."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from cli.seasons import SEASON, run

from labels.made import BATCH, MAKER, season

pytestmark = pytest.mark.seasons


@pytest.fixture
def larch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return season(tmp_path / "larch")


def packs_in(page: Path) -> list[str]:
    return re.findall(r"<b>Pack:</b> ([\w-]+)", page.read_text("utf-8"))


def test_one_label_for_each_container_on_hand(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-1", "--pack", "p-egg")
    assert done.exit_code == 0, done.output
    assert packs_in(Path("larch-labels.html")) == ["P-1"] * 3 + ["P-egg"]
    assert "4 labels of 102x127 mm on 1 page, 4 on a page" in done.stdout
    assert "local food code decides" in done.stdout
    assert "Allergens are those the product data names" in done.stdout
    assert "Ruled spaces" not in done.stdout


def test_doubtful_packs_get_none_and_it_is_said_why(larch: Path) -> None:
    done = run("labels", larch, "-o", "out.html")
    # The others are printed, and the exit code says that something is wrong.
    assert done.exit_code == 1
    assert packs_in(Path("out.html")) == ["P-1"] * 3 + ["P-egg", "P-early"]
    said = done.stderr
    assert (
        "batches/2025-09-05.yaml:27: no label for pack P-wet: it may not be dry (load "
        "run-2/pears-1: the weight still falls (two weighings within 0.5 %; common practice)); "
        "do not keep it sealed" in said
    )
    assert "botulism" in said
    assert "no label for pack P-blank: its net weight is not known; write net" in said
    assert "P-gone" not in said


def test_doubtful_packs_that_are_asked_for_say_so(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-wet", "--doubtful")
    assert done.exit_code == 0
    assert Path("larch-labels.html").read_text("utf-8").count("DOUBTFUL") == 2


def test_a_pack_that_is_gone(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-gone")
    assert done.exit_code == 1
    assert "no label for pack P-gone: none is on hand" in done.stderr
    assert "No labels were made" in done.stderr
    assert not Path("larch-labels.html").exists()
    assert run("labels", larch, "--pack", "P-gone", "--count", 2).exit_code == 0
    assert packs_in(Path("larch-labels.html")) == ["P-gone", "P-gone"]


def test_a_part_used_sheet(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-1", "--start", 5)
    assert done.exit_code == 0
    assert "3 labels of 102x85 mm on 2 pages" in done.stdout
    page = Path("larch-labels.html").read_text("utf-8")
    # The fifth of two columns: first column, third row, at 3.969 mm and 12.7 + 2 x 84.667 mm.
    assert re.findall(r'style="left:([\d.]+)mm;top:([\d.]+)mm"', page) == [
        ("3.969", "182.033"),
        ("110.331", "182.033"),
        ("3.969", "12.7"),
    ]


def test_any_size(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-1", "--size", "100x140", "--paper", "a4", "--outline")
    assert done.exit_code == 0, done.output
    assert "100x140 mm on 1 page, 4 on a page" in done.stdout
    assert "size: 210mm 297mm" in Path("larch-labels.html").read_text("utf-8")


def test_too_small_is_refused_with_advice(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-1", "--sheet", "letter-3x10-67x25")
    assert done.exit_code == 2
    for said in ("P-1 does not fit", "Nothing is cut off", "--sheet letter-2x3-102x85", "--short"):
        assert said in done.stderr
    assert not Path("larch-labels.html").exists()
    done = run("labels", larch, "--pack", "P-1", "--sheet", "letter-3x10-67x25", "--short")
    assert done.exit_code == 0
    assert "for your own shelf" in done.stdout


def test_the_panel_of_the_container(larch: Path) -> None:
    done = run("labels", larch, "--pack", "P-1")
    assert "--panel" in done.stdout
    large = ("--sheet", "letter-2x2-102x127", "--panel", "54in2")
    done = run("labels", larch, "--pack", "P-1", *large)
    assert "--panel" not in done.stdout
    page = Path("larch-labels.html").read_text("utf-8")
    # 3/16 inch are 13.5 points: the letter o of type of 26.5 points.
    assert re.search(r"\.net \{[^}]*font-size: 26.5pt", page)


def test_what_is_to_be_filled_in_is_said(tmp_path: Path) -> None:
    batch = BATCH.replace("count: 3\n", "count: 3\n    net: 2 oz\n")
    place = season(tmp_path / "s", batch, SEASON)
    done = run("labels", place, "--pack", "P-blank", "-o", tmp_path / "s.html")
    assert (
        "Ruled spaces to be filled in: Packed on, Best by, Made by, As local law asks."
        in done.stdout
    )


def test_locale(tmp_path: Path) -> None:
    def of(locale: str) -> tuple[int, str, str]:
        place = season(tmp_path / locale, settings=f"locale: {locale}\n" + SEASON + MAKER)
        target = tmp_path / f"{locale}.html"
        done = run("labels", place, "--pack", "P-1", "-o", target)
        return done.exit_code, done.output, target.read_text("utf-8") if target.exists() else ""

    assert 'lang="fr"' in of("fr-CA")[2]
    assert "Poids net 11,2" in of("fr-FR")[2]
    code, said, page = of("de-DE")
    assert code == 0 and "words are English: there are none in 'de' yet" in said
    assert 'lang="en"' in page and "08.09.2025" in page
    code, said, _ = of("xx-YY")
    assert code == 1 and "the locale 'xx-YY' is not known" in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--pack", "P-2"), "there is no pack called 'P-2'; did you mean P-1?"),
        (("--sheet", "a5"), "no sheet is called 'a5'; there are letter-2x3-102x85"),
        (("--sheet", "a4-2x7-99x38", "--size", "9x9"), "exclude each other"),
        (("--grid", "2x7"), "--grid needs --size"),
        (("--size", "big"), "'big' is no pair of lengths; expected as 99x38"),
        (("--size", "0x38"), "some width and height"),
        (("--size", "300x38"), "do not fit on a page of 215.9 by 279.4 mm"),
        (("--size", "99x38", "--grid", "3x7"), "do not fit on a page"),
        (("--panel", "54"), "'54' is no area"),
        (("--start", "5"), "the sheet has 4 labels"),
        (("--count", "0"), "0"),
        (("--count", "1000"), "more than one file is made for"),
        (("-o", "labels.pdf"), "must end in .html"),
        (("-o", "nowhere/labels.html"), "there is no folder nowhere"),
    ],
)
def test_what_is_typed_wrong(larch: Path, words: tuple[str, ...], said: str) -> None:
    done = run("labels", larch, "--doubtful", *words)
    assert done.exit_code == 2, done.output
    assert said in re.sub(r"\s+", " ", done.stderr)
    assert not Path("larch-labels.html").exists()


def test_an_empty_season(tmp_path: Path) -> None:
    done = run("labels", season(tmp_path / "s", "lots: []\n"))
    assert done.exit_code == 1
    assert "No labels were made" in done.stderr
