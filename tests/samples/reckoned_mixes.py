"""What the co-op's mixes weigh, cost and bring, beside ``reckoned.py`` and as plain."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from samples.reckoned import Season

Row = dict[str, Any]


class Mixes:
    """The mixes of a season, each by its parts."""

    def __init__(self, season: Season) -> None:
        self.season = season
        self.mix = {mix["id"]: mix for mix in season.rows["mixes"]}
        self.pack = {pack["id"]: pack for pack in season.rows["packs"]}

    def parts(self) -> list[Row]:
        return [part | {"date": m["date"]} for m in self.mix.values() for part in m["from"]]

    def of(self, pack: Row) -> Row | None:
        """The mix that a pack is of; none here is of several."""
        return next((self.mix[each] for each in pack.get("from", ()) if each in self.mix), None)

    def opened(self, pack: str) -> int:
        return sum(int(part["count"]) for part in self.parts() if part.get("pack") == pack)

    def bulk(self, product: str, day: str = "9999") -> float:
        """What mixes took of a product's bulk, up to and with a day."""
        return sum(self.season.grams(part["weight"]) for part in self.parts()
                   if part.get("product") == product and part["date"] <= day)  # fmt: skip

    def weight(self, part: Row) -> float:
        if "pack" in part:
            return int(part["count"]) * self.season.grams(self.pack[part["pack"]]["net"])
        return self.season.grams(part["weight"])

    def into(self, mix: Row) -> float:
        return sum(map(self.weight, (*mix["from"], *mix.get("bought", ()))))

    def out(self, mix: Row) -> float:
        return self.season.grams(mix["out"]) if "out" in mix else self.into(mix)

    def cost(self, mix: Row, full: int = 0) -> float:
        """Its running cost; in full, with its time."""
        bought = sum(float(each["price"].split()[0]) for each in mix.get("bought", ()))
        time = self.season.time(mix) if full else 0.0
        return bought + time + sum(self.cost_of(part, full) for part in mix["from"])

    def cost_of(self, part: Row, full: int = 0) -> float:
        if "pack" in part:
            return int(part["count"]) * self.each(self.pack[part["pack"]], full)
        if "mix" in part:
            other = self.mix[part["mix"]]
            return self.weight(part) * self.cost(other, full) / self.out(other)
        return self.weight(part) * self.season.by_bulk(part["product"], full)

    def each(self, pack: Row, full: int) -> float:
        """Running or full cost of one of a pack that is of this season."""
        mix, product = self.of(pack), pack["product"]
        one = self.cost(mix, full) / self.out(mix) if mix else self.season.by_bulk(product, full)
        of_all = self.season.packaging(pack) + (self.season.time(pack) if full else 0.0)
        return self.season.grams(pack["net"]) * one + of_all / int(pack.get("count", "1"))

    def product(self, part: Row) -> str:
        if "product" in part:
            return str(part["product"])
        whole = self.pack[part["pack"]] if "pack" in part else self.mix[part["mix"]]
        return str(whole["product"])

    def added(self, product: str) -> float:
        """What mixes add to a product's running cost, and what the packs of its mixes are in."""
        own = [mix for mix in self.mix.values() if mix["product"] == product]
        given = [part for part in self.parts() if self.product(part) == product]
        packs = [p for p in self.pack.values() if p["product"] == product and self.of(p)]
        return (
            sum(map(self.cost, own))
            - sum(map(self.cost_of, given))
            + sum(map(self.season.packaging, packs))
        )

    def rows(self, shops: dict[str, float]) -> dict[str, Row]:
        """Of each mix its weights and cost, and what it brought; ``shops``: worth of one pack kept.

        What was sold by the piece, in and out of markets, less fees; what is still there at what a
        shop would have got. No other use of these packs is written.
        """
        fee = self.season.fees()
        found: dict[str, Row] = {}
        for key, mix in self.mix.items():
            brought = 0.0
            for pack in (p for p in self.pack.values() if self.of(p) is mix):
                left = int(pack["count"]) - self.opened(pack["id"])
                for use in self.season.rows["uses"]:
                    if use.get("pack") == pack["id"]:
                        left -= int(use["count"])
                        taken = fee if use["for"] == "stall" else 0.0
                        brought += int(use["count"]) * float(use["price"].split()[0]) * (1 - taken)
                for market in self.season.rows["markets"]:
                    for name, gone, sold, price in self.season.went(market):
                        if name == pack["id"]:
                            left -= gone
                            brought += sold * price * (1 - fee)
                brought += left * shops[pack["id"]] if left else 0.0
            given = sum(self.cost_of(part) for part in self.parts() if part.get("mix") == key)
            found[key] = {
                "weight_in": self.into(mix), "weight_out": self.out(mix),
                "running_cost": self.cost(mix), "full_cost": self.cost(mix, 1), "brought": brought,
                "earned": brought + given - self.cost(mix),
            }  # fmt: skip
        return found
