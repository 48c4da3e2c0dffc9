"""Writes a season anew as people do: gross and tare, about, prices per, cents, notes, all that was
left, electricity by time of use."""

from __future__ import annotations

from random import Random
from typing import Any

from seasons.form import Season
from seasons.pen import Pen, day, number

WEIGHTS = {
    "lots": ("weighed", "prepped", "set_aside", "lost"),
    "loads": ("wet", "dry"),
    "packs": ("net",),
    "uses": ("weight",),
}


def as_people_write(rng: Random, season: Season, about: bool = False) -> Season:
    """The same season in other words, but for what was left in bulk and the price of hours;
    ``about``: some weights as estimates."""
    result, pen = season.copied(), Pen(rng)
    pen.currency = season.head["currency"]
    _rates(pen, result.head)
    for table, names in WEIGHTS.items():
        for row in result.table(table):
            for name in names:
                if isinstance(row.record.get(name), str):
                    row.record[name] = _weight(pen, row.record[name], about)
            if pen.maybe(0.2):
                row.record["note"] = "as it was told"
    for row in result.table("lots"):
        price = row.record.get("price", "")
        if "/" in price and pen.maybe(0.5):
            row.record["price"] = price.replace("/", " per ")
    _rests(pen, result)
    return result


def _weight(pen: Pen, text: str, about: bool) -> Any:
    if about and pen.maybe(0.2):
        return f"~{text}"
    if text.count(" ") == 1 and pen.maybe(0.3):
        amount, unit = text.split()
        tare = pen.rng.choice(("0.25", "0.5", "1.5"))
        digits = max(len(part.partition(".")[2]) for part in (amount, tare))
        return {
            "gross": f"{float(amount) + float(tare):.{digits}f} {unit}",
            "tare": f"{tare} {unit}",
        }
    return text


def _rates(pen: Pen, head: dict[str, Any]) -> None:
    rates = head.get("rates", {})
    price = rates.get("electricity")
    if not isinstance(price, str):
        return
    usual = float(price.split()[0])
    cents = f"{number(usual * 100, 2)} cents per kWh"
    if pen.maybe(0.5):
        dear = {"from": f"{pen.rng.randint(6, 17):02}:00", "to": f"{pen.rng.randint(18, 23)}:30",
                "price": f"{number(usual * 2, 3)} {pen.currency}/kWh"}  # fmt: skip
        if pen.maybe(0.5):
            dear["days"] = "mon-fri"
        rates["electricity"] = [dear, {"price": cents}]
    elif pen.maybe(0.5):
        rates["electricity"] = cents


def _rests(pen: Pen, season: Season) -> None:
    """Some uses of bulk took all that was left, and late in the year each product has one such."""
    taken = set()
    uses = next((f["uses"] for _, f in sorted(season.files.items()) if f.get("uses")), None)
    if uses is not None:
        products = {row.record["product"] for row in season.table("lots")}
        uses += [
            {"date": day(300), "product": product, "weight": "rest", "for": "household"}
            for product in sorted(products)
        ]
    for row in season.table("uses"):
        record = row.record
        one = (record.get("product"), record.get("date"))
        if None not in one and one not in taken and pen.maybe(0.5):
            taken.add(one)
            record["weight"] = "rest"
