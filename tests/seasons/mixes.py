"""Makes up mixes: powders, packs filled anew, blends, blends of these; packs of them, uses, and a
market day with some."""

from __future__ import annotations

from typing import Any

from seasons import batches
from seasons.form import Season
from seasons.leaves import optional, without
from seasons.pen import Pen, day, number

MIXED = ("kitchen-powder", "orchard-blend")
"""Products that only mixes make."""
_TABLES = ("mixes", "mix_parts", "bought_parts")
Record = dict[str, Any]


def with_mixes(pen: Pen, season: Season, chance: float) -> Season:
    """The season with a mix or some, its packs and their uses; without bulk to mix, as it was.
    ``chance``: of each key that can be left out, to be so."""
    result = season.copied()
    products = sorted({row.record["product"] for row in result.table("lots")})
    if not products:
        return season
    story = _Story(pen, result, products)
    powder = story.powder()
    made = [powder, *([story.anew()] if story.free and pen.maybe(0.6) else [])]
    blend = story.blend(powder)
    made += [blend, *([story.blend(None)] if pen.maybe(0.3) else [])]
    packs = [pack for mix in made for pack in story.packed(mix)]
    if pen.maybe(0.3):
        both = [mix["id"] for mix in made if mix["product"] == blend["product"]]
        packs.append(story.pack(blend["product"], both))
    if story.opened:
        packs.append(story.opened)
    added = {
        "mixes": made,
        "packs": packs,
        "uses": story.uses(packs),
        "markets": story.market(packs),
    }
    for table, records in added.items():
        if records:
            held = result.files[result.last].setdefault(table, [])
            held += records
    for product in MIXED:
        if any(mix["product"] == product for mix in made):
            result.files[f"recipes/{product}.yaml"] = {"name": product.replace("-", " ").title()}
    ours = [leaf for leaf in optional(result) if leaf.row.table in _TABLES]
    return without(result, [leaf for leaf in ours if pen.maybe(chance)])


class _Story:
    def __init__(self, pen: Pen, season: Season, products: list[str]) -> None:
        self.pen, self.season, self.products = pen, season, products
        planned = {row.record["product"] for row in season.table("plan")}
        self.free = [
            row.record for row in season.table("packs") if row.record["product"] not in planned
        ]
        self.number = 0
        self.opened: Record = {}
        """A pack of a powder, which a blend opens."""

    def mix(self, product: str, **more: Any) -> Record:
        self.number += 1
        record = {"id": f"mix-n{self.number}", "product": product, "date": self.on(0), **more}
        if self.pen.maybe(0.5):
            record["labor"] = self.pen.time(0.2, 2)
        if self.pen.maybe(0.3):
            record["dryness"] = self.reading()
        return record

    def on(self, after: int) -> str:
        return day(self.pen.rng.randint(40, 110) + after)

    def reading(self) -> Record:
        if self.pen.maybe(0.7):
            return {"water_activity": number(self.pen.between(0.1, 0.8), 2)}
        return {"moisture_meter": self.pen.share(0.01, 0.14)}

    def bulk(self, grams: float) -> Record:
        return {"product": self.pen.rng.choice(self.products), "weight": self.pen.dry(grams)}

    def powder(self) -> Record:
        """Bulk ground to powder, some of it lost."""
        grams = self.pen.between(60, 300)
        out = {"out": self.pen.dry(grams * self.pen.between(0.9, 0.99))}
        return self.mix(MIXED[0], **{"from": [self.bulk(grams)]}, **out)

    def anew(self) -> Record:
        """Packs opened and filled anew."""
        pack = self.pen.rng.choice(self.free)
        return self.mix(pack["product"], **{"from": [{"pack": pack["id"], "count": "2"}]})

    def blend(self, powder: Record | None) -> Record:
        """Bulk, packs, bought items; with a powder, by weight or from a pack of it."""
        pen = self.pen
        parts = [self.bulk(pen.between(50, 250)) for _ in range(pen.rng.randint(1, 2))]
        packs = self.season.table("packs")
        if packs and pen.maybe(0.7):
            parts.append({"pack": pen.rng.choice(packs).record["id"]})
            if pen.maybe(0.5):
                parts[-1]["count"] = str(pen.rng.randint(1, 3))
        if powder is not None and pen.maybe(0.6):
            parts.append({"mix": powder["id"], "weight": pen.dry(pen.between(5, 30))})
        elif powder is not None and not self.opened:
            self.opened = self.pack(powder["product"], [powder["id"]])
            parts.append({"pack": self.opened["id"], "count": "1"})
        more: Record = {"from": parts}
        bought = [self.bought(n) for n in range(pen.rng.choice((0, 1, 1, 2)))]
        if bought:
            more["bought"] = bought
        if pen.maybe(0.4):
            more["out"] = pen.dry(pen.between(100, 700))
        return self.mix(MIXED[1], **more)

    def bought(self, n: int) -> Record:
        record: Record = {
            "item": ("pumpkin seeds", "oat flakes")[n],
            "weight": self.pen.dry(120),
            "price": self.pen.money(1, 9),
        }
        if self.pen.maybe(0.6):
            record["allergens"] = self.pen.rng.choice(("none", "oats", "sesame"))
        if self.pen.maybe(0.6):
            record["dryness"] = self.reading()
        if self.pen.maybe(0.7):
            record["best_by"] = day(self.pen.rng.randint(200, 500))
        return record

    def pack(self, product: str, mixes: list[str]) -> Record:
        self.number += 1
        record: Record = {
            "id": f"X-{self.number}", "product": product, "date": self.on(20),
            "container": self.pen.rng.choice(self.season.ids("containers")),
            "count": str(self.pen.rng.randint(1, 6)), "net": self.pen.dry(self.pen.between(10, 60)),
            "from": mixes,
        }  # fmt: skip
        if self.pen.maybe(0.5):
            record["labor"] = self.pen.time(0.2, 1)
        return record

    def packed(self, mix: Record) -> list[Record]:
        many = self.pen.rng.choice((0, 1, 1, 2))
        return [self.pack(mix["product"], [mix["id"]]) for _ in range(many)]

    def market(self, packs: list[Record]) -> list[Record]:
        """A day at a market with packs of mixes, often beside another."""
        if not packs or self.pen.maybe(0.4):
            return []
        others = [row.record for row in self.season.table("packs")]
        story = batches.Story(self.pen, self.products, self.season.head, day=130)
        return [batches.market(story, [*packs, *others[:1]], 7)]

    def uses(self, packs: list[Record]) -> list[Record]:
        """Sold, eaten, given, spoiled."""
        found = []
        for pack in packs:
            purpose = self.pen.rng.choice(("stall", "stall", "household", "gift", "spoiled", ""))
            if purpose:
                use = {"date": self.on(60), "pack": pack["id"], "count": "1", "for": purpose}
                priced = {"price": self.pen.money(3, 20)} if purpose == "stall" else {}
                found.append(use | priced)
        return found
