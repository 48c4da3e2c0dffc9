"""What is gathered while a season is bound: drafts of rows, and every problem met."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from reportgen.model.fields import Record
from reportgen.model.season import Origin, Value
from reportgen.read.nodes import Implied, Node, Scalar
from reportgen.read.problem import Place, Problem, Refusal
from reportgen.read.zones import Zone


class Draft:
    """A row in the making: values and origins by input name; ``key`` is set when it is known."""

    __slots__ = ("broken", "key", "node", "origins", "owner", "place", "record", "values")

    def __init__(self, record: Record, node: Node, owner: Draft | None = None) -> None:
        self.record = record
        self.node = node
        self.owner = owner
        self.place: Place = node.place
        self.key = ""
        self.values: dict[str, Value] = {}
        self.origins: dict[str, Origin] = {}
        self.broken: set[str] = set()
        """Inputs (and ``id``) that are given but cannot be read: not missing, not known."""

    @property
    def file(self) -> str:
        """The file it stands in."""
        return self.place.file

    def has(self, name: str) -> bool:
        """Whether the input is given, readable or not."""
        return name in self.values or name in self.broken

    def number(self, name: str) -> float | None:
        """A number's value; None where it is not known."""
        value = self.values.get(name)
        return value if isinstance(value, float) else None

    def text(self, name: str) -> str:
        """A text's value; empty where it is not known."""
        value = self.values.get(name)
        return value if isinstance(value, str) else ""

    def place_of(self, name: str) -> Place:
        """Where the input stands; the record's own place where it was not written."""
        origin = self.origins.get(name)
        return origin.place if origin is not None and origin.place is not None else self.place

    def default(self, name: str, value: Value, text: str, place: Place | None = None) -> None:
        """Set what is not given."""
        self.values[name] = value
        self.origins[name] = Origin("default", text, place)


@dataclass
class Gathering:
    """The drafts of all tables, the problems, and what readers need to know of the season."""

    slots: dict[str, str]
    folder: Path
    zone: Zone = field(default_factory=Zone)
    """How clock times of the season are read."""
    problems: list[Problem] = field(default_factory=list)
    drafts: dict[str, list[Draft]] = field(default_factory=dict)
    unsure: bool = False
    """A file could not be read: ids that are not found may stand in it."""
    gross: list[Any] = field(default_factory=list)
    """Weights from which the weight of trays is still to be taken off (``weights.Gross``)."""
    season_file: str = "season.yaml"
    shipped: bool = False
    """What is read now comes with the program."""

    def add(self, draft: Draft) -> None:
        """Put a draft into its table."""
        self.drafts.setdefault(draft.record.name, []).append(draft)

    def of(self, table: str) -> list[Draft]:
        """The drafts of a table, in order."""
        return self.drafts.get(table, [])

    def problem(self, place: Place, what: str, expected: str = "", do: str = "") -> None:
        """Note something wrong."""
        self.problems.append(Problem(place, what, expected, do))

    def refuse(self, node: Node, refusal: Refusal) -> None:
        """Note what the grammar does not take, in its own words."""
        self.problem(node.place, refusal.what, refusal.expected, refusal.do)

    def origin(self, node: Scalar, source: str = "") -> Origin:
        """Where a value that is read now comes from."""
        if type(node) is Implied:
            return Origin("default", node.written, node.place)
        kind = "assumed" if self.shipped else "given"
        return Origin(
            kind,  # type: ignore[arg-type]
            node.written,
            Place(node.file, node.line, node.column, node.length),
            source,
        )


def shape_problem(gathering: Gathering, node: Node, wanted: str, do: str) -> None:
    """Note a list where a mapping is wanted, and the like."""
    gathering.problem(node.place, f"{node.shape} stands here", wanted, do)
