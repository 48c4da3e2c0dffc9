"""How sure a product's cost by weight is, part by part, with a pencil: what adds how much, and what
adds most."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import tables
from trade.test_of_a_pack import told
from trade.test_of_a_product import NO_METER
from trade.test_of_a_season import LEFT_OVER, OTHER, UNPRICED

ROOT = 12**0.5
"""A scale in steps is off by one over the root of twelve of a step."""
STEP: dict[str, Any] = {"scale": {"resolution": 0.1}}
U = 0.1 / ROOT
NO_LOADS: dict[str, Any] = {
    "loads": None, "packs": None, "draws": None, "uses": None, "counts": None,
}  # fmt: skip
TINS = {"container": "tin", "cost": 0.6}
"""0.6 on each of 0.3: 2 by weight."""


def by_recipe(width: float, **changed: Any) -> dict[str, Any]:
    """11 for 22 of a yield of 0.8, give or take half of a width: of the 8.8, 8 are in the dryer and
    cost 20. So much more yield, and they cost 20 ÷ 8.8 × 11 = 25 times that less."""
    spread = {"prep_yield_low": 0.8 - width / 2, "prep_yield_high": 0.8 + width / 2}
    return {
        "products": spread,
        "lots": {"prepped_weighed": None, "weighed": 11.0},
        "scale": {"resolution": 0.13},
    } | changed


OFTEN: dict[str, Any] = {"loads": {"wet_weighings": 100}}
THEIRS: dict[str, Any] = OTHER | {
    "also_products": {"key": "other", "water": 0.8, "prep_yield": 0.9, "prep_yield_low": 0.85,
                      "prep_yield_high": 0.95},
    "also_lots": {"key": "b", "product": "other", "container": "crate", "price_total": 1.0},
    "nominal_weights": {"product": "other", "container": "crate", "weight": 4.0,
                        "weight_low": 3.8, "weight_high": 4.2},
    "also_packs": {"key": "theirs", "product": "other", "container": "tin", "count": 2, "net": 0.3},
    "parts": TINS,
}  # fmt: skip
"""Another product, whose lot goes by a crate and by the recipe."""
THEIR_POWER: dict[str, Any] = {
    "dryers": {"mean_power": 400.0},
    "also_runs": OTHER["also_runs"] | {"energy": None},
}
BESIDE: dict[str, Any] = {
    "also_products": {"key": "other"},
    "also_lots": {"key": "b", "product": "other", "prepped_weighed": 3.0, "price_total": 1.0},
    "also_loads": {"id": "o", "run": "run", "lot": "b", "wet": 3.0, "dry": 0.8},
}
"""Another product in the same run: 2.2 of 8.9 of water are of it."""
GUESSED: dict[str, Any] = OTHER | {
    "lots": {"weighed_about": True},
    "loads": {"wet_about": True},
    "packs": {"net_about": True},
    "also_lots": OTHER["also_lots"] | {"weighed_about": True, "price_total": 1.0},
    "also_loads": OTHER["also_loads"] | {"wet_about": True},
    "also_packs": {"key": "theirs", "product": "other", "net": 0.1, "net_about": True},
}
"""A lot, a load and a pack whose weights were written as about; three more of the other product."""

# 8 were prepped for 22 and dried to 1.3 with metered energy for 3, all of it in bulk or packed for
# nothing: what a part moves of the 25 is moved over 1.3. A weight costs 25 ÷ 1.3 dry and 22 ÷ 8 =
# 2.75 wet, and 2.75 as well when prepped.
OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    # What one row of it adds is not known.
    (STEP | {"runs": {"energy": None}}, "produce_u_squared", None),
    (STEP | UNPRICED, "produce_u_squared", None),
    (STEP, "produce_u_squared", 2 * (2.75 * U) ** 2),
    (NO_LOADS, "produce_u_squared", None),  # its lot was weighed, in steps nobody knows
    (STEP | {"rates": {"electricity": None}}, "energy_u_squared", None),
    (STEP, "energy_u_squared", 0),
    (STEP | UNPRICED, "dried_u_squared", None),
    (STEP, "dried_u_squared", (25 / 1.3 * U) ** 2),
    (STEP | {"runs": {"energy": None}}, "beside_u_squared", None),
    (STEP, "beside_u_squared", 0),
    (STEP | UNPRICED, "net_u_squared", None),
    (STEP | {"parts": TINS}, "net_u_squared", (4 * 2 * U) ** 2),
    (by_recipe(0.12), "yield_u", 25 * 0.12 / ROOT),
    (by_recipe(0.12, lots={"prepped_weighed": None, "weighed": 11.0, "price_total": None}),
     "yield_u", None),
    # A meter is not off, whatever the run was in.
    ({"runs": {"dryer": None}}, "energy_u_squared", 0),
    # What is of last season's packs or of the other product is in nothing of this one.
    (STEP | LEFT_OVER | {"parts": TINS}, "net_u_squared", (4 * 2 * U) ** 2),
    (STEP | THEIRS, "net_u_squared", (4 * 2 * U) ** 2),
    (STEP | OTHER | THEIR_POWER, "energy_u_squared", 0),
    (STEP | THEIRS, "recipe_u_squared", 0),
    (THEIRS | by_recipe(0.12), "yield_u", 25 * 0.12 / ROOT),
    (STEP | THEIRS, "yield_u", None),  # nobody says how far its own may be off
    (GUESSED, "spreads_unknown", 3),
    # 6.7 of 8.9 of water bear so much of 3; the other's weighings, wet and dry, move that.
    (STEP | BESIDE, "u_beside", 2**0.5 * 3 / 8.9 * 6.7 / 8.9 * U / 1.3),
    # In steps of 0.13 weighing dry is worth 23 ÷ 1.3 × 0.13 = 2.3, as 25 × 0.092 of yield is.
    (by_recipe(0.092), "recipe_weighs_most", False),
    (by_recipe(0.093), "recipe_weighs_most", True),
    # Lot and load wet, √(1.8² + 2.5²) × 0.13 = 0.4: more than that, and less than dry; then less
    # than wet by a hundred weighings, 3.3, and more than dry.
    (by_recipe(0.05), "recipe_weighs_most", False),
    (by_recipe(0.11, **OFTEN), "recipe_weighs_most", False),
    (by_recipe(0.14, **OFTEN), "recipe_weighs_most", True),
    ({}, "recipe_weighs_most", False),
    ({}, "scale_weighs_most", False),
    (STEP, "scale_weighs_most", True),
    # 26.4 kWh are 6.60: 28.60 ÷ 1.3 = 22 dry. That are 2.75 × √64, of 63 weighings wet and one
    # prepped.
    (STEP | {"runs": {"energy": 26.4}, "loads": {"wet_weighings": 63}}, "scale_weighs_most", False),
    (STEP | {"runs": {"energy": 26.4}, "loads": {"wet_weighings": 62}}, "scale_weighs_most", True),
    # The 3 for energy by power and time may be a quarter off: 0.75, as 25 ÷ 1.3 × 0.039.
    (NO_METER | {"scale": {"resolution": 0.039 * ROOT}}, "energy_weighs_most", False),
    (NO_METER | {"scale": {"resolution": 0.0389 * ROOT}}, "energy_weighs_most", True),
    (NO_METER | {"scale": {"resolution": 0.1 * ROOT}}, "energy_weighs_most", False),
    # Dry 25 ÷ 1.3 × 0.03 = 0.58, wet 2.75 × √101 × 0.03 = 0.83.
    (NO_METER | OFTEN | {"scale": {"resolution": 0.03 * ROOT}}, "energy_weighs_most", False),
    (STEP, "u_of_scales", 25 / 1.3 * U / 1.3),
    (STEP | OFTEN, "u_of_scales", 101**0.5 * 2.75 * U / 1.3),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_how_sure_a_cost_by_weight_is(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("products", name, "food")
    assert told(found, value), found
