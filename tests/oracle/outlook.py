"""Scenarios and the plan, by the contract's text."""

from __future__ import annotations

from typing import Any

from oracle.reckon import Reckoning, Row, at, given
from oracle.written import (
    NAN,
    borne,
    div,
    first,
    money,
    share_or_rate,
)


def scenarios(season: Reckoning) -> dict[str, Row]:
    """Each product under each scenario: replacements first, then factors."""
    found: dict[str, Row] = {}
    for change in season.head.get("scenarios", []):
        for product, row in season.products.items():
            found[f"{change['id']}/{product}"] = _under(season, change, product, row)
    return found


def _under(season: Reckoning, change: dict[str, Any], product: str, row: Row) -> Row:
    names = ("ingredients", "energy", "upkeep", "wear", "labor", "packaging", "overhead")
    factor = {name: share_or_rate(change.get(name))[0] for name in names}
    rate = share_or_rate(change.get("labor"))[1]
    travel = first(row["distance"] * money(change.get("travel")), row["travel"])
    ingredients = (row["cost_ingredients"] - row["travel"] + travel) * factor["ingredients"]
    energy = first(row["energy_used"] * money(change.get("electricity")), row["cost_energy"])
    labor = first(row["hours"] * rate, row["cost_labor"]) * factor["labor"]
    own = row["own_packs"]
    left = [(p["count"] - p["opened"], p) for p in own]
    hours = sum(p["labor"] * many / p["count"] for many, p in left)
    paid_now = sum(at(p["labor"], season.rates["labor"]) * many / p["count"] for many, p in left)
    pack_labor = first(hours * rate, paid_now) * factor["labor"]
    packaging = sum(many * season.packaging(p["container"]) for many, p in left)
    intact = row["packed"] - row["opened"]
    if container := change.get("container"):
        volume = sum(
            p["count"] * given(season.containers.get(p["container"], {}), "volume") for p in own
        )
        tight = div(row["packed"], volume) * given(season.containers[container], "volume")
        net = first(given(change, "net"), tight)
        packaging = div(season.packaging(container) * intact, net)
    packaging *= factor["packaging"]
    paid = ingredients + energy * factor["energy"] + row["cost_upkeep"] * factor["upkeep"]
    beyond = row["cost_wear"] * factor["wear"] + labor + row["cost_overhead"] * factor["overhead"]
    running, full = row["carried_costs"]
    bulk = intact / row["bulk"] if row["bulk"] > 0 else NAN
    made = {
        "running_per_packed": borne((paid + running) * bulk + packaging, row["packed_good"]),
        "full_per_packed": borne(
            (paid + beyond + full) * bulk + packaging + pack_labor, row["packed_good"]
        ),
    }
    made["running_to_retail"] = div(made["running_per_packed"], row["retail_median"])
    return made
