"""The largest type in which every label still holds its text; a text that does not fit is refused,
never cut off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import fsum

from reportgen.labels import code
from reportgen.labels.content import Label, Line
from reportgen.labels.label_sheet import KNOWN, LabelSheet
from reportgen.labels.measure import LINE, lines
from reportgen.labels.type_size import INCH, POINT, net_weight, points

LARGEST = 11.0
"""Points; larger text helps nobody."""
STEP = 0.5
MODULES = (0.4, 0.33)
"""Millimetres of a code's module: what telephones read well, and what a plain printer still draws
well; common practice, no source."""
GAP = 0.6
"""Millimetres below a paragraph."""
BLANK = 6.0
"""Millimetres of a ruled line, to write on by hand."""
BOX = 0.9
"""Millimetres of a warning's frame with the white inside it, on each side."""
ASIDE = 0.8
"""Millimetres between the text and the code, beside the code's own white."""


@dataclass(frozen=True)
class Look:
    """The type of a sheet: sizes in points, a module of the code in millimetres."""

    body: float
    name: float
    net: float
    module: float


@dataclass(frozen=True)
class TooSmall:
    """The label that needs most, and how much: height in millimetres in the smallest type, and what
    there is; and the known sheets on the same paper that hold them all, the smallest first."""

    label: Label
    needs: float
    room: float
    larger: tuple[str, ...]


def fit(
    labels: Sequence[Label], sheet: LabelSheet, least: float, panel: Fraction | None = None
) -> Look | TooSmall:
    """One look for all labels. ``least``: the smallest type in points; ``panel``: square inches of
    the container's display panel; without it the label's own area counts."""
    distinct = list(dict.fromkeys(labels))
    found = _largest(distinct, sheet, least, panel)
    if found is not None:
        return found
    look = _look(distinct, sheet, least, MODULES[-1], panel)
    worst = max(distinct, key=lambda each: height(each, sheet, look))
    others = sorted(
        (other for other in KNOWN.values() if other.page == sheet.page),
        key=lambda other: other.width * other.height,
    )
    holding = [each.name for each in others if _largest(distinct, each, least, panel) is not None]
    return TooSmall(worst, height(worst, sheet, look), _room(sheet), tuple(holding))


def _largest(
    labels: Sequence[Label], sheet: LabelSheet, least: float, panel: Fraction | None
) -> Look | None:
    body = max(LARGEST, least)
    while body >= least:
        for module in MODULES:
            look = _look(labels, sheet, body, module, panel)
            if all(height(each, sheet, look) <= _room(sheet) for each in labels):
                return look
        body -= STEP
    return None


def _look(
    labels: Sequence[Label], sheet: LabelSheet, body: float, module: float, panel: Fraction | None
) -> Look:
    area = panel if panel is not None else sheet.width * sheet.height / INCH**2
    short = all(each.short for each in labels)
    name = body * (1.2 if short else 1.5)
    # A short label is for one's own shelf, where no law asks for a size.
    net = name if short and panel is None else max(body, points(net_weight(area)))
    return Look(body, name, net, module)


def modules_of(label: Label) -> int:
    """Modules along a side of a label's code, its white included."""
    size = code.size(label.code)
    assert size is not None, "a trace is made to fit a code"
    return size


def _room(sheet: LabelSheet) -> float:
    return float(sheet.height - 2 * sheet.pad)


def height(label: Label, sheet: LabelSheet, look: Look) -> float:
    """Millimetres that a label's text takes, estimated high."""
    whole = float(sheet.width - 2 * sheet.pad)
    square = modules_of(label) * look.module
    part = whole - square - ASIDE
    if part < 5 * look.name * float(POINT):
        return float("inf")
    name = _paragraph([(f"{label.name} {label.form}", True)], part, look.name)
    text = name + fsum(_line(each, part, look.body) for each in label.beside)
    net = _paragraph([(label.net, True)], part if label.short else whole, look.net)
    if label.short:
        return max(text + net, square)
    return max(text, square) + fsum(_line(each, whole, look.body) for each in label.below) + net


def _line(line: Line, room: float, size: float) -> float:
    if line.kind == "warning":
        return _paragraph([(line.head, True)], room - 2 * BOX, size) + 2 * BOX
    pieces = [(f"{line.head}:", True)] if line.head else []
    if line.kind == "plain" or line.text:
        text = _paragraph([*pieces, (line.text, False)], room, size)
        return text + (BLANK if line.kind == "blank" else 0)
    return max(BLANK, _paragraph(pieces, room * 0.7, size)) + GAP


def _paragraph(pieces: list[tuple[str, bool]], room: float, size: float) -> float:
    em = size * float(POINT)
    return lines(pieces, room / em) * LINE * em + GAP
