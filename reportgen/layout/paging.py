"""How a sheet is printed: how large, what on which sheet of paper.

Every sheet says its scale, the ranges that are printed and where they break, so that all programs
print the same pages. Nothing is printed larger than it is, nor so small that it cannot be read:
what is too wide is parted between groups of columns.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate
from typing import Literal, NamedTuple

from reportgen.layout import look
from reportgen.layout.column_widths import runs_over
from reportgen.layout.heights import Height, page_heights
from reportgen.layout.page import Page, Piece
from reportgen.layout.text_width import digits

MARGIN, FOOT = 0.5, 0.7
"""Inches; wide enough for home printers."""
_PAPER = {"letter": (8.5, 11.0), "a4": (210 / 25.4, 297 / 25.4)}
"""Inches: ANSI/ASME Y14.1 A, ISO 216."""
_DIGIT = 5.6
"""Points of a digit's width at full size, a little high."""
_WHOLE, _READABLE, _SMALLEST = 100, 70, 60
"""Percent: never larger; columns are parted rather than smaller; only what cannot be parted, or is
to be small."""
_TINY = 40
"""What is asked to be on one page."""
_SLACK = 0.985
"""The share of a page that is filled: programs round heights and widths their own way."""
_WORTH = 6
"""Rows of a long table that are worth beginning it on a page that is partly full."""


Columns = tuple[int, int]
"""The first and the last."""


class Area(NamedTuple):
    """A range that is printed, rows and columns included."""

    first_row: int
    last_row: int
    first_column: int
    last_column: int


class Paging(NamedTuple):
    """How a sheet is printed."""

    scale: int
    """Percent."""
    areas: list[Area]
    breaks: list[int]
    """Rows that begin a new page."""
    title_rows: tuple[int, int]
    repeats_key: bool
    """The first column stands on every page."""
    heights: Sequence[Height | None]
    """Of each row, on screen and on paper."""

    @property
    def pages(self) -> int:
        """Sheets of paper."""
        return sum(
            1 + sum(area.first_row < row <= area.last_row for row in self.breaks)
            for area in self.areas
        )


def paging(page: Page, paper: Literal["letter", "a4"]) -> Paging:
    """How a sheet is printed on a paper."""
    return _Printer(page, paper).paging()


class _Printer:
    def __init__(self, page: Page, paper: str) -> None:
        self.page = page
        self.heights = page_heights(page)
        last = max([len(self.heights), *(piece.last for piece in page.pieces), page.title_rows[1]])
        tall = [each.points if each else look.ROW_HEIGHT for each in self.heights]
        tall += [look.ROW_HEIGHT] * (last - len(tall))
        self.ends = [0.0, *accumulate(tall)]
        """Where each row ends, in points from the top; what stands above the first is 0."""
        across, down = _PAPER[paper]
        if page.landscape:
            across, down = down, across
        self.across = (across - 2 * MARGIN) * 72 * _SLACK
        self.down = (down - MARGIN - FOOT) * 72 * _SLACK
        pieces = page.pieces or [self._whole()]
        beyond = max(_MOST_COLUMNS, *(piece.columns for piece in pieces)) + 1
        self.right = [0.0, *accumulate(page.width(1 + column) for column in range(beyond))]
        """Where each column ends, in digits from the left edge."""
        self.pieces = [_wide_enough(page, piece, self.right) for piece in pieces]

    def _whole(self) -> Piece:
        last = max((s.column for band in self.page.bands for s in band.strips), default=1)
        return Piece(1, len(self.ends) - 1, last)

    def paging(self) -> Paging:
        """The fewest pages at a scale that reads well, and the largest such scale."""
        found: list[Paging] = []
        for scale in range(_WHOLE, _SMALLEST - 1, -1):
            if found and scale < _READABLE and not self.page.small:
                break
            parts = self._all_parted(scale)
            if parts is not None:
                found.append(self._at(scale, parts))
        if not found:
            alone = {piece: [(1, piece.columns)] for piece in self.pieces}
            found = [self._at(_SMALLEST, alone)]
        while self.page.one_page and found[-1].pages > 1 and found[-1].scale > _TINY:
            scale = found[-1].scale - 1
            found.append(self._at(scale, self._all_parted(scale) or {}))
        return min(found, key=lambda each: (each.pages, -each.scale))

    def _at(self, scale: int, parts: Mapping[Piece, Sequence[Columns]]) -> Paging:
        titles = self.page.title_rows
        parted = any(len(each) > 1 for each in parts.values())
        if parted and titles[0] == 1:
            titles = (0, 0)
        areas: list[Area] = []
        breaks: list[int] = []
        for run in self._runs(parts):
            breaks += self._breaks(run, scale, titles)
            first, last = run[0].first, run[-1].last
            if len(parts[run[0]]) == 1:
                areas.append(Area(first, last, 1, max(piece.columns for piece in run)))
                continue
            for left, right in parts[run[0]]:
                top = first if left == 1 else run[0].head or first
                bottom = last if left == 1 else run[0].foot or last
                areas.append(Area(top, bottom, left, right))
        return Paging(scale, areas, breaks, titles, parted, self.heights)

    # --- across -----------------------------------------------------------------------

    def _all_parted(self, scale: int) -> dict[Piece, list[Columns]] | None:
        found = {}
        for piece in self.pieces:
            parts = self._parted(piece, scale)
            if parts is None:
                return None
            found[piece] = parts
        return found

    def _width(self, first: int, last: int) -> float:
        return (self.right[last] - self.right[first - 1]) * _DIGIT

    def _parted(self, piece: Piece, scale: int) -> list[Columns] | None:
        """First and last column of each part; None where something does not fit."""
        room = self.across * 100 / scale
        if self._width(1, piece.columns) <= room:
            return [(1, piece.columns)]
        if not piece.parts:
            return None
        found: list[Columns] = []
        first = at = 1
        for last in self._cuts(piece, room):
            if self._room_taken(first, last) > room:
                if at == first:
                    return None
                found.append((first, at - 1))
                first = at
                if self._room_taken(first, last) > room:
                    return None
            at = last + 1
        return [*found, (first, piece.columns)]

    def _cuts(self, piece: Piece, room: float) -> Iterator[int]:
        """Where it may be parted: between groups, and in one that is too wide for a page."""
        first = 1
        for last in piece.parts:
            if self._room_taken(first, last) > room:
                yield from range(first, last)
            yield last
            first = last + 1
        if first <= piece.columns:
            yield piece.columns

    def _room_taken(self, first: int, last: int) -> float:
        return self._width(first, last) + (self._width(1, 1) if first > 1 else 0)

    # --- down -------------------------------------------------------------------------

    def _runs(self, parts: Mapping[Piece, Sequence[Columns]]) -> Iterator[list[Piece]]:
        """Pieces that share pages: those in one part, as they follow each other."""
        run: list[Piece] = []
        for piece in self.pieces:
            alone = len(parts[piece]) > 1
            apart = bool(run) and piece.first > run[-1].last + 1
            if run and (alone or apart or len(parts[run[0]]) > 1):
                yield run
                run = []
            run.append(piece)
        if run:
            yield run

    def _height(self, first: int, last: int) -> float:
        return self.ends[last] - self.ends[first - 1]

    def _breaks(self, run: Sequence[Piece], scale: int, titles: tuple[int, int]) -> Iterator[int]:
        """Rows that begin a new page, but the first of the run."""
        room = self.down * 100 / scale
        repeated = self._height(*titles) if titles[0] else 0.0
        left = room - (repeated if run[0].first > titles[1] else 0.0)
        for piece in run:
            needed = self._height(piece.first, piece.last)
            begun = self._height(piece.first, min(piece.first + _WORTH, piece.last))
            wanted = needed if needed <= room - repeated else begun
            if piece is not run[0] and (piece.fresh or wanted > left):
                yield piece.first
                left = room - repeated
            row = piece.first
            while self._height(row, piece.last) > left:
                fits = bisect_right(self.ends, self.ends[row - 1] + left) - 1
                row = max(fits, row) + 1
                if row > piece.last:
                    break
                yield row
                left = room - (repeated if row > titles[1] else 0.0)
            left -= self._height(min(row, piece.last), piece.last)


_MOST_COLUMNS = 200
"""How far texts may run."""
_LOOSE, _BESIDE = 1.02, 2.0
"""What a text takes more than its letters say, in its width and beside it."""


def _wide_enough(page: Page, piece: Piece, right: Sequence[float]) -> Piece:
    """The piece with all columns that its texts run over, and parted only past its titles."""
    far, beside = piece.columns, 1
    for start, end in reached(page, piece):
        column = bisect_left(right, end, 1)
        far = max(far, column)
        beside = max(beside, column if start == 1 else 1)
    parts = tuple(last for last in piece.parts if last >= beside)
    return piece._replace(columns=far, parts=parts)


def reached(page: Page, piece: Piece) -> Iterator[tuple[int, float]]:
    """Where each text of a piece begins that runs over its neighbours, and the digits from the
    sheet's edge to its end."""
    starts = [0.0, *accumulate(page.width(c + 1) for c in range(piece.columns))]
    for band in page.bands:
        if band.rows > 1 or not piece.first <= band.first <= piece.last:
            continue
        for strip in band.strips:
            text = strip.values[0]
            if strip.column > piece.columns or not runs_over(strip.style):
                continue
            if page.width(strip.column) == 0:
                continue  # folded: its texts are out of sight, too
            if isinstance(text, str):
                face = look.FACES[strip.style.role]
                wide = digits(text, face.size, face.bold) * _LOOSE + _BESIDE
                yield strip.column, starts[strip.column - 1] + wide
