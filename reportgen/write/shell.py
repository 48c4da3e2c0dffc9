"""All of the file but its cells: sheets, views, protection, print, what it says of itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from openpyxl import Workbook
from openpyxl.formatting.rule import Rule
from openpyxl.packaging.custom import StringProperty
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.cell_range import CellRange
from openpyxl.worksheet.filters import FilterColumn
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.print_settings import PrintArea
from openpyxl.worksheet.worksheet import Worksheet

from reportgen.layout import look
from reportgen.layout.page import HIDDEN, USUAL_WIDTH, Look, Page
from reportgen.layout.page import Workbook as Pages
from reportgen.layout.paging import FOOT, MARGIN, paging
from reportgen.write import comments
from reportgen.write.charts import add_charts
from reportgen.write.limits import (
    FOOTER_LENGTH,
    checked_formula,
    checked_name,
    checked_once,
    checked_sheet,
    holdable,
)
from reportgen.write.parts import instant
from reportgen.write.styles import look_ids, plain_text
from reportgen.write.validation import add_validations

PAPERS = {"letter": 1, "a4": 9}
"""The format's numbers of paper sizes (ECMA-376, 18.3.1.63)."""


def shell_of(book: Pages) -> Workbook:
    """The workbook without its cells."""
    checked_once((page.name for page in book.pages), "sheet")
    checked_once(book.names, "name")
    shell = Workbook()
    shell.remove(shell.active)
    plain_text(shell)
    looks = look_ids(shell, (each.look for page in book.pages for each in page.conditions))
    for page in book.pages:
        _add_sheet(shell, page, book, looks)
    for name, place in book.names.items():
        unseen = name.startswith(HIDDEN) or None
        shell.defined_names[checked_name(name)] = DefinedName(name, attr_text=place, hidden=unseen)
    _describe(shell, book)
    return shell


def _describe(shell: Workbook, book: Pages) -> None:
    about = shell.properties
    about.title, about.language, about.creator = holdable(book.title), book.language, "reportgen"
    about.created = about.modified = instant().replace(tzinfo=None)
    for name, value in book.properties.items():
        shell.custom_doc_props.append(StringProperty(name=name, value=holdable(value)))


def _add_sheet(shell: Workbook, page: Page, book: Pages, looks: Mapping[Look, int]) -> None:
    sheet = shell.create_sheet(checked_sheet(page.name))
    sheet.sheet_properties.tabColor = f"FF{look.TABS[page.tab]}"
    sheet.sheet_format.defaultRowHeight = look.ROW_HEIGHT
    for column, width in sorted(page.widths.items()):
        sheet.column_dimensions[get_column_letter(column)].width = width
    _view(sheet, page)
    _protect(sheet)
    _print(sheet, page, book)
    _put_away(sheet, page)
    for condition in page.conditions:
        formula = checked_formula(condition.formula)
        rule = Rule("expression", looks[condition.look], formula=[formula])
        sheet.conditional_formatting.add(condition.cells, rule)
    for ref, place in page.links.items():
        sheet[ref].hyperlink = Hyperlink(ref=ref, location=place)
    add_validations(sheet, page)
    comments.add_one(sheet, page)
    add_charts(sheet, page)


def _view(sheet: Worksheet, page: Page) -> None:
    view = sheet.sheet_view
    view.showGridLines = False
    view.zoomScale = view.zoomScaleNormal = page.zoom
    if page.freeze and page.freeze != "A1":
        sheet.freeze_panes = page.freeze
        chosen = view.selection[-1]
        chosen.activeCell = chosen.sqref = page.freeze


def _protect(sheet: Worksheet) -> None:
    """Against slips, not against people: there is no password, and looking is free."""
    protection = sheet.protection
    protection.sheet = True
    protection.formatCells = protection.formatColumns = protection.formatRows = False  # allowed
    protection.selectLockedCells = protection.selectUnlockedCells = False  # allowed


def _put_away(sheet: Worksheet, page: Page) -> None:
    """What is not in use is out of sight, and what is can be filtered."""
    if page.hidden:
        sheet.sheet_state = page.hidden
    for column in page.folded:
        folded = sheet.column_dimensions[get_column_letter(column)]
        folded.outlineLevel, folded.hidden = 1, True
        if column + 1 not in page.folded:
            sheet.column_dimensions[get_column_letter(column + 1)].collapsed = True
    if page.filtered:
        sheet.auto_filter.ref = page.filtered
        if page.margin:
            blank = FilterColumn(colId=page.margin - 1, hiddenButton=True)
            sheet.auto_filter.filterColumn.append(blank)
        sheet.protection.autoFilter = False  # allowed


def _print(sheet: Worksheet, page: Page, book: Pages) -> None:
    found = paging(page, book.paper)
    setup = sheet.page_setup
    setup.orientation = "landscape" if page.landscape else "portrait"
    setup.paperSize = PAPERS[book.paper]
    setup.scale = found.scale
    first, last = found.title_rows
    if first:
        sheet.print_title_rows = f"{first}:{last}"
    if found.repeats_key:
        sheet.print_title_cols = "A:A"
    letter = get_column_letter
    if not page.hidden:
        # With ranges of its own one program prints a hidden sheet as well; without, none does.
        sheet._print_area = _InOrder(
            f"{letter(area.first_column)}{area.first_row}:{letter(area.last_column)}{area.last_row}"
            for area in found.areas
        )
    for column in range(1, max(area.last_column for area in found.areas) + 1):
        sheet.column_dimensions[letter(column)].width = page.widths.get(column, USUAL_WIDTH)
    for column in page.unseen:
        sheet.column_dimensions[letter(column)].hidden = True
    for row in found.breaks:
        sheet.row_breaks.append(Break(id=row - 1))  # the format counts the row above the break
    margins = sheet.page_margins
    margins.left = margins.right = margins.top = MARGIN
    margins.bottom, margins.header, margins.footer = FOOT, 0.3, 0.3
    _foot(sheet, book.title)


class _InOrder(PrintArea):  # type: ignore[misc]
    """Ranges as they follow each other on paper; openpyxl would sort them."""

    def __init__(self, ranges: Iterable[str]) -> None:
        self._order = [CellRange(each) for each in ranges]
        super().__init__(self._order)

    def sorted(self) -> list[CellRange]:
        return self._order


def _foot(sheet: Worksheet, title: str) -> None:
    foot = sheet.oddFooter
    for part in (foot.left, foot.center, foot.right):
        part.font, part.size, part.color = f"{look.FONT},Regular", 8, look.MUTED
    foot.left.text = ""
    foot.center.text, foot.right.text = "&A", "&P / &N"
    foot.left.text = footer_text(title, FOOTER_LENGTH - len(str(foot)))


def footer_text(title: str, length: int) -> str:
    """The title as a footer shows it, where ``&`` begins a command and is written twice.

    ``length`` is what the format leaves; a longer title is cut and marked with ….
    """
    title = " ".join(holdable(title).split()).replace("&[", "& [")
    cut, mark = title, ""
    while len(written := f"{cut}{mark}".replace("&", "&&")) > length:
        cut, mark = cut[:-1], "…"
    return written
