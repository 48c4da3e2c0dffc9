"""Label sheets: equal labels in a grid on a page, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from reportgen.labels.type_size import INCH

PAPERS = {
    "letter": (Fraction(17, 2) * INCH, 11 * INCH),
    "a4": (Fraction(210), Fraction(297)),
}
"""Width and height (ANSI/ASME Y14.1 size A; ISO 216)."""

EDGE = Fraction(5)
"""What most printers cannot print on at each edge of the page: common practice, no source."""


@dataclass(frozen=True)
class LabelSheet:
    """Labels of ``width`` by ``height`` in ``columns`` and ``rows``; ``left`` and ``top`` are the
    margins before the first, ``across`` and ``down`` the gaps between two."""

    name: str
    page: tuple[Fraction, Fraction]
    columns: int
    rows: int
    width: Fraction
    height: Fraction
    left: Fraction
    top: Fraction
    across: Fraction
    down: Fraction

    @property
    def count(self) -> int:
        """Labels on one."""
        return self.columns * self.rows

    def place(self, number: int) -> tuple[Fraction, Fraction]:
        """Left and top edge of a label; they count from 0, along the rows."""
        row, column = divmod(number, self.columns)
        return (
            self.left + column * (self.width + self.across),
            self.top + row * (self.height + self.down),
        )

    @property
    def pad(self) -> Fraction:
        """White inside a label's edge, for printers that are a little off."""
        return Fraction(5, 2) if self.height >= 50 else Fraction(3, 2)

    @property
    def fits(self) -> bool:
        """Whether all labels lie on the page."""
        right, bottom = self.place(self.count - 1)
        wide, high = self.page
        on_page = right + self.width <= wide and bottom + self.height <= high
        return on_page and min(self.left, self.top, self.across, self.down) >= 0


def size_text(sheet: LabelSheet) -> str:
    """``102x85``: the label's size in whole millimetres."""
    return f"{round(sheet.width)}x{round(sheet.height)}"


def _known(paper: str, grid: str, size: str, margin: str, gap: str) -> LabelSheet:
    columns, rows = map(int, grid.split("x"))
    unit = INCH if paper == "letter" else Fraction(1)
    width, height, left, top, across, down = (
        Fraction(each) * unit for pair in (size, margin, gap) for each in pair.split()
    )
    made = LabelSheet("", PAPERS[paper], columns, rows, width, height, left, top, across, down)
    return replace(made, name=f"{paper}-{grid}-{size_text(made)}")


KNOWN = {
    sheet.name: sheet
    for sheet in (
        # In inches. Common practice, no source: measure the sheet at hand.
        _known("letter", "2x3", "4 10/3", "5/32 1/2", "3/16 0"),
        _known("letter", "2x2", "4 5", "5/32 1/2", "3/16 0"),
        _known("letter", "2x5", "4 2", "5/32 1/2", "3/16 0"),
        _known("letter", "2x7", "4 4/3", "5/32 5/6", "3/16 0"),
        _known("letter", "3x10", "21/8 1", "3/16 1/2", "1/8 0"),
        # In millimetres.
        _known("a4", "2x3", "99.1 93.1", "4.65 8.85", "2.5 0"),
        _known("a4", "2x2", "99.1 139", "4.65 9.5", "2.5 0"),
        _known("a4", "2x4", "99.1 67.7", "4.65 13.1", "2.5 0"),
        _known("a4", "2x5", "99.1 57", "4.65 6", "2.5 0"),
        _known("a4", "2x7", "99.1 38.1", "4.65 15.15", "2.5 0"),
        _known("a4", "3x7", "63.5 38.1", "7.25 15.15", "2.5 0"),
        _known("a4", "3x8", "70 37", "0 0.5", "0 0"),
    )
}
"""Sheets that are common, by paper, grid and size of a label."""
USUAL = {
    "letter": ("letter-2x3-102x85", "letter-2x2-102x127"),
    "a4": ("a4-2x3-99x93", "a4-2x2-99x139"),
}
"""What is taken where no sheet is named: the first that holds the texts."""


def laid_out(
    page: tuple[Fraction, Fraction],
    size: tuple[Fraction, Fraction],
    grid: tuple[int, int] | None = None,
    margin: tuple[Fraction, Fraction] | None = None,
    gap: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0)),
) -> LabelSheet | None:
    """A sheet of any size: as many labels as the page holds, and in its middle, where nothing
    else is said. None where not one fits; see :attr:`LabelSheet.fits` for a grid that does not."""
    counts: list[int] = []
    edges: list[Fraction] = []
    for side in (0, 1):
        edge = EDGE if margin is None else margin[side]
        step = size[side] + gap[side]
        room = page[side] - 2 * edge + gap[side]
        count = grid[side] if grid else int(room // step)
        if count < 1:
            return None
        spare = page[side] - (count * step - gap[side])
        counts.append(count)
        edges.append(spare / 2 if margin is None else edge)
    (columns, rows), (left, top) = counts, edges
    return LabelSheet("", page, columns, rows, *size, left, top, *gap)
