"""The program on one screen: read → model → calculate → compose → write."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

from reportgen.algebra.numbers import Cells, Numbers
from reportgen.algebra.phrases import Phrase
from reportgen.clock import now
from reportgen.edits.memory import Remembered, of_season, page_of
from reportgen.layout.blocks import Sheet
from reportgen.layout.compose import compose
from reportgen.model import load
from reportgen.model.catalogue import Catalogue
from reportgen.model.catalogue import catalogue as every_recipe
from reportgen.model.season import Origin, Season
from reportgen.read.problem import Place, Problem
from reportgen.sheets.all import MARKED, SHEETS, contents
from reportgen.texts import Texts
from reportgen.trade import BOOK
from reportgen.trade.constants import DOLLAR_SIZED
from reportgen.trade.input_names import input_names
from reportgen.trade.rows import follow
from reportgen.units.days import date_of, day_number

_WRITTEN = {"changes": "scenarios", "asking": "asked"}
"""Tables of the book whose records go by another name in a season's files."""
_FOLLOWING = ("scenarios",)
"""Tables whose rows follow from others', though records of that name are written."""

Progress = Callable[[str], None]


def quiet(stage: str) -> None:
    """Tells nobody how far it is."""


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


def read(path: Path, progress: Progress = quiet, as_of: float | None = None) -> Read:
    """Read a season and work out all its quantities, judged on its day or on ``as_of``."""
    progress("reading")
    season, problems = load(path, data("recipes"))
    if season is None:
        return Read(None, None, problems)
    judge(season, as_of)
    progress("calculating")
    return Read(season, Numbers(BOOK, inputs(season), season.slots), problems)


def catalogue(season: Path | None) -> tuple[Catalogue | None, list[Problem]]:
    """The product data that ships, with a season's own recipes above it."""
    return every_recipe(data("recipes"), season)


def build(path: Path, progress: Progress = quiet) -> tuple[bytes | None, list[Problem]]:
    """Read a season and render its workbook."""
    done = read(path, progress)
    if done.season is None or done.numbers is None:
        return None, done.problems
    return workbook(done.season, done.numbers, progress), done.problems


def workbook(season: Season, numbers: Numbers, progress: Progress = quiet) -> bytes:
    """The workbook of a season that has been read, sealed so that later changes to it show."""
    out = BytesIO()
    write_workbook(season, numbers, out, progress)
    return out.getvalue()


def write_workbook(
    season: Season, numbers: Numbers, out: BinaryIO, progress: Progress = quiet
) -> None:
    """The same, into an empty file: it may be larger than memory."""
    remembered = of_season(season, MARKED)
    write(numbers, SHEETS, season, season.name, out, progress, remembered)


def texts(locale: str) -> Texts:
    """The fixed texts in the language of a locale; English where there are none."""
    return Texts(data("templates") / "texts", locale)


def write(
    numbers: Numbers,
    sheets: Sequence[Sheet],
    season: Season,
    title: str,
    out: BinaryIO,
    progress: Progress = quiet,
    remembered: Remembered | None = None,
) -> None:
    """A workbook of these sheets, in the season's language and on its paper, sealed, into an empty
    file; what it is to remember, so that edits can be told from it."""
    from reportgen.write import seal
    from reportgen.write.workbook import write as write_book

    progress("composing")
    paper = "letter" if season.slots["distance"] == "mile" else "a4"
    said = texts(season.locale)
    language = season.locale if season.locale.startswith(said.language) else said.language
    shown = contents(sheets, numbers)
    if remembered is not None:
        memory = partial(page_of, remembered, said.say, input_names(numbers))
        shown = contents(sheets, numbers, remembered.marked, memory)
    book = compose(shown, numbers, title, language, paper, said.say)
    book.properties[seal.PROPERTY] = seal.BLANK
    progress("writing")
    write_book(book, out)


def write_comparison(
    numbers: Numbers, first: Season, out: BinaryIO, progress: Progress = quiet
) -> None:
    """The workbook that sets several seasons side by side, ``first`` named first."""
    from reportgen.past.sheets import SHEETS as ITS_SHEETS

    write(numbers, ITS_SHEETS, first, Phrase("Seasons compared"), out, progress)


def inputs(season: Season) -> dict[str, Cells]:
    """The season's input columns, and the list of checks."""
    tables: dict[str, Cells] = {}
    for name, table in BOOK.tables.items():
        rows = season.tables.get(_WRITTEN.get(name, name))
        if rows is not None and name not in _FOLLOWING:
            columns: Cells = {k: list(v) for k, v in rows.values.items()}
            if "key" not in table.definitions:
                columns["key"] = list(rows.keys)
            tables[name] = columns
    tables["channels"]["of_stall"] = [key == "stall" for key in tables["channels"]["key"]]
    tables["season"]["money_by_weight"] = [f"{season.currency}/{season.dried}"]
    tables["season"]["short_files"] = [season.short_files]
    tables["season"]["dollar_sized"] = [season.currency in DOLLAR_SIZED]
    return {**tables, **follow(BOOK, tables)}


def judge(season: Season, as_of: float | None = None) -> None:
    """Set the day a season is judged on: the one asked for, else its own, else today.

    ``SOURCE_DATE_EPOCH`` stands in for the clock where it is set.
    """
    rows = season.tables["season"]
    if as_of is not None:
        day = date_of(as_of)
        origin = Origin("given", day.isoformat(), Place("--as-of", 0))
    elif rows.values["as_of"] == [None]:
        as_of, origin = float(day_number(now().date())), Origin("default", "today")
    else:
        return
    rows.values["as_of"], rows.origins["as_of"] = [as_of], [origin]
