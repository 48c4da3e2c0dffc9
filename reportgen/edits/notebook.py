"""A day's work that was typed into a row of the notebook: what it says, whether a file of the short
form says it already, and that file's text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from reportgen.edits.amounts import day
from reportgen.edits.differences import Change, Kind, New
from reportgen.edits.found import FoundRow, FoundTable
from reportgen.edits.present import same, written
from reportgen.edits.whole_rows import WholeRows
from reportgen.edits.written import Writer
from reportgen.model import notebook
from reportgen.model.records import RECORDS
from reportgen.model.season import Season, Value
from reportgen.pen.scalars import Written, flow
from reportgen.read import ids
from reportgen.read.file_names import base_of
from reportgen.read.problem import Refusal

_ABOUT = "_about"
Values = Mapping[str, Value]


class DaysWork(WholeRows):
    """The rows of the notebook, which no file knows of until they are taken."""

    def days_work(self, found: FoundTable) -> None:
        """Every row: new, already a file, or a file that says otherwise by now."""
        built = {each.key.casefold() for (t, _), each in self.memory.records.items() if t == "lots"}
        lots = self.season.tables["lots"]
        fresh = [at for at, key in enumerate(lots.keys) if key.casefold() not in built]
        rows = [(row, values) for row, values in self._typed_rows(found) if values is not None]
        # Of several days' work of a product and day, those that a file says go first.
        exact = {row.row: self._file_of(values, fresh, True) for row, values in rows}
        left = [at for at in fresh if at not in exact.values()]
        for row, values in rows:
            at = exact[row.row]
            kind: Kind = "home" if at is not None else "added"
            if at is None:
                at = self._file_of(values, left, False)
                kind = "added" if at is None else "conflict"
            if at in left:
                left.remove(at)
            self._told(found, row, values, kind, at)

    def _told(
        self, found: FoundTable, row: FoundRow, values: Values, kind: Kind, at: int | None
    ) -> None:
        cell = found.place(row.row, next(iter(values), "product")).rpartition("!")[2]
        place = self.season.tables["lots"].places[at] if at is not None else None
        named = called(values)
        self.found.changes.append(
            Change(
                kind, found.table, named, "", found.sheet.name, cell,
                place.file if place else "", place.line if place else 0, edited=named,
            )
        )  # fmt: skip
        if kind == "added":
            self.found.added.append(New(found.table, named, found.sheet.name, cell, values))

    def _typed_rows(self, found: FoundTable) -> Iterator[tuple[FoundRow, Values | None]]:
        """What was typed into each row; nothing where a cell of it is refused."""
        for row in found.rows:
            values: dict[str, Value] = {}
            broken = False
            for name in (each for each in notebook.PLACES if each in found.columns):
                cell = found.sheet.cell(row.row, found.columns[name])
                place = found.place(row.row, name)
                typed = self.read(found.table, "", name, cell, found.sheet.name, place)
                broken = broken or typed is None
                if typed is not None and typed.value is not None:
                    values[name] = typed.value
                    if typed.about:
                        values[name + _ABOUT] = True
            if not broken and values:
                broken = self._lacks(found, row, values)
            yield row, None if broken or not values else values

    def _lacks(self, found: FoundTable, row: FoundRow, values: Values) -> bool:
        """Whether a row lacks what a file of the short form is named for; it is then refused."""
        for name, there, why in (
            ("product", "product" in values, "it names no product; type which one"),
            ("date", date_of(values) is not None, "it has no day; type the day, or the start"),
        ):
            if not there:
                cell = found.place(row.row, name).rpartition("!")[2]
                self.refuse(found.table, "", name, found.sheet.name, cell, why)
                return True
        try:
            ids.check(str(values["product"]))
        except Refusal as refusal:
            cell = found.place(row.row, "product").rpartition("!")[2]
            self.refuse(found.table, "", "product", found.sheet.name, cell, refusal.what)
            return True
        return False

    def _file_of(self, values: Values, lots: Sequence[int], exact: bool) -> int | None:
        """Among these lots, that of a day and product; ``exact``: whose file says all of it."""
        rows = self.season.tables["lots"]
        for at in lots:
            alike = str(rows.values["product"][at]).casefold() == str(values["product"]).casefold()
            if not alike or not same(rows.values["date"][at], date_of(values)):
                continue
            says = _says(self.season, at) if exact else values
            names = {*says, *values} - {"product", "date"}
            if all(same(says.get(name), values.get(name)) for name in names):
                return at
        return None


def called(values: Values) -> str:
    """What a day's work is called: its product and day."""
    known = date_of(values)
    return f"{values['product']} {day(known, False) if known is not None else ''}".strip()


def date_of(values: Values) -> float | None:
    """The day of a day's work: the one typed, else that of the start."""
    found = values.get("date", values.get("started"))
    return float(int(found)) if isinstance(found, float) else None


def _says(season: Season, lot: int) -> dict[str, Value]:
    """What the file of a lot says by now, in the columns of the notebook that it fills."""
    file = season.tables["lots"].places[lot].file
    found: dict[str, Value] = {}
    for name, (table, column) in notebook.PLACES.items():
        rows = season.tables[table]
        at = next((n for n, place in enumerate(rows.places) if place.file == file), None)
        if at is None or name == "date":
            continue
        told = written(rows, at)
        if name == "price" and "price_total" in told:
            column = "price_total"
        if column in told:
            found[name] = rows.values[column][at]
            if rows.values.get(column + _ABOUT, [None] * (at + 1))[at]:
                found[name + _ABOUT] = True
    return found


def file_of(values: Values, taken: Sequence[str], keys: Sequence[str]) -> str:
    """The name of its file: neither there yet, nor one whose id is in use."""
    known = date_of(values)
    assert known is not None
    name, number = f"batches/{day(known, False)}-{values['product']}", 1
    while True:
        file = f"{name}.yaml" if number == 1 else f"{name}-{number}.yaml"
        if file not in taken and base_of(file).casefold() not in keys:
            return file
        number += 1


def text_of(writer: Writer, values: Values) -> str:
    """A day's work in the short form."""
    lot, load, run, pack = (
        writer.record(RECORDS[table], _of(table, values))
        for table in ("lots", "loads", "runs", "packs")
    )
    date, said = day(date_of(values) or 0.0, False), lot.get("date", "")
    lot.pop("date", None)
    lines: dict[str, Written] = {"product": lot.pop("product")}
    bought = _bought(lot)
    if bought:
        lines["bought"] = bought
    note = lot.pop("note", None)
    lines |= {key: value for key, value in lot.items()}
    lines |= {key: value for key, value in load.items() if key == "wet"}
    if run:
        started = str(run.get("started", ""))
        on, _, clock = started.partition(" ")
        if clock and on == date:
            run["started"] = clock
        lines["run"] = run
    lines |= {key: value for key, value in load.items() if key != "wet"}
    if pack:
        lines["packed"] = _packed(pack)
    if note is not None:
        lines["note"] = note
    assert said in ("", date)
    return "".join(f"{key}: {flow(value)}\n" for key, value in lines.items())


def _of(table: str, values: Values) -> dict[str, Value]:
    """The part of a day's work that is one record's."""
    found: dict[str, Value] = {}
    for name, (of, column) in notebook.PLACES.items():
        if of == table and name in values:
            whole = name == "price" and "container" not in values
            found["price_total" if whole else column] = values[name]
            if name + _ABOUT in values:
                found[place_about(name)] = True
    return found


def place_about(name: str) -> str:
    """The flag beside a weight that says it was written as an estimate."""
    return notebook.place_of(name).about


def _bought(lot: dict[str, Written]) -> str:
    """``3 lug at 28.50 USD``, where a container is named; what it says is taken out of the lot."""
    container = lot.pop("container", None)
    if container is None:
        return ""
    price = lot.pop("price", None)
    text = f"{lot.pop('count', '1')} {container}"
    return f"{text} at {str(price).rpartition('/')[0]}" if price is not None else text


def _packed(pack: Mapping[str, Written]) -> Written:
    """``4 can-10 of 11 oz``, where a container is named; else its keys."""
    if "container" not in pack:
        return pack
    text = f"{pack.get('count', '1')} {pack['container']}"
    return f"{text} of {pack['net']}" if "net" in pack else text
