"""The rows of a table as cells: its headings, its columns, what may be typed, what stands out."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.algebra import running_formulas, totals
from reportgen.algebra.nodes import PerRow
from reportgen.algebra.phrases import raised
from reportgen.algebra.places import OWN_ROW, ROW, locator
from reportgen.layout import column_widths
from reportgen.layout.blocks import (
    Group,
    TableBlock,
)
from reportgen.layout.context import Context
from reportgen.layout.formats import ANY, TEXT
from reportgen.layout.heads import Head, head_of
from reportgen.layout.in_use import charted, empty
from reportgen.layout.look import ROW_HEIGHT
from reportgen.layout.page import (
    Band,
    Condition,
    Page,
    Strip,
    Style,
    Value,
)
from reportgen.layout.placing import Placed
from reportgen.layout.spots import Seen, letters
from reportgen.layout.validation import strays, unnamed, validation


def table(context: Context, page: Page, seen: Seen, placed: Placed) -> None:
    """The block's headings and rows, and what stands around them."""
    block = placed.block
    assert isinstance(block, TableBlock)
    if block.heading:
        page.bands.append(row_of(placed.top, [(1, Style("section"), block.heading)]))
    headings, labels, units = [], [], []
    strips: list[Strip] = []
    rowwise: list[tuple[int, Style, Sequence[Value], list[str]]] = []
    for column, group, name in placed.spread:
        if group.heading and name == group.names[0]:
            heading = block.over(group)
            headings.append((column, Style("group"), heading))
            page.spans.append((column, column + len(group.names) - 1, heading))
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
        strips = [s._replace(style=s.style._replace(top=True)) for s in strips]
        rowwise = [(c, style._replace(top=True), v, f) for c, style, v, f in rowwise]
    page.bands.append(row_of(placed.first - 3, headings))
    page.bands.append(row_of(placed.first - 2, labels))
    page.bands.append(row_of(placed.first - 1, units))
    if rowwise:
        for offset in range(placed.rows):
            singles = [Strip(s.column, s.style, [s.values[offset]], s.formula) for s in strips] + [
                Strip(c, style, [v[offset]], f[offset]) for c, style, v, f in rowwise
            ]
            singles.sort(key=lambda s: s.column)
            page.bands.append(Band(placed.first + offset, 1, singles))
    else:
        page.bands.append(Band(placed.first, placed.rows, strips))
    page.bands.append(_closing(context, seen, placed))
    if block.note:
        page.bands.append(row_of(placed.last, [(1, Style("text", spill=True), block.note)]))


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
    if group.echo or name in group.mirrored:
        shown = ANY if style.format == TEXT else style.format
        style = style._replace(role="formula", format=shown)
    if name in group.mirrored:
        return Strip(column, style, values, seen.cell(table.name, name))
    if group.echo:
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
    helper = context.running.helpers.get((table.name, name))
    if helper is not None:
        text = running_formulas.formula(context.running, helper, seen)
        return Strip(column, style, _filled(context.running.values(helper), placed), text)
    link = name.removesuffix("_row")
    found = context.numbers.found(table, link)
    rows: list[Value] = [None if n is None else n + 1 for n in found]
    assert name == locator(link)
    return Strip(
        column,
        style,
        _filled(rows, placed),
        running_formulas.row_number(context.running, table, link, seen),
    )


def _closing(context: Context, seen: Seen, placed: Placed) -> Band:
    """The ruled row that ends a table; below running columns, what proves them."""
    assert isinstance(placed.block, TableBlock)
    table, style, strips = placed.block.table.name, Style("closing"), []
    for column, group, name in placed.spread:
        helper = None if group.echo else context.running.helpers.get((table, name))
        formula = None if helper is None else running_formulas.closing(helper, seen)
        value = None if helper is None or formula is None else context.running.closing(helper)
        strips.append(Strip(column, style, [value], formula))
    return Band(placed.first + placed.rows, 1, strips)


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
    """Validation of an input column, the look of a failing check, of a row without an id."""
    block = placed.block
    assert isinstance(block, TableBlock)
    last = placed.first + max(placed.rows, 1) - 1
    corner = f"{letters(column)}{placed.first}"
    cells = corner if last == placed.first else f"{corner}:{letters(column)}{last}"
    if name == "key" and "key" not in block.table.definitions and not group.echo:
        typed = [n for n, each in block.table.inputs.items() if not each.fixed]
        inputs = [at for at, each, n in placed.spread if n in typed and not each.echo]
        page.conditions += unnamed(column, inputs, placed.first, last)
    if name in block.table.inputs and not group.echo:
        found = block.table.inputs[name]
        if not found.fixed:
            made = validation(found, cells, context.slots, seen)
            if made is not None:
                page.validations.append(made)
                page.conditions += strays(found, cells)
    if name in block.table.definitions:
        definition = block.table.definitions[name]
        if definition.role == "check":
            look = "bad" if definition.severity == "error" else "caution"
            page.conditions.append(Condition(cells, f"SUM({corner})>0", look))  # type: ignore[arg-type]
        for word, seen_as in context.contents.looks.get(definition.key, {}).items():
            formula = f"{corner}={context.formulas.fixed(word)}"
            page.conditions.append(Condition(cells, formula, seen_as))


def put_away(
    context: Context, page: Page, placed: Placed, beside: frozenset[int], record: bool
) -> None:
    """Fold groups that nobody filled and that stand in none of the columns (``beside``) which other
    blocks of the sheet take; let ``record`` tables be filtered: where the sheet is theirs."""
    assert isinstance(placed.block, TableBlock)
    table = placed.block.table
    folded: set[int] = set()
    kept = charted(context.contents.sheets)
    for group in placed.columns[1:]:
        columns = {column for column, each, _ in placed.spread if each is group}
        shown = any((table.name, name) in kept for name in group.names)
        if not columns & beside and not shown and context.numbers.rows(table):
            folded |= columns if empty(group, table, context.numbers) else set()
    page.folded = frozenset(folded)
    if record:
        last = placed.first + placed.rows - 1
        page.bands = [
            _with_buttons(each) if each.first == placed.first - 1 else each for each in page.bands
        ]
        # The marks of rows are in it, so that they go where a sort takes their rows.
        beyond = max(placed.taken | page.unseen)
        page.filtered = f"A{placed.first - 1}:{letters(beyond)}{last}"


def _with_buttons(heads: Band) -> Band:
    """The row above the records, its texts above the buttons that filter them."""
    strips = [each._replace(style=each.style._replace(top=True)) for each in heads.strips]
    return heads._replace(strips=strips, more=ROW_HEIGHT)


def row_of(row: int, cells: Sequence[tuple[int, Style, Value]]) -> Band:
    """A row of single cells: column, look, value."""
    return Band(row, 1, [Strip(column, style, [value]) for column, style, value in cells])
