"""The least height of letters."""

from __future__ import annotations

from fractions import Fraction

import pytest

from reportgen.labels.type_size import O_HEIGHT, SMALLEST, net_weight, points


@pytest.mark.parametrize(
    ("area", "sixteenths"),
    [
        # 21 CFR 101.7(i)(1) to (4): square inches of the principal display panel, least height of
        # the net weight's letters. Bounds belong to the smaller letters.
        ("0.5", 1), ("5", 1), ("5.01", 2), ("25", 2), ("25.01", 3), ("100", 3), ("100.01", 4),
        ("400", 4), ("400.01", 8),
    ],
)  # fmt: skip
def test_net_weight_by_area(area: str, sixteenths: int) -> None:
    assert net_weight(Fraction(area)) == Fraction(sixteenths, 16)


def test_all_else_is_a_sixteenth_of_an_inch() -> None:
    # 21 CFR 101.2(c); measured on the letter o, 101.7(h)(2).
    assert Fraction(SMALLEST) * O_HEIGHT / 72 >= Fraction(1, 16)
    assert SMALLEST == 9


def test_points_are_not_less_than_the_height_asks_for() -> None:
    for sixteenths in (1, 2, 3, 4, 8):
        height = Fraction(sixteenths, 16)
        assert 0 <= points(height) * O_HEIGHT / 72 - height < Fraction(1, 250)
