"""How much room charts take on a sheet."""

from __future__ import annotations

from reportgen.layout.blocks import ChartSpec

_ROW_CM = 0.53
_BARS = (4.0, 1.0, 16.0)
"""Centimetres of a chart with bars lying down: around them, for each row of bars, at most."""
_UPRIGHT = 9.0


def chart_height(chart: ChartSpec, rows: int) -> float:
    """Centimetres; 0 where there is nothing to show, or too much."""
    if not rows or (rows > chart.most_rows and not chart.curves):
        return 0.0
    around, each, most = _BARS
    lying = chart.kind.endswith("bar")
    return min(around + each * rows, most) if lying else _UPRIGHT


def chart_rows(chart: ChartSpec, rows: int) -> int:
    """Sheet rows that a chart takes, with one to spare."""
    height = chart_height(chart, rows)
    return int(height / _ROW_CM) + 2 if height else 0
