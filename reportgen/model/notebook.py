"""A day's work as a row of a workbook: the keys of the short form as columns.

Nobody writes this table in a file. Each of its columns belongs to an input of the four records that
a file of the short form stands for; what is typed there is written as such a file.
"""

from __future__ import annotations

from dataclasses import replace

from reportgen.algebra.inputs import Input
from reportgen.model.records import RECORDS

NAME = "notebook"

PLACES: dict[str, tuple[str, str]] = {
    "product": ("lots", "product"),
    "date": ("lots", "date"),
    "count": ("lots", "count"),
    "container": ("lots", "container"),
    "price": ("lots", "price_each"),
    "weighed": ("lots", "weighed"),
    "prepped": ("lots", "prepped_weighed"),
    "wet": ("loads", "wet"),
    "dryer": ("runs", "dryer"),
    "started": ("runs", "started"),
    "hours": ("runs", "duration"),
    "meter_from": ("runs", "meter_from"),
    "meter_to": ("runs", "meter_to"),
    "dry": ("loads", "dry"),
    "weighing_before": ("loads", "weighing_before"),
    "weighing_last": ("loads", "weighing_last"),
    "packed": ("packs", "count"),
    "packed_in": ("packs", "container"),
    "net": ("packs", "net"),
    "note": ("lots", "note"),
}
"""Each column, and the record and input that it belongs to."""

_DOCS = {
    "price": "Price of one container; without a container, of all.",
    "started": "When the dryer was started.",
    "packed": "How many containers were filled.",
    "packed_in": "The container they were packed in.",
}
_HEADS = {
    "date": "day", "count": "bought: count", "container": "bought: container",
    "price": "bought: price", "packed": "packed: count", "packed_in": "packed: container",
    "net": "packed: net weight of each",
}  # fmt: skip


def place_of(name: str) -> Input:
    """The input that a column belongs to."""
    table, column = PLACES[name]
    return next(each for each in RECORDS[table].inputs if each.name == column)


def _column(name: str) -> Input:
    found = place_of(name)
    return replace(
        found, name=name, doc=_DOCS.get(name, found.doc), head=_HEADS.get(name, ""),
        zero=False, one=False, about="",
    )  # fmt: skip


INPUTS: tuple[Input, ...] = tuple(map(_column, PLACES))
"""The columns of the table."""
