"""What expressions give: arithmetic, choices, comparisons with their tolerance, rounding up."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from algebra.toy import one_row
from reportgen.algebra.functions import (
    first_known,
    greatest,
    join,
    known,
    least,
    round_up,
    size,
    square_root,
    unknown,
    where,
)
from reportgen.algebra.operations import rounded_half_away
from reportgen.algebra.tables import FLAG, TEXT
from reportgen.units import ONE

FEW = st.floats(-1e6, 1e6, allow_nan=False).filter(lambda x: x == 0 or abs(x) > 1e-6)


@given(FEW, FEW, FEW)
def test_arithmetic_is_that_of_python(x: float, y: float, z: float) -> None:
    assert one_row(ONE, lambda x, y, z: (x - y) * z + x, x=x, y=y, z=z) == (x - y) * z + x
    assert one_row(ONE, lambda x, y, z: x - (y - z), x=x, y=y, z=z) == x - (y - z)
    assert one_row(ONE, lambda x, y: x / y, x=x, y=y) == (x / y if y else None)


@pytest.mark.parametrize(
    ("divisor", "value"),
    [
        # A quotient whose divisor is 0 is unknown; one that was written down is 0 or is not.
        (0.0, None),
        (1e-12, 1e12),
        (-4.0, -0.25),
    ],
)
def test_a_quotient(divisor: float, value: float | None) -> None:
    assert one_row(ONE, lambda d: 1 / d, d=divisor) == value


def test_a_divisor_that_was_worked_out_is_nothing_when_it_is_only_rounding() -> None:
    # 0.1 + 0.2 - 0.3 is 5.6e-17 for a computer and 0 for everyone else.
    assert one_row(ONE, lambda a, b, c: 1 / (a + b - c), a=0.1, b=0.2, c=0.3) is None
    assert one_row(ONE, lambda a, b: 1 / (a - b), a=0.3, b=0.3 - 1e-6) == pytest.approx(1e6)


@pytest.mark.parametrize(
    ("op", "at"),
    [
        # (difference to the other amount, holds): amounts within 1e-9 are the same.
        ("<", {-1: True, -2e-9: True, -5e-10: False, 0: False, 5e-10: False, 2e-9: False}),
        ("<=", {-1: True, -2e-9: True, -5e-10: True, 0: True, 5e-10: True, 2e-9: False}),
        (">", {1: True, 2e-9: True, 5e-10: False, 0: False, -5e-10: False, -2e-9: False}),
        (">=", {1: True, 2e-9: True, 5e-10: True, 0: True, -5e-10: True, -2e-9: False}),
        ("==", {1: False, 2e-9: False, 5e-10: True, 0: True, -5e-10: True, -2e-9: False}),
        ("!=", {1: True, 2e-9: True, 5e-10: False, 0: False, -5e-10: False, -2e-9: True}),
    ],
)
def test_comparisons_take_close_amounts_for_the_same(op: str, at: dict[float, bool]) -> None:
    bodies: dict[str, Any] = {
        "<": lambda a, b: a < b, "<=": lambda a, b: a <= b, ">": lambda a, b: a > b,
        ">=": lambda a, b: a >= b, "==": lambda a, b: a == b, "!=": lambda a, b: a != b,
    }  # fmt: skip
    for base, (off, holds) in product((0.0, 1.0, -0.75), at.items()):
        assert one_row(FLAG, bodies[op], a=base + off, b=base) is holds, (op, base, off)


# The step and the result are exact decimals; a quotient a hair above a whole number, by nothing
# but binary rounding, counts as that number.
@pytest.mark.parametrize(
    ("value", "step", "up"),
    [
        (1.1 * 1.1, 1.21, 1.21),  # the quotient is 1.0000000000000002
        (0.3, 0.1, 0.3),  # 2.9999999999999996
        (0.1 + 0.2, 0.1, 0.3),  # 3.0000000000000004
        (7.3, 0.25, 7.5),
        (7.5, 0.25, 7.5),
        (7.51, 0.25, 7.75),
        (0.01, 0.25, 0.25),
        (0.0, 0.25, 0.0),
        (2.000000001, 1.0, 3.0),
        (2.0000000001, 1.0, 2.0),  # beyond the ninth place
        (-7.3, 0.25, -7.5),  # away from zero, as a sheet's ROUNDUP
        (5.0, 0.0, None),
        (None, 1.0, None),
        (5.0, None, None),
    ],
)
def test_rounding_up(value: float | None, step: float | None, up: float | None) -> None:
    found = one_row(ONE, lambda value, step: round_up(value, step), value=value, step=step)
    assert found == (None if up is None else pytest.approx(up, rel=1e-12, abs=0))


@given(st.integers(0, 10**7), st.sampled_from([1, 5, 25, 50, 100]))
def test_rounding_up_cents_is_exact(cents: int, step: int) -> None:
    found = one_row(
        ONE, lambda value, step: round_up(value, step), value=cents / 100, step=step / 100
    )
    assert found == pytest.approx(float(Fraction(-(-cents // step) * step, 100)), rel=1e-15)


@pytest.mark.parametrize(
    ("number", "places", "rounded"),
    [
        # Half goes away from zero, on the digits that are shown: OpenFormula 1.2, ROUND.
        (2.5, 0, 3.0),
        (-2.5, 0, -3.0),
        (0.5, 0, 1.0),
        (1.005, 2, 1.01),
        (2.675, 2, 2.68),
        (1.0000000004999, 9, 1.0),
        (1.0000000005, 9, 1.000000001),
    ],
)
def test_rounding_is_that_of_a_sheet(number: float, places: int, rounded: float) -> None:
    assert float(rounded_half_away(number, places)) == rounded


def test_choices_ask_for_the_branch_they_take() -> None:
    def chosen(c: Any, a: Any, b: Any) -> Any:
        return where(c > 0, a, b)

    assert one_row(ONE, chosen, c=1.0, a=2.0, b=None) == 2.0
    assert one_row(ONE, chosen, c=0.0, a=2.0, b=None) is None
    assert one_row(ONE, chosen, c=0.0, a=None, b=3.0) == 3.0
    assert one_row(ONE, chosen, c=None, a=2.0, b=3.0) is None


def test_the_first_known_option_counts() -> None:
    def best(a: Any, b: Any, c: Any) -> Any:
        return first_known(a, b / c, c)

    assert one_row(ONE, best, a=1.0, b=None, c=None) == 1.0
    assert one_row(ONE, best, a=None, b=6.0, c=3.0) == 2.0
    assert one_row(ONE, best, a=None, b=None, c=3.0) == 3.0
    assert one_row(ONE, best, a=None, b=6.0, c=0.0) == 0.0
    assert one_row(ONE, best, a=None, b=6.0, c=None) is None
    assert one_row(ONE, best, a=0.0, b=6.0, c=3.0) == 0.0, "0 is known"


def test_unknown_is_not_zero() -> None:
    assert one_row(ONE, lambda a, b: a + b, a=None, b=1.0) is None
    assert one_row(ONE, lambda a, b: a * b, a=None, b=0.0) is None
    assert one_row(ONE, lambda a, b: least(a, b), a=None, b=1.0) is None
    assert one_row(FLAG, lambda a, b: a > b, a=None, b=1.0) is None
    assert one_row(FLAG, lambda a, b: (a > b) & (b > 1), a=None, b=1.0) is None
    assert one_row(ONE, lambda a: where(a > 1, unknown(), a), a=2.0) is None


def test_whether_something_is_known_is_always_known() -> None:
    assert one_row(FLAG, lambda a: known(a), a=None) is False
    assert one_row(FLAG, lambda a: known(a), a=0.0) is True
    assert one_row(FLAG, lambda a, b: known(a / b), a=1.0, b=0.0) is False
    assert one_row(FLAG, lambda a: ~known(a) & (a > 0) | ~known(a), a=None) is None


def test_functions_are_those_of_python() -> None:
    assert one_row(ONE, lambda a, b: least(a, b, 1), a=3.0, b=2.0) == 1
    assert one_row(ONE, lambda a, b: greatest(a, b), a=3.0, b=2.0) == 3
    assert one_row(ONE, lambda a, b: size(b - a), a=3.0, b=2.0) == 1
    assert one_row(ONE, lambda a: square_root(a), a=2.0) == math.sqrt(2)
    assert one_row(ONE, lambda a: square_root(a), a=-2.0) is None


def test_texts() -> None:
    assert one_row(TEXT, lambda a, b: join(a, "/", b), a="run-07", b="pears-1") == "run-07/pears-1"
    assert one_row(TEXT, lambda a, b: join(a, "/", b), a="run-07", b="") is None
    assert one_row(FLAG, lambda a: a == "stall", a="Stall") is True, "as a spreadsheet compares"
    assert one_row(FLAG, lambda a: a != "stall", a="") is True
    assert one_row(FLAG, lambda a: a == "", a="") is True
