"""The printed page: in a real browser, on paper of the right size, with nothing cut off."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
import zxingcpp
from cli.seasons import SEASON
from handout.browser import browser as browser_of_handouts
from thorough import every

from labels import browser
from labels.made import BATCH, MAKER, labels, season, speech
from reportgen.labels.content import Label, Line
from reportgen.labels.fit import Look, fit
from reportgen.labels.html_file import pages, render
from reportgen.labels.label_sheet import KNOWN, PAPERS, LabelSheet, laid_out
from reportgen.labels.sizes import pair
from reportgen.labels.type_size import O_HEIGHT, SMALLEST, net_weight
from reportgen.program import data

FACES = browser.faces("Liberation Sans", "DejaVu Sans")
"""What the page asks for, and, where it is installed, the wide face that systems fall back on."""
INSIDE = """
return [...document.querySelectorAll('.label')].filter(label => {
  const box = label.getBoundingClientRect(), pad = parseFloat(getComputedStyle(label).paddingTop)
  return [...label.querySelectorAll('h2, p, b, span, svg')].some(part => {
    const r = part.getBoundingClientRect()
    return r.right > box.right - pad + .6 || r.bottom > box.bottom - pad + .6
      || r.left < box.left + pad - .6 || r.top < box.top + pad - .6
  })
}).map(label => label.innerText)
"""
"""Labels of which a part reaches into the white at the edge."""
HOSTILE = "<img src=x onerror=alert(1)>&amp; \"quoted\" 'n' {{ 7*7 }} <b>"


def made(place: Path, target: Path, sheet: LabelSheet, short: bool = False, start: int = 1,
         locale: str = "en-US", count: int | None = None) -> tuple[list[Label], Look]:  # fmt: skip
    """The page of a season's labels, one for each pack."""
    found = list(labels(place, locale, short, count=count).values())
    look = fit(found, sheet, 7 if short else SMALLEST)
    assert isinstance(look, Look), look
    write(target, found, sheet, look, start, locale)
    return found, look


def write(target: Path, found: list[Label], sheet: LabelSheet, look: Look, start: int = 1,
          locale: str = "en-US") -> None:  # fmt: skip
    page = render(
        data("templates") / "labels", "Larch", found, sheet, look, speech(locale), start, True
    )
    target.write_bytes(page)


def faced(page: Path, face: str) -> Path:
    """The page in another face."""
    other = page.with_name(f"{face.replace(' ', '')}-{page.name}")
    html = page.read_text("utf-8")
    changed = re.sub(r"font-family: Arial[^;]*;", f'font-family: "{face}";', html)
    assert changed != html
    other.write_text(changed, "utf-8")
    return other


def flat(text: str) -> str:
    """The text without spaces and hyphens: a hyphen at the end of a line is not read back."""
    return re.sub(r"[\s-]+", "", text)


SAMPLES = [
    ("windrow-lane", "letter-2x2-102x127", False, "en-US"),
    ("windrow-lane", "letter-2x7-102x34", True, "en-US"),
    ("colline", "a4-2x3-99x93", False, "fr-FR"),
    ("colline", "a4-3x8-70x37", True, "en-GB"),
]


@pytest.mark.parametrize(("name", "sheet", "short", "locale"), every(2, SAMPLES))
def test_the_samples_on_paper(
    name: str, sheet: str, short: bool, locale: str, tmp_path: Path
) -> None:
    page = tmp_path / "labels.html"
    on = KNOWN[sheet]
    place = data("recipes").parent / "samples" / name
    found, _ = made(place, page, on, short, 3, locale, count=1)
    pdf = browser.printed(page)
    facts = browser.info(pdf)
    assert int(facts["Pages"]) == pages(len(found), on, 3)
    wide, high = (float(each) for each in re.findall(r"[\d.]+", facts["Page size"])[:2])
    # Points of 1/72 inch; Chromium rounds to its own pixels of 1/96 inch.
    assert wide == pytest.approx(float(on.page[0]) / 25.4 * 72, abs=0.8)
    assert high == pytest.approx(float(on.page[1]) / 25.4 * 72, abs=0.8)
    # Each label's whole text stands inside its own label, and nothing else.
    for number, label in enumerate(found):
        spot = number + 2
        left, top = map(float, on.place(spot % on.count))
        box = (left, top, float(on.width), float(on.height))
        there = flat("".join(browser.words(pdf, spot // on.count + 1, box)))
        lines = (*label.beside, *label.below)
        said = [
            label.name,
            label.form,
            label.net,
            *(x.head for x in lines),
            *(x.text for x in lines),
        ]
        for text in said:
            assert flat(text) in there, f"{label.pack}: {text}"
        assert len(there) == sum(map(len, map(flat, said))) + there.count(":") - sum(
            flat(text).count(":") for text in said
        )
    # And the first two places of the part-used sheet are left alone.
    for spot in (0, 1):
        left, top = map(float, on.place(spot))
        assert browser.words(pdf, 1, (left, top, float(on.width), float(on.height))) == []
    # The codes of the first page, read off the print.
    read = {each.text for each in zxingcpp.read_barcodes(browser.picture(pdf, 1))}
    assert read == {label.code for label in found[: on.count - 2]}
    for face in FACES:
        assert browser.measured(faced(page, face), INSIDE) == [], face


@pytest.mark.parametrize(("name", "sheet", "short", "locale"), [e for e in SAMPLES if not e[2]])
def test_the_net_weight_stands_in_the_lowest_three_tenths(
    name: str, sheet: str, short: bool, locale: str, tmp_path: Path
) -> None:
    # 21 CFR 101.7(f): in the bottom 30 percent of the panel, parallel to the base; (i): at least
    # as high as the area of the panel asks for, measured on the letter o.
    page = tmp_path / "labels.html"
    on = KNOWN[sheet]
    place = data("recipes").parent / "samples" / name
    made(place, page, on, short, 1, locale, count=1)
    found = browser.measured(
        page,
        "return [...document.querySelectorAll('.label')].map(label => {"
        "const box = label.getBoundingClientRect(), net = label.querySelector('.net');"
        "const r = net.getBoundingClientRect(), s = getComputedStyle(net);"
        "return [(r.top - box.top) / box.height, (r.bottom - box.top) / box.height,"
        "parseFloat(s.fontSize) / 96, s.transform, s.writingMode] })",
    )
    area = on.width * on.height / Fraction(254, 10) ** 2
    assert len(found) > 5
    for top, bottom, inches, turned, mode in found:
        assert 0.7 <= top < bottom <= 1
        assert (turned, mode) == ("none", "horizontal-tb")
        assert inches * float(O_HEIGHT) >= float(net_weight(area)) - 1e-3


def hostile_season(folder: Path) -> Path:
    settings = SEASON + MAKER.replace("K-114", f"'{HOSTILE.replace(chr(39), chr(39) * 2)}'")
    place = season(folder, BATCH.replace("pear-slices", "quince"), settings)
    (place / "recipes").mkdir()
    quoted = HOSTILE.replace("'", "''")
    (place / "recipes" / "quince.yaml").write_text(
        f"name: '{quoted}'\ningredients: '{quoted}'\nallergens: ['{quoted}']\n"
        f"storage: '{quoted} \u202egnihton'\n",
        "utf-8",
    )
    return place


def test_hostile_texts_are_texts(tmp_path: Path) -> None:
    page = tmp_path / "labels.html"
    found, _ = made(hostile_season(tmp_path / "s"), page, KNOWN["letter-2x2-102x127"])
    html = page.read_text("utf-8")
    assert (
        "<img" not in html
        and "{{" in html
        and "49" not in re.sub(r'd="[^"]*"|<!-- reportgen digest .* -->', "", html)
    )
    assert "\u202e" not in html
    seen = browser.measured(
        page,
        "return [document.querySelectorAll('img, script[src], article b b').length,"
        "[...document.querySelectorAll('h2')].map(e => e.firstChild.textContent.trim())]",
    )
    assert seen[0] == 0
    assert HOSTILE in seen[1]
    for face in FACES:
        assert browser.measured(faced(page, face), INSIDE) == []
    assert len(found) > 2


AWKWARD = [
    "Rindfleischetikettierungsüberwachungsaufgabenübertragungsgesetz " * 2,
    "W" * 120,
    "MMMMM WWWWW @@@@@ %%%%% " * 6,
    "iiiii lllll jjjjj ''''' " * 8,
    "りんごの乾燥スライスと砂糖漬けの生姜とシナモンの香り " * 3,
    "🍐🍐🍐 pears 🍏🍏🍏 " * 6,
    "сушёные груши с мёдом и корицей, без добавок; " * 3,
    "a " * 150,
]


def test_awkward_texts_stay_inside(tmp_path: Path) -> None:
    plain = labels(season(tmp_path / "s"))["P-1"]
    found = [
        replace(
            plain,
            name=text[:40],
            below=(Line("plain", "Ingredients", text), Line("warning", text), *plain.below),
        )
        for text in AWKWARD
    ]
    sheet = laid_out(PAPERS["a4"], pair("170x140"))
    assert sheet is not None and sheet.count == 2
    look = fit(found, sheet, 9)
    assert isinstance(look, Look), look
    page = tmp_path / "labels.html"
    write(page, found, sheet, look)
    for face in FACES:
        assert browser.measured(faced(page, face), INSIDE) == [], face


@pytest.mark.parametrize("name", every(2, sorted(KNOWN)))
def test_every_sheet_prints_its_grid(name: str, tmp_path: Path) -> None:
    sheet = KNOWN[name]
    found = list(labels(season(tmp_path / "s"), short=True).values())[:1]
    found = [replace(found[0], beside=()) for _ in range(sheet.count + 1)]
    look = fit(found, sheet, 7)
    assert isinstance(look, Look)
    page = tmp_path / "labels.html"
    write(page, found, sheet, look)
    boxes = browser.measured(
        page,
        "return [...document.querySelectorAll('.page')].map(page => {"
        "const o = page.getBoundingClientRect();"
        "return [...page.querySelectorAll('.label')].map(label => {"
        "const r = label.getBoundingClientRect();"
        "return [r.left - o.left, r.top - o.top, r.width, r.height] }) })",
    )
    assert [len(each) for each in boxes] == [sheet.count, 1]
    for number, box in enumerate(boxes[0]):
        wanted = [*sheet.place(number), sheet.width, sheet.height]
        # Pixels of 1/96 inch; a fifth of a millimetre is a printer's own slack.
        assert [each / 96 * 25.4 for each in box] == pytest.approx([*map(float, wanted)], abs=0.2)


def test_on_a_screen(tmp_path: Path) -> None:
    page = tmp_path / "labels.html"
    made(season(tmp_path / "s"), page, KNOWN["letter-2x2-102x127"], locale="fr-FR")
    with browser_of_handouts() as chromium:
        for width in (360, 768, 1280):
            chromium.open(page, width)
            assert chromium.too_wide() == [], width
            assert chromium.complaints() == []
            assert chromium.requests() == [page.as_uri()]
            assert chromium.violations() == [], width


def test_the_page_asks_nothing_of_the_network_and_is_the_same_each_time(tmp_path: Path) -> None:
    place = season(tmp_path / "s")
    one, two = tmp_path / "1.html", tmp_path / "2.html"
    for target in (one, two):
        made(place, target, KNOWN["letter-2x2-102x127"])
    assert one.read_bytes() == two.read_bytes()
    html = one.read_text("utf-8")
    assert not re.search(r"(?:src|href)=|url\(|@import|https?:", html)


def test_widths_are_not_underestimated(tmp_path: Path) -> None:
    from reportgen.labels.measure import width

    letters = "".join(map(chr, range(33, 127))) + "àâäçéèêëîïñôöùûüÿæœßøåÀÉÈÖÜÇÑ·’‘“”°—–…×«»"
    page = tmp_path / "letters.html"
    page.write_text("<!doctype html><meta charset=utf-8><body></body>", "utf-8")
    for face in FACES:
        for bold in (False, True):
            weight = "bold" if bold else "normal"
            found = browser.measured(
                page,
                "const c = document.createElement('canvas').getContext('2d');"
                f"c.font = '{weight} 1000px \"{face}\"';"
                f"return [...{letters!r}].map(x => c.measureText(x).width / 1000)",
            )
            for letter, true in zip(letters, found, strict=True):
                assert true <= width(letter, bold) + 0.001, f"{letter} in {face}, {weight}"


def test_the_letter_o_is_as_high_as_is_reckoned(tmp_path: Path) -> None:
    page = tmp_path / "o.html"
    page.write_text("<!doctype html><meta charset=utf-8><body></body>", "utf-8")
    for face in FACES:
        high = browser.measured(
            page,
            "const c = document.createElement('canvas').getContext('2d');"
            f"c.font = 'bold 1000px \"{face}\"'; const m = c.measureText('o');"
            "return (m.actualBoundingBoxAscent + m.actualBoundingBoxDescent) / 1000",
        )
        assert high >= float(O_HEIGHT), face
