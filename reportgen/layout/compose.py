"""From sheets, layout and numbers to finished pages."""

from __future__ import annotations

from reportgen.algebra.book import Book
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.language import in_language
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import Phrase, Say, phrase, spoken
from reportgen.algebra.running import MANY, Running
from reportgen.algebra.words import words_of
from reportgen.layout import charts, column_widths, lists, row_marks, table_block, translate
from reportgen.layout.blocks import (
    ChartBlock,
    Contents,
    LegendBlock,
    ListBlock,
    RulesBlock,
    Sheet,
    TableBlock,
)
from reportgen.layout.context import Context
from reportgen.layout.formats import ANY
from reportgen.layout.in_use import unused
from reportgen.layout.live import live
from reportgen.layout.page import (
    Band,
    Condition,
    Page,
    Strip,
    Style,
    Workbook,
)
from reportgen.layout.placing import CAUTIONS_ROW, Layout, Placed
from reportgen.layout.print_pieces import keep_apart, pieces
from reportgen.layout.spots import Seen, letters, quoted
from reportgen.layout.table_block import row_of

_LACKING = Style("text", ANY, "left", spill=True)
HIDDEN_TOO = "All sheets, the hidden ones too, and how to show them: at the end of this sheet"


def compose(
    contents: Contents,
    numbers: Numbers,
    title: str,
    language: str,
    paper: str,
    say: Say = str,
    many: int = MANY,
) -> Workbook:
    """The whole workbook; ``say``: the program's texts in its language; ``many``: blocks from which
    on totals are read from running columns."""
    book, slots = numbers.book, numbers.slots
    contents = translate.named(contents, say)
    numbers = numbers if say is str else in_language(numbers, say, translated(book))
    rows = {name: numbers.rows(table) for name, table in book.tables.items()}
    hidden = unused(contents.sheets, numbers)
    running = Running(numbers, many)
    layout = Layout(book, contents, rows, slots, hidden, running)
    formulas, words = Formulas(book, slots, say, running), words_of(book, *slots.items())
    context = Context(book, numbers, layout, formulas, words, contents, hidden, slots, say, running)
    pages = [_page(context, sheet) for sheet in contents.sheets]
    names = layout.named()
    if contents.memory is not None:
        shown = live(context, pages)
        names |= shown.names
        pages.append(contents.memory(layout.placed, pages, shown))
    return Workbook(
        spoken(title, say),
        language,
        pages,
        names,
        paper="a4" if paper == "a4" else "letter",
    )


def translated(book: Book) -> list[tuple[str, str]]:
    """The input columns that hold the program's own words."""
    return [
        (table.name, found.name)
        for table in book.tables.values()
        for found in table.inputs.values()
        if found.translated
    ]


def _page(context: Context, sheet: Sheet) -> Page:
    page = Page(
        sheet.name, landscape=sheet.landscape, one_page=sheet.one_page, small=sheet.small,
        tab=sheet.tab,
    )  # fmt: skip
    page.hidden = "hidden" if sheet.name in context.hidden else ""
    placed = context.layout.placed[sheet.name]
    seen = context.layout.seen_from(sheet.name)
    page.bands += [
        row_of(1, [(1, Style("title"), sheet.name)]),
        row_of(2, [(1, Style("purpose"), sheet.purpose)]),
    ]
    _verdict(context, page, seen)
    for row, caution in enumerate(context.layout.cautions[sheet.name], CAUTIONS_ROW):
        page.bands.append(row_of(row, [(1, Style("caution"), Phrase(caution))]))
    _lacking(context, page)
    _way_back(context, page)
    for each in placed:
        match each.block:
            case TableBlock():
                table_block.table(context, page, seen, each)
            case ListBlock():
                lists.figures(context, page, seen, each)
            case ChartBlock():
                charts.add(context, page, each)
            case _:
                lists.other(context, page, seen, each)
    row_marks.add(context, page, placed)
    translate.speak(page, context.say)
    page.widths = column_widths.widths(page)
    charted = any(isinstance(block, ChartBlock) for block in sheet.blocks)
    if isinstance(sheet.blocks[0], TableBlock) and not charted:  # drawn out of shape by folding
        beside = frozenset[int]().union(*(_columns(page, each) for each in placed[1:]))
        record = sheet.tab == "record" and len(placed) == 1
        table_block.put_away(context, page, placed[0], beside, record)
    if any(each.behind for each in placed):
        keep_apart(page, placed)
    page.pieces = list(pieces(page, placed))
    page.freeze, page.title_rows = "A4", (1, 3)
    if placed and isinstance(placed[0].block, TableBlock | RulesBlock):
        page.freeze, first = "B4", placed[0].first
        if len(page.pieces) == 1:
            heads = 3 if isinstance(placed[0].block, TableBlock) else 1
            page.freeze, page.title_rows = f"B{first}", (first - heads, first - 1)
    return page


def _columns(page: Page, placed: Placed) -> frozenset[int]:
    """The columns that a block below a table takes: none of them may be folded."""
    if isinstance(placed.block, TableBlock):
        return placed.taken
    return frozenset(range(1, page.columns(placed.top, placed.last) + 1))


def _verdict(context: Context, page: Page, seen: Seen) -> None:
    """The master verdict, on every sheet."""
    reference = seen.single(*context.contents.verdict)
    value = context.numbers.value(*context.contents.verdict)
    page.bands.append(Band(3, 1, [Strip(1, Style("verdict", ANY, "left"), [value], reference)]))


def _lacking(context: Context, page: Page) -> None:
    """What its tables lack since the workbook was made, in red; empty lines while they do not."""
    said = context.contents.said
    first = CAUTIONS_ROW + len(context.layout.cautions[page.name])
    for row, check in enumerate(context.layout.lacking[page.name], first):
        assert said is not None
        spot = context.layout.homes[said]
        formula = f"{quoted(spot.sheet)}!${letters(spot.column)}${spot.first + check}"
        value = context.numbers.value(*said, check)
        page.bands.append(Band(row, 1, [Strip(1, _LACKING, [value], formula)]))
        page.conditions.append(Condition(f"A{row}", f'$A{row}<>""', "bad"))


def _way_back(context: Context, page: Page) -> None:
    """A link to the first sheet, on all others; there, to where all sheets are listed."""
    first, layout = context.contents.sheets[0].name, context.layout
    row = CAUTIONS_ROW + len(layout.cautions[page.name]) + len(layout.lacking[page.name])
    if page.name == first:
        _way_down(context, page, row)
    else:
        page.bands.append(row_of(row, [(1, Style("link"), phrase("← {sheet}", sheet=first))]))
        page.links[f"A{row}"] = f"{quoted(first)}!A1"


def _way_down(context: Context, page: Page, row: int) -> None:
    """Where a sheet that is out of sight is found, for who looks for it at the top: in the row
    that a first table would need for its headings."""
    placed = context.layout.placed[page.name]
    listed = [each.top for each in placed if isinstance(each.block, LegendBlock)]
    if context.hidden and listed and not isinstance(placed[0].block, TableBlock):
        page.bands.append(row_of(row, [(1, Style("link", spill=True), HIDDEN_TOO)]))
        page.links[f"A{row}"] = f"{quoted(page.name)}!A{listed[0]}"
