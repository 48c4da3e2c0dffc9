"""The whole of writing: a workbook as plain data to the bytes of its file."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from io import BytesIO
from typing import BinaryIO
from zipfile import ZipFile

from openpyxl.comments.comment_sheet import CommentSheet
from openpyxl.drawing.spreadsheet_drawing import SpreadsheetDrawing
from openpyxl.packaging.relationship import Relationship, RelationshipList
from openpyxl.worksheet.worksheet import Worksheet
from openpyxl.writer.excel import ExcelWriter

from reportgen.layout.page import Style, Workbook
from reportgen.layout.paging import paging
from reportgen.write import comments
from reportgen.write.cells import SharedStrings
from reportgen.write.charts import with_alt
from reportgen.write.limits import Unwritable
from reportgen.write.parts import (
    Part,
    dated,
    instant,
    read,
    signed,
    with_near_targets,
    with_strings,
)
from reportgen.write.parts import write as write_parts
from reportgen.write.sheet import CHARTS, Shared, sheet
from reportgen.write.shell import shell_of
from reportgen.write.styles import look_ids, style_ids
from reportgen.write.usual import with_usual_prefixes

_STRINGS = "xl/sharedStrings.xml"
_COMMENTS, _BOXES = "xl/comments{0}.xml", "xl/drawings/vmlDrawing{0}.vml"
"""What a sheet's comments say, and their boxes."""
_MANY = 4_000_000
"""Cells of a sheet from which on its part may pass 2 GiB, at up to 500 bytes for a formula."""


def render(book: Workbook) -> bytes:
    """The bytes of the .xlsx file. Raises as :func:`write` does."""
    out = BytesIO()
    write(book, out)
    return out.getvalue()


def write(book: Workbook, out: BinaryIO) -> None:
    """Write the .xlsx file into an empty one. Raises :class:`Unwritable` where the format cannot
    hold something."""
    if not book.pages:
        raise Unwritable("a workbook needs a sheet")
    printed = [paging(page, book.paper) for page in book.pages]
    shell = shell_of(book, printed)
    looks = look_ids(shell, (each.look for page in book.pages for each in page.conditions))
    styles = style_ids(shell, _styles(book))
    saved = BytesIO()
    with ZipFile(saved, "w") as archive:  # read again at once, so not worth being made small
        _WithoutSheets(shell, archive).save()
    parts: dict[str, Part] = dict(
        with_strings(with_usual_prefixes(with_near_targets(read(saved.getvalue()))))
    )
    shared = Shared(styles, looks, SharedStrings())
    huge = set()
    drawings = noted = 0
    for number, (page, paged) in enumerate(zip(book.pages, printed, strict=True), 1):
        name = f"xl/worksheets/sheet{number}.xml"
        parts[name] = partial(sheet, page, paged, book, shared)
        if sum(band.rows * len(band.strips) for band in page.bands) > _MANY:
            huge.add(name)
        if page.comments:
            noted += 1
            parts[_COMMENTS.format(noted)] = partial(comments.said, page)
            parts[_BOXES.format(noted)] = partial(comments.drawn, page)
        if page.charts:
            drawings += 1
            drawing = f"xl/drawings/drawing{drawings}.xml"
            parts[drawing] = with_alt(_bytes(parts[drawing]), page.charts)
    parts["docProps/app.xml"] = signed(_bytes(parts["docProps/app.xml"]))
    parts["docProps/core.xml"] = dated(_bytes(parts["docProps/core.xml"]), instant())
    parts[_STRINGS] = shared.strings.xml
    write_parts(parts, out, last=_STRINGS, huge=huge)


class _WithoutSheets(ExcelWriter):  # type: ignore[misc]
    """The library's writer of all but the sheets' own parts, which are named to the others."""

    def write_worksheet(self, ws: Worksheet) -> None:
        ws._drawing, ws._rels = SpreadsheetDrawing(), RelationshipList()
        ws._drawing.charts = ws._charts
        if ws._charts:
            ws._rels.append(Relationship(CHARTS, type="drawing", Target=""))
        self.manifest.append(ws)

    def _write_comment(self, ws: Worksheet) -> None:
        """Name the two parts of a sheet's comments; the names are those that readers look for."""
        listed = CommentSheet.from_comments([])
        self._comments.append(listed)
        listed._id, listed._path = len(self._comments), f"/{_COMMENTS}"
        self.manifest.append(listed)
        ws._rels.append(Relationship("comments", type=listed._rel_type, Target=listed.path))
        ws.legacy_drawing = _BOXES.format(listed._id)
        self._archive.writestr(ws.legacy_drawing, b"")  # its kind is told by what is there


def _styles(book: Workbook) -> Iterable[Style]:
    return (strip.style for page in book.pages for band in page.bands for strip in band.strips)


def _bytes(part: Part) -> bytes:
    assert isinstance(part, bytes)
    return part
