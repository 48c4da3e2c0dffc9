"""Charts over the rows of a table: references, and the values they hold now."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.algebra.phrases import Phrase, in_words, joined, phrase
from reportgen.layout.blocks import ChartBlock, ChartSpec
from reportgen.layout.chart_room import chart_height, chart_rows
from reportgen.layout.context import Context
from reportgen.layout.formats import number_format, unit_beside, unit_text
from reportgen.layout.page import Chart, Page, Series
from reportgen.layout.placing import Placed
from reportgen.layout.spots import Spot, letters, quoted

_MOST_CURVES = 6
"""Curves in one chart, each with a colour of its own."""


def add(context: Context, page: Page, placed: Placed) -> None:
    """Put the block's charts in their rows, one under the other."""
    assert isinstance(placed.block, ChartBlock)
    row = placed.first
    for spec in placed.block.charts:
        made = _chart(context, page.name, spec, row)
        if made is not None:
            page.charts.append(made)
        row += chart_rows(spec, context.numbers.rows(spec.table))


def _chart(context: Context, sheet: str, spec: ChartSpec, row: int) -> Chart | None:
    cells = context.numbers.cells[spec.table.name]
    count = context.numbers.rows(spec.table)
    height = chart_height(spec, count)
    if not height:
        return None
    if spec.curves:
        return _curves(context, sheet, spec, row, height)
    labels = ["" if v is None else str(v) for v in cells[spec.labels]]
    label_spot = context.layout.read_at(spec.table.name, spec.labels, sheet)
    series = []
    for name in spec.names:
        spot = context.layout.read_at(spec.table.name, name, sheet)
        label = context.words.label(spec.table, name)
        head = f"{quoted(spot.sheet)}!${letters(spot.column)}${spot.first - 2}"
        values = [float(v) if isinstance(v, int | float) else None for v in cells[name]]
        series.append(
            Series(head, label, _span(label_spot, count), labels, _span(spot, count), values)
        )
    kind = spec.table.kind_of(spec.names[0])
    unit, beside = (Phrase.of(each(kind, context.slots)) for each in (unit_text, unit_beside))
    times = 100 if kind.show == "share" else 1
    said = [
        phrase(
            "{row}: {values}",
            row=label,
            values=joined(
                "{a}, {b}", [_said(s.name_value, s.value_values[n], times) for s in series]
            ),
        )
        for n, label in enumerate(labels[:12])
        if label
    ]
    return Chart(
        spec.kind,
        spec.title,
        "",
        _axis(beside, spec.axis),
        series,
        f"A{row}",
        spec.width,
        height,
        _alt(spec, unit, said),
        number_format(kind, context.slots),
    )


def _curves(context: Context, sheet: str, spec: ChartSpec, row: int, height: float) -> Chart:
    """A curve for each of the first few values of a column, whose rows follow each other."""
    cells = context.numbers.cells[spec.table.name]
    of, along, up = (
        context.layout.read_at(spec.table.name, name, sheet)
        for name in (spec.curves, spec.labels, spec.names[0])
    )
    rows: dict[str, list[int]] = {}
    for at, value in enumerate(cells[spec.curves]):
        rows.setdefault(str(value), []).append(at)
    series, said = [], []
    for name, found in list(rows.items())[:_MOST_CURVES]:
        values = [float(str(cells[spec.names[0]][at])) for at in found]
        head = f"{quoted(of.sheet)}!${letters(of.column)}${of.first + found[0]}"
        labels = [str(cells[spec.labels][at]) for at in found]
        across, upward = (_part(spot, found[0], len(found)) for spot in (along, up))
        series.append(Series(head, name, across, labels, upward, values))
        low, high = f"{min(values):.0f}", f"{max(values):.0f}"
        said.append(phrase("{row}: from {low} to {high}", row=name, low=low, high=high))
    kind, across_kind = spec.table.kind_of(spec.names[0]), spec.table.kind_of(spec.labels)
    unit, beside = (Phrase.of(each(kind, context.slots)) for each in (unit_text, unit_beside))
    label = context.words.label(spec.table, spec.labels)
    return Chart(
        spec.kind,
        spec.title,
        _axis(in_words(across_kind.unit, context.slots), label),
        _axis(beside, spec.axis),
        series,
        f"A{row}",
        spec.width,
        height,
        _alt(spec, unit, said),
        number_format(kind, context.slots),
    )


def _part(spot: Spot, first: int, count: int) -> str:
    """Some rows of a column."""
    letter, top = letters(spot.column), spot.first + first
    return f"{quoted(spot.sheet)}!${letter}${top}:${letter}${top + count - 1}"


def _span(spot: Spot, count: int) -> str:
    return _part(spot, 0, count)


def _axis(unit: str, what: str) -> str:
    known = Phrase.of(what)
    return phrase("{unit}, {what}", unit=unit, what=known) if unit else known


def _alt(spec: ChartSpec, unit: str, said: Sequence[str]) -> str:
    """What a chart says, for who cannot see it."""
    rows = joined("{a}; {b}", said) if said else ""
    return phrase("{title}, in {unit}. {rows}", title=Phrase(spec.title), unit=unit, rows=rows)


def _said(name: str, value: float | None, times: int) -> str:
    known = Phrase.of(name)
    if value is None:
        return phrase("{name} unknown", name=known)
    return phrase("{name} {value}", name=known, value=f"{value * times:.2f}")
