"""What somebody might type into cells of a season's workbook, the empty ones above all.

Nobody says what it should come to: the workbook itself does, once it is worked out again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from random import Random

from engines.cells import Place, Value
from workbook.places import Grid
from workbook.typing_in import WRITTEN

from reportgen.algebra.inputs import Input
from reportgen.algebra.numbers import Numbers
from reportgen.edits.present import field_of
from reportgen.model.season import Season
from reportgen.trade import BOOK
from reportgen.trade.rows import follow
from reportgen.units import DRIED, FRESH, HOUR

FIRST_DAY = 45_809
"""2025-06-01, as a spreadsheet counts days; made-up seasons begin there."""
SELDOM = ("carried_", "_weighings", "_step", "_about")
"""Parts of the names of inputs that are hardly ever typed, or refused alone."""
FIXED = ("key", "finished", "rest")
"""Ids are renamed by other tests; ``rest`` asks for a column that the program fills."""


@dataclass(frozen=True)
class Blank:
    """An input of a record that is in the files: its cell, and what stands there now."""

    table: str
    row: int
    column: Input
    cell: Place
    now: Value


def cells(season: Season, numbers: Numbers, grids: Mapping[str, Grid]) -> Iterator[Blank]:
    """Every cell that is typed into for a record that there is."""
    following = follow(BOOK, numbers.cells)
    for table, grid in grids.items():
        rows = season.tables.get(WRITTEN.get(table, table))
        for name, column in BOOK.tables[table].inputs.items():
            if rows is None or table in following or column.fixed:
                continue
            if name not in rows.values or name not in grid.columns:
                continue
            for row in range(1 if grid.single else grid.filled):
                now = numbers.cells[table][name][row]
                yield Blank(table, row, column, grid.columns[name].cell(row), now)


def said(
    typed: Sequence[tuple[Blank, Value]], grids: Mapping[str, Grid], after: Numbers
) -> dict[Place, Value]:
    """The cells that say in plain numbers what was typed: with a comma, or as an estimate, or over
    a weight of several weighings, which is one then. ``after``: what was read from the files then,
    which knows to what digit a weighing was written."""
    found: dict[Place, Value] = {}
    for blank, value in typed:
        columns, name = grids[blank.table].columns, blank.column.name
        found[blank.cell] = value
        if name in ("weighing_before", "weighing_last"):
            step = after.cells[blank.table]["weighing_step"][blank.row]
            found[columns["weighing_step"].cell(blank.row)] = step
        if blank.column.type != "number" or value is None:
            continue
        if isinstance(value, str):
            found[blank.cell] = float(value.lstrip("~").replace(",", "."))
            if value.startswith("~"):
                found[columns[blank.column.about].cell(blank.row)] = 1
        counted = columns.get(f"{name.removesuffix('_weighed')}_weighings")
        if counted is not None:
            found[counted.cell(blank.row)] = 1
    return found


def value(rng: Random, blank: Blank, numbers: Numbers, season: Season) -> Value:
    """Something of the kind that belongs there; None where nothing would."""
    column = blank.column
    if column.choices:
        return rng.choice(column.choices)
    if column.ref:
        keys = [str(key) for key in numbers.cells[column.ref]["key"]]
        return rng.choice(keys) if keys else None
    match column.type:
        case "text":
            if column.name == "id":
                return "spare-load"
            if column.name == "container":
                return rng.choice(("box", "lug", "crate"))
            return rng.choice(("typed by hand", "Orchard: no. 7", "a # b", "été"))
        case "flag":
            return 1
        case "date":
            whole = FIRST_DAY + rng.randint(0, 160)
            return whole + rng.choice((0.25, 0.5, 0.8125)) if column.clock else whole
    return _number(rng, column, season)


def _number(rng: Random, column: Input, season: Season) -> Value:
    low = column.least if column.least is not None else 0.0
    if column.whole:
        number: float = low + rng.randint(1, 6)
    elif column.share:
        number = rng.choice((0.05, 0.25, 0.4, 0.85))
    elif column.unit == HOUR:
        number = rng.choice((3.5, 24.0, 30.25))
    elif column.unit in (FRESH, DRIED):
        number = rng.choice((0.4, 1.3, 6.2, 22.1))
    else:
        number = rng.choice((0.3, 1.5, 7.25, 40.0))
    if column.most is not None and number > column.most:
        number = column.most / 2
    way = rng.random()
    if way < 0.1:
        return f"{number:.10g}".replace(".", ",")
    if way < 0.2 and column.about:
        return f"~{number:.10g}"
    return number


def typed_at_random(
    rng: Random, season: Season, numbers: Numbers, grids: Mapping[str, Grid]
) -> dict[Place, tuple[Blank, Value]]:
    """A few cells, most of them empty, and of each table as often: more than one in some rows, for
    what is typed side by side may be written on one line."""
    found = [each for each in cells(season, numbers, grids) if each.column.name not in FIXED]
    tables: dict[str, list[Blank]] = {}
    for each in found:
        if any(part in each.column.name for part in SELDOM) and rng.random() < 0.9:
            continue
        if each.now in (None, 0, "", False) or rng.random() < 0.15:
            tables.setdefault(each.table, []).append(each)
    result: dict[Place, tuple[Blank, Value]] = {}
    for _ in range(rng.randint(1, 3)):
        # What a day brings is typed far more often than what a season begins with.
        daily = [name for name in ("lots", "runs", "loads", "packs", "uses") if name in tables]
        name = rng.choice(daily if daily and rng.random() < 0.6 else sorted(tables))
        first = rng.choice(tables[name])
        beside = [each for each in tables[name] if each.row == first.row and each is not first]
        for each in (first, *rng.sample(beside, min(len(beside), rng.choice((0, 0, 1, 2, 4))))):
            typed = value(rng, each, numbers, season)
            if typed is not None:
                result[each.cell] = each, typed
                if rng.random() < 0.5:
                    result |= {o.cell: (o, None) for o in found if _in_place(o, each, result)}
    return result


def _in_place(other: Blank, of: Blank, typed: Mapping[Place, object]) -> bool:
    """Whether what stands in a cell is said by the same key, and is cleared for the new value."""
    if (other.table, other.row) != (of.table, of.row) or other.cell in typed:
        return False
    field = field_of(of.table, of.column.name)
    names = [each.name for each in field.inputs if each.type != "flag"] if field else []
    given = other.now not in (None, 0, "", False)
    return given and of.column.name in names and other.column.name in names
