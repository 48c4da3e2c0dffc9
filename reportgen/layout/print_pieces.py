"""What of a sheet is printed, and what belongs together there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from math import fsum

from reportgen.layout.blocks import ChartBlock, LegendBlock, TableBlock
from reportgen.layout.page import Page, Piece
from reportgen.layout.paging import reached
from reportgen.layout.placing import Placed

_POINTS = 5.2
"""Of a digit's width, a little low, so that a chart is surely within its columns."""
_CM = 72 / 2.54
_LEAST, _ROUNDING = 1.5, 0.01


def pieces(page: Page, placed: Sequence[Placed]) -> Iterator[Piece]:
    """The printed pieces of a page, from the top."""
    if not placed:
        return
    tops = [1, *(each.top for each in placed[1:]), placed[-1].last + 1]
    for each, (first, stop) in zip(placed, pairwise(tops), strict=True):
        match each.block:
            case TableBlock():
                groups = [len(group.names) for group in each.columns if group.printed]
                ends = tuple(accumulate(groups))
                if each.printed:
                    foot = each.last - 1 if each.block.note else 0
                    head = each.first - 3
                    yield Piece(first, stop - 1, ends[-1], ends, head, foot, each.fresh)
            case ChartBlock():
                yield from _charts(page, first, stop - 1, each.fresh)
            case LegendBlock(printed=False):
                pass
            case _:
                yield Piece(first, stop - 1, page.columns(first, stop - 1), fresh=each.fresh)


def keep_apart(page: Page, placed: Sequence[Placed]) -> None:
    """Make the column between what is printed and what is for the screen alone so wide that no
    printed text or chart reaches beyond it."""
    page.margin = max(each.margin for each in placed if each.behind)
    before = fsum(page.width(column) for column in range(1, page.margin))
    texts = [end for each in pieces(page, placed) for _, end in reached(page, each)]
    charts = [chart.width_cm * _CM / _POINTS for chart in page.charts]
    needed = max([*texts, *charts], default=0.0) - before
    page.widths[page.margin] = round(max(needed, _LEAST) + _ROUNDING, 2)


def _charts(page: Page, first: int, last: int, fresh: bool) -> Iterator[Piece]:
    """Each chart in one piece."""
    found = {int(chart.anchor[1:]): chart for chart in page.charts}
    rows = sorted(row for row in found if first <= row <= last)
    starts = [first, *rows[1:], last + 1]
    for row, (start, stop) in zip(rows, pairwise(starts), strict=False):
        across = _across(page, found[row].width_cm)
        yield Piece(start, stop - 1, across, fresh=fresh and start == first)
    if not rows and first <= last:
        yield Piece(first, last, 1, fresh=fresh)


def _across(page: Page, width: float) -> int:
    """How many columns a chart lies over."""
    column, left = 0, width * _CM
    while left > 0:
        column += 1
        left -= page.width(column) * _POINTS
    return column
