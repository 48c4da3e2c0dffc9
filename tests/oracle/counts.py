"""Counts of the shelf, by the contract's text: the books on a day, against what was there.

Each day is taken by itself: what had come and gone by its evening.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from oracle.written import NAN, known, moment, number

if TYPE_CHECKING:
    from oracle.reckon import Reckoning, Row


def counted(season: Reckoning) -> list[Row]:
    """What each count found missing, taken off the packs and the bulk."""
    found: list[Row] = []
    in_order: dict[str, list[Row]] = {}
    for record in season.records["counts"]:
        row = {"record": record, "day": moment(record["date"])}
        found.append(row)
        in_order.setdefault(record.get("pack") or f"{record['product']}/", []).append(row)
    for rows in in_order.values():
        lost = 0.0
        for row in sorted(rows, key=lambda each: each["day"]):
            record = row["record"]
            if "pack" in record:
                pack = season.packs[record["pack"]]
                there = pack["count"] - _taken(season, record["pack"], row["day"]) - lost
                row["missing"] = there - number(record["counted"])
                row["missing_weight"] = row["missing"] * pack["net"]
                row["cost"] = row["missing"] * pack["full_each"]
                lost += row["missing"]
                pack["on_hand"] -= row["missing"]
            else:
                there = _bulk(season, record["product"], row["day"]) - lost
                row["missing"] = NAN
                row["missing_weight"] = there - number(record["weight"])
                product = season.products[record["product"]]
                row["cost"] = row["missing_weight"] * product["full_bulk"]
                lost += row["missing_weight"]
                product["unpacked"] -= row["missing_weight"]
    return found


def _by(when: float, day: float) -> bool:
    """Whether something was up to and with a day; what has none was before all."""
    return not known(when) or when // 1 <= day


def _taken(season: Reckoning, key: str, day: float) -> float:
    uses = (use for use in season.records["uses"] if use.get("pack") == key)
    used = sum(
        number(use["count"]) if "count" in use else 1.0
        for use in uses
        if _by(moment(use.get("date")), day)
    )
    there = (row for row in season.market_packs.values() if row["pack"] == key)
    return used + sum(float(row["gone"]) for row in there if row["day"] <= day)


def _bulk(season: Reckoning, product: str, day: float) -> float:
    """What was in bulk on a day's evening, had nothing gone missing."""
    weight = float(season.products[product]["carried"])
    for load in season.loads.values():
        run = season.runs[load["run"]]
        if load["product"] == product and run["done"]:
            weight += load["dry"] if _by(run["end"], day) else 0.0
            if load["again"]:
                weight -= load["wet"] if _by(run["start"], day) else 0.0
    for record in season.records["packs"]:
        if record["product"] == product and "carried" not in record:
            pack = season.packs[record["id"]]
            weight -= pack["count"] * pack["net"] if _by(moment(record.get("date")), day) else 0.0
    for use in season.records["uses"]:
        if use.get("product") == product and _by(moment(use.get("date")), day):
            weight -= number(use["weight"])
    return weight
