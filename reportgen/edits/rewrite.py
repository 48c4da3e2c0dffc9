"""Changed values into the files of a season, each where and as it was written."""

from __future__ import annotations

from collections.abc import Mapping as Keys
from collections.abc import Sequence

from reportgen.edits.amounts import day
from reportgen.edits.records import Home, record_of
from reportgen.edits.short_rows import Change, ShortLines, said_of_bought
from reportgen.edits.written import Like, Unsaid, Values
from reportgen.model.fields import Id
from reportgen.model.records import SHORT
from reportgen.model.season import Origin, Value
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written
from reportgen.read import short_lines
from reportgen.read.file_names import date_of
from reportgen.read.spans import Listing, Mapping, Scalar, Span


class Rewriter(ShortLines):
    """Gathers changes and gives the files' new texts. ``texts``: the season's files as they are."""

    def texts(self) -> dict[str, str]:
        """The files that are not as they were, by name."""
        for file in self._moved:
            self._keep_moments(file)
        self._moved = set()
        after = {name: pen.text() for name, pen in self.pens.items()}
        return {name: text for name, text in after.items() if text != self._before[name]}

    def change(self, change: Change) -> None:
        """Write new values of a record. Raises ``KeyError`` where its file is not the season's."""
        home = self.homes.of(change.table, change.row)
        if home is None:
            raise KeyError(change.table)
        rows = self._season.tables[change.table]
        now = {name: column[change.row] for name, column in rows.values.items()}
        now = {
            name: value
            for name, value in now.items()
            if self._is_written(rows.origins[name][change.row])
        }
        new = {**now, **change.values}
        like = self.like(change.table, change.row)
        touched: dict[str, tuple[Written | None, Written | None]] = {}
        for field in record_of(change.table).fields:
            if isinstance(field, Id):
                continue
            names = {each.name for each in field.inputs}
            if not names & set(change.values):
                continue
            # Who bought by the container says the price by it: what is told in its words.
            was = self._writer.field(field, now, like)
            becomes = self._writer.field(field, new, like)
            self._writer.check(field, new, names & set(change.values), like)
            if was != becomes:
                touched[field.name] = was, becomes
        if change.table == "lots" and "finished" in change.values:
            self._finished.add(change.row)
        if change.table == "lots" and home.short and "date" in change.values:
            self._moved.add(home.file)
        if touched:
            with self.pens[home.file].writing((change.table, change.row, "")):
                self._write(home, change, touched, new, like)

    def like(self, table: str, row: int) -> Like:
        """How the inputs of a record are written now."""
        origins = self._season.tables[table].origins

        def written(name: str) -> str:
            origin = origins[name][row] if name in origins else None
            return origin.text if origin is not None and origin.kind == "given" else ""

        return written

    @property
    def season_file(self) -> str:
        """The file that holds the season itself."""
        names = [name for name in self.pens if name in ("season.yaml", "season.yml")]
        return names[0] if names else next(iter(self.pens))

    @property
    def single(self) -> bool:
        """Whether one file holds everything."""
        return self.season_file not in ("season.yaml", "season.yml")

    def all_of(self, table: str, row: int) -> dict[str, Value]:
        rows = self._season.tables[table]
        return {
            name: column[row]
            for name, column in rows.values.items()
            if self._is_written(rows.origins[name][row])
        }

    @staticmethod
    def _is_written(origin: Origin | None) -> bool:
        return origin is not None and origin.kind == "given"

    def _write(
        self,
        home: Home,
        change: Change,
        touched: dict[str, tuple[Written | None, Written | None]],
        new: Values,
        like: Like,
    ) -> None:
        pen = self.pens[home.file]
        if home.short and change.table == "loads":
            nowhere = [key for key in touched if key not in SHORT.load]
            if nowhere:
                raise Unsaid(
                    f"{home.file} has the short form, in which a load has no {nowhere[0]}; "
                    "write the day's work there as lists, or empty this cell",
                    *nowhere,
                )
            self._as_before(pen, home, touched)
        if home.line is not None:
            self.line_anew(home, change, touched, new)
            return
        if home.holder is None:
            assert home.under is not None
            self._begin(pen, home, change, touched)
            return
        bought = home.holder.find("bought") if home.short and change.table == "lots" else None
        if bought is not None:
            touched |= self.beside_bought(bought, touched, new, like)
            parts = [
                key
                for key in touched
                if home.holder.find(key) is None and key in said_of_bought(new)
            ]
            if parts:
                self._bought(pen, bought, {k: touched.pop(k) for k in parts}, new, like)
        gone = [key for key, (_, new) in touched.items() if new is None and home.holder.find(key)]
        if home.holder.flow and gone and len(touched) > 1:
            pen.several(home.holder, {key: new for key, (_, new) in touched.items()})
            return
        for key, (was, becomes) in touched.items():
            with pen.writing((change.table, change.row, key)):
                self._key(pen, home, home.holder, key, was, becomes)

    def _as_before(
        self, pen: Pen, home: Home, touched: Keys[str, tuple[Written | None, ...]]
    ) -> None:
        """Say of a day's work in the short form what the keys of its load said by being there: that
        it was a run, and that it held all of the lot."""
        assert home.holder is not None
        there = {key.text for key, _ in home.holder.entries}
        left = there - {key for key, (_, new) in touched.items() if new is None} | {
            key for key, (_, new) in touched.items() if new is not None
        }
        if not left & {"run", *SHORT.load}:
            raise Unsaid("nothing else in the file says that there is a load; leave one of them")
        lots = self._season.tables["lots"]
        lot = next(at for at, place in enumerate(lots.places) if place.file == home.file)
        told = "finished" in there or lot in self._finished
        if not told and ("wet" in there) != ("wet" in left):
            finished = bool(lots.values["finished"][lot])
            pen.add(home.holder, "finished", "true" if finished else "false")

    def _begin(
        self,
        pen: Pen,
        home: Home,
        change: Change,
        touched: dict[str, tuple[Written | None, Written | None]],
    ) -> None:
        """The first keys of a record that has none: ``pricing: {margin: 35 %}``."""
        assert home.under is not None
        mapping, key = home.under
        written = {name: new for name, (_, new) in touched.items() if new is not None}
        if record_of(change.table).named and key == change.table:
            written = {self._season.tables[change.table].keys[change.row]: written}
        found = mapping.find(key)
        if found is None:
            if written:
                pen.add(mapping, key, written)
            return
        if written:
            pen.put(found[0], found[1], written)

    def _key(
        self, pen: Pen, home: Home, holder: Mapping, key: str,
        was: Written | None, becomes: Written | None,
    ) -> None:  # fmt: skip
        found = holder.find(key)
        if becomes is None:
            if found is not None:
                pen.drop(holder, key)
        elif found is None:
            pen.add(holder, key, becomes)
        else:
            if home.short and isinstance(found[1], Scalar) and isinstance(becomes, str):
                becomes = self._moment(home, key, found[1], becomes)
            self._differ(pen, found[0], found[1], was, becomes)

    def _keep_moments(self, file: str) -> None:
        """Clock times on the day of a file that gets another one, with the day they were on."""
        pen, runs = self.pens[file], self._season.tables["runs"]
        root = pen.root
        run = root.find("run") if isinstance(root, Mapping) else None
        row = next((at for at, place in enumerate(runs.places) if place.file == file), None)
        if row is None or run is None or not isinstance(run[1], Mapping):
            return
        for key, value in run[1].entries:
            moment = runs.values[key.text][row] if key.text in ("started", "ended") else None
            clock = isinstance(value, Scalar) and short_lines.is_clock(value.text)
            if clock and isinstance(moment, float) and not pen.changes(value):
                pen.put(key, value, day(moment, True))

    def _moment(self, home: Home, key: str, old: Scalar, new: str) -> str:
        """A clock time on the file's day stays one."""
        moved = home.file in self._moved
        if key in ("started", "ended") and not moved and short_lines.is_clock(old.text):
            on, _, clock = new.partition(" ")
            root = self.pens[home.file].root
            assert isinstance(root, Mapping)
            given = root.find("date")
            date = given[1].text if given and isinstance(given[1], Scalar) else date_of(home.file)
            if on == date and clock:
                return clock
        return new

    def _differ(
        self, pen: Pen, key: Scalar | None, span: Span, was: Written | None, new: Written
    ) -> None:
        """Write what differs and nothing else; what has another shape is written anew, the old text
        behind it."""
        if was == new:
            return
        if isinstance(span, Mapping) and isinstance(new, Keys) and isinstance(was, Keys):
            if span.flow and not {*was} <= {*new}:
                kept = {key: new[key] for key in new if was.get(key) != new[key]}
                pen.several(span, {**kept, **{key: None for key in was if key not in new}})
                return
            for name in [*was, *(each for each in new if each not in was)]:
                inner = span.find(name)
                if inner is None:
                    if name in new:
                        pen.add(span, name, new[name])
                elif name not in new:
                    pen.drop(span, name)
                else:
                    self._differ(pen, inner[0], inner[1], was.get(name), new[name])
            return
        if isinstance(span, Listing):
            old, values = _items(was), _items(new)
            items = span.items[-len(values) :]
            if values and len(old) == len(values) == len(items):
                for item, before, value in zip(items, old, values, strict=True):
                    self._differ(pen, None, item, before, value)
                return
        note = (
            ""
            if isinstance(span, Scalar)
            else f"was {' '.join(pen.marked.text[span.start : span.end].split())}"
        )
        pen.put(key, span, new, note)


def _items(value: Written | None) -> Sequence[Written]:
    """What a list holds; nothing where it is none."""
    return value if isinstance(value, Sequence) and not isinstance(value, str) else ()
