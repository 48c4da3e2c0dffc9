"""Rows that a file writes as entries of their owner: a container's ``parts``, what a market day
``took``. What becomes of the entries of one mapping is gathered, and written together."""

from __future__ import annotations

from collections.abc import Mapping as Keys
from dataclasses import dataclass, field

from reportgen.edits.records import Home
from reportgen.edits.rewrite import Rewriter
from reportgen.edits.short_rows import Change
from reportgen.edits.written import Like, Values, nothing
from reportgen.model.kinds import Across, Named
from reportgen.model.records import OWNER_COLUMN, RECORDS
from reportgen.model.season import Season
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written, scalar
from reportgen.read.spans import Listing, Mapping, Scalar, Span

Place = tuple[str, int, str]
"""The mapping of an owner: its table, its row, the key."""


@dataclass
class Becomes:
    """What becomes of a mapping. ``values``: of each entry what it said and what it is to say,
    ``names``: the new name of each that is called otherwise."""

    values: dict[str, tuple[Written | None, Written | None]] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)


def fields_of(table: str) -> tuple[Named | Across, ...]:
    """The fields of its owner by which a table's rows are written; none where they are not."""
    record = RECORDS[table]
    if record.owner is None or table == "nominal_weights":
        return ()
    found = RECORDS[record.owner].fields
    return tuple(f for f in found if isinstance(f, Named | Across) and f.record == table)


def label_of(table: str) -> str:
    """The column that names an entry."""
    return RECORDS[table].fields[0].input_name


class Entries(Rewriter):
    """Changes of such rows, beside those of all others."""

    def __init__(self, season: Season, texts: Keys[str, str]) -> None:
        super().__init__(season, texts)
        self._gathered: dict[Place, Becomes] = {}
        self.gone: set[tuple[str, int]] = set()
        """Owners that are taken away whole, with all that stands in them."""

    def change(self, change: Change) -> None:
        """Write new values of a record. Raises ``KeyError`` where its file is not the season's."""
        if not fields_of(change.table):
            super().change(change)
            return
        now = self.all_of(change.table, change.row)
        owner, name = self._standing(change.table, change.row)
        new = {**now, **change.values}
        column, label = OWNER_COLUMN[change.table], label_of(change.table)
        moved = change.values.get(column)
        if isinstance(moved, str):
            self.drop_entry(change.table, change.row)
            self.put_entry(change.table, self.row_of(RECORDS[change.table].owner, moved), new)
            return
        like = self.like(change.table, change.row)
        for key, (was, becomes) in self._said(change.table, now, new, like).items():
            place = self._becomes(change.table, owner, key)
            if was != becomes:
                place.values[name] = was, becomes
            if label in change.values:
                place.names[name] = str(change.values[label])

    def drop_entry(self, table: str, row: int) -> None:
        """Take a row's entries away."""
        owner, name = self._standing(table, row)
        now = self.all_of(table, row)
        for key, (was, _) in self._said(table, now, {}).items():
            if was is not None:
                self._becomes(table, owner, key).values[name] = was, None

    def put_entry(self, table: str, owner: int, values: Values) -> None:
        """Add a row's entries to those of its owner."""
        name = str(values.get(label_of(table)))
        for key, (_, becomes) in self._said(table, {}, values).items():
            if becomes is not None:
                self._becomes(table, owner, key).values[name] = None, becomes

    def entries_of(self, table: str, values: Values) -> dict[str, Written]:
        """A new row as entries: of each key that it stands under, what is written there."""
        said = self._said(table, {}, values)
        return {key: becomes for key, (_, becomes) in said.items() if becomes is not None}

    def row_of(self, table: str | None, key: str) -> int:
        """The row of a record by its id. Raises ``KeyError`` where there is none."""
        keys = [each.casefold() for each in self._season.tables[str(table)].keys]
        if key.casefold() not in keys:
            raise KeyError(key)
        return keys.index(key.casefold())

    def texts(self) -> dict[str, str]:
        """The files that are not as they were, by name."""
        for place, becomes in self._gathered.items():
            if place[:2] not in self.gone:
                self._write_entries(place, becomes)
        self._gathered = {}
        return super().texts()

    # --- help -------------------------------------------------------------------------

    def _becomes(self, table: str, owner: int, key: str) -> Becomes:
        owners = str(RECORDS[table].owner)
        home = self.homes.of(owners, owner)
        if home is None or home.holder is None:
            raise KeyError(owners)
        return self._gathered.setdefault((owners, owner, key), Becomes())

    def _standing(self, table: str, row: int) -> tuple[int, str]:
        """The row of a row's owner, and the name of its entries."""
        rows = self._season.tables[table]
        owner = self.row_of(RECORDS[table].owner, str(rows.values[OWNER_COLUMN[table]][row]))
        return owner, str(rows.values[label_of(table)][row])

    def _said(
        self, table: str, now: Values, new: Values, like: Like = nothing
    ) -> dict[str, tuple[Written | None, Written | None]]:
        """What stands under each key now, and what is to stand there."""
        record = RECORDS[table]
        found: dict[str, tuple[Written | None, Written | None]] = {}
        for each in fields_of(table):
            if isinstance(each, Across):
                inner = next(f for f in record.fields if f.name == each.filled)
                both = [self._writer.field(inner, values, like) for values in (now, new)]
            else:
                both = [
                    bare(self._writer.record(record, values, like), each) for values in (now, new)
                ]
            found[each.name] = both[0], both[1]
        return found

    def _write_entries(self, place: Place, becomes: Becomes) -> None:
        table, row, key = place
        home = self.homes.of(table, row)
        assert home is not None and home.holder is not None
        pen, found = self.pens[home.file], home.holder.find(key)
        if found is None or not isinstance(found[1], Mapping) or not found[1].entries:
            self._first_entries(pen, home, key, becomes)
            return
        inside = found[1]
        gone = {name for name, (_, new) in becomes.values.items() if new is None}
        if gone >= {name.text for name, _ in inside.entries} and not any(
            new is not None for _, new in becomes.values.values()
        ):
            pen.drop(home.holder, key)
            return
        if len(gone) > 1 or (gone and inside.flow and len(gone) < len(becomes.values)):
            pen.put(found[0], inside, self._all_entries(inside, becomes))
            return
        for name, (was, new) in becomes.values.items():
            entry = inside.find(name)
            if new is None:
                if entry is not None:
                    pen.drop(inside, name)
            elif entry is None:
                pen.add(inside, becomes.names.get(name, name), new)
            else:
                self._differ(pen, entry[0], entry[1], was, new)
        for name, other in becomes.names.items():
            entry = inside.find(name)
            if entry is not None:
                pen.cut(entry[0].start, entry[0].end, scalar(other))

    @staticmethod
    def _first_entries(pen: Pen, home: Home, key: str, becomes: Becomes) -> None:
        """The first entries of a mapping that holds none."""
        assert home.holder is not None
        values = {
            becomes.names.get(name, name): new
            for name, (_, new) in becomes.values.items()
            if new is not None
        }
        found = home.holder.find(key)
        if values and found is None:
            pen.add(home.holder, key, values)
        elif values and found is not None:
            pen.put(found[0], found[1], values)

    @staticmethod
    def _all_entries(inside: Mapping, becomes: Becomes) -> Written:
        """All entries, where several are taken out: each that stays as it was written."""
        found: dict[str, Written] = {}
        for name, span in inside.entries:
            _, new = becomes.values.get(name.text, (None, None))
            if name.text not in becomes.values:
                new = _as_it_stands(span)
            if new is not None:
                found[becomes.names.get(name.text, name.text)] = new
        for name_, (_, new) in becomes.values.items():
            if new is not None and inside.find(name_) is None:
                found[name_] = new
        return found


def _as_it_stands(span: Span) -> Written:
    """A value as it stands in a file, but for its quotes and its spacing."""
    if isinstance(span, Mapping):
        return {name.text: _as_it_stands(each) for name, each in span.entries}
    if isinstance(span, Listing):
        return [_as_it_stands(each) for each in span.items]
    assert isinstance(span, Scalar)
    return span.text


def bare(written: Keys[str, Written], field: Named) -> Written | None:
    """A row under its name: its value alone, where nothing else is said of it."""
    left = {key: value for key, value in written.items() if key != field.label}
    return left.get(field.value) if set(left) == {field.value} else left or None
