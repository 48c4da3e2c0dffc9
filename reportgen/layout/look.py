"""How everything looks: type, colours, borders, in this one place.

One typeface. Dark slate on white, one blue for structure, warm paper for what is to be typed in.
Colours come from the Okabe-Ito set or shades of it, which people who do not tell red from green
still tell apart. Every text reaches 4.5:1 on its ground and every graphic 3:1 (WCAG 2.2, 1.4.3 and
1.4.11); no meaning hangs on colour alone: inputs have a frame, verdicts are bold and framed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from reportgen.layout.page import Look, Role, Style

FONT = "Arial"
"""On Windows and Mac; elsewhere Liberation Sans takes its place, of the same widths."""
SIZE = 10.0
ROW_HEIGHT = 15.0
"""Points: a little air around each line."""

INK = "1E2A32"
MUTED = "53616B"
DEEP = "0B4F71"
"""Titles, headings, rules."""
PALE = "E6EEF3"
PAPER = "FFF9E3"
FRAME = "A58D4B"
"""Around what is to be typed in."""
HAIR = "CFD7DC"
"""Under rows: guides the eye, carries no meaning."""
WHITE = "FFFFFF"

Weight = Literal["hair", "thin", "medium", "thick"]


@dataclass(frozen=True)
class Edge:
    """A line along one side of a cell."""

    weight: Weight
    colour: str


@dataclass(frozen=True)
class Face:
    """How a role looks, and the name of its style in the workbook."""

    name: str
    size: float = SIZE
    bold: bool = False
    italic: bool = False
    underline: bool = False
    ink: str = INK
    fill: str | None = None
    top: Edge | None = None
    bottom: Edge | None = None
    left: Edge | None = None
    right: Edge | None = None
    vertical: Literal["top", "center", "bottom"] = "center"
    wrap: bool = False
    indent: bool = False
    """A text keeps off the frame, and off the number in the column before."""
    height: float | None = None
    """Points, of a row that holds such a cell; None: :data:`ROW_HEIGHT`."""
    locked: bool = True


_ROW = Edge("thin", HAIR)
_RULE = Edge("medium", DEEP)
_LINE = Edge("thin", DEEP)
_FRAME = Edge("thin", FRAME)
_GAP = Edge("medium", WHITE)
"""Between two headers, which fill their columns and would read as one."""

FACES: dict[Role, Face] = {
    "title": Face("Sheet title", size=20, bold=True, ink=DEEP, height=30),
    "purpose": Face("Purpose of the sheet", size=10.5, ink=MUTED, height=18),
    "section": Face("Section", size=13, bold=True, ink=DEEP, vertical="bottom", height=27),
    "group": Face("Group of columns", size=9, bold=True, ink=DEEP, vertical="bottom", height=18),
    "header": Face(
        "Column name",
        bold=True,
        fill=PALE,
        top=_RULE,
        bottom=_LINE,
        left=_GAP,
        vertical="bottom",
        wrap=True,
        indent=True,
    ),
    "unit": Face("Unit", size=9, ink=MUTED, bottom=_ROW, indent=True),
    "key": Face("Record id", bold=True, bottom=_ROW, indent=True),
    "input": Face(
        "To fill in",
        fill=PAPER,
        top=_FRAME,
        bottom=_FRAME,
        left=_FRAME,
        right=_FRAME,
        indent=True,
        locked=False,
    ),
    "given": Face("Given", bottom=_ROW, indent=True),
    "formula": Face("Worked out", bottom=_ROW, indent=True),
    "check": Face("Check mark", ink=MUTED, bottom=_ROW, indent=True),
    "headline": Face("Headline figure", size=20, bold=True, ink=DEEP, height=30),
    "label": Face("Row name"),
    "verdict": Face("Verdict", size=12, bold=True, height=21),
    "sentence": Face("To be read first", size=12, bold=True, height=20),
    "text": Face("Running text", indent=True),
    "link": Face("Way to a sheet", underline=True, ink="0B5FA5"),
    "closing": Face("End of the table", size=8, ink=MUTED, top=_RULE),
    "caution": Face(
        "Mind this", bold=True, ink="7A3E00", left=Edge("thick", "B35C00"), indent=True
    ),
}


_TEXTS: frozenset[Role] = frozenset(("header", "unit", "key", "group", "caution"))
"""Roles whose cells hold texts, so that no side given means the left."""


def side(style: Style) -> Literal["left", "right", "center", ""]:
    """Where a cell's content stands; "" leaves it to its type."""
    return style.align or ("left" if style.role in _TEXTS else "")


def indented(style: Style) -> bool:
    """Whether a cell's content keeps off the left edge."""
    return FACES[style.role].indent and side(style) == "left"


@dataclass(frozen=True)
class Verdict:
    """How cells look while a condition holds."""

    ink: str
    fill: str | None
    bold: bool = False
    italic: bool = False
    frame: str | None = None


VERDICTS: dict[Look, Verdict] = {
    "bad": Verdict(ink="8C2300", fill="FBE2D5", bold=True, frame="B83A00"),
    "caution": Verdict(ink="5C3900", fill="FDEBC8", bold=True, frame="9A6500"),
    "good": Verdict(ink=DEEP, fill="DDEEF8", bold=True),
    "quiet": Verdict(ink="5A666F", fill=None, italic=True),
}

TABS = {"read": DEEP, "record": "C28F00", "audit": MUTED}

SERIES = ("0072B2", "E69F00", "009E73", "F0E442", "D55E00", "56B4E9", "CC79A7", "8A949B")
"""Fills of a chart's series in order: Okabe-Ito, dark and light by turns, then grey."""
OUTLINE = INK
"""Around every filled shape: the light fills alone would not stand out from white."""
LINES = ("0072B2", "D55E00", "007A59", "A8508A", "1E2A32", "8A6A00")
"""Series drawn as lines and dots: dark enough to need no outline."""
MARKERS = ("circle", "square", "triangle", "diamond", "x", "plus")
"""One a series, so that lines are told apart without colour."""
GRID = "DDE3E7"
AXIS = "7B8790"


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours (``RRGGBB``), 1 to 21, as WCAG 2.2 defines it."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2, from sRGB."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
