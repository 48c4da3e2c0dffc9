"""From what an edited workbook says to the new texts of the season's files."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from reportgen.edits.differences import KEY, Change, Difference, New
from reportgen.edits.memory import WRITTEN_AS
from reportgen.edits.new_records import NewRecords
from reportgen.edits.own_recipes import FOLDER, TABLES, OwnRecipes
from reportgen.edits.restructure import Restructurer
from reportgen.edits.short_rows import Change as Values
from reportgen.edits.written import Unsaid
from reportgen.model.records import RECORDS
from reportgen.model.season import Season, Value
from reportgen.pen.pen import Pen

METERED, KWH = "run_energy", "kwh"
"""The kWh of a logged run: typed over, they become the run's own energy."""


@dataclass
class Taken:
    """What is to be written. ``texts``: new texts of files, by name; ``refused``: what cannot be
    written, each with its change; ``done``: the changes that are in the texts."""

    texts: dict[str, str] = field(default_factory=dict)
    refused: list[tuple[Change, str]] = field(default_factory=list)
    done: list[Change] = field(default_factory=list)
    lines: dict[tuple[str, int], Change] = field(default_factory=dict)
    """The lines that new records stand in, each with the change that added it."""
    spots: dict[str, list[tuple[int, int, Change]]] = field(default_factory=dict)
    """From which character to which of a file's new text a change was written."""

    def at(self, file: str, line: int, column: int) -> Change | None:
        """The change that stands at a place in a file's new text, or next to it."""
        if (file, line) in self.lines:
            return self.lines[file, line]
        before = self.texts.get(file, "").splitlines(keepends=True)[: line - 1]
        at = sum(map(len, before)) + column - 1

        def away(spot: tuple[int, int, Change]) -> int:
            return max(spot[0] - at, at - spot[1], 0)

        near = min(self.spots.get(file, ()), key=away, default=None)
        if near is not None:
            return near[2]
        return next((each for each in self.done if each.file == file and each.line), None)


def apply(
    season: Season, texts: Mapping[str, str], difference: Difference, chosen: Sequence[Change],
    into: str = "", day: float | None = None, removals: bool = False,
) -> Taken:  # fmt: skip
    """The files with the chosen changes in them. ``into``: the file for new records; ``day``: for
    those that have none; ``removals``: records that are gone are taken away."""
    return _Application(season, texts, difference, into, day).whole(chosen, removals)


class _Application:
    def __init__(
        self, season: Season, texts: Mapping[str, str], difference: Difference, into: str,
        day: float | None,
    ) -> None:  # fmt: skip
        self.season, self.difference = season, difference
        own = {name: text for name, text in texts.items() if name.startswith(FOLDER)}
        left = {name: text for name, text in texts.items() if name not in own}
        self.recipes = OwnRecipes(season, own)
        self.rewriter = Restructurer(season, left)
        self.new = NewRecords(season, self.rewriter, into, day)
        self.taken = Taken()

    def whole(self, chosen: Sequence[Change], removals: bool) -> Taken:
        """All of them, record by record."""
        values: dict[tuple[str, int], dict[str, Value]] = defaultdict(dict)
        added = {(each.sheet, each.cell): each for each in self.difference.added}
        fresh: list[tuple[Change, New]] = []
        for change in chosen:
            match change.kind:
                case "added":
                    fresh.append((change, added[change.sheet, change.cell]))
                    continue
                case "removed":
                    if removals:
                        self._remove(change)
                    continue
                case "renamed":
                    self._rename(change, values)
                    continue
            at = self.difference.at.get((change.table, change.row))
            if at is None or change.field in ("", KEY):
                self._refuse(
                    change, change.why or "the record is not in the season any more; add it anew"
                )
            elif change.table == METERED:
                self._metered(change, at, values)
            else:
                table = WRITTEN_AS.get(change.table, change.table)
                values[table, at][change.field] = change.edited
                if change.about:
                    values[table, at][change.about] = True
                self.taken.done.append(change)
        for (table, at), inputs in values.items():
            why, names = self._values(table, at, inputs)
            changes = self._of(table, at) if why else []
            for change in [each for each in changes if each.field in names] or changes:
                self._refuse(change, why)
        for change, new in fresh:
            weight = new.table == "nominal_weights"
            try:
                why = self.recipes.add(new.values) if weight else self.new.add(new)
            except Unsaid as unsaid:
                why = str(unsaid)
            if why:
                self._refuse(change, why)
            else:
                self.taken.done.append(change)
        self.new.write()
        self.taken.texts = {**self.rewriter.texts(), **self.recipes.texts(), **self.new.files}
        lines = self.new.lines(self.taken.texts)
        cells = {(new.sheet, new.cell): change for change, new in fresh}
        done: dict[tuple[str, int], list[Change]] = defaultdict(list)
        for each in self.taken.done:
            row = self.difference.at.get((each.table, each.row), -1)
            done[WRITTEN_AS.get(each.table, each.table), row].append(each)
        pens = self.rewriter.pens
        self.taken.spots = {name: [*self._spots(pen, done)] for name, pen in pens.items()}
        self.taken.lines = {at: cells[new.sheet, new.cell] for at, new in lines.items()}
        return self.taken

    def _values(self, table: str, at: int, inputs: dict[str, Value]) -> tuple[str, tuple[str, ...]]:
        """Write a record's new values; what stands in the way, where that cannot be, and of which
        of them: of all, where none is named."""
        if table in TABLES:
            return self.recipes.change(table, at, inputs), ()
        try:
            self.rewriter.change(Values(table, at, inputs))
        except KeyError:
            return "it stands in no file of the season", ()
        except Unsaid as unsaid:
            return str(unsaid), unsaid.names
        return "", ()

    def _spots(
        self, pen: Pen, done: Mapping[tuple[str, int], Sequence[Change]]
    ) -> Iterator[tuple[int, int, Change]]:
        for first, last, of in pen.written():
            if isinstance(of, tuple):
                table, row, key = of
                written = next((f for f in RECORDS[table].fields if f.name == key), None)
                names = [each.name for each in written.inputs] if written is not None else []
                changes = done.get((table, row), ())
                named = [each for each in changes if each.field in names]
                yield from ((first, last, each) for each in (named or changes)[:1])

    def _of(self, table: str, at: int) -> list[Change]:
        return [
            each
            for each in self.taken.done
            if WRITTEN_AS.get(each.table, each.table) == table
            and self.difference.at.get((each.table, each.row)) == at
        ]

    def _refuse(self, change: Change, why: str) -> None:
        self.taken.refused.append((change, why))
        if change in self.taken.done:
            self.taken.done.remove(change)

    def _remove(self, change: Change) -> None:
        at = self.difference.at.get((change.table, change.row))
        if at is None:
            return
        table = WRITTEN_AS.get(change.table, change.table)
        naming = next(self._naming(table, change.row), None)
        if naming is not None:
            self._refuse(change, f"{naming} names it, so it cannot be removed")
            return
        why = self.rewriter.remove(table, at)
        if why:
            self._refuse(change, why)
        else:
            self.taken.done.append(change)

    def _naming(self, table: str, key: str) -> Iterator[str]:
        """Records that name a record and stay."""
        gone = {
            (WRITTEN_AS.get(each.table, each.table), each.row)
            for each in self.difference.of("removed")
        }
        for name, row, owner in self._references(table, key):
            rows = self.season.tables[name]
            holder = rows.values[owner][row] if owner else rows.keys[row]
            one = RECORDS[name].one
            if (name, rows.keys[row]) not in gone and (
                name != "draws" or ("packs", holder) not in gone
            ):
                yield f"the {one} {holder}" if name != "draws" else f"the pack {holder}"

    def _references(self, table: str, key: str) -> Iterator[tuple[str, int, str]]:
        for name, record in RECORDS.items():
            rows = self.season.tables[name]
            owner = {"draws": "pack", "loads": "run"}.get(name, "")
            for column in record.inputs:
                if column.ref != table or column.name == owner:
                    continue
                for row, value in enumerate(rows.values[column.name]):
                    if isinstance(value, str) and value.casefold() == key.casefold():
                        yield name, row, owner

    def _rename(self, change: Change, values: dict[tuple[str, int], dict[str, Value]]) -> None:
        at = self.difference.at.get((change.table, change.row))
        if at is None:
            self._refuse(change, "the record is not in the season any more")
            return
        table = WRITTEN_AS.get(change.table, change.table)
        new = str(change.edited)
        why = self.rewriter.rename(table, at, new)
        if why:
            self._refuse(change, why)
            return
        self.taken.done.append(change)
        for name, row, _ in self._references(table, change.row):
            if name == "draws":
                self.rewriter.rename_in_list("packs", name, row, change.row, new)
                continue
            column = next(c.name for c in RECORDS[name].inputs if c.ref == table)
            origin = self.season.tables[name].origins[column][row]
            if origin is not None and origin.kind == "given":
                values[name, row].setdefault(column, new)
        if table in ("runs", "lots"):
            self._loads_again(table, change.row, new, values)

    def _loads_again(
        self, table: str, old: str, new: str, values: dict[tuple[str, int], dict[str, Value]]
    ) -> None:
        """A load without an id of its own is named by its run and lot, wherever it went back in."""
        rows = self.season.tables["loads"]
        for row, again in enumerate(rows.values["again"]):
            if not isinstance(again, str) or "/" not in again:
                continue
            run, _, lot = again.partition("/")
            if (run if table == "runs" else lot).casefold() == old.casefold():
                values["loads", row]["again"] = (
                    f"{new}/{lot}" if table == "runs" else f"{run}/{new}"
                )

    def _metered(
        self, change: Change, at: int, values: dict[tuple[str, int], dict[str, Value]]
    ) -> None:
        """Energy typed over in a period becomes the run's own, all periods together."""
        if change.field != KWH:
            self._refuse(change, "it is read from the run's log; change it there")
            return
        rows = self.season.tables[METERED]
        run = rows.values.get("run", [None] * (at + 1))[at]
        runs = self.season.tables["runs"]
        if not isinstance(run, str) or run not in runs.keys or not isinstance(change.edited, float):
            self._refuse(change, "the run that it was metered in is not there any more")
            return
        row = runs.keys.index(run)
        total = 0.0
        for each, owner in enumerate(rows.values["run"]):
            edited = next(
                (
                    c.edited
                    for c in self.difference.changes
                    if (c.table, c.field) == (METERED, KWH)
                    and self.difference.at.get((METERED, c.row)) == each
                ),
                rows.values[KWH][each],
            )
            if owner == run and isinstance(edited, float):
                total += edited
        values["runs", row]["energy"] = total
        self.taken.done.append(change)
