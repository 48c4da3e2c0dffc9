"""Contrast of the hand-outs' colours by day and by night (WCAG 2.2, 1.4.3 and 1.4.11)."""

from __future__ import annotations

import pytest

from reportgen.layout.look import contrast
from reportgen.write import themes

THEMES = {"day": themes.DAY, "night": themes.NIGHT}


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize(("ink", "ground"), themes.TEXTS)
def test_texts_are_read(theme: str, ink: str, ground: str) -> None:
    assert contrast(THEMES[theme][ink], THEMES[theme][ground]) >= 4.5


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize(("edge", "ground"), themes.SHAPES)
def test_shapes_are_seen(theme: str, edge: str, ground: str) -> None:
    assert contrast(THEMES[theme][edge], THEMES[theme][ground]) >= 3


def test_both_themes_name_the_same_colours() -> None:
    assert themes.DAY.keys() == themes.NIGHT.keys()


@pytest.mark.parametrize("fill", themes.SERIES)
def test_the_number_in_a_bar_is_read_on_its_fill(fill: str) -> None:
    assert contrast(themes.on(fill), fill) >= 4.5
