"""Lists of single figures, constants, rules and lines of text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reportgen.algebra.phrases import Phrase, in_words, phrase, raised
from reportgen.algebra.tables import Table
from reportgen.model.fields import Input
from reportgen.sheets.blocks import (
    ChartBlock,
    ConstantsBlock,
    LegendBlock,
    ListBlock,
    RulesBlock,
    SentencesBlock,
    TextBlock,
)
from reportgen.sheets.formats import CHECK, number_format, unit_text
from reportgen.sheets.inputs import validation
from reportgen.sheets.layout import Placed, Seen, letters, quoted
from reportgen.sheets.page import Band, Condition, Page, Strip, Style, Value

if TYPE_CHECKING:
    from reportgen.sheets.compose import Context


def _row(row: int, *cells: tuple[int, Style, Value] | tuple[int, Style, Value, str]) -> Band:
    strips = [Strip(c[0], c[1], [c[2]], c[3] if len(c) > 3 else None) for c in cells]
    return Band(row, 1, strips)


_LABEL, _UNIT, _NOTE = Style("label", "@", "left"), Style("text", "@", "left"), Style("text")


def figures(context: Context, page: Page, seen: Seen, placed: Placed) -> None:
    """One figure a row: label, value, unit, what it is."""
    block = placed.block
    assert isinstance(block, ListBlock)
    page.bands.append(_row(placed.top, (1, Style("section"), block.heading)))
    for offset, (table, name) in enumerate(context.layout.items(block)):
        row = placed.first + offset
        _figure(context, page, seen, table, name, row)


def _figure(context: Context, page: Page, seen: Seen, table: Table, name: str, row: int) -> None:
    kind = table.kind_of(name)
    value = context.numbers.value(table.name, name)
    home = context.layout.singles[table.name, name]
    here = (home.sheet, home.first) == (page.name, row)
    form = number_format(kind, context.slots)
    side = "left" if kind.type == "text" else "right"
    if name in table.inputs:
        found = table.inputs[name]
        assert isinstance(found, Input)
        label, doc = name.replace("_", " "), found.doc
        cell: tuple[int, Style, Value] | tuple[int, Style, Value, str] = (
            3, Style("given" if found.fixed else "input", form, side), value,  # type: ignore[arg-type]
        )  # fmt: skip
        made = validation(found, f"C{row}", context.slots, seen)
        if made is not None:
            page.validations.append(made)
    else:
        definition = table.definitions[name]
        label, doc = definition.label, definition.doc
        formula = (
            context.formulas.formula(definition, seen) if here else seen.single(*definition.key)
        )
        role = "check" if definition.role == "check" else "formula"
        if role == "check":
            form = CHECK
            look = "bad" if definition.severity == "error" else "caution"
            page.conditions.append(Condition(f"C{row}", f"N(C{row})>0", look))  # type: ignore[arg-type]
        cell = (3, Style(role, form, side), value, formula)  # type: ignore[arg-type]
        page.comments[f"A{row}"] = context.words.comment(definition)
    # A text runs on over the cells beside it, where a number has its unit and its meaning.
    beside = [] if kind.type == "text" else [
        (4, _UNIT, unit_text(kind, context.slots)), (5, _NOTE, doc),
    ]  # fmt: skip
    page.bands.append(_row(row, (1, _LABEL, raised(label)), cell, *beside))


def other(context: Context, page: Page, seen: Seen, placed: Placed) -> None:
    """A block of constants, rules, text or the legend."""
    block = placed.block
    heading = "" if isinstance(block, ChartBlock) else block.heading
    page.bands.append(_row(placed.top, (1, Style("section"), heading)))
    match block:
        case ConstantsBlock():
            _constants(context, page, placed)
        case RulesBlock():
            _rules(context, page, placed)
        case TextBlock():
            role = Style("caution" if block.caution else "text")
            for offset, line in enumerate(block.lines):
                page.bands.append(_row(placed.first + offset, (1, role, line)))
        case SentencesBlock():
            _sentences(context, page, placed)
        case LegendBlock():
            _legend(context, page, placed)


def _constants(context: Context, page: Page, placed: Placed) -> None:
    row = placed.first
    for constant in context.layout.used_constants.values():
        value = Style("formula", "0.############", "right")
        unit = in_words(constant.unit, context.slots)
        page.bands.append(
            _row(
                row, (1, _LABEL, constant.label), (3, value, constant.value), (4, _UNIT, unit),
                (5, _NOTE, _source(constant.source)),
            )
        )  # fmt: skip
        row += 1
    for factor in context.layout.used_factors:
        value = Style("formula", "0.############", "right")
        source = "exact by definition (NIST Special Publication 811, appendix B)"
        page.bands.append(
            _row(
                row, (1, _LABEL, factor.label), (3, value, float(factor.value)),
                (4, _UNIT, ""), (5, _NOTE, _source(source)),
            )
        )  # fmt: skip
        row += 1


def _source(text: str) -> str:
    return phrase("Source: {source}", source=Phrase(text))


_RULE_HEADS = ("Quantity", "Table", "Unit", "Rule", "What it is", "Source", "Where")


def _rules(context: Context, page: Page, placed: Placed) -> None:
    heads = [(n, Style("header", wrap=True), text) for n, text in enumerate(_RULE_HEADS, 1)]
    page.bands.append(_row(placed.first - 1, *heads))
    ordered = sorted(
        context.book.order, key=lambda d: list(context.book.tables).index(d.table.name)
    )
    for offset, definition in enumerate(d for d in ordered if d.role != "measured"):
        spot = context.layout.where(definition)
        row = placed.first + offset
        cells: list[Value] = [
            definition.label, definition.table.title, unit_text(definition.kind, context.slots),
            context.words.rule(definition), definition.doc, definition.source,
            phrase("{sheet}, {cell}", sheet=spot.sheet, cell=spot.cell),
        ]  # fmt: skip
        wrapped = Style("text", "@", "left", wrap=True)
        page.bands.append(_row(row, *((n, wrapped, text) for n, text in enumerate(cells, 1))))
        page.links[f"G{row}"] = f"'{spot.sheet}'!{spot.cell}"


def _sentences(context: Context, page: Page, placed: Placed) -> None:
    block = placed.block
    assert isinstance(block, SentencesBlock)
    home = context.layout.homes[block.table.name, block.name]
    for offset, value in enumerate(context.numbers.cells[block.table.name][block.name]):
        there = f"{quoted(home.sheet)}!${letters(home.column)}${home.first + offset}"
        style = Style("label", "@", "left")
        page.bands.append(_row(placed.first + offset, (1, style, value, there)))


def _legend(context: Context, page: Page, placed: Placed) -> None:
    row = placed.first
    samples: tuple[tuple[Style, Value, str], ...] = (
        (Style("input", "0.0", "right"), 12.5, "Framed: type here. Everything follows."),
        (
            Style("formula", "0.0", "right"),
            12.5,
            "Plain: worked out. Empty while something is unknown.",
        ),
        (Style("check", CHECK, "right"), 0, "A check: ok, or look. Its header says what is wrong."),
    )
    for style, value, text in samples:
        page.bands.append(_row(row, (1, style, value), (2, _NOTE, text)))
        row += 1
    for sheet in context.sheets:
        page.bands.append(_row(row, (1, Style("link"), sheet.name), (2, _NOTE, sheet.purpose)))
        page.links[f"A{row}"] = f"'{sheet.name}'!A1"
        row += 1
