"""Makes up what stands in ``season.yaml``: rates, dryers, containers, what was carried over."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from seasons.pen import Pen

_CONTAINERS = (
    ("can-10", "No. 10 can", 3236),
    ("pouch-1qt", "Quart pouch", 950),
    ("jar-1L", "Litre jar, used again", 1060),
)
_PARTS = ("can", "lid", "absorber", "label", "bag")


def settings(pen: Pen, products: Sequence[str]) -> dict[str, Any]:
    """The head of a season: every part but units and rates may be missing."""
    head: dict[str, Any] = {
        "season": pen.rng.choice(("Hazel Row", "Mill Lane 2025", "The long garden: part 2")),
        "currency": pen.currency,
        "units": {"fresh": pen.fresh, "dried": pen.dried},
        "rates": {
            "electricity": pen.money(0.08, 0.40, "kWh"),
            "labor": "0 " + pen.currency + "/h" if pen.maybe(0.3) else pen.money(5, 25, "h"),
            "travel": pen.money(0.2, 0.9, pen.road),
        },
        "dryers": [_dryer(pen, n) for n in range(1 + pen.maybe(0.3))],
        "containers": [_container(pen, *each) for each in _CONTAINERS[: pen.rng.randint(1, 3)]],
    }
    if len(products) % 2:
        head["rates"]["labor_paid"] = "true"
    if pen.maybe(0.7):
        head["pricing"] = _pricing(pen)
    if pen.maybe(0.6):
        head["overheads"] = [_overhead(pen, n) for n in range(pen.rng.randint(1, 3))]
    if pen.maybe(0.3):
        head["carried_over"] = [
            _carried(pen, product) for product in pen.rng.sample(products, min(2, len(products)))
        ]
    if len(products) % 2 == 0:
        head["channels"] = {
            "stall": {"fees": "4.5 %", "tax": f"{3 * len(products)} %"},
            "cafe": {"tax": "10 %", "discount": "15 %"},
        }
    if pen.maybe(0.5):
        head["scale"] = {"resolution": pen.rng.choice(("0.1 oz", "1 g", "5 g"))}
    return head


def _dryer(pen: Pen, n: int) -> dict[str, Any]:
    price = pen.between(1500, 5000)
    record: dict[str, Any] = {
        "id": ("shed", "porch")[n],
        "trays": str(pen.rng.randint(3, 7)),
        "tray_area": pen.rng.choice(("0.135 m2", "1350 cm2", "210 in2")),
        "load_limit": pen.wet(pen.between(5000, 12000)),
        "mean_power": pen.rng.choice(("780 W", "0.95 kW", "1100 W")),
        "price": f"{price:.0f} {pen.currency}",
        "resale": f"{price * pen.between(0, 0.5):.0f} {pen.currency}",
        "life": f"{pen.rng.randint(200, 900)} run",
        "runs_before": f"{pen.rng.randint(0, 90)} run",
        "runs_per_year": f"{pen.rng.randint(20, 90)} run",
        "turnaround": pen.time(1, 5),
    }
    if n:
        record |= {"runs_when_bought": "35 run", "saved_before": f"{price / 8:.0f} {pen.currency}"}
    if pen.maybe(0.8):
        record["upkeep"] = [
            {
                "item": item,
                "cost": pen.money(4, 60),
                "every": f"{pen.rng.randint(3, 60)} run",
            }
            for item in ("pump oil", "door seal", "filter")[: pen.rng.randint(1, 3)]
        ]
    return record


def _container(pen: Pen, key: str, name: str, volume: int) -> dict[str, Any]:
    parts: dict[str, Any] = {
        part: {"cost": pen.money(0.05, 3)} for part in pen.rng.sample(_PARTS, pen.rng.randint(1, 4))
    }
    if pen.maybe(0.3):
        parts["jar"] = {"cost": pen.money(1, 4), "uses": str(pen.rng.randint(2, 30))}
    return {
        "id": key,
        "name": name,
        "volume": f"{volume} mL",
        "parts": parts,
        "absorber": f"{pen.rng.choice((100, 300, 500))} mL",
        "spoiled": pen.share(0, 0.12),
    }


def _pricing(pen: Pen) -> dict[str, Any]:
    return {
        "margin": pen.share(0.05, 0.5),
        "fees": pen.share(0, 0.2),
        "price_step": f"{pen.rng.choice(('0.05', '0.25', '1'))} {pen.currency}",
        "stall": pen.money(5, 60, "day"),
        "days": f"{pen.rng.randint(1, 12)} day",
        "would_buy": pen.share(0.3, 1),
    }


def _overhead(pen: Pen, n: int) -> dict[str, Any]:
    record = {
        "item": ("market permit", "shelving", "a course")[n],
        "cost": pen.money(10, 200),
    }
    if n == 1:
        record["paid"] = "false"
    if pen.maybe(0.5):
        record["over"] = pen.dry(pen.between(5000, 30000))
    return record


def _carried(pen: Pen, product: str) -> dict[str, Any]:
    weight = pen.dry(pen.between(100, 2000))
    per = pen.rng.choice(("oz", "g", "kg", "lb") if pen.habit == "mixed" else (pen.dried,))
    scale = {"oz": 1, "g": 0.04, "kg": 35, "lb": 16}[per]
    record = {"product": product, "dried": weight}
    record["running"] = pen.money(0.8 * scale, 2 * scale, per)
    record["full"] = pen.money(2 * scale, 4 * scale, per)
    return record
