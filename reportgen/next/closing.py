"""What a season closes with, as the records that the next one begins with."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from reportgen.algebra.numbers import Numbers
from reportgen.edits.written import Writer, nothing
from reportgen.model.records import RECORDS
from reportgen.model.season import Season, Value
from reportgen.pen.scalars import Written
from reportgen.report.basis import Bases
from reportgen.trade import BOOK

Row = dict[str, Value]
Item = dict[str, Written]


@dataclass(frozen=True)
class Dryer:
    """What a dryer brings into the next season; ``saved`` is written, ``how`` a comment to it."""

    runs: str
    saved: str | None
    how: str


@dataclass
class Closing:
    """The records of the next season, and what is to be said of them."""

    packs: list[Item] = field(default_factory=list)
    lots: list[Item] = field(default_factory=list)
    bulk: list[Item] = field(default_factory=list)
    offers: list[Item] = field(default_factory=list)
    dryers: dict[str, Dryer] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    """What could not be carried, since it is not known."""


def not_done(season: Season, numbers: Numbers) -> list[str]:
    """The runs that are neither done nor given up, each with its file and line."""
    return [
        f"{place.file}:{place.line}: the run {row['key']} is not done"
        for row, place in zip(rows(numbers, "runs"), season.tables["runs"].places, strict=True)
        if not row["done"] and not row["given_up"]
    ]


def closing(season: Season, numbers: Numbers) -> Closing:
    """All that is left of a season whose runs are done."""
    return _Closer(season, numbers).all()


def rows(numbers: Numbers, table: str) -> Iterator[Row]:
    """The rows of a table, each with the columns that it has now."""
    cells = dict(numbers.cells[table])
    for values in zip(*cells.values(), strict=True):
        yield dict(zip(cells, values, strict=True))


class _Closer:
    def __init__(self, season: Season, numbers: Numbers) -> None:
        self._season, self._numbers = season, numbers
        self._writer = Writer(season.slots)
        self._bases = Bases(numbers)
        self._found = Closing()

    def all(self) -> Closing:
        for n, row in enumerate(rows(self._numbers, "packs")):
            self._pack(n, row)
        for n, row in enumerate(rows(self._numbers, "lots")):
            self._lot(n, row)
        for n, row in enumerate(rows(self._numbers, "products")):
            self._bulk(n, row)
        for n, row in enumerate(rows(self._numbers, "mixes")):
            self._mix(n, row)
        for row in rows(self._numbers, "dryers"):
            self._dryer(row)
        self._offers()
        return self._found

    def _pack(self, n: int, row: Row) -> None:
        left = row["on_hand"]
        if not isinstance(left, float | int):
            self._found.notes.append(f"how many of the pack {row['key']} are left is not known")
        elif left > 0:
            came = row["carried_from"] or self._behind(str(row["key"]))
            kept = {key: row[key] for key in ("product", "date", "container", "net", "net_about")}
            carried = {
                "carried_running": row["running_each"],
                "carried_full": row["full_each"],
                "carried_best_by": row["best_by"],
                "carried_dryness": row["dryness"],
                "carried_from": came,
            }
            values = {**kept, "count": left, **carried, "note": row["note"]}
            self._found.packs.append(self._record("packs", n, values, str(row["key"])))

    def _behind(self, pack: str) -> str:
        """The season, and the runs and lots of it that a pack came from."""
        steps = {
            f"{row['run']} of {row['lot']}{_bought(row, self._writer)}": None
            for row in rows(self._numbers, "trace")
            if row["pack"] == pack and row["lot"]
        }
        runs = {
            str(row["run"] or row["mix"]): None
            for row in rows(self._numbers, "draws")
            if row["pack"] == pack
        }
        return ": ".join(filter(None, (self._season.name, ", ".join(steps or runs))))

    def _lot(self, n: int, row: Row) -> None:
        if row["waiting"] is None:
            self._found.notes.append(f"how much of the lot {row['key']} waits is not known")
        elif row["some_waiting"]:
            kept = {key: row[key] for key in ("product", "date", "source", "grown", "water")}
            values = {
                **kept,
                "grown": kept["grown"] or None,
                "prepped_weighed": row["waiting"],
                "prepped_about": self._guessed("lots", "waiting", n),
                "carried_running": row["waiting_cost"],
                "carried_full": row["waiting_full"],
                "carried_from": row["carried_from"] or f"{self._season.name}: {row['key']}",
                "note": row["note"],
            }
            self._found.lots.append(self._record("lots", n, values, str(row["key"])))

    def _guessed(self, table: str, name: str, n: int) -> bool:
        """Whether a weight rests on an estimate: it is one in the next season, too."""
        return self._bases.of(BOOK.tables[table], name, n) != "measured"

    def _bulk(self, n: int, row: Row) -> None:
        if row["unpacked"] is None:
            self._found.notes.append(f"how much {row['key']} is in bulk is not known")
        elif row["left_in_bulk"]:
            guessed = self._guessed("products", "unpacked", n)
            costs = row["running_bulk"], row["full_bulk"]
            self._over(row["key"], row["unpacked"], guessed, *costs)

    def _mix(self, n: int, row: Row) -> None:
        """What is left of a mix in bulk is bulk of its product, at the mix's own cost."""
        if row["left"] is None:
            self._found.notes.append(f"how much of the mix {row['key']} is in bulk is not known")
        elif row["some_left"]:
            guessed = self._guessed("mixes", "left", n)
            costs = row["running_by_weight"], row["full_by_weight"]
            self._over(row["product"], row["left"], guessed, *costs)

    def _over(
        self, product: Value, dried: Value, guessed: bool, running: Value, full: Value
    ) -> None:
        weight = {"dried": dried, "dried_about": guessed}
        values = {"product": product, **weight, "running": running, "full": full}
        self._found.bulk.append(self._writer.record(RECORDS["carried_over"], values))

    def _dryer(self, row: Row) -> None:
        done, saved = row["runs_done"], row["saved_in_all"]
        how = "saved in earlier seasons and in the last"
        if row["saved_before"] is None or row["saved"] is None:
            how = "an estimate: as if each run of yours had saved what the last season's did"
        if saved is None:
            saved, how = row["saved_before"], "without the last season, whose saving is not known"
        if saved is None:
            how = "what these runs saved is not known"
        said = self._writer.record(RECORDS["dryers"], {"runs_before": done, "saved_before": saved})
        runs, money = said.get("runs_before"), said.get("saved_before")
        assert isinstance(runs, str)
        assert money is None or isinstance(money, str)
        self._found.dryers[str(row["key"])] = Dryer(runs, money, how)

    def _offers(self) -> None:
        """Of each shop's offer of a product in a form and size, the last."""
        last: dict[tuple[Value, ...], tuple[float, int, Row]] = {}
        for n, row in enumerate(rows(self._numbers, "offers")):
            kind = tuple(row[key] for key in ("product", "seller", "form", "net"))
            day = row["date"]
            when = (day if isinstance(day, float) else 0.0, n)
            if kind not in last or when > last[kind][:2]:
                last[kind] = (*when, row)
        fields = [each.name for each in RECORDS["offers"].inputs]
        for _, n, row in sorted(last.values(), key=lambda each: each[1]):
            values = {key: row[key] for key in fields}
            values["on_sale"] = values["on_sale"] or None
            if values["form"] == "freeze-dried":
                values["form"] = None
            self._found.offers.append(self._record("offers", n, values, str(row["key"])))

    def _record(self, table: str, n: int, values: Mapping[str, Value], key: str) -> Item:
        """A record with its id, in the maker's units where that is exact."""
        season = self._season.tables[table]

        def like(name: str) -> str:
            origin = season.origins[name][n] if name in season.origins else None
            return origin.text if origin is not None and origin.kind == "given" else nothing(name)

        return {"id": key, **self._writer.record(RECORDS[table], values, like)}


def _bought(row: Row, writer: Writer) -> str:
    """When and where a lot was bought."""
    day = writer.record(RECORDS["lots"], {"date": row["bought"]}).get("date")
    said = ", ".join(str(each) for each in (day, row["source"]) if each)
    return f" ({said})" if said else ""
