"""Columns that read back to their own right by way of another sheet, found in finished formulas.

LibreOffice 7.4 works such a column out wrong in its first row, where it works several columns out
at a time. Found by the references that the formulas hold, not by what the layout knows.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from graphlib import TopologicalSorter
from typing import NamedTuple

from openpyxl.utils import column_index_from_string, get_column_letter

from reportgen.algebra.places import ROW
from reportgen.layout.page import Page


class Group(NamedTuple):
    """The formula cells of a column in consecutive rows."""

    sheet: str
    column: int
    first: int
    last: int

    def __str__(self) -> str:
        return f"{self.sheet}!{get_column_letter(self.column)}{self.first}"


_TEXT = re.compile(r'"[^"]*"')
_REFERENCE = re.compile(
    r"(?:('(?:[^']|'')+'|[A-Za-z][A-Za-z0-9]*)!)?"
    rf"\$?([A-Z]{{1,3}})\$?(\d+|{ROW})(?::\$?([A-Z]{{1,3}})\$?(\d+))?"
)


def reading_back(pages: Sequence[Page]) -> Iterator[str]:
    """Each group of two cells or more that does, and by what it reads."""
    formulas = {
        Group(page.name, strip.column, band.first, band.first + band.rows - 1): strip.formula
        for page in pages
        for band in page.bands
        for strip in band.strips
        if strip.formula is not None
    }
    by_column: dict[tuple[str, int], list[Group]] = defaultdict(list)
    for group in formulas:
        by_column[group.sheet, group.column].append(group)
    reads = {group: set(_read(group, text, by_column)) for group, text in formulas.items()}
    order = list(TopologicalSorter(reads).static_order())
    bit = {group: 1 << at for at, group in enumerate(order)}
    leads: dict[Group, int] = {}
    for group in order:
        leads[group] = bit[group]
        for each in reads[group]:
            leads[group] |= leads[each]
    for group in order:
        if group.first == group.last:
            continue
        right = sum(
            bit[each]
            for each in formulas
            if each.sheet == group.sheet and each.column > group.column
        )
        for each in reads[group]:
            if each.sheet != group.sheet and leads[each] & right:
                yield f"{group} by {each}"


def _read(
    group: Group, formula: str, by_column: dict[tuple[str, int], list[Group]]
) -> Iterator[Group]:
    for sheet, start, first, end, last in _REFERENCE.findall(_TEXT.sub('""', formula)):
        there = sheet.strip("'").replace("''", "'") or group.sheet
        top, bottom = (
            (group.first, group.last) if first == ROW else (int(first), int(last or first))
        )
        assert end in ("", start), f"a range of several columns: {formula}"
        for each in by_column[there, column_index_from_string(start)]:
            if each.first <= bottom and each.last >= top:
                yield each
