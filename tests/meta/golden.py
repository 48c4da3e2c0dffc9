"""Every definition as text, a paragraph each, to be read where it changes.

``python tests/meta/golden.py`` writes ``docs/definitions.txt`` anew. It proves nothing; it shows
what a change of the algebra or the trade does to all the rest.
"""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path

from reportgen.algebra.factors import Factor
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.nodes import PerRow
from reportgen.algebra.tables import Definition
from reportgen.algebra.words import Words
from reportgen.trade import BOOK

PATH = Path(__file__).resolve().parents[2] / "docs" / "definitions.txt"
SLOTS = {"fresh": "lb", "dried": "oz", "money": "USD", "distance": "mile"}
HEAD = """\
Every quantity: its name, unit and label; its formula with names in place of cells, where
wet is a cell of the same row, lots.wet[] all rows of a column and season.as_of the only one;
its rule in words, and where it is from. Written by: python tests/meta/golden.py
"""


class Names:
    """Places that are names."""

    def __init__(self, table: str) -> None:
        self._table = table

    def cell(self, table: str, column: str) -> str:
        return column if table == self._table else f"{table}.{column}"

    def span(self, table: str, column: str) -> str:
        return f"{table}.{column}[]"

    def single(self, table: str, column: str) -> str:
        return f"{table}.{column}"

    def address(self, table: str, column: str) -> str:
        return f"{table} {column}"

    def constant(self, name: str) -> str:
        return name

    def factor(self, factor: Factor) -> str:
        return f"({factor.label})"


def golden() -> str:
    """The whole text."""
    formulas, words = Formulas(BOOK, SLOTS), Words(BOOK, SLOTS)
    tables = [table for table in BOOK.tables.values() if table.definitions]
    found = ["\n".join(_said(each, formulas, words)) for t in tables for each in _of(t.definitions)]
    return "\n".join([HEAD, *(f"{each}\n" for each in found)])


def _of(definitions: dict[str, Definition]) -> Iterator[Definition]:
    # What the algebra makes as it is asked, and so in any order, comes last.
    made = sorted(d.name for d in definitions.values() if d.body is None)
    yield from (d for d in definitions.values() if d.body is not None)
    yield from (definitions[name] for name in made)


def _said(definition: Definition, formulas: Formulas, words: Words) -> Iterator[str]:
    unit = definition.kind.unit.text() or definition.kind.show or definition.kind.type
    what = f"{definition.severity}: " if definition.role == "check" else ""
    yield f"{'.'.join(definition.key)} [{unit}] {what}{definition.label}"
    names = Names(definition.table.name)
    if isinstance(definition.tree, PerRow):
        texts = formulas.formulas(definition, names)
    else:
        texts = [formulas.formula(definition, names)]
    for text in texts:
        yield from _folded(f"= {_spaced(text)}")
    yield from _folded(str(words.rule(definition)))
    yield from _folded(f"{definition.doc} {definition.do}".rstrip())
    if definition.source != "definition":
        yield from _folded(f"Source: {definition.source}")


def _spaced(formula: str) -> str:
    """A formula with room about its operators, so that it can be folded."""
    pieces = re.split(r'("(?:[^"]|"")*")', formula)
    return "".join(
        piece
        if at % 2
        else re.sub(r"(?<=[\w\])])(<>|[<>]=?|[-+*/=&])", r" \1 ", piece).replace(",", ", ")
        for at, piece in enumerate(pieces)
    )


def _folded(text: str) -> list[str]:
    return textwrap.wrap(
        text, 100, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False
    )


if __name__ == "__main__":
    PATH.write_text(golden(), encoding="utf-8")
    sys.stdout.write(f"{PATH.name}: written\n")
