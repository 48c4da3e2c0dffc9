"""Costing: unit prices, depreciation by use, joint costs, cost by yield, averages."""

from __future__ import annotations

import statistics

import numpy as np
import pytest

from published.case import Case, each
from published.figures import Figures

HB_130 = "NIST Handbook 130, Uniform Unit Pricing Regulation: price over net weight, in one unit"
BY_USE = "units-of-production depreciation, (cost - salvage) / units of a lifetime"
BLENDS = (
    "Centre for Education in Mathematics and Computing, University of Waterloo, Problem of the "
    "Week E, 2021-22, Mixture of Three: blends of cashews, chocolate and almonds, each sold at 18 "
    "a kg, bring 20 %, 8 % and 26 % for the ratios 1:1:1, 3:2:1 and 1:4:2"
)
ET_2 = (
    "Hollyer and Huang, Estimating the Per-Pound Cost of a Dried or Condensed Food Based on "
    "Process Yield and Farm-Gate Price, Entrepreneur's Toolbox ET-2, University of Hawaii (1999)"
)


def unit_price(price: float, ounces: float, dried: str) -> object:
    """What an offer asks by weight, in the unit of the season."""
    net = ounces if dried == "oz" else ounces / 16
    return Figures("lb", dried, offers=[{"net": net, "price": price}])("offers", "unit_price")


def wear(cost: float, salvage: float, life: float) -> object:
    """What one unit of use takes off a machine's value."""
    dryer = {"key": "dryer", "price": cost, "resale": salvage, "life": life}
    return Figures(dryers=[dryer])("dryers", "wear_per_run")


def worn(cost: float, salvage: float, life: float, used: int) -> float:
    """What so many runs take off it, one after the other."""
    found = Figures(
        dryers=[{"key": "dryer", "price": cost, "resale": salvage, "life": life}],
        runs=[{"key": str(n), "dryer": "dryer"} for n in range(used)],
    )
    return sum(float(value) for value in found.numbers.cells["runs"]["wear_cost"])  # type: ignore[arg-type]


def taro(name: str) -> object:
    """10 lb raw at 0.50 USD/lb give 2 lb of flour."""
    found = Figures(
        "lb", "lb",
        products=[{"key": "taro"}],
        lots=[{"key": "lot", "product": "taro", "weighed": 10, "price_by_weight": 0.50,
               "prepped_weighed": 10}],
        runs=[{"key": "run", "energy": 0.0, "dryer": "dryer"}],
        rates=[{"electricity": 0.0}], dryers=[{"key": "dryer"}],
        loads=[{"run": "run", "lot": "lot", "wet": 10, "dry": 2}],
    )  # fmt: skip
    return found("products", name)


def joint(shares: dict[str, float], cost: float, which: str) -> object:
    """One run's cost, shared among its loads; what each gave up is the physical measure."""
    found = Figures(
        rates=[{"electricity": 1.0}],
        products=[{"key": each} for each in shares],
        lots=[{"key": each, "product": each} for each in shares],
        runs=[{"key": "run", "energy": cost}],
        loads=[
            {"id": each, "run": "run", "lot": each, "wet": amount + 1, "dry": 1.0}
            for each, amount in shares.items()
        ],
    )
    return found("loads", "cost_energy", which)


BARRELS = {
    "asphalt": 300.0,
    "fuel-oil": 300.0,
    "diesel": 200.0,
    "kerosene": 100.0,
    "gasoline": 100.0,
}
JOINT = "public lecture slides on joint products: 100,000 USD over 1,000 barrels, physical measure"

CASES = [
    Case("12.50 USD for 6 oz: USD/oz", HB_130, "worked", lambda: unit_price(12.50, 6, "oz"), 2.083,
         2e-4),
    Case("12.50 USD for 6 oz: USD/lb", HB_130, "worked", lambda: unit_price(12.50, 6, "lb"), 33.33,
         2e-4),
    Case("12.50 USD for 6 oz: USD/kg", HB_130, "worked",
         lambda: Figures("kg", "kg", offers=[{"net": 6 * 0.028349523125, "price": 12.50}])(
             "offers", "unit_price"), 73.49, 1e-4),
    Case("80,000 less 20,000 over 120,000 units: each", BY_USE + " (a study card)", "seen",
         lambda: wear(80_000, 20_000, 120_000), 0.50),
    Case("the same: 25,000 units", BY_USE + " (a study card)", "seen",
         lambda: worn(80_000, 20_000, 120_000, 25_000 // 100) * 100, 12_500, 1e-9),
    Case("a truck, 40,000 less 5,000 over 200,000 km: 30,000 km", BY_USE + " (a glossary)", "seen",
         lambda: worn(40_000, 5_000, 200_000, 30) * 1000, 5_250, 1e-9),
    Case("a labelling machine, 10,000 less 1,000 over 150,000 units: each",
         BY_USE + " (a costing guide)", "seen", lambda: wear(10_000, 1_000, 150_000), 0.06),
    Case("a press, 100,000 less 20,000 over 1,000,000 units: each", BY_USE + " (a finance guide)",
         "seen", lambda: wear(100_000, 20_000, 1_000_000), 0.08),
    Case("taro: recovery", ET_2, "seen", lambda: taro("overall_yield"), 0.20),
    Case("taro: material cost by dried weight, farm-gate price over recovery, USD/lb", ET_2, "seen",
         lambda: float(taro("cost_ingredients")) / float(taro("dried")), 2.50),  # type: ignore[arg-type]
    *(
        Case(f"joint cost: {which}", JOINT, "seen",
             lambda which=which: joint(BARRELS, 100_000, which), published)  # type: ignore[misc]
        for which, published in (
            ("asphalt", 30_000), ("fuel-oil", 30_000), ("diesel", 20_000), ("kerosene", 10_000),
            ("gasoline", 10_000),
        )
    ),
    Case("a blend 1:1:1 sold at 18: gain", BLENDS, "seen", lambda: blend(1, 1, 1), 0.20),
    Case("a blend 3:2:1 sold at 18: gain", BLENDS, "seen", lambda: blend(3, 2, 1), 0.08),
    Case("a blend 1:4:2 sold at 18: gain", BLENDS, "seen", lambda: blend(1, 4, 2), 0.26),
    Case("a blend 2:3:4 sold at 18: 162 over 125", BLENDS, "worked", lambda: blend(2, 3, 4),
         162 / 125 - 1),
]  # fmt: skip


@each(CASES)
def test_a_cost(case: Case) -> None:
    case.check()


# --- averages, against reference libraries ------------------------------------------------------


def _bulk(weights: list[float], costs: list[float]) -> object:
    """Bulk of one product left from last season, at several costs by weight."""
    found = Figures(
        "kg",
        "g",
        products=[{"key": "food"}],
        carried_over=[
            {"product": "food", "dried": weight, "running": cost, "full": cost}
            for weight, cost in zip(weights, costs, strict=True)
        ],
    )
    return found("products", "running_bulk")


def blend(*kilograms: float) -> float:
    """What a sale at 18 brings above the cost by weight of a blend, as a share of that cost.

    The three ratios give three equations, which 20, 15 and 10 a kg of the parts solve.
    """
    found = Figures(
        "kg",
        "kg",
        products=[{"key": "blend"}],
        mixes=[{"key": "mix", "product": "blend"}],
        bought_parts=[
            {"into": "mix", "weight": weight, "price": weight * price}
            for weight, price in zip(kilograms, (20.0, 15.0, 10.0), strict=True)
        ],
    )
    cost = found("mixes", "running_by_weight")
    assert isinstance(cost, float) and cost == found("products", "running_mixed")
    return 18 / cost - 1


def _median(prices: list[float]) -> object:
    found = Figures(
        products=[{"key": "food"}],
        offers=[{"product": "food", "net": 1.0, "price": price} for price in prices],
    )
    return found("products", "retail_median")


@pytest.mark.parametrize("seed", range(12))
def test_averages_against_reference_libraries(seed: int) -> None:
    rng = np.random.default_rng(seed)
    weights = rng.uniform(5, 900, 1 + seed).tolist()
    costs = rng.uniform(0.01, 4, 1 + seed).tolist()
    mean = float(np.average(costs, weights=weights))
    assert _bulk(weights, costs) == pytest.approx(mean, rel=1e-12)
    prices = rng.integers(3, 12, 1 + seed).astype(float).tolist()
    assert _median(prices) == float(np.median(prices)) == statistics.median(prices)
