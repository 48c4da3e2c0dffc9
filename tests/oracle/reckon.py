"""Lots, runs, loads, products, packs, uses, offers, prices and the season, by the contract's text.

Weights are in grams, costs by weight in money by gram, until they are shown.
"""

from __future__ import annotations

import datetime
import math
import statistics
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from oracle.counts import counted
from oracle.forgotten import fill
from oracle.markets import markets, stall
from oracle.mixing import Mixes, bulk_mixed, moved, of_mix, opened
from oracle.written import NAN, about, borne, div, first, known, moment, money, most, number, up

Row = dict[str, Any]
KEPT = ("household", "gift", "spoiled", "crumbs", "sample")
"""What is not sold is used for one of these."""
TABLES = ("lots", "runs", "packs", "uses", "markets", "counts", "offers", "trips", "mixes")


def given(record: Row, name: str, otherwise: float = NAN) -> float:
    return number(record[name]) if name in record else otherwise


def lost_in_life(dryer: Row) -> float:
    """What a dryer loses in value."""
    return money(dryer.get("price")) - money(dryer.get("resale", "0 x"))


def trays_area(dryer: Row) -> float:
    return given(dryer, "trays") * given(dryer, "tray_area")


def at(amount: float, rate: float) -> float:
    """An amount at a rate; what is none asks for no rate."""
    return 0.0 if amount == 0 else amount * rate


def by_weight(lot: Row) -> bool:
    """Whether a lot's price is by weight."""
    return lot.get("price", "").rpartition("/")[2] in ("g", "kg", "oz", "lb")


class Reckoning:
    """All of a season; ``files`` as a maker wrote them, ``recipes`` by product."""

    def __init__(self, files: dict[str, Row], recipes: dict[str, Row]) -> None:
        self.head = files["season.yaml"]
        self.recipes = recipes
        rates = self.head.get("rates", {})
        self.rates = {key: money(rates.get(key)) for key in ("labor", "travel")}
        price = rates.get("electricity")
        self.periods = price if isinstance(price, list) else []
        self.rates["electricity"] = NAN if self.periods else money(price)
        self.records: dict[str, list[Row]] = defaultdict(list)
        for path in sorted(files):
            for table in TABLES:
                for record in files[path].get(table, []):
                    self.records[table].append({"file": path, **record})
        for lot in self.records["lots"]:
            if "price" in lot:
                lot["price"] = lot["price"].replace(" per ", "/")
        self.dryers = {each["id"]: each for each in self.head.get("dryers", [])}
        self.containers = {each["id"]: each for each in self.head.get("containers", [])}
        pricing = self.head.get("pricing", {})
        self.pricing = {"fees": 0.0, "days": 0.0} | {
            key: number(text) for key, text in pricing.items() if key not in ("price_step", "stall")
        }
        self.pricing["stall"] = money(pricing.get("stall", "0 x"))
        self.pricing["price_step"] = money(pricing.get("price_step"))
        fees = self.pricing["fees"]
        named = {"stall": {}, "co-op": {}} | self.head.get("channels", {})
        self.channels = {
            name: {
                "fees": given(each, "fees", fees if name == "stall" else 0.0),
                "net": 1 / (1 + given(each, "tax", 0.0)),
                "discount": given(each, "discount", 0.0),
            }
            for name, each in named.items()
        }
        self.lots: dict[str, Row] = {}
        self.runs: dict[str, Row] = {}
        self.loads: dict[str, Row] = {}
        self.packs: dict[str, Row] = {}
        self.uses: list[Row] = []
        self.offers: dict[str, Row] = {}
        self.products: dict[str, Row] = {}
        self.prices: dict[tuple[str, str, float], Row] = {}
        self._read_loads()
        self._lots()
        self._runs()
        self._loads()
        self._products()
        self._packs()
        self.market_packs: dict[str, Row] = {}
        self.markets = markets(self)
        self.counts = counted(self)
        self._uses()
        self._per_packed()
        self._offers()
        self._prices()

    # --- product data --------------------------------------------------------------------------

    def recipe(self, product: str, name: str) -> float:
        held = self.recipes.get(product, {}).get(name)
        return number(held["value"] if isinstance(held, dict) else held)

    def spread(self, product: str, name: str, end: str) -> float:
        held = self.recipes.get(product, {}).get(name)
        return number(held.get(end)) if isinstance(held, dict) else NAN

    def nominal(self, product: str, container: str | None) -> float:
        held = self.recipes.get(product, {}).get("containers", {}).get(container)
        return number(held["value"] if isinstance(held, dict) else held)

    def packaging(self, container: str | None) -> float:
        """Σ parts ÷ (1 − spoiled)."""
        held = self.containers.get(container or "", None)
        if held is None:
            return NAN
        parts = 0.0
        for part in held.get("parts", {}).values():
            one = part if isinstance(part, dict) else {"cost": part}
            parts += div(money(one.get("cost")), given(one, "uses", 1.0))
        return div(parts, 1 - given(held, "spoiled", 0.0))

    def upkeep(self, dryer: Row) -> float:
        """Upkeep of one run."""
        items = dryer.get("upkeep", [])
        return sum(div(money(item.get("cost")), given(item, "every")) for item in items)

    # --- loads, lots, runs ------------------------------------------------------------------------

    def _read_loads(self) -> None:
        only = {}
        for lot in self.records["lots"]:
            only.setdefault(lot["file"], []).append(lot["id"])
        for run in self.records["runs"]:
            for load in run.get("loads", []):
                again = load.get("again")
                lot = load.get("lot")
                if lot is None and again is not None:
                    lot = self.loads[again]["lot"]
                elif lot is None:
                    (lot,) = only[run["file"]]
                weights = load.get("dryness", {}).get("weights", [None])
                key = load.get("id", f"{run['id']}/{lot}")
                self.loads[key] = {
                    "key": key, "run": run["id"], "lot": lot, "again": again,
                    "wet_about": about(load, "wet"), "dry_about": about(load, "dry"),
                    "wet_written": number(load.get("wet")),
                    "dry_written": first(number(load.get("dry")), number(weights[-1])),
                }  # fmt: skip
        fill(self)

    def bought(self, lot: Row) -> float:
        """Weight as purchased."""
        count = given(lot, "count", 1.0)
        weighed = given(lot, "weighed")
        if "weighed_count" in lot:
            weighed = weighed * count / number(lot["weighed_count"])
        return first(weighed, count * self.nominal(lot["product"], lot.get("container")))

    def dryer_of(self, run: Row) -> str:
        return str(run.get("dryer", next(iter(self.dryers))))

    def hours(self, run: Row) -> float:
        begin, end = moment(run.get("started")), moment(run.get("ended"))
        return first(given(run, "duration"), (end - begin) * 24)

    def end(self, run: Row) -> float:
        return first(moment(run.get("ended")), moment(run.get("started")) + self.hours(run) / 24)

    def loads_of(self, name: str, key: str) -> list[Row]:
        return [load for load in self.loads.values() if load[name] == key]

    def _lots(self) -> None:
        for record in self.records["lots"]:
            product = record["product"]
            count = given(record, "count", 1.0)
            bought = self.bought(record)
            lost, aside = given(record, "lost", 0.0), given(record, "set_aside", 0.0)
            own = [load for load in self.loads_of("lot", record["id"]) if not load["again"]]
            loaded = sum(load["wet"] for load in own)
            used = loaded + aside + lost
            prepped = given(record, "prepped")
            if not known(prepped):
                by_yield = most(bought * self.recipe(product, "prep_yield"), used)
                prepped = used if record.get("finished") == "true" else by_yield
            left_over = record.get("carried")
            by_scale = "weighed" in record and not about(record, "weighed")
            self.lots[record["id"]] = {
                "of_season": left_over is None, "left_over": left_over or {},
                "product": product, "as_purchased": bought, "loaded": loaded, "prepped": prepped,
                "prep_yield": div(prepped, bought), "waiting": prepped - lost - aside - loaded,
                "usable": prepped - lost if prepped > lost else NAN,
                "set_aside": aside, "purchase_cost": self._price(record, bought, count),
                "water": given(record, "water"),
                "weighed": "weighed" in record and "prepped" in record,
                "record": record,
                "guessed": by_weight(record) and not by_scale,
            }  # fmt: skip
        for trip in self.records["trips"]:
            fetched = [lot for lot in self.lots.values() if lot["record"].get("trip") == trip["id"]]
            bought = sum(lot["purchase_cost"] for lot in fetched)
            for lot in fetched:
                part = div(lot["purchase_cost"], bought)
                lot["trip"] = trip
                lot["trip_share"] = part if known(part) else 1 / len(fetched)
                lot["share_guessed"] = known(part) and any(each["guessed"] for each in fetched)
        for lot in self.lots.values():
            record, trip = lot["record"], lot.get("trip", {})
            part = lot.get("trip_share", 0.0)
            lot["distance"] = given(record, "travel", 0.0) + given(trip, "distance", 0.0) * part
            lot["hours"] = given(record, "labor", 0.0) + given(trip, "labor", 0.0) * part
            lot["travel_cost"] = at(lot["distance"], self.rates["travel"])
            lot["labor_cost"] = at(lot["hours"], self.rates["labor"])
            lot["paid"] = lot["purchase_cost"] + lot["travel_cost"]
            lot["time_cost"] = lot["labor_cost"]
            if not lot["of_season"]:
                lot["paid"], full = (money(lot["left_over"].get(x)) for x in ("running", "full"))
                lot["time_cost"] = full - lot["paid"]
            lot["cost_per_prepped"] = borne(lot["paid"], lot["usable"])
            lot["waiting_cost"] = lot["waiting"] * lot["cost_per_prepped"]
            lot["set_aside_cost"] = lot["set_aside"] * lot["cost_per_prepped"]

    def _price(self, record: Row, bought: float, count: float) -> float:
        text = record.get("price")
        if text is None:
            return 0.0 if record.get("grown") == "true" else NAN
        if "/" not in text:
            return money(text)
        return money(text) * (bought if by_weight(record) else count)

    def _runs(self) -> None:
        for record in self.records["runs"]:
            dryer = self.dryers[self.dryer_of(record)]
            loads = self.loads_of("run", record["id"])
            hours = self.hours(record)
            energy = record.get("energy")
            if isinstance(energy, dict):
                used = number(energy["to"]) - number(energy["from"])
            else:
                used = first(number(energy), given(dryer, "mean_power") * hours)
            weight, out = sum(load["wet"] for load in loads), sum(load["dry"] for load in loads)
            keys = {load["key"] for load in loads}
            back_in = any(load["again"] in keys for load in self.loads.values())
            lost = record.get("failed") == "true" and not back_in
            done = bool(loads) and known(weight) and known(out) and not lost
            water = weight - out if done else NAN
            self.runs[record["id"]] = {
                "dryer": dryer["id"], "done": done, "lost": lost, "hours": hours, "weight": weight,
                "turnaround": given(dryer, "turnaround", 0.0),
                "measured": energy is not None,
                "start": moment(record.get("started")), "end": self.end(record),
                "energy_used": used, "energy_cost": used * self._energy_price(record, hours),
                "upkeep_cost": self.upkeep(dryer),
                "wear_cost": div(lost_in_life(dryer), given(dryer, "life")),
                "water_removed": water, "specific_energy": borne(used, water) * 1e3,
                "tray_loading": div(weight / 1e3, trays_area(dryer)),
                "labor": given(record, "labor", 0.0),
            }  # fmt: skip

    def _loads(self) -> None:
        for load in self.loads.values():
            lot, run = self.lots[load["lot"]], self.runs[load["run"]]
            product = load["product"] = lot["product"]
            load["finished"], load["lost"] = run["done"], run["lost"]
            wet, dry, again = load["wet"], load["dry"], load["again"]
            load["water_removed"] = wet - dry
            load["dried_yield"], load["drying_ratio"] = div(dry, wet), div(wet, dry)
            lighter = load["drying_ratio"]
            if again:
                lighter *= div(self.loads[again]["wet"], self.loads[again]["dry"])
            for name, water in (
                ("moisture_left", self.recipe(product, "water")),
                ("moisture_left_low", self.spread(product, "water", "low")),
                ("moisture_left_high", self.spread(product, "water", "high")),
            ):
                told = 1 - (1 - first(lot["water"], water)) * lighter
                load[name] = NAN if self._weights_guessed(load) else told
            part = load["run_share"] = borne(load["water_removed"], run["water_removed"])
            for name, each in (
                ("as_purchased_share", div(lot["as_purchased"], lot["usable"])),
                ("cost_ingredients", lot["cost_per_prepped"]),
                ("travel", div(lot["travel_cost"], lot["usable"])),
                ("distance", div(lot["distance"], lot["usable"])),
                ("hours_lot", div(lot["hours"], lot["usable"])),
                ("labor_lot", div(lot["time_cost"], lot["usable"])),
            ):
                load[name] = 0.0 if again else wet * each
            for name in ("energy", "upkeep", "wear"):
                load[f"cost_{name}"] = run[f"{name}_cost"] * part
            load["energy_used"] = run["energy_used"] * part
            load["hours"] = load["hours_lot"] + run["labor"] * part
            load["cost_labor"] = load["labor_lot"] + at(run["labor"], self.rates["labor"]) * part
            load["gone"] = load["finished"] or load["lost"]
            load["gained"] = (0.0 if load["lost"] else dry) - (wet if again else 0.0)

    def _weights_guessed(self, load: Row) -> bool:
        """An estimate says nothing of dryness: of its own weights, or of its first wet weight."""
        own = load["wet_guessed"] or load["dry_guessed"]
        return bool(own or (load["again"] and self.loads[load["again"]]["wet_guessed"]))

    # --- products, packs --------------------------------------------------------------------------

    def _named(self) -> list[str]:
        tables = (
            self.records["lots"], self.records["packs"], self.records["offers"],
            self.head.get("plan", []), self.head.get("carried_over", []), self.records["uses"],
            self.records["counts"], self.records["mixes"],
            [part for mix in self.records["mixes"] for part in mix.get("from", [])],
        )  # fmt: skip
        return list(dict.fromkeys(r["product"] for rows in tables for r in rows if "product" in r))

    def _products(self) -> None:
        for record in self.records["packs"]:
            self.packs[record["id"]] = {
                "product": record["product"], "container": record.get("container"),
                "count": given(record, "count", 1.0), "net": given(record, "net"),
                "carried": record.get("carried"), "labor": given(record, "labor", 0.0),
                "mixed": of_mix(self, record), "opened": opened(self, record["id"]),
            }  # fmt: skip
        parts = ("ingredients", "energy", "upkeep", "wear", "labor")
        for product in self._named():
            loads = self.loads_of("product", product)
            done = [load for load in loads if load["finished"]]
            row: Row = {f"cost_{name}": total(done, f"cost_{name}") for name in parts}
            row["loaded"] = sum(load["wet"] for load in done if not load["again"])
            row["dried"] = total((load for load in loads if load["gone"]), "gained")
            row["in_process"] = sum(
                load["wet"] for load in loads if not load["finished"] | load["lost"]
            )
            row["overall_yield"] = div(row["dried"], total(done, "as_purchased_share"))
            row["drying_ratio"] = div(row["loaded"], row["dried"])
            row["waiting"] = total(
                (x for x in self.lots.values() if x["product"] == product), "waiting"
            )
            for name in ("travel", "distance", "hours", "energy_used"):
                row[name] = total(done, name)
            row["estimated"] = sum(self._estimated(load) for load in done)
            self.products[product] = row
        dried = total(self.products.values(), "dried")
        for product, row in self.products.items():
            row["cost_overhead"] = sum(
                money(each.get("cost")) * borne(row["dried"], given(each, "over", dried))
                for each in self.head.get("overheads", [])
            )
            own = [p for p in self.packs.values() if p["product"] == product and not p["carried"]]
            row["cost_packaging"] = sum(p["count"] * self.packaging(p["container"]) for p in own)
            row["cost_pack_labor"] = sum(at(p["labor"], self.rates["labor"]) for p in own)
            own = [p for p in own if not p["mixed"]]
            row["own_packs"] = own
            row["opened"] = sum(p["opened"] * p["net"] for p in own)
            row["pack_hours"] = total(own, "labor")
            row["packed"] = sum(p["count"] * p["net"] for p in own)
            bulk = [u for u in self.records["uses"] if u.get("product") == product]
            self._rests(product, row["dried"], bulk)
            used = sum(number(u["weight"]) for u in bulk)
            crumbs = sum(number(u["weight"]) for u in bulk if u["for"] == "crumbs")
            spoiled = sum(
                given(u, "count", 1.0) * self.packs[u["pack"]]["net"]
                for u in self.records["uses"]
                if u["for"] == "spoiled" and self.packs[u["pack"]] in own
            )
            kept = [c for c in self.head.get("carried_over", []) if c["product"] == product]
            row["carried"] = sum(number(c["dried"]) for c in kept)
            running = sum(number(c["dried"]) * money(c.get("running")) for c in kept)
            full = sum(number(c["dried"]) * money(c.get("full")) for c in kept)
            row["carried_costs"] = running, full
            there = row["dried"] + row["carried"]
            row["unpacked"] = there - row["packed"] - used - bulk_mixed(self, product)
            row["packed_good"] = row["packed"] - spoiled - row["opened"]
            row["bulk"] = row["dried"] + row["carried"] - crumbs
            paid = row["cost_ingredients"] + row["cost_energy"] + row["cost_upkeep"]
            beyond = row["cost_wear"] + row["cost_labor"] + row["cost_overhead"]
            row["running_cost"] = paid + row["cost_packaging"]
            row["full_cost"] = row["running_cost"] + beyond + row["cost_pack_labor"]
            row["running_bulk"] = borne(paid + running, row["bulk"])
            row["full_bulk"] = borne(paid + beyond + full, row["bulk"])
        mixes = Mixes(self)
        for product, row in self.products.items():
            for kind in ("running", "full"):
                row[f"{kind}_cost"] += mixes.added(product, kind)

    def _energy_price(self, run: Row, hours: float) -> float:
        """The one price; by time of use the mean over the run's hours, stretch by stretch."""
        if not self.periods:
            return self.rates["electricity"]
        at, left, paid = moment(run.get("started")), hours / 24, 0.0
        if not known(at + left):
            return NAN
        clocks = {number(p[end]) / 24 for p in self.periods for end in ("from", "to") if end in p}
        edges = sorted(clocks | {1.0})
        while left > 1e-12:
            day, clock = divmod(at + 1e-9, 1)
            stretch = min(left, next(edge for edge in edges if edge > clock) - (at - day))
            working = datetime.date.fromordinal(int(day)).weekday() < 5
            price = next(
                p["price"]
                for p in self.periods
                if (working or "days" not in p)
                and ("from" not in p or number(p["from"]) <= clock * 24 < number(p["to"]))
            )
            paid += money(price) * stretch
            at, left = at + stretch, left - stretch
        return div(paid, hours / 24)

    def _rests(self, product: str, dried: float, bulk: list[Row]) -> None:
        """What uses took that took all that was left: the day's balance by the books."""
        carried = [c for c in self.head.get("carried_over", []) if c["product"] == product]
        moves = [(-math.inf, number(c["dried"])) for c in carried]
        for load in self.loads_of("product", product):
            if load["gone"]:
                moves.append((self.runs[load["run"]]["end"], load["gained"]))
        for record in self.records["packs"]:
            if (
                record["product"] == product
                and "carried" not in record
                and not of_mix(self, record)
            ):
                taken = given(record, "count", 1.0) * given(record, "net")
                moves.append((moment(record.get("date")), -taken))
        moves += moved(self, product)
        weighed = [use for use in bulk if use["weight"] != "rest"]
        moves += [(moment(use.get("date")), -number(use["weight"])) for use in weighed]
        taken_before = 0.0
        for use in sorted((u for u in bulk if u["weight"] == "rest"), key=lambda u: u["date"]):
            day = moment(use["date"])
            unsure = any(not known(when) or not known(weight) for when, weight in moves)
            there = sum(weight for when, weight in moves if when < day + 1)
            took = NAN if unsure else max(there - taken_before, 0.0)
            taken_before += took
            use["weight"] = f"{took:.12f} g" if known(took) else None

    def _estimated(self, load: Row) -> float:
        """The part of a load's running cost whose basis is not measured. Driving on a trip that is
        shared by purchases rests on what all lots of the trip rest on."""
        beside = self.loads_of("run", load["run"])
        if any(x["wet_guessed"] or x["dry_guessed"] for x in beside):
            return float(load["cost_ingredients"] + load["cost_energy"] + load["cost_upkeep"])
        lot, found = self.lots[load["lot"]], 0.0
        record = lot["record"]
        finished = record.get("finished") == "true"
        by_recipe = "prepped" not in record and not finished
        told = about(record, "prepped", "lost")
        if finished and "prepped" not in record:
            own = [x for x in self.loads_of("lot", load["lot"]) if not x["again"]]
            told = about(record, "set_aside", "lost") or any(x["wet_guessed"] for x in own)
        if not load["again"] and (by_recipe or told or lot["guessed"] or lot.get("share_guessed")):
            found += load["cost_ingredients"]
        return found + (0.0 if self.runs[load["run"]]["measured"] else load["cost_energy"])

    def _packs(self) -> None:
        mixes = Mixes(self)
        for key, pack in self.packs.items():
            product = self.products[pack["product"]]
            pack["dried_content"] = pack["count"] * pack["net"]
            for kind in ("running", "full"):
                pack[f"{kind}_each"] = mixes.each(key, kind)
            taken = [u for u in self.records["uses"] if u.get("pack") == key]
            pack["on_hand"] = pack["count"] - sum(given(u, "count", 1.0) for u in taken)
            pack["on_hand"] -= pack["opened"]
            pack["fresh_equivalent"] = pack["net"] * product["drying_ratio"]

    def _per_packed(self) -> None:
        for row in self.products.values():
            for name in ("running", "full"):
                cost = sum((p["count"] - p["opened"]) * p[f"{name}_each"] for p in row["own_packs"])
                row[f"{name}_per_packed"] = borne(cost, row["packed_good"])

    # --- uses, offers, prices ---------------------------------------------------------------------

    def _uses(self) -> None:
        for record in self.records["uses"]:
            sold = record["for"] not in KEPT
            if "pack" not in record:
                cost = number(record["weight"]) * self.products[record["product"]]["full_bulk"]
                self.uses.append(
                    {"revenue": 0.0, "cost_out": cost, "profit": NAN, "sold": False, "running": NAN}
                )
                continue
            pack, count = self.packs[record["pack"]], given(record, "count", 1.0)
            price = money(record["price"]) if "price" in record else NAN if sold else 0.0
            if sold and "price" not in record:
                price = self.asked(pack, moment(record.get("date")))
                price *= 1 - self.channels[record["for"]]["discount"]
            cost = count * pack["full_each"]
            nothing_off = {"fees": 0.0, "net": 1.0}
            where = self.channels[record["for"]] if sold else nothing_off
            paid = count * price
            revenue, fees = paid * where["net"], paid * where["fees"]
            got = revenue - fees
            self.uses.append({
                "revenue": revenue, "cost_out": cost, "sold": sold, "paid": paid, "fees": fees,
                "tax": paid - revenue, "got": got, "profit": got - cost if sold else NAN,
                "left": got - count * pack["running_each"],
            })  # fmt: skip

    def asked(self, pack: Row, day: float) -> float:
        """What was asked that day; the last written of the latest first day."""
        held, since = NAN, -math.inf
        for record in self.head.get("asked", []):
            size = (record["product"], record["container"], number(record["net"]))
            begins = moment(record["from"]) if "from" in record else -1e6
            if size == (pack["product"], pack["container"], pack["net"]) and since <= begins <= day:
                held, since = money(record["price"]), begins
        return held

    def _offers(self) -> None:
        for record in self.records["offers"]:
            paid = money(record.get("price")) + money(record.get("shipping", "0 x"))
            unit = div(paid, given(record, "net"))
            product = self.products[record["product"]]
            alike = record.get("form", "freeze-dried") == "freeze-dried"
            ours = product["running_per_packed"]
            ours = ours if alike else div(ours, product["drying_ratio"])
            self.offers[record["id"]] = {"unit_price": unit, "ours_to_theirs": div(ours, unit)}
            if alike and known(unit):
                product.setdefault("asked", []).append(unit)
        for row in self.products.values():
            asked = row.get("asked", [])
            row["retail_median"] = statistics.median(asked) if asked else NAN
            row["retail_lowest"] = min(asked, default=NAN)
            row["offers_count"] = len(asked)
            for name in ("running", "full"):
                row[f"{name}_to_retail"] = div(row[f"{name}_per_packed"], row["retail_median"])

    def _prices(self) -> None:
        groups: dict[tuple[str, str, float], list[Row]] = defaultdict(list)
        for pack in self.packs.values():
            if pack["container"] and known(pack["net"]):
                groups[pack["product"], pack["container"], pack["net"]].append(pack)
        at_stall = stall(self)
        fees, net = (self.channels["stall"][each] for each in ("fees", "net"))
        for record in (*self.head.get("asked", []), *self.head.get("plan", [])):
            if {"container", "net"} <= {*record}:
                groups[record["product"], record["container"], number(record["net"])] += []
        for key, packs in groups.items():
            count = total(packs, "count")
            product, packaging = self.products[key[0]], self.packaging(key[1])
            row = {
                f"{name}_each": sum(p["count"] * p[f"{name}_each"] for p in packs) / count
                if packs
                else key[2] * self._by_weight(key[0], product, name) + packaging
                for name in ("running", "full")
            }
            bare = div(row["full_each"], (1 - self.pricing.get("margin", NAN)) * net - fees)
            row["price_asked"] = up(bare, self.pricing["price_step"])
            row["price_floor"] = div(row["full_each"], net - fees)
            row["retail_equivalent"] = key[2] * self.products[key[0]]["retail_median"]
            earned = row["price_asked"] * (net - fees) - row["running_each"]
            row["break_even_count"] = up(borne(at_stall, earned))
            self.prices[key] = row

    def _by_weight(self, key: str, product: Row, kind: str) -> float:
        """What a size not packed yet costs by weight: of bulk, else of all mixes of the product."""
        mixes = Mixes(self)
        own = [mix for mix in mixes.mix.values() if mix["product"] == key]
        mixed = div(sum(mixes.cost(mix, kind) for mix in own), sum(map(mixes.out, own)))
        bulk = float(product[f"{kind}_bulk"])
        return bulk if known(bulk) else mixed

    # --- the season ---------------------------------------------------------------------------

    def season(self) -> Row:
        counted = [run for run in self.runs.values() if run["done"] or known(run["energy_used"])]
        done = [run for run in self.runs.values() if run["done"]]
        every = ("prepped", "waiting", "loaded", "waiting_cost", "set_aside_cost")
        found: Row = {name: total(self.lots.values(), name) for name in every}
        of_season = [lot for lot in self.lots.values() if lot["of_season"]]
        found |= {
            name: total(of_season, name)
            for name in ("as_purchased", "purchase_cost", "travel_cost", "labor_cost")
        }
        found |= {name: total(self.products.values(), name) for name in
                  ("dried", "packed", "unpacked", "cost_ingredients", "cost_energy", "cost_upkeep",
                   "cost_wear", "cost_labor", "cost_overhead", "cost_packaging", "cost_pack_labor",
                   "running_cost", "full_cost")}  # fmt: skip
        found["energy_used"] = total(counted, "energy_used")
        found["energy_cost"] = total(counted, "energy_cost")
        found["water_removed"] = total(done, "water_removed")
        found["shrinkage"] = total(self.counts, "cost")
        there = self.market_packs.values()
        found["revenue"] = total(self.uses, "revenue") + total(there, "revenue")
        sales = [use for use in self.uses if use["sold"]]
        found["profit"] = total(sales, "profit") + total(there, "profit")
        found["in_process_cost"] = total(
            (load for load in self.loads.values() if not load["finished"] | load["lost"]),
            "cost_ingredients",
        )
        found |= self._failed()
        found["spent"] = sum(
            found[name]
            for name in ("running_cost", "waiting_cost", "set_aside_cost", "in_process_cost",
                         "failed_running")
        )  # fmt: skip
        found["spent"] -= sum(lot["paid"] for lot in self.lots.values() if not lot["of_season"])
        found["estimated_share"] = div(
            total(self.products.values(), "estimated"), found["running_cost"]
        )
        left = total(sales, "left") + total(there, "left_over")
        taken = total(sales, "revenue") + total(there, "revenue")
        found["break_even_sales"] = div(stall(self), div(left, taken)) if left > 0 else NAN
        return found

    def _failed(self) -> Row:
        """What runs cost that failed and are over: a loss of the season by itself."""
        lost = [run for run in self.runs.values() if run["lost"]]
        loads = [load for load in self.loads.values() if load["lost"]]
        produce = total(loads, "cost_ingredients")
        running = produce + total(lost, "energy_cost") + total(lost, "upkeep_cost")
        time = total(loads, "labor_lot") + sum(
            at(run["labor"], self.rates["labor"]) for run in lost
        )
        return {"failed_produce": produce, "failed_running": running,
                "failed_cost": running + total(lost, "wear_cost") + time}  # fmt: skip


def total(rows: Iterable[Row], name: str) -> float:
    return sum(row[name] for row in rows)
