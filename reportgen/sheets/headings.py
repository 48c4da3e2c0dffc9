"""Every heading of the sheets, and what stands under it: for who asks by the words that he sees."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reportgen.algebra.book import Key
from reportgen.layout.blocks import (
    Block,
    ChartBlock,
    Group,
    InWordsBlock,
    ListBlock,
    NewPage,
    SentencesBlock,
    TableBlock,
)
from reportgen.layout.lists import MADE, OVER_WORDS
from reportgen.sheets.all import SHEETS

Heading = tuple[str, tuple[Key, ...]]


def headings() -> Iterator[Heading]:
    """Headings of groups of columns, blocks and charts, and names of sheets; each with the
    quantities under it, none where it stands over words."""
    for sheet in SHEETS:
        found = [each for block in sheet.blocks for each in _of(block)]
        yield from found
        yield sheet.name, tuple(dict.fromkeys(key for _, keys in found for key in keys))
    yield from ((heading, ()) for heading in OVER_WORDS)


def _of(block: Block) -> Iterator[Heading]:
    match block:
        case TableBlock():
            table = block.table.name
            groups = [(each.heading, _keys(table, each.names)) for each in block.groups]
            yield from groups
            made = (Group(each, (), printed=False) for each in MADE)
            for group in (*(each for each in block.groups if not each.printed), *made):
                yield block.over(group), _keys(table, group.names)
            every = tuple(key for _, keys in groups for key in keys)
            yield block.heading or block.table.title, every
            yield block.table.one, every
        case ListBlock():
            keys = [_keys(table.name, names) for table, names in block.items]
            yield block.heading, tuple(key for each in keys for key in each)
        case SentencesBlock():
            yield block.heading, _keys(block.table.name, [block.name])
        case InWordsBlock():
            yield block.heading, _keys(block.table.name, block.names)
        case ChartBlock():
            for chart in block.charts:
                yield chart.title, _keys(chart.table.name, chart.names)
        case NewPage():
            pass
        case _:
            yield block.heading, ()


def _keys(table: str, names: Iterable[str]) -> tuple[Key, ...]:
    return tuple((table, name) for name in names)
