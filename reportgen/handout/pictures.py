"""Pictures of figures: bars and curves, with the share of width and height that each takes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from reportgen.handout.content import Bar, Bars, Curve, Curves, Figure, Part
from reportgen.handout.costing_groups import COST_PARTS
from reportgen.handout.gather import Gather

_MOST_CURVES = 6
"""Runs whose power is drawn, as in the workbook."""
COMPARED = ("running_per_packed", "full_per_packed", "retail_median")
PURSE = ("expected", "takings")


def made_of(gather: Gather, rows: Sequence[tuple[int, str]]) -> Bars:
    """What the full cost of some products is made of, piece by piece: of drying and packing, for
    what mixes took along stands in the bar of what was dried."""
    most = _most(gather.figure("products", "full_made", row) for row, _ in rows)
    bars = []
    for row, name in rows:
        start, parts = 0.0, []
        for number, column in enumerate(COST_PARTS):
            figure = gather.figure("products", column, row)
            width = max(_number(figure), 0.0) / most
            if width:
                parts.append(Part(number, figure, start, width))
            start += width
        bars.append(Bar(name, tuple(parts), gather.figure("products", "full_made", row)))
    series = tuple(gather.label("products", name) for name in COST_PARTS)
    return _bars(gather, "made_of", series, bars, stacked=True)


def against_shops(gather: Gather, rows: Sequence[tuple[int, str]]) -> Bars:
    """our cost by weight, running and full, and what shops ask."""
    return _beside(gather, "against", "products", COMPARED, rows)


def market_days(gather: Gather, rows: Sequence[tuple[int, str]]) -> Bars:
    """What each market day was to take in, and what it took in."""
    return _beside(gather, "purse", "markets", PURSE, rows)


def _beside(
    gather: Gather, id: str, table: str, columns: Sequence[str], rows: Sequence[tuple[int, str]]
) -> Bars:
    """Figures of each row beside each other."""
    figures = {row: [gather.figure(table, column, row) for column in columns] for row, _ in rows}
    most = _most(each for listed in figures.values() for each in listed)
    bars = [
        Bar(
            name,
            tuple(
                Part(number, each, 0.0, max(_number(each), 0.0) / most)
                for number, each in enumerate(figures[row])
            ),
        )
        for row, name in rows
    ]
    series = tuple(gather.label(table, name) for name in columns)
    return _bars(gather, id, series, bars, stacked=False)


def _bars(
    gather: Gather, id: str, series: Sequence[str], bars: Sequence[Bar], stacked: bool
) -> Bars:
    title, about = gather.texts[f"{id}.title"], gather.texts[f"{id}.purpose"]
    said = []
    for bar in bars:
        parts = [f"{series[part.series]} {part.figure.whole}" for part in bar.parts]
        end = [f"{gather.texts['made_of.total']} {bar.total.whole}"] if bar.total else []
        said.append(f"{bar.name}: {', '.join(parts + end)}.")
    return Bars(id, title, " ".join([about, *said]), series, tuple(bars), stacked)


def power(gather: Gather) -> Curves | None:
    """The power over time of the runs that have a log; none where no run has one."""
    rows: dict[str, list[int]] = {}
    for row, run in enumerate(gather.numbers.cells["power"]["run"]):
        rows.setdefault(str(run), []).append(row)
    if not rows:
        return None
    curves = [_curve(gather, run, found) for run, found in list(rows.items())[:_MOST_CURVES]]
    texts = gather.texts
    said = [
        f"{each.name}: {texts['power.highest']} {each.highest.whole}, "
        f"{texts['power.total']} {each.total.whole}, {texts['power.last']} {each.last.whole}."
        for each in curves
    ]
    about = " ".join([texts["power.purpose"], *said])
    return Curves("power", texts["power.title"], about, tuple(curves), len(rows) - len(curves))


def _curve(gather: Gather, run: str, rows: Sequence[int]) -> Curve:
    watts = [gather.figure("power", "watt", row) for row in rows]
    times = [gather.figure("power", "since", row) for row in rows]
    highest, last = max(watts, key=_number), max(times, key=_number)
    wide, high = _number(last) or 1.0, _number(highest) or 1.0
    points = tuple(
        (_number(time) / wide, 1 - _number(watt) / high)
        for time, watt in zip(times, watts, strict=True)
    )
    at = [each.casefold() for each in gather.keys("runs")].index(run.casefold())
    return Curve(run, points, highest, last, gather.figure("runs", "energy_used", at))


def _number(figure: Figure) -> float:
    return float(figure.value) if isinstance(figure.value, int | float) else 0.0


def _most(figures: Iterable[Figure]) -> float:
    return max((_number(each) for each in figures), default=0.0) or 1.0
