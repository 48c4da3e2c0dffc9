"""Every hand-out in a real browser, at three widths and on paper.

Source of what is checked: WCAG 2.2, AA (1.4.10 reflow: 320 CSS px without scrolling sideways; 1.4.3
contrast), by the rules of axe-core.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from handout.browser import PAPERS, WIDTHS, Browser, browser
from handout.seasons import page, prices
from reportgen.algebra.tables import COUNT, SHARE, Kind
from reportgen.handout.locale_format import LocaleFormat
from reportgen.units import MONEY

HANDOUTS = {
    "page of windrow-lane": lambda: page("windrow-lane"),
    "page of kitchen": lambda: page("kitchen"),
    "page of colline": lambda: page("colline", "fr-FR"),
    "page of nothing": lambda: page("empty"),
    "page of hostile texts": lambda: page("hostile"),
    "price list of nine-gates": lambda: prices("nine-gates"),
}


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as opened:
        yield opened


@pytest.fixture(params=HANDOUTS)
def handout(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / "handout.html"
    path.write_bytes(HANDOUTS[request.param]())
    return path


def test_it_fits_every_width_in_silence_and_asks_for_nothing(
    chromium: Browser, handout: Path
) -> None:
    for width in (320, *WIDTHS):
        chromium.open(handout, width)
        assert chromium.too_wide() == [], width
        chromium.unfold()
        assert chromium.too_wide() == [], f"{width}, unfolded"
        assert chromium.complaints() == []
        assert [each for each in chromium.requests() if not each.startswith("data:")] == [
            handout.as_uri()
        ]


def test_on_a_phone_a_table_that_goes_on_says_so(chromium: Browser, handout: Path) -> None:
    for width in (360, 390):
        chromium.open(handout, width)
        silent = chromium.ask(
            """[...document.querySelectorAll('.scroll')].filter(each => {
              const hint = each.previousElementSibling;
              const said = hint && hint.matches('.sideways') && hint.offsetHeight > 0;
              return (each.scrollWidth > each.clientWidth + 1) !== !!said;
            }).map(each => each.getAttribute('aria-labelledby') + ' ' + each.scrollWidth)"""
        )
        assert silent == [], width
        squeezed = chromium.ask(
            """[...document.querySelectorAll('p, h1, h2, h3, li, caption, td, th')].filter(each =>
              each.clientWidth > 2 && each.clientWidth < 40 && each.textContent.trim().length > 8
            ).map(each => each.tagName + ' ' + each.textContent.trim().slice(0, 20))"""
        )
        assert squeezed == [], "a letter or two to the line"


@pytest.mark.parametrize(
    ("width", "theme", "open_all"), [(360, "dark", True), (1280, "light", False)]
)
def test_axe_finds_nothing(
    chromium: Browser, handout: Path, width: int, theme: str, open_all: bool
) -> None:
    chromium.open(handout, width, theme)
    if open_all:
        chromium.unfold()
    assert chromium.violations() == []


def test_the_checks_themselves_can_fail(chromium: Browser, tmp_path: Path) -> None:
    bad = tmp_path / "bad.html"
    bad.write_text(
        "<html><body><img src='file:///none.png'><p style='color:#ccc;width:2000px'>pale</p>"
        "<script>console.error('loud')</script>"
    )
    chromium.open(bad, 360)
    assert any(each.startswith("P ") for each in chromium.too_wide())
    assert any("loud" in each for each in chromium.complaints())
    assert "file:///none.png" in chromium.requests()
    rules = {each.split(":")[0] for each in chromium.violations()}
    assert {"image-alt", "color-contrast", "html-has-lang"} <= rules


def test_no_text_of_a_season_runs(chromium: Browser, tmp_path: Path) -> None:
    path = tmp_path / "handout.html"
    path.write_bytes(page("hostile"))
    chromium.open(path)
    assert chromium.ask("document.querySelectorAll('script, img').length") == 0
    assert "<script>alert(1)</script>" in chromium.ask("document.querySelector('h1').textContent")


def test_the_keyboard_reaches_the_content_first(chromium: Browser, tmp_path: Path) -> None:
    from selenium.webdriver.common.keys import Keys

    path = tmp_path / "handout.html"
    path.write_bytes(page("windrow-lane"))
    chromium.open(path)
    body = chromium.driver.switch_to.active_element
    body.send_keys(Keys.TAB)
    assert chromium.ask("document.activeElement.className") == "skip"
    assert chromium.ask("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    assert chromium.ask("document.activeElement.getBoundingClientRect().left") >= 0
    chromium.driver.switch_to.active_element.send_keys(Keys.ENTER)
    assert chromium.ask("document.activeElement.id") == "main"


@pytest.mark.parametrize("place", ["en-US", "en-GB", "fr-FR", "fr-CA", "de-DE", "nl-NL", "ja-JP"])
def test_the_browser_writes_numbers_as_we_do(chromium: Browser, tmp_path: Path, place: str) -> None:
    # ICU's reading of the CLDR, by way of the browser, against Babel's.
    blank = tmp_path / "blank.html"
    blank.write_text("<title>blank</title>")
    chromium.open(blank)
    slots = {"fresh": "kg", "dried": "g", "money": "EUR", "distance": "km"}
    ours = LocaleFormat(place, slots)
    for number in (1234.5, 0.126, -12.75, 1234567.0):
        for kind, options in (
            (Kind("number", MONEY), "style:'currency', currency:'EUR'"),
            (SHARE, "style:'percent', minimumFractionDigits:1, maximumFractionDigits:1"),
            (COUNT, "maximumFractionDigits:0"),
        ):
            theirs = chromium.ask(
                f"new Intl.NumberFormat('{place}', {{{options}}}).format({number})"
            )
            if kind is COUNT and number % 1:
                continue
            assert spaced(ours.whole(number, kind)) == spaced(theirs), (place, number)
    day = chromium.ask(
        f"new Date(Date.UTC(2025, 8, 5)).toLocaleDateString('{place}',"
        "{dateStyle:'medium', timeZone:'UTC'})"
    )
    assert spaced(ours.day(45905)) == spaced(day)


def spaced(text: str) -> str:
    """With plain spaces: which of the unbroken ones is taken changes from release to release."""
    return re.sub(r"\s", " ", text)


@pytest.mark.parametrize("paper", PAPERS)
def test_it_prints_on_few_pages(chromium: Browser, tmp_path: Path, paper: str) -> None:
    path = tmp_path / "handout.html"
    path.write_bytes(page("windrow-lane"))
    chromium.open(path)
    assert 3 <= pages_of(chromium.printed(paper)) <= 7


def pages_of(pdf: bytes) -> int:
    """How many pages a PDF has, by its page objects."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))
