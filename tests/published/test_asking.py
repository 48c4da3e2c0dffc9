"""Prices, break-even, payback, wear and the uncertainty of a yield, as others print them."""

from __future__ import annotations

import math
from typing import Any

import pytest

from published.case import Case, each
from published.figures import Figures

MARGIN = "margin is the share of the price, markup that of the cost: usual textbook definitions"
BREAK_EVEN = "break-even problem of an accounting course: fixed cost over contribution"
GLOSSARY = "an accounting glossary: contribution margin is price less variable cost"
PAYBACK = "payback, investment over what it brings in a year, undiscounted: textbook definition"
STAGE = (
    "Lumen Learning, Managerial Accounting, Simple Payback: a stage of 120,000 brings 2,000 a "
    "month, 24,000 a year"
)
A3_29 = (
    "Iowa State University Extension, Ag Decision Maker A3-29, Estimating Farm Machinery Costs: "
    "a tractor of 110,000 USD list, bought at 93,500, salvage 23 %, 15 years of 400 h"
)
STUDY = "a study card on depreciation: 80,000 less 20,000"
GUM = "JCGM 100:2008 (GUM), 5.1, for quotients: relative variances add"
TN_1297 = "NIST Technical Note 1297 (1994), section 4: a rectangle, its step over the root of 12"


TAX = (
    "HM Revenue & Customs, Calculating VAT for VAT-inclusive and VAT-exclusive prices: 100 without "
    "tax is 120 with 20 %, 105 with the reduced 5 %"
)


def taxed(rate: float) -> float:
    """What of a price is left without its tax."""
    found = Figures(channels=[{"key": "stall", "of_stall": True, "tax": rate}])
    return float(str(found("channels", "net_share")))


def pack(name: str, running: float, full: float, **pricing: float) -> object:
    """A price of a pack that cost so much each, running and full."""
    found = Figures(
        products=[{"key": "food"}],
        containers=[{"key": "tin"}],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 1, "net": 1.0,
                "carried_running": running, "carried_full": full}],
        pricing=[{"fees": 0.0, "price_step": 0.01, **pricing}],
    )  # fmt: skip
    return found("prices", name)


def stall(price: float) -> object:
    """How many to sell at a price, each at 45, to cover 48,000."""
    return pack("break_even_count", 45, 45, margin=1 - 45 / price, stall=4800.0, days=10.0)


def sales() -> object:
    """Sales that cover 48,000 where 75 is got for what cost 45: 40 % of them."""
    found = Figures(
        products=[{"key": "food"}],
        containers=[{"key": "tin"}],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 3, "net": 1.0,
                "carried_running": 45.0, "carried_full": 45.0}],
        pricing=[{"fees": 0.0, "stall": 4800.0, "days": 10.0}],
        uses=[{"pack": "P", "count": 2, "channel": "stall", "price": 75.0}],
    )  # fmt: skip
    return found("season", "break_even_sales")


def machine(name: str, price: float, a_run: float, runs_per_year: int) -> float:
    """A dryer whose one run this season saved so much."""
    found = Figures(
        products=[{"key": "food"}],
        pricing=[{"would_buy": 1.0}],
        rates=[{"electricity": 0.0}],
        dryers=[{"key": "dryer", "price": price, "runs_per_year": runs_per_year}],
        lots=[{"key": "lot", "product": "food", "prepped_weighed": 2.0, "price_total": 0.0}],
        runs=[{"key": "run", "dryer": "dryer", "energy": 1.0, "started": 0.0, "duration": 0.0}],
        loads=[{"run": "run", "lot": "lot", "wet": 2.0, "dry": 1.0}],
        containers=[{"key": "tin"}],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 1, "net": 1.0}],
        offers=[{"key": "offer", "product": "food", "net": 1.0, "price": a_run}],
    )
    value = found("dryers", name)
    assert isinstance(value, float)
    return value


def second(name: str, price: float, a_run: float, runs: int) -> float:
    """A second dryer with which so many runs more fit in a year, each worth so much: by two days
    of which each gives the first a run."""
    found = Figures(
        products=[{"key": "food", "water": 0.5, "target_moisture": 0.0, "prep_yield": 1.0,
                   "run_time": 24.0, "tray_loading": 9.0}],
        pricing=[{"would_buy": 1.0}],
        rates=[{"electricity": 0.0}],
        dryers=[{"key": "dryer", "load_limit": 2.0, "trays": 1, "tray_area": 1.0}],
        another=[{"like": "dryer", "price": price}],
        lots=[{"key": "lot", "product": "food", "prepped_weighed": 2.0, "price_total": 0.0}],
        runs=[{"key": "run", "dryer": "dryer", "energy": 1.0, "started": 0.0, "duration": 24.0}],
        loads=[{"run": "run", "lot": "lot", "wet": 2.0, "dry": 1.0}],
        containers=[{"key": "tin"}],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 1, "net": 1.0}],
        offers=[{"key": "offer", "product": "food", "net": 1.0, "price": a_run}],
        plan=[{"product": "food", "container": "tin", "count": 2 * runs + 1, "net": 1.0,
               "dryer": "dryer", "start": 46_000.0, "until": 45_999.0 + runs}],
    )  # fmt: skip
    value = found("another", name)
    assert isinstance(value, float)
    return value


def worn(price: float, resale: float, life: float) -> float:
    dryer = {"key": "dryer", "price": price, "resale": resale, "life": life}
    value = Figures(dryers=[dryer])("dryers", "wear_per_run")
    assert isinstance(value, float)
    return value


def yield_of(grams: float, fresh: float) -> Figures:
    """Five boxes of which one was weighed, to 1 g, all of it dried: 5,000 ± 5 g; and 470 ± 1 g.

    Paid by weight at 1 USD a gram, with nothing else to pay, the cost by dried weight is 5,000 over
    470: as sure as the yield is.
    """
    return Figures(
        "g", "g",
        scale=[{"resolution": math.sqrt(12)}],
        products=[{"key": "food"}],
        rates=[{"electricity": 0.0}],
        dryers=[{"key": "dryer"}],
        lots=[{"key": "lot", "product": "food", "count": 5, "weighed": fresh / 5,
               "weighed_count": 1, "price_by_weight": 1.0, "finished": True}],
        runs=[{"key": "run", "dryer": "dryer", "energy": 1.0}],
        loads=[{"run": "run", "lot": "lot", "wet": fresh, "dry": grams}],
        containers=[{"key": "tin"}],
        packs=[{"key": "P", "product": "food", "container": "tin", "count": 1, "net": grams}],
    )  # fmt: skip


def spread(k: int) -> float:
    """The yield 470 / 5,000 and k times its standard uncertainty."""
    found = yield_of(470.0, 5000.0)
    share = found("products", "u_share")
    ratio = found("products", "drying_ratio")
    assert isinstance(share, float) and isinstance(ratio, float)
    return k * share / ratio


def _expanded() -> float:
    found = yield_of(470, 5000)
    cost, expanded = (found("products", f"running_per_packed{end}") for end in ("", "_u"))
    assert isinstance(cost, float) and isinstance(expanded, float)
    return expanded / cost


CASES = [
    Case("cost 12 at a margin of 40 %: price", MARGIN, "worked",
         lambda: pack("price_asked", 12, 12, margin=0.40), 20),
    Case("cost 12 and price 20: markup 66.7 %", MARGIN, "worked",
         lambda: pack("markup", 12, 12, margin=0.40), 0.667, 6e-4),
    Case("cost 12 and price 20: margin 40 %", MARGIN, "worked",
         lambda: pack("margin_kept", 12, 12, margin=0.40), 0.40),
    Case("margin from markup m: m / (1 + m), for 66.7 %", MARGIN, "worked",
         lambda: pack("margin_kept", 12, 12, margin=0.40), (2 / 3) / (1 + 2 / 3)),
    Case("price 30, variable cost 18: contribution", GLOSSARY, "seen",
         lambda: pack("contribution", 18, 18, margin=0.40), 12),
    Case("a price of 120 with 20 % of tax in it: without", TAX, "seen",
         lambda: 120 * taxed(0.20), 100),
    Case("a price of 105 with 5 % of tax in it: without", TAX, "seen",
         lambda: 105 * taxed(0.05), 100),
    Case("48,000 at 75 less 45 each: units", BREAK_EVEN, "worked", lambda: stall(75), 1600),
    Case("the same at 95: units", BREAK_EVEN, "worked", lambda: stall(95), 960),
    Case("the same at 75 in money: 1,600 × 75", BREAK_EVEN, "worked", sales, 120_000),
    Case("6,000 that bring 1,500 a year: years", PAYBACK, "worked",
         lambda: machine("payback_runs", 6000, 25, 60) / 60, 4.0),
    Case("the same as runs at 25 each", PAYBACK, "worked",
         lambda: machine("payback_runs", 6000, 25, 60), 240),
    Case("the same, of which one is done: years left", PAYBACK, "worked",
         lambda: machine("payback_time", 6000, 25, 60) / 24 / 365, 4.0 - 1 / 60),
    Case("6,000 for a second that brings 1,500 a year: years", PAYBACK, "worked",
         lambda: second("payback_years", 6000, 25, 60), 4.0),
    Case("the same as runs at 25 each, 60 of them a year", PAYBACK, "worked",
         lambda: second("payback_runs", 6000, 25, 60), 240),
    Case("what these 60 bring in a year", PAYBACK, "worked",
         lambda: second("earned_year", 6000, 25, 60), 1500),
    Case("a stage of 120,000 that brings 24,000 a year: years", STAGE, "seen",
         lambda: second("payback_years", 120_000, 2_000, 12), 5.0),
    Case("the same in months of 2,000 each", STAGE, "worked",
         lambda: second("payback_runs", 120_000, 2_000, 12), 60),
    Case("straight-line over 6 years: a year", STUDY, "seen",
         lambda: worn(80_000, 20_000, 6), 10_000),
    Case("salvage, 23 % of list", A3_29, "seen",
         lambda: 93_500 - 15 * worn(93_500, 0.23 * 110_000, 15), 25_300),
    Case("depreciation in all", A3_29, "seen",
         lambda: 15 * 400 * worn(93_500, 25_300, 15 * 400), 68_200),
    Case("a scale that shows whole grams: standard uncertainty, g", TN_1297,
         "from memory, not seen",
         lambda: Figures("g", "g", scale=[{"resolution": 1.0}])("scale", "weighing"), 0.29, 5e-3),
    Case("470 ± 1 g from 5,000 ± 5 g: relative uncertainty 0.235 %", GUM, "worked",
         lambda: yield_of(470, 5000)("products", "u_share"), 0.00235, 2e-3),
    Case("the same: u of the yield 0.0940", GUM, "worked", lambda: spread(1), 0.00022, 5e-3),
    Case("the same: U, k = 2", GUM, "worked", lambda: spread(2), 0.0004, 0.15),
    Case("the same: the cost by weight within U, as a share", GUM, "worked",
         _expanded, 2 * math.hypot(1 / 470, 5 / 5000)),
]  # fmt: skip


@each(CASES)
def test_asking(case: Case) -> None:
    case.check()


def test_capital_recovery_is_not_claimed() -> None:
    # A3-29 goes on to interest (7,812 USD a year): the wear here is depreciation alone, without it.
    assert 15 * worn(93_500, 25_300, 15) == pytest.approx(68_200)
    assert worn(93_500, 25_300, 15) < 7_812


def test_no_case_is_given_twice() -> None:
    names: list[Any] = [case.what for case in CASES]
    assert len(set(names)) == len(names)
