"""The plan, row by row in the order of the queue, by the contract's text."""

from __future__ import annotations

import datetime
import math
from collections import defaultdict

from oracle.reckon import Reckoning, Row, given, total, trays_area
from oracle.written import NAN, SIZE, div, first, known, least, moment, money, most, number, up


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
    free_of_two: dict[str, float] = defaultdict(lambda: -1e9)
    clocks = closed_days(season)
    for n in order:
        record = records[n]
        product, container = record["product"], record.get("container")
        dryer_id = record.get("dryer", next(iter(season.dryers)))
        dryer = season.dryers[dryer_id]
        count, net = given(record, "count"), given(record, "net")
        kind = (product, container or "", net)
        if kind not in shelf:
            there = [
                p
                for p in season.packs.values()
                if (p["product"], p["container"]) == kind[:2] and same(p["net"], net)
            ]
            shelf[kind] = total(there, "on_hand") if container and known(net) else NAN
        on_shelf = NAN if kind[:2] in lost else most(shelf[kind], 0.0)
        left = most(count - on_shelf, 0.0)
        content = left * net
        dried = most(content - bulk[product], 0.0)
        ratio = _ratio(season, product)
        to_dry = dried * ratio
        prepped = most(to_dry - waits[product], 0.0)
        planned = least(prepped, _to_be_had(season, record) * _prep_yield(season, product))
        planned = prepped if "at_most" not in record else planned
        short = div(prepped - planned, ratio) if "at_most" in record else 0.0
        buy = div(planned, _prep_yield(season, product))
        here = 0.0 if product in unsure else fresh_waits[product]
        run_weight = _run_weight(season, product, dryer_id)
        runs = up(div(planned + here, run_weight))
        each = _run_time(season, product) + given(dryer, "turnaround", 0.0)
        slot = first(most(each, div(1.0, given(record, "pace"))), each)
        start = moment(record.get("start"))
        lived = _walk(clocks[dryer_id], most(start, free[dryer_id]), runs, slot, 1)
        of_two = _walk(clocks[dryer_id], most(start, free_of_two[dryer_id]), runs, slot, 2)
        gone = moment(record["until"]) + 1 if "until" in record else NAN
        fit, fit_of_two = _by(lived, gone, runs), _by(of_two, gone, runs)
        over = most(planned + here - fit * run_weight, 0.0)
        gain = season.products[product]["worth"] - season.products[product]["running_per_packed"]
        less = most(planned + here - fit_of_two * run_weight, 0.0)
        empty = up(div(short, net)) if "at_most" in record else 0.0
        made = {
            "count_left": left, "dried_needed": dried, "prepped_needed": prepped,
            "buy_weight": buy, "buy_count": up(div(buy, _container(season, record))),
            "runs_needed": runs, "machine_time": runs * each,
            "begin": lived[0], "finish": lived[-1],
            "runs_fit": fit, "runs_over": runs - fit, "weight_over": over,
            "earned_over": div(over, ratio) * gain,
            "running_needed": _running(season, product, dryer_id, dried - short, runs)
            + (left - empty) * season.packaging(container),
            "dryer": dryer_id, "taken": lived, "slot": slot, "until": gone,
            "more": fit_of_two - fit,
            "gained": 0.0 if fit_of_two == fit else div(over - less, ratio) * gain,
        }  # fmt: skip
        found[f"plan-{n + 1}"] = made
        free[dryer_id], free_of_two[dryer_id] = lived[-1], of_two[-1]
        shelf[kind] = on_shelf - min(count, on_shelf) if known(count) and known(on_shelf) else NAN
        if not known(net):
            lost.add(kind[:2])
        bulk[product] = most(bulk[product] - content, 0.0)
        waits[product] = most(waits[product] - to_dry, 0.0)
        unsure.add(product)
    return found


def closed_days(season: Reckoning) -> dict[str, set[int]]:
    """The days on which each dryer is closed."""
    found: dict[str, set[int]] = defaultdict(set)
    for record in season.head.get("closed", []):
        dryer = record.get("dryer", next(iter(season.dryers)))
        found[dryer] |= {*range(int(moment(record["from"])), int(moment(record["to"])) + 1)}
    return found


def _walk(closed: set[int], begin: float, runs: float, slot: float, side: int) -> list[float]:
    """When a row begins, and each time that ``side`` runs end, going from open day to open day."""
    now = _open(closed, begin)
    found = [now]
    if not (known(begin) and known(runs) and known(slot)):
        return [now, NAN]
    for _ in range(math.ceil(runs / side)):
        left = slot / 24
        while left > _A_MOMENT:
            now = _open(closed, now)
            today = min(left, math.floor(now + _A_MOMENT) + 1 - now)
            now, left = now + today, left - today
        found.append(now)
    return found


_A_MOMENT = 1e-7


def _open(closed: set[int], now: float) -> float:
    """The first moment from then on at which it is open."""
    while known(now) and math.floor(now + _A_MOMENT) in closed:
        now = math.floor(now + _A_MOMENT) + 1.0
    return now


def _by(ends: list[float], gone: float, runs: float) -> float:
    """How many of the runs ended by then."""
    if not (known(gone) and known(ends[-1])):
        return NAN
    turns = len([end for end in ends[1:] if end <= gone + _A_MOMENT])
    side = 1 if len(ends) - 1 == runs else 2
    return min(runs, float(turns * side))


def _to_be_had(season: Reckoning, record: Row) -> float:
    """The most that is to be had, as bought."""
    text = record.get("at_most", "")
    amount, _, word = text.partition(" ")
    if not word or word in SIZE:
        return number(text) if word else NAN
    used = _bought_in(season, record)
    each = _container(season, record) if word == used else season.nominal(record["product"], word)
    return float(amount) * each


def weeks(season: Reckoning, rows: dict[str, Row]) -> dict[str, Row]:
    """Hours of each dryer in each week, from those in which its rows were under way."""
    plan, closed = season.head.get("plan", []), season.head.get("closed", [])
    starts = [moment(row["start"]) for row in plan if "start" in row]
    if not starts or not (closed or any("until" in row for row in plan)):
        return {}
    ends = [moment(row["until"]) for row in plan if "until" in row]
    ends += [moment(each["to"]) for each in closed]
    many = min(26, 4 * (int((max(starts + ends) - min(starts)) // 28) + 2))
    only = next(iter(season.dryers))
    used = {row.get("dryer", only) for row in (*plan, *closed)}
    monday = min(starts) - (datetime.date.fromordinal(int(min(starts))).weekday())
    found: dict[str, Row] = {}
    for dryer in (each for each in season.dryers if each in used):
        shut = closed_days(season)[dryer]
        mine = [row for row in rows.values() if row["dryer"] == dryer]
        taken = [stretch for row in mine for stretch in _stretches(row["taken"], shut)]
        sure = all(known(row["taken"][-1]) for row in mine)
        for n in range(many + 1):
            first, last = monday + 7 * n, monday + 7 * n + 7 if n < many else math.inf
            hours = 24 * sum(most(min(b, last) - max(a, first), 0.0) for a, b in taken)
            off = 24.0 * len([day for day in shut if first <= day < last]) if n < many else NAN
            found[f"week-{len(found) + 1}"] = {
                "taken": hours if sure else NAN,
                "closed_hours": off,
                "free": (168 - hours - off) if sure else NAN,
            }
    return found


def _stretches(ends: list[float], closed: set[int]) -> list[tuple[float, float]]:
    """The open stretches between the begin of a row and its end."""
    if not known(ends[-1]):
        return []
    begin, end, found = ends[0], ends[-1], []
    while begin < end - _A_MOMENT:
        begin = _open(closed, begin)
        stop = min(end, math.floor(begin + _A_MOMENT) + 1.0)
        if begin < end:
            found.append((begin, stop))
        begin = stop
    return found


def another(season: Reckoning, rows: dict[str, Row]) -> dict[str, Row]:
    """What one more dryer beside another would bring."""
    record = season.head.get("another", {})
    mine = [
        row for row in rows.values() if row["dryer"] == record.get("like") and known(row["until"])
    ]
    runs = total(mine, "more") if mine else NAN
    year = total(mine, "gained") if mine else NAN
    each = div(year, runs) if year > 0 else NAN
    return {"another": {"runs_more": runs, "earned_year": year,
                        "payback_runs": div(money(record.get("price")), each)}}  # fmt: skip


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


def _bought_in(season: Reckoning, record: Row) -> str | None:
    """What it is bought in: named, else as last bought, else the recipe's first."""
    product = record["product"]
    if "buy" in record:
        return str(record["buy"])
    lots = _by_the_container(season, product)
    if not lots:
        return next(iter(season.recipes[product].get("containers", {})), None)
    last = max(lots, key=lambda lot: moment(lot["date"]) if "date" in lot else 0.0)
    return str(last["container"])


def _by_the_container(season: Reckoning, product: str) -> list[Row]:
    lots = season.records["lots"]
    return [lot for lot in lots if lot["product"] == product and "container" in lot]


def _container(season: Reckoning, record: Row) -> float:
    """What one holds that it is bought in."""
    product, name = record["product"], _bought_in(season, record)
    if "buy" in record:
        return season.nominal(product, name)
    alike = [
        lot
        for lot in _by_the_container(season, product)
        if lot["container"] == name and "weighed" in lot
    ]
    count = sum(number(lot.get("weighed_count", lot.get("count", "1"))) for lot in alike)
    measured = div(sum(number(lot["weighed"]) for lot in alike), count)
    return first(measured, season.nominal(product, name))


def _running(season: Reckoning, product: str, dryer: str, dried: float, runs: float) -> float:
    """At the season's cost by weight, else energy and upkeep of the runs."""
    machine = season.dryers[dryer]
    energy = given(machine, "mean_power") * _run_time(season, product) * season.rates["electricity"]
    by_recipe = runs * (energy + season.upkeep(machine))
    return first(dried * season.products[product]["running_bulk"], by_recipe)
