"""What of a workbook its reader has use for: sheets and groups of columns that hold something.

One rule for all of them, read off the numbers: something was written down there, or worked out to
more than nothing, or a check fails. A sheet may name what makes it of use (``used_by``), where what
it shows is worked out whether anybody wants it or not, or says little of a few records.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from reportgen.algebra.book import Key
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.layout.blocks import (
    Block,
    ChartBlock,
    ConstantsBlock,
    Group,
    ListBlock,
    RulesBlock,
    SentencesBlock,
    Sheet,
    TableBlock,
    Use,
)


def unused(sheets: Sequence[Sheet], numbers: Numbers) -> frozenset[str]:
    """The names of the sheets that are out of sight; never the first one."""
    return frozenset(sheet.name for sheet in sheets[1:] if not _of_use(sheet, numbers))


def _of_use(sheet: Sheet, numbers: Numbers) -> bool:
    own = [b.table for b in sheet.blocks if isinstance(b, TableBlock) and b.rest]
    if any(_filled(_checks(table), numbers) for table in own):
        return True
    wanted = not sheet.aside and not sheet.used_by
    wanted = wanted or any(_used(use, numbers) for use in sheet.used_by)
    return wanted and any(_has_something(block, numbers) for block in sheet.blocks)


def _used(use: Use, numbers: Numbers) -> bool:
    cells = numbers.cells[use.table.name].get(use.name, ())
    if use.table.single and cells and isinstance(cells[0], int | float):
        return cells[0] > use.above
    return sum(map(bool, cells)) > use.above


def _has_something(block: Block, numbers: Numbers) -> bool:
    match block:
        case ConstantsBlock() | RulesBlock():
            return True
        case TableBlock():
            own = [(block.table, n) for g in block.groups if not g.echo for n in g.names]
            return _filled(own, numbers)
        case ListBlock():
            items = [(table, name) for table, names in block.items for name in names]
            tables = [table for table, _ in block.items] if block.rest else []
            return _filled(items, numbers) or any(_filled(_checks(t), numbers) for t in tables)
        case SentencesBlock():
            return _filled([(block.table, block.name)], numbers)
        case ChartBlock():
            return _filled([(c.table, name) for c in block.charts for name in c.names], numbers)
    return False


def _checks(table: Table) -> Iterator[tuple[Table, str]]:
    return ((table, each.name) for each in table.definitions.values() if each.role == "check")


def _filled(columns: Iterable[tuple[Table, str]], numbers: Numbers) -> bool:
    return any(
        _written(table, name, numbers) or any(numbers.cells[table.name].get(name, ()))
        for table, name in columns
    )


def _written(table: Table, name: str, numbers: Numbers) -> bool:
    """A number that somebody wrote down, be it 0; of one that is 0 when left out nobody knows."""
    found = table.inputs.get(name)
    if found is None or found.type != "number" or found.zero:
        return False
    return any(each is not None for each in numbers.cells[table.name].get(name, ()))


def charted(sheets: Sequence[Sheet]) -> frozenset[Key]:
    """The columns that charts read: they stay in sight."""
    return frozenset(
        (chart.table.name, name)
        for sheet in sheets
        for block in sheet.blocks
        if isinstance(block, ChartBlock)
        for chart in block.charts
        for name in (chart.labels, *chart.names, *([chart.curves] if chart.curves else ()))
    )


def empty(group: Group, table: Table, numbers: Numbers) -> bool:
    """Whether nobody filled these columns, and nothing is known that they would show."""
    cells = numbers.cells[table.name]
    return all(
        value is None or value == "" or (group.quiet and value == 0)
        for name in group.names
        for value in cells.get(name, (0,))
    )
