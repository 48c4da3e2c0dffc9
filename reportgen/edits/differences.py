"""What an edited workbook says, piece by piece."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from reportgen.model.season import Value

Kind = Literal[
    "change", "home", "conflict", "added", "removed", "renamed", "refused", "overwritten"
]
KEY = "key"
"""The field of an id."""
WORDS = "words"
"""The field of a text of the program's."""


@dataclass(frozen=True)
class Change:
    """One difference. ``field`` is the input, or ``key`` for the id; ``row`` the record's key."""

    kind: Kind
    table: str
    row: str
    field: str
    sheet: str
    cell: str
    file: str = ""
    line: int = 0
    built: Value = None
    edited: Value = None
    now: Value = None
    about: str = ""
    """The input that says it is an estimate, where it was typed as one."""
    called: str = ""
    """A record without an id, as people see it: its run, lot, product, day."""
    why: str = ""
    """Of what is refused: what is wrong, what was expected, what to do; of a conflict whose record
    is not there any more, that it is not."""

    @property
    def of_words(self) -> bool:
        """Whether it is of a text of the program's, and of no figure."""
        return self.field == WORDS


@dataclass(frozen=True)
class New:
    """A row that was added: its values by input, and where each stands."""

    table: str
    key: str
    sheet: str
    cell: str
    values: Mapping[str, Value]


@dataclass
class Difference:
    """All that an edited workbook says. ``at``: the number of a record's row in the season."""

    changes: list[Change] = field(default_factory=list)
    added: list[New] = field(default_factory=list)
    at: dict[tuple[str, str], int] = field(default_factory=dict)

    def of(self, *kinds: Kind) -> list[Change]:
        """The changes of some kinds."""
        return [each for each in self.changes if each.kind in kinds]
