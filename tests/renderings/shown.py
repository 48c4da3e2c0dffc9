"""Every figure that a rendering shows: which it is, and the text that is read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lxml import html

from renderings.seasons import Rendered
from reportgen.algebra.tables import Table
from reportgen.report.explain import Explainer
from reportgen.report.figures import keys, quantities
from reportgen.report.reads import Cell
from reportgen.report.show import unit
from reportgen.trade import BOOK
from reportgen.trade.safety import CAUTIONS


@dataclass(frozen=True)
class Shown:
    """A figure as it is shown. ``value`` is the one that stands beside the text for programs."""

    table: str
    name: str
    row: str
    text: str
    value: str | None = None


def in_html(document: str) -> Iterator[Shown]:
    """Of a page: those in texts and tables, and those in pictures."""
    for each in html.fromstring(document).iter():
        key = each.get("data-figure") if isinstance(each.tag, str) else None
        if not key:
            continue
        column, _, row = key.partition("/")
        table, _, name = column.partition(".")
        text = "".join(each.itertext())
        if each.tag == "text" and each.find("tspan") is not None:
            text = each.find("tspan").tail or ""  # behind the number of its series
        value = each.get("value") or each.get("data-value")
        yield Shown(table, name, row, text.strip(), value)


def in_lines(made: Rendered) -> Iterator[Shown]:
    """Of the tables of ``figures``: a block's first line names the rows."""
    titles = {table.title.upper(): table for table in BOOK.tables.values()}
    lines = iter(made.figures[2:])
    for line in lines:
        if not line or line in CAUTIONS.values():
            continue
        title = max((each for each in titles if line.startswith(each + " ")), key=len)
        table = titles[title]
        found = list(re.finditer(r"\S+", line[len(title) :]))
        edges = [len(title) + each.end() + 1 for each in found]
        listed = quantities(table)
        before = max(len(title), *(len(each.label) for each in listed)) + 2
        before += max(len(unit(each.kind, made.season.slots)) for each in listed)
        for definition in listed:
            line, left = next(lines), before
            assert line.startswith(definition.label), line
            for key, edge in zip(found, edges, strict=True):
                yield Shown(table.name, definition.name, key[0], _unmarked(line[left:edge]))
                left = edge


def _unmarked(cell: str) -> str:
    return cell.strip().rstrip("~≈").strip()


def in_explanations(made: Rendered) -> Iterator[Shown]:
    """Of ``explain``, asked for every quantity: the value of each row, as the workbook shows it."""
    explainer = Explainer(made.season, made.numbers)
    for table, name in _all():
        for line in explainer.column(table, name):
            key, found, text = line.partition(" = ")
            if found and line.startswith("  "):
                yield Shown(table.name, name, key.strip(), text)


def in_headlines(made: Rendered) -> Iterator[Shown]:
    """Of ``explain``, asked for every quantity of every row: in digits to reckon with."""
    explainer = Explainer(made.season, made.numbers, depth=0)
    for table, name in _all():
        for row, key in enumerate(keys(made.numbers, table)):
            first = next(iter(explainer.cell(Cell(table, name, row))))
            text = first.partition(" = ")[2].partition("   (")[0]
            yield Shown(table.name, name, key, text)


def _all() -> Iterator[tuple[Table, str]]:
    for table in BOOK.tables.values():
        for definition in quantities(table):
            yield table, definition.name


_WAITS = re.compile(r"lot (\S+): (.+?) of \S+ to be dried")
_BULK = re.compile(r"product (\S+): (.+?) dried, not packed")


def in_check(made: Rendered) -> Iterator[Shown]:
    """Of ``check``: what waits, what is not packed, and the verdict over all."""
    for line in made.check:
        for pattern, table, name in ((_WAITS, "lots", "waiting"), (_BULK, "products", "unpacked")):
            found = pattern.search(line)
            if found:
                yield Shown(table, name, found[1], found[2])
    yield Shown("season", "verdict_of_all", "season", made.check[-1].rstrip("."))
