"""Label sheets: labels inside the page, equal, and none over another."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.labels import sizes
from reportgen.labels.label_sheet import KNOWN, PAPERS, USUAL, LabelSheet, laid_out
from reportgen.read.problem import Refusal

HAIR = Fraction(1, 1000)


def check(sheet: LabelSheet) -> None:
    wide, high = sheet.page
    spots = [sheet.place(n) for n in range(sheet.count)]
    for left, top in spots:
        assert left >= 0 and top >= 0
        assert left + sheet.width <= wide + HAIR and top + sheet.height <= high + HAIR
    for (left, top), (other, below) in combinations(spots, 2):
        apart = abs(left - other) >= sheet.width - HAIR or abs(top - below) >= sheet.height - HAIR
        assert apart
    # Along the rows.
    assert spots == sorted(spots, key=lambda spot: (spot[1], spot[0]))


@pytest.mark.parametrize("name", KNOWN)
def test_known_sheets(name: str) -> None:
    sheet = KNOWN[name]
    paper, grid, size = name.split("-")
    assert sheet.page == PAPERS[paper]
    assert grid == f"{sheet.columns}x{sheet.rows}"
    assert size == f"{round(sheet.width)}x{round(sheet.height)}"
    assert sheet.fits
    check(sheet)
    # A sheet looks the same upside down, within a millimetre.
    right, bottom = sheet.place(sheet.count - 1)
    assert abs(sheet.page[0] - (right + sheet.width) - sheet.left) < 1
    assert abs(sheet.page[1] - (bottom + sheet.height) - sheet.top) < 1


def test_papers_are_the_standards() -> None:
    # ANSI/ASME Y14.1 size A is 8.5 by 11 inches; ISO 216 A4 is 210 by 297 mm.
    assert [*map(float, PAPERS["letter"])] == [215.9, 279.4]
    assert PAPERS["a4"] == (210, 297)
    assert all(name in KNOWN for names in USUAL.values() for name in names)


LENGTHS = st.integers(250, 3000).map(lambda tenths: Fraction(tenths, 10))
GAPS = st.integers(0, 100).map(lambda tenths: Fraction(tenths, 10))


@given(
    st.sampled_from(sorted(PAPERS)), st.tuples(LENGTHS, LENGTHS), st.tuples(GAPS, GAPS),
    st.none() | st.tuples(GAPS, GAPS), st.none() | st.tuples(st.integers(1, 9), st.integers(1, 30)),
)  # fmt: skip
def test_any_size(
    paper: str, size: tuple[Fraction, Fraction], gap: tuple[Fraction, Fraction],
    margin: tuple[Fraction, Fraction] | None, grid: tuple[int, int] | None,
) -> None:  # fmt: skip
    sheet = laid_out(PAPERS[paper], size, grid, margin, gap)
    if sheet is None:
        assert grid is None
        return
    assert (sheet.width, sheet.height, sheet.across, sheet.down) == (*size, *gap)
    if grid is None:
        # As many as there is room for, and never one beyond the page.
        assert margin is not None or sheet.fits
    if sheet.fits:
        check(sheet)


def test_what_is_typed() -> None:
    assert sizes.pair("99.1x38.1") == (Fraction("99.1"), Fraction("38.1"))
    assert sizes.pair("4 x 2 in") == (Fraction("101.6"), Fraction("50.8"))
    assert sizes.area("54in2") == 54
    # 6.4516 cm2 are a square inch, exactly.
    assert sizes.area("6.4516cm2") == 1
    assert sizes.grid("2x7") == (2, 7)


@pytest.mark.parametrize("text", ["", "99", "x", "-1x2", "1e3x2", "99x38x2", "99x38 lb", "9" * 99])
def test_what_is_no_size(text: str) -> None:
    for reader in (sizes.pair, sizes.area, sizes.grid):
        with pytest.raises(Refusal):
            reader(text)
