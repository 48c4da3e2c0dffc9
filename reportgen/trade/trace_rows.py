"""Which steps lead from each pack back to its lots: through runs, through mixes and their parts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from reportgen.algebra.numbers import Cells
from reportgen.algebra.operations import Value

Tables = Mapping[str, Cells]
Row = dict[str, Value]


class Step(NamedTuple):
    """A step from a pack: the run or mix that it names; the part or bought part of a mix, the one
    nearest to the load; a load, and its lot."""

    pack: Value
    draw: Value = None
    part: Value = None
    item: Value = None
    load: Value = None
    lot: Value = None


def records(cells: Cells) -> Iterator[Row]:
    """The rows of a table."""
    for values in zip(*cells.values(), strict=True):
        yield dict(zip(cells, values, strict=True))


def load_key(load: Mapping[str, Value]) -> str:
    """What a load is called."""
    return str(load["id"] or f"{load['run']}/{load['lot']}")


def steps(tables: Tables) -> list[Step]:
    """Each pack, by the runs and mixes it names, with the loads of its product in them, and their
    lots; then packs whose runs and lots are in an earlier season: no load of this one is behind
    them."""
    found = list(_Steps(tables).all())
    packs = zip(tables["packs"]["key"], tables["packs"]["carried_from"], strict=True)
    return [*found, *(Step(pack) for pack, came in packs if came)]


def _by(rows: Iterator[Row], name: str) -> dict[Value, list[Row]]:
    found: dict[Value, list[Row]] = defaultdict(list)
    for row in rows:
        found[row[name]].append(row)
    return found


class _Steps:
    def __init__(self, tables: Tables) -> None:
        self.draws = list(records(tables["draws"]))
        self.draws_of = _by(iter(self.draws), "pack")
        self.parts = _by(records(tables["mix_parts"]), "into")
        self.bought = _by(records(tables["bought_parts"]), "into")
        self.mixes = {row["key"]: row for row in records(tables["mixes"])}
        self.product_of = dict(zip(tables["lots"]["key"], tables["lots"]["product"], strict=True))
        self.packed = dict(zip(tables["packs"]["key"], tables["packs"]["product"], strict=True))
        self.runs = {row["key"]: row for row in records(tables["runs"])}
        loads = [row for row in records(tables["loads"]) if row["lot"] in self.product_of]
        self.in_run = _by(iter(loads), "run")
        self.of_product: dict[Value, list[Row]] = defaultdict(list)
        for load in loads:
            self.of_product[self.product_of[load["lot"]]].append(load)

    def all(self) -> Iterator[Step]:
        for draw in self.draws:
            for step in self._behind(draw):
                yield step._replace(pack=draw["pack"], draw=draw["key"])

    def _behind(self, draw: Row, deep: int = 0) -> Iterator[Step]:
        """What is behind a run or mix that a pack names; of a run its loads of the product."""
        if draw["mix"]:
            yield from self._of_mix(draw["mix"], deep)
            return
        for load in self.in_run[draw["run"]]:
            if self.product_of[load["lot"]] == self.packed.get(draw["pack"]):
                yield _of_load(load)

    def _of_mix(self, mix: Value, deep: int) -> Iterator[Step]:
        if deep > 1:
            return  # a mix in a mix in a mix is refused on reading
        day = self.mixes.get(mix, {}).get("date")
        for part in self.parts[mix]:
            found = list(self._of_part(part, day, deep)) or [Step(None)]
            for step in found:
                yield step if step.part or step.item else step._replace(part=part["key"])
        for bought in self.bought[mix]:
            yield Step(None, item=bought["key"])

    def _of_part(self, part: Row, day: Value, deep: int) -> Iterator[Step]:
        if part["mix"]:
            yield from self._of_mix(part["mix"], deep + 1)
        elif part["pack"]:
            for draw in self.draws_of[part["pack"]]:
                yield from self._behind(draw, deep + 1)
        else:
            for load in self.of_product[part["product"]]:
                if not self._later(load, day):
                    yield _of_load(load)

    def _later(self, load: Row, day: Value) -> bool:
        """Whether a load came out, or was not even put in, after the day of the mix."""
        run = self.runs.get(load["run"], {})
        started, ended, hours = run.get("started"), run.get("ended"), run.get("duration")
        if isinstance(started, float) and isinstance(hours, float) and ended is None:
            ended = started + hours / 24
        last = ended if isinstance(ended, float) else started
        return isinstance(day, float) and isinstance(last, float) and int(last) > int(day)


def _of_load(load: Row) -> Step:
    return Step(None, load=load_key(load), lot=load["lot"])
