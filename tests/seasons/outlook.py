"""Makes up what looks ahead: scenarios, a plan; and the smaller keys: place, absorbers, trips."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from seasons.pen import Pen

PARTS = ("ingredients", "energy", "upkeep", "wear", "labor", "packaging", "overhead")
FORMS = ("freeze-dried", "frozen", "canned", "fresh")


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
