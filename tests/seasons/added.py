"""What someone might fill into an empty cell, or into a spare row."""

from __future__ import annotations

from random import Random
from typing import Any

from seasons.form import Row, Season, load_key
from seasons.leaves import Leaf
from seasons.numbers import grams
from seasons.outlook import FORMS
from seasons.pen import GRAMS, day, later, number

TABLES = ("lots", "loads", "packs", "uses", "offers", "counts", "closed")


def fitting(rng: Random, season: Season, leaf: Leaf) -> Any:
    """A value for a key that was left out; None where none would fit."""
    money = season.head["currency"]
    units = season.head["units"]
    record = leaf.row.record

    def some(low: float, high: float, unit: str) -> str:
        return f"{number(low + (high - low) * rng.random(), 2)} {unit}"

    def weight(low: float, high: float, unit: str) -> str:
        return some(low / GRAMS[unit], high / GRAMS[unit], unit)

    if leaf.name == "lot" or leaf.needed:
        return None
    if leaf.name in ("ended", "duration") and {"ended", "duration"} & set(record):
        return None
    if leaf.name == "weighed_count":
        return None
    if leaf.kind == "dry":
        if "wet" not in record or leaf.row.record.get("dryness"):
            return None
        wet = grams(record["wet"])
        low, high = (0.9, 0.99) if "again" in record else (0.1, 0.3)
        return f"{number(wet * (low + (high - low) * rng.random()) / GRAMS['oz'], 2)} oz"
    if leaf.kind == "price":
        if "container" in record and rng.random() < 0.5:
            return some(2, 40, f"{money}/{record['container']}")
        return some(5, 90, money)
    if leaf.kind == "last_day":
        return later(record["start"], rng.randint(0, 30)) if "start" in record else None
    if leaf.name == "start" and "until" in record:
        return later(record["until"], -rng.randint(0, 20))
    choices = {
        "fresh": lambda: weight(8000, 20000, units["fresh"]),
        "little": lambda: weight(10, 300, units["fresh"]),
        "net": lambda: weight(100, 400, units["dried"]),
        "time": lambda: some(16, 40, "h") if leaf.name == "duration" else some(0.2, 4, "h"),
        "share": lambda: some(1, 35, "%") if leaf.name != "water" else some(80, 90, "%"),
        "road": lambda: some(1, 40, "mile"),
        "money": lambda: some(3, 40, money),
        "energy": lambda: some(9, 30, "kWh"),
        "day": lambda: day(rng.randint(0, 120)),
        "flag": lambda: "true",
        "power": lambda: some(500, 1200, "W"),
        "by_energy": lambda: some(0.1, 0.4, f"{money}/kWh"),
        "by_time": lambda: some(5, 20, f"{money}/h"),
        "by_road": lambda: some(0.3, 0.9, f"{money}/mile"),
        "by_dried": lambda: some(0.5, 4, f"{money}/oz"),
        "runs": lambda: f"{rng.randint(5, 400)} run",
        "container": lambda: rng.choice(season.ids("containers")),
        "form": lambda: rng.choice(FORMS[1:]),  # the first is what none means
        "factor": lambda: some(0, 200, "%"),
        "pace": lambda: some(1, 5, "run/week"),
        "at_most": lambda: some(5, 60, "lb"),
        "step": lambda: "2 g",
        "height": lambda: some(10, 2000, "m"),
    }
    return choices[leaf.kind]() if leaf.kind in choices else None


def row(rng: Random, season: Season, table: str) -> tuple[Season, Row] | None:
    """The season with one more row at the end of a table; None where there is nothing to add to."""
    products = sorted(
        {each.record["product"] for name in ("lots", "packs", "offers")
         for each in season.table(name)}
    )  # fmt: skip
    result = season.copied()
    if table == "loads":
        return _load(rng, result)
    if table == "closed":
        # Later than all that is made up.
        shut = {"from": day(200), "to": day(200 + rng.randint(0, 9))}
        several = len(season.ids("dryers")) > 1
        named = {"dryer": rng.choice(season.ids("dryers"))} if several else {}
        result.head.setdefault("closed", []).append({**named, **shut})
        return result, result.table("closed")[-1]
    if not products or (table in ("uses", "counts") and not season.table("packs")):
        return None
    record = _record(rng, season, table, products)
    file = max((each for each in result.files if each != "season.yaml"), default="season.yaml")
    result.files[file].setdefault(table, []).append(record)
    return result, result.table(table)[-1]


def _record(rng: Random, season: Season, table: str, products: list[str]) -> dict[str, Any]:
    money, dried = season.head["currency"], season.head["units"]["dried"]
    product = rng.choice(products)
    when = day(rng.randint(100, 200))
    net = f"{number(rng.randint(100, 500) / GRAMS[dried], 3)} {dried}"
    if table == "lots":
        return {
            "id": "spare-lot", "product": product, "date": when,
            "weighed": f"{rng.randint(4, 30)} lb", "price": f"{rng.randint(5, 60)} {money}",
        }  # fmt: skip
    if table == "packs":
        return {
            "id": "P-spare", "product": product, "date": when, "net": net, "count": "2",
            "container": rng.choice(season.ids("containers")),
        }  # fmt: skip
    if table == "uses":
        return {
            "date": when, "pack": rng.choice(season.ids("packs")), "count": "1", "for": "stall",
            "price": f"{rng.randint(8, 40)} {money}",
        }  # fmt: skip
    if table == "counts":
        return {"date": when, "pack": rng.choice(season.ids("packs")), "counted": "3"}
    return {
        "id": "offer-spare", "product": product, "seller": "Seller Z", "date": when, "net": net,
        "price": f"{rng.randint(5, 50)}.5 {money}",
    }  # fmt: skip


def _load(rng: Random, result: Season) -> tuple[Season, Row] | None:
    """One more load in the last run."""
    runs, lots = result.table("runs"), result.ids("lots")
    if not runs:
        return None
    run = runs[-1].record
    there = {load_key(run["id"], load) for load in run.get("loads", [])}
    free = [lot for lot in lots if f"{run['id']}/{lot}" not in there]
    if not free:
        return None
    load = {"lot": rng.choice(free), "wet": f"{rng.randint(2, 9)}.4 lb"}
    if rng.random() < 0.7:
        load["dry"] = f"{rng.randint(5, 20)}.5 oz"
    run.setdefault("loads", []).append(load)
    return result, result.table("loads")[-1]
