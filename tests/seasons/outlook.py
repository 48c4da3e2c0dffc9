"""Makes up what looks ahead: scenarios, a plan; and the smaller keys: place, absorbers, trips."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Any

from seasons.pen import Pen, day, later

PARTS = ("ingredients", "energy", "upkeep", "wear", "labor", "packaging", "overhead")
FORMS = ("freeze-dried", "frozen", "canned", "fresh")
BOUGHT_IN = {
    "pear-slices": {"lug": 10200, "bushel": 22200, "peck": 5900},
    "apple-rings": {"bushel": 20400, "box": 18100, "peck": 5400},
    "peach-slices": {"lug": 9300, "bushel": 22700, "half-bushel": 10900},
    "sweet-corn": {"bushel": 15900, "crate": 19000},
    "parsley": {"bunch": 60},
    "raspberries": {"flat": 2000, "pint-box": 340, "quart-box": 620},
    "green-peas": {"bushel": 13200},
}
"""Containers of the product data, and grams that one holds, about."""


def outlook(pen: Pen, head: dict[str, Any], products: Sequence[str]) -> None:
    """Add to the head what some makers write and others do not."""
    if pen.maybe(0.3):
        head["place"] = {"altitude": f"{pen.rng.randint(50, 2400)} m"}
    if pen.maybe(0.4):
        head["absorbers"] = [
            {"id": f"o2-{size}", "oxygen": f"{size} mL", "cost": pen.money(0.05, 0.6)}
            for size in pen.rng.sample((100, 300, 500, 1000), pen.rng.randint(1, 2))
        ]
    for dryer in head["dryers"]:
        if pen.maybe(0.3):
            dryer["mean_power_spread"] = pen.share(0.05, 0.4)
    containers = [each["id"] for each in head["containers"]]
    if pen.maybe(0.4):
        head["scenarios"] = [_scenario(pen, n, containers) for n in range(pen.rng.randint(1, 3))]
    if pen.maybe(0.4):
        dryers = [each["id"] for each in head["dryers"]]
        head["plan"] = [
            _plan(pen, products, containers, dryers) for _ in range(pen.rng.randint(1, 3))
        ]
        _windows(Random(repr(head["plan"])), head, dryers)


def _scenario(pen: Pen, n: int, containers: Sequence[str]) -> dict[str, Any]:
    record: dict[str, Any] = {"id": f"what-if-{'abc'[n]}", "name": f"What if: no. {n + 1}"}
    for part in PARTS:
        if pen.maybe(0.25):
            record[part] = pen.share(0, 2)
    if pen.maybe(0.3):
        record["labor"] = pen.money(5, 30, "h")
    if pen.maybe(0.3):
        record["electricity"] = pen.money(0.05, 0.6, "kWh")
    if pen.maybe(0.3):
        record["travel"] = pen.money(0.1, 1, pen.road)
    if pen.maybe(0.4):
        record["container"] = pen.rng.choice(containers)
        if pen.maybe(0.5):
            record["net"] = pen.dry(pen.between(80, 400))
    return record


def _plan(
    pen: Pen, products: Sequence[str], containers: Sequence[str], dryers: Sequence[str]
) -> dict[str, Any]:
    record: dict[str, Any] = {
        "product": pen.rng.choice(products),
        "container": pen.rng.choice(containers),
        "count": str(pen.rng.randint(1, 40)),
        "net": pen.dry(pen.between(80, 400)),
        "start": pen.day(60, 160),
    }
    if len(dryers) > 1:
        record["dryer"] = pen.rng.choice(dryers)
    if pen.maybe(0.3):
        record["pace"] = f"{pen.rng.randint(1, 5)} run/week"
    return record


def _windows(rng: Random, head: dict[str, Any], dryers: Sequence[str]) -> None:
    """Until when, how much, closed days, one more dryer; of a chance of their own, so that all else
    stays as it is."""
    if rng.random() < 0.3:
        return
    for row in head["plan"]:
        if rng.random() < 0.6:
            row["until"] = later(row["start"], rng.randint(0, 25))
        if rng.random() < 0.5:
            row["at_most"] = rng.choice(
                (f"{rng.randint(1, 40)} kg", f"{rng.randint(3, 60)} lb",
                 *(f"{rng.randint(1, 6)} {name}" for name in BOUGHT_IN[row["product"]]))
            )  # fmt: skip
    closed = []
    for dryer in dryers:
        after = rng.randint(50, 120)
        while rng.random() < 0.5:
            last = after + rng.randint(0, 9)
            closed.append({"from": day(after), "to": day(last)})
            if len(dryers) > 1:
                closed[-1]["dryer"] = dryer
            after = last + rng.randint(4, 20)
    if closed:
        head["closed"] = closed
    if rng.random() < 0.6:
        price = f"{rng.randint(900, 4000)} {head['currency']}"
        head["another"] = {"like": rng.choice(dryers), "price": price}


def trips(pen: Pen, lots: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """One or two drives, each of which fetched a lot or several; the lots say so."""
    if not lots or pen.maybe(0.6):
        return []
    found: list[dict[str, Any]] = []
    for n in range(pen.rng.randint(1, 2)):
        trip = {"id": f"trip-{n + 1}", "distance": f"{pen.rng.randint(3, 90)} {pen.road}"}
        if pen.maybe(0.6):
            trip["labor"] = pen.time(0.3, 3)
        for lot in pen.rng.sample(list(lots), pen.rng.randint(1, min(3, len(lots)))):
            lot["trip"] = trip["id"]
        found.append(trip)
    return found
