"""Records that were added in the workbook, into the files they belong in."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from pathlib import PurePosixPath

from reportgen.edits.amounts import day
from reportgen.edits.differences import New
from reportgen.edits.entries import fields_of, label_of
from reportgen.edits.memory import WRITTEN_AS
from reportgen.edits.notebook import file_of, text_of
from reportgen.edits.records import OWNED, is_short
from reportgen.edits.restructure import Restructurer
from reportgen.edits.written import UNWRITTEN, Writer, nothing
from reportgen.model import notebook
from reportgen.model.records import BATCH, OWNER_COLUMN, RECORDS
from reportgen.model.season import Season, Value
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written, flow, scalar
from reportgen.read.file_names import base_of
from reportgen.read.spans import Listing
from reportgen.read.spans import Mapping as Held

_DAYS = {
    "lots": "date", "runs": "started", "mixes": "date", "packs": "date", "uses": "date",
    "counts": "date", "offers": "date", "asked": "since", "markets": "date",
}  # fmt: skip
_NEVER = ("products", "nominal_weights", "run_energy")


class NewRecords:
    """Gathers new records and writes them, those of one file together."""

    def __init__(
        self, season: Season, rewriter: Restructurer, into: str, day: float | None
    ) -> None:
        self._season, self._rewriter = season, rewriter
        self._into, self._day = into, day
        self._writer = Writer(season.slots)
        self._records: dict[tuple[str, str], dict[str, Written]] = {}
        self._order: list[tuple[str, str, dict[str, Written], Mapping[str, Value]]] = []
        self._texts: list[tuple[New, str]] = []
        """Each new record with a pattern of its text."""
        self._keys = [key.casefold() for key in season.tables["lots"].keys]
        self.files: dict[str, str] = {}
        """Files that were not there, by name."""

    def add(self, new: New) -> str:
        """Take a record up; what stands in the way, where it cannot be written."""
        table = WRITTEN_AS.get(new.table, new.table)
        if table == notebook.NAME:
            return self._days_work(new)
        if table in _NEVER:
            return "rows cannot be added to this table; write them in the season's files"
        record = RECORDS[table]
        for field in record.fields:
            # A row that was copied has what was hidden in the one it was copied from.
            names = {each.name for each in field.inputs if each.type != "flag"}
            typed = {each for each in names if not each.endswith(UNWRITTEN)}
            self._writer.check(field, new.values, typed, nothing)
        written = self._writer.record(record, new.values)
        if record.key == "id" and not record.named:
            written = {"id": new.key, **written}
        self._texts.append((new, _anywhere(table, written)))
        if fields_of(table):
            return self._entries(table, new)
        if table in OWNED:
            return self._owned(table, new, written)
        self._records[table, new.key.casefold()] = written
        self._order.append((table, new.key, written, new.values))
        return ""

    def _days_work(self, new: New) -> str:
        """A row of the notebook: a file of the short form of its own."""
        if self._rewriter.single:
            return (
                "the season is a single file, beside which none is read; type it into Lots, Runs, "
                "Loads and Packs"
            )
        taken = [*self._rewriter.pens, *self.files]
        keys = [*self._keys, *(base_of(file).casefold() for file in self.files)]
        text = text_of(self._writer, new.values)
        self.files[file_of(new.values, taken, keys)] = text
        self._texts.append((new, re.escape(text)))
        return ""

    def _owned(self, table: str, new: New, written: dict[str, Written]) -> str:
        """A record that stands inside another: a load in its run."""
        owners, column, key = OWNED[table]
        owner = new.values.get(column)
        if not isinstance(owner, str):
            return f"it names no {RECORDS[owners].one}"
        item: Written = {k: v for k, v in written.items() if k != column}
        if table == "draws":
            item = str(new.values.get("run") or new.values.get("mix") or "")
        holder = self._records.get((owners, owner.casefold()))
        if holder is not None:
            listed = holder.setdefault(key, [])
            assert isinstance(listed, list)
            listed.append(item)
            return ""
        keys = [each.casefold() for each in self._season.tables[owners].keys]
        if owner.casefold() not in keys:
            return f"there is no {RECORDS[owners].one} '{owner}'"
        return self._rewriter.insert(owners, keys.index(owner.casefold()), key, item)

    def _entries(self, table: str, new: New) -> str:
        """A record that is written as entries of another: a part of its container."""
        owners, column = str(RECORDS[table].owner), OWNER_COLUMN[table]
        owner, name = new.values.get(column), new.values.get(label_of(table))
        for value, input_ in ((owner, column), (name, label_of(table))):
            if not isinstance(value, str):
                return f"it names no {input_.replace('_', ' ')}"
        holder = self._records.get((owners, str(owner).casefold()))
        if holder is None:
            try:
                row = self._rewriter.row_of(owners, str(owner))
                self._rewriter.put_entry(table, row, new.values)
            except KeyError:
                return f"there is no {RECORDS[owners].one} '{owner}'"
            return ""
        for key, written in self._rewriter.entries_of(table, new.values).items():
            held = holder.setdefault(key, {})
            assert isinstance(held, dict)
            held[str(name)] = written
        return ""

    def write(self) -> None:
        """Write what was taken up."""
        lists: dict[tuple[str, str], list[Written]] = defaultdict(list)
        for table, key, written, values in self._order:
            if RECORDS[table].named:
                self._by_name(table, key, written)
                continue
            lists[self._file(table, values), table].append(written)
        fresh: dict[str, dict[str, list[Written]]] = defaultdict(dict)
        for (file, table), records in lists.items():
            pen = self._rewriter.pens.get(file)
            if pen is None:
                fresh[file][table] = records
                continue
            self._into_list(pen, table, records)
        for file, tables in fresh.items():
            lines = []
            for table in (*BATCH, *(t for t in tables if t not in BATCH)):
                if table in tables:
                    lines += [f"{table}:", *(f"  - {flow(each)}" for each in tables[table])]
            self.files[file] = "\n".join([*lines, ""])

    def _by_name(self, table: str, key: str, written: dict[str, Written]) -> None:
        """A record into the mapping that holds those of its kind."""
        pen = self._rewriter.pens[self._rewriter.season_file]
        found = pen.root.find(table) if isinstance(pen.root, Held) else None
        if found is not None and isinstance(found[1], Held):
            pen.add(found[1], key, written)
        elif found is not None:
            pen.put(found[0], found[1], {key: written})
        else:
            assert isinstance(pen.root, Held)
            pen.add(pen.root, table, {key: written})

    def lines(self, texts: Mapping[str, str]) -> dict[tuple[str, int], New]:
        """Which lines of the files' new texts hold which new record."""
        found: dict[tuple[str, int], New] = {}
        for new, pattern in self._texts:
            for file, whole in texts.items():
                stands = re.search(pattern, whole)
                if stands is not None:
                    first = whole.count("\n", 0, stands.start()) + 1
                    last = first + stands.group().count("\n")
                    found |= {(file, line): new for line in range(first, last + 1)}
                    break
        return found

    @staticmethod
    def _into_list(pen: Pen, table: str, records: list[Written]) -> None:
        key = "electricity" if table == "periods" else table
        root = pen.root
        found = root.find(key) if isinstance(root, Held) else None
        if found is not None and isinstance(found[1], Listing) and found[1].items:
            for record in records:
                pen.append(found[1], record)
        elif found is not None and isinstance(root, Held):
            pen.put(found[0], found[1], records)
        else:
            pen.begin(key, records)

    def _file(self, table: str, values: Mapping[str, Value]) -> str:
        """The file a new record goes to: one that holds its kind and its day, else a new one."""
        season_file = self._rewriter.season_file
        if table not in BATCH:
            return season_file
        if self._into:
            return self._into
        if self._rewriter.single:
            return season_file
        number = values.get(_DAYS.get(table, ""))
        whole = int(number) if isinstance(number, float) else None
        for at, place in enumerate(self._season.tables[table].places):
            other = self._season.tables[table].values.get(_DAYS.get(table, ""), [])
            pen = self._rewriter.pens.get(place.file)
            known = other[at] if at < len(other) else None
            if pen is None or is_short(pen) or not isinstance(known, float):
                continue
            if whole is not None and int(known) == whole:
                return place.file
        named = day(float(whole) if whole is not None else self._day or 0.0, False)
        return self._unused(f"batches/{named}")

    def _unused(self, name: str) -> str:
        """A name of a file that is not there yet, or that this call makes."""
        number = 1
        while True:
            file = f"{name}.yaml" if number == 1 else f"{name}-{number}.yaml"
            if file not in self._rewriter.pens:
                return PurePosixPath(file).as_posix()
            number += 1


def _anywhere(table: str, record: Mapping[str, Written]) -> str:
    """A pattern of a record's text, on one line or a line a key."""
    inside = OWNED[table][1] if table in OWNED else ""
    left = {key: value for key, value in record.items() if key != inside}
    keys = (re.escape(f"{scalar(key)}: {flow(value)}") for key, value in left.items())
    on_lines = r"\s+".join(keys)
    return f"{re.escape(flow(left))}|{on_lines}"
