"""The co-op's plan for the winter, lived through minute by minute, beside ``reckoned.py``.

What is to be made follows from the files; then each dryer is followed through its days: on a
closed day nothing moves, and a run that is cut goes on after it. Every row here is of a product of
its own.
"""

from __future__ import annotations

import math
import statistics
from collections import defaultdict
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

from samples.reckoned import Season, amount, weight

Row = dict[str, Any]
MINUTE, DAY, WEEK = timedelta(minutes=1), timedelta(days=1), timedelta(weeks=1)


def up(quotient: float) -> int:
    return math.ceil(round(quotient, 9))


class Plan:
    """The plan's rows with what they come to, and what each dryer does in each week."""

    def __init__(self, season: Season) -> None:
        self.season = season
        self.records: list[Row] = season.head["plan"]
        assert len({each["product"] for each in self.records}) == len(self.records)
        self.closed = {
            (each["dryer"], date.fromisoformat(each["from"]) + n * DAY)
            for each in season.head["closed"]
            for n in range(self.days(each["from"], each["to"]))
        }
        self.first = min(datetime.fromisoformat(each["start"]) for each in self.records)
        self.taken: dict[tuple[str, date], int] = defaultdict(int)
        self.rows = [self.to_make(each) for each in self.records]
        for dryer in season.dryers:
            self.live(dryer)

    @staticmethod
    def days(first: str, last: str) -> int:
        return (date.fromisoformat(last) - date.fromisoformat(first)).days + 1

    # --- what is to be made -----------------------------------------------------------------------

    def on_shelf(self, pack: Row) -> int:
        left = int(pack.get("count", "1")) - self.season.mixes.opened(pack["id"])
        for use in self.season.rows["uses"]:
            left -= int(use.get("count", "1")) if use.get("pack") == pack["id"] else 0
        for market in self.season.rows["markets"]:
            left -= sum(gone for key, gone, _, _ in self.season.went(market) if key == pack["id"])
        return left

    def lots(self, product: str) -> list[Row]:
        return [lot for lot in self.season.lots.values() if lot["product"] == product]

    def finished(self, product: str) -> list[Row]:
        loads = self.season.loads
        return [each for each in loads if each["product"] == product and each["dry"] is not None]

    def ratio(self, product: str) -> float:
        own = self.finished(product)
        dried = sum(x["dry"] - (x["wet"] if "again" in x else 0) for x in own)
        return float(sum(x["wet"] for x in own if "again" not in x) / dried)

    def waiting(self, product: str) -> float:
        left = 0.0
        for lot in (each for each in self.lots(product) if "prepped" in each):
            left += weight(lot["prepped"])
            left -= sum(weight(lot.get(name, "0 g")) for name in ("set_aside", "lost"))
            own = (x for x in self.season.loads if x["lot"] == lot["id"] and "again" not in x)
            left -= sum(each["wet"] for each in own)
        return max(left, 0.0)

    def prep_yield(self, product: str) -> float:
        both = [lot for lot in self.lots(product) if {"weighed", "prepped"} <= {*lot}]
        if not both:
            return amount(self.season.product(product)["prep_yield"]["value"])
        return sum(weight(x["prepped"]) for x in both) / sum(weight(x["weighed"]) for x in both)

    def holds(self, product: str, container: str) -> float:
        """What one container holds that a product was bought in and weighed."""
        own = [x for x in self.lots(product) if x.get("container") == container and "weighed" in x]
        return sum(self.season.grams(x["weighed"]) for x in own) / sum(int(x["count"]) for x in own)

    def whole_runs(self, product: str, dryer: str | None = None) -> list[str]:
        """Runs that are done and held it, in one dryer or in any."""
        runs = dict.fromkeys(load["run"] for load in self.finished(product))
        return [run for run in runs if dryer in (None, self.season.dryer(run)["id"])]

    def run_weight(self, record: Row) -> float:
        dryer = self.season.dryers[record["dryer"]]
        before = [
            sum(x["wet"] for x in self.season.loads if x["run"] == run)
            for run in self.whole_runs(record["product"], record["dryer"])
        ]
        area = int(dryer["trays"]) * float(dryer["tray_area"].split()[0])
        loading = float(self.season.product(record["product"])["tray_loading"]["value"].split()[0])
        wanted = statistics.fmean(before) if before else loading * area * 1000
        return min(wanted, amount(dryer["load_limit"]))

    def slot(self, record: Row) -> float:
        """Hours from run to run."""
        turnaround = amount(self.season.dryers[record["dryer"]].get("turnaround", "0 h"))
        hours = statistics.fmean(map(self.season.hours, self.whole_runs(record["product"])))
        pace = float(record["pace"].split()[0]) if "pace" in record else math.inf
        return max(hours + turnaround, 7 * 24 / pace)

    def to_make(self, record: Row) -> Row:
        product, net = record["product"], self.season.grams(record["net"])
        same = [
            pack
            for pack in self.season.rows["packs"]
            if (pack["product"], pack["container"]) == (product, record["container"])
            and self.season.grams(pack["net"]) == net
        ]
        count_left = max(int(record["count"]) - sum(map(self.on_shelf, same)), 0)
        dried = max(count_left * net - max(self.season.of_product(product)["unpacked"], 0), 0)
        ratio, waiting = self.ratio(product), self.waiting(product)
        needed = planned = max(dried * ratio - waiting, 0)
        if "at_most" in record:
            many, container = record["at_most"].split()
            most = float(many) * self.holds(product, container) * self.prep_yield(product)
            planned = min(needed, most)
        short = (needed - planned) / ratio
        run_weight = self.run_weight(record)
        return {
            "count_left": count_left, "dried_needed": dried, "prepped_needed": needed / 1000,
            "prepped_planned": planned / 1000, "run_weight": run_weight / 1000,
            "count_filled": count_left - up(short / net), "to_run": (planned + waiting) / 1000,
            "runs_needed": up((planned + waiting) / run_weight), "slot": self.slot(record),
        }  # fmt: skip

    # --- the dryers, minute by minute -------------------------------------------------------------

    def live(self, dryer: str) -> None:
        mine = [n for n, each in enumerate(self.records) if each["dryer"] == dryer]
        mine.sort(key=lambda n: self.records[n]["start"])
        clock = self.first
        for n in mine:
            record, row = self.records[n], self.rows[n]
            ends, clock, row["begin"] = self.ends(record, row["runs_needed"], row["slot"], clock)
            row["finish"] = clock
            self.judge(record, row, [end for end in ends if self.in_time(record, end)])

    def ends(
        self, record: Row, turns: int, slot: float, clock: datetime
    ) -> tuple[list[datetime], datetime, datetime]:
        """When each of so many turns ends; when all are done; when the first began."""
        clock = max(clock, datetime.fromisoformat(record["start"]))
        ends, began, dryer = [], None, record["dryer"]
        for _ in range(turns):
            left = round(slot * 60)
            while left:
                if (dryer, clock.date()) not in self.closed:
                    began = began or clock
                    left -= 1
                    week = clock.date() - clock.weekday() * DAY
                    self.taken[dryer, week] += 1
                clock += MINUTE
            ends.append(clock)
        assert began is not None
        return ends, clock, began

    @staticmethod
    def in_time(record: Row, end: datetime) -> bool:
        return "until" in record and end <= datetime.fromisoformat(record["until"]) + DAY

    def judge(self, record: Row, row: Row, ends: list[datetime]) -> None:
        if "until" not in record:
            return
        row["runs_fit"], row["runs_over"] = len(ends), row["runs_needed"] - len(ends)
        row["weight_over"] = max(row["to_run"] - len(ends) * row["run_weight"], 0)
        if row["weight_over"]:
            row["earned_over"] = self.gain(record["product"], row["weight_over"])

    # --- money ------------------------------------------------------------------------------------

    def gain(self, product: str, kilograms: float) -> float:
        """What fresh weight is worth when it is dried, above its running cost."""
        season, made = self.season, self.season.of_product(product)
        packs = {x["id"]: x for x in season.rows["packs"] if x["product"] == product}
        fees = season.fees()
        got = sold = 0.0
        for market in season.rows["markets"]:
            for key, _, many, price in season.went(market):
                if key in packs and market["channel"] == "stall":
                    got += many * price * (1 - fees)
                    sold += many * season.grams(packs[key]["net"])
        kept = made["kept_taken"] + sum(
            self.on_shelf(pack) * season.grams(pack["net"]) for pack in packs.values()
        )
        shops = [
            (float(each["price"].split()[0]) + float(each.get("shipping", "0").split()[0]))
            / season.grams(each["net"])
            for each in season.head["offers"]
            if each["product"] == product
        ]
        bought = season.grams(season.head["pricing"]["would_buy"])
        worth = (got + kept * statistics.median(shops) * bought) / (sold + kept)
        dried = kilograms * 1000 / self.ratio(product)
        return float(dried * (worth - made["running_per_packed"]))

    # --- weeks, and one more dryer ----------------------------------------------------------------

    def weeks(self, weeks: int) -> Iterator[tuple[str, date, float, float]]:
        """Of each dryer and week the hours taken and closed."""
        monday = self.first.date() - self.first.weekday() * DAY
        for dryer in self.season.dryers:
            for n in range(weeks):
                week = monday + n * WEEK
                shut = sum((dryer, week + day * DAY) in self.closed for day in range(7))
                yield dryer, week, self.taken[dryer, week] / 60, shut * 24.0

    def another(self) -> Row:
        """One more like the one that is named: two runs in each turn, by themselves."""
        held, taken = self.season.head["another"], dict(self.taken)
        (n,) = (n for n, x in enumerate(self.records) if x["dryer"] == held["like"])
        record, row = self.records[n], self.rows[n]
        turns = up(row["runs_needed"] / 2)
        ends, _, _ = self.ends(record, turns, row["slot"], self.first)
        fit = min(2 * sum(self.in_time(record, end) for end in ends), row["runs_needed"])
        over = max(row["to_run"] - fit * row["run_weight"], 0)
        more, earned = (
            fit - row["runs_fit"],
            self.gain(record["product"], row["weight_over"] - over),
        )
        self.taken = defaultdict(int, taken)
        price = float(held["price"].split()[0])
        return {"runs_more": more, "earned_year": earned, "payback_runs": price / (earned / more),
                "payback_years": price / earned}  # fmt: skip
