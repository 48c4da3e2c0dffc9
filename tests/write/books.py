"""A workbook with one of everything, and short ways to make and read small ones."""

from __future__ import annotations

import zipfile
from collections.abc import Sequence
from io import BytesIO

import openpyxl
from lxml import etree

from reportgen.algebra.places import ROW
from reportgen.layout.page import (
    Band,
    Chart,
    Condition,
    Page,
    Series,
    Strip,
    Style,
    Validation,
    Value,
    Workbook,
)
from reportgen.write.workbook import render

IDS = ["pears-1", "kale-1", "corn-1", None]
WET: list[Value] = [12.5, 0.1 + 0.2, None, None]
DOUBLE: list[Value] = [25.0, 0.6000000000000001, None, None]


def one_cell(*cells: tuple[int, str, Value], row: int = 1) -> Band:
    """A row of single cells: column, role, value."""
    return Band(row, 1, [Strip(c, Style(role), [value]) for c, role, value in cells])  # type: ignore[arg-type]


def whole() -> Workbook:
    """Two sheets with every kind of thing that a page may hold."""
    texts = [text or "" for text in IDS]
    series = [
        Series(f"Loads!${c}$4", "wet", "Loads!$A$6:$A$9", texts, f"Loads!${c}$6:${c}$9", v)
        for c, v in (("B", WET), ("C", DOUBLE))
    ]
    loads = Page(
        "Loads",
        {1: 14, 2: 10, 3: 10, 4: 20},
        [
            one_cell((1, "title", "Loads"), row=1),
            one_cell((1, "purpose", "What went in."), row=2),
            one_cell((1, "link", "Rates"), row=3),
            one_cell((1, "header", "load"), (2, "header", "wet"), (3, "header", "twice"), row=4),
            one_cell((1, "unit", "id"), (2, "unit", "lb"), (3, "unit", "lb"), row=5),
            Band(
                6,
                4,
                [
                    Strip(1, Style("input", "@", "left"), IDS),
                    Strip(2, Style("input", "0.00", "right"), WET),
                    Strip(
                        3,
                        Style("formula", "0.00", "right"),
                        DOUBLE,
                        f'IF(COUNT($B{ROW}),$B{ROW}+$B{ROW},"")',
                    ),
                    Strip(
                        4,
                        Style("formula"),
                        ["a <b> & c", "a <b> & c", "", ""],
                        f'IF(COUNT($B{ROW}),"a <b> & c","")',
                    ),
                ],
            ),
            one_cell((1, "closing", None), (2, "closing", None), (3, "closing", None), row=10),
        ],
        comments={"C4": "The wet weight twice.\n= wet + wet"},
        links={"A3": "'Rates & all'!A1"},
        validations=[
            Validation(
                "B6:B9", "decimal", "0", above=True, title="Wet", prompt="A weight above 0."
            ),
            Validation("A6:A9", "list", '"pears-1,kale-1"', title="Load", prompt="One of the ids."),
        ],
        conditions=[
            Condition("C6:C9", "SUM($C6)>20", "bad"),
            Condition("A6:D9", '$A6=""', "quiet"),
        ],
        charts=[
            Chart("stacked bar", "By load", "", "lb", series, "F2", 12, 8, 'Pears "lead" & <win>'),
            Chart("line", "Over time", "load", "lb", series[:1], "F20", 12, 8, "It falls\nslowly."),
        ],
        freeze="B6",
        title_rows=(4, 5),
    )
    rates = Page(
        "Rates & all",
        {1: 20, 2: 12},
        [
            one_cell((1, "title", "Rates"), row=1),
            one_cell((1, "label", "Electricity"), (2, "input", 0.148), row=3),
            one_cell((1, "caution", "Weight alone cannot prove dryness."), row=5),
        ],
        charts=[
            Chart("scatter", "Dots", "wet", "twice", [
                Series("Loads!$C$4", "twice", "Loads!$B$6:$B$7", ["12.5", "0.3"],
                       "Loads!$C$6:$C$7", [25.0, 0.6])
            ], "A8", 12, 8, "On a line.")
        ],
        freeze="",
        landscape=False,
        tab="audit",
        zoom=90,
    )  # fmt: skip
    return Workbook(
        "Hill & Dale 2026",
        "en",
        [loads, rates],
        {"rates_electricity": "'Rates & all'!$B$3"},
        {"program": "reportgen 0"},
        "a4",
    )


def one_column(
    values: Sequence[Value], formula: str | None = None, role: str = "formula"
) -> Workbook:
    """A sheet with one column from A1 down."""
    strip = Strip(1, Style(role), values, formula)  # type: ignore[arg-type]
    return Workbook("t", "en", [Page("S", bands=[Band(1, len(values), [strip])], freeze="")])


def parts(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def xml(book: Workbook, part: str) -> etree._Element:
    return etree.fromstring(parts(render(book))[part])


def load(book: Workbook, *, values: bool = False) -> openpyxl.Workbook:
    """The rendered workbook, read back: its formulas, or its cached values."""
    return openpyxl.load_workbook(BytesIO(render(book)), data_only=values)
