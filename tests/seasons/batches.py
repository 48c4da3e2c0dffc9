"""Makes up what happened: lots, runs with their loads, packs, their uses, and offers of shops."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from seasons.form import load_key
from seasons.outlook import BOUGHT_IN, FORMS
from seasons.pen import GRAMS, Pen, day, number

WATER = {
    "pear-slices": 0.84,
    "apple-rings": 0.86,
    "peach-slices": 0.89,
    "sweet-corn": 0.76,
    "parsley": 0.88,
    "raspberries": 0.86,
    "green-peas": 0.79,
}
"""About as much as the product data says; other products are taken to hold 0.85."""


@dataclass
class Story:
    """What has happened so far, in grams, so that the next thing can follow from it."""

    pen: Pen
    products: Sequence[str]
    head: dict[str, Any]
    lots: list[dict[str, Any]] = field(default_factory=list)
    runs: list[dict[str, Any]] = field(default_factory=list)
    left: dict[str, float] = field(default_factory=dict)
    """Grams of each lot that are prepared and not on a tray yet."""
    product_of: dict[str, str] = field(default_factory=dict)
    dried: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    made_in: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    came_out: list[tuple[str, str, float]] = field(default_factory=list)
    """Loads that may go back in: key, lot, grams."""
    day: int = 0

    def ids(self, table: str) -> list[str]:
        return [record["id"] for record in self.head.get(table, [])]


def lot(story: Story) -> dict[str, Any]:
    """A lot, and what there is of it to dry."""
    pen, number_of = story.pen, len(story.lots) + 1
    product = pen.rng.choice(story.products)
    key = f"{product.partition('-')[0]}-{number_of}"
    record: dict[str, Any] = {"id": key, "product": product, "date": day(story.day)}
    containers = BOUGHT_IN.get(product, {})
    bought = pen.between(3000, 25000)
    if containers and pen.maybe(0.7):
        name = pen.rng.choice(list(containers))
        count = max(1, round(bought / containers[name]))
        bought = count * containers[name] * pen.between(0.9, 1.1)
        record |= {"count": str(count), "container": name}
        if pen.maybe(0.4):
            record["weighed"] = pen.wet(bought)
            if count > 1 and pen.maybe(0.4):
                some = pen.rng.randint(1, count - 1)
                record["weighed"] = pen.wet(bought * some / count)
                record["weighed_count"] = str(some)
    elif pen.maybe(0.9):
        record["weighed"] = pen.wet(bought)
    if pen.maybe(0.25):
        record["grown"] = "true"
    if pen.maybe(0.4 if "grown" in record else 0.85):
        record["price"] = _price(pen, record)
    prepped = bought * pen.between(0.6, 0.95)
    _prepared(pen, record, prepped)
    if pen.maybe(0.2):
        water = WATER.get(product, 0.85)
        record["water"] = pen.share(water - 0.02, water + 0.02)
    if pen.maybe(0.5):
        record["travel"] = f"{number(pen.between(1, 60), 1)} {story.pen.road}"
    if pen.maybe(0.6):
        record["labor"] = pen.time(0.3, 6)
    if pen.maybe(0.4):
        record["source"] = pen.rng.choice(
            ("orchard stand", "own garden", "=SUM(A1)", "Mai's: no. 2")
        )
    story.lots.append(record)
    story.product_of[key] = product
    story.left[key] = prepped * 0.9
    return record


def _price(pen: Pen, record: dict[str, Any]) -> str:
    way = pen.rng.randrange(3)
    if way == 0 and "container" in record:
        return pen.money(2, 45, record["container"])
    if way == 1:
        unit = {"customary": "lb", "metric": "kg"}.get(pen.habit) or pen.rng.choice(list(GRAMS))
        return pen.money(0.6, 3, unit) if unit != "g" else f"0.0025 {pen.currency}/g"
    return pen.money(5, 90)


def _prepared(pen: Pen, record: dict[str, Any], prepped: float) -> None:
    if pen.maybe(0.5):
        record["prepped"] = pen.wet(prepped)
    if pen.maybe(0.3):
        record["set_aside"] = pen.wet(prepped * pen.between(0.01, 0.06))
    if pen.maybe(0.3):
        record["lost"] = pen.wet(prepped * pen.between(0.005, 0.03))
    if pen.maybe(0.4):
        record["finished"] = pen.rng.choice(("true", "true", "false"))


def run(story: Story) -> dict[str, Any]:
    """A run with what went into it and what came out."""
    pen = story.pen
    key = f"run-{len(story.runs) + 1:02}"
    record: dict[str, Any] = {"id": key}
    dryers = story.ids("dryers")
    if len(dryers) > 1 or pen.maybe(0.7):
        record["dryer"] = pen.rng.choice(dryers)
    story.day += pen.rng.randint(0, 3)
    record["started"] = f"{day(story.day)} {pen.clock()}"
    how = pen.rng.randrange(5)
    if how < 3:
        record["duration"] = pen.time(16, 46)
    elif how == 3:
        record["ended"] = f"{day(story.day + pen.rng.randint(1, 2))} 23:{pen.rng.randint(10, 59)}"
    story.day += 1
    how = pen.rng.randrange(3)
    if how == 0:
        record["energy"] = f"{number(pen.between(9, 32), 1)} kWh"
    elif how == 1:
        before = pen.between(100, 3000)
        record["energy"] = {
            "from": f"{before:.1f} kWh",
            "to": f"{before + pen.between(9, 32):.1f} kWh",
        }
    if pen.maybe(0.6):
        record["labor"] = pen.time(0.2, 2)
    loads = _loads(story, key, done=pen.maybe(0.85))
    if loads:
        record["loads"] = loads
    story.runs.append(record)
    return record


def _loads(story: Story, run_key: str, done: bool) -> list[dict[str, Any]]:
    pen = story.pen
    loads: list[dict[str, Any]] = []
    waiting = [key for key, grams in story.left.items() if grams > 100]
    chosen = pen.rng.sample(waiting, min(len(waiting), pen.rng.choice((1, 1, 2, 3))))
    if chosen and pen.maybe(0.1):
        chosen.append(chosen[0])
    for n, lot_key in enumerate(chosen):
        if story.left[lot_key] < 100:
            continue
        grams = min(story.left[lot_key], pen.between(800, 4500))
        story.left[lot_key] -= grams
        load: dict[str, Any] = {"lot": lot_key, "wet": _trays(pen, grams)}
        if lot_key in chosen[:n] or pen.maybe(0.1):
            load["id"] = f"{run_key}-{lot_key}-{'abcd'[n]}"
        product = story.product_of[lot_key]
        water = WATER.get(product, 0.85)
        out = grams * (1 - water) * pen.between(1.01, 1.12)
        _take_out(story, run_key, load, product, out, done)
        if "dry" in load:
            story.came_out.append((load_key(run_key, load), lot_key, out))
        loads.append(load)
    taken = {load["lot"] for load in loads}
    again = [each for each in story.came_out[: -len(loads) or None] if each[1] not in taken]
    if again and pen.maybe(0.25):
        first, lot_key, grams = pen.rng.choice(again)
        back = grams * pen.between(1.0, 1.03)
        load = {"again": first, "wet": pen.wet(back)}
        if "/" not in first or pen.maybe(0.2):
            load["id"] = f"{run_key}-again"
        out = grams * pen.between(0.93, 0.99)
        story.came_out = [each for each in story.came_out if each[0] != first]
        if pen.maybe(0.3):
            story.came_out.append((first, lot_key, out))
        product = story.product_of[lot_key]
        _take_out(story, run_key, load, product, out, done)
        story.dried[product] -= back if "dry" in load else 0
        loads.append(load)
    return loads


def _trays(pen: Pen, grams: float) -> Any:
    """A weight, or a list of weights by tray."""
    if pen.maybe(0.8):
        return pen.wet(grams)
    trays = pen.rng.randint(2, 5)
    return [pen.wet(grams / trays * pen.between(0.9, 1.1)) for _ in range(trays)]


def _take_out(
    story: Story, run_key: str, load: dict[str, Any], product: str, out: float, done: bool
) -> None:
    pen = story.pen
    if not done:
        return
    load["dry"] = pen.dry(out)
    story.dried[product] += out
    story.made_in[product].append(run_key)
    if pen.maybe(0.4):
        falling = pen.rng.choice((1, 1.002, 1.01, 1.03))
        load["dryness"] = {"weights": [pen.dry(out * falling), pen.dry(out)]}
        if pen.maybe(0.5):
            load["dryness"]["water_activity"] = number(pen.between(0.1, 0.8), 2)
    elif pen.maybe(0.3):
        load["dryness"] = {"moisture_meter": pen.share(0.01, 0.14)}


def pack(story: Story, n: int) -> dict[str, Any]:
    """A pack filled from what was dried, or one left from last season."""
    pen = story.pen
    carried = pen.maybe(0.12)
    there = [product for product in story.products if story.dried[product] > 30]
    product = pen.rng.choice(there if there and not carried else story.products)
    count = pen.rng.randint(1, 12)
    net = min(pen.between(100, 340), max(20.0, story.dried[product] * pen.between(0.3, 1) / count))
    record: dict[str, Any] = {
        "id": f"P-{n + 101}",
        "product": product,
        "date": day(story.day + pen.rng.randint(0, 20)),
        "container": pen.rng.choice(story.ids("containers")),
        "count": str(count),
        "net": pen.dry(net),
    }
    if carried:
        record["carried"] = {"running": pen.money(4, 20), "full": pen.money(8, 30)}
        return record
    story.dried[product] -= count * net
    made_in = sorted(set(story.made_in[product]))
    if made_in and pen.maybe(0.6):
        record["from"] = pen.rng.sample(made_in, min(len(made_in), pen.rng.randint(1, 2)))
    if pen.maybe(0.5):
        record["labor"] = pen.time(0.2, 2)
    return record


def use(story: Story, packs: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """A use of some containers of a pack, or of bulk."""
    pen = story.pen
    record: dict[str, Any] = {"date": day(story.day + pen.rng.randint(0, 90))}
    if not packs or pen.maybe(0.25):
        product = pen.rng.choice(story.products)
        grams = max(10.0, min(story.dried[product], 400) * pen.between(0.1, 0.6))
        story.dried[product] -= grams
        return record | {
            "product": product,
            "weight": pen.dry(grams),
            "for": pen.rng.choice(("household", "crumbs", "crumbs", "sample")),
        }
    purpose = pen.rng.choice(("household", "stall", "stall", "co-op", "gift", "spoiled"))
    if purpose == "co-op" and "channels" in story.head:
        purpose = "cafe"
    record |= {
        "pack": pen.rng.choice(packs)["id"],
        "count": str(pen.rng.randint(1, 3)),
        "for": purpose,
    }
    if purpose in ("stall", "co-op", "cafe") or pen.maybe(0.1):
        record["price"] = pen.money(8, 40)
    return record


def count(story: Story, packs: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """A count of a pack or of bulk, now and then of the same on one day."""
    pen = story.pen
    record: dict[str, Any] = {"date": day(story.day + pen.rng.randint(-6, 30))}
    if not packs or pen.maybe(0.4):
        product = pen.rng.choice(story.products)
        return record | {"product": product, "weight": pen.dry(pen.between(0, 300))}
    counted = str(pen.rng.randint(0, 8))
    return record | {"pack": pen.rng.choice(packs)["id"], "counted": counted}


def market(story: Story, packs: Sequence[dict[str, Any]], n: int) -> dict[str, Any]:
    """A day at a market: some packs, part of which came back or was tasted, and the purse."""
    pen = story.pen
    channel = pen.rng.choice(("stall", "stall", "co-op"))
    record: dict[str, Any] = {
        "id": f"market-{'abcdefgh'[n]}",
        "date": day(story.day + pen.rng.randint(0, 60)),
        "channel": "cafe" if channel == "co-op" and "channels" in story.head else channel,
    }
    if pen.maybe(0.8):
        record["fee"] = pen.money(5, 40)
    if pen.maybe(0.6):
        record["travel"] = f"{number(pen.between(1, 60), 1)} {pen.road}"
    if pen.maybe(0.8):
        record["labor"] = pen.time(2, 8)
    what: dict[str, dict[str, str]] = {key: {} for key in ("took", "back", "samples", "prices")}
    for pack in pen.rng.sample(list(packs), min(len(packs), pen.rng.randint(1, 3))):
        took = pen.rng.randint(1, int(pack.get("count", "1")))
        back = pen.rng.choice((0, 0, pen.rng.randint(0, took)))
        tasted = pen.rng.choice((0, 0, pen.rng.randint(0, took - back)))
        what["took"][pack["id"]] = str(took)
        what["back"] |= {pack["id"]: str(back)} if back or pen.maybe(0.2) else {}
        what["samples"] |= {pack["id"]: str(tasted)} if tasted else {}
        what["prices"] |= {pack["id"]: pen.money(8, 40)} if pen.maybe(0.8) else {}
    record |= {key: held for key, held in what.items() if held}
    if pen.maybe(0.6):
        ways = pen.rng.choice((("cash",), ("cash", "card"), ("card", "vouchers")))
        record["takings"] = {way: pen.money(0, 90) for way in ways}
    return record


def offer(story: Story, n: int) -> dict[str, Any]:
    """A price seen in a shop."""
    pen = story.pen
    record: dict[str, Any] = {
        "id": f"offer-{'abcdefghijklmnop'[n]}",
        "product": pen.rng.choice(story.products),
        "seller": f"Seller {'ABC'[n % 3]}",
        "date": pen.day(-250, 150),
        "net": pen.dry(pen.between(30, 600)),
        "price": pen.money(4, 60),
    }
    if pen.maybe(0.5):
        record["shipping"] = pen.money(0, 9)
    if pen.maybe(0.3):
        record["on_sale"] = pen.rng.choice(("true", "false"))
    if pen.maybe(0.3):
        record["form"] = pen.rng.choice(FORMS)
    return record
