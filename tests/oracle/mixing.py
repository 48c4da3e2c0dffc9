"""Mixes by the contract's text, each reckoned from its parts as deep as they go."""

from __future__ import annotations

from typing import TYPE_CHECKING

from oracle.written import NAN, div, known, moment, money, number

if TYPE_CHECKING:
    from oracle.reckon import Reckoning, Row

READINGS = {"water_activity": 0.6, "moisture_meter": 0.04}


def mixes_of(season: Reckoning, pack: Row) -> list[str]:
    """The mixes that a pack names."""
    ids = {mix["id"] for mix in season.records["mixes"]}
    return [each for each in pack.get("from", []) if each in ids]


def of_mix(season: Reckoning, pack: Row) -> bool:
    """Whether a pack is of this season, and of a mix."""
    return "carried" not in pack and bool(mixes_of(season, pack))


def parts(season: Reckoning) -> list[tuple[Row, Row]]:
    """Every part with its mix."""
    return [(mix, part) for mix in season.records["mixes"] for part in mix.get("from", [])]


def opened(season: Reckoning, pack: str) -> float:
    """How many of a pack were opened."""
    return sum(number(p.get("count", "1")) for _, p in parts(season) if p.get("pack") == pack)


def bulk_mixed(season: Reckoning, product: str) -> float:
    """Bulk of a product that went into mixes."""
    return sum(number(p["weight"]) for _, p in parts(season) if p.get("product") == product)


class Mixes:
    """Weights and costs of all mixes. ``each``: what one pack costs, if it is of no mix."""

    def __init__(self, season: Reckoning) -> None:
        self.season = season
        self.mix = {mix["id"]: mix for mix in season.records["mixes"]}
        self.record = {pack["id"]: pack for pack in season.records["packs"]}

    def went_in(self, part: Row) -> float:
        if "pack" in part:
            return number(part.get("count", "1")) * number(self.record[part["pack"]].get("net"))
        return number(part.get("weight"))

    def weight_in(self, mix: Row) -> float:
        return sum(map(self.went_in, (*mix.get("from", []), *mix.get("bought", []))))

    def out(self, mix: Row) -> float:
        return number(mix["out"]) if "out" in mix else self.weight_in(mix)

    def labor(self, mix: Row) -> float:
        hours = number(mix.get("labor", "0 h"))
        return 0.0 if hours == 0 else hours * self.season.rates["labor"]

    def cost(self, mix: Row, kind: str) -> float:
        bought = sum(money(each.get("price")) for each in mix.get("bought", []))
        own = sum(self.cost_of(part, kind) for part in mix.get("from", []))
        return own + bought + (self.labor(mix) if kind == "full" else 0.0)

    def cost_of(self, part: Row, kind: str) -> float:
        if "pack" in part:
            return number(part.get("count", "1")) * self.each(part["pack"], kind)
        if "mix" in part:
            other = self.mix[part["mix"]]
            return number(part["weight"]) * div(self.cost(other, kind), self.out(other))
        return number(part["weight"]) * float(self.season.products[part["product"]][f"{kind}_bulk"])

    def by_weight(self, pack: Row, kind: str) -> float:
        """What the mixes that a pack names cost by weight, together."""
        named = [self.mix[each] for each in mixes_of(self.season, pack)]
        return div(sum(self.cost(m, kind) for m in named), sum(map(self.out, named)))

    def each(self, key: str, kind: str) -> float:
        record, pack = self.record[key], self.season.packs[key]
        if pack["carried"]:
            return money(pack["carried"].get(kind))
        if of_mix(self.season, record):
            bulk = self.by_weight(record, kind)
        else:
            bulk = float(self.season.products[pack["product"]][f"{kind}_bulk"])
        time = pack["labor"] * self.season.rates["labor"] if pack["labor"] else 0.0
        time = time / pack["count"] if kind == "full" else 0.0
        return float(pack["net"] * bulk + self.season.packaging(pack["container"]) + time)

    def product(self, part: Row) -> str:
        if "pack" in part:
            return str(self.record[part["pack"]]["product"])
        return str(part["product"] if "product" in part else self.mix[part["mix"]]["product"])

    def added(self, product: str, kind: str) -> float:
        """What mixes add to a product's cost: what its own cost, less what went into mixes."""
        own = sum(self.cost(m, kind) for m in self.mix.values() if m["product"] == product)
        given = sum(
            self.cost_of(part, kind)
            for _, part in parts(self.season)
            if self.product(part) == product
        )
        return own - given

    # --- dryness and days -------------------------------------------------------------------------

    def left(self, mix: Row) -> float:
        """What came out and is in no pack and no other mix."""
        taken = sum(
            number(part["weight"]) for _, part in parts(self.season) if part.get("mix") == mix["id"]
        )
        for pack in self.season.records["packs"]:
            named = mixes_of(self.season, pack)
            if mix["id"] in named:
                content = number(pack.get("count", "1")) * number(pack.get("net"))
                out = sum(self.out(self.mix[each]) for each in named)
                taken += content * div(self.out(mix), out)
        return self.out(mix) - taken


def rows(season: Reckoning) -> dict[str, Row]:
    """What is compared of each mix."""
    found, brought = Mixes(season), Bringing(season).rows()
    return {
        key: {
            "weight_in": found.weight_in(mix), "weight_out": found.out(mix),
            "loss": found.weight_in(mix) - found.out(mix), "left": found.left(mix),
            "running_cost": found.cost(mix, "running"), "full_cost": found.cost(mix, "full"),
            "running_by_weight": div(found.cost(mix, "running"), found.out(mix)),
            "full_by_weight": div(found.cost(mix, "full"), found.out(mix)),
            **brought[key],
        }
        for key, mix in found.mix.items()
    }  # fmt: skip


def moved(season: Reckoning, product: str) -> list[tuple[float, float]]:
    """What mixes took of a product's bulk, each with its day."""
    return [
        (moment(mix.get("date")), -number(part["weight"]))
        for mix, part in parts(season)
        if part.get("product") == product
    ]


def opened_by(season: Reckoning, pack: str, day: float) -> float:
    """How many of a pack were opened up to and with a day; without a day, before all."""
    return sum(
        number(part.get("count", "1"))
        for mix, part in parts(season)
        if part.get("pack") == pack
        and (not known(moment(mix.get("date"))) or moment(mix["date"]) // 1 <= day)
    )


def saved(season: Reckoning, product: str) -> float:
    """What was kept of packs of mixes, at the shops' price less what it cost."""
    found, would_buy = Mixes(season), season.pricing.get("would_buy", NAN)
    price = season.products[product]["retail_median"] * would_buy
    result = 0.0
    for record in season.records["packs"]:
        if record["product"] == product and of_mix(season, record):
            pack = season.packs[record["id"]]
            uses = [u for u in season.records["uses"] if u.get("pack") == record["id"]
                    and u["for"] in ("household", "gift")]  # fmt: skip
            for kept in (sum(number(u.get("count", "1")) for u in uses), pack["on_hand"]):
                gain = pack["net"] * price - found.each(record["id"], "running")
                result += 0.0 if kept == 0 else kept * gain
    return result


class Bringing(Mixes):
    """What mixes brought."""

    def share(self, mix: Row, pack: Row) -> float:
        """The share of a pack's content that is of a mix."""
        named = mixes_of(self.season, pack)
        if mix["id"] not in named or "carried" in pack:
            return 0.0
        return div(self.out(mix), sum(self.out(self.mix[each]) for each in named))

    def brought(self, mix: Row) -> float:
        would_buy = self.season.pricing.get("would_buy", NAN)
        result = 0.0
        for record in self.season.records["packs"]:
            part = self.share(mix, record)
            if part == 0:
                continue
            pack = self.season.packs[record["id"]]
            pairs = zip(self.season.records["uses"], self.season.uses, strict=True)
            own = [(u, row) for u, row in pairs if u.get("pack") == record["id"]]
            got = sum(row["got"] for _, row in own if row["sold"])
            there = self.season.market_packs.values()
            got += sum(row["got"] for row in there if row["pack"] == record["id"])
            kept = pack["on_hand"] + sum(
                number(u.get("count", "1")) for u, _ in own if u["for"] in ("household", "gift")
            )
            price = self.season.products[pack["product"]]["retail_median"] * would_buy
            result += part * (got + (0.0 if kept == 0 else kept * pack["net"] * price))
        return result

    def handed_on(self, mix: Row) -> float:
        """Running cost of what of it went into other mixes, by weight or in packs."""
        result = sum(
            self.cost_of(part, "running")
            for _, part in parts(self.season)
            if part.get("mix") == mix["id"]
        )
        for record in self.season.records["packs"]:
            many, part = opened(self.season, record["id"]), self.share(mix, record)
            if many and part:
                result += part * many * self.each(record["id"], "running")
        return result

    def hours(self, mix: Row) -> float:
        packs = self.season.records["packs"]
        packing = sum(self.share(mix, p) * number(p.get("labor", "0 h")) for p in packs)
        return number(mix.get("labor", "0 h")) + packing

    def rows(self) -> dict[str, Row]:
        """Of each mix, what it brought."""
        found: dict[str, Row] = {}
        for key, mix in self.mix.items():
            earned = self.brought(mix) + self.handed_on(mix) - self.cost(mix, "running")
            found[key] = {
                "brought": self.brought(mix),
                "earned": earned,
                "hours": self.hours(mix),
                "earned_per_hour": div(earned, self.hours(mix)),
            }
        return found
