"""Puts a season together, leaves things out at random, and spreads it over files."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Any

from seasons import batches
from seasons.edits import Edit, edit
from seasons.form import PRODUCTS, TABLES, Season
from seasons.leaves import optional, without
from seasons.losses import with_losses
from seasons.mixes import with_mixes
from seasons.outlook import outlook, trips
from seasons.pen import Pen
from seasons.settings import settings

SIZES = {
    "small": {"lots": (0, 3), "runs": (0, 3), "packs": (0, 3), "uses": (0, 3), "offers": (0, 4)},
    "medium": {"lots": (3, 9), "runs": (3, 12), "packs": (2, 9), "uses": (2, 12), "offers": (2, 9)},
}


def make(rng: Random, size: str = "small", products: Sequence[str] = PRODUCTS) -> Season:
    """A season that the rules of reading allow, with all that real ones lack or contradict."""
    pen = Pen(rng)
    grown = rng.sample(list(products), min(len(products), rng.randint(1, 4)))
    head = settings(pen, grown)
    outlook(pen, head, grown)
    story = batches.Story(pen, grown, head)
    many = {table: rng.randint(*span) for table, span in SIZES[size].items()}
    lots, runs = many["lots"], many["runs"]
    while lots or runs:
        if lots and (not runs or pen.maybe(0.5)):
            batches.lot(story)
            lots -= 1
        else:
            batches.run(story)
            runs -= 1
    packs = [batches.pack(story, n) for n in range(many["packs"])]
    if "channels" in head:
        head["asked"] = _asked(pen.currency, packs)
    lists: dict[str, list[dict[str, Any]]] = {
        "trips": trips(pen, story.lots),
        "lots": story.lots,
        "runs": story.runs,
        "packs": packs,
        "uses": [batches.use(story, packs) for _ in range(many["uses"])],
        "offers": [batches.offer(story, n) for n in range(many["offers"])],
    }
    season = Season(_files(pen, story.head, lists))
    chance = rng.choice((0, 0, 0.03, 0.1, 0.3))
    season = without(season, [leaf for leaf in optional(season) if pen.maybe(chance)])
    counts = [batches.count(story, packs) for _ in range(rng.choice((0, 0, 1, 2, 5)))]
    many_days = rng.choice((0, 0, 0, 1, 2, 4)) if packs else 0
    days = [batches.market(story, packs, n) for n in range(many_days)]
    season.files[season.last] |= {"counts": counts} if counts else {}
    season.files[season.last] |= {"markets": days} if days else {}
    season = with_losses(rng, season) if pen.maybe(0.15) else season
    return with_mixes(pen, season, chance) if pen.maybe(0.5) else season


def _asked(currency: str, packs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Prices asked for the sizes of some packs: always, from a day on, and from a later one."""
    sized = [pack for pack in packs if {"container", "net"} <= {*pack}][:3]
    found = []
    for n, pack in enumerate(sized):
        size = {key: pack[key] for key in ("product", "container", "net")}
        found.append(size | {"price": f"{11 + n}.5 {currency}"})
        found += [
            size | {"price": f"{price + n} {currency}", "from": day}
            for price, day in ((19, "2025-09-20"), (14, "2025-08-01"))
        ]
    return found


def _files(pen: Pen, head: dict[str, Any], lists: dict[str, list[Any]]) -> dict[str, Any]:
    """One file, or several batch files in the order in which things happened."""
    if pen.maybe(0.2):
        return {"season.yaml": head | {table: each for table, each in lists.items() if each}}
    files: dict[str, dict[str, Any]] = {"season.yaml": head}
    names = ("2025-06.yaml", "autumn/2025-08.yaml", "autumn/2025-09.yaml", "winter.yaml")
    used = names[: pen.rng.randint(1, len(names))]
    for table, records in lists.items():
        cuts = sorted(pen.rng.randint(0, len(records)) for _ in used[1:])
        for name, first, last in zip(used, [0, *cuts], [*cuts, len(records)], strict=True):
            if records[first:last]:
                files.setdefault(f"batches/{name}", {})[table] = records[first:last]
    return files


def sample_seasons(
    n: int, seed: int, size: str = "small", products: Sequence[str] = PRODUCTS
) -> list[Season]:
    """Always the same ``n`` seasons for a seed; the first of a longer list stay the same."""
    return [make(Random(f"{seed}/{k}"), size, products) for k in range(n)]


def sample_edits(
    n: int, seed: int, size: str = "small", products: Sequence[str] = PRODUCTS
) -> list[tuple[Season, Edit]]:
    """Always the same ``n`` seasons for a seed, each with an edit of it."""
    return [(season, first) for season, (first,) in edited_often(n, seed, 1, size, products)]


def edited_often(
    n: int, seed: int, each: int, size: str = "small", products: Sequence[str] = PRODUCTS
) -> list[tuple[Season, list[Edit]]]:
    """Always the same ``n`` seasons for a seed, with several edits of each."""
    found = []
    for k in range(n):
        rng = Random(f"edit {seed}/{k}")
        season = make(rng, size, products)
        found.append((season, [edit(rng, season) for _ in range(each)]))
    return found


def tiny() -> Season:
    """One lot, two runs of two loads, a pack, a use and an offer, with every key of interest."""
    rng = Random("tiny")
    pen = Pen(rng)
    pen.habit, pen.fresh, pen.dried, pen.currency, pen.road = "customary", "lb", "oz", "USD", "mile"
    head = settings(pen, ["pear-slices"])
    head["dryers"], head["containers"] = head["dryers"][:1], head["containers"][:1]
    head |= {
        "place": {"altitude": "900 m"},
        "absorbers": [{"id": "o2-300", "oxygen": "300 mL", "cost": "0.18 USD"}],
        "scenarios": [
            {
                "id": "what-if", "name": "What if", "ingredients": "120 %", "labor": "9 USD/h",
                "container": "can-10", "net": "9 oz",
            }
        ],
        "plan": [
            {
                "product": "pear-slices", "container": "can-10", "count": "12", "net": "11 oz",
                "start": "2025-10-01", "pace": "3 run/week",
            }
        ],
    }  # fmt: skip
    batch = {
        "lots": [
            {
                "id": "pears-1", "product": "pear-slices", "date": "2025-09-05", "count": "3",
                "container": "lug", "price": "28.50 USD/lug", "weighed": "72.4 lb",
                "prepped": "61 lb", "set_aside": "4 lb", "lost": "0.6 lb", "travel": "14 mile",
                "labor": "3.5 h",
            }
        ],
        "runs": [
            {
                "id": "run-1", "dryer": "shed", "started": "2025-09-06 18:30",
                "duration": "34.5 h", "energy": "21.8 kWh", "labor": "40 min",
                "loads": [{"lot": "pears-1", "wet": "19.6 lb", "dry": "52.1 oz"}],
            }
        ],
        "mixes": [
            {
                "id": "mix-1", "product": "pear-slices", "date": "2025-09-20",
                "from": [{"product": "pear-slices", "weight": "3 oz"}, {"pack": "P-1"}],
                "bought": [{"item": "oat flakes", "weight": "2 oz", "price": "1.10 USD",
                            "allergens": "oats", "best_by": "2026-05-01",
                            "dryness": {"water_activity": "0.4"}}],
                "out": "15 oz", "labor": "20 min", "dryness": {"moisture_meter": "3 %"},
            }
        ],
        "packs": [
            {
                "id": "P-1", "product": "pear-slices", "date": "2025-09-08",
                "container": "can-10", "count": "4", "net": "11 oz", "from": ["run-1"],
                "labor": "25 min",
            },
            {
                "id": "P-2", "product": "pear-slices", "date": "2025-09-21",
                "container": "can-10", "count": "3", "net": "4 oz", "from": ["mix-1"],
            },
        ],
        "uses": [{"date": "2025-10-03", "pack": "P-1", "count": "2", "for": "stall",
                  "price": "21 USD"}],
        "counts": [{"date": "2025-10-04", "pack": "P-1", "counted": "1"},
                   {"date": "2025-10-04", "product": "pear-slices", "weight": "7 oz"}],
        "markets": [{"id": "green", "date": "2025-10-05", "channel": "stall", "fee": "7 USD",
                     "travel": "9 mile", "labor": "4 h", "took": {"P-1": "1"},
                     "prices": {"P-1": "20 USD"}, "takings": {"cash": "19 USD"}}],
        "offers": [{"id": "a-can", "product": "pear-slices", "seller": "Seller A",
                    "date": "2025-08-30", "net": "10.5 oz", "price": "34.20 USD",
                    "shipping": "4 USD"}],
    }  # fmt: skip
    assert {*batch, "trips"} == set(TABLES)
    return Season({"season.yaml": head, "batches/2025-09.yaml": batch})
