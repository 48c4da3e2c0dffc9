"""What became of each weight, and what each dryer saved, by the contract's text."""

from __future__ import annotations

from oracle import markets
from oracle.mixing import saved
from oracle.reckon import KEPT, Reckoning, Row, at, given, total
from oracle.written import NAN, div, known, money, number

YEAR = 365.0


def at_price(weight: float, price: float) -> float:
    """A weight of 0 is worth 0 whatever its price."""
    return 0.0 if weight == 0 else weight * price


def products(season: Reckoning) -> None:
    """Add to each product what was sold, kept, saved, and its worth."""
    would_buy = season.pricing.get("would_buy", NAN)
    for product, row in season.products.items():
        own = {key: p for key, p in season.packs.items()
               if p["product"] == product and not p["carried"] and not p["mixed"]}  # fmt: skip
        sold = taken = got = 0.0
        for record, use in zip(season.records["uses"], season.uses, strict=True):
            if record.get("pack") in own:
                weight = given(record, "count", 1.0) * own[record["pack"]]["net"]
            elif record.get("product") == product:
                weight = number(record["weight"])
            else:
                continue
            if record["for"] not in KEPT:
                sold += weight
                got += use["got"]
            if record["for"] in ("household", "gift"):
                taken += weight
        for row_there in season.market_packs.values():
            if row_there["pack"] in own:
                sold += row_there["sold"] * own[row_there["pack"]]["net"]
                got += row_there["got"]
        there = sum(p["on_hand"] * p["net"] for p in own.values())
        price = row["retail_median"] * would_buy
        cost = row["running_per_packed"]
        row["sold_weight"], row["kept_weight"] = sold, taken + there
        row["instead_taken"], row["instead_on_hand"] = (
            at_price(taken, price),
            at_price(there, price),
        )
        row["instead"] = row["instead_taken"] + row["instead_on_hand"]
        row["saving_taken"] = row["instead_taken"] - at_price(taken, cost)
        row["saving_on_hand"] = row["instead_on_hand"] - at_price(there, cost)
        row["saving"] = row["saving_taken"] + row["saving_on_hand"]
        row["worth"] = div(got + row["instead"], sold + row["kept_weight"])
        done = [x for x in season.loads_of("product", product) if x["finished"]]
        held = [(season.runs[x["run"]], x["run_share"]) for x in done]
        row["machine_hours"] = sum((run["hours"] + run["turnaround"]) * part for run, part in held)
        row["earned"] = (sold + row["kept_weight"]) * (row["worth"] - cost)
        row["earned_per_machine_hour"] = div(row["earned"], row["machine_hours"])
        row["earned_per_run"] = div(row["earned"], sum(part for _, part in held))
        worked = row["hours"] + row["pack_hours"]
        row["earned_per_hour"] = div(row["earned"], worked) if worked > 0 else NAN
        row["gain"] = 0.0 if row["packed"] == 0 else row["worth"] - cost


def worth_drying(season: Reckoning) -> dict[str, Row]:
    """A place for each product, those first that earn most by hour of the machine."""
    names = ("machine_hours", "earned", "earned_per_machine_hour", "earned_per_run",
             "earned_per_hour")  # fmt: skip
    rows = [row for row in season.products.values() if known(row["earned_per_machine_hour"])]
    rows.sort(key=lambda row: -row["earned_per_machine_hour"])
    nothing = dict.fromkeys(names, NAN)
    rows += [nothing] * (len(season.products) - len(rows))
    return {f"worth-{n}": {name: row[name] for name in names} for n, row in enumerate(rows, 1)}


def dryers(season: Reckoning) -> dict[str, Row]:
    """Each dryer's runs, and what it has saved of its price."""
    beside = total_beside(season)
    dried = total(season.products.values(), "dried")
    found: dict[str, Row] = {}
    for key, dryer in season.dryers.items():
        runs = [run for run in season.runs.values() if run["dryer"] == key]
        done = [run for run in runs if run["done"]]
        before = given(dryer, "runs_before", 0.0)
        loads = [load for load in season.loads.values()
                 if load["finished"] and season.runs[load["run"]]["dryer"] == key]  # fmt: skip
        gained = sum(load["gained"] * season.products[load["product"]]["gain"] for load in loads)
        own = total(loads, "gained")
        row = found[key] = {
            "runs_done": before + len(done),
            "hours_run": total((r for r in runs if r["done"] or r["lost"]), "hours"),
            "energy_used": total(
                (r for r in runs if r["done"] or known(r["energy_used"])), "energy_used"
            ),
            "saved": gained - at_price(own, div(beside, dried)),
        }
        each = row["saving_per_run"] = div(row["saved"], len(done))
        row["payback_runs"] = div(money(dryer.get("price")), each) if each > 0 else NAN
        left = row["payback_runs"] - row["runs_done"]
        if "saved_before" in dryer:
            open_price = money(dryer.get("price")) - money(dryer["saved_before"]) - row["saved"]
            left = div(max(open_price, 0.0), each) if each > 0 else NAN
        row["payback_left"] = max(left, 0.0) if known(left) else NAN
        ends = [run["end"] for run in runs if known(run["end"])]
        time = div(row["payback_left"], given(dryer, "runs_per_year")) * YEAR
        row["payback_date"] = max(ends) + time if ends and row["payback_left"] > 0 else NAN
    return found


def paid_beside(season: Reckoning) -> Row:
    """What was paid that no product's running cost holds: overheads that are not put down as
    unpaid, the stall, and time where it was paid for."""
    paid = [x for x in season.head.get("overheads", []) if x.get("paid") != "false"]
    hours = total(season.lots.values(), "hours") + total(season.runs.values(), "labor")
    hours += total(season.packs.values(), "labor") + total(season.markets.values(), "hours")
    hours += sum(number(mix.get("labor", "0 h")) for mix in season.records["mixes"])
    for_time = season.head.get("rates", {}).get("labor_paid") == "true"
    return {
        "money_overheads": sum(money(each.get("cost")) for each in paid),
        "stall": markets.stall(season),
        "money_to_market": total(season.markets.values(), "travel_cost"),
        "money_labor": at(hours, season.rates["labor"]) if for_time else 0.0,
    }


def stall_ahead(season: Reckoning) -> float:
    """The stall on planned days on which nothing was sold there, where all sales have a day."""
    sales = [use for use in season.records["uses"] if use["for"] == "stall"]
    if season.markets:
        return 0.0  # none of them lies ahead
    if any("date" not in use for use in sales):
        return 0.0
    held = {use["date"] for use in sales}
    return float(season.pricing["stall"] * max(season.pricing["days"] - len(held), 0))


def total_beside(season: Reckoning) -> float:
    """All of it."""
    return float(sum(paid_beside(season).values()))


def season_of(season: Reckoning) -> Row:
    """Sums of the season that the worth of products gives, and its money."""
    known_ones = [
        found
        for product, row in season.products.items()
        if known(found := row["saving"] + saved(season, product))
    ]
    found = {"saving": sum(known_ones), **paid_beside(season)}
    found["money_stall"] = found.pop("stall") - stall_ahead(season)
    days = season.markets.values()
    found["market_difference"] = markets.difference(season)
    found["money_in"] = total((use for use in season.uses if use["sold"]), "paid")
    found["money_in"] += total(days, "taken_in")
    bought = [lot for lot in season.lots.values() if lot["of_season"]]
    counted = (run for run in season.runs.values() if run["done"] or known(run["energy_used"]))
    found |= {
        "money_bought": sum(
            money(each.get("price"))
            for mix in season.records["mixes"]
            for each in mix.get("bought", [])
        ),
        "money_purchases": total(bought, "purchase_cost"),
        "money_driving": total(bought, "travel_cost"),
        "money_packaging": total(season.products.values(), "cost_packaging"),
        "money_energy": total(counted, "energy_cost"),
        "money_upkeep": total(season.runs.values(), "upkeep_cost"),
        "money_fees": total((use for use in season.uses if use["sold"]), "fees")
        + total(days, "fees"),
        "money_tax": total((use for use in season.uses if use["sold"]), "tax")
        + total(days, "tax_in_it"),
    }
    out = [name for name in found if name not in ("saving", "money_in", "market_difference")]
    found["money_out"] = sum(found[name] for name in out)
    found["money_left"] = found["money_in"] - found["money_out"]
    return found
