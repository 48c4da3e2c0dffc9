"""Market days, by the contract's text: what was taken there, what the purse held, what is left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from oracle.written import NAN, div, known, moment, money, number

if TYPE_CHECKING:
    from oracle.reckon import Reckoning, Row


def markets(season: Reckoning) -> dict[str, Row]:
    """Each day, taken off the packs; what became of each pack goes to ``season.market_packs``."""
    return {record["id"]: _day(season, record) for record in season.records["markets"]}


def _day(season: Reckoning, record: Row) -> Row:
    where, when = season.channels[record["channel"]], moment(record["date"])
    packs = [_pack(season, record, key, where, when) for key in record.get("took", {})]
    expected = sum(row["paid"] for row in packs)
    purse = [money(each) for each in record.get("takings", {}).values()]
    takings = sum(purse) if purse else NAN
    taken = takings if purse else expected
    hours = number(record.get("labor", "0 h"))
    driven = number(record.get("travel", "0 km"))
    row: Row = {
        "day": when, "expected": expected, "takings": takings, "difference": takings - expected,
        "counted": bool(purse), "taken_in": taken, "tax_in_it": taken * (1 - where["net"]),
        "fees": taken * where["fees"], "fee": money(record.get("fee", "0 x")), "hours": hours,
        "travel_cost": driven * season.rates["travel"] if driven else 0.0,
        "labor_cost": hours * season.rates["labor"] if hours else 0.0,
        "cost_out": sum(row["cost_out"] for row in packs),
        "running_out": sum(row["running_out"] for row in packs),
    }  # fmt: skip
    brought = taken - sum(row[name] for name in ("tax_in_it", "fees", "fee", "travel_cost"))
    row["left"] = brought - row["running_out"]
    row["left_full"] = brought - row["cost_out"] - row["labor_cost"]
    row["left_per_hour"] = div(row["left"], hours)
    return row


def _pack(season: Reckoning, record: Row, key: str, where: Row, when: float) -> Row:
    pack = season.packs[key]
    took, back, tasted = (
        number(record.get(name, {}).get(key, "0")) for name in ("took", "back", "samples")
    )
    gone = took - back
    sold = gone - tasted
    if key in record.get("prices", {}):
        price = money(record["prices"][key])
    else:
        price = season.asked(pack, when) * (1 - where["discount"])
    paid = sold * price if sold else 0.0
    got = paid * (where["net"] - where["fees"])
    pack["on_hand"] -= gone
    row = season.market_packs[f"{record['id']}/{key}"] = {
        "pack": key, "day": when, "gone": gone, "sold": sold, "price": price, "paid": paid,
        "revenue": paid * where["net"], "got": got,
        "cost_out": gone * pack["full_each"], "running_out": gone * pack["running_each"],
        "profit": got - sold * pack["full_each"], "left_over": got - sold * pack["running_each"],
    }  # fmt: skip
    return row


def stall(season: Reckoning) -> float:
    """What the stall costs: the fees of market days where there are any, else its days."""
    if season.markets:
        return float(sum(row["fee"] for row in season.markets.values()))
    return float(season.pricing["stall"] * season.pricing["days"])


def difference(season: Reckoning) -> float:
    """What the purses held above what was to be in them, as far as they were counted."""
    counted = (row for row in season.markets.values() if known(row["takings"]))
    return float(sum(row["difference"] for row in counted))
