"""What the composing of a workbook has at hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from reportgen.algebra.book import Book
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import Say
from reportgen.algebra.running import Running
from reportgen.algebra.words import Words
from reportgen.layout.blocks import Contents
from reportgen.layout.placing import Layout


@dataclass
class Context:
    """All that the composing of a workbook reads."""

    book: Book
    numbers: Numbers
    layout: Layout
    formulas: Formulas
    words: Words
    contents: Contents
    hidden: frozenset[str]
    """Sheets that are out of sight: of no use yet, or for who looks closer."""
    slots: Mapping[str, str]
    say: Say
    running: Running
