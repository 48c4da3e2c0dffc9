"""Where the records that a workbook was built from stand now."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from reportgen.edits.memory import WRITTEN_AS, Built, Memory
from reportgen.model.fields import Field
from reportgen.model.records import RECORDS
from reportgen.model.season import Rows, Season, Value

Text = tuple[str, tuple[tuple[str, str], ...]]
"""A record's file, and what stands there for each of its inputs."""

_CLOSE = 1e-12
_CALLED = {
    "parts": ("container", "item"),
    "market_takings": ("market", "kind"),
    "upkeep": ("dryer", "item"),
    "overheads": ("item",),
    "carried_over": ("product",),
    "asking": ("product", "container", "net", "since"),
}
"""What records without an id are told apart by, whatever else is said of them."""


class Present:
    """The season as it is written now, asked for records of the memory."""

    def __init__(self, season: Season, memory: Memory) -> None:
        self._season, self._memory = season, memory
        self._keys: dict[str, dict[str, int]] = {}
        self._alike: dict[tuple[str, Text], list[int]] = {}
        self._texts: dict[str, dict[Text, list[int]]] = {}
        for (table, number), built in sorted(memory.records.items()):
            self._alike.setdefault((table, _text(built.file, built.written)), []).append(number)

    def rows(self, table: str) -> Rows:
        """The rows of a table of the book, by whatever name they are written."""
        return self._season.tables[WRITTEN_AS.get(table, table)]

    def by_key(self, table: str) -> dict[str, int]:
        """The rows of a table by key, in small letters."""
        if table not in self._keys:
            keys = self.rows(table).keys
            self._keys[table] = {key.casefold(): at for at, key in enumerate(keys)}
        return self._keys[table]

    def as_written(self, table: str, key: str) -> str:
        """An id as its record has it: a spreadsheet matches it in capitals, too."""
        at = self.by_key(table).get(key.casefold())
        return key if at is None else self.rows(table).keys[at]

    def find(self, built: Built) -> int | None:
        """Where a record stands now: by its id, or, where it has none, by its file and its text.

        Of records alike, each is found by its place among them, as long as all are there.
        """
        rows = self.rows(built.table)
        if rows.record.key != "position":
            return self.by_key(built.table).get(built.key.casefold())
        text = _text(built.file, built.written)
        now = self._by_text(built.table).get(text, [])
        then = self._alike[built.table, text]
        return now[then.index(built.number)] if len(now) == len(then) else self._called(built)

    def _by_text(self, table: str) -> Mapping[Text, Sequence[int]]:
        """The rows of a table by file and text."""
        if table not in self._texts:
            rows, found = self.rows(table), defaultdict[Text, list[int]](list)
            for at, place in enumerate(rows.places):
                found[_text(place.file, written(rows, at))].append(at)
            self._texts[table] = found
        return self._texts[table]

    def _called(self, built: Built) -> int | None:
        """A record whose text was changed, by what it is called, where one alone is called so."""
        names = _CALLED.get(built.table)
        if names is None:
            return None
        rows = self.rows(built.table)
        called = _packed(built.values, names)
        then = [
            each
            for (table, _), each in self._memory.records.items()
            if table == built.table and _packed(each.values, names) == called
        ]
        now = [
            at
            for at, place in enumerate(rows.places)
            if place.file == built.file and tuple(rows.values[n][at] for n in names) == called
        ]
        return now[0] if len(then) == len(now) == 1 else None

    def saying(self, built: Built, edited: Mapping[str, Value]) -> int | None:
        """A record without an id that says by now what was typed into its row."""
        rows = self.rows(built.table)
        for at, place in enumerate(rows.places):
            if place.file == built.file and all(
                same(rows.values[name][at], value) for name, value in edited.items()
            ):
                return at
        return None

    def added(self, table: str, values: Mapping[str, Value]) -> int | None:
        """A record without an id that says what a new row does, and that was not there before."""
        rows = self.rows(table)
        names = sorted(values)
        wanted = _packed(values, names)
        known = sum(
            _packed(each.values, names) == wanted
            for (name, _), each in self._memory.records.items()
            if name == table
        )
        found = [
            at
            for at in range(len(rows.keys))
            if _packed({name: column[at] for name, column in rows.values.items()}, names) == wanted
        ]
        return found[-1] if len(found) > known else None

    def unchanged(self, built: Built, at: int) -> bool:
        """Whether a record says now what it said then."""
        columns = self.rows(built.table).values.items()
        return all(same(column[at], built.values.get(name)) for name, column in columns)


def written(rows: Rows, at: int) -> dict[str, str]:
    """What stands in the file for each input of a record."""
    found = {}
    for name, column in rows.origins.items():
        origin = column[at]
        if origin is not None and origin.kind == "given":
            found[name] = origin.text
    return found


def same(a: Value, b: Value) -> bool:
    """Whether two values of a cell are one: a suite may drop the sixteenth digit."""
    if a in (None, "") or b in (None, ""):
        return a in (None, "") and b in (None, "")
    if isinstance(a, bool) or isinstance(b, bool):
        return bool(a) == bool(b)
    if isinstance(a, float | int) and isinstance(b, float | int):
        return abs(a - b) <= _CLOSE * max(abs(a), abs(b))
    return str(a).strip() == str(b).strip()


def field_of(table: str, name: str) -> Field | None:
    """The field of a record that fills an input."""
    record = RECORDS[WRITTEN_AS.get(table, table)]
    return next((f for f in record.fields if any(i.name == name for i in f.inputs)), None)


def _text(file: str, texts: Mapping[str, str]) -> Text:
    return file, tuple(sorted(texts.items()))


def _packed(values: Mapping[str, Value], names: Iterable[str]) -> tuple[object, ...]:
    return tuple(round(v, 9) if isinstance(v := values.get(name), float) else v for name in names)
