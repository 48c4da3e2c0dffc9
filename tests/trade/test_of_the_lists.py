"""Lists that people read, row by row, with a pencil: what mixes bring, what to eat first, what is
asked in each channel, what others ask."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SIZE, TODAY, tables
from trade.test_of_a_mix import BULK, opened
from trade.test_of_a_pack import sealed, told

Changed = dict[str, Any]

# One of 0.3, at 35 ÷ 1.3 by weight; at the stall a tenth of the price is gone.
FLOOR = 0.3 * 35 / 1.3
WELL = sealed(absorber=300.0, keeps=2.0)
SHELF: Changed = WELL | {"products": WELL.get("products", {}) | {"best_by": 12.0}}
"""Sealed well: the food keeps a year, its container two."""
FORM: Changed = {"product": "food", "net": 1.0, "form": "frozen"}
FROZEN: Changed = {
    "also_offers": FORM | {"price": 12.0},
    "also_offers_2": FORM | {"price": 8.0},
    "also_offers_3": FORM | {"price": 10.0},
}

# Of half of bulk four packs of a tenth: two were sold at 9 with a tenth of fees, two were opened
# for another mix, which took a tenth in bulk as well. The other has brought nothing yet.
SOLD, GIVEN = 2 * 9 * 0.9, (0.1 + 2 * 0.1) * BULK
ROWS: list[tuple[Changed, str, str, list[object]]] = [
    (opened(), "worth_mixing", "mix", ["mix", "mix-2"]),
    (opened(), "worth_mixing", "brought", [SOLD, 0]),
    (opened(), "worth_mixing", "parts_cost", [0.5 * BULK - GIVEN, GIVEN]),
    (opened(), "worth_mixing", "earned", [SOLD + GIVEN - 0.5 * BULK, 0 - GIVEN]),
    # Two hours of mixing and one of packing; of the other nobody wrote down any.
    (opened(mixes={"labor": 2.0}, packs={"net": 0.1, "labor": 1.0}), "worth_mixing",
     "earned_per_hour", [(SOLD + GIVEN - 0.5 * BULK) / 3, None]),
    (SHELF, "eat_first", "net", [0.3]),
    (SHELF, "eat_first", "best_by", [TODAY - 7 + 2 * 365]),
    # The stall is given up half of the price, and half is to be left: of that nothing may be cost.
    ({"pricing": {"margin": 0.5, "fees": 0.5}}, "channels", "for_cost_left", [None, 0.5]),
    # What is asked is the floor where nothing is taken off; at the stall a tenth is.
    ({"asking": SIZE | {"price": FLOOR}}, "price_list", "below_floor", [True, False]),
    # Nobody knows the day of the season, so which price holds is not known; that it has no row is.
    ({"season": {"as_of": None}, "asking": SIZE,
      "prices": {"product": "food", "container": "tin", "net": 0.5}},
     "asking", "not_listed", [True]),
    # In another form from the lowest; what is dried as ours is has no place there.
    (FROZEN, "offers", "price_other_rank", [None, 3, 1, 2]),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "table", "name", "values"), ROWS)
def test_a_column_of_a_list(changed: Changed, table: str, name: str, values: list[object]) -> None:
    found = Figures(**tables(**changed)).numbers.cells[table][name]
    assert len(found) == len(values) and all(map(told, found, values)), found


# Nobody weighed them as bought: a box holds from 24 to 26, a crate from 9 to 11. Paid by weight,
# the lot in a box costs 20 and 20 ÷ 25 of driving: where a box weighs more, that falls by 20 ÷ 25².
# Of the crate at 6, half of the 8 that it gives was dried: 3, which falls by 3 ÷ 10.
BOX: Changed = {"product": "food", "container": "box", "weight": 25.0, "weight_low": 24.0,
                "weight_high": 26.0}  # fmt: skip
CRATE: Changed = {"product": "food", "container": "crate", "weight": 10.0, "weight_low": 9.0,
                  "weight_high": 11.0}  # fmt: skip
SPREAD = 2 / 12**0.5
BOXED: Changed = {"weighed": None, "container": "box", "prepped_weighed": None,
                  "price_total": None, "price_by_weight": 2.0}  # fmt: skip
CRATED: Changed = {"key": "crated", "product": "food", "container": "crate", "price_each": 6.0,
                   "date": TODAY - 9}  # fmt: skip


@pytest.mark.parametrize(("price", "crate"), [(6.0, -6 * 4 / (0.8 * 10) / 10), (None, None)])
def test_a_container_moves_the_cost_of_its_own_lots(
    price: float | None, crate: float | None
) -> None:
    made = tables(
        lots=BOXED, nominal_weights=BOX, also_nominal_weights=CRATE,
        also_lots=CRATED | {"price_each": price},
        also_loads={"id": "crated", "run": "run", "lot": "crated", "wet": 4.0, "dry": 0.6},
    )  # fmt: skip
    found = Figures(**made).numbers.cells["nominal_weights"]["container_u"]
    assert told(found[0], -20 / 25**2 * SPREAD), found
    assert told(found[1], crate and crate * SPREAD), found
