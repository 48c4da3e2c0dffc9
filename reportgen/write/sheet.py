"""The part of a sheet: its elements in the order of the schema (ECMA-376, CT_Worksheet)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from openpyxl.utils.cell import column_index_from_string, coordinate_from_string

from reportgen.layout import look
from reportgen.layout.page import USUAL_WIDTH, Look, Page, Style, Workbook
from reportgen.layout.paging import FOOT, MARGIN, Paging
from reportgen.write.cells import SharedStrings, dimension, sheet_data
from reportgen.write.escaping import element, escape
from reportgen.write.limits import FOOTER_LENGTH, checked_formula, holdable
from reportgen.write.validation import validations

PAPERS = {"letter": 1, "a4": 9}
"""The format's numbers of paper sizes (ECMA-376, 18.3.1.63)."""
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATED = {"xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships"}
_FREE = dict.fromkeys(
    ("objects", "scenarios", "formatCells", "formatColumns", "formatRows", "selectLockedCells",
     "selectUnlockedCells"), 0,
)  # fmt: skip
_KEPT_FROM = dict.fromkeys(
    ("insertColumns", "insertRows", "insertHyperlinks", "deleteColumns", "deleteRows", "sort",
     "pivotTables"), 1,
)  # fmt: skip
"""What may be done on a protected sheet, and what may not (ECMA-376, 18.3.1.85)."""
CHARTS, COMMENTS = "rId1", "anysvml"
"""The relations of a sheet to its drawings, as the library names them."""


class Shared(NamedTuple):
    """What the sheets of a file share: ids of how cells look, always and conditionally; texts."""

    styles: Mapping[Style, int]
    looks: Mapping[Look, int]
    strings: SharedStrings


def sheet(page: Page, paging: Paging, book: Workbook, shared: Shared) -> Iterator[bytes]:
    """The part, in pieces. Raises :class:`Unwritable` where the format cannot hold something."""
    yield "".join(_before(page, paging)).encode()
    yield from sheet_data(page, paging.heights, shared.styles, shared.strings)
    yield "".join(_behind(page, paging, book, shared.looks)).encode()


def _before(page: Page, paging: Paging) -> Iterator[str]:
    """What stands before the cells."""
    yield f'<worksheet xmlns="{_MAIN}">'
    tab = element("tabColor", rgb=f"FF{look.TABS[page.tab]}")
    outline = element("outlinePr", summaryBelow=1, summaryRight=1)
    yield element("sheetPr", tab + outline + element("pageSetUpPr"))
    yield element("dimension", ref=dimension(page))
    zoom = {"zoomScale": page.zoom, "zoomScaleNormal": page.zoom}
    view = element("sheetView", _panes(page.freeze), showGridLines=0, **zoom, workbookViewId=0)
    yield element("sheetViews", view)
    # Without the levels the buttons that unfold columns have no room in some programs.
    levels = {"outlineLevelCol": 1 if page.folded else None}
    yield element("sheetFormatPr", baseColWidth=8, defaultRowHeight=look.ROW_HEIGHT, **levels)
    if columns := "".join(_columns(page, paging)):
        yield element("cols", columns)


def _panes(freeze: str) -> str:
    """What stays in sight while the rest is scrolled, and the cell that is chosen at first."""
    letters, row = coordinate_from_string(freeze or "A1")
    across, down = column_index_from_string(letters) - 1, row - 1
    chosen = {"activeCell": freeze or "A1", "sqref": freeze or "A1"}
    if not across and not down:
        return element("selection", **chosen)
    corners = ["topRight"] * bool(across) + ["bottomLeft"] * bool(down)
    if len(corners) > 1:
        corners.append("bottomRight")
    split = {"xSplit": across or None, "ySplit": down or None}
    pane = element("pane", **split, topLeftCell=freeze, activePane=corners[-1], state="frozen")
    others = [element("selection", pane=corner) for corner in corners[:-1]]
    return "".join([pane, *others, element("selection", pane=corners[-1], **chosen)])


def _columns(page: Page, paging: Paging) -> Iterator[str]:
    """Each column that is printed, or of which something is said."""
    printed = range(1, max(area.last_column for area in paging.areas) + 1)
    behind = {column + 1 for column in page.folded} - page.folded
    for column in sorted({*printed, *page.widths, *page.folded, *page.unseen, *behind}):
        folded = column in page.folded
        yield element(
            "col",
            hidden=1 if folded or column in page.unseen else None,
            outlineLevel=1 if folded else None,
            collapsed=1 if column in behind else None,
            width=page.widths.get(column, USUAL_WIDTH),
            customWidth=1,
            min=column,
            max=column,
        )


def _behind(page: Page, paging: Paging, book: Workbook, looks: Mapping[Look, int]) -> Iterator[str]:
    """What stands behind the cells."""
    yield _protection(page)
    if page.filtered:
        blank = {"colId": page.margin - 1, "hiddenButton": 1, "showButton": 1}
        filters = element("filterColumn", **blank) if page.margin else ""
        yield element("autoFilter", filters, ref=page.filtered)
    yield from _conditions(page, looks)
    yield validations(page)
    if page.links:
        yield element("hyperlinks", "".join(_links(page)))
    sides = dict.fromkeys(("left", "right", "top"), MARGIN)
    yield element("pageMargins", **sides, bottom=FOOT, header=0.3, footer=0.3)
    yield element(
        "pageSetup",
        orientation="landscape" if page.landscape else "portrait",
        paperSize=PAPERS[book.paper],
        scale=paging.scale,
    )
    yield _foot(book.title)
    if paging.breaks:
        count = len(paging.breaks)
        # The format counts the row above the break.
        breaks = (element("brk", id=row - 1, min=0, max=16383, man=1) for row in paging.breaks)
        yield element("rowBreaks", "".join(breaks), count=count, manualBreakCount=count)
    if page.charts:
        yield element("drawing", **_RELATED, **{"r:id": CHARTS})
    if page.comments:
        yield element("legacyDrawing", **_RELATED, **{"r:id": COMMENTS})
    yield "</worksheet>"


def _protection(page: Page) -> str:
    """Against slips, not against people: there is no password, and looking is free."""
    filters = {"autoFilter": 0 if page.filtered else 1}
    return element("sheetProtection", sheet=1, **_FREE, **_KEPT_FROM, **filters)


def _conditions(page: Page, looks: Mapping[Look, int]) -> Iterator[str]:
    """Conditions of the same cells stand together; the first of the sheet that holds decides."""
    rules: dict[str, list[str]] = {}
    for priority, each in enumerate(page.conditions, 1):
        formula = element("formula", escape(checked_formula(each.formula)))
        rule = element(
            "cfRule", formula, type="expression", priority=priority, dxfId=looks[each.look]
        )
        rules.setdefault(each.cells, []).append(rule)
    for cells, some in rules.items():
        yield element("conditionalFormatting", "".join(some), sqref=cells)


def _links(page: Page) -> Iterator[str]:
    return (element("hyperlink", ref=ref, location=place) for ref, place in page.links.items())


def _foot(title: str) -> str:
    """At the foot of each page: the title, the sheet, the number of the page."""
    type_of = f'&"{look.FONT},Regular"&8 &K{look.MUTED}'
    left, others = f"&L{type_of}", f"&C{type_of}&A&R{type_of}&P / &N"
    said = footer_text(title, FOOTER_LENGTH - len(left + others))
    names = ("oddHeader", "oddFooter", "evenHeader", "evenFooter", "firstHeader", "firstFooter")
    texts = {"oddFooter": escape(left + said + others)}
    return element("headerFooter", "".join(element(name, texts.get(name, "")) for name in names))


def footer_text(title: str, length: int) -> str:
    """The title as a footer shows it, where ``&`` begins a command and is written twice.

    ``length`` is what the format leaves; a longer title is cut and marked with ….
    """
    title = " ".join(holdable(title).split()).replace("&[", "& [")
    cut, mark = title, ""
    while len(written := f"{cut}{mark}".replace("&", "&&")) > length:
        cut, mark = cut[:-1], "…"
    return written
