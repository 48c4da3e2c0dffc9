"""What a returned workbook remembers, read from its sheet: data from outside, never trusted."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from reportgen.edits.memory import (
    TABLES,
    Built,
    Formulas,
    Heading,
    Lone,
    Memory,
    Shown,
    Spoken,
    digest,
)
from reportgen.model.season import Value
from reportgen.returned.cells import Workbook

_BROKEN = (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)
"""What comes of data that are not what they should be."""
_LAST_DAY = 2_958_466
"""The number of the day after 9999-12-31."""


def read(workbook: Workbook) -> Memory | None:
    """What a returned workbook remembers; None where it has no memory, or none that can be read."""
    for sheet in workbook:
        title = sheet.cell(2, 1)
        if title is None or not isinstance(title.value, str) or not title.value.startswith("[1,"):
            continue
        lines: dict[int, dict[int, str]] = {}
        for (row, column), cell in sheet.cells():
            if row > 1 and isinstance(cell.value, str) and not cell.formula:
                lines.setdefault(row, {})[column] = cell.value
        texts = ["".join(part for _, part in sorted(lines[row].items())) for row in sorted(lines)]
        try:
            return _memory(texts)
        except _BROKEN:
            return None
    return None


def _memory(texts: list[str]) -> Memory:
    *lines, seal = texts
    _, as_of, units, columns, cells, live, *product = json.loads(lines[0])
    memory = Memory(whole=digest(lines) == seal)
    known = isinstance(as_of, int | float) and 0 <= as_of < _LAST_DAY
    memory.as_of = float(as_of) if known else None
    if product:
        memory.product = str(product[0][0]), bool(product[0][1])
    memory.units = {str(k): str(v) for k, v in units.items()}
    memory.columns = {
        str(table): _headings(of_table) for table, of_table in columns.items() if table in TABLES
    }
    memory.cells = {(str(at[0]), str(at[1])): str(name) for name, at in cells.items()}
    memory.spoken = {
        (str(table), str(name)): Spoken(str(sheet), int(column), str(label), str(unit))
        for table, name, *at in cells.values()
        for sheet, column, label, unit in ([at] if at else [])
    }
    memory.formulas = {
        table: _formulas(memory.columns[table], *live[0][table]) for table in memory.columns
    }
    memory.shown = [
        Shown(str(head), str(end), str(table), _formulas(*columns_of_it))
        for head, end, table, *columns_of_it in live[1]
    ]
    memory.lone = [
        Lone(str(cell), str(table), str(row), str(name), *map(_value, value))
        for cell, table, row, name, *value in live[2]
    ]
    memory.said = {
        str(sheet): {
            (int(row), int(first) + at): str(text)
            for row, first, *texts in runs
            for at, text in enumerate(texts)
        }
        for sheet, runs in live[3].items()
    }
    for line in lines[1:]:
        table, number, key, file, at, inputs = json.loads(line)
        if table not in TABLES:
            continue
        built = Built(
            str(table), int(number), str(key), str(file), int(at),
            {str(name): _value(each[0]) for name, each in inputs.items()},
            {str(name): str(each[1]) for name, each in inputs.items() if len(each) > 1},
        )  # fmt: skip
        memory.records[built.table, built.number] = built
    return memory


def _formulas(
    headings: Sequence[Sequence[str]],
    rows: Sequence[int],
    closing: Sequence[int],
    constants: Mapping[str, Sequence[object]],
) -> Formulas:
    whole = range(len(headings))
    return Formulas(
        _headings(headings),
        [whole[at] for at in rows],
        [whole[at] for at in closing],
        {whole[int(at)]: [*map(_value, values)] for at, values in constants.items()},
    )


def _headings(headings: Sequence[Sequence[str]]) -> list[Heading]:
    return [Heading(str(name), str(label), str(unit)) for name, label, unit in headings]


def _value(value: object) -> Value:
    if isinstance(value, bool | str) or value is None:
        return value
    if isinstance(value, int | float):
        return float(value)
    raise ValueError("no value of a cell")
