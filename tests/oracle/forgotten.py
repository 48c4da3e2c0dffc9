"""Weights that nobody wrote down, by the contract's text: from written weights, never each other.

``fill`` gives every load ``wet`` and ``dry``, and says of each whether it was estimated.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from oracle.written import NAN, div, first, known, moment, number

if TYPE_CHECKING:
    from oracle.reckon import Reckoning

Row = dict[str, Any]


def fill(season: Reckoning) -> None:
    """In the contract's order: went in again, the run's dry weight, the hours, lots, packs."""
    loads = season.loads
    for load in loads.values():
        load["back"] = [other for other in loads.values() if other["again"] == load["key"]]
        load["wet"], load["dry"] = load["wet_written"], load["dry_written"]
        load["wet_guessed"], load["dry_guessed"] = load["wet_about"], load["dry_about"]
    for load in loads.values():
        if len(load["back"]) == 1:
            (back,) = load["back"]
            for one, name, other, of in ((load, "dry", back, "wet"), (back, "wet", load, "dry")):
                if not known(one[name]):
                    one[name] = other[f"{of}_written"]
                    one[f"{name}_guessed"] = other[f"{of}_about"]
    exact = {key: load["dry"] for key, load in loads.items()}
    for load in loads.values():
        load["solids"] = _first(season, load)["wet_written"] * (1 - _water(season, load))
    for run in season.records["runs"]:
        _shared(season, run, exact)
    for load in loads.values():
        if len(load["back"]) == 1 and not known(load["dry"]):
            _by_hours(season, load)
    for load in loads.values():
        if len(load["back"]) == 1 and not known(load["back"][0]["wet"]):
            load["back"][0]["wet"] = load["dry"]
            load["back"][0]["wet_guessed"] = known(load["dry"])
    wets = {key: _by_lot(season, load, exact[key]) for key, load in loads.items()}
    dries = {key: _by_packs(season, load, exact) for key, load in loads.items()}
    for key, load in loads.items():
        for name, found in (("wet", wets[key]), ("dry", dries[key])):
            if not known(load[name]) and known(found):
                load[name], load[f"{name}_guessed"] = found, True


def _first(season: Reckoning, load: Row) -> Row:
    return season.loads[load["again"]] if load["again"] else load


def _lot(season: Reckoning, load: Row) -> Row:
    return next(lot for lot in season.records["lots"] if lot["id"] == load["lot"])


def _water(season: Reckoning, load: Row) -> float:
    lot = _lot(season, load)
    return first(number(lot.get("water")), season.recipe(lot["product"], "water"))


def _run(season: Reckoning, load: Row) -> Row:
    return next(run for run in season.records["runs"] if run["id"] == load["run"])


def _shared(season: Reckoning, run: Row, exact: dict[str, float]) -> None:
    """What is left of the run's dry weight, by solids, none above its own wet weight."""
    own = season.loads_of("run", run["id"])
    left = number(run.get("dry")) - sum(
        exact[load["key"]] for load in own if known(exact[load["key"]])
    )
    open_ones = [load for load in own if not known(exact[load["key"]])]
    solids = sum(load["solids"] for load in open_ones)
    for load in open_ones:
        part = div(left * load["solids"], solids)
        if part > 0:
            load["dry"] = min(part, load["wet"]) if known(load["wet"]) else part
            load["dry_guessed"] = True


def _by_hours(season: Reckoning, load: Row) -> None:
    (back,) = load["back"]
    one, two = (season.hours(_run(season, each)) for each in (load, back))
    lost = div((load["wet_written"] - back["dry_written"]) * one, one + two)
    if known(lost):
        load["dry"], load["dry_guessed"] = load["wet_written"] - lost, True


def _by_lot(season: Reckoning, load: Row, exact: float) -> float:
    """What is left of the lot, evenly among its loads without a wet weight."""
    if load["again"]:
        return NAN
    lot = _lot(season, load)
    product = lot["product"]
    own = [x for x in season.loads_of("lot", lot["id"]) if not x["again"]]
    prepped = number(lot.get("prepped"))
    if not known(prepped) and not (lot.get("finished") == "true" and "weighed" not in lot):
        prepped = season.bought(lot) * season.recipe(product, "prep_yield")
    left = prepped - sum(number(lot.get(name, "0")) for name in ("set_aside", "lost"))
    left -= sum(x["wet_written"] for x in own if known(x["wet_written"]))
    each = div(left, sum(not known(x["wet_written"]) for x in own))
    limit = number(season.dryers[season.dryer_of(_run(season, load))].get("load_limit"))
    target = season.recipe(product, "target_moisture")
    by_dry = div(load["dry_written"] * (1 - target), 1 - _water(season, load))
    if known(each):
        each = min(x for x in (each, limit, by_dry) if known(x))
    return each if each > 0 and not exact > each else NAN


def _by_packs(season: Reckoning, load: Row, exact: dict[str, float]) -> float:
    """What packs hold that name the run alone, by solids."""
    run = _run(season, load)
    product = _lot(season, load)["product"]
    if known(exact[load["key"]]) or load["back"] or "dry" in run:
        return NAN
    naming = [p for p in season.records["packs"]
              if p["product"] == product and run["id"] in p.get("from", [])]  # fmt: skip
    end = season.end(run)
    if any(len(p["from"]) > 1 or "date" not in p for p in naming) or not known(end):
        return NAN
    after = [p for p in naming if end - moment(p["date"]) < 1]
    packed = sum(number(p.get("count", "1")) * number(p.get("net")) for p in after)
    own = [x for x in season.loads_of("run", run["id"]) if _lot(season, x)["product"] == product]
    packed -= sum(exact[x["key"]] for x in own if known(exact[x["key"]]))
    solids = sum(x["solids"] for x in own if not known(exact[x["key"]]))
    part = div(packed * load["solids"], solids)
    if not part >= load["solids"] or not known(load["wet_written"]):
        return NAN
    return min(part, load["wet_written"])
