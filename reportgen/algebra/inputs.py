"""What is put into a table: a column that is written down, not worked out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from reportgen.algebra.expr import Type
from reportgen.units import ONE, Unit


@dataclass(frozen=True)
class Input:
    """A column of a table that is written down, not worked out.

    ``least`` and ``most`` bound a number, both included unless ``above`` (least excluded) or
    ``below`` (most excluded); ``zero`` and ``one`` say that left out means 0 or 1; ``ref`` names
    the table that a text's ids belong to; ``clock`` that a date carries the time of day;
    ``measured`` False that it comes from the product data and so counts as an estimate.
    """

    name: str
    type: Type
    doc: str
    unit: Unit = ONE
    zero: bool = False
    one: bool = False
    least: float | None = None
    most: float | None = None
    above: bool = False
    below: bool = False
    whole: bool = False
    share: bool = False
    clock: bool = False
    ref: str | None = None
    choices: tuple[str, ...] = ()
    measured: bool = True
    about: str = ""
    """The flag beside it that says in which rows it was written as an estimate: ``~2 oz``."""
    fixed: bool = False
    """Written by the program, not to be typed over."""
    head: str = ""
    """What it is called above its column, where its name does not say it."""
    ours: bool = False
    """Its texts are the program's words: a workbook has them in its own language."""

    @property
    def show(self) -> Literal["", "share", "count", "fine"]:
        """How a plain number is read."""
        return "share" if self.share else "count" if self.whole else ""

    @property
    def typed(self) -> bool:
        """Whether a number is typed there: an amount, a day, 1 for yes."""
        return self.type != "text" and not self.fixed

    @property
    def translated(self) -> bool:
        """Whether its texts are those of the catalogue: the program's own, or one of a few."""
        return self.ours or bool(self.choices)
