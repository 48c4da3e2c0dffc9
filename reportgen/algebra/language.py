"""A season's numbers with the program's own texts in another language.

A number is the same in every language, so only texts are worked out again. A choice among words is
one among their translations, and so is what it is compared with: formulas say both alike.
"""

from __future__ import annotations

from collections.abc import Collection
from copy import copy

from reportgen.algebra.book import Key
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import Say


def in_language(numbers: Numbers, say: Say, own: Collection[Key]) -> Numbers:
    """The numbers, with fixed texts as ``say`` gives them: those in definitions, and those in the
    input columns named in ``own``."""
    other = copy(numbers)
    other.say = say
    other.cells = {table: dict(columns) for table, columns in numbers.cells.items()}
    for table, name in own:
        column = numbers.cells[table][name]
        other.cells[table][name] = [say(v) if isinstance(v, str) else v for v in column]
    texts = [each for each in numbers.book.order if each.kind.type == "text"]
    for definition in texts:
        del other.cells[definition.table.name][definition.name]
    for definition in texts:
        other.compute(definition)
    return other
