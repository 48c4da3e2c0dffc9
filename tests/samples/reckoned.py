"""The totals of a household's and a co-op's season, worked out from their files alone.

A plain script that knows PyYAML and nothing of the program: it reads what the two seasons hold, and
no more. Weights are in grams. Hours by tariff are counted minute by minute in the place's time.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import yaml

from samples.reckoned_mixes import Mixes

Row = dict[str, Any]
UNITS = {"g": 1.0, "kg": 1000.0, "lb": 453.59237, "oz": 28.349523125,
         "h": 1.0, "min": 1 / 60, "W": 0.001, "kWh": 1.0, "km": 1.0, "mile": 1.0, "%": 0.01,
         "run": 1.0, "day": 1.0}  # fmt: skip
SHELF = ("household", "gift")
SOLD = ("stall", "co-op", "cafe")


def amount(text: str) -> float:
    """``7 lb 2 oz``, ``~0.6 lb``, ``1 h 40 min``, ``880 W``, ``62 %``, ``20.3 cents per kWh``."""
    bare = re.sub(r"^(~|about )", "", text)
    if " cents" in bare:
        return float(bare.split()[0]) / 100
    parts = re.findall(r"([\d.]+) ?([A-Za-z%]*)", bare.partition("/")[0].partition(" per ")[0])
    return sum(float(number) * UNITS.get(unit, 1.0) for number, unit in parts)


def weight(value: Any, tray: float = 0.0) -> float:
    """A weight, a list of them, gross and tare."""
    if isinstance(value, list):
        return sum(weight(each, tray) for each in value)
    if isinstance(value, dict):
        gross = value["gross"]
        off = weight(value["tare"]) if "tare" in value else tray * len(gross)
        return weight(gross) - off
    return amount(value)


def moment(text: str) -> datetime:
    return datetime.fromisoformat(text)


class Season:
    """One season's files, and what they come to."""

    def __init__(self, folder: Path, recipes: Path) -> None:
        self.head: Row = yaml.load((folder / "season.yaml").read_text(), yaml.BaseLoader)
        self.recipes = recipes
        self.rows: dict[str, list[Row]] = defaultdict(list)
        for path in sorted((folder / "batches").iterdir()):
            held = yaml.load(path.read_text(), yaml.BaseLoader)
            for name, rows in (self.long(path.stem, held) if "product" in held else held).items():
                self.rows[name] += rows
        self.dryers = {each["id"]: each for each in self.head["dryers"]}
        self.runs = {run["id"]: run for run in self.rows["runs"]}
        self.lots = {lot["id"]: lot for lot in self.rows["lots"]}
        self.loads = [
            load | {"run": run["id"]} for run in self.rows["runs"] for load in run["loads"]
        ]
        self.mixes = Mixes(self)
        self.weigh()
        self.pay()

    @staticmethod
    def long(stem: str, held: Row) -> dict[str, list[Row]]:
        """The short form as records."""
        day, base = stem[:10], f"{stem[11:]}-{stem[:10]}"
        bought = re.fullmatch(r"(.+?) (?:at (?P<by>.+)|for (?P<all>.+))", held["bought"])
        assert bought is not None
        price = bought["all"] or bought["by"]
        lot = {k: held[k] for k in ("product", "prepped", "set_aside", "labor") if k in held}
        lot |= {"id": base, "weighed": bought[1], "price": price}
        clock = held["run"]["started"].replace("7 pm", "19:00")
        load = {"lot": base, "wet": held["wet"], "dry": held["dry"]}
        run = held["run"] | {"id": f"{base}-run", "started": f"{day} {clock}", "loads": [load]}
        packs = []
        for n, line in enumerate(held["packed"], 1):
            if isinstance(line, str):
                count, container, net = re.match(r"(\d+) (\S+) of ([\d.]+ \w+)", line).groups()
                line = {"count": count, "container": container, "net": net}
            packs.append({"id": f"{base}-pack-{n}", "product": held["product"],
                          "from": [run["id"]], "date": day} | line)  # fmt: skip
        return {"lots": [lot], "runs": [run], "packs": packs}

    def product(self, name: str) -> Row:
        found: Row = yaml.load((self.recipes / f"{name}.yaml").read_text(), yaml.BaseLoader)
        return found

    def dryer(self, run: str) -> Row:
        found: Row = self.dryers[self.runs[run].get("dryer", next(iter(self.dryers)))]
        return found

    def hours(self, run: str) -> float:
        held = self.runs[run]
        if "duration" in held:
            return amount(held["duration"])
        return (moment(held["ended"]) - moment(held["started"])).total_seconds() / 3600

    # --- weights ------------------------------------------------------------------------------

    def weigh(self) -> None:
        """Every load's wet and dry weight, as written or as the contract estimates it."""
        again = {load["again"]: load for load in self.loads if "again" in load}
        for load in self.loads:
            tray = amount(self.dryer(load["run"]).get("tray_weight", "0 g"))
            load["key"] = load.get("id") or f"{load['run']}/{load.get('lot')}"
            for name in ("wet", "dry"):
                load[name] = weight(load[name], tray) if name in load else None
        for load in self.loads:
            if "again" in load:
                first = next(each for each in self.loads if each["key"] == load["again"])
                load["lot"] = first["lot"]
                if load["wet"] is None:
                    one, two = self.hours(first["run"]), self.hours(load["run"])
                    lost = (first["wet"] - load["dry"]) * one / (one + two)
                    load["wet"] = first["wet"] - lost
                first["dry"] = load["wet"]
        for load in self.loads:
            lot = self.lots[load["lot"]]
            load["product"] = lot["product"]
            data = self.product(load["product"])
            solid = 1 - amount(data["water"]["value"])
            if load["wet"] is None:
                own = [each for each in self.loads if each["lot"] == lot["id"]]
                known = sum(x["wet"] for x in own if x["wet"] is not None and "again" not in x)
                left = weight(lot["prepped"]) - weight(lot.get("set_aside", "0 g")) - known
                left -= weight(lot.get("lost", "0 g"))
                most = load["dry"] * (1 - amount(data["target_moisture"]["value"])) / solid
                load["wet"] = min(left, most, amount(self.dryer(load["run"])["load_limit"]))
            load["solids"] = load["wet"] * solid
        for run in self.runs.values():
            own = [each for each in self.loads if each["run"] == run["id"]]
            open_ones = [each for each in own if each["dry"] is None]
            if not open_ones or (run.get("failed") and own[0]["key"] not in again):
                continue
            packs = [each for each in self.rows["packs"] if each.get("from") == [run["id"]]]
            left = weight(run["dry"]) if "dry" in run else sum(map(self.content, packs))
            left -= sum(each["dry"] for each in own if each["dry"] is not None)
            for load in open_ones:
                load["dry"] = left * load["solids"] / sum(each["solids"] for each in open_ones)

    @staticmethod
    def content(pack: Row) -> float:
        return int(pack.get("count", "1")) * amount(pack["net"])

    # --- money --------------------------------------------------------------------------------

    def bought(self, lot: Row) -> float:
        """What a lot cost to buy."""
        if "price" not in lot:
            return 0.0
        price, count = lot["price"], int(lot.get("count", "1"))
        each = float(price.split()[0])
        if re.search(r"(/| per )(kg|lb)$", price):
            unit = price[-2:]
            return each * weight(lot["weighed"]) / UNITS[unit]
        return each * count if re.search(r" each$| per |/", price) else each

    def energy(self, run: str) -> float:
        held = self.runs[run].get("energy")
        if isinstance(held, dict):
            return amount(held["to"]) - amount(held["from"])
        if held is not None:
            return amount(held)
        return amount(self.dryer(run)["mean_power"]) * self.hours(run)

    def energy_price(self, run: str) -> float:
        """The mean price of a run's hours, each minute at its own."""
        rate = self.head["rates"]["electricity"]
        if isinstance(rate, str):
            return amount(rate)
        dear, usual = rate
        zone = ZoneInfo(self.head["timezone"])
        start = moment(self.runs[run]["started"]).replace(tzinfo=zone).astimezone(UTC)
        minutes = round(self.hours(run) * 60)
        paid = 0.0
        for minute in range(minutes):
            local = (start + timedelta(minutes=minute)).astimezone(zone)
            within = dear["from"] <= f"{local:%H:%M}" < dear["to"] and local.weekday() < 5
            paid += amount((dear if within else usual)["price"])
        return paid / minutes

    def packaging(self, pack: Row) -> float:
        container = next(x for x in self.head["containers"] if x["id"] == pack["container"])
        parts = 0.0
        for part in container["parts"].values():
            one = part if isinstance(part, dict) else {"cost": part}
            parts += amount(one["cost"]) / int(one.get("uses", "1"))
        return int(pack.get("count", "1")) * parts / (1 - amount(container.get("spoiled", "0 %")))

    def upkeep(self, run: str) -> float:
        return sum(amount(x["cost"]) / amount(x["every"]) for x in self.dryer(run)["upkeep"])

    def wear(self, run: str) -> float:
        dryer = self.dryer(run)
        return (amount(dryer["price"]) - amount(dryer["resale"])) / amount(dryer["life"])

    def time(self, record: Row) -> float:
        """Time written on a record, at the rate."""
        return amount(record.get("labor", "0 h")) * amount(self.head["rates"]["labor"])

    def pay(self) -> None:
        """Costs of lots, of runs and of loads."""
        road = amount(self.head["rates"]["travel"])
        for lot in self.lots.values():
            lot["bought"] = self.bought(lot)
            lot["driven"] = amount(lot.get("travel", "0 km")) * road
            lot["time"] = 0.0
        for trip in self.rows["trips"]:
            own = [lot for lot in self.lots.values() if lot.get("trip") == trip["id"]]
            for lot in own:
                share = lot["bought"] / sum(each["bought"] for each in own)
                lot["driven"] += amount(trip["distance"]) * road * share
                lot["time"] += self.time(trip) * share
        for lot in self.lots.values():
            own = [x["wet"] for x in self.loads if x["lot"] == lot["id"] and "again" not in x]
            aside, lost = (weight(lot.get(name, "0 g")) for name in ("set_aside", "lost"))
            prepped = weight(lot["prepped"]) if "prepped" in lot else sum(own) + aside + lost
            paid = lot["bought"] + lot["driven"]
            if "carried" in lot:
                paid = amount(lot["carried"]["running"])
            lot["by_weight"] = paid / (prepped - lost)
            time = lot["time"] + self.time(lot)
            if "carried" in lot:
                time = amount(lot["carried"]["full"]) - paid
            lot["time_by_weight"] = time / (prepped - lost)
        for load in self.loads:
            fresh = 0.0 if "again" in load else load["wet"]
            load["produce"] = fresh * self.lots[load["lot"]]["by_weight"]
            load["beside"] = fresh * self.lots[load["lot"]]["time_by_weight"]
        for run, held in self.runs.items():
            held["energy_cost"] = self.energy(run) * self.energy_price(run)
            own = [each for each in self.loads if each["run"] == run]
            held["lost"] = any(each["dry"] is None for each in own)
            if not held["lost"]:
                water = sum(each["wet"] - each["dry"] for each in own)
                for load in own:
                    machine = held["energy_cost"] + self.upkeep(run)
                    share = (load["wet"] - load["dry"]) / water
                    load["machine"] = machine * share
                    load["beside"] += (self.time(held) + self.wear(run)) * share

    # --- totals -------------------------------------------------------------------------------

    def grams(self, text: str) -> float:
        return amount(text)

    def fees(self) -> float:
        return amount(self.head["pricing"]["fees"])

    def by_bulk(self, name: str, full: int) -> float:
        """Running or full cost by weight of a product's bulk."""
        return float(self.of_bulk(name)["full_bulk" if full else "running_bulk"])

    def of_bulk(self, name: str) -> Row:
        """What was dried and brought over of a product, what was used of it, what it cost."""
        own = [x for x in self.loads if x["product"] == name and x["dry"] is not None]
        dried = sum(x["dry"] - (x["wet"] if "again" in x else 0) for x in own)
        cost = sum(x["produce"] + x["machine"] for x in own)
        carried = [x for x in self.head.get("carried_over", []) if x["product"] == name]
        brought = sum(weight(x["dried"]) for x in carried)
        worth = sum(weight(x["dried"]) * amount(x["running"]) / UNITS["oz"] for x in carried)
        bulk = [x for x in self.rows["uses"] if x.get("product") == name]
        used = {id(x): weight(x["weight"]) for x in bulk if x["weight"] != "rest"}
        for rest in sorted((x for x in bulk if x["weight"] == "rest"), key=lambda x: x["date"]):
            used[id(rest)] = self.left(name, rest["date"], brought, bulk, used)
        crumbs = sum(used[id(x)] for x in bulk if x["for"] == "crumbs")
        there = dried + brought
        dearer = sum(weight(x["dried"]) * amount(x["full"]) / UNITS["oz"] for x in carried)
        full = cost + sum(x["beside"] for x in own) + self.overhead(dried) + dearer
        return {"dried": dried, "there": there, "cost": cost, "bulk": bulk, "used": used,
                "running_bulk": (cost + worth) / (there - crumbs) if there else None,
                "full_bulk": full / (there - crumbs) if there else None}  # fmt: skip

    def of_product(self, name: str) -> Row:
        """Weights, running cost, what was saved so far."""
        held = self.of_bulk(name)
        bulk, used, by_bulk, cost = (
            held[each] for each in ("bulk", "used", "running_bulk", "cost")
        )
        packs = [x for x in self.rows["packs"] if x["product"] == name and "carried" not in x
                 and not self.mixes.of(x)]  # fmt: skip
        packed, packaging = sum(map(self.content, packs)), sum(map(self.packaging, packs))
        intact, around = packed, packaging
        for pack in packs:
            opened = self.mixes.opened(pack["id"]) / int(pack.get("count", "1"))
            intact -= opened * self.content(pack)
            around -= opened * self.packaging(pack)
        taken = {purpose: self.taken(packs, (purpose,)) for purpose in (*SHELF, "spoiled")}
        by_packed = (by_bulk * intact + around) / (intact - taken["spoiled"]) if intact else None
        eaten = sum(taken[each] for each in SHELF)
        eaten += sum(used[id(x)] for x in bulk if x["for"] == "household")
        left = held["there"] - packed - sum(used.values()) - self.mixes.bulk(name)
        return {"dried": held["dried"], "packed": packed, "unpacked": left,
                "running_cost": cost + packaging + self.mixes.added(name),
                "running_per_packed": by_packed, "kept_taken": eaten,
                "running_bulk": by_bulk, "full_bulk": held["full_bulk"]}  # fmt: skip

    def overhead(self, dried: float) -> float:
        """What a product bears that dried so much, paid or not."""
        ours = sum(
            x["dry"] - (x["wet"] if "again" in x else 0) for x in self.loads if x["dry"] is not None
        )
        return sum(
            amount(x["cost"]) * dried / (weight(x["over"]) if "over" in x else ours)
            for x in self.head.get("overheads", [])
        )

    def each(self, key: str) -> tuple[float, float]:
        """Running and full cost of one of a pack."""
        pack = self.pack(key)
        if "carried" in pack:
            return amount(pack["carried"]["running"]), amount(pack["carried"]["full"])
        return self.mixes.each(pack, 0), self.mixes.each(pack, 1)

    def left(
        self, name: str, day: str, brought: float, bulk: list[Row], used: dict[int, float]
    ) -> float:
        """What was in bulk at the end of a day, by the books."""
        there = brought
        for load in self.loads:
            run = self.runs[load["run"]]
            start = moment(run["started"])
            end = start + timedelta(hours=self.hours(load["run"]))
            if load["product"] == name and load["dry"] is not None and f"{end:%Y-%m-%d}" <= day:
                there += load["dry"] - (load["wet"] if "again" in load else 0)
        for pack in self.rows["packs"]:
            of_bulk = "carried" not in pack and not self.mixes.of(pack)
            if pack["product"] == name and of_bulk and pack["date"] <= day:
                there -= self.content(pack)
        there -= self.mixes.bulk(name, day)
        there -= sum(used[id(x)] for x in bulk if id(x) in used and x["date"] <= day)
        return max(there, 0.0)

    def taken(self, packs: list[Row], purposes: tuple[str, ...]) -> float:
        """Weight of packs that went somewhere."""
        nets = {each["id"]: amount(each["net"]) for each in packs}
        return sum(int(use.get("count", "1")) * nets[use["pack"]] for use in self.rows["uses"]
                   if use.get("pack") in nets and use["for"] in purposes)  # fmt: skip

    def pack(self, key: str) -> Row:
        return next(each for each in self.rows["packs"] if each["id"] == key)

    def channel(self, name: str) -> tuple[float, float, float]:
        """What of a price is not tax, what is fees, and what of the asked price is asked there."""
        held = self.head.get("channels", {}).get(name, {})
        usual = self.head["pricing"].get("fees", "0 %") if name == "stall" else "0 %"
        tax, fees, off = (
            amount(held.get(key, left_out))
            for key, left_out in (("tax", "0 %"), ("fees", usual), ("discount", "0 %"))
        )
        return 1 / (1 + tax), fees, 1 - off

    def asked(self, key: str, day: str, channel: str) -> float:
        """What was asked for a pack on a day in a channel."""
        pack, same = self.pack(key), ("product", "container", "net")
        held = [
            each
            for each in self.head["asked"]
            if each.get("from", "") <= day and all(pack[name] == each[name] for name in same)
        ]
        price = amount(max(held, key=lambda x: x.get("from", ""))["price"])
        return price * self.channel(channel)[2]

    def went(self, market: Row) -> Iterator[tuple[str, int, int, float]]:
        """Of each pack of a market day: how many did not come back, how many were sold, at what."""
        for pack, took in market["took"].items():
            gone = int(took) - int(market.get("back", {}).get(pack, "0"))
            sold = gone - int(market.get("samples", {}).get(pack, "0"))
            written = market.get("prices", {}).get(pack)
            price = self.asked(pack, market["date"], market["channel"]) if written is None else 0.0
            yield pack, gone, sold, amount(written) if written else price

    def sale(self, use: Row) -> float:
        """What was paid for a use that is a sale."""
        count = int(use.get("count", "1"))
        if "total" in use:
            return amount(use["total"])
        if "price" in use:
            return count * amount(use["price"])
        return count * self.asked(use["pack"], use["date"], use["for"])

    def expected(self, market: Row) -> float:
        """What a market day was to take in."""
        return sum(sold * price for _, _, sold, price in self.went(market))

    def taken_in(self, market: Row) -> float:
        """What it took in, or was to where nobody counted."""
        purse = market.get("takings")
        return sum(map(amount, purse.values())) if purse else self.expected(market)

    def road(self, market: Row) -> float:
        return amount(market.get("travel", "0 km")) * amount(self.head["rates"]["travel"])

    def of_market(self, market: Row) -> Row:
        """What a market day took in and left."""
        taken, expected = self.taken_in(market), self.expected(market)
        net, fees, _ = self.channel(market["channel"])
        running = sum(gone * self.each(pack)[0] for pack, gone, _, _ in self.went(market))
        full = sum(gone * self.each(pack)[1] for pack, gone, _, _ in self.went(market))
        brought = taken * (net - fees) - amount(market.get("fee", "0 CAD")) - self.road(market)
        counted = "takings" in market
        return {"expected": expected, "taken_in": taken, "takings": taken if counted else None,
                "difference": taken - expected if counted else None, "left": brought - running,
                "left_per_hour": (brought - running) / amount(market["labor"]),
                "left_full": brought - full - self.time(market)}  # fmt: skip

    def of_sales(self) -> Row:
        """Revenue and profit of all sales, at their prices."""
        revenue = profit = 0.0
        sales = [(use["for"], use["pack"], int(use.get("count", "1")), self.sale(use))
                 for use in self.rows["uses"] if use["for"] in SOLD]  # fmt: skip
        for market in self.rows["markets"]:
            sales += [
                (market["channel"], pack, sold, sold * price)
                for pack, _, sold, price in self.went(market)
            ]
        for channel, pack, count, paid in sales:
            net, fees, _ = self.channel(channel)
            revenue += paid * net
            profit += paid * (net - fees) - count * self.each(pack)[1]
        return {"revenue": revenue, "profit": profit}

    def of_season(self) -> Row:
        """Money in and out by kind, and what failed runs cost."""
        rates, pricing = self.head["rates"], self.head["pricing"]
        lots = [each for each in self.lots.values() if "carried" not in each]
        packs = [each for each in self.rows["packs"] if "carried" not in each]
        sold = [use for use in self.rows["uses"] if use["for"] in SOLD]
        took: dict[str, float] = defaultdict(float)
        for use in sold:
            took[use["for"]] += self.sale(use)
        days = {use["date"] for use in sold if use["for"] == "stall"}
        stall = amount(pricing.get("stall", "0 x")) * len(days)
        markets = self.rows["markets"]
        if markets:
            stall = sum(amount(each.get("fee", "0 CAD")) for each in markets)
            for market in markets:
                took[market["channel"]] += self.taken_in(market)
        paid = [x for x in self.head.get("overheads", []) if x.get("paid") != "false"]
        timed = [*lots, *self.runs.values(), *packs, *self.rows["trips"], *markets,
                 *self.rows["mixes"]]  # fmt: skip
        hours = sum(amount(x["labor"]) for x in timed if "labor" in x)
        lost = [load for load in self.loads if self.runs[load["run"]]["lost"]]
        found = {
            "money_in": sum(took.values()),
            "money_purchases": sum(lot["bought"] for lot in lots),
            "money_bought": sum(amount(each["price"]) for mix in self.rows["mixes"]
                                for each in mix.get("bought", ())),
            "money_driving": sum(lot["driven"] for lot in lots),
            "money_packaging": sum(map(self.packaging, packs)),
            "money_energy": sum(run["energy_cost"] for run in self.runs.values()),
            "money_upkeep": sum(map(self.upkeep, self.runs)),
            "money_fees": sum(paid * self.channel(name)[1] for name, paid in took.items()),
            "money_tax": sum(paid * (1 - self.channel(name)[0]) for name, paid in took.items()),
            "money_overheads": sum(amount(each["cost"]) for each in paid),
            "money_stall": stall,
            "money_to_market": sum(map(self.road, markets)),
            "money_labor": amount(rates["labor"]) * hours if "labor_paid" in rates else 0.0,
            "failed_running": sum(load["produce"] for load in lost)
            + sum(r["energy_cost"] + self.upkeep(k) for k, r in self.runs.items() if r["lost"]),
        }  # fmt: skip
        kinds = [name for name in found if name not in ("money_in", "failed_running")]
        found["money_out"] = sum(found[name] for name in kinds)
        found["money_left"] = found["money_in"] - found["money_out"]
        return found
