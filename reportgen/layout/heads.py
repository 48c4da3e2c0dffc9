"""What stands above a column, and how its cells look."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from reportgen.algebra.phrases import Phrase, phrase
from reportgen.algebra.places import OWN_ROW
from reportgen.algebra.tables import COUNT, Kind, Table
from reportgen.layout.context import Context
from reportgen.layout.formats import ANY, CHECK, TEXT, input_format, number_format, unit_text
from reportgen.layout.page import Role

Side = Literal["left", "right", "center", ""]


@dataclass(frozen=True)
class Head:
    """A column's name, unit and comment, and the style of its cells."""

    label: str
    unit: str
    comment: str
    kind: Kind
    align: Side
    role: Role
    format: str


def head_of(context: Context, table: Table, name: str) -> Head:
    """What stands above a column, and how its cells look."""
    slots = context.slots
    if name == "key":
        known = "key" in table.definitions
        one = phrase("The {one}'s id.", one=Phrase(table.one))
        text = table.definitions["key"].doc if known else one
        ours = all(each.fixed for each in table.inputs.values())
        look: Role = "key" if known else "given" if ours else "input"
        return Head(
            table.one, "id", text, Kind("text"), "left", look, ANY if known else TEXT
        )  # fmt: skip
    if name in table.inputs:
        found = table.inputs[name]
        kind = table.kind_of(name)
        form = input_format(found, kind, slots)
        role: Role = "given" if found.fixed else "input"
        label = context.words.label(table, name)
        return Head(label, unit_text(kind, slots), found.doc, kind, _side(kind), role, form)
    if name in table.definitions:
        definition = table.definitions[name]
        kind = definition.kind
        comment = context.words.comment(definition)
        form, role = number_format(kind, slots), "formula"
        if definition.role == "check":
            form, role = CHECK, "check"
        unit = "check" if role == "check" else unit_text(kind, slots)
        return Head(definition.label, unit, comment, kind, _side(kind), role, form)
    if name == OWN_ROW:
        return Head(
            "row", "count", phrase("The number of the {one}'s row.", one=Phrase(table.one)),
            COUNT, "right", "formula", "0",
        )  # fmt: skip
    link = context.words.label(table, name.removesuffix("_row"))
    return Head(
        phrase("{link}: row", link=link), "count",
        phrase("In which row of its table the {link} stands.", link=link),
        COUNT, "right", "formula", "0",
    )  # fmt: skip


def _side(kind: Kind) -> Side:
    return "left" if kind.type == "text" else "right"
