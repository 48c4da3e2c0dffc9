"""Every fixed text that the program can say, found by making all that it makes.

A workbook asks for each text that it shows, whatever the season: headings and rules stand there
without rows, and formulas name all that they choose among. So one of every kind is made, and the
pages, by someone who writes down what is asked for; only the factors between units hang on the
season, and what kind of food something is on the product data.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from io import BytesIO
from itertools import product
from typing import NamedTuple

from handout.seasons import TEXTS, gathered
from samples.season import NAMES, ROOT, sample

from reportgen import program
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import Phrase, is_neutral
from reportgen.handout.gather import Gather
from reportgen.handout.locale_format import LocaleFormat
from reportgen.handout.partner import partner_numbers
from reportgen.handout.partner_sheets import partner_sheets
from reportgen.handout.product_sheet import product_sheet
from reportgen.handout.season_page import season_page
from reportgen.layout.blocks import Sheet
from reportgen.layout.compose import compose
from reportgen.layout.used import used_factors
from reportgen.model.season import Season, slots_of
from reportgen.past.copy import Past, compared
from reportgen.past.sheets import SHEETS as COMPARED
from reportgen.sheets.all import SHEETS, contents
from reportgen.texts import Texts
from reportgen.trade import BOOK

WEIGHTS = ("lb", "oz", "kg", "g")
OTHER = "fr"
"""Some language that is not English: nobody asks for anything in English."""


class Kind(NamedTuple):
    """One workbook to be made."""

    name: str
    numbers: Numbers
    sheets: Sequence[Sheet]
    season: Season
    title: str


def kinds(locale: str = "") -> Iterator[Kind]:
    """A workbook of every kind: seasons, costing sheets of a product, a comparison."""
    for name in NAMES:
        read = sample(name)
        assert read.season is not None and read.numbers is not None
        season, numbers = read.season, read.numbers
        yield Kind(name, numbers, SHEETS, season, season.name)
        gather = gathered(name, locale)
        for everything in (False, True):
            own = partner_numbers(numbers, str(numbers.value("products", "key")), everything)
            said = product_sheet(gather, gather.keys("products")[0], everything)
            sheets = partner_sheets(own.book, said)
            told = "all" if everything else "partner"
            yield Kind(f"{name}-{told}", own, sheets, season, season.name)
    past = Past(ROOT / "samples" / name, season, numbers)
    title = Phrase("Seasons compared")
    yield Kind("compared", compared([past, past]), COMPARED, season, title)


class Noting(Texts):
    """A catalogue that writes down what it is asked for."""

    def __init__(self) -> None:
        super().__init__(TEXTS, OTHER)
        self.found: set[str] = set()
        self.say = self._note

    def _note(self, text: str) -> str:
        self.found.add(text)
        return text

    def said(self, text: str) -> tuple[str, str]:
        """Somebody's own words may come here as well."""
        return text, ""


@cache
def asked() -> frozenset[str]:
    """The texts and patterns that are asked for."""
    noting = Noting()
    # A chart is there where it has rows: only this sample has been to market.
    market = sample("nine-gates")
    assert market.season is not None and market.numbers is not None
    went = Kind("nine-gates", market.numbers, SHEETS, market.season, market.season.name)
    for each in (*kinds(), went):
        numbers, sheets = each.numbers, each.sheets
        compose(contents(sheets, numbers), numbers, each.title, "", "a4", noting.say, many=1)
    for name in NAMES:
        gather = gathered(name)
        own = Gather(gather.season, gather.numbers, noting, LocaleFormat("", gather.season.slots))
        season_page(own)
        product_sheet(own, own.keys("products")[0], everything=True)
    trees = [each.tree for each in BOOK.order if each.tree is not None]
    for fresh, dried in product(WEIGHTS, WEIGHTS):
        for factor in used_factors(trees, slots_of(fresh, dried, "EUR")):
            Phrase.of(factor.label).said(noting.say)
    found, problems = program.catalogue(None)
    assert found is not None, problems
    noting.found |= {recipe.text("kind") for recipe in found.recipes.values()}
    return frozenset(noting.found)


def to_translate() -> frozenset[str]:
    """Those that have letters of their own."""
    return frozenset(text for text in asked() if not is_neutral(text))


def made(kind: Kind, locale: str) -> bytes:
    """The bytes of a workbook in a language."""
    before, kind.season.locale = kind.season.locale, locale
    try:
        out = BytesIO()
        program.write(kind.numbers, kind.sheets, kind.season, kind.title, out)
        return out.getvalue()
    finally:
        kind.season.locale = before
