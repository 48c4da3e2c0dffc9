"""Lists of single figures, constants, rules and lines of text."""

from __future__ import annotations

from reportgen.algebra.phrases import Phrase, in_words, phrase, raised
from reportgen.algebra.tables import Table
from reportgen.layout.blocks import (
    ChartBlock,
    ConstantsBlock,
    InWordsBlock,
    LegendBlock,
    ListBlock,
    NewPage,
    RulesBlock,
    SentencesBlock,
    TextBlock,
)
from reportgen.layout.columns import BEHIND, CHECKS, FURTHER, REPEATED
from reportgen.layout.context import Context
from reportgen.layout.formats import (
    ANY,
    CHECK,
    exact,
    input_format,
    number_format,
    unit_beside,
    unit_text,
)
from reportgen.layout.page import Band, Condition, Page, Strip, Style, Value
from reportgen.layout.placing import Placed
from reportgen.layout.spots import Seen, letters, quoted
from reportgen.layout.validation import strays, validation


def _row(row: int, *cells: tuple[int, Style, Value] | tuple[int, Style, Value, str]) -> Band:
    strips = [Strip(c[0], c[1], [c[2]], c[3] if len(c) > 3 else None) for c in cells]
    return Band(row, 1, strips)


_LABEL, _UNIT = Style("label", "@", "left"), Style("text", "@", "left")
_NOTE = Style("text", "@", "left", spill=True)
_WRAPPED = Style("text", "@", "left", wrap=True)


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
    text = kind.type == "text"
    side = "left" if text else "right"
    if name in table.inputs:
        found = table.inputs[name]
        label, doc = context.words.label(table, name), found.doc
        form = input_format(found, kind, context.slots)
        cell: tuple[int, Style, Value] | tuple[int, Style, Value, str] = (
            3,
            Style("given" if found.fixed else "input", form, side, wrap=text),  # type: ignore[arg-type]
            value,
        )
        made = None if found.fixed else validation(found, f"C{row}", context.slots, seen)
        if made is not None:
            page.validations.append(made)
            page.conditions += strays(found, f"C{row}")
    else:
        definition = table.definitions[name]
        label, doc = Phrase.of(definition.label), definition.doc
        formula = (
            context.formulas.formula(definition, seen) if here else seen.single(*definition.key)
        )
        role = "check" if definition.role == "check" else "formula"
        if role == "check":
            form = CHECK
            look = "bad" if definition.severity == "error" else "caution"
            page.conditions.append(Condition(f"C{row}", f"SUM(C{row})>0", look))  # type: ignore[arg-type]
        cell = (3, Style(role, form, side, spill=text), value, formula)  # type: ignore[arg-type]
        page.comments[f"A{row}"] = context.words.comment(definition)
    # A text runs on over the cells beside it, where a number has its unit and its meaning.
    beside = [] if text else [
        (4, _UNIT, unit_beside(kind, context.slots)), (5, _NOTE, doc),
    ]  # fmt: skip
    page.bands.append(_row(row, (1, _LABEL, raised(label)), cell, *beside))


def other(context: Context, page: Page, seen: Seen, placed: Placed) -> None:
    """A block of constants, rules, text or the legend."""
    block = placed.block
    assert not isinstance(block, ChartBlock | NewPage)
    heading = block.heading
    page.bands.append(_row(placed.top, (1, Style("section"), heading)))
    match block:
        case ConstantsBlock():
            _constants(context, page, placed)
        case RulesBlock():
            _rules(context, page, placed)
        case TextBlock():
            role = Style("caution") if block.caution else Style("text", spill=True)
            for offset, line in enumerate(block.lines):
                page.bands.append(_row(placed.first + offset, (1, role, line)))
        case SentencesBlock():
            _sentences(context, page, placed)
        case InWordsBlock():
            for row, name in zip(range(placed.first, placed.last, 2), block.names, strict=True):
                found = block.table.definitions[name]
                label = (1, _LABEL, raised(Phrase.of(found.label)))
                page.bands.append(_row(row, label, (3, _NOTE, context.words.rule(found))))
                page.bands.append(_row(row + 1, (3, _NOTE, found.doc)))
        case LegendBlock():
            _legend(context, page, placed)


def _constants(context: Context, page: Page, placed: Placed) -> None:
    row = placed.first
    for constant in context.layout.used_constants.values():
        value = Style("formula", exact(constant.value), "right")
        unit = in_words(constant.unit, context.slots)
        page.bands.append(
            _row(
                row, (1, _LABEL, constant.label), (3, value, constant.value), (4, _UNIT, unit),
                (5, _WRAPPED, constant.source),
            )
        )  # fmt: skip
        row += 1
    for factor in context.layout.used_factors:
        value = Style("formula", exact(float(factor.value)), "right")
        source = "exact by definition (NIST Special Publication 811, appendix B)"
        if "month" in dict(factor.source.powers) | dict(factor.target.powers):
            source = "a twelfth of 365 days: our convention"
        page.bands.append(
            _row(
                row, (1, _LABEL, factor.label), (3, value, float(factor.value)),
                (4, _UNIT, ""), (5, _WRAPPED, source),
            )
        )  # fmt: skip
        row += 1


_RULE_HEADS = {
    "Quantity": 24.0, "Table": 18.0, "Unit": 12.0, "Rule": 62.0, "What it is": 57.0,
    "Source": 18.0, "Where": None,
}  # fmt: skip
"""The columns of the rules, and the widths of those whose texts are of several lines."""


def _rules(context: Context, page: Page, placed: Placed) -> None:
    heads = [(n, Style("header", wrap=True), text) for n, text in enumerate(_RULE_HEADS, 1)]
    page.bands.append(_row(placed.first - 1, *heads))
    page.widths |= {n: width for n, width in enumerate(_RULE_HEADS.values(), 1) if width}
    ordered = sorted(
        context.book.order, key=lambda d: list(context.book.tables).index(d.table.name)
    )
    columns: list[list[Value]] = [[] for _ in _RULE_HEADS]
    for offset, definition in enumerate(d for d in ordered if d.role != "measured"):
        spot = context.layout.where(definition)
        cells = (
            definition.label, definition.table.title, unit_text(definition.kind, context.slots),
            context.words.rule(definition), definition.doc, definition.source,
            phrase("{sheet}, {cell}", sheet=spot.sheet, cell=spot.cell),
        )  # fmt: skip
        for column, text in zip(columns, cells, strict=True):
            column.append(text)
        if spot.sheet not in context.hidden:
            page.links[f"G{placed.first + offset}"] = f"{quoted(spot.sheet)}!{spot.cell}"
    strips = [Strip(n, _WRAPPED, column) for n, column in enumerate(columns, 1)]
    strips[-1] = Strip(len(columns), Style("text", "@", "left", top=True), columns[-1])
    page.bands.append(Band(placed.first, len(columns[0]), strips))


def _sentences(context: Context, page: Page, placed: Placed) -> None:
    block = placed.block
    assert isinstance(block, SentencesBlock)
    home = context.layout.homes[block.table.name, block.name]
    for offset, value in enumerate(context.numbers.cells[block.table.name][block.name]):
        there = f"{quoted(home.sheet)}!${letters(home.column)}${home.first + offset}"
        style = Style("sentence", ANY, "left")
        page.bands.append(_row(placed.first + offset, (1, style, value, there)))


HOW_TO_SHOW = (
    "Hidden. To show one: right-click the tab of any sheet, then Unhide (in some programs: Show)."
)
COLUMNS_TOO = (
    "Columns that hold nothing are hidden too: mark those beside them, right-click, then Unhide."
)
_KINDS = {"read": "Sheets to read", "record": "Sheets to record in", "audit": "Sheets to audit by"}
_AWAY, _ASIDE = "Not used yet", "For who looks closer"
MADE = (BEHIND, CHECKS, REPEATED)
"""Headings of groups that the layout makes."""
OVER_WORDS = (*_KINDS.values(), _AWAY, _ASIDE, *_RULE_HEADS, FURTHER, *MADE)
"""Headings that no sheet names, which stand over sheets, rules, and columns of many kinds."""


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
    for kind, heading in _KINDS.items():
        page.bands.append(_row(row, (1, Style("group"), heading)))
        row += 1
        for sheet in context.contents.sheets:
            if sheet.tab == kind and sheet.name not in context.hidden:
                page.bands.append(
                    _row(row, (1, Style("link"), sheet.name), (2, _NOTE, sheet.purpose))
                )
                page.links[f"A{row}"] = f"{quoted(sheet.name)}!A1"
                row += 1
    away = [sheet for sheet in context.contents.sheets if sheet.name in context.hidden]
    for heading, sheets in (
        (_AWAY, [sheet for sheet in away if not sheet.aside]),
        (_ASIDE, [sheet for sheet in away if sheet.aside]),
    ):
        if sheets:
            page.bands.append(_row(row, (1, Style("group"), heading)))
            page.bands.append(_row(row + 1, (1, _NOTE, HOW_TO_SHOW)))
            row += 2
        for sheet in sheets:
            name, purpose = (1, Style("text", "@", "left"), sheet.name), (2, _NOTE, sheet.purpose)
            page.bands.append(_row(row, name, purpose))
            row += 1
    if away:
        page.bands.append(_row(row, (1, _NOTE, COLUMNS_TOO)))
