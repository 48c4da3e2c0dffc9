"""All but the sheets' own parts: names, print ranges, charts, what the file says of itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from openpyxl import Workbook
from openpyxl.packaging.custom import StringProperty
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.cell_range import CellRange
from openpyxl.worksheet.print_settings import PrintArea

from reportgen.layout.page import HIDDEN, Page
from reportgen.layout.page import Workbook as Pages
from reportgen.layout.paging import Paging
from reportgen.write.charts import add_charts
from reportgen.write.limits import checked_name, checked_once, checked_sheet, holdable
from reportgen.write.parts import instant
from reportgen.write.styles import plain_text


def shell_of(book: Pages, paging: Sequence[Paging]) -> Workbook:
    """The workbook, each sheet of it without what stands in its own part."""
    checked_once((page.name for page in book.pages), "sheet")
    checked_once(book.names, "name")
    shell = Workbook()
    shell.remove(shell.active)
    plain_text(shell)
    for page, paged in zip(book.pages, paging, strict=True):
        _add_sheet(shell, page, paged)
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


def _add_sheet(shell: Workbook, page: Page, paging: Paging) -> None:
    sheet = shell.create_sheet(checked_sheet(page.name))
    if page.hidden:
        sheet.sheet_state = page.hidden
    if page.filtered:
        sheet.auto_filter.ref = page.filtered
    first, last = paging.title_rows
    if first:
        sheet.print_title_rows = f"{first}:{last}"
    if paging.repeats_key:
        sheet.print_title_cols = "A:A"
    letter = get_column_letter
    if not page.hidden:
        # With ranges of its own one program prints a hidden sheet as well; without, none does.
        sheet._print_area = _InOrder(
            f"{letter(area.first_column)}{area.first_row}:{letter(area.last_column)}{area.last_row}"
            for area in paging.areas
        )
    sheet._comments = [*page.comments]
    add_charts(sheet, page)


class _InOrder(PrintArea):  # type: ignore[misc]
    """Ranges as they follow each other on paper; openpyxl would sort them."""

    def __init__(self, ranges: Iterable[str]) -> None:
        self._order = [CellRange(each) for each in ranges]
        super().__init__(self._order)

    def sorted(self) -> list[CellRange]:
        return self._order
