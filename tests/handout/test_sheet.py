"""The printed costing sheet: one page, in any browser window, of every product."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from cli.seasons import run
from lxml import html
from thorough import every

from handout.browser import PAPERS, WIDTHS, Browser, browser
from handout.seasons import HOSTILE, gathered, of
from handout.sheets import ALL, LOCALES, Made, made, place
from handout.test_browser import pages_of
from reportgen.handout.season_page import cautions

pytestmark = pytest.mark.slow

EACH = every(
    3,
    [(*each, "") for each in ALL]
    + [(name, product, LOCALES[name]) for name, product in ALL if name in LOCALES],
)


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as opened:
        yield opened


@pytest.fixture(params=EACH, ids=" ".join)
def sheet(request: pytest.FixtureRequest) -> Made:
    return made(*request.param)


def _saved(sheet: Made, folder: Path) -> Path:
    path = folder / "sheet.html"
    path.write_bytes(sheet.page)
    return path


def test_no_product_is_left_out() -> None:
    for name in {name for name, _ in ALL}:
        numbers = of(name).numbers
        assert numbers is not None
        assert {product for of_, product in ALL if of_ == name} == set(
            numbers.cells["products"]["key"]
        )


def test_it_prints_on_one_page(chromium: Browser, sheet: Made, tmp_path: Path) -> None:
    chromium.open(_saved(sheet, tmp_path))
    for paper in PAPERS:
        assert pages_of(chromium.printed(paper)) == 1, paper


@pytest.mark.parametrize("product", ["apricot-halves", "tomatoes"])
def test_so_it_does_with_the_private_figures(
    chromium: Browser, tmp_path: Path, product: str
) -> None:
    chromium.open(_saved(made("colline", product, "fr-FR", "--all"), tmp_path))
    for paper in PAPERS:
        assert pages_of(chromium.printed(paper)) == 1, paper


def test_it_fits_every_width_in_silence_and_asks_for_nothing(
    chromium: Browser, sheet: Made, tmp_path: Path
) -> None:
    path = _saved(sheet, tmp_path)
    for width in (320, *WIDTHS):
        chromium.open(path, width)
        assert chromium.too_wide() == [], width
        chromium.unfold()
        assert chromium.too_wide() == [], f"{width}, unfolded"
        assert chromium.complaints() == []
        assert [e for e in chromium.requests() if not e.startswith("data:")] == [path.as_uri()]


@pytest.mark.parametrize(("width", "theme"), [(360, "dark"), (1280, "light")])
def test_axe_finds_nothing(
    chromium: Browser, sheet: Made, tmp_path: Path, width: int, theme: str
) -> None:
    chromium.open(_saved(sheet, tmp_path), width, theme)
    chromium.unfold()
    assert chromium.violations() == []


@pytest.mark.parametrize(("name", "product", "locale"), EACH)
def test_it_says_what_it_must(name: str, product: str, locale: str) -> None:
    text = _text(made(name, product, locale).page)
    gather = gathered(name, locale)
    for said in cautions(gather):
        assert said in text
    for number in range(1, 6):
        assert gather.texts[f"sheet.left_{number}"] in text
    assert gather.season is not None
    for said, _ in gather.season.cautions.get(product, []):
        assert " ".join(said.split()) in text


def test_what_is_not_there_is_said_to_be_unknown() -> None:
    words = {product: _text(made("partial", product).page) for _, product in ALL if _ == "partial"}
    for product in ("peach-slices", "apple-rings", "pear-slices", "kale"):
        assert "The cost by weight is not known yet" in words[product]
    assert "no shop price to compare with" not in words["kale"]  # said only beside a cost
    for product, text in words.items():
        assert "$0.00/oz" not in text and "nan" not in text and "None" not in text, product
        assert "not known yet" in text


def test_hostile_texts_stay_texts(chromium: Browser, tmp_path: Path) -> None:
    sheet = made("hostile", "odd")
    chromium.open(_saved(sheet, tmp_path))
    assert chromium.ask("document.querySelectorAll('script, img').length") == 0
    assert HOSTILE in chromium.ask("document.querySelector('h1').textContent")
    assert "7*7" in _text(sheet.page)


def test_an_unknown_product_gets_the_nearest(tmp_path: Path) -> None:
    season = place("windrow-lane", tmp_path)
    for said, expected in (
        ("pear-slice", "did you mean pear-slices?"),
        ("zzz", "expected green-peas, parsley"),
    ):
        done = run("sheet", season, said, "-o", tmp_path)
        assert done.exit_code == 2
        assert f"the season has no product called '{said}'; {expected}" in done.output
        assert list(tmp_path.iterdir()) == [season]


def test_an_id_may_be_written_in_any_case(tmp_path: Path) -> None:
    done = run("sheet", place("windrow-lane", tmp_path), "PEAR-Slices", "-o", tmp_path)
    assert done.exit_code == 0
    assert (tmp_path / "pear-slices.xlsx").exists()


def test_an_empty_season_has_no_product(tmp_path: Path) -> None:
    done = run("sheet", place("empty", tmp_path), "kale", "-o", tmp_path)
    assert done.exit_code == 2
    assert "no product is recorded yet" in done.output


def test_the_same_season_gives_the_same_bytes(tmp_path: Path) -> None:
    season = place("windrow-lane", tmp_path)
    done = run("sheet", season, "peach-slices", "-o", tmp_path)
    assert done.exit_code == 0
    again = made("windrow-lane", "peach-slices")
    assert (tmp_path / "peach-slices.html").read_bytes() == again.page
    assert (tmp_path / "peach-slices.xlsx").read_bytes() == again.workbook


def test_a_changed_workbook_is_not_overwritten(tmp_path: Path) -> None:
    season = place("windrow-lane", tmp_path)
    mine = tmp_path / "peach-slices.xlsx"
    mine.write_bytes(b"mine")
    done = run("sheet", season, "peach-slices", "-o", tmp_path)
    assert done.exit_code == 2
    assert "overwrite it with --force" in done.output
    assert mine.read_bytes() == b"mine" and not (tmp_path / "peach-slices.html").exists()
    assert run("sheet", season, "peach-slices", "-o", tmp_path, "--force").exit_code == 0
    assert mine.read_bytes() == made("windrow-lane", "peach-slices").workbook


def _text(page: bytes) -> str:
    return re.sub(r"\s+", " ", html.fromstring(page.decode()).text_content())
