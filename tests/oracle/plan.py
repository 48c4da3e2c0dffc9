"""The plan, row by row in the order of the queue, by the contract's text."""

from __future__ import annotations

from collections import defaultdict

from oracle.reckon import Reckoning, Row, given, total, trays_area
from oracle.written import NAN, div, first, known, moment, most, number, up


def plan(season: Reckoning) -> dict[str, Row]:
    """Each takes what the rows ahead have left of shelf, bulk and what waits; after a row that is
    unknown, unknown."""
    records = season.head.get("plan", [])
    order = sorted(range(len(records)), key=lambda n: (
        "start" not in records[n], moment(records[n].get("start")) if "start" in records[n] else 0.0
    ))  # fmt: skip
    found: dict[str, Row] = {}
    shelf: dict[tuple[str, str, float], float] = {}
    lost: set[tuple[str, str]] = set()
    bulk = {p: most(row["unpacked"], 0.0) for p, row in season.products.items()}
    waits = {p: most(row["waiting"], 0.0) for p, row in season.products.items()}
    fresh_waits = dict(waits)
    unsure: set[str] = set()
    free: dict[str, float] = defaultdict(lambda: -1e9)
    for n in order:
        record = records[n]
        product, container = record["product"], record.get("container")
        dryer_id = record.get("dryer", next(iter(season.dryers)))
        dryer = season.dryers[dryer_id]
        count, net = given(record, "count"), given(record, "net")
        kind = (product, container or "", net)
        if kind not in shelf:
            there = [
                p for p in season.packs.values()
                if (p["product"], p["container"]) == kind[:2] and same(p["net"], net)
            ]  # fmt: skip
            shelf[kind] = total(there, "on_hand") if container and known(net) else NAN
        on_shelf = NAN if kind[:2] in lost else most(shelf[kind], 0.0)
        left = most(count - on_shelf, 0.0)
        content = left * net
        dried = most(content - bulk[product], 0.0)
        to_dry = dried * _ratio(season, product)
        prepped = most(to_dry - waits[product], 0.0)
        buy = div(prepped, _prep_yield(season, product))
        here = 0.0 if product in unsure else fresh_waits[product]
        runs = up(div(prepped + here, _run_weight(season, product, dryer_id)))
        each = _run_time(season, product) + given(dryer, "turnaround", 0.0)
        machine = runs * each
        elapsed = first(most(machine, div(runs, given(record, "pace"))), machine)
        start = moment(record.get("start"))
        begin = most(start, free[dryer_id])
        made = {
            "count_left": left, "dried_needed": dried, "prepped_needed": prepped,
            "buy_weight": buy, "buy_count": up(div(buy, _container(season, record))),
            "runs_needed": runs, "machine_time": machine, "finish": begin + elapsed / 24,
            "running_needed": _running(season, product, dryer_id, dried, runs)
            + left * season.packaging(container),
        }  # fmt: skip
        found[f"plan-{n + 1}"] = made
        free[dryer_id] = made["finish"]
        shelf[kind] = on_shelf - min(count, on_shelf) if known(count) and known(on_shelf) else NAN
        if not known(net):
            lost.add(kind[:2])
        bulk[product] = most(bulk[product] - content, 0.0)
        waits[product] = most(waits[product] - to_dry, 0.0)
        unsure.add(product)
    return found


def same(one: float, two: float) -> bool:
    return abs(one - two) < 1e-4


def _ratio(season: Reckoning, product: str) -> float:
    """The season's measured ratio, else from the recipe's water and target moisture."""
    recipe = div(1 - season.recipe(product, "target_moisture"), 1 - season.recipe(product, "water"))
    return first(season.products[product]["drying_ratio"], recipe)


def _prep_yield(season: Reckoning, product: str) -> float:
    both = [lot for lot in season.lots.values() if lot["product"] == product and lot["weighed"]]
    measured = div(total(both, "prepped"), total(both, "as_purchased"))
    return first(measured, season.recipe(product, "prep_yield"))


def _runs(season: Reckoning, product: str) -> list[Row]:
    """The done runs that held the product, each once."""
    held = {load["run"] for load in season.loads.values()
            if load["product"] == product and load["finished"]}  # fmt: skip
    return [run for key, run in season.runs.items() if key in held]


def _run_weight(season: Reckoning, product: str, dryer: str) -> float:
    weights = [run["weight"] for run in _runs(season, product) if run["dryer"] == dryer]
    machine = season.dryers[dryer]
    trays = season.recipe(product, "tray_loading") * trays_area(machine)
    wanted = first(div(sum(weights), len(weights)), trays)
    limit = given(machine, "load_limit")
    return min(wanted, limit) if known(limit) else wanted


def _run_time(season: Reckoning, product: str) -> float:
    hours = [run["hours"] for run in _runs(season, product) if known(run["hours"])]
    return first(div(sum(hours), len(hours)), season.recipe(product, "run_time"))


def _container(season: Reckoning, record: Row) -> float:
    """What one holds that it is bought in: named, else as last bought, else the recipe's first."""
    product = record["product"]
    if "buy" in record:
        return season.nominal(product, record["buy"])
    lots = [
        lot for lot in season.records["lots"] if lot["product"] == product and "container" in lot
    ]
    if not lots:
        return season.nominal(
            product, next(iter(season.recipes[product].get("containers", {})), None)
        )
    name = max(lots, key=lambda lot: moment(lot["date"]) if "date" in lot else 0.0)["container"]
    alike = [lot for lot in lots if lot["container"] == name and "weighed" in lot]
    count = sum(number(lot.get("weighed_count", lot.get("count", "1"))) for lot in alike)
    measured = div(sum(number(lot["weighed"]) for lot in alike), count)
    return first(measured, season.nominal(product, name))


def _running(season: Reckoning, product: str, dryer: str, dried: float, runs: float) -> float:
    """At the season's cost by weight, else energy and upkeep of the runs."""
    machine = season.dryers[dryer]
    energy = given(machine, "mean_power") * _run_time(season, product) * season.rates["electricity"]
    by_recipe = runs * (energy + season.upkeep(machine))
    return first(dried * season.products[product]["running_bulk"], by_recipe)
