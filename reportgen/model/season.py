"""A season as read: columns of values, each with its origin."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, NamedTuple

from reportgen.model.fields import Record
from reportgen.read.problem import Place

Value = float | str | bool | None
"""A number in its input's unit (bound to the season's slots), a text, a truth value; a date is the
number of days, as a spreadsheet counts. None: unknown."""


class Origin(NamedTuple):
    """Where an input came from: given in a file, assumed from a recipe, or a stated default.

    ``text`` is what was written, or why the default holds; ``source`` the id of the published
    source of a recipe's value, ``note`` what the recipe says of it.
    """

    kind: Literal["given", "assumed", "default"]
    text: str
    place: Place | None = None
    source: str = ""
    note: str = ""


@dataclass
class Rows:
    """The rows of one table, column by column."""

    record: Record
    keys: list[str] = field(default_factory=list)
    values: dict[str, list[Value]] = field(default_factory=dict)
    """Every input of the record, and the owner's column, by name; one value a row."""
    origins: dict[str, list[Origin | None]] = field(default_factory=dict)
    places: list[Place] = field(default_factory=list)
    """Where each record begins."""


@dataclass
class Season:
    """A whole season. ``tables`` holds Rows for every record of the model, empty ones included;
    a single record (rates, pricing, ...) is a table of one row whose key is its name."""

    name: str
    currency: str
    fresh: str
    dried: str
    folder: Path
    locale: str = ""
    tables: dict[str, Rows] = field(default_factory=dict)
    cautions: dict[str, list[tuple[str, str]]] = field(default_factory=dict)
    """Product id → its recipe's cautions, each with its source."""
    allergens: dict[str, list[str]] = field(default_factory=dict)
    sources: dict[str, dict[str, str]] = field(default_factory=dict)
    """The sources file: id → title, publisher, year, ..."""
    short_files: int = 0
    """How many files have the short form."""

    @property
    def slots(self) -> dict[str, str]:
        """What the slots of the units stand for in this season."""
        return slots_of(self.fresh, self.dried, self.currency)


def slots_of(fresh: str, dried: str, currency: str) -> dict[str, str]:
    """What the slots of the units stand for; distances go with the weights."""
    return {
        "fresh": fresh,
        "dried": dried,
        "money": currency,
        "distance": "mile" if fresh in ("lb", "oz") else "km",
    }
