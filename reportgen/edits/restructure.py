"""Records taken away, put into others, given another id, in the files of a season."""

from __future__ import annotations

from reportgen.edits.entries import Entries, fields_of
from reportgen.edits.records import OWNED, Home, record_of
from reportgen.edits.short_rows import Change
from reportgen.edits.written import UNWRITTEN, Unsaid, twice
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written
from reportgen.read.spans import Listing, Mapping, Scalar

_BY_ITSELF = "the short form says by itself which run a pack came from"


class Restructurer(Entries):
    """Changes of records as wholes. Each says what stands in the way, where it cannot be done."""

    def change(self, change: Change) -> None:
        """Write new values of a record. Raises ``KeyError`` where its file is not the season's, and
        :class:`Unsaid` where no file can say them."""
        owner = OWNED.get(change.table, ("", "", ""))[1]
        if change.table == "draws":
            self._drawn(change)
        elif isinstance(moved := change.values.get(owner), str):
            self._into_another(change, moved)
        else:
            super().change(change)

    def _into_another(self, change: Change, owner: str) -> None:
        """A record out of the list of one owner into that of another."""
        owners, column, key = OWNED[change.table]
        if any(name.endswith(UNWRITTEN) for name in self.all_of(change.table, change.row)):
            raise Unsaid(
                "its weights are written as several weighings, which would be lost; move it in the "
                "file",
                column,
            )
        new = {**self.all_of(change.table, change.row), **change.values, column: None}
        item = self._writer.record(
            record_of(change.table), new, self.like(change.table, change.row)
        )
        why = self.remove(change.table, change.row)
        if not why:
            why = self.insert(owners, self.row_of(owners, owner), key, item)
        if why:
            raise Unsaid(why, column)

    def _drawn(self, change: Change) -> None:
        """A run or a mix in the list that says what a pack came from."""
        rows = self._season.tables["draws"]
        now = {name: column[change.row] for name, column in rows.values.items()}
        new = {**now, **change.values}
        if new["run"] and new["mix"]:
            other = "mix" if "run" in change.values else "run"
            column = next(each for each in rows.record.inputs if each.name == other)
            raise twice(new[other], column, *change.values)
        origins = [str(each.get("run") or each.get("mix") or "") for each in (now, new)]
        if new["pack"] == now["pack"] and all(origins):
            why = self.rename_in_list("packs", "draws", change.row, *origins)
        else:
            why = self._out_of_pack(change.row)
            if not why and origins[1]:
                why = self.insert(
                    "packs", self.row_of("packs", str(new["pack"])), "from", origins[1]
                )
        if why:
            raise Unsaid(why)

    def remove(self, table: str, row: int) -> str:
        """Take a record away; what stands in the way, where that cannot be done."""
        if fields_of(table):
            self.drop_entry(table, row)
            return ""
        home = self.homes.of(table, row)
        if home is None:
            return "it does not stand in a file of the season"
        pen = self.pens[home.file]
        if record_of(table).named:
            return self._drop_named(pen, home)
        if table == "draws":
            return self._out_of_pack(row)
        self.gone.add((table, row))
        item = home.line if home.line is not None else home.holder
        if home.listing is not None and item is not None:
            if len(home.listing.items) == 1 and home.short:
                return self._drop_packed(pen, home)
            pen.remove(home.listing, item)
            return ""
        if home.line is not None:
            return self._drop_packed(pen, home)
        return f"its file {home.file} holds nothing else of the kind; delete the file"

    @staticmethod
    def _drop_named(pen: Pen, home: Home) -> str:
        assert home.under is not None
        holder, key = home.under
        if holder.find(key) is None or holder is pen.root:
            return "it is there without being named"
        if len(holder.entries) == 1 and isinstance(pen.root, Mapping):
            holder, key = pen.root, next(k.text for k, v in pen.root.entries if v is holder)
        pen.drop(holder, key)
        return ""

    @staticmethod
    def _drop_packed(pen: Pen, home: Home) -> str:
        root = pen.root
        assert isinstance(root, Mapping)
        pen.drop(root, "packed")
        return ""

    def _out_of_pack(self, row: int) -> str:
        rows = self._season.tables["draws"]
        owner = str(rows.values["pack"][row])
        at = self._season.tables["packs"].keys.index(owner)
        pack = self.homes.of("packs", at)
        found = pack.holder.find("from") if pack is not None and pack.holder is not None else None
        if pack is None or found is None:
            return _BY_ITSELF
        pen = self.pens[pack.file]
        origin = str(rows.values["run"][row] or rows.values["mix"][row])
        if isinstance(found[1], Listing):
            items = [i for i in found[1].items if isinstance(i, Scalar) and i.text == origin]
            if items and len(found[1].items) > 1:
                pen.remove(found[1], items[0])
                return ""
        assert pack.holder is not None
        pen.drop(pack.holder, "from")
        return ""

    def insert(self, table: str, row: int, key: str, item: Written) -> str:
        """Put an item into a list of a record: a load into its run."""
        home = self.homes.of(table, row)
        if home is None:
            return "its owner does not stand in a file of the season"
        if home.short and table == "runs":
            return f"{home.file} has the short form, which holds one load; write it there"
        if home.holder is None:
            return f"{home.file} has the short form, which says this by itself; write it there"
        pen = self.pens[home.file]
        found = home.holder.find(key)
        if found is None:
            pen.add(home.holder, key, [item])
        elif isinstance(found[1], Listing) and found[1].items:
            pen.append(found[1], item)
        elif isinstance(found[1], Scalar) and found[1].text:
            pen.put(found[0], found[1], [found[1].text, item])
        else:
            pen.put(found[0], found[1], [item])
        return ""

    def rename(self, table: str, row: int, new: str) -> str:
        """Give a record another id; the file keeps its name."""
        home = self.homes.of(table, row)
        if home is None:
            return "it does not stand in a file of the season"
        pen = self.pens[home.file]
        if home.line is not None:
            self.line_anew(home, Change(table, row, {}), {}, self.all_of(table, row), id_=new)
            return ""
        if record_of(table).named:
            assert home.under is not None
            written = home.under[0].find(home.under[1])
            if written is None or home.under[0] is pen.root:
                return "it is there without being named"
            pen.cut(written[0].start, written[0].end, new)
            return ""
        if home.holder is None:
            assert home.under is not None
            pen.add(home.under[0], home.under[1], {"id": new})
            return ""
        found = home.holder.find("id")
        if found is None:
            pen.add(home.holder, "id", new)
            if home.short and table == "lots":
                self._keep_ids(home, row)
        else:
            pen.put(found[0], found[1], new)
        return ""

    def _keep_ids(self, home: Home, row: int) -> None:
        """What took its id from the lot's keeps the one it had."""
        for table in ("runs", "packs"):
            rows = self._season.tables[table]
            for at, place in enumerate(rows.places):
                if place.file == home.file and not self._has_id(table, at):
                    self.rename(table, at, rows.keys[at])

    def _has_id(self, table: str, row: int) -> bool:
        home = self.homes.of(table, row)
        return home is not None and home.holder is not None and home.holder.find("id") is not None

    def rename_in_list(self, table: str, rows_of: str, row: int, old: str, new: str) -> str:
        """Put another id into a list of ids: a pack's ``from``; what stands in the way, if any."""
        owner = str(self._season.tables[rows_of].values["pack"][row])
        home = self.homes.of(table, self._season.tables[table].keys.index(owner))
        found = home.holder.find("from") if home is not None and home.holder is not None else None
        if home is None or found is None:
            return _BY_ITSELF
        pen = self.pens[home.file]
        items = found[1].items if isinstance(found[1], Listing) else [found[1]]
        for item in items:
            if isinstance(item, Scalar) and item.text.casefold() == old.casefold():
                pen.put(found[0] if item is found[1] else None, item, new)
        return ""
