"""One random change of a season, of the kind that someone makes in a cell of the workbook."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from seasons import added, numbers
from seasons.batches import BOUGHT_IN
from seasons.form import Season, load_key
from seasons.leaves import Leaf, given, leaves, optional, with_value, without
from seasons.mixes import MIXED
from seasons.outlook import FORMS
from seasons.pen import later

KINDS = ("number", "number", "number", "blank", "fill", "reference", "date", "word", "added")


@dataclass(frozen=True)
class Edit:
    """A change: the row and the columns that it touches, and the season that it leads to.

    ``kind`` is one of ``KINDS``. ``new_key`` differs from ``key`` where the row is named by what
    was changed. An added row's inputs are all that it gives; it is the last of its table.
    """

    kind: str
    table: str
    key: str
    inputs: tuple[str, ...]
    season: Season
    words: str
    new_key: str

    def __str__(self) -> str:
        return f"{self.kind}: {self.table} {self.key}: {self.words}"


def edit(rng: Random, season: Season) -> Edit:
    """An edit of the season that leaves it one that the rules of reading allow."""
    kinds = list(KINDS)
    rng.shuffle(kinds)
    for kind in dict.fromkeys(kinds):
        found = list(_MAKERS[kind](rng, season))
        if found:
            # A table at a time: those of few cells are edited as often as those of many.
            table = rng.choice(sorted({each.table for each in found}))
            return rng.choice([each for each in found if each.table == table])
    raise AssertionError("the season's rates can always be changed")


def _changed(kind: str, season: Season, leaf: Leaf, value: Any) -> Edit:
    row = leaf.row
    result = with_value(season, leaf, value)
    record = result.at(row.file, row.route)
    new_key = load_key(row.key.partition("/")[0], record) if row.table == "loads" else row.key
    before = set(leaf.inputs if leaf.value is not None else ())
    after = set(Leaf(_with(leaf, record), leaf.name, leaf.kind, leaf.needed).inputs)
    words = f"{leaf.name}: {leaf.value!r} becomes {value!r}"
    return Edit(kind, row.table, row.key, tuple(sorted(before | after)), result, words, new_key)


def _with(leaf: Leaf, record: dict[str, Any]) -> Any:
    row = leaf.row
    return type(row)(row.table, row.key, row.file, row.route, record)


def _number(rng: Random, season: Season) -> Iterator[Edit]:
    for leaf in given(season):
        value = numbers.other(rng, leaf)
        if value is not None and value != leaf.value:
            yield _changed("number", season, leaf, value)


def _blank(rng: Random, season: Season) -> Iterator[Edit]:
    for leaf in optional(season):
        row = leaf.row
        words = f"{leaf.name}: {leaf.value!r} is left out"
        result = without(season, [leaf])
        yield Edit("blank", row.table, row.key, leaf.inputs, result, words, row.key)


def _fill(rng: Random, season: Season) -> Iterator[Edit]:
    for leaf in leaves(season):
        if leaf.value is None:
            value = added.fitting(rng, season, leaf)
            if value is not None:
                yield _changed("fill", season, leaf, value)


def _reference(rng: Random, season: Season) -> Iterator[Edit]:
    named = Counter(row.record["product"] for row in season.rows() if "product" in row.record)
    again = {load.record.get("again") for load in season.table("loads")}
    mixed = {*season.ids("mixes")}
    for leaf in given(season):
        record, now = leaf.row.record, leaf.value
        others: list[str] = []
        if leaf.kind == "product":
            # A product that nothing else names would lose its row; a pack of a mix is of the mix's.
            if named[now] > 1 and not mixed & {*record.get("from", ())}:
                others = sorted({*named} - {*MIXED})
            if "container" in record and leaf.row.table == "lots" and "weighed" not in record:
                others = [each for each in others if record["container"] in BOUGHT_IN[each]]
        elif leaf.kind in ("dryer", "container", "pack", "trip"):
            others = season.ids(f"{leaf.kind}s")
        elif leaf.kind == "bought_in" and not record.get("price", "").endswith(f"/{now}"):
            others = list(BOUGHT_IN.get(record["product"], ()))
        elif leaf.kind == "lot" and leaf.row.key not in again:
            run = season.at(leaf.row.file, leaf.row.route[:2])
            there = {load_key(run["id"], load) for load in run["loads"]}
            others = [
                each
                for each in season.ids("lots")
                if "id" in record or f"{run['id']}/{each}" not in there
            ]
        yield from (_changed("reference", season, leaf, each) for each in others if each != now)


def _date(rng: Random, season: Season) -> Iterator[Edit]:
    for leaf in given(season):
        days = rng.randint(1, 40)
        if leaf.kind == "day":
            # No row may start when it is gone.
            ways = (-days,) if "until" in leaf.row.record else (-days, days)
            yield _changed("date", season, leaf, later(leaf.value, rng.choice(ways)))
        elif leaf.kind in ("last_day", "last_shut"):
            yield _changed("date", season, leaf, later(leaf.value, min(days, 3)))
        elif leaf.kind == "start":
            yield _changed("date", season, leaf, later(leaf.value, -days))
        elif leaf.kind == "end":
            yield _changed("date", season, leaf, later(leaf.value, days))


def _word(rng: Random, season: Season) -> Iterator[Edit]:
    for leaf in given(season):
        if leaf.kind == "flag":
            value = "false" if leaf.value == "true" else "true"
            yield _changed("word", season, leaf, value)
        elif leaf.kind == "form":
            others = [form for form in FORMS if form != leaf.value]
            yield _changed("word", season, leaf, rng.choice(others))
        elif leaf.kind == "text":
            yield _changed("word", season, leaf, f"{leaf.value} (corrected)")
        elif leaf.kind == "purpose":
            channels = {"stall", "co-op", *season.head.get("channels", {})}
            packed = ("household", *sorted(channels), "gift", "spoiled")
            words = packed if "pack" in leaf.row.record else ("household", "crumbs", "sample")
            others = [word for word in words if word != leaf.value]
            yield _changed("word", season, leaf, rng.choice(others))


def _added(rng: Random, season: Season) -> Iterator[Edit]:
    for table in added.TABLES:
        found = added.row(rng, season, table)
        if found is not None:
            result, row = found
            here = [leaf for leaf in given(result) if leaf.row.route == row.route]
            inputs = [name for leaf in here if leaf.row.file == row.file for name in leaf.inputs]
            words = f"a row with {row.record!r}"
            yield Edit("added", table, row.key, tuple(sorted(inputs)), result, words, row.key)


_MAKERS: dict[str, Callable[[Random, Season], Iterator[Edit]]] = {
    "number": _number,
    "blank": _blank,
    "fill": _fill,
    "reference": _reference,
    "date": _date,
    "word": _word,
    "added": _added,
}
