"""The uncertainty of a cost by weight, against the ``uncertainties`` library.

``Rebuilt`` works out c = (B / W × P + K) / G once more, in a few lines of its own, with a number
that knows how sure it is for every weighing, for each dryer's mean power, and for what the product
data say with a low and a high (JCGM 100:2008, 4.3.7: a rectangle). The library then propagates
through all of it; nothing of the program's sensitivities is used. The same sums with numbers drawn
at random (JCGM 101:2008) must spread as far.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest
from published.figures import Figures
from uncertainties import ufloat

STEP = 0.1
"""The scale's smallest step, oz."""
LB, WATER = 16.0, 0.9

Records = dict[str, list[dict[str, Any]]]


def season(**changed: Any) -> Records:
    """Two lots of one product, three runs, two kinds of packs; every weight was weighed."""
    tables: Records = {
        "scale": [{"resolution": STEP}],
        "rates": [{"electricity": 0.25, "travel": 0.50, "labor": 10.0}],
        "pricing": [{}],
        "products": [{"key": "food", "water": WATER, "prep_yield": 0.8}],
        "dryers": [
            {"key": "barn", "mean_power": 800.0, "mean_power_spread": 0.25},
            {"key": "shed", "mean_power": 900.0},
        ],
        "upkeep": [{"dryer": "barn", "cost": 20.0, "every": 10}],
        "containers": [{"key": "tin", "spoiled": 0.05}, {"key": "jar"}],
        "parts": [{"container": "tin", "cost": 1.9, "uses": 1},
                  {"container": "jar", "cost": 2.0, "uses": 20}],
        "lots": [
            {"key": "a", "product": "food", "count": 3, "weighed": 14.0, "weighed_count": 1,
             "price_by_weight": 0.90, "prepped_weighed": 33.0, "lost": 1.0, "set_aside": 2.0,
             "travel": 10.0},
            {"key": "b", "product": "food", "count": 1, "weighed": 20.0, "price_total": 18.0,
             "prepped_weighed": 16.0},
        ],
        "runs": [
            {"key": "1", "dryer": "barn", "duration": 30.0, "energy": 16.0},
            {"key": "2", "dryer": "barn", "duration": 28.0, "energy": 15.0},
            {"key": "3", "dryer": "shed", "duration": 33.0, "energy": 17.0},
        ],
        "loads": [
            {"id": "a1", "run": "1", "lot": "a", "wet": 10.0, "dry": 17.0},
            {"id": "b1", "run": "1", "lot": "b", "wet": 6.0, "dry": 9.8},
            {"id": "a2", "run": "2", "lot": "a", "wet": 12.0, "dry": 20.0},
            {"id": "b2", "run": "3", "lot": "b", "wet": 9.0, "dry": 15.0},
        ],
        "packs": [
            {"key": "P", "product": "food", "container": "tin", "count": 6, "net": 7.0},
            {"key": "Q", "product": "food", "container": "jar", "count": 3, "net": 4.0},
        ],
        "uses": [],
        "carried_over": [],
    }  # fmt: skip
    for name, records in changed.items():
        tables[name] = records
    return tables


def lots(*changes: dict[str, Any]) -> Records:
    """The season with other lots."""
    made = season()
    found = [lot | change for lot, change in zip(made["lots"], changes, strict=True)]
    made["lots"] = [{k: v for k, v in lot.items() if v is not None} for lot in found]
    return made


Number = Callable[[float, float], Any]
"""Makes a number that knows how sure it is of a value and its standard uncertainty."""


def value(number: Any) -> float:
    return float(np.mean(getattr(number, "nominal_value", number)))


class Rebuilt:
    """A season of one product with numbers that know how sure they are."""

    def __init__(
        self, tables: Records, weighed: Number = ufloat, between: Number | None = None
    ) -> None:
        """``weighed`` makes a number of a value and its u, ``between`` one that may be anywhere
        between low and high with its middle at the value."""
        self.tables = tables
        self.weighed = weighed
        u = STEP / math.sqrt(12)
        self.wet = {load["id"]: weighed(load["wet"], u / LB) for load in tables["loads"]}
        self.dry = {
            load["id"]: weighed(load["dry"], u) for load in tables["loads"] if "dry" in load
        }
        self.spread = {
            dryer["key"]: weighed(1, dryer.get("mean_power_spread", 0.25))
            for dryer in tables["dryers"]
        }
        self.net = {pack["key"]: weighed(pack["net"], u) for pack in tables["packs"]}
        self.step = u / LB

        def rectangle(row: dict[str, Any], name: str) -> Any:
            width = row.get(f"{name}_high", 0) - row.get(f"{name}_low", 0)
            return (between or weighed)(row[name], width / math.sqrt(12)) if width else row[name]

        self.prep_yield = {row["key"]: rectangle(row, "prep_yield") for row in tables["products"]}
        self.crate = {
            (row["product"], row["container"]): rectangle(row, "weight")
            for row in tables.get("nominal_weights", [])
        }
        self.by_lot = {lot["key"]: self.per_pound(lot) for lot in tables["lots"]}

    def done(self, run: str) -> bool:
        return all("dry" in load for load in self.tables["loads"] if load["run"] == run)

    def per_pound(self, lot: dict[str, Any]) -> Any:
        """What a pound of the lot's usable weight cost."""
        if "weighed" in lot:
            each = self.weighed(lot["weighed"], self.step)
            bought = each * lot["count"] / lot.get("weighed_count", lot["count"])
        else:
            bought = lot["count"] * self.crate[lot["product"], lot["container"]]
        first = [load for load in self.tables["loads"] if "again" not in load]
        loaded = sum(self.wet[load["id"]] for load in first if load["lot"] == lot["key"])
        used = loaded + lot.get("set_aside", 0) + lot.get("lost", 0)
        if "prepped_weighed" in lot:
            prepped = self.weighed(lot["prepped_weighed"], self.step)
        elif lot.get("finished"):
            prepped = used
        else:
            by_yield = bought * self.prep_yield[lot["product"]]
            prepped = used if value(used) > value(by_yield) else by_yield
        paid = lot["price_total"] if "price_total" in lot else lot["price_by_weight"] * bought
        return (paid + lot.get("travel", 0) * 0.50) / (prepped - lot.get("lost", 0))

    def bulk_cost(self, product: str) -> Any:
        """Produce, energy and upkeep of its finished loads, and what was carried over."""
        of_lot = {lot["key"]: lot for lot in self.tables["lots"]}
        cost: Any = 0.0
        for load in self.tables["loads"]:
            lot = of_lot[load["lot"]]
            if lot["product"] == product and self.done(load["run"]) and "again" not in load:
                cost += self.wet[load["id"]] * self.by_lot[lot["key"]]
        for run in self.tables["runs"]:
            if not self.done(run["key"]):
                continue
            loads = [load for load in self.tables["loads"] if load["run"] == run["key"]]
            water = {load["id"]: self.wet[load["id"]] - self.dry[load["id"]] / LB for load in loads}
            own = [load for load in loads if of_lot[load["lot"]]["product"] == product]
            share = sum(water[load["id"]] for load in own) / sum(water.values())
            power = 0.8 if run["dryer"] == "barn" else 0.9
            estimate = power * run["duration"] * self.spread[run["dryer"]]
            upkeep = 2.0 if run["dryer"] == "barn" else 0.0
            cost += (run.get("energy", estimate) * 0.25 + upkeep) * share
        return cost + sum(each["dried"] * each["running"] for each in self.tables["carried_over"])

    def cost(self, product: str = "food") -> Any:
        """c: the running cost by packed weight."""
        of_lot = {lot["key"]: lot["product"] for lot in self.tables["lots"]}
        dried: Any = sum(each["dried"] for each in self.tables["carried_over"])
        for load in self.tables["loads"]:
            if of_lot[load["lot"]] == product and self.done(load["run"]):
                dried += self.dry[load["id"]]
                dried -= self.wet[load["id"]] * LB if "again" in load else 0
        packs = [pack for pack in self.tables["packs"] if pack["product"] == product]
        packed = sum(pack["count"] * self.net[pack["key"]] for pack in packs)
        each = {"tin": 1.9 / 0.95, "jar": 0.1}
        packaging = sum(pack["count"] * each[pack["container"]] for pack in packs)
        names = {pack["key"] for pack in packs}
        bad = [use for use in self.tables["uses"] if use.get("pack") in names]
        good = packed - sum(use["count"] * self.net[use["pack"]] for use in bad)
        crumbs = sum(use["weight"] for use in self.tables["uses"] if "weight" in use)
        return (self.bulk_cost(product) / (dried - crumbs) * packed + packaging) / good


ALL = season()["loads"]
BACK = {"id": "back", "run": "3", "lot": "a", "again": "a1", "wet": 17.4 / LB, "dry": 16.5}
NO_METER = [{k: v for k, v in run.items() if k != "energy"} for run in season()["runs"]]
FINISHED: dict[str, Any] = {"prepped_weighed": None, "finished": True}
BY_RECIPE: dict[str, Any] = {"prepped_weighed": None}

SPREAD = [{"key": "food", "water": WATER, "prep_yield": 0.8, "prep_yield_low": 0.74,
           "prep_yield_high": 0.86}]  # fmt: skip
CHEAP = [{"electricity": 0.02, "travel": 0.50, "labor": 10.0}]
IN_CRATES: dict[str, Any] = {
    "weighed": None, "weighed_count": None, "container": "crate", "prepped_weighed": None,
    "price_total": None, "price_by_weight": 0.9,
}  # fmt: skip
CRATES = [{"product": "food", "container": "crate", "weight": 20.0, "weight_low": 18.0,
           "weight_high": 22.0}]  # fmt: skip
# One run with two products: 9 lb of water of turnips, 6 lb of beets.
MIXED = season(
    products=[
        {"key": "food", "water": WATER, "prep_yield": 0.8},
        {"key": "beet", "water": 0.875, "prep_yield": 0.8},
    ],
    lots=[*season()["lots"][:1], season()["lots"][1] | {"product": "beet"}],
)

CASES: dict[str, Records] = {
    "weighed throughout": season(),
    # All of lot a went into the dryer or was set aside: its prepped weight is that of the loads.
    "finished lots": lots(FINISHED, FINISHED),
    "a finished lot, all of it dried": lots(FINISHED | {"set_aside": 0.0}, {}),
    # 42 × 0.8 = 33.6 lb and 20 × 0.8 = 16 lb: the purchase is behind the prepped weight.
    "prepped by the recipe's yield": lots(BY_RECIPE, BY_RECIPE),
    "prepped by the recipe, paid by weight, nothing lost": lots(
        BY_RECIPE | {"lost": 0.0, "set_aside": 0.0, "travel": 0.0}, {}
    ),
    # 20 × 0.8 = 16 is more than the 15 loaded; 18 × 0.8 = 14.4 is not, so the loads count.
    "by the recipe, but more was loaded": lots({}, BY_RECIPE | {"weighed": 18.0}),
    "a price in all beside one by weight": lots({"price_total": 30.0}, {"price_by_weight": 2.0}),
    "a run that is not done": season(
        loads=[*ALL[:3], {"id": "b2", "run": "3", "lot": "b", "wet": 9.0}]
    ),
    "a run that is not done, of finished lots": lots(FINISHED, FINISHED) | {
        "loads": [*ALL[:3], {"id": "b2", "run": "3", "lot": "b", "wet": 9.0}]
    },
    "a load that went back in": season(loads=[*ALL, BACK]),
    "spoiled packs and crumbs": season(
        uses=[{"pack": "P", "count": 2, "purpose": "spoiled"},
              {"pack": "Q", "count": 1, "purpose": "spoiled"},
              {"product": "food", "weight": 1.5, "purpose": "crumbs"}]
    ),
    "bulk carried over": season(
        carried_over=[{"product": "food", "dried": 30.0, "running": 1.2, "full": 1.9}]
    ),
    "one dryer without a meter": season(runs=[*season()["runs"][:2], NO_METER[2]]),
    "two dryers without a meter": season(runs=NO_METER),
    "a yield with low and high": lots(BY_RECIPE, BY_RECIPE) | {"products": SPREAD},
    "a yield with low and high that nothing rests on": season(products=SPREAD),
    "crates with low and high": lots(IN_CRATES, IN_CRATES) | {
        "products": SPREAD, "nominal_weights": CRATES
    },
    "crates, but prepped was weighed": lots(
        IN_CRATES | {"prepped_weighed": 33.0}, IN_CRATES | {"prepped_weighed": 16.0}
    ) | {"products": SPREAD, "nominal_weights": CRATES},
    "a lot that is not dried yet, of unknown weight": season(
        products=[{"key": "food", "water": WATER, "prep_yield_low": 0.7, "prep_yield_high": 0.9,
                   "prep_yield": 0.8}],
        lots=[*season()["lots"],
              {"key": "c", "product": "food", "count": 1, "price_by_weight": 2.0,
               "prepped_weighed": 3.0, "weighed": 4.0}],
    ),
    "runs shared by two products": MIXED,
    "a load that went back in beside another product": MIXED | {"loads": [*ALL, BACK]},
    "two loads of a product in one run": MIXED | {
        "loads": [*ALL, {"id": "a3", "run": "1", "lot": "a", "wet": 2.0, "dry": 3.1}]
    },
    "all at once": lots(FINISHED, BY_RECIPE) | {
        "products": SPREAD,
        "runs": [NO_METER[0], season()["runs"][1], NO_METER[2]],
        "loads": [*ALL, BACK],
        "uses": [{"pack": "P", "count": 1, "purpose": "spoiled"}],
        "carried_over": [{"product": "food", "dried": 12.0, "running": 1.2, "full": 1.9}],
    },
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_the_law_of_propagation_as_a_reference_library_has_it(name: str) -> None:
    found = Figures("lb", "oz", **CASES[name])
    expected = Rebuilt(CASES[name]).cost()
    assert found("products", "running_per_packed", "food") == pytest.approx(
        expected.nominal_value, rel=1e-12
    )
    assert found("products", "running_per_packed_u", "food") == pytest.approx(
        2 * expected.std_dev, rel=1e-6
    )


@pytest.mark.parametrize(
    "name", ["all at once", "crates with low and high", "runs shared by two products"]
)
def test_numbers_drawn_at_random_spread_as_far(name: str) -> None:
    """Propagation of distributions (JCGM 101:2008), 200,000 trials: rectangles where the product
    data and the scale say low and high, which the bell of the mean power stands beside."""
    chance = np.random.default_rng(7)
    draws = 200_000

    def rectangle(middle: float, u: float) -> Any:
        half = u * math.sqrt(3)
        return chance.uniform(middle - half, middle + half, draws)

    def weighed(middle: float, u: float) -> Any:
        return chance.normal(middle, u, draws) if middle == 1 else rectangle(middle, u)

    trials = Rebuilt(CASES[name], weighed, rectangle).cost()
    found = Figures("lb", "oz", **CASES[name])("products", "running_per_packed_u", "food")
    # The first order of a series in hand: what is left out is of the second.
    assert found == pytest.approx(2 * trials.std(), rel=0.02)


def test_the_parts_add_up_in_squares() -> None:
    found = Figures("lb", "oz", **CASES["all at once"])
    names = ("u_produce", "u_energy", "u_dried", "u_net", "u_recipe")
    parts = [found("products", name) for name in names]
    assert found("products", "u_beside") == 0, "no run held anything else"
    assert all(isinstance(part, float) and part > 0 for part in parts)
    together = 2 * math.sqrt(sum(part**2 for part in parts))  # type: ignore[operator, misc]
    assert found("products", "running_per_packed_u") == pytest.approx(together, rel=1e-12)


def test_each_part_against_the_library_with_the_others_silent() -> None:
    tables = CASES["two dryers without a meter"]
    expected = Rebuilt(tables).cost()
    found = Figures("lb", "oz", **tables)
    shares = [
        v for each, v in expected.error_components().items() if each.nominal_value == 1.0
    ]  # the two dryers' shares; no weight is 1
    energy = math.sqrt(sum(v**2 for v in shares))
    assert len(shares) == 2
    assert found("products", "u_energy") == pytest.approx(energy, rel=1e-9)
    # By hand: 0.25 × (0.8 × 58 h × 0.25) and 0.25 × (0.9 × 33 × 0.25), off independently.
    bulk = 0.25 * math.hypot(0.8 * 58 * 0.25, 0.9 * 33 * 0.25)
    assert found("products", "u_energy") == pytest.approx(bulk / (17 + 9.8 + 20 + 15), rel=1e-9)


def test_runs_of_one_dryer_are_off_together() -> None:
    # Both runs in the barn: 25 % of the whole, not less.
    runs = [run | {"dryer": "barn"} for run in NO_METER]
    found = Figures("lb", "oz", **season(runs=runs))
    energy = found("products", "cost_energy")
    bulk = found("products", "bulk_paid")
    assert isinstance(energy, float) and isinstance(bulk, float)
    assert found("products", "energy_u") == pytest.approx(0.25 * energy / bulk, rel=1e-12)
    assert found("runs", "power_spread", "1") == 0.25


def test_a_scale_whose_step_is_unknown_makes_it_unknown() -> None:
    found = Figures("lb", "oz", **season(scale=[{}]))
    assert found("products", "running_per_packed") is not None
    assert found("products", "running_per_packed_u") is None


def test_the_step_is_a_rectangle() -> None:
    found = Figures("g", "g", scale=[{"resolution": 1.0}])
    assert found("scale", "weighing") == pytest.approx(0.2887, abs=5e-5)


# --- what is not in it, and what would help -----------------------------------


def helps(tables: Records) -> object:
    return Figures("lb", "oz", **tables)("products", "worth_measuring")


def test_what_would_make_it_surer_first() -> None:
    assert helps(CASES["two dryers without a meter"]) == "a power meter"
    assert helps(CASES["weighed throughout"]) == "a finer scale"
    told = "weigh what is estimated"
    assert helps(CASES["prepped by the recipe's yield"]) == told
    assert helps(CASES["a yield with low and high"]) == told
    # No meter either, and the yield weighs more than that.
    assert helps(CASES["a yield with low and high"] | {"runs": NO_METER, "rates": CHEAP}) == told


def test_without_a_scale_that_is_what_is_missing() -> None:
    """Unknown is not zero: of weighings whose step nobody wrote down, none is worth the most."""
    for name in ("weighed throughout", "two dryers without a meter"):
        found = Figures("lb", "oz", **CASES[name] | {"scale": [{}]})
        assert found("products", "running_per_packed_u") is None
        assert found("products", "worth_measuring") == "the scale's resolution, not written down"
        assert found("products", "worth_share") is None
    # With the step, nothing is missing.
    assert Figures("lb", "oz", **season())("products", "uncertainty_lacks") is None
    # Where there is no figure, there is nothing to be sure of.
    unpacked = Figures("lb", "oz", **season(scale=[{}], packs=[]))
    assert unpacked("products", "worth_measuring") is None


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("two dryers without a meter", ("u_energy",)),
        ("weighed throughout", ("u_dried", "u_net")),
        ("a yield with low and high", ("u_recipe",)),
    ],
)
def test_how_much_of_the_uncertainty_it_is(name: str, parts: tuple[str, ...]) -> None:
    """Against the library's parts of the variance: those of what is named, of all of them."""
    found = Figures("lb", "oz", **CASES[name])

    def squares(names: Sequence[str]) -> float:
        return sum(found("products", each) ** 2 for each in names)  # type: ignore[operator, misc]

    every = ("u_produce", "u_energy", "u_dried", "u_net", "u_beside", "u_recipe")
    share = found("products", "worth_share")
    assert share == pytest.approx(squares(parts) / squares(every), rel=1e-9)
    assert isinstance(share, float) and 1 / len(every) < share <= 1 + 1e-9


def test_of_an_estimate_of_unknown_spread_no_share_is_told() -> None:
    found = Figures("lb", "oz", **CASES["prepped by the recipe's yield"])
    assert found("products", "worth_measuring") == "weigh what is estimated"
    assert found("products", "worth_share") is None


def test_packs_of_few_ounces_ask_for_a_finer_scale_and_not_for_more_weighing_of_produce() -> None:
    """Fifty packs that were weighed in steps of a tenth add more than one weighing of produce."""
    dear = [{"key": "a", "product": "food", "count": 1, "weighed": 3.0, "price_by_weight": 30.0,
             "prepped_weighed": 1.0}]  # fmt: skip
    loads = [{"id": "a1", "run": "1", "lot": "a", "wet": 1.0, "dry": 15.9}]
    packs = [{"key": "p", "product": "food", "container": "tin", "count": 50, "net": 0.3}]
    found = Figures("lb", "oz", **season(lots=dear, loads=loads, packs=packs))
    u = {name: found("products", f"u_{name}") for name in ("produce", "dried", "net")}
    assert u["net"] > u["produce"] > u["dried"], u  # type: ignore[operator]
    assert found("products", "worth_measuring") == "a finer scale"


@pytest.mark.parametrize(
    ("name", "energy", "scale"),
    [("two dryers without a meter", True, True), ("weighed throughout", False, True)],
)
def test_what_weighs_most(name: str, energy: bool, scale: bool) -> None:
    found = Figures("lb", "oz", **CASES[name])
    assert found("products", "energy_weighs_most") is energy
    assert found("products", "scale_weighs_most") is scale
    assert found("products", "worth_weighing") == "a finer scale"


def test_dear_produce_and_little_of_it_is_what_is_least_sure() -> None:
    dear = [{"key": "a", "product": "food", "count": 1, "weighed": 3.0, "price_by_weight": 30.0,
             "prepped_weighed": 1.0}]  # fmt: skip
    loads = [{"id": "a1", "run": "1", "lot": "a", "wet": 1.0, "dry": 15.9}]
    found = Figures("lb", "oz", **season(lots=dear, loads=loads))
    assert found("products", "scale_weighs_most") is False
    assert found("products", "worth_measuring") == "weighing produce"


@pytest.mark.parametrize(
    ("change", "unknown"),
    [
        ({}, 0),
        ({"prepped_weighed": None}, 1),
        # Paid by weight, and the weight is the container's: nobody says how far that is off.
        ({"weighed": None, "container": "crate"}, 1),
        ({"weighed": None, "container": "crate", "price_by_weight": None, "price_total": 30.0}, 0),
    ],
)
def test_recipe_values_without_a_spread_are_counted(change: dict[str, Any], unknown: int) -> None:
    made = lots(change, {})
    made["nominal_weights"] = [{"product": "food", "container": "crate", "weight": 14.0}]
    found = Figures("lb", "oz", **made)
    assert found("products", "spreads_unknown") == unknown
    assert found("lots", "spread_unknown", "a") is bool(unknown)


def test_a_weight_that_nobody_weighed_adds_no_weighing() -> None:
    made = lots({"weighed": None, "container": "crate"}, {})
    made["nominal_weights"] = [{"product": "food", "container": "crate", "weight": 14.0}]
    assert Figures("lb", "oz", **made)("lots", "weighed_u", "a") == 0
    assert Figures("lb", "oz", **lots({}, {}))("lots", "times_weighed", "a") == 3
    assert Figures("lb", "oz", **lots({}, {}))("packs", "spoiled_count", "P") == 0


def test_steps_by_hand() -> None:
    found = Figures("lb", "oz", **season())
    step = 0.1 / math.sqrt(12) / 16  # of a weighing, lb
    # Lot a: 42 lb at 0.90 and 5 for the way: 42.80 over 32 lb usable; 22 lb of it dried.
    assert found("lots", "cost_dried", "a") == pytest.approx(42.8 * 22 / 32)
    assert found("lots", "dried_from", "a") == 22
    assert found("lots", "cost_by_usable", "a") == pytest.approx(42.8 * 22 / 32**2)
    assert found("lots", "prepped_u", "a") == pytest.approx(42.8 * 22 / 32**2 * step)
    assert found("lots", "cost_by_price", "a") == pytest.approx(0.9 * 22 / 32)
    assert found("lots", "weighed_u", "a") == pytest.approx(0.9 * 22 / 32 * 3 * step)
    assert found("lots", "paid_by_weight", "a") is True
    assert found("lots", "paid_by_weight", "b") is False
    for name in ("cost_by_loads", "cost_by_yield"):
        assert found("lots", name, "a") == 0
    assert [found("lots", name, "a") for name in ("by_the_loads", "by_the_recipe")] == [False] * 2
    assert found("loads", "cost_by_own", "a1") == found("loads", "cost_by_wet", "a1")
    assert found("loads", "wet_u", "a1") == pytest.approx(42.8 / 32 * step)
    assert found("loads", "wet_u_squared", "a1") == pytest.approx((42.8 / 32 * step) ** 2)
    squares = [found("lots", "lot_u_squared", lot) for lot in ("a", "b")]
    wet = [found("loads", "wet_u_squared", load["id"]) for load in ALL]
    assert found("products", "produce_u_squared") == pytest.approx(sum(squares + wet))  # type: ignore[arg-type, operator]
    bulk = found("products", "bulk_paid")
    assert isinstance(bulk, float)
    assert found("products", "produce_u") == pytest.approx(math.sqrt(sum(squares + wet)) / bulk)  # type: ignore[arg-type, operator]
    assert found("products", "dried_u") == pytest.approx(2 * step * 16 / 61.8)
    assert found("lots", "some_dried", "a") is True
    good, bulk_each = found("products", "cost_of_good"), found("products", "running_bulk")
    assert isinstance(good, float) and isinstance(bulk_each, float)
    assert good == pytest.approx(54 * bulk_each + 6 * 2 + 3 * 0.1)
    # Six tins: what a good ounce costs, less what an ounce of bulk does.
    each = good / 54 - bulk_each
    assert found("packs", "net_u", "P") == pytest.approx(6 * each * step * 16)
    squares = [found("packs", "net_u_squared", key) for key in ("P", "Q")]
    assert found("products", "net_u_squared") == pytest.approx(sum(squares))  # type: ignore[arg-type]
    assert found("products", "net_u") == pytest.approx(math.sqrt(45) * each * step * 16 / good)
    assert found("products", "bulk_in_packed") == pytest.approx(bulk_each)
    whole = [found("products", name) for name in ("u_of_bulk", "u_share")]
    assert whole[0] < whole[1] ** 2 < 1  # type: ignore[operator]


def test_steps_of_energy() -> None:
    found = Figures("lb", "oz", **season(runs=NO_METER))
    assert found("loads", "product_dryer", "a1") == "food/barn"
    barn = [found("loads", "energy_u", load) for load in ("a1", "b1", "a2")]
    assert [found("loads", "dryer_place", load) for load in ("a1", "b1", "a2")] == [1, 1, 1]
    told = [found("loads", "dryer_first", load) for load in ("a1", "b1", "a2")]
    assert told == [True, False, False]
    assert found("loads", "energy_u_together", "a1") == pytest.approx(sum(barn))  # type: ignore[arg-type]
    assert found("loads", "energy_u_together", "a2") == 0
    squares = [found("loads", "energy_u_squared", load["id"]) for load in ALL]
    assert found("products", "energy_u_squared") == pytest.approx(sum(squares))  # type: ignore[arg-type]
    assert found("dryers", "power_spread", "shed") == 0.25, "where nothing is said"


def test_steps_of_product_data() -> None:
    found = Figures("lb", "oz", **CASES["crates with low and high"])
    root = math.sqrt(12)
    assert found("products", "prep_yield_u") == pytest.approx(0.12 / root)
    assert found("nominal_weights", "weight_u", "food/crate") == pytest.approx(4 / root)
    # Lot a: 60 lb at 0.90 and 5 of driving, 48 lb by the yield, 47 lb usable; 22 lb of it dried.
    moved = 59 / 47 * 22 / 47
    assert found("lots", "moved_by_yield", "a") == pytest.approx(moved * 60)
    assert found("lots", "by_container", "a") is True
    assert found("lots", "moved_by_weight", "a") == pytest.approx((0.9 * 22 / 47 - moved * 0.8) * 3)
    assert [found("lots", name, "a") for name in ("yield_open", "spread_unknown")] == [False] * 2
    both = found("lots", "moved_by_yield", "a"), found("lots", "moved_by_yield", "b")
    assert found("products", "yield_u") == pytest.approx(sum(both) * 0.12 / root)  # type: ignore[arg-type]
    yield_u, crate_u = (
        found("products", "yield_u"),
        found("nominal_weights", "container_u", "food/crate"),
    )
    squares = (
        found("products", "yield_u_squared"),
        found("nominal_weights", "container_u_squared", "food/crate"),
    )
    assert squares == pytest.approx([yield_u**2, crate_u**2])  # type: ignore[operator]
    assert found("products", "recipe_u_squared") == pytest.approx(sum(squares))  # type: ignore[arg-type]
    assert found("products", "recipe_u") == pytest.approx(
        math.sqrt(sum(squares)) / found("products", "bulk_paid")  # type: ignore[arg-type, operator]
    )
    assert found("products", "recipe_weighs_most") is True
    assert found("products", "u_recipe") > 20 * found("products", "u_produce")  # type: ignore[operator]


def test_steps_of_a_shared_run() -> None:
    found = Figures("lb", "oz", **MIXED)
    step = 0.1 / math.sqrt(12) / 16
    # Run 1: 16 kWh at 0.25 and 2 of upkeep; 10 lb less 17 oz of one, 6 lb less 9.8 oz of the other.
    ours, all_of_it = 10 - 17 / 16, 16 - 26.8 / 16
    assert found("runs", "running_cost", "1") == pytest.approx(6)
    assert found("runs", "cost_by_water", "1") == pytest.approx(6 / all_of_it)
    assert found("runs", "loads_held", "1") == 2
    assert found("loads", "product_share", "a1") == pytest.approx(ours / all_of_it)
    assert found("loads", "product_share", "a2") == 1
    assert [
        found("loads", name, "a1") for name in ("loads_alike", "weighed_dry", "weighed_beside")
    ] == [1, 1, 2]
    moved = 6 / all_of_it * (1 - ours / all_of_it)
    assert found("loads", "cost_moved", "a1") == pytest.approx(moved)
    by_dry = moved / 16 + found("products", "running_bulk", "food")  # type: ignore[operator]
    assert found("loads", "cost_by_dry", "a1") == pytest.approx(by_dry)
    assert found("loads", "dry_u", "a1") == pytest.approx(by_dry * step * 16)
    assert found("loads", "dry_u_squared", "a1") == pytest.approx((by_dry * step * 16) ** 2)
    beside = 6 / all_of_it * ours / all_of_it * step
    assert found("loads", "beside_u", "a1") == pytest.approx(beside)
    assert found("loads", "beside_u_squared", "a1") == pytest.approx(2 * beside**2)
    assert found("products", "beside_u_squared", "food") == pytest.approx(2 * beside**2)
    bulk = found("products", "bulk_paid", "food")
    assert isinstance(bulk, float)
    assert found("products", "beside_u", "food") == pytest.approx(math.sqrt(2) * beside / bulk)
    squares = [found("loads", "dry_u_squared", load) for load in ("a1", "a2")]
    assert found("products", "dried_u_squared", "food") == pytest.approx(sum(squares))  # type: ignore[arg-type]
    parts = [
        found("products", f"{name}_u", "food")
        for name in ("produce", "dried", "beside", "energy", "recipe")
    ]
    assert found("products", "bulk_u_squared", "food") == pytest.approx(
        sum(part**2 for part in parts)
    )  # type: ignore[operator, misc]
