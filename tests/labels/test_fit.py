"""Text is never cut off: it is measured high, and refused where there is no room."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from labels.made import labels, season
from reportgen.labels.content import Label, Line
from reportgen.labels.fit import Look, TooSmall, fit
from reportgen.labels.label_sheet import KNOWN
from reportgen.labels.measure import lines, width

SHEET = KNOWN["letter-2x2-102x127"]


@pytest.fixture(scope="module")
def label(tmp_path_factory: pytest.TempPathFactory) -> Label:
    return labels(season(tmp_path_factory.mktemp("fit") / "larch"))["P-1"]


def test_lines_by_hand() -> None:
    # Ten times the widest letters of one word to a line.
    assert lines([("aaaa bbbb cccc", False)], 4 * width("a")) == 3
    assert lines([("aaaa bbbb", False)], width("aaaa bbbb")) == 1
    assert lines([("aaaa bbbb", False)], width("aaaa bbbb") - 0.01) == 2
    assert lines([("Head:", True), ("text", False)], 100) == 1
    assert lines([("a" * 100, False)], 10 * width("a")) >= 10
    assert lines([("", False)], 5) == 1


def test_the_largest_type_that_holds(label: Label) -> None:
    look = fit([label], SHEET, 9)
    assert isinstance(look, Look) and look.body == 11
    # The panel of a large can: 54 square inches, letters of 3/16 inch, 27 points where the letter
    # o is half as high as the type.
    larger = fit([label], SHEET, 9, Fraction(54))
    assert isinstance(larger, Look)
    assert 26 <= larger.net <= 27 and larger.body <= look.body


def test_the_net_weight_follows_the_labels_own_area(label: Label) -> None:
    # 4 by 5 inches are 20 square inches: 1/8 inch.
    look = fit([label], SHEET, 9)
    assert isinstance(look, Look)
    assert look.net * 0.51 / 72 >= 1 / 8


def test_what_does_not_fit_is_refused_with_what_would(label: Label) -> None:
    found = fit([label], KNOWN["letter-3x10-67x25"], 9)
    assert isinstance(found, TooSmall)
    assert found.needs > found.room
    assert found.larger and all(name.startswith("letter") for name in found.larger)
    for name in found.larger:
        assert isinstance(fit([label], KNOWN[name], 9), Look)


def test_one_long_text_decides_for_all(label: Label) -> None:
    long = replace(label, pack="P-long", below=(Line("plain", "Ingredients", "oat bran " * 300),))
    found = fit([label, long], SHEET, 9)
    assert isinstance(found, TooSmall) and found.label.pack == "P-long" and found.larger == ()


def test_a_label_that_leaves_no_room_beside_the_code(tmp_path: Path, label: Label) -> None:
    slim = replace(SHEET, width=Fraction(25))
    assert isinstance(fit([label], slim, 9), TooSmall)
