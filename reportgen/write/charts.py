"""Live charts, with the values that they show now, for programs that do not recalculate."""

from __future__ import annotations

import re
from typing import Any

from openpyxl.chart import BarChart, LineChart, ScatterChart
from openpyxl.chart.data_source import (
    AxDataSource,
    NumData,
    NumDataSource,
    NumRef,
    NumVal,
    StrData,
    StrRef,
    StrVal,
)
from openpyxl.chart.layout import Layout
from openpyxl.chart.legend import Legend
from openpyxl.chart.marker import Marker
from openpyxl.chart.series import Series, SeriesLabel, XYSeries
from openpyxl.chart.shapes import GraphicalProperties
from openpyxl.chart.text import RichText, Text
from openpyxl.chart.title import Title
from openpyxl.drawing.line import LineProperties
from openpyxl.drawing.text import (
    CharacterProperties,
    Font,
    Paragraph,
    ParagraphProperties,
    RegularTextRun,
    RichTextProperties,
)
from openpyxl.worksheet.worksheet import Worksheet

from reportgen.layout import look
from reportgen.layout.page import Chart, Page
from reportgen.layout.page import Series as Line
from reportgen.write.escaping import escape_value
from reportgen.write.limits import holdable


def add_charts(sheet: Worksheet, page: Page) -> None:
    """Put the page's charts on the sheet."""
    for wanted in page.charts:
        sheet.add_chart(_chart(wanted), wanted.anchor)


def _chart(wanted: Chart) -> Any:
    chart = _kind(wanted.kind)
    chart.title = _title(wanted.title, 12, bold=True)
    chart.width, chart.height = wanted.width_cm, wanted.height_cm
    chart.roundedCorners = False
    chart.visible_cells_only = False  # what is filtered or folded away stays in the picture
    chart.graphical_properties = GraphicalProperties(
        solidFill=look.WHITE, ln=LineProperties(noFill=True)
    )
    chart.legend = None
    if len(wanted.series) > 1:
        chart.legend = Legend()
        chart.legend.position, chart.legend.overlay = "b", False
        chart.legend.txPr = _type(9)
    flat = isinstance(chart, BarChart) and chart.barDir == "bar"
    across, up = ("l", "b") if flat else ("b", "l")
    _axis(chart.x_axis, wanted.x_title, across, None)
    if hasattr(chart.x_axis, "tickLblSkip"):
        chart.x_axis.tickLblSkip = 1  # every category is named, however small
    _axis(chart.y_axis, wanted.y_title, up, wanted.format)
    if flat:
        chart.x_axis.scaling.orientation = "maxMin"  # top down, as in the table
        chart.y_axis.crosses, chart.y_axis.tickLblPos = "max", "nextTo"  # at the foot
    chart.series = [_series(chart, each, at, wanted.kind) for at, each in enumerate(wanted.series)]
    return chart


def _kind(kind: str) -> Any:
    if kind == "line":
        return LineChart()
    if kind in ("scatter", "curve"):
        chart = ScatterChart()
        chart.style, chart.scatterStyle = None, "lineMarker"
        return chart
    chart = BarChart()
    chart.barDir = "bar" if kind.endswith("bar") else "col"
    stacked = kind.startswith("stacked")
    chart.grouping = "stacked" if stacked else "clustered"
    chart.overlap = 100 if stacked else 0
    chart.gapWidth = 60
    return chart


def _axis(axis: Any, title: str, side: str, format: str | None) -> None:
    axis.delete = False
    axis.axPos = side
    axis.title = _title(title, 9, upright=side == "l") if title else None
    axis.txPr = _type(9)
    axis.graphicalProperties = GraphicalProperties(ln=LineProperties(solidFill=look.AXIS))
    axis.majorTickMark = axis.minorTickMark = "none"
    axis.tickLblPos = "low"
    if format is None and not hasattr(axis, "noMultiLvlLbl"):  # the x axis of dots is a number's
        format = "General"
    if format is None:
        axis.majorGridlines = None
        return
    axis.number_format = format
    axis.numFmt.sourceLinked = False
    if axis.majorGridlines is not None:
        axis.majorGridlines.spPr = GraphicalProperties(ln=LineProperties(solidFill=look.GRID))


def _series(chart: Any, wanted: Line, at: int, kind: str) -> Series:
    values = NumDataSource(numRef=NumRef(f=wanted.values, numCache=_numbers(wanted.value_values)))
    if isinstance(chart, ScatterChart):
        series = XYSeries(idx=at, order=at)
        series.xVal, series.yVal = _along(wanted), values
    else:
        series = Series(idx=at, order=at)
        texts = _texts(wanted.category_values)
        series.cat = AxDataSource(strRef=StrRef(f=wanted.categories, strCache=texts))
        series.val = values
    series.tx = SeriesLabel(strRef=StrRef(f=wanted.name, strCache=_texts([wanted.name_value])))
    if isinstance(chart, BarChart):
        series.invertIfNegative = False
        series.spPr = GraphicalProperties(
            solidFill=look.SERIES[at % len(look.SERIES)],
            ln=LineProperties(solidFill=look.OUTLINE, w=6350),
        )
    else:
        _drawn(series, at, kind)
    return series


def _drawn(series: Series, at: int, kind: str) -> None:
    """Lines with a marker of their own, markers alone, or (many points) lines alone."""
    colour = look.LINES[at % len(look.LINES)]
    bare = kind == "scatter"
    line = LineProperties(noFill=True) if bare else LineProperties(solidFill=colour, w=22225)
    series.spPr = GraphicalProperties(ln=line)
    series.smooth = False
    if kind == "curve":
        series.marker = Marker(symbol="none")
        return
    series.marker = Marker(symbol=look.MARKERS[at % len(look.MARKERS)], size=7)
    series.marker.spPr = GraphicalProperties(solidFill=colour, ln=LineProperties(solidFill=colour))


def _along(wanted: Line) -> AxDataSource:
    """The numbers along the x axis."""
    numbers = [float(text) if text else None for text in wanted.category_values]
    return AxDataSource(numRef=NumRef(f=wanted.categories, numCache=_numbers(numbers)))


def _numbers(values: Any) -> NumData:
    points = [NumVal(idx=at, v=value) for at, value in enumerate(values) if value is not None]
    return NumData(formatCode="General", ptCount=len(values), pt=points)


def _texts(values: Any) -> StrData:
    points = [StrVal(idx=at, v=holdable(value)) for at, value in enumerate(values)]
    return StrData(ptCount=len(values), pt=points)


def _title(text: str, size: float, *, bold: bool = False, upright: bool = False) -> Title:
    run = RegularTextRun(rPr=_letters(size, bold=bold), t=holdable(text))
    paragraph = Paragraph(pPr=ParagraphProperties(defRPr=_letters(size, bold=bold)), r=[run])
    turn = RichTextProperties(rot=-5_400_000, vert="horz") if upright else RichTextProperties()
    title = Title(tx=Text(rich=RichText(p=[paragraph], bodyPr=turn)))
    title.overlay, title.layout = False, Layout()
    return title


def _type(size: float) -> RichText:
    properties = ParagraphProperties(defRPr=_letters(size))
    return RichText(p=[Paragraph(pPr=properties, r=[], endParaRPr=CharacterProperties())])


def _letters(size: float, *, bold: bool = False) -> CharacterProperties:
    return CharacterProperties(
        sz=round(size * 100), b=bold, solidFill=look.INK, latin=Font(typeface=look.FONT)
    )


def with_alt(drawing: bytes, charts: list[Chart]) -> bytes:
    """The drawing part with each chart's text alternative and its title as its name."""

    def named(found: re.Match[str]) -> str:
        chart = charts[int(found[1]) - 1]
        return f'name="{_attribute(chart.title)}" descr="{_attribute(chart.alt)}"'

    return re.sub(r'name="Chart (\d+)"', named, drawing.decode()).encode()


def _attribute(text: str) -> str:
    return escape_value(holdable(text))
