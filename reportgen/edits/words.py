"""The program's own texts in a returned workbook: those that were typed over, and what was written
where nothing is to be typed. They are told and never taken; a unit decides what figures mean."""

from __future__ import annotations

from bisect import bisect
from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial

from reportgen.edits.differences import WORDS, Change
from reportgen.edits.found import FoundTable, folded, place_of
from reportgen.edits.memory import Memory
from reportgen.layout import row_marks
from reportgen.returned.cells import Sheet, Value, Workbook

Place = tuple[int, int]
"""Row and column."""


@dataclass
class Known:
    """What of a workbook is looked at otherwise: the rows and columns of tables, and single cells,
    by sheet. On a sheet in ``lost`` a table could not be found, so nobody knows where it ends."""

    tables: dict[str, list[tuple[range, Collection[int]]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    cells: dict[str, set[Place]] = field(default_factory=lambda: defaultdict(set))
    lost: set[str] = field(default_factory=set)

    def has(self, sheet: str, at: Place) -> bool:
        """Whether a cell is one of them."""
        row, column = at
        return at in self.cells[sheet] or any(
            row in rows and column in columns for rows, columns in self.tables[sheet]
        )


def typed_over(workbook: Workbook, memory: Memory, known: Known) -> Iterator[Change]:
    """Texts that do not stand where they stood, and what stands there now; and those that stand
    where there was none."""
    by_title = {folded(sheet.text(1, 1)): sheet for sheet in workbook}
    by_name = {sheet.name: sheet for sheet in workbook}
    for name, built in memory.said.items():
        sheet = by_name.get(name) or by_title.get(folded(built.get((1, 1), name)))
        if sheet is not None:
            yield from _on_sheet(sheet, built, known)


def _on_sheet(sheet: Sheet, built: Mapping[Place, str], known: Known) -> Iterator[Change]:
    stands = {
        at: cell.value
        for at, cell in sheet.cells()
        if isinstance(cell.value, str)
        and not cell.formula
        and cell.value.strip()
        and row_marks.read(cell.value) is None
        and not known.has(sheet.name, at)
    }
    if stands == built:  # as on nearly all sheets
        return
    gone, new = dict(built), stands
    places = _Places(_found(gone, new, by=_alone))
    _found(gone, new, by=partial(_as_its_neighbours, places))
    _found(gone, new, by=_anywhere)
    for at, was in sorted(gone.items()):
        place = places.now(at, new)
        new.pop(place, None)
        cell = sheet.cell(*place)
        yield _told(sheet, place, was, cell.value if cell is not None else None)
    if sheet.name not in known.lost:
        for at, text in sorted(new.items()):
            yield _told(sheet, at, None, text)


Texts = Mapping[Place, str]


def _found(
    gone: dict[Place, str], new: dict[Place, str], by: Callable[[Texts, Texts], dict[Place, Place]]
) -> dict[Place, Place]:
    """Texts that still stand on their sheet: from where, to where. They are taken away from what is
    gone and what is new."""
    found = by(gone, new)
    for place, to in found.items():
        del gone[place], new[to]
    return found


def _alone(gone: Texts, new: Texts) -> dict[Place, Place]:
    """Those of which there is one only."""
    olds, news = (_by_text(each) for each in (gone, new))
    return {
        places[0]: news[text][0]
        for text, places in olds.items()
        if len(places) == len(news.get(text, ())) == 1
    }


def _as_its_neighbours(places: _Places, gone: Texts, new: Texts) -> dict[Place, Place]:
    """Those that moved as the texts next to them did."""
    found = {at: places.now(at, new) for at in gone}
    taken = {to: at for at, to in found.items() if _same(gone[at], new.get(to))}
    return {at: to for to, at in taken.items()}


def _anywhere(gone: Texts, new: Texts) -> dict[Place, Place]:
    """All others, in their order."""
    news = _by_text(new)
    return {
        at: to
        for text, places in _by_text(gone).items()
        for at, to in zip(places, news.get(text, ()), strict=False)
    }


def _by_text(texts: Texts) -> dict[str, list[Place]]:
    found: dict[str, list[Place]] = defaultdict(list)
    for at, text in sorted(texts.items()):
        found[folded(text)].append(at)
    return found


class _Places:
    """Where a place of the workbook as built is now, by the texts next to it that still stand."""

    def __init__(self, moved: Mapping[Place, Place]) -> None:
        self._moved, self._order = moved, sorted(moved)

    def now(self, at: Place, among: Collection[Place]) -> Place:
        """The place that moved as the text before it did or the one after it; one of these, if it
        can be."""
        index = bisect(self._order, at)
        found = []
        for row, column in self._order[max(0, index - 1) : index + 1]:
            to_row, to_column = self._moved[row, column]
            found.append((at[0] + to_row - row, at[1] + to_column - column))
        found = [(max(1, row), max(1, column)) for row, column in found] or [at]
        return next((each for each in found if each in among), found[0])


def units_typed_over(found: FoundTable, memory: Memory) -> dict[str, tuple[Place, str, str]]:
    """The columns of a table below whose headings another unit stands than they were built with:
    where, what was built, what stands there now."""
    row = found.head + 1
    changed = {}
    for heading in memory.columns[found.table]:
        at = row, found.columns[heading.name]
        now = found.sheet.text(*at)
        if now and not _same(heading.unit, now):
            changed[heading.name] = at, heading.unit, now
    return changed


def unit_beside(sheet: Sheet, at: Place, unit: str) -> tuple[Place, str, str] | None:
    """Where another unit stands behind a single figure than it was built with."""
    row, column = at
    now = sheet.text(row, column + 1)
    said = {folded(sheet.text(*place)) for place, _ in sheet.cells_of(row)}
    return ((row, column + 1), unit, now) if now and unit and folded(unit) not in said else None


def _same(text: str, other: str | None) -> bool:
    return other is not None and folded(text) == folded(other)


def _told(sheet: Sheet, at: Place, was: str | None, now: Value) -> Change:
    place = place_of(sheet.name, *at).rpartition("!")[2]
    return Change("overwritten", "", "", WORDS, sheet.name, place, built=was, edited=now)
