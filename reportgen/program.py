"""The program on one screen: read → model → calculate → compose → write."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.algebra.phrases import Phrase
from reportgen.layout.blocks import Sheet
from reportgen.layout.compose import compose
from reportgen.model import load
from reportgen.model.catalogue import Catalogue
from reportgen.model.catalogue import catalogue as every_recipe
from reportgen.model.season import Season
from reportgen.read.problem import Problem
from reportgen.sheets.all import SHEETS, contents
from reportgen.texts import Texts
from reportgen.trade import BOOK
from reportgen.trade.rows import follow

EPOCH = date(1899, 12, 30)
"""The day a spreadsheet counts from."""

_WRITTEN = {"changes": "scenarios"}
"""Tables of the book whose records go by another name in a season's files."""
_FOLLOWING = ("scenarios",)
"""Tables whose rows follow from others', though records of that name are written."""

Progress = Callable[[str], None]


def _quiet(stage: str) -> None:
    pass


@dataclass(frozen=True)
class Read:
    """A season and its numbers, or the problems that stood in the way."""

    season: Season | None
    numbers: Numbers | None
    problems: list[Problem]


def data(kind: str) -> Path:
    """The folder of what ships with the program: ``recipes`` or ``templates``."""
    packed = Path(__file__).parent / "data" / kind
    return packed if packed.is_dir() else Path(__file__).parent.parent / kind


def read(path: Path, progress: Progress = _quiet) -> Read:
    """Read a season and work out all its quantities."""
    progress("reading")
    season, problems = load(path, data("recipes"))
    if season is None:
        return Read(None, None, problems)
    progress("calculating")
    return Read(season, Numbers(BOOK, inputs(season), season.slots), problems)


def catalogue(season: Path | None) -> tuple[Catalogue | None, list[Problem]]:
    """The product data that ships, with a season's own recipes above it."""
    return every_recipe(data("recipes"), season)


def build(path: Path, progress: Progress = _quiet) -> tuple[bytes | None, list[Problem]]:
    """Read a season and render its workbook."""
    done = read(path, progress)
    if done.season is None or done.numbers is None:
        return None, done.problems
    return workbook(done.season, done.numbers, progress), done.problems


def workbook(season: Season, numbers: Numbers, progress: Progress = _quiet) -> bytes:
    """The workbook of a season that has been read, sealed so that later changes to it show."""
    return written(numbers, SHEETS, season, season.name, progress)


def texts(locale: str) -> Texts:
    """The fixed texts in the language of a locale; English where there are none."""
    return Texts(data("templates") / "texts", locale)


def written(
    numbers: Numbers,
    sheets: Sequence[Sheet],
    season: Season,
    title: str,
    progress: Progress = _quiet,
) -> bytes:
    """A workbook of these sheets, in the season's language and on its paper, sealed."""
    from reportgen.write import seal
    from reportgen.write.workbook import render

    progress("composing")
    paper = "letter" if season.slots["distance"] == "mile" else "a4"
    said = texts(season.locale)
    language = season.locale if season.locale.startswith(said.language) else said.language
    shown = contents(sheets, numbers)
    book = compose(shown, numbers, title, language, season.sources, paper, said.say)
    book.properties[seal.PROPERTY] = seal.BLANK
    progress("writing")
    return render(book)


def comparison(numbers: Numbers, first: Season, progress: Progress = _quiet) -> bytes:
    """The workbook that sets several seasons side by side, ``first`` named first."""
    from reportgen.past.sheets import SHEETS as ITS_SHEETS

    return written(numbers, ITS_SHEETS, first, Phrase("Seasons compared"), progress)


def inputs(season: Season) -> dict[str, Cells]:
    """The season's input columns, with the day it is judged on and the list of checks."""
    tables: dict[str, Cells] = {
        "season": {
            "as_of": [_judged_on(season)],
            "money_by_weight": [f"{season.currency}/{season.dried}"],
            "key": ["season"],
        }
    }
    for name, table in BOOK.tables.items():
        rows = season.tables.get(_WRITTEN.get(name, name))
        if rows is not None and name not in _FOLLOWING:
            columns: Cells = {k: list(v) for k, v in rows.values.items()}
            if "key" not in table.definitions:
                columns["key"] = list(rows.keys)
            tables[name] = columns
    return {**tables, **follow(BOOK, tables)}


def _judged_on(season: Season) -> float:
    """The last day recorded; today where that is still to come.

    So the same season gives the same workbook on any later day, and a date ahead of the calendar is
    noticed. ``SOURCE_DATE_EPOCH`` stands in for the clock where it is set.
    """
    clock = os.environ.get("SOURCE_DATE_EPOCH")
    now = datetime.fromtimestamp(int(clock), UTC) if clock else datetime.now()
    today = float((now.date() - EPOCH).days)
    days = [
        float(value)
        for table, column in (
            ("lots", "date"),
            ("runs", "started"),
            ("packs", "date"),
            ("uses", "date"),
            ("offers", "date"),
        )
        for value in season.tables[table].values.get(column, [])
        if isinstance(value, int | float)
    ]
    return float(int(min(max(days, default=today), today)))
