"""What stands above a column, and how its cells look."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from reportgen.algebra.blocks import Helper
from reportgen.algebra.phrases import Phrase, joined, phrase
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
        ours = all(each.fixed for each in table.inputs.values())
        one = phrase("The {one}'s id.", one=Phrase(table.one))
        if not ours:
            one = phrase("{said} A row without one is not counted.", said=one)
        text = table.definitions["key"].doc if known else one
        look: Role = "key" if known else "given" if ours else "input"
        return Head(table.one, "id", text, Kind("text"), "left", look, ANY if known else TEXT)
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
    helper = context.running.helpers.get((table.name, name))
    if helper is not None:
        return _running(context, helper)
    link = context.words.label(table, name.removesuffix("_row"))
    return Head(
        phrase("{link}: row", link=link), "count",
        phrase("In which row of its table the {link} stands.", link=link),
        COUNT, "right", "formula", "0",
    )  # fmt: skip


_HELPERS: Mapping[str, str] = {
    "rows": "{group}: rows from here", "sum": "{column} by {group}: sum from here",
    "missing": "{column} by {group}: missing from here", "count": "{group}: counted from here",
    "own": "{group}: place of its first row", "apart": "{group}: stands apart",
    "first": "{rows} by {group}: first place", "from": "{rows} by {group}: read from",
    "stood": "{rows} by {group}: first place when built",
    "strange": "{rows} by {group}: not where it was",
    "named": "{group}: row when built",
    "was": "{column} by {group}: rank when built", "before": "{column} by {group}: row before",
    "moved": "{column} by {group}: out of that order",
}  # fmt: skip


def _running(context: Context, helper: Helper) -> Head:
    """What stands above a running column."""
    child = helper.group.child
    group, rows = context.words.label(child, helper.group.link), Phrase(child.title)
    pattern, marks = _HELPERS[helper.kind], [context.words.label(child, f) for f in helper.filters]
    column = context.words.label(child, helper.column) if helper.column else ""
    label = phrase(pattern, **_named(pattern, group=group, rows=rows, column=column))
    if marks:
        label = phrase("{what} ({marks})", what=label, marks=joined("{a} and {b}", marks))
    if helper.ranks is not None:
        doc = phrase(
            "Serves a rank by {group}: while rows stand in the order of the last build, nobody "
            "counts.", group=group,
        )  # fmt: skip
    elif helper.kind in ("stood", "strange", "named"):
        doc = phrase(
            "Serves finding rows by {group}: they are looked for only where they no longer stand "
            "as in the last build.", group=group,
        )  # fmt: skip
    else:
        doc = phrase(
            "Serves totals of {rows} by {group}: rows that stand together are added up from below.",
            rows=rows, group=group,
        )  # fmt: skip
    role: Role = "given" if helper.typed else "formula"
    kind = Kind("number") if helper.kind == "sum" else COUNT
    return Head(label, "", doc, kind, "right", role, ANY if helper.kind == "sum" else "0")


def _named(pattern: str, **parts: str) -> dict[str, str]:
    return {name: part for name, part in parts.items() if f"{{{name}}}" in pattern}


def _side(kind: Kind) -> Side:
    return "left" if kind.type == "text" else "right"
