"""From sheets, layout and numbers to finished pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from reportgen.algebra import totals
from reportgen.algebra.book import Book
from reportgen.algebra.formulas import Formulas
from reportgen.algebra.language import in_language
from reportgen.algebra.nodes import PerRow
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.phrases import Phrase, Say, phrase, raised, spoken
from reportgen.algebra.places import OWN_ROW, ROW, locator
from reportgen.algebra.words import Words
from reportgen.layout import charts, column_widths, lists, row_marks, translate
from reportgen.layout.blocks import (
    ChartBlock,
    Contents,
    Group,
    ListBlock,
    RulesBlock,
    Sheet,
    TableBlock,
)
from reportgen.layout.context import Context
from reportgen.layout.formats import ANY, TEXT
from reportgen.layout.heads import Head, head_of
from reportgen.layout.page import (
    Band,
    Condition,
    Page,
    Strip,
    Style,
    Value,
    Workbook,
)
from reportgen.layout.placing import CAUTIONS_ROW, Layout, Placed
from reportgen.layout.print_pieces import pieces
from reportgen.layout.spots import Seen, letters, quoted
from reportgen.layout.validation import validation


def compose(
    contents: Contents,
    numbers: Numbers,
    title: str,
    language: str,
    paper: str,
    say: Say = str,
) -> Workbook:
    """The whole workbook; ``say``: the program's texts in its language."""
    book, slots = numbers.book, numbers.slots
    contents = translate.named(contents, say)
    numbers = numbers if say is str else in_language(numbers, say, translated(book))
    rows = {name: numbers.rows(table) for name, table in book.tables.items()}
    layout = Layout(book, contents, rows, slots)
    formulas, words = Formulas(book, slots, say), Words(book, slots)
    context = Context(book, numbers, layout, formulas, words, contents, slots, say)
    pages = [_page(context, sheet) for sheet in contents.sheets]
    if contents.memory is not None:
        pages.append(contents.memory(layout.placed, pages))
    return Workbook(
        spoken(title, say),
        language,
        pages,
        layout.named(),
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
    page = Page(sheet.name, landscape=sheet.landscape, one_page=sheet.one_page, tab=sheet.tab)
    placed = context.layout.placed[sheet.name]
    seen = context.layout.seen_from(sheet.name)
    page.bands += [
        _row(1, [(1, Style("title"), sheet.name)]),
        _row(2, [(1, Style("purpose"), sheet.purpose)]),
    ]
    _verdict(context, page, seen)
    for row, caution in enumerate(context.layout.cautions[sheet.name], CAUTIONS_ROW):
        page.bands.append(_row(row, [(1, Style("caution"), Phrase(caution))]))
    _way_back(context, page)
    for each in placed:
        match each.block:
            case TableBlock():
                _table(context, page, seen, each)
            case ListBlock():
                lists.figures(context, page, seen, each)
            case ChartBlock():
                charts.add(context, page, each)
            case _:
                lists.other(context, page, seen, each)
    row_marks.add(context, page, placed)
    translate.speak(page, context.say)
    page.widths = column_widths.widths(page)
    page.pieces = list(pieces(page, placed))
    page.freeze, page.title_rows = "A4", (1, 3)
    if placed and isinstance(placed[0].block, TableBlock | RulesBlock):
        page.freeze, first = "B4", placed[0].first
        if len(page.pieces) == 1:
            heads = 3 if isinstance(placed[0].block, TableBlock) else 1
            page.freeze, page.title_rows = f"B{first}", (first - heads, first - 1)
    return page


def _row(row: int, cells: Sequence[tuple[int, Style, Value]], height: float | None = None) -> Band:
    return Band(row, 1, [Strip(column, style, [value]) for column, style, value in cells], height)


def _verdict(context: Context, page: Page, seen: Seen) -> None:
    """The master verdict, on every sheet."""
    reference = seen.single(*context.contents.verdict)
    value = context.numbers.value(*context.contents.verdict)
    page.bands.append(Band(3, 1, [Strip(1, Style("verdict", ANY, "left"), [value], reference)]))


def _way_back(context: Context, page: Page) -> None:
    """A link to the first sheet, on all others."""
    first = context.contents.sheets[0].name
    if page.name != first:
        row = CAUTIONS_ROW + len(context.layout.cautions[page.name])
        page.bands.append(_row(row, [(1, Style("link"), phrase("← {sheet}", sheet=first))]))
        page.links[f"A{row}"] = f"{quoted(first)}!A1"


def _table(context: Context, page: Page, seen: Seen, placed: Placed) -> None:
    block = placed.block
    assert isinstance(block, TableBlock)
    if block.heading:
        page.bands.append(_row(placed.top, [(1, Style("section"), block.heading)]))
    headings, labels, units = [], [], []
    strips: list[Strip] = []
    rowwise: list[tuple[int, Style, Sequence[Value], list[str]]] = []
    column = 0
    for group in placed.columns:
        if group.heading:
            headings.append((column + 1, Style("group"), group.heading))
            # What is for the screen may be printed in part, beside a wider block.
            columns = len(group.names) if group.printed else 1
            page.spans.append((column + 1, column + columns, group.heading))
        for name in group.names:
            column += 1
            head = head_of(context, block.table, name)
            align = head.align
            label = raised(head.label)
            labels.append((column, Style("header", align=align, wrap=True), label))
            units.append((column, Style("unit", align=align, wrap=True), head.unit))
            page.comments[f"{letters(column)}{placed.first - 2}"] = head.comment
            strip = _strip(context, seen, placed, group, name, column, head)
            if isinstance(strip, Strip):
                strips.append(strip)
                _around(context, page, seen, placed, group, name, column)
            else:
                rowwise.append(strip)
    tall = any(strip.style.wrap for strip in strips) or any(each[1].wrap for each in rowwise)
    if tall:
        strips = [replace(strip, style=replace(strip.style, top=True)) for strip in strips]
        rowwise = [(c, replace(style, top=True), v, f) for c, style, v, f in rowwise]
    page.bands.append(_row(placed.first - 3, headings))
    page.bands.append(_row(placed.first - 2, labels))
    page.bands.append(_row(placed.first - 1, units))
    if rowwise:
        for offset in range(placed.rows):
            singles = [Strip(s.column, s.style, [s.values[offset]], s.formula) for s in strips] + [
                Strip(c, style, [v[offset]], f[offset]) for c, style, v, f in rowwise
            ]
            singles.sort(key=lambda s: s.column)
            page.bands.append(Band(placed.first + offset, 1, singles))
    else:
        page.bands.append(Band(placed.first, placed.rows, strips))
    closing = [(n, Style("closing"), None) for n in range(1, column + 1)]
    page.bands.append(_row(placed.first + placed.rows, closing))
    if block.note:
        page.bands.append(_row(placed.last, [(1, Style("text", spill=True), block.note)]))


def _strip(
    context: Context,
    seen: Seen,
    placed: Placed,
    group: Group,
    name: str,
    column: int,
    head: Head,
) -> Strip | tuple[int, Style, Sequence[Value], list[str]]:
    block = placed.block
    assert isinstance(block, TableBlock)
    table, layout = block.table, context.layout
    known = name in context.numbers.cells[table.name]
    values = _filled(context.numbers.cells[table.name][name] if known else [], placed)
    style = Style(
        head.role, head.format, head.align, wrap=group.printed and column_widths.long(values)
    )
    if group.echo:
        style = replace(style, role="formula", format=ANY if style.format == TEXT else style.format)
        there = layout.seen_from("").cell(table.name, name)
        there += '&""' if head.kind.type == "text" else ""
        home = layout.column(table.name, name).first
        if home == placed.first:
            return Strip(column, style, values, there)
        return (
            column,
            style,
            values,
            [there.replace(ROW, str(home + offset)) for offset in range(placed.rows)],
        )
    if name in table.definitions:
        definition = table.definitions[name]
        if isinstance(definition.tree, PerRow):
            return column, style, values, context.formulas.formulas(definition, seen)
        formula = context.formulas.formula(definition, seen)
        return Strip(column, style, values, formula)
    if name == "key" or name in table.inputs:
        return Strip(column, style, values)
    if name == OWN_ROW:
        numbers: list[Value] = [n + 1 for n in range(context.numbers.rows(table))]
        return Strip(column, style, _filled(numbers, placed), totals.own_row(table, seen))
    link = name.removesuffix("_row")
    found = context.numbers.found(table, link)
    rows: list[Value] = [None if n is None else n + 1 for n in found]
    assert name == locator(link)
    return Strip(column, style, _filled(rows, placed), totals.row_number(table, link, seen))


def _filled(values: Sequence[Value], placed: Placed) -> list[Value]:
    """The column's values, and nothing in the rows that are not in use."""
    return [*values, *[None] * (placed.rows - len(values))]


def _around(
    context: Context,
    page: Page,
    seen: Seen,
    placed: Placed,
    group: Group,
    name: str,
    column: int,
) -> None:
    """Validation of an input column, the look of a failing check."""
    block = placed.block
    assert isinstance(block, TableBlock)
    last = placed.first + max(placed.rows, 1) - 1
    cells = f"{letters(column)}{placed.first}:{letters(column)}{last}"
    if name in block.table.inputs and not group.echo:
        found = block.table.inputs[name]
        if not found.fixed:
            made = validation(found, cells, context.slots, seen)
            if made is not None:
                page.validations.append(made)
    if name in block.table.definitions:
        definition = block.table.definitions[name]
        corner = f"{letters(column)}{placed.first}"
        if definition.role == "check":
            look = "bad" if definition.severity == "error" else "caution"
            page.conditions.append(Condition(cells, f"SUM({corner})>0", look))  # type: ignore[arg-type]
        for word, seen_as in context.contents.looks.get(definition.key, {}).items():
            formula = f"{corner}={context.formulas.fixed(word)}"
            page.conditions.append(Condition(cells, formula, seen_as))
