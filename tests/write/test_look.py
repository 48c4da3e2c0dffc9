"""Contrast, and meaning told by more than colour.

Source: WCAG 2.2, success criteria 1.4.1, 1.4.3 (text 4.5:1) and 1.4.11 (graphics 3:1), and its
definitions of relative luminance and contrast ratio.
"""

from __future__ import annotations

import pytest

from reportgen.layout import look
from reportgen.layout.look import FACES, VERDICTS, WHITE, contrast
from reportgen.layout.page import Role, Style
from write.books import load, one_column, whole

TEXT, GRAPHIC = 4.5, 3.0


def test_the_measure_itself():
    # 21:1 and 1:1 are the ends that the definition names.
    assert contrast("000000", "FFFFFF") == pytest.approx(21)
    assert contrast("123456", "123456") == 1
    # Worked by hand from the definition: L(808080) = ((0.50196 + 0.055) / 1.055) ** 2.4 = 0.21586.
    assert contrast("808080", "FFFFFF") == pytest.approx(1.05 / 0.26586, rel=1e-4)
    # Commonly cited as the lightest grey that passes on white, and the first that fails.
    assert contrast("767676", "FFFFFF") >= TEXT > contrast("777777", "FFFFFF")


@pytest.mark.parametrize("role", FACES)
def test_every_text_is_read_on_its_ground(role):
    face = FACES[role]
    assert contrast(face.ink, face.fill or WHITE) >= TEXT


@pytest.mark.parametrize("verdict", VERDICTS)
def test_every_verdict_is_read_on_every_ground(verdict):
    found = VERDICTS[verdict]
    grounds = [found.fill] if found.fill else [WHITE, look.PAPER, look.PALE]
    for ground in grounds:
        assert contrast(found.ink, ground) >= TEXT


def test_a_written_file_keeps_the_contrast():
    """What the styles of the file say, not what the look says."""
    seen = 0
    for sheet in load(whole()):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.has_style:
                    ground = cell.fill.fgColor.rgb[2:] if cell.fill.fill_type else WHITE
                    assert contrast(cell.font.color.rgb[2:], ground) >= TEXT, cell
                    assert cell.font.name == "Arial"
                    seen += 1
    assert seen > 30


def test_inputs_are_told_by_a_frame_too():
    face = FACES["input"]
    edges = [face.left, face.right, face.top, face.bottom]
    assert all(edge is not None for edge in edges)
    assert all(contrast(e.colour, g) >= GRAPHIC for e in edges if e for g in (WHITE, look.PAPER))
    others = [f for role, f in FACES.items() if role != "input"]
    assert not any(f.left and f.right for f in others)


def test_verdicts_are_told_without_colour():
    told = [(v.bold, v.italic, bool(v.frame)) for v in VERDICTS.values()]
    plain = (False, False, False)
    assert plain not in told
    for name in ("bad", "caution"):
        found = VERDICTS[name]  # type: ignore[index]
        assert found.bold and found.frame and contrast(found.frame, WHITE) >= GRAPHIC


def test_rules_that_carry_structure_are_seen():
    for role in ("header", "closing"):
        top = FACES[role].top  # type: ignore[index]
        assert top is not None
        assert contrast(top.colour, WHITE) >= GRAPHIC


def test_shapes_of_charts_stand_out():
    assert contrast(look.OUTLINE, WHITE) >= GRAPHIC
    # Fill and outline together: where the fill is pale, the outline stands out from it.
    for fill in look.SERIES:
        assert contrast(fill, WHITE) >= GRAPHIC or contrast(fill, look.OUTLINE) >= GRAPHIC
    for line in look.LINES:
        assert contrast(line, WHITE) >= GRAPHIC
    assert len(set(look.MARKERS)) == len(look.MARKERS) == len(look.LINES)


def test_every_role_has_a_style_of_its_own_name():
    names = [face.name for face in FACES.values()]
    assert len(set(names)) == len(names)
    for role, face in FACES.items():
        assert load(one_column(["a"], role=role))["S"]["A1"].style == face.name


@pytest.mark.parametrize("role", ["header", "input", "formula"])
def test_the_side_is_the_column_s(role: Role):
    assert look.side(Style(role, align="right")) == "right"
    assert not look.indented(Style(role, align="right"))
    assert look.indented(Style(role, align="left"))
