"""Tables, their inputs, and the decorators that define their quantities."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from reportgen.algebra.expr import DefinitionError, Expr, Type
from reportgen.algebra.inputs import Input
from reportgen.algebra.nodes import Constant
from reportgen.units import ONE, Unit

Body = Callable[..., Expr]
Severity = Literal["error", "caution"]


@dataclass(frozen=True)
class Kind:
    """What a quantity is: a number in a unit, a truth value, a text, a date."""

    type: Type
    unit: Unit = ONE
    show: Literal["", "share", "count", "fine"] = ""
    """How a plain number is read: as a share of one, as a count, else as a ratio. ``fine``: with
    more decimals than its unit is shown with elsewhere, and below these not as 0; it is never
    below 0 itself."""
    of: str = ""
    """What a plain number is a number of, where that is said in place of a unit: runs, years."""


SHARE = Kind("number", ONE, "share")
COUNT = Kind("number", ONE, "count")
RUNS = Kind("number", ONE, of="runs")
YEARS = Kind("number", ONE, of="years")
FLAG = Kind("flag")
TEXT = Kind("text")
DATE = Kind("date")


@dataclass(repr=False)
class Definition:
    """One quantity, defined once. ``tree`` is there once the book has run the body."""

    table: Table
    name: str
    kind: Kind
    doc: str
    body: Body | None
    label: str
    source: str = "definition"
    role: Literal["derived", "check", "link", "helper", "estimated", "measured"] = "derived"
    severity: Severity = "error"
    do: str = ""
    names: str = "key"
    """The column by which a row that fails a check is named."""
    lacking: tuple[Table, ...] = ()
    """Tables that follow from others' rows, and are not what they should be where a check fails."""
    tree: Expr | None = None

    def __repr__(self) -> str:
        # Trees name tables, and tables hold definitions: written out, one would hold them all.
        return f"<{self.table.name}.{self.name}>"

    @property
    def key(self) -> tuple[str, str]:
        """Table and name: the quantity's place among all."""
        return (self.table.name, self.name)


@dataclass(repr=False)
class Table:
    """A kind of row. ``single``: it has one row, and no key is needed to read it.

    ``links`` maps a column that holds ids to the table they are ids of.
    """

    name: str
    title: str
    one: str
    """What one row is called."""
    inputs: dict[str, Input] = field(default_factory=dict)
    single: bool = False
    links: dict[str, str] = field(default_factory=dict)
    definitions: dict[str, Definition] = field(default_factory=dict)

    def __repr__(self) -> str:
        return f"<{self.name}>"

    @classmethod
    def of(
        cls,
        name: str,
        one: str,
        inputs: Sequence[Input],
        *,
        title: str = "",
        single: bool = False,
    ) -> Table:
        """A table with its inputs; an input that names a table is a link."""
        return cls(
            name,
            title or name.replace("_", " "),
            one,
            {each.name: each for each in inputs},
            single,
            {each.name: each.ref for each in inputs if each.ref},
        )

    def derived(
        self, kind: Kind | Unit, *, label: str = "", source: str = "definition"
    ) -> Callable[[Body], Body]:
        """Define a quantity of this table: name, parameters, docstring and body say it all."""
        as_kind = Kind("number", kind) if isinstance(kind, Unit) else kind

        def define(body: Body) -> Body:
            self._add(body, as_kind, label, source)
            return body

        return define

    def link(self, parent: Table) -> Callable[[Body], Body]:
        """Define a text that holds the id of a row of ``parent``."""

        def define(body: Body) -> Body:
            self._add(body, TEXT, "", "definition").role = "link"
            self.links[body.__name__] = parent.name
            return body

        return define

    def check(
        self,
        severity: Severity,
        do: str,
        *,
        source: str = "definition",
        label: str = "",
        names: str = "key",
        lacking: Sequence[Table] = (),
    ) -> Callable[[Body], Body]:
        """Define a check: the body holds where something is wrong, the docstring says what.

        ``lacking``: the tables whose rows followed from others' when the workbook was made, and
        which such a row is not in. The sheets that show them say so.
        """

        def define(body: Body) -> Body:
            made = self._add(body, FLAG, label, source)
            made.role, made.severity, made.do, made.names = "check", severity, do, names
            made.lacking = tuple(lacking)
            return body

        return define

    def _add(self, body: Body, kind: Kind, label: str, source: str) -> Definition:
        name = body.__name__
        if name in self.definitions or name in self.inputs:
            raise DefinitionError(f"{self.name}.{name} is defined twice")
        doc = " ".join((body.__doc__ or "").split())
        if not doc:
            raise DefinitionError(f"{self.name}.{name} has no docstring")
        made = Definition(self, name, kind, doc, body, label or name.replace("_", " "), source)
        self.definitions[name] = made
        return made

    def kind_of(self, name: str) -> Kind:
        """Type and unit of a column, input or derived."""
        if name == "key":
            return TEXT
        if name in self.definitions:
            return self.definitions[name].kind
        if name in self.inputs:
            found = self.inputs[name]
            return Kind(found.type, found.unit, found.show)
        raise DefinitionError(f"{self.name} has no column {name}")

    def link_to(self, parent: Table) -> str:
        """The column by which rows of this table point to ``parent``; a derived one comes first."""
        names = [name for name, target in self.links.items() if target == parent.name]
        derived = [name for name in names if name in self.definitions]
        chosen = derived or names
        if len(chosen) != 1:
            raise DefinitionError(f"{self.name} points to {parent.name} by {chosen or 'nothing'}")
        return chosen[0]


def constant(name: str, value: float, unit: Unit, label: str, source: str) -> Constant:
    """A named number with its source: a cell of its own in the workbook."""
    return Constant("number", unit, name, value, label, source)


SMALLEST = constant(
    "smallest", 1e-9, ONE, "Difference that counts as none",
    "a convention of this workbook: far below what a scale shows, far above a computer's rounding",
)  # fmt: skip
TEXT_PLACES = constant(
    "text_places", 6, ONE, "Places of a number that becomes part of an id",
    "a convention of this workbook",
)  # fmt: skip
PLACES = constant(
    "places", 9, ONE, "Places a quotient is rounded to before it is rounded up",
    "a convention of this workbook: 1.1 × 1.1 ÷ 1.21 must count as 1",
)  # fmt: skip
