"""Comments on cells: the library writes one a sheet, and all that there are are like it.

It takes a tree of elements for each, and a workbook has thousands.
"""

from __future__ import annotations

from openpyxl.comments import Comment
from openpyxl.comments.comment_sheet import CommentRecord
from openpyxl.utils import coordinate_to_tuple
from openpyxl.worksheet.worksheet import Worksheet

from reportgen.layout.page import Page
from reportgen.write.escaping import escape
from reportgen.write.limits import holdable

_WIDTH, _LINE, _PER_LINE, _ROOM = 300, 16, 46, 14
"""Pixels across, pixels a line, characters a line, pixels around."""
_FIRST = 1026
"""The number of the first shape of a drawing."""
_CELL, _TEXT, _HEIGHT = "A1", "one", 1
"""What the one comment says, and where."""
_SAID = {f'"{_CELL}"': '"{cell}"', f"<t>{_TEXT}<": "<t>{text}<"}
_SHAPE = {
    f"height:{_HEIGHT}px": "height:{height}px",
    f"_s{_FIRST}": "_s{number}",
    "Row>0<": "Row>{row}<",
    "Column>0<": "Column>{column}<",
}
"""What of the one comment is another's in all others."""


def add_one(sheet: Worksheet, page: Page) -> None:
    """Put one comment on the sheet where the page has some."""
    if page.comments:
        cell = sheet[_CELL]
        cell.comment = Comment(_TEXT, "reportgen", height=_HEIGHT, width=_WIDTH)
        sheet._comments.append(CommentRecord.from_cell(cell))


def all_of(page: Page, listed: bytes, drawn: bytes) -> tuple[bytes, bytes]:
    """The two parts of a sheet's comments, from those in which there is one: what they say, and the
    boxes in which that is shown."""
    before, said, after = _pattern(listed, "<comment ", "</comment>", _SAID)
    above, shape, below = _pattern(drawn, "<v:shape ", "</v:shape>", _SHAPE)
    texts, shapes = [before], [above]
    cells = sorted((coordinate_to_tuple(cell), cell) for cell in page.comments)
    for number, ((row, column), cell) in enumerate(cells, _FIRST):
        text = holdable(page.comments[cell])
        texts.append(said.format(cell=cell, text=escape(text)))
        place = {"row": row - 1, "column": column - 1}
        shapes.append(shape.format(height=_height(text), number=number, **place))
    return "".join([*texts, after]).encode(), "".join([*shapes, below]).encode()


def _pattern(part: bytes, start: str, end: str, others: dict[str, str]) -> tuple[str, str, str]:
    """A part as what stands before its one comment, a pattern of that, and what stands behind."""
    text = part.decode()
    first, beyond = text.index(start), text.index(end) + len(end)
    pattern = text[first:beyond]
    for old, new in others.items():
        assert pattern.count(old) == 1, f"openpyxl writes {old} into a comment"
        pattern = pattern.replace(old, new)
    return text[:first], pattern, text[beyond:]


def _height(text: str) -> int:
    lines = sum(-(-len(line) // _PER_LINE) or 1 for line in text.split("\n"))
    return lines * _LINE + _ROOM
