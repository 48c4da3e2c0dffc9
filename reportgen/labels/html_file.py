"""Labels as one HTML file for the browser's print: pages in millimetres, codes drawn as shapes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

import segno

from reportgen.labels import fit
from reportgen.labels.content import Label
from reportgen.labels.fit import Look
from reportgen.labels.label_sheet import LabelSheet
from reportgen.labels.measure import LINE
from reportgen.labels.texts import Speech
from reportgen.write import html

TEMPLATE = "labels.html.j2"


@dataclass(frozen=True)
class Code:
    """A code as a shape: its side in modules and in millimetres, and the path of its dark parts."""

    modules: int
    side: str
    path: str


@dataclass(frozen=True)
class Placed:
    """A label and its place on the page, in millimetres."""

    label: Label
    left: str
    top: str
    code: Code


@dataclass(frozen=True)
class Content:
    """What the template reads. Lengths are texts in millimetres, sizes of type in points."""

    language: str
    title: str
    how: str
    caution: str
    doubt: str
    pages: tuple[tuple[Placed, ...], ...]
    page_width: str
    page_height: str
    width: str
    height: str
    pad: str
    look: Look
    line: float
    gap: float
    blank: float
    aside: float
    frame: float
    outline: bool


def render(
    folder: Path,
    season: str,
    labels: Sequence[Label],
    sheet: LabelSheet,
    look: Look,
    speech: Speech,
    start: int = 1,
    outline: bool = False,
    doubt: str = "",
) -> bytes:
    """The file. ``folder`` holds the template; ``labels`` come in the order they are printed;
    ``start`` is the first free place of a part-used sheet, from 1, along the rows; ``doubt`` says
    on the screen that the season has errors."""
    wide, high = sheet.page
    return html.render(
        folder,
        TEMPLATE,
        Content(
            language=speech.language,
            title=speech("title", season=season),
            how=speech("how"),
            caution=speech("caution"),
            doubt=doubt,
            pages=tuple(_pages(labels, sheet, look, start - 1)),
            page_width=_mm(wide),
            page_height=_mm(high),
            width=_mm(sheet.width),
            height=_mm(sheet.height),
            pad=_mm(sheet.pad),
            look=look,
            line=LINE,
            gap=fit.GAP,
            blank=fit.BLANK,
            aside=fit.ASIDE,
            frame=fit.BOX,
            outline=outline,
        ),
    )


def _pages(
    labels: Sequence[Label], sheet: LabelSheet, look: Look, start: int
) -> Iterator[tuple[Placed, ...]]:
    taken, rest = start, list(labels)
    while rest:
        here, rest = rest[: sheet.count - taken], rest[sheet.count - taken :]
        yield tuple(
            _placed(label, sheet.place(taken + number), look) for number, label in enumerate(here)
        )
        taken = 0


def _placed(label: Label, place: tuple[Fraction, Fraction], look: Look) -> Placed:
    left, top = place
    return Placed(label, _mm(left), _mm(top), code(label.code, look.module))


def pages(count: int, sheet: LabelSheet, start: int = 1) -> int:
    """How many pages so many labels take."""
    return -(-(count + start - 1) // sheet.count)


@cache
def code(text: str, module: float) -> Code:
    """A text as a QR code (ISO/IEC 18004, error correction M), white margin included."""
    made = segno.make_qr(text, error="m", mode="byte", encoding="utf-8", boost_error=False)
    rows = [bytes(row) for row in made.matrix_iter()]
    return Code(len(rows), f"{len(rows) * module:.3f}", "".join(_runs(rows)))


def _runs(rows: Sequence[bytes]) -> Iterator[str]:
    """The dark modules, each run in a row as one oblong."""
    for y, row in enumerate(rows):
        x = 0
        while x < len(row):
            length = len(row[x:]) - len(row[x:].lstrip(row[x : x + 1]))
            if row[x]:
                yield f"M{x} {y}h{length}v1h-{length}z"
            x += length


def _mm(length: Fraction) -> str:
    """Millimetres to a thousandth."""
    return f"{float(length):.3f}".rstrip("0").rstrip(".")
