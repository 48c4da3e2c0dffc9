"""Every check fails on a season made to fail it, and passes on its neighbour that just does not."""

from __future__ import annotations

import re
from typing import Any

import pytest
from published.figures import Figures

from reportgen.algebra.guards import Guards
from reportgen.trade import BOOK

pytestmark = pytest.mark.seasons

TODAY = 46300.0
Tables = dict[str, list[dict[str, Any]]]


def tables(**changed: Any) -> Tables:
    """A sound little season; ``lots=dict(weighed=9)`` changes the one lot, None takes it out."""
    sound: dict[str, dict[str, Any]] = {
        "season": {"as_of": TODAY, "dollar_sized": True},
        "rates": {"electricity": 0.25, "labor": 0, "travel": 0.5},
        "pricing": {"would_buy": 1, "fees": 0.1},
        "dryers": {"key": "dryer", "trays": 4, "tray_area": 0.125, "load_limit": 10, "price": 100,
                   "life": 10},
        "containers": {"key": "tin"},
        "products": {"key": "food", "water": 0.85, "prep_yield": 0.8},
        "trips": {"key": "trip", "distance": 4},
        "lots": {"key": "lot", "product": "food", "date": TODAY - 9, "weighed": 10.0,
                 "trip": "trip", "prepped_weighed": 8.0, "price_total": 20.0},
        "runs": {"key": "run", "dryer": "dryer", "started": TODAY - 8, "duration": 30.0,
                 "energy": 12.0},
        "loads": {"id": "load", "run": "run", "lot": "lot", "wet": 8.0, "dry": 1.3,
                  "weighing_before": 1.3, "weighing_last": 1.3},
        "packs": {"key": "pack", "product": "food", "date": TODAY - 7, "container": "tin",
                  "count": 4, "net": 0.3},
        "draws": {"pack": "pack", "run": "run"},
        "uses": {"date": TODAY - 6, "pack": "pack", "count": 2, "channel": "stall", "price": 9.0},
        "counts": {"date": TODAY - 6, "pack": "pack", "counted": 2},
        "offers": {"key": "offer", "product": "food", "date": TODAY - 5, "net": 1.0, "price": 30.0},
    }  # fmt: skip
    none = [name for name, change in changed.items() if change is None]
    made: Tables = {
        name: [record | (changed.pop(name, {}) or {})] for name, record in sound.items()
    }
    made |= {name: [] for name in none}
    for name, more in changed.items():
        of = re.sub(r"^also_|_\d$", "", name)
        made[of] = [*made.get(of, []), more]
    return made


def failing(made: Tables) -> set[str]:
    found = Figures(**made).numbers
    cells = found.cells["checks"]
    names = [f"{c.table.name}-{c.name}".replace("_", "-") for c in BOOK.checks]
    return {name for name, many in zip(names, cells["failing"], strict=True) if many}


def use(**record: Any) -> dict[str, Any]:
    return {"date": TODAY - 6, **record}


UNWEIGHED = {"dry": None, "weighing_before": None, "weighing_last": None}
BACK = {"id": "back", "run": "run", "again": "load", "lot": "lot", "dry": 1.0}

DENSE = {"skeletal_density": 1500.0}
ASKED = {"margin": 0.1, "price_step": 0.01}
SIZE = {"product": "food", "container": "tin", "net": 0.3, "price": 9.0}
LEFT = {"carried_running": 3.0, "carried_full": 4.0}
PLANNED = {"product": "food", "container": "tin", "count": 9, "net": 0.3, "dryer": "dryer"}

GONE = PLANNED | {"start": TODAY, "until": TODAY, "count": 10}
SHUT = {"dryer": "dryer", "from_day": TODAY, "to_day": TODAY + 2}

TWO_RUNS = {
    "also_runs": {"key": "other", "dryer": "dryer", "duration": 30.0, "energy": 12.0},
    "also_loads": {"id": "more", "run": "other", "lot": "lot", "wet": 8.0, "dry": 1.3},
    "also_draws": {"pack": "pack", "run": "other"},
}


STEP = {"pack": "pack", "draw": "1", "load": "load", "recalled": "lot/pack"}
"""The trace of the one pack."""
RECALLED = {"lot": "lot", "pack": "pack"}
TWIN = {"also_lots": {"key": "twin", "product": "food", "date": TODAY - 9, "weighed": 1.0,
                      "price_total": 1.0}}  # fmt: skip
TOOK_ALL = {"key": "use-1", "date": TODAY - 5, "product": "food", "rest": True,
            "purpose": "household"}  # fmt: skip
MARKET = {"key": "green", "date": TODAY - 5, "channel": "stall"}
THERE = {"market": "green", "pack": "pack", "took": 2, "back": 1, "price_written": 9.0}


def at_market(day: dict[str, Any] | None = None, **pack: Any) -> dict[str, Any]:
    """A market day with one pack, of which others are as said."""
    return {"markets": MARKET | (day or {}), "market_packs": THERE | pack, "counts": None}


SHELF = {"products": {"best_by": 2.0}}
LATER = {"key": "later", "product": "food", "date": TODAY - 6, "container": "tin", "net": 0.3}


def logged_at_a_price(dear: float) -> dict[str, Any]:
    """30 h from 6:00 with one at 1.70, 30.7 by price; its log told of so many such hours."""
    return {
        "runs": {"started": TODAY - 7.75},
        "periods": {"key": "dear", "from_clock": "17:00", "to_clock": "18:00", "price": 1.7},
        "also_periods": {"key": "day", "price": 1.0},
        "run_energy": {"run": "run", "period": "dear", "hours": dear, "kwh": 2.0},
        "also_run_energy": {"run": "run", "period": "day", "hours": 30.0 - dear, "kwh": 10.0},
    }


MIXED: dict[str, Any] = {
    "mixes": {"key": "mix", "product": "food", "date": TODAY - 5},
    "mix_parts": {"into": "mix", "product": "food", "weight": 0.5},
}
SECOND: dict[str, Any] = MIXED | {
    "also_mixes": {"key": "mix-2", "product": "food", "date": TODAY - 4},
    "also_mix_parts": {"into": "mix-2", "mix": "mix", "weight": 0.1},
}
"""A mix of bulk, and one that holds it."""


def mixed(**changed: Any) -> dict[str, Any]:
    """The season with a mix; ``mixes=dict(out=9)`` changes it."""
    return {name: record | changed.pop(name, {}) for name, record in MIXED.items()} | changed


def of_mix(**changed: Any) -> dict[str, Any]:
    """The season with a pack of the mix."""
    return mixed(**{"draws": {"run": None, "mix": "mix"}, "packs": {"net": 0.1}} | changed)


# check: (what makes it fail, what just does not)
CASES: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "mix-parts-not-one-part": (mixed(mix_parts={"pack": "pack"}), mixed()),
    "mix-parts-mixed-too-deep": (
        SECOND | {"also_mixes_3": {"key": "mix-3", "product": "food"},
                  "also_mix_parts_3": {"into": "mix-3", "mix": "mix-2", "weight": 0.1}},
        SECOND,
    ),
    "mix-parts-opened-before-packed": (
        mixed(mixes={"date": TODAY - 8}, mix_parts={"product": None, "pack": "pack"}),
        mixed(mixes={"date": TODAY - 7}, mix_parts={"product": None, "pack": "pack"}),
    ),
    "mixes-out-above-in": (mixed(mixes={"out": 0.52}), mixed(mixes={"out": 0.509})),
    "mixes-taken-above-out": (of_mix(packs={"net": 0.13}), of_mix(packs={"net": 0.127})),
    "mixes-cost-missing": (mixed(lots={"price_total": None}), mixed()),
    "mixes-doubtful-mix": (
        mixed(mixes={"water_activity": 0.61}), mixed(mixes={"water_activity": 0.6}),
    ),
    "mixes-mixed-to-come": (mixed(mixes={"date": TODAY + 1}), mixed(mixes={"date": TODAY})),
    "draws-mix-of-another": (
        of_mix(mixes={"product": "other"}, also_products={"key": "other"}), of_mix(),
    ),
    "draws-run-and-mix": (of_mix(draws={"mix": "mix"}), of_mix()),
    "packs-runs-and-mixes": (of_mix(also_draws={"pack": "pack", "run": "run"}), of_mix()),
    "packs-packed-before-mix": (
        of_mix(mixes={"date": TODAY - 6}), of_mix(mixes={"date": TODAY - 7}),
    ),
    "season-mixes-not-conserved": (
        mixed(mixes={"product": "nothing"}), mixed(),
    ),
    # 2 % are forgiven, for what clings to trays and for small scales: 1.3 × 1.02 = 1.326.
    "products-packed-above-dried": ({"packs": {"net": 0.34}}, {"packs": {"net": 0.33}}),
    # 8 of 85 % water hold 1.2 of solids: packs of less do not tell its dry weight.
    "products-packed-unweighed": (
        {"loads": UNWEIGHED, "packs": {"net": 0.29}}, {"loads": UNWEIGHED, "packs": {"net": 0.31}},
    ),
    "products-dried-below-zero": (
        {"also_loads": BACK | {"wet": 3}},
        {"also_loads": BACK | {"wet": 2}},
    ),
    "products-cost-missing": ({"runs": {"energy": None}}, {"lots": {"price_total": 0}}),
    "products-shop-price-missing": ({"offers": {"price": None}}, {"offers": {"date": None}}),
    # A second lot on the trip, with a price or without one.
    "trips-shared-evenly": (
        {"also_lots": {"key": "b", "product": "food", "weighed": 3.0, "trip": "trip"}},
        {"also_lots": {"key": "b", "product": "food", "weighed": 3.0, "trip": "trip",
                       "price_total": 5.0}},
    ),
    "trips-fetched-nothing": ({"lots": {"trip": None}}, {"lots": {"price_total": 0}}),
    # 8 × 1.02 = 8.16
    "lots-used-above-prepped": ({"lots": {"lost": 0.17}}, {"lots": {"lost": 0.15}}),
    # 2 % of 8 lb may wait.
    "lots-finished-with-rest": (
        {"lots": {"finished": True, "prepped_weighed": 8.17}},
        {"lots": {"finished": True, "prepped_weighed": 8.15}},
    ),
    "lots-prepped-above-purchased": ({"lots": {"weighed": 7.9}}, {"lots": {"weighed": 8.0}}),
    "lots-price-missing": (
        {"lots": {"price_total": None}},
        {"lots": {"price_total": None, "grown": True}},
    ),
    "lots-weight-missing": (
        {"lots": {"weighed": None, "prepped_weighed": None}},
        {"lots": {"weighed": None}},
    ),
    "lots-priced-twice": ({"lots": {"price_by_weight": 2.0}}, {"lots": {"grown": True}}),
    "lots-date-to-come": ({"lots": {"date": TODAY + 1}}, {"lots": {"date": TODAY}}),
    # 6.7 kg of water take 6.7 × 2838 kJ = 5.282 kWh, give or take a thousandth.
    "runs-energy-below-floor": ({"runs": {"energy": 5.27}}, {"runs": {"energy": 5.29}}),
    # Ten times that is 52.82 kWh.
    "runs-energy-above-all": ({"runs": {"energy": 52.9}}, {"runs": {"energy": 52.7}}),
    "runs-two-at-once": (
        {"also_runs": {"key": "next", "dryer": "dryer", "started": TODAY - 8 + 29.9 / 24}},
        {"also_runs": {"key": "next", "dryer": "dryer", "started": TODAY - 8 + 30 / 24}},
    ),
    "rates-electricity-dear": ({"rates": {"electricity": 2.01}}, {"rates": {"electricity": 2.0}}),
    "periods-period-dear": (
        {"periods": {"key": "day", "price": 2.01}},
        {"periods": {"key": "day", "price": 2.0}},
    ),
    # A quarter of an hour without a reading is nothing.
    "runs-log-incomplete": (
        {"run_energy": {"run": "run", "hours": 30.0, "kwh": 12.0, "unlogged": 0.26}},
        {"run_energy": {"run": "run", "hours": 30.0, "kwh": 12.0, "unlogged": 0.25}},
    ),
    # 12 × 1.02 = 12.24
    "runs-log-differs": (
        {"run_energy": {"run": "run", "hours": 30.0, "kwh": 12.25}},
        {"run_energy": {"run": "run", "hours": 30.0, "kwh": 12.23}},
    ),
    "runs-hours-not-split": (
        {"run_energy": {"run": "run", "hours": 30.26, "kwh": 12.0}},
        {"run_energy": {"run": "run", "hours": 30.25, "kwh": 12.0}},
    ),
    # 2 % of 30.7 are 0.614, or 0.877 h at 0.70 more.
    "runs-log-of-other-hours": (logged_at_a_price(1.88), logged_at_a_price(1.87)),
    "windows-times-changed": (
        {"periods": {"key": "day", "price": 1.0},
         "windows": {"period": "day", "begin": 0.0, "end": 168.0, "from_built": "16:00"}},
        {"periods": {"key": "day", "price": 1.0},
         "windows": {"period": "day", "begin": 0.0, "end": 168.0}},
    ),
    "periods-never-holds": (
        {"periods": {"key": "day", "price": 1.0}, "also_periods": {"key": "night", "price": 1.0}},
        {"periods": {"key": "day", "price": 1.0, "from_clock": "06:00", "to_clock": "05:30"},
         "also_periods": {"key": "night", "price": 1.0}},
    ),
    "runs-energy-without-price": (
        {"rates": {"electricity": None}},
        {"rates": {"electricity": None}, "runs": {"energy": None}},
    ),
    "runs-energy-missing": ({"runs": {"energy": None}}, {"dryers": {"price": None}}),
    "runs-above-load-limit": ({"dryers": {"load_limit": 7.9}}, {"dryers": {"load_limit": 8.0}}),
    "runs-no-water-removed": ({"loads": {"dry": 8.0}}, {"loads": {"dry": 7.99}}),
    "runs-packs-above-run": (
        {"packs": {"count": 5}},
        {"packs": {"count": 5}, "also_runs": {"key": "other"},
         "also_draws": {"pack": "pack", "run": "other"}},
    ),
    # Two runs gave 2.6 oz together, of which 2 % more are forgiven: 2.652.
    "packs-above-runs": (
        {"packs": {"net": 0.664}, **TWO_RUNS},
        {"packs": {"net": 0.662}, **TWO_RUNS},
    ),
    # The run of 30 hours began eight days ago: it ended on the next day.
    "packs-packed-before-run": (
        {"packs": {"date": TODAY - 8}, "uses": {"date": TODAY - 7}},
        {"packs": {"date": TODAY - 7}},
    ),
    "packs-day-missing": (
        {"packs": {"date": None}, "counts": None},
        {"packs": {"date": None, "count": 2}, "counts": None},
    ),
    "loads-lot-after-run": ({"lots": {"date": TODAY - 7}}, {"lots": {"date": TODAY - 8}}),
    "uses-used-before-packed": ({"uses": {"date": TODAY - 8}}, {"uses": {"date": TODAY - 7}}),
    "counts-counted-before-packed": (
        {"counts": {"date": TODAY - 8}}, {"counts": {"date": TODAY - 7}},
    ),
    "counts-counted-to-come": ({"counts": {"date": TODAY + 1}}, {"counts": {"date": TODAY}}),
    "counts-counted-above-filled": ({"counts": {"counted": 5}}, {"counts": {"counted": 4}}),
    "season-offers-alone": ({"lots": None}, {"lots": {"grown": True}}),
    # A run may start on the day itself, at any hour.
    "runs-started-to-come": ({"runs": {"started": TODAY + 1}}, {"runs": {"started": TODAY + 0.9}}),
    "loads-dry-above-wet": ({"loads": {"dry": 8.1}}, {"loads": {"dry": 8.0}}),
    # The solids are 8 × 0.15 = 1.2: lighter than that it cannot be.
    "loads-solids-missing": ({"loads": {"dry": 1.19}}, {"loads": {"dry": 1.21}}),
    "loads-wet-missing": (
        {"loads": {"wet": None}, "lots": {"prepped_weighed": None, "weighed": None,
                                          "container": None}},
        {"loads": {"wet": None}},
    ),
    "draws-drawn-from-failed": (
        {"runs": {"failed": True}},
        {"runs": {"failed": False}},
    ),
    "loads-wet-guessed": ({"loads": {"wet_about": True}}, {"loads": {"dry_about": True}}),
    "loads-dry-guessed": ({"loads": {"dry_about": True}}, {"loads": {"wet_about": True}}),
    "runs-dry-below-loads": (
        {"runs": {"dry": 1.0}, "also_loads": {"id": "b", "run": "run", "lot": "lot", "wet": 1.0}},
        {"runs": {"dry": 1.0}},
    ),
    # 1.3 × 1.02 = 1.326, and 1.3 ÷ 0.98 = 1.3265.
    "runs-dry-differs": ({"runs": {"dry": 1.327}}, {"runs": {"dry": 1.326}}),
    "packs-used-above-count": (
        {"uses": {"count": 5}, "counts": None},
        {"uses": {"count": 4}, "counts": None},
    ),
    "packs-net-missing": ({"packs": {"net": None}}, {"packs": {"count": 1}}),
    "packs-origin-missing": (
        {"draws": {"pack": None}},
        {"draws": {"pack": None}, "packs": {"carried_running": 5.0}},
    ),
    "draws-draws-on-nothing": (
        {"also_products": {"key": "other"}, "packs": {"product": "other"}},
        {"also_loads": BACK},
    ),
    "packs-date-to-come": ({"packs": {"date": TODAY + 1}}, {"packs": {"date": TODAY}}),
    # Two weighings may differ by half a percent: 1.3 × 0.005 = 0.0065.
    "loads-dry-not-last-weighing": (
        {"loads": {"weighing_last": 1.29}},
        {"loads": {"weighing_last": 1.29}, "scale": {"resolution": 0.01}},
    ),
    "loads-doubtful-load": (
        {"loads": {"weighing_before": 1.307}},
        {"loads": {"weighing_before": 1.306}},
    ),
    "packs-doubtful-sealed": (
        {"loads": {"weighing_before": 1.4}, "containers": {"absorber": 300.0}},
        {"loads": {"weighing_before": 1.4, "water_activity": 0.3},
         "containers": {"absorber": 300.0}},
    ),
    "packs-doubtful-packed": (
        {"loads": {"weighing_before": 1.4}},
        {"loads": {"weighing_before": 1.4}, "containers": {"absorber": 300.0}},
    ),
    "packs-dryness-not-shown": (
        {"loads": {"weighing_before": None}},
        {"loads": {"weighing_before": None, "water_activity": 0.3}},
    ),
    # Packed seven days ago; a month is a twelfth of a year of 365 days.
    "packs-past-best-by": (
        {"products": {"best_by": 6.9 * 12 / 365}},
        {"products": {"best_by": 7 * 12 / 365}},  # the day itself is not past
    ),
    # (3236 − 300 ÷ 1.5) × 0.2095 = 636 mL
    "packs-absorber-short": (
        {"containers": {"absorber": 636.0, "volume": 3236.0}, "products": DENSE},
        {"containers": {"absorber": 637.0, "volume": 3236.0}, "products": DENSE},
    ),
    "packs-oxygen-missing": (
        {"containers": {"absorber": 700.0}, "products": DENSE},
        {"containers": {"absorber": 700.0, "volume": 3236.0}, "products": DENSE},
    ),
    "packs-not-priced": (
        {"prices": {"product": "food", "container": "tin", "net": 0.5}},
        {"prices": {"product": "food", "container": "tin", "net": 0.3}},
    ),
    # Lists that follow, as they would be had they been made before the last record was written.
    "draws-not-traced": ({"trace": STEP | {"draw": "2"}}, {"trace": STEP}),
    "packs-not-traced-back": (
        {"packs": {"carried_from": "2024"}, "trace": STEP | {"pack": "other"}},
        {"packs": {"carried_from": "2024"}, "trace": STEP},
    ),
    "trace-traced-otherwise": (
        {"trace": STEP | {"load": "more"}, **TWO_RUNS},
        {"trace": STEP, **TWO_RUNS},
    ),
    "trace-recalled-otherwise": (
        {"trace": STEP | {"recalled": "twin/pack"}, "recall": RECALLED | {"lot": "twin"}, **TWIN},
        {"trace": STEP, "recall": RECALLED, **TWIN},
    ),
    "uses-rest-without-steps": (
        {"uses": None, "also_uses": TOOK_ALL, "rest_steps": {"taken": "use-1", "load": "load"}},
        {"uses": None, "also_uses": TOOK_ALL},
    ),
    "packs-not-ranked": (
        {"eat_first": {"key": "eat-1", "place": 1}, **SHELF, "also_packs": LATER},
        {"eat_first": {"key": "eat-1", "place": 1}, **SHELF},
    ),
    "packs-absorbers-not-reckoned": (
        {"absorbers": {"key": "size"}, "absorber_needs": {"pack": "other", "absorber": "size"}},
        {"absorbers": {"key": "size"}, "absorber_needs": {"pack": "pack", "absorber": "size"}},
    ),
    "changes-not-worked-out": (
        {"changes": {"key": "dear"}, "scenarios": {"scenario": "cheap", "product": "food"}},
        {"changes": {"key": "dear"}, "scenarios": {"scenario": "dear", "product": "food"}},
    ),
    "plan-not-queued": (
        {"plan": PLANNED, "queue": {"position": "2", "before": "1"}},
        {"plan": PLANNED, "queue": {"position": "1", "before": "1"}},
    ),
    # Runs of 30 h, each full; the second ends on the third day at noon.
    "plan-does-not-fit": tuple({"also_plan": GONE | {"until": TODAY + n}} for n in (1, 2)),
    "plan-gone-before-start": tuple({"also_plan": GONE | {"until": TODAY + n}} for n in (-1, 0)),
    "plan-until-without-start": (
        {"plan": PLANNED | {"until": TODAY}},
        {"plan": PLANNED | {"until": TODAY, "start": TODAY}},
    ),
    # 7 more of 0.3 are 2.1, less 0.1 in bulk: by 8 to 1.3 12.31 prepped, 15.38 bought.
    "plan-too-little": tuple({"plan": PLANNED | {"at_most_weight": x}} for x in (15.3, 15.4)),
    "plan-not-by-the-week": (
        {"also_plan": GONE, "weeks": {"key": "week-1", "dryer": "other", "number": 1}},
        {"also_plan": GONE},
    ),
    "closed-turned-round": tuple(
        {"also_plan": GONE, "also_closed": SHUT | {"to_day": TODAY + n}} for n in (-1, 0)
    ),
    "closed-half-written": ({"also_closed": SHUT | {"to_day": None}}, {"also_closed": SHUT}),
    "closed-closed-twice": tuple(
        {"plan": GONE, "closed": SHUT, "also_closed": SHUT | {"from_day": TODAY + n}}
        for n in (2, 3)
    ),
    # Carried over at a running cost of 5 and a full one of 1: a price above 1 does not bring in 5.
    "prices-earns-nothing": (
        {"packs": {"carried_running": 5.0, "carried_full": 1.0}, "pricing": ASKED},
        {"packs": {"carried_running": 1.0, "carried_full": 1.0}, "pricing": ASKED},
    ),
    # By its trays: 5 kg/m2 on 4 m2. A run takes 30 h: 5.6 a week. The crate weighed 10.
    "plan-above-limit": tuple(
        {
            "products": {"tray_loading": 5.0},
            "also_dryers": {"key": "shed", "trays": 4, "tray_area": 1.0, "load_limit": limit},
            "also_plan": PLANNED | {"dryer": "shed"},
        }
        for limit in (19.9, 20.0)
    ),
    "plan-pace-too-fast": tuple({"also_plan": PLANNED | {"pace": pace}} for pace in (5.7, 5.5)),
    "plan-container-off": tuple(
        {
            "lots": {"container": "crate", "count": 1},
            "also_nominal_weights": {"product": "food", "container": "crate", "weight": weight},
            "also_plan": PLANNED | {"buy": "crate"},
        }
        for weight in (11.1, 10.9)
    ),
    "plan-running-unknown": (
        {"plan": PLANNED, "rates": {"electricity": None}},
        {"plan": PLANNED},
    ),
    "scenarios-net-missing": (
        {"changes": {"key": "tins", "container": "tin"}},
        {"changes": {"key": "tins", "container": "tin", "net": 0.2}},
    ),
    # Four were filled and two used the day before: two were there, and that many may come back.
    "market-packs-took-above-shelf": (at_market(took=3), at_market()),
    "market-packs-back-above-took": (at_market(back=2, samples=1), at_market(back=2)),
    "market-packs-price-missing": (
        at_market(price_written=None),
        at_market(price_written=None, back=2),
    ),
    "market-packs-taken-before-packed": (
        at_market({"date": TODAY - 8}),
        at_market({"date": TODAY - 7}),
    ),
    "markets-dated-ahead": (at_market({"date": TODAY + 1}), at_market({"date": TODAY})),
    "markets-not-written-up": (at_market(back=None), at_market(back=None, samples=1)),
    "uses-at-a-market": (at_market({"date": TODAY - 6}), at_market({"date": TODAY - 7})),
    "uses-price-missing": (
        {"uses": {"price": None}},
        {"uses": {"price": None, "purpose": "gift", "channel": None}},
    ),
    "uses-two-purposes": ({"uses": {"purpose": "gift"}}, {"uses": {"purpose": None}}),
    "uses-no-channel": ({"uses": {"channel": "porch"}}, {"uses": {"channel": "co-op"}}),
    "uses-two-prices": ({"uses": {"total": 18.0}}, {"uses": {"total": 18.0, "price": None}}),
    "asking-not-listed": (
        {"asking": SIZE, "prices": {"product": "food", "container": "tin", "net": 0.4}},
        {"asking": SIZE},
    ),
    "channels-not-on-list": (
        {"asking": SIZE, "price_list": {"channel": "stall", "place": 1}},
        {"asking": SIZE},
    ),
    "price-list-below-floor": (
        {"asking": SIZE | {"price": 4.4}, "packs": LEFT},
        {"asking": SIZE | {"price": 4.5}, "packs": LEFT},
    ),
    "uses-rest-of-nothing": (
        {"also_uses": use(product="food", rest=True), "packs": {"net": 1.3 / 4}},
        {"also_uses": use(product="food", rest=True), "packs": {"net": 1.2 / 4}},
    ),
    "uses-rest-unknown": (
        {"also_uses": use(product="food", rest=True), "packs": {"date": None}},
        {"also_uses": use(product="food", rest=True)},
    ),
    "uses-used-to-come": ({"uses": {"date": TODAY + 1}}, {"uses": {"date": TODAY}}),
    "offers-stale": ({"offers": {"date": TODAY - 181}}, {"offers": {"date": TODAY - 180}}),
    "offers-unit-price-missing": ({"offers": {"net": None}}, {"offers": {"shipping": None}}),
    "offers-seen-to-come": ({"offers": {"date": TODAY + 1}}, {"offers": {"date": TODAY}}),
}  # fmt: skip

OF_THE_WORKBOOK = {
    "season-produce-not-conserved", "season-parts-not-total", "season-rows-moved",
    "typed-text-typed", "season-notebook-waits",
}  # fmt: skip
"""Checks of the workbook's own sums, and of what is typed into it: no season's files fail them;
``test_properties.py`` says why, ``workbook/test_running.py``, ``test_strays.py`` and
``edits/test_notebook.py`` fail them."""


def test_a_sound_season_fails_none() -> None:
    assert failing(tables()) == set()


@pytest.mark.parametrize("check", CASES)
def test_a_check_fails_where_it_should_and_only_there(check: str) -> None:
    wrong, right = CASES[check]
    assert check in failing(tables(**wrong))
    assert check not in failing(tables(**right))


def test_every_check_has_a_case() -> None:
    names = {f"{c.table.name}-{c.name}".replace("_", "-") for c in BOOK.checks}
    assert names == {*CASES, *OF_THE_WORKBOOK}


def test_a_check_of_a_table_of_one_row_is_always_known() -> None:
    """Where it is not, neither is how many rows fail, and with that the verdict over all."""
    guards = Guards(BOOK)
    single = [c for c in BOOK.checks if c.table.single]
    assert len(single) >= 3
    assert all(guards.certain(c.table.name, c.name) for c in single)


def test_the_verdict_is_the_worst_of_all() -> None:
    def verdict(**changed: Any) -> object:
        return Figures(**tables(**changed))("season", "verdict_of_all")

    assert verdict() == "All checks pass"
    assert verdict(packs={"date": None}) == "The figures can be used; some cautions are open"
    assert verdict(packs={"count": 5}) == "Do not rely on it yet: there are errors"
    assert verdict(loads={"dry": 8.1}) == "Do not rely on it yet: there are errors"


def test_a_check_counts_its_rows_and_names_the_first() -> None:
    made = tables(also_offers={"key": "old", "product": "food", "date": 40000.0})
    made["offers"].append({"key": "older", "product": "food", "date": 30000.0})
    found = Figures(**made)
    row = [c.name for c in BOOK.checks].index("stale")
    cells = found.numbers.cells["checks"]
    assert (cells["failing"][row], cells["first"][row]) == (2, "old")
    assert cells["verdict"][row] == "caution"
    assert {cells["verdict"][n] for n, many in enumerate(cells["failing"]) if not many} == {"ok"}


@pytest.mark.parametrize("check", CASES)
def test_each_check_counts_its_own_rows_and_names_its_own_first(check: str) -> None:
    """All checks of the season that fails one, counted by plain means."""
    cells = Figures(**tables(**CASES[check][0])).numbers.cells
    for row, each in enumerate(BOOK.checks):
        flags = cells[each.table.name][each.name]
        failed = [at for at, flag in enumerate(flags) if flag]
        named = failed and not each.table.single
        first = cells[each.table.name][each.names][failed[0]] if named else None
        told = cells["checks"]["failing"][row], cells["checks"]["first"][row]
        assert told == (len(failed), first), each


NOTHING_TO_LOOK_AT = {
    "price-list-below-floor",
    "runs-two-at-once", "runs-log-differs", "runs-log-of-other-hours", "runs-dry-below-loads",
    "runs-dry-differs", "uses-rest-of-nothing",
    "packs-absorber-short", "packs-past-best-by", "packs-oxygen-missing", "packs-not-ranked",
    "prices-earns-nothing",
}  # fmt: skip
"""Checks of the sound season that are of something it does not have: a second run, a log, ..."""


def test_a_sound_season_is_known_to_be_sound() -> None:
    cells = Figures(**tables()).numbers.cells
    found = {
        f"{c.table.name}-{c.name}".replace("_", "-")
        for c in BOOK.checks
        if any(flag is None for flag in cells[c.table.name][c.name])
    }
    assert found == NOTHING_TO_LOOK_AT
