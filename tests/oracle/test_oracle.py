"""The program against a plain reckoning of its contract, over made-up seasons of every kind."""

from __future__ import annotations

import math
from collections import Counter
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml
from seasons import PRODUCTS, Season, sample_seasons
from seasons.as_written import as_people_write
from seasons.forgotten import with_forgotten_weights
from seasons.losses import with_losses
from seasons.mixes import MIXED
from seasons.product_data import with_product_data

from oracle import mixing, worth
from oracle.outlook import scenarios
from oracle.plan import another, plan, weeks
from oracle.reckon import Reckoning, Row
from oracle.written import SIZE
from reportgen.algebra.numbers import Numbers
from reportgen.program import read

pytestmark = pytest.mark.seasons

RECIPES = Path(__file__).parents[2] / "recipes"
MANY = 60
EPOCH = date(1899, 12, 30).toordinal()
"""The day that a spreadsheet counts from."""


class Units:
    """What a figure is shown in."""

    def __init__(self, season: Season) -> None:
        units = season.head["units"]
        self.fresh, self.dried = SIZE[units["fresh"]], SIZE[units["dried"]]
        self.distance = SIZE["mile" if units["fresh"] in ("lb", "oz") else "km"]

    def shown(self, value: float, kind: str) -> float:
        by = {"": 1, "distance": 1 / self.distance,
              "fresh": 1 / self.fresh, "dried": 1 / self.dried,
              "by_fresh": self.fresh, "by_dried": self.dried}  # fmt: skip
        return value * by[kind]


# What the contract shows in which unit; what is not named is a plain number, money, kWh or hours.
FRESH = {"lots": "as_purchased prepped loaded waiting", "runs": "water_removed",
         "loads": "water_removed as_purchased_share", "products": "loaded in_process waiting",
         "packs": "fresh_equivalent", "plan": "prepped_needed buy_weight weight_over",
         "season": "as_purchased prepped waiting loaded water_removed"}  # fmt: skip
DRIED = {"mixes": "weight_in weight_out loss left",
         "products": "dried carried packed unpacked packed_good sold_weight kept_weight",
         "packs": "dried_content", "counts": "missing_weight",
         "plan": "dried_needed", "season": "dried packed unpacked"}  # fmt: skip
BY_FRESH = {"lots": "cost_per_prepped"}
BY_DRIED = {"mixes": "running_by_weight full_by_weight",
            "products": "running_bulk full_bulk running_per_packed full_per_packed retail_median "
                        "retail_lowest worth", "offers": "unit_price",
            "scenarios": "running_per_packed full_per_packed"}  # fmt: skip
DISTANCE = {"lots": "distance", "loads": "distance", "products": "distance"}
PLAIN = {
    "lots": "hours purchase_cost travel_cost labor_cost prep_yield",
    "runs": "energy_used energy_cost upkeep_cost wear_cost done specific_energy tray_loading",
    "loads": "dried_yield drying_ratio moisture_left moisture_left_low moisture_left_high "
    "run_share cost_ingredients cost_energy cost_upkeep cost_wear cost_labor "
    "cost_travel hours",
    "products": "hours cost_travel energy_used overall_yield drying_ratio cost_ingredients "
    "cost_energy cost_upkeep cost_wear "
    "cost_labor cost_overhead cost_packaging cost_pack_labor running_cost full_cost "
    "running_to_retail full_to_retail offers_count instead instead_taken "
    "instead_on_hand saving saving_taken saving_on_hand machine_hours earned "
    "earned_per_machine_hour earned_per_run earned_per_hour",
    "worth_drying": "machine_hours earned earned_per_machine_hour earned_per_run earned_per_hour",
    "plan": "count_left buy_count runs_needed machine_time begin finish running_needed runs_fit "
    "runs_over earned_over",
    "weeks": "taken free closed_hours",
    "another": "runs_more earned_year payback_runs",
    "dryers": "runs_done hours_run energy_used saved saving_per_run payback_runs payback_left "
    "payback_date",
    "offers": "ours_to_theirs",
    "packs": "running_each full_each on_hand",
    "mixes": "running_cost full_cost brought earned hours earned_per_hour",
    "uses": "revenue cost_out profit",
    "counts": "missing cost",
    "markets": "expected takings difference fees tax_in_it travel_cost labor_cost cost_out "
    "running_out left left_full left_per_hour",
    "market_packs": "sold price paid revenue cost_out profit",
    "prices": "running_each full_each price_asked price_floor retail_equivalent break_even_count",
    "scenarios": "running_to_retail",
    "season": "purchase_cost travel_cost labor_cost energy_used energy_cost cost_ingredients "
    "cost_energy cost_upkeep cost_wear cost_labor cost_overhead cost_packaging "
    "cost_pack_labor running_cost full_cost revenue profit in_process_cost spent "
    "estimated_share break_even_sales saving shrinkage failed_produce failed_running "
    "failed_cost money_in "
    "money_purchases money_bought money_driving money_packaging money_energy "
    "money_upkeep money_to_market market_difference money_overheads money_stall "
    "money_fees money_tax money_labor money_out money_left",
}


def compared() -> list[tuple[str, str, str]]:
    kinds = (("fresh", FRESH), ("dried", DRIED), ("by_fresh", BY_FRESH), ("by_dried", BY_DRIED),
             ("distance", DISTANCE), ("", PLAIN))  # fmt: skip
    return [(table, name, kind) for kind, names in kinds for table, text in names.items()
            for name in text.split()]  # fmt: skip


@cache
def shipped() -> dict[str, Row]:
    """The recipes that ship, as plain texts."""
    return {path.stem: yaml.load(path.read_text(), yaml.BaseLoader)
            for path in RECIPES.glob("*.yaml") if path.stem in PRODUCTS}  # fmt: skip


def product_data(season: Season) -> dict[str, Row]:
    """The shipped recipes, and over them, key by key, the season's own."""
    found = dict(shipped())
    for path, own in season.files.items():
        if path.startswith("recipes/"):
            product = path.removeprefix("recipes/").removesuffix(".yaml")
            held = found.get(product, {})
            own_ones = own.get("containers", {})
            kept = {k: v for k, v in held.get("containers", {}).items() if k not in own_ones}
            containers = kept | own_ones
            found[product] = held | own | {"containers": containers}
    return found


def tables(season: Season, units: Units) -> dict[str, dict[str, Row]]:
    """What the oracle says, by table and the contract's row keys."""
    files = {path: held for path, held in season.files.items() if not path.startswith("recipes/")}
    found = Reckoning(files, product_data(season))
    worth.products(found)
    for row in (*found.loads.values(), *found.products.values()):
        row["cost_travel"] = row["travel"]

    def net(weight: float) -> str:
        shown = Decimal(repr(units.shown(weight, "dried")))
        text = f"{shown.quantize(Decimal('0.000001'), ROUND_HALF_UP):f}"
        return text.rstrip("0").rstrip(".") if "." in text else text

    planned = plan(found)
    return {
        "lots": found.lots, "runs": found.runs, "loads": found.loads, "products": found.products,
        "packs": found.packs, "mixes": mixing.rows(found), "offers": found.offers,
        "scenarios": scenarios(found),
        "uses": {f"use-{n}": use for n, use in enumerate(found.uses, 1)},
        "counts": {f"count-{n}": row for n, row in enumerate(found.counts, 1)},
        "markets": found.markets, "market_packs": found.market_packs,
        "prices": {f"{p}/{c}/{net(n)}": row for (p, c, n), row in found.prices.items()},
        "season": {"season": found.season() | worth.season_of(found)},
        "worth_drying": worth.worth_drying(found),
        "dryers": worth.dryers(found), "plan": planned,
        "weeks": weeks(found, planned), "another": another(found, planned),
    }  # fmt: skip


def agree(ours: Any, theirs: float) -> bool:
    if ours is None or math.isnan(theirs):
        return ours is None and math.isnan(theirs)
    return math.isclose(float(ours), float(theirs), rel_tol=1e-9, abs_tol=1e-7)


@cache
def made(n: int) -> Season:
    (season,) = sample_seasons(1, 500 + n, "small" if n % 3 else "medium")
    season = with_forgotten_weights(Random(n), season) if n % 2 else season
    if n % 3 == 0:
        _dear_shops(season)
        _in_a_hurry(season)
    season = with_losses(Random(n), season) if n % 5 < 2 else season
    season = as_people_write(Random(n), season, about=n % 8 > 5) if n % 4 > 1 else season
    return with_product_data(Random(n), season)


def _dear_shops(season: Season) -> None:
    """Every rate, every run its hours and energy, every lot a price, every product one of shops, so
    dear that a dryer pays for itself; time is paid in some of them only, for it takes most of what
    is saved."""
    head, coin = season.head, season.head["currency"]
    every = {"electricity": f"0.2 {coin}/kWh", "labor": f"9 {coin}/h", "travel": f"0.5 {coin}/km"}
    head["rates"] = every | head.get("rates", {})
    if len(season.table("lots")) % 3:
        head["rates"].pop("labor_paid", None)
    head["pricing"] = head.get("pricing", {}) | {"would_buy": "100 %"}
    for row in season.table("lots"):
        if "price" not in row.record:
            row.record["grown"] = "true"
    for row in season.table("markets"):
        row.record["prices"] = dict.fromkeys(row.record.get("took", {}), f"60 {coin}")
        row.record.pop("takings", None)
    for dryer in head["dryers"]:
        dryer |= {"price": f"90000 {coin}", "runs_per_year": "40 run", "mean_power": "700 W"}
    for row in season.table("runs"):
        if not {"duration", "ended"} & {*row.record}:
            row.record["duration"] = "20 h"
    made = {row.record["product"] for row in season.table("mixes")}
    mixed = [product for product in MIXED if product in made]
    head["offers"] = [
        {"id": f"dear-{product}", "product": product, "net": "100 g",
         "price": f"95 {head['currency']}"} for product in (*PRODUCTS, *mixed)
    ]  # fmt: skip


def _in_a_hurry(season: Season) -> None:
    """Much more of what is packed, within a few days, and a second dryer."""
    head = season.head
    dryer = head["dryers"][0]["id"]
    packs = [pack for pack in season.records("packs") if {"net", "container", "from"} <= {*pack}]
    rows = [
        {"product": pack["product"], "container": pack["container"], "net": pack["net"],
         "dryer": dryer, "count": "400", "start": "2026-01-05", "until": "2026-01-10"}
        for pack in packs[:1]
    ]  # fmt: skip
    head["plan"] = head.get("plan", []) + rows
    head["another"] = {"like": dryer, "price": f"2500 {head['currency']}"}


@cache
def reckoned(n: int) -> dict[str, dict[str, Row]]:
    """What the oracle says of a season."""
    return tables(made(n), Units(made(n)))


@pytest.mark.parametrize("n", range(MANY))
def test_the_program_says_what_the_contract_says(tmp_path: Path, n: int) -> None:
    done = read(made(n).write(tmp_path))
    assert done.numbers is not None, done.problems
    assert differences(made(n), done.numbers, n) == []


def test_the_seasons_are_written_as_people_write() -> None:
    met: Counter[str] = Counter()
    for n in range(MANY):
        season = made(n)
        prices = [lot.get("price", "") for lot in season.records("lots")]
        loads = [load for run in season.records("runs") for load in run.get("loads", [])]
        rates = season.head["rates"].get("electricity")
        uses = zip(season.records("uses"), reckoned(n)["uses"].values(), strict=True)
        met["prices per"] += any(" per " in price for price in prices)
        met["cents"] += "cents" in str(rates)
        met["by time of use"] += isinstance(rates, list)
        met["gross and tare"] += any(isinstance(load.get("wet"), dict) for load in loads)
        met["a run weighed together"] += any("dry" in run for run in season.records("runs"))
        met["all that was left"] += sum(
            use.get("weight") == "rest" and not math.isnan(row["cost_out"]) for use, row in uses
        )
        met["lost in a failed run"] += reckoned(n)["season"]["season"]["failed_cost"] > 0
        met["about"] += any("~" in str(load) for load in loads)
        met["a lot of last season"] += any(
            "carried" in lot and not math.isnan(row["cost_per_prepped"])
            for lot, row in zip(season.records("lots"), reckoned(n)["lots"].values(), strict=True)
        )
    assert len(met) == 9 and all(many >= 5 for many in met.values()), met


def test_each_quantity_is_known_in_some_seasons() -> None:
    tried: Counter[tuple[str, str]] = Counter()
    for n in range(MANY):
        for table, name, _ in compared():
            rows = reckoned(n)[table].values()
            tried[table, name] += sum(not math.isnan(row[name]) for row in rows)
    silent = [(table, name) for table, name, _ in compared() if tried[table, name] < 3]
    assert not silent, "known in hardly any season"


def differences(season: Season, numbers: Numbers, n: int) -> list[object]:
    units = Units(season)
    theirs = reckoned(n)
    wrong: list[object] = []
    for table, name, kind in compared():
        keys = [*map(str, numbers.cells[table]["key"])]
        assert {*keys} == {*theirs[table]}, (n, table)
        for row, key in enumerate(keys):
            one, two = numbers.value(table, name, row), theirs[table][key][name]
            two = units.shown(float(two), kind)
            if name in ("begin", "finish", "payback_date"):
                two -= EPOCH
            if not agree(one, two):
                wrong.append((n, table, name, key, one, two))
    return wrong
