"""What is reckoned of one product and said of it, figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import mixed, of_mix, tables
from trade.test_of_a_load import NEXT, UNPACKED
from trade.test_of_a_pack import FREE, told
from trade.test_of_a_season import LEFT_OVER, OTHER, UNPRICED

ALL_TASTED: dict[str, Any] = {"uses": FREE | {"purpose": "sample", "count": 4}, "counts": None}
CARRIED: dict[str, Any] = {
    "carried_over": {"product": "food", "dried": 1.0, "running": 9.0, "full": 11.0},
    "uses": None,
    "counts": None,
}
"""1 of bulk left from last season beside the 1.3: 2 % of 2.3 are 0.046."""


def one_pack(net: float) -> dict[str, Any]:
    return CARRIED | {"packs": {"count": 1, "net": net}}


A_SECOND_RUN: dict[str, Any] = {
    "lots": {"prepped_weighed": 10.0},
    "also_runs": NEXT,
    "also_loads": {"id": "more", "run": "next", "lot": "lot", "wet": 2.0},
    "also_packs": {"key": "few", "product": "food", "container": "tin", "count": 1, "net": 0.05},
    "also_draws": {"pack": "few", "run": "next"},
}
"""Of 0.3 of solids 0.05 were packed: that does not tell the load's dry weight."""
THEIRS_NOT_TOLD: dict[str, Any] = OTHER | {
    "also_loads": OTHER["also_loads"] | {"dry": None},
    "also_packs": {"key": "few", "product": "other", "count": 1, "net": 0.1},
    "also_draws": {"pack": "few", "run": "two"},
}
"""Of the other's 0.6 of solids 0.1 were packed."""
KILOGRAMS: dict[str, Any] = {"season": {"money_by_weight": "USD/kg"}}
NAMED: dict[str, Any] = KILOGRAMS | {"products": {"name": "Food"}}


def cheap(price: float) -> dict[str, Any]:
    """Nothing but the lot costs anything: 1.3 of dried food at its price."""
    return KILOGRAMS | {
        "rates": {"electricity": 0.0, "travel": 0.0},
        "lots": {"price_total": price},
    }


NO_METER: dict[str, Any] = {"runs": {"energy": None}, "dryers": {"mean_power": 400.0}}
"""30 hours at 400 W: 12 kWh for 3, of a running cost of 25."""
FROZEN = {"key": "frozen", "product": "food", "net": 2.0, "price": 10.0, "form": "frozen"}
THEIR_OFFERS: dict[str, Any] = {
    "also_offers": FROZEN,
    "also_products": {"key": "other"},
    "also_offers_2": FROZEN | {"key": "theirs", "product": "other", "price": 14.0},
    "also_offers_3": {"key": "dried", "product": "other", "net": 1.0, "price": 20.0},
}
"""Of each product one that is frozen and one that is dried."""
MIXED_OF_OTHER: dict[str, Any] = mixed(
    mixes={"product": "other"}, also_products={"key": "other", "name": "Other"}
)
"""0.5 of food was made into something that nobody bought."""

# 8 were prepped for 22, and dried to 1.3 with energy for 3; 4 × 0.3 were packed, of which 2 were
# sold for 9 each less a tenth; a shop asks 30. The dryer wears 10 a run.
OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    # What is lost in a run that failed was not dried.
    ({"runs": {"failed": True}}, "water_removed", 0),
    (one_pack(2.34), "packed_beyond", False),
    (one_pack(2.35), "packed_beyond", True),
    (one_pack(2.26), "left_in_bulk", False),
    (one_pack(2.25), "left_in_bulk", True),
    # 1.25 of 1.3 are packed, though of a load nobody knows the dry weight.
    (A_SECOND_RUN, "loads_not_told", 1),
    (A_SECOND_RUN, "packed_beyond", False),
    (A_SECOND_RUN, "packed_unweighed", False),
    ({"packs": {"net": 0.34}}, "packed_unweighed", False),
    (THEIRS_NOT_TOLD, "loads_not_told", 0),
    # What is lacking is what was sold or kept: all of it was tasted.
    (ALL_TASTED, "worth_lacks", "a weight sold or kept"),
    # A shop would have got 0.6 × 30; what that saved is not known while the cost is not.
    (UNPRICED, "instead_compared", None),
    ({"runs": {"energy": None}}, "instead_compared", None),
    # Two of a mix are on the shelf, of 0.1 each.
    (of_mix(), "instead_compared", 2 * 0.1 * 30),
    ({"offers": None}, "ranked", None),
    ({}, "ranked", "worth drying"),
    # By hour of the machine it is ranked, whether hours of work were written or not.
    ({}, "unranked", False),
    # It has a cost of its own beside its mix's, of which a fifth was lost.
    (mixed(mixes={"out": 0.4}), "full_loose", 35 / 1.3),
    (mixed(mixes={"out": 0.4}), "full_mixed", 35 / 1.3 * 0.5 / 0.4),
    # A load, a pack, 0.5 of bulk for a mix; a mix of packs takes no bulk.
    (mixed(), "bulk_moves", 3),
    (mixed(mix_parts={"product": None, "weight": None, "pack": "pack"}), "bulk_moves", 2),
    (MIXED_OF_OTHER, "mixes_made", 0),
    (mixed(), "mixes_made", 1),
    (UNPRICED | UNPACKED, "cost_missing", True),
    ({"dryers": {"price": None}}, "cost_missing", False),
    # Hours of packs left from last season were of that one.
    (LEFT_OVER | {"packs": {"labor": 2.0}}, "hours_intact", 2),
    (LEFT_OVER | {"packs": {"labor": 2.0}}, "pack_hours", 2),
    (NO_METER, "running_estimated", 3),
    (NO_METER, "estimated_share", 3 / 25),
    (mixed(), "estimated_share", None),
    # 10 for 2 of frozen food; 14 for 2 beside it: the middle is between both.
    ({"also_offers": FROZEN}, "price_other_known", 1),
    ({"also_offers": FROZEN}, "alternatives_median", 5),
    ({"also_offers": FROZEN, "also_offers_2": FROZEN | {"key": "dear", "price": 14.0}},
     "alternatives_median", 6),
    (THEIR_OFFERS, "alternatives_median", 5),
    (THEIR_OFFERS, "price_other_known", 1),
    # In words: 25 ÷ 1.3 is 19.2308, 0.3 ÷ 1.3 is 0.2308, 0.16 ÷ 1.3 is 0.12308.
    (KILOGRAMS | {"pricing": {"would_buy": 0.0}}, "said_of_cost",
     "running cost 19.23 USD/kg packed"),
    (cheap(0.3), "said_of_cost", "running cost 0.23 USD/kg packed"),
    (cheap(0.3) | mixed(), "mixed_told", "0.23 USD/kg"),
    (cheap(0.16) | mixed(), "mixed_told", "0.1231 USD/kg"),
    (NO_METER, "said_of_estimates", "; 12 % of it rests on estimates"),
    (NAMED | UNPACKED, "headline",
     "Food: no cost by packed weight yet; 0 % of it rests on estimates"),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_product(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("products", name, "food")
    assert told(found, value), found


# The second product: another that was dried, one of a mix, or nothing but a name.
OF_OTHER: list[tuple[dict[str, Any], str, object]] = [
    ({"also_products": {"key": "other"}}, "only_mixed", False),
    (MIXED_OF_OTHER, "only_mixed", True),
    (MIXED_OF_OTHER | OTHER | {"also_products": {"key": "other"}}, "only_mixed", False),
    (MIXED_OF_OTHER | UNPRICED, "headline", "Other: mixed; what it costs is not known yet"),
    (THEIRS_NOT_TOLD, "loads_not_told", 1),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_OTHER)
def test_a_figure_of_a_second_product(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("products", name, "other")
    assert told(found, value), found
