"""Comments on cells: what they say (ECMA-376, 18.7), and the boxes in which that is shown (VML).

Written by hand, for a workbook has thousands and the library takes a tree of elements for each.
"""

from __future__ import annotations

from collections.abc import Iterator

from openpyxl.utils import coordinate_to_tuple

from reportgen.layout.page import Page
from reportgen.write.escaping import escape
from reportgen.write.limits import holdable

_WIDTH, _LINE, _PER_LINE, _ROOM = 300, 16, 46, 14
"""Pixels across, pixels a line, characters a line, pixels around."""
_FIRST = 1026
"""The number of the first shape of a drawing."""
_SAID = (
    '<comments xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    "<authors><author>reportgen</author></authors><commentList>"
)
_DRAWN = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<xml xmlns:o="urn:schemas-microsoft-com:office:office" '
    'xmlns:v="urn:schemas-microsoft-com:vml" xmlns:x="urn:schemas-microsoft-com:office:excel">'
    '<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1" /></o:shapelayout>'
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" '
    'path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter" />'
    '<v:path gradientshapeok="t" o:connecttype="rect" /></v:shapetype>'
)
_SHAPE = (
    '<v:shape type="#_x0000_t202" style="position:absolute; margin-left:59.25pt;margin-top:1.5pt;'
    'width:{width}px;height:{height}px;z-index:1;visibility:hidden" fillcolor="#ffffe1" '
    'o:insetmode="auto" id="_x0000_s{number}"><v:fill color2="#ffffe1" />'
    '<v:shadow color="black" obscured="t" /><v:path o:connecttype="none" />'
    '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left" /></v:textbox>'
    '<x:ClientData ObjectType="Note"><x:MoveWithCells /><x:SizeWithCells />'
    "<x:AutoFill>False</x:AutoFill><x:Row>{row}</x:Row><x:Column>{column}</x:Column>"
    "</x:ClientData></v:shape>"
)


def said(page: Page) -> Iterator[bytes]:
    """The part of what the page's comments say, in pieces."""
    yield _SAID.encode()
    for _, _, cell, text in _in_order(page):
        head = f'<comment ref="{cell}" authorId="0" shapeId="0">'
        yield f"{head}<text><t>{escape(text)}</t></text></comment>".encode()
    yield b"</commentList></comments>"


def drawn(page: Page) -> Iterator[bytes]:
    """The part of the boxes, each as tall as its text, in pieces."""
    yield _DRAWN.encode()
    for number, (row, column, _, text) in enumerate(_in_order(page), _FIRST):
        size = {"width": _WIDTH, "height": _height(text)}
        place = {"row": row - 1, "column": column - 1}
        yield _SHAPE.format(number=number, **size, **place).encode()
    yield b"</xml>"


def _in_order(page: Page) -> list[tuple[int, int, str, str]]:
    """Row, column and address of each cell that has one, and what it says."""
    told = page.comments.items()
    return sorted((*coordinate_to_tuple(cell), cell, holdable(text)) for cell, text in told)


def _height(text: str) -> int:
    lines = sum(-(-len(line) // _PER_LINE) or 1 for line in text.split("\n"))
    return lines * _LINE + _ROOM
