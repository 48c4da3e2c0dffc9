"""Where a record stands in its file, and where each of its keys is to be written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reportgen.model.fields import Record
from reportgen.model.records import RECORDS, SHORT
from reportgen.model.season import Rows, Season
from reportgen.pen.pen import Pen
from reportgen.read.problem import Place
from reportgen.read.spans import Listing, Mapping, Scalar, Span

OWNED = {
    "loads": ("runs", "run", "loads"),
    "draws": ("packs", "pack", "from"),
    "mix_parts": ("mixes", "into", "from"),
    "bought_parts": ("mixes", "into", "bought"),
    "upkeep": ("dryers", "dryer", "upkeep"),
}
"""Records that stand in a list of another: whose, by which column, under which key."""

_LISTS = {"lots": "lots", "runs": "runs", "loads": "runs", "packs": "packs"}


@dataclass(frozen=True)
class Home:
    """A record in its file. ``holder`` is the mapping of its keys; None where that is not written
    yet, or where one text stands for the record: a line of ``packed``."""

    file: str
    holder: Mapping | None
    line: Scalar | None = None
    """The text that stands for the record."""
    short: bool = False
    """Its file has the short form."""
    under: tuple[Mapping, str] | None = None
    """The mapping and key below which ``holder`` stands, or is to stand."""
    listing: Listing | None = None
    """The list that it is an item of, if it is."""


class Homes:
    """Finds records of one season in its files. ``pens``: those files by name."""

    def __init__(self, season: Season, pens: dict[str, Pen]) -> None:
        self._season, self._pens = season, pens
        self._spans: dict[str, dict[tuple[int, type], Span]] = {}
        self._lists: dict[str, dict[int, Listing]] = {}

    def of(self, table: str, row: int) -> Home | None:
        """Where a record stands; None where its file is none of the season's."""
        rows = self._season.tables[table]
        place = rows.places[row]
        pen = self._pens.get(place.file)
        if pen is None or not isinstance(pen.root, Mapping):
            return None
        if is_short(pen):
            return self._short(pen, pen.root, table, rows, row)
        if rows.record.named:
            return self._named(pen.root, place.file, rows.keys[row], table)
        if table == "season":
            return Home(place.file, pen.root)
        if not place.line:
            return Home(place.file, None, under=(pen.root, table))
        found = self._at(place, Mapping)
        assert found is None or isinstance(found, Mapping)
        if found is None:
            return None
        return Home(place.file, found, listing=self._list_of(place.file, found))

    def _short(self, pen: Pen, root: Mapping, table: str, rows: Rows, row: int) -> Home | None:
        file = rows.places[row].file
        match table:
            case "lots" | "loads":
                return Home(file, root, short=True)
            case "runs":
                found = root.find("run")
                holder = found[1] if found is not None else None
                held = holder if isinstance(holder, Mapping) else None
                return Home(file, held, short=True, under=(root, "run"))
            case "packs":
                found = root.find("packed")
                assert found is not None
                before = sum(1 for each in rows.places[:row] if each.file == file)
                items = found[1].items if isinstance(found[1], Listing) else [found[1]]
                item = items[before]
                listing = found[1] if isinstance(found[1], Listing) else None
                if isinstance(item, Mapping):
                    return Home(file, item, short=True, listing=listing)
                assert isinstance(item, Scalar)
                return Home(file, None, item, True, (root, "packed"), listing)
        return None

    def _named(self, root: Mapping, file: str, key: str, table: str) -> Home:
        """A record by its id: ``stall: {fees: 3 %}``; or where it is to be written."""
        found = root.find(table)
        if found is None or not isinstance(found[1], Mapping):
            return Home(file, None, under=(root, table))
        entry = found[1].find(key)
        holder = entry[1] if entry is not None and isinstance(entry[1], Mapping) else None
        return Home(file, holder, under=(found[1], key))

    def span(self, place: Place) -> Span | None:
        """The value that begins at a place, a single one before the block that begins with it."""
        for kind in (Scalar, Mapping, Listing):
            found = self._at(place, kind)
            if found is not None:
                return found
        return None

    def _at(self, place: Place, kind: type) -> Span | None:
        pen = self._pens[place.file]
        if place.file not in self._spans:
            self._spans[place.file] = {(each.start, type(each)): each for each in walk(pen.root)}
        return self._spans[place.file].get((pen.marked.offset(place.line, place.column), kind))

    def _list_of(self, file: str, item: Span) -> Listing | None:
        if file not in self._lists:
            self._lists[file] = {
                id(each): span
                for span in walk(self._pens[file].root)
                if isinstance(span, Listing)
                for each in span.items
            }
        return self._lists[file].get(id(item))


def is_short(pen: Pen) -> bool:
    """Whether a file has the short form."""
    root = pen.root
    return isinstance(root, Mapping) and any(k.text in SHORT.flat for k, _ in root.entries)


def walk(span: Span | None) -> Iterator[Span]:
    """A value and all in it."""
    if span is None:
        return
    yield span
    if isinstance(span, Listing):
        for each in span.items:
            yield from walk(each)
    elif isinstance(span, Mapping):
        for _, value in span.entries:
            yield from walk(value)


def record_of(table: str) -> Record:
    """What a table's records hold."""
    return RECORDS[table]
