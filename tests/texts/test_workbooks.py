"""Workbooks in another language: the same numbers, live in three engines, nothing in English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from engines import iron, libreoffice
from engines.audit import faults
from engines.cells import cells
from engines.compare import same
from engines.edit import typed
from handout.seasons import TEXTS
from openpyxl import load_workbook
from samples.season import ROOT
from thorough import every
from workbook import places

from reportgen import program
from reportgen.algebra.language import in_language
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import HOLE, Phrase, is_neutral
from reportgen.algebra.places import at_row
from reportgen.edits.memory import NAME as MEMORY
from reportgen.layout import translate
from reportgen.layout.blocks import TextBlock
from reportgen.layout.compose import compose, translated
from reportgen.layout.page import Page, Workbook
from reportgen.layout.placing import Layout
from reportgen.layout.spots import letters
from reportgen.program import build, read
from reportgen.sheets.all import SHEETS, contents
from reportgen.texts import Texts
from reportgen.trade import BOOK
from texts.asked import Kind, kinds, made

pytestmark = pytest.mark.slow

LOCALE = "fr-FR"
KINDS = {kind.name: kind for kind in kinds(LOCALE)}


# --- no text escapes the catalogue --------------------------------------------------------------

_MARK = "文"
"""A letter that no text has: it stands in every piece that went through the catalogue."""
_LITERAL = re.compile(r'"((?:[^"]|"")*)"')
_FORMATS = re.compile(r'(?<=")[^";]+(?=")')


def marked(text: str) -> str:
    """The text in a language of which only one letter is known."""
    pieces = re.split(f"({HOLE.pattern.replace('(', '(?:')})", text)
    return "".join(
        f"{_MARK}{piece}" if not at % 2 and any(each.isalpha() for each in piece) else piece
        for at, piece in enumerate(pieces)
    )


@cache
def strange(name: str) -> Workbook:
    """A workbook in that language."""
    kind = KINDS[name]
    return compose(contents(kind.sheets, kind.numbers), kind.numbers, "", "", "a4", marked)


def own_words(kind: Kind) -> set[str]:
    """Texts that somebody wrote, and ids made of them: no business of the catalogue's."""
    found = {f"{kind.season.currency}/{kind.season.dried}"}
    for block in (block for sheet in kind.sheets for block in sheet.blocks):
        if isinstance(block, TextBlock):
            texts = [Phrase.of(text) for text in (block.heading, *block.lines)]
            found |= {str(text) for text in texts if is_neutral(text.pattern)}
    for table in kind.numbers.book.tables.values():
        columns = kind.numbers.cells[table.name]
        for name, values in columns.items():
            put_in = table.inputs.get(name)
            ours = put_in is not None and put_in.translated
            if (put_in is not None and not ours) or name == "key":
                found |= {str(value) for value in values if value is not None}
    return found


def fixed_texts(page: Page) -> Iterator[tuple[str, str]]:
    """Every text on a page that is not worked out by a formula, and where it stands."""
    yield "its name", page.name
    for band in page.bands:
        for strip in band.strips:
            at = f"{letters(strip.column)}{band.first}"
            yield from ((f"{at} format", word) for word in _FORMATS.findall(strip.style.format))
            if strip.formula is not None:
                formula = re.sub(r"'[^']*'!", "", at_row(strip.formula, 2))
                yield from ((f"{at} formula", text) for text in _LITERAL.findall(formula))
            else:
                yield from ((at, value) for value in strip.values if isinstance(value, str))
    yield from ((f"comment {at}", text) for at, text in page.comments.items())
    for rule in page.validations:
        yield from ((f"rule {rule.cells}", text) for text in (rule.title, rule.prompt))
        if rule.kind == "list" and rule.low and rule.low.startswith('"'):
            yield from ((f"choice {rule.cells}", word) for word in rule.low.strip('"').split(","))
    for each in page.conditions:
        yield from ((f"look {each.cells}", text) for text in _LITERAL.findall(each.formula))
    for chart in page.charts:
        for text in (chart.title, chart.x_title, chart.y_title, chart.alt):
            yield f"chart {chart.anchor}", text
        if chart.kind != "curve":
            yield from ((f"series {chart.anchor}", each.name_value) for each in chart.series)


@pytest.mark.parametrize("name", KINDS)
def test_every_text_goes_through_the_catalogue(name: str) -> None:
    own, money = own_words(KINDS[name]), KINDS[name].season.currency
    past_it = [
        f"{page.name} {at}: {text}"
        for page in strange(name).pages
        for at, text in fixed_texts(page)
        if any(each.isalpha() for each in text.replace(money, ""))
        and _MARK not in text
        and text not in own
    ]
    assert past_it == []


# --- the same workbook ----------------------------------------------------------------------------


@cache
def pair(name: str, folder: Path) -> tuple[Path, Path]:
    """A workbook in English and in French."""
    paths = folder / f"{name}-en.xlsx", folder / f"{name}-fr.xlsx"
    for path, locale in zip(paths, ("en-US", LOCALE), strict=True):
        path.write_bytes(made(KINDS[name], locale))
    return paths


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("languages")


def test_the_engines_confirm_every_cell(folder: Path) -> None:
    paths = [pair(name, folder)[1] for name in every(2, list(KINDS))]
    assert faults(paths, folder / "out") == {}


@pytest.mark.parametrize("name", KINDS)
def test_numbers_names_and_places_are_those_of_the_english_one(name: str, folder: Path) -> None:
    english, french = pair(name, folder)
    say = Texts(TEXTS, LOCALE).say
    sheets = {say(sheet.name): sheet.name for sheet in KINDS[name].sheets} | {MEMORY: MEMORY}
    one = cells(english)
    other = {(sheets[sheet], at): cell for (sheet, at), cell in cells(french).items()}
    # The memory holds the headings: a long line of it goes on in more cells in some language.
    one = {(sheet, at): cell for (sheet, at), cell in one.items() if sheet != MEMORY}
    other = {(sheet, at): cell for (sheet, at), cell in other.items() if sheet != MEMORY}
    assert one.keys() == other.keys()
    texts = 0
    for at, cell in one.items():
        there = other[at]
        assert (cell.formula is None) == (there.formula is None), at
        if isinstance(cell.value, str) and isinstance(there.value, str):
            texts += cell.value != there.value
        else:
            assert same(cell.value, there.value), at
    assert texts > 100
    names = [
        {str(name) for name in load_workbook(BytesIO(path.read_bytes())).defined_names}
        for path in (english, french)
    ]
    assert names[0] == names[1]


def test_the_locale_of_a_season_is_the_language_of_its_workbook(tmp_path: Path) -> None:
    season = french_season(tmp_path)
    data, problems = build(season)
    assert data is not None and not problems
    book = load_workbook(BytesIO(data))
    assert book.sheetnames[:3] == ["Résumé", "Prix des magasins", "Coût"]
    assert book.properties.language == LOCALE


def french_season(folder: Path, was: str = "", now: str = "") -> Path:
    """The sample with a French locale; in the file of its sales one text for another."""
    made = folder / ("after" if was else "before")
    for path in (ROOT / "samples" / "colline").rglob("*"):
        if path.is_file():
            text = path.read_text(encoding="utf-8")
            if path.name == "season.yaml":
                text = text.replace("currency:", f"locale: {LOCALE}\ncurrency:", 1)
            if path.name == "sales.yaml" and was:
                assert text.count(was) == 1
                text = text.replace(was, now)
            copy = made / path.relative_to(ROOT / "samples" / "colline")
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_text(text, encoding="utf-8")
    return made


# --- typed into -----------------------------------------------------------------------------------


def test_a_word_typed_in_its_language_is_followed(tmp_path: Path) -> None:
    before, after = (
        read(french_season(tmp_path)),
        read(french_season(tmp_path, "count: 2, for: gift", "count: 2, for: spoiled")),
    )
    assert before.season and before.numbers and after.numbers
    texts = Texts(TEXTS, LOCALE)
    numbers, expected = (said_in(each, texts) for each in (before.numbers, after.numbers))
    rows = {name: numbers.rows(table) for name, table in BOOK.tables.items()}
    layout = Layout(
        BOOK, translate.named(contents(SHEETS, numbers), texts.say), rows, numbers.slots
    )
    grids = places.grids(layout, numbers)
    row = numbers.cells["uses"]["purpose"].index("cadeau")
    cell = grids["uses"].columns["purpose"].cell(row)

    path = tmp_path / "before.xlsx"
    path.write_bytes(program.workbook(before.season, before.numbers))
    assert cells(path)[cell].value == "cadeau"
    fresh = places.figures(expected, grids)
    stale = list(places.differing(places.figures(numbers, grids), fresh))
    assert len(stale) > 10

    opened = iron.Opened(path)
    opened.enter({cell: "gâté"})
    assert list(places.differing(places.read_back(opened.values(), grids), fresh)) == []
    edited = typed(path, {cell: "gâté"}, tmp_path / "after.xlsx")
    found = libreoffice.recalculate([edited], tmp_path / "out")[edited]
    assert list(places.differing(places.read_back(found, grids), fresh)) == []


def said_in(numbers: Numbers, texts: Texts) -> Numbers:
    """The numbers with their texts in a language, as its workbook has them."""
    return in_language(numbers, texts.say, translated(numbers.book))
