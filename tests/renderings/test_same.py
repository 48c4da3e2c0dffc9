"""The same number in every rendering: page, costing sheets, labels, terminal, data, workbook.

Each figure that is shown is held against three others: ``figures --json``, the value cached in the
workbook's cell, and what ironcalc makes of that cell's formula. What is read is parsed back by
Babel, in the place's own way of writing, and must be the cell's value to half of the last digit;
and there are as many decimals as the cell's number format shows.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from io import BytesIO
from math import isclose
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
import pytest
from babel import Locale
from babel.dates import format_date
from babel.numbers import get_decimal_symbol, parse_decimal
from engines import iron
from engines.cells import Place, Value, values
from thorough import some

from renderings.seasons import LOCALES, Rendered, of
from renderings.shown import Shown, in_check, in_explanations, in_headlines, in_html, in_lines
from reportgen.layout.placing import Layout
from reportgen.layout.spots import letters
from reportgen.sheets.all import SHEETS, contents
from reportgen.trade import BOOK

pytestmark = pytest.mark.slow

SEASONS = tuple(LOCALES)[: some(of=len(LOCALES), at_every_change=3)]
EPOCH = date(1899, 12, 30)


@dataclass(frozen=True)
class Cells:
    """The workbook's cells, and where each quantity stands."""

    layout: Layout
    names: dict[str, str]
    """The sheets' names in the season's language."""
    cached: dict[Place, Value]
    recalculated: dict[Place, Value]
    formats: dict[Place, str]

    def of(self, made: Rendered, figure: Shown) -> Place:
        """The cell of a figure."""
        if BOOK.tables[figure.table].single:
            spot, row = self.layout.singles[figure.table, figure.name], 0
        else:
            spot = self.layout.column(figure.table, figure.name)
            keys = [str(key) for key in made.numbers.cells[figure.table]["key"]]
            row = keys.index(figure.row)
        return self.names[spot.sheet], f"{letters(spot.column)}{spot.first + row}"


@cache
def cells(name: str) -> Cells:
    made = of(name)
    rows = {table: made.numbers.rows(each) for table, each in BOOK.tables.items()}
    with TemporaryDirectory() as folder:
        path = Path(folder) / "season.xlsx"
        path.write_bytes(made.workbook)
        book = openpyxl.load_workbook(BytesIO(made.workbook))
        formats = {(sheet.title, cell.coordinate): cell.number_format
                   for sheet in book for row in sheet.iter_rows() for cell in row}  # fmt: skip
        layout = Layout(BOOK, contents(SHEETS, made.numbers), rows, made.season.slots)
        seen = [sheet.title for sheet in book if sheet.sheet_state != "veryHidden"]
        names = dict(zip((sheet.name for sheet in SHEETS), seen, strict=True))
        return Cells(layout, names, values(path), iron.recalculate(path), formats)


RENDERINGS: dict[str, tuple[Callable[[Rendered], Iterator[Shown]], int]] = {
    "page": (lambda made: in_html(made.page), 200),
    "costing sheets": (
        lambda made: (figure for sheet in made.sheets.values() for figure in in_html(sheet)),
        30,
    ),
    "figures": (in_lines, 700),
    "explain": (in_explanations, 700),
    "explain, row by row": (in_headlines, 700),
    "check": (in_check, 1),
}
"""Each rendering with how many figures it shows at least."""
LOCAL = ("page", "costing sheets")
"""Renderings that write as the season's place does; the terminal writes as a program reads."""


@pytest.mark.parametrize("rendering", RENDERINGS)
@pytest.mark.parametrize("name", SEASONS)
def test_every_figure_is_that_of_its_cell_and_of_the_data(name: str, rendering: str) -> None:
    made = of(name)
    collect, least = RENDERINGS[rendering]
    found = list(collect(made))
    assert len(found) >= least
    locale = made.locale if rendering in LOCAL else "en-US"
    exact = rendering == "explain, row by row"
    wrong = [said for each in found for said in _wrong(name, each, locale, exact)]
    assert wrong == []


@pytest.mark.parametrize("name", SEASONS)
def test_every_quantity_is_in_every_listing(name: str) -> None:
    tables = of(name).data["tables"]
    every = {(table, quantity, row) for table, rows in tables.items()
             for row, each in rows.items() for quantity in each}  # fmt: skip
    for rendering in ("explain", "explain, row by row", "figures"):
        found = {(e.table, e.name, e.row) for e in RENDERINGS[rendering][0](of(name))}
        missing = {each for each in every - found if each[0] not in ("checks", "typed")}
        assert missing == set(), rendering


def _wrong(name: str, figure: Shown, locale: str, exact: bool) -> Iterator[str]:
    made, book = of(name), cells(name)
    kind = BOOK.tables[figure.table].kind_of(figure.name)
    place = book.of(made, figure)
    cached, again = book.cached.get(place), book.recalculated.get(place)
    data = made.data["tables"].get(figure.table, {}).get(figure.row, {}).get(figure.name)
    said = f"{figure} is {cached!r} in {place}"
    if not _same(cached, again):
        yield f"{said}, {again!r} recalculated"
    if kind.type == "text":
        yield from _misquoted(figure, cached, data, made.locale.startswith("fr"), said)
        return
    if data is not None and not _same(_number(data["value"]), cached):
        yield f"{said}, {data['value']!r} as data"
    if figure.value is not None and not _same(_number(_read(figure.value)), cached):
        yield f"{said}, {figure.value} beside the text"
    if cached in (None, ""):
        if re.search(r"\d", figure.text) or figure.value is not None:
            yield f"{said}, and not known"
        return
    match kind.type:
        case "flag":
            if figure.text.lower() not in (("yes", "oui", "1") if cached else ("no", "non", "0")):
                yield said
        case "date":
            if not _day(figure.text, float(cached), locale):
                yield said
        case _:
            yield from _misread(figure, float(cached), book.formats[place], locale, exact, said)


def _misquoted(
    figure: Shown, cached: Value, data: dict[str, Value] | None, translated: bool, said: str
) -> Iterator[str]:
    """A text: data and the terminal speak English, cells and hand-outs the season's language."""
    table = BOOK.tables[figure.table]
    own = data["value"] if data is not None else None
    if data is not None and not translated and not _same(own, cached):
        yield f"{said}, {own!r} as data"
    if figure.value is None:
        wanted = own if data is not None else cached
        if wanted in (None, ""):
            if figure.text.strip("“”") not in ("", "-", "–", "unknown", "none", "pas encore connu",
                                               "not known yet", "–not known yet",
                                               "–pas encore connu"):  # fmt: skip
                yield f"{said}, and not known"
        elif not _reads(figure.text, str(wanted)):
            yield said
        return
    if data is not None and figure.value != own:
        yield f"{said}, {figure.value} beside the text, {own} as data"
    # A link is shown by the name of what it leads to.
    if figure.name in table.definitions and figure.name not in table.links:
        if not _reads(figure.text, str(cached)):
            yield said
    elif not translated and figure.value != cached:
        yield f"{said}, {figure.value} beside the text"


def _misread(
    figure: Shown, value: float, form: str, locale: str, exact: bool, said: str
) -> Iterator[str]:
    number, decimals = parsed(figure.text, locale)
    share = form.endswith("%")
    shown = value * 100 if share else value
    if exact:
        half = 0.0 if "e" in figure.text.split()[0] else 0.5000001 * 10.0**-decimals
        near = isclose(number, shown, rel_tol=5.1e-6, abs_tol=1e-12)
        if not near or (half and abs(number - shown) > half):
            yield f"{said}: read as {number}"
        return
    first = form.partition("]")[2].partition(";")[0] if form.startswith("[") else form
    wanted = len(first.rstrip("%").partition(".")[2])
    if "<" in figure.text:
        if decimals != wanted or number != 10.0**-wanted or not 0 < shown < number / 2:
            yield f"{said}: read as below {number}"
        return
    if decimals != wanted:
        yield f"{said}: {decimals} decimals, the cell shows {wanted}"
    if abs(number - shown) > 0.5000001 * 10.0**-decimals:
        yield f"{said}: read as {number}"


def parsed(text: str, locale: str) -> tuple[float, int]:
    """The first number in a text as the place writes it, and how many decimals it has."""
    place = Locale.parse(locale, sep="-")
    point = get_decimal_symbol(place)
    found = re.search(r"([-−]?)[^\d\-−]{0,4}(\d[\d\s.,’'\u202f\u00a0]*)", text)
    assert found, text
    power = re.match(r"e([-+]\d+)", text[found.end() :])
    digits = found[2].rstrip(".,’' \u202f\u00a0\n")
    number = float(parse_decimal(digits.replace(" ", "\u00a0"), place))
    decimals = len(digits.partition(point)[2])
    number *= 10.0 ** int(power[1]) if power else 1
    return (-number if found[1] else number), decimals


def _day(text: str, value: float, locale: str) -> bool:
    day = EPOCH + timedelta(days=int(value))
    return text.startswith(day.isoformat()) or text == format_date(
        day, "medium", Locale.parse(locale, sep="-")
    )


def _reads(text: str, whole: str) -> bool:
    """A text in a narrow table is cut."""
    text = " ".join(text.strip("“”").split())
    cut = text.endswith("…")
    whole = " ".join(whole.split())
    return whole.startswith(text.rstrip("…")) if cut else whole == text


def _read(text: str) -> Value:
    try:
        return float(text)
    except ValueError:
        return {"True": 1.0, "False": 0.0}.get(text, text)


def _number(value: Value) -> Value:
    """A date and a truth value as a cell holds them."""
    if isinstance(value, bool):
        return float(value)
    found = re.fullmatch(r"(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d))?", str(value))
    if found:
        year, month, day, hour, minute = (int(each or 0) for each in found.groups())
        return (date(year, month, day) - EPOCH).days + (hour + minute / 60) / 24
    return value


def _same(one: Value, other: Value) -> bool:
    one, other = (None if each == "" else each for each in (one, other))
    if isinstance(one, int | float) and isinstance(other, int | float):
        # A time of day is given to the minute.
        return isclose(one, other, rel_tol=1e-9, abs_tol=1e-9) or (
            one > 40000 and abs(one - other) < 1 / 24 / 60
        )
    return one == other


# --- labels: weights are cut, never rounded up, and stand in both systems -------------------------

_GRAMS = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
"""Exact by definition (NIST SP 811, appendix B)."""
LABELLED = ("windrow-lane", "colline", "every question")
_WEIGHT = re.compile(r"(\d[\d.,]*)[\s\u00a0](kg|g|oz)\b")


@pytest.mark.parametrize("name", LABELLED)
def test_every_figure_of_a_label_is_that_of_its_cell(name: str) -> None:
    made, book = of(name), cells(name)
    found = list(in_html(made.labels))
    assert {each.name for each in found} >= {"net", "date", "best_by"}
    for figure in found:
        place = book.of(made, figure)
        value = book.cached[place]
        assert isinstance(value, float), figure
        assert _same(value, book.recalculated[place])
        unit = BOOK.tables["packs"].kind_of(figure.name).unit.text(made.season.slots)
        if figure.name in ("date", "best_by"):
            day = EPOCH + timedelta(days=int(value))
            assert format_date(day, "medium", Locale.parse(made.locale, sep="-")) in figure.text
            continue
        weights = _WEIGHT.findall(figure.text.replace("\u202f", ""))
        assert weights, figure
        for text, system in weights:
            number, decimals = parsed(text, made.locale)
            whole = value * _GRAMS[unit] / _GRAMS[system]
            if figure.name == "water_to_add":
                assert number == pytest.approx(whole, rel=0.05), figure  # two digits
            elif not (system == "oz" and "lb" in figure.text):  # ounces left over from pounds
                assert whole - 10.0**-decimals < number <= whole * (1 + 1e-12), figure


# --- the comparison itself ------------------------------------------------------------------------


@pytest.mark.parametrize("rendering", ["page", "figures", "explain, row by row"])
def test_another_last_digit_would_be_found(rendering: str) -> None:
    name = "windrow-lane"
    made = of(name)
    exact = rendering == "explain, row by row"
    kinds = {table: each.kind_of for table, each in BOOK.tables.items()}
    tried = 0
    for figure in RENDERINGS[rendering][0](made):
        digit = re.search(r"\d(?=\D*$)", figure.text.split()[0])
        number = kinds[figure.table](figure.name).type == "number"
        if digit is None or not number or "e-" in figure.text:
            continue
        other = str((int(digit[0]) + 5) % 10)
        text = figure.text[: digit.start()] + other + figure.text[digit.end() :]
        changed = Shown(figure.table, figure.name, figure.row, text, figure.value)
        assert list(_wrong(name, changed, "en-US", exact)), changed
        tried += 1
    assert tried > 200
