"""Packs of mixes, figure by figure, with a pencil: how dry they are and how long they keep, where a
pack names two mixes, and where there is another pack that names another mix."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, of_mix, tables
from trade.test_of_a_pack import sealed, told

Changed = dict[str, Any]

YEAR: Changed = {"products": {"best_by": 12.0}}
"""Bulk keeps a year of 365 days from the day of the mix, which was five days ago: 360 more."""
MOIST: Changed = {"loads": {"weighing_before": 1.4}}
"""It still lost 0.1 of 1.4 before its last weighing: the bulk may be moist, and so may the mix."""
SEEDS: Changed = {"into": "mix-2", "item": "seeds", "weight": 0.2, "water_activity": 0.3,
                  "best_by": TODAY + 100}  # fmt: skip
OLD_SEEDS = SEEDS | {"best_by": None}
RAW_SEEDS = SEEDS | {"water_activity": None}
WET_SEEDS = SEEDS | {"water_activity": 0.9}
NEXT = {"key": "next", "product": "food", "date": TODAY - 4, "container": "tin", "net": 0.1}


def two_mixes(seeds: Changed = SEEDS, **changed: Any) -> Changed:
    """The pack names a second mix, of seeds that were bought: a hundred days are left to them."""
    second = {
        "also_mixes": {"key": "mix-2", "product": "food", "date": TODAY - 4},
        "also_bought_parts": seeds,
        "also_draws": {"pack": "pack", "mix": "mix-2"},
    }
    return of_mix(**second | changed)


def two_packs(seeds: Changed = SEEDS, **changed: Any) -> Changed:
    """Another pack names that second mix."""
    named = {"also_packs": NEXT, "also_draws": {"pack": "next", "mix": "mix-2"}}
    return two_mixes(seeds, **named | changed)


def blend(keeps: float | None, **changed: Any) -> Changed:
    """The mix and the pack of it, four days ago, are of a product of their own."""
    own = {"key": "blend", "best_by": keeps}
    return of_mix(
        also_products=own, mixes={"product": "blend"},
        packs={"product": "blend", "net": 0.1, "date": TODAY - 4} | changed.pop("packs", {}),
        **changed,
    )  # fmt: skip


BOTH_RUN_AND_MIX = of_mix(also_draws={"pack": "pack", "run": "run"})

# A mix of 0.5 of bulk that is shown to be dry, five days ago, of which the pack is. What of a mix
# may go into others is the same as of itself, for it holds no mixes.
KEEPS: list[tuple[Changed, str, object]] = [
    (of_mix(**YEAR), "fewest", 360),
    (of_mix(), "fewest", None),
    (YEAR, "fewest", None),
    # The seeds keep shortest; of a mix without a day nothing is known of the pack.
    (two_mixes(**YEAR), "fewest", 100),
    (two_mixes(OLD_SEEDS, **YEAR), "fewest", 360),
    (two_packs(**YEAR), "fewest", 360),
    (two_mixes(**YEAR), "days", 100),
    (two_mixes(OLD_SEEDS, **YEAR), "days", None),
    (two_mixes(), "days", None),
    (two_packs(OLD_SEEDS, **YEAR), "days", 360),
    # A run has no best-by day and needs none.
    (BOTH_RUN_AND_MIX | YEAR, "days", 360),
]  # fmt: skip


@pytest.mark.parametrize("kind", ["first", "mix"])
@pytest.mark.parametrize(("changed", "name", "value"), KEEPS)
def test_how_many_days_are_left_to_its_mixes(
    changed: Changed, name: str, value: object, kind: str
) -> None:
    found = Figures(**tables(**changed))("packs", f"{kind}_{name}", "pack")
    assert told(found, value), found


DRYNESS: list[tuple[Changed, str]] = [
    (of_mix(), "dry"),
    (of_mix(**MOIST), "doubtful"),
    (two_mixes(), "dry"),
    (two_mixes(RAW_SEEDS), "not shown"),
    (two_mixes(WET_SEEDS), "doubtful"),
    # What may be moist decides, whatever is not shown beside it.
    (two_mixes(RAW_SEEDS, **MOIST), "doubtful"),
    # What is in the other pack says nothing of it.
    (two_packs(RAW_SEEDS), "dry"),
    (two_packs(WET_SEEDS), "dry"),
]


@pytest.mark.parametrize("name", ["first_dryness", "dryness_of_mixes", "dryness"])
@pytest.mark.parametrize(("changed", "verdict"), DRYNESS)
def test_it_is_as_dry_as_the_worst_of_its_mixes(changed: Changed, verdict: str, name: str) -> None:
    assert Figures(**tables(**changed))("packs", name, "pack") == verdict


OF_ONE: list[tuple[Changed, str, object]] = [
    # The mix keeps 360 days, the product of the pack a fifth of a year from the day it was packed.
    (blend(2.4, **YEAR), "best_by_mixed", TODAY - 4 + 73),
    (blend(24, **YEAR), "best_by_mixed", TODAY + 360),
    # Nothing is written of how long a blend keeps; how long the mix does is not known.
    (blend(None, **YEAR), "best_by_mixed", TODAY + 360),
    (blend(2.4), "best_by_mixed", None),
    (blend(2.4, **YEAR), "best_by", TODAY - 4 + 73),
    # As last season, though the food keeps a year from the day it was packed.
    (YEAR | {"packs": {"carried_best_by": TODAY + 9}}, "best_by_opened", TODAY + 9),
    (YEAR | {"packs": {"carried_best_by": TODAY + 9}}, "best_by", TODAY + 9),
    (YEAR, "best_by_opened", TODAY - 7 + 365),
    # Three hundred are enough for 237.4 of oxygen; but what is of a mix is not of a sealed load.
    (of_mix(**sealed(absorber=300.0)), "sealed_well", False),
    (sealed(absorber=300.0), "sealed_well", True),
    # The mix was made after the day of the pack, or after that of the other one alone.
    (two_packs(packs={"net": 0.1, "date": TODAY - 4}, mixes={"date": TODAY - 3}), "mixes_later", 1),
    (two_packs(also_packs=NEXT | {"date": TODAY - 6}, packs={"net": 0.1, "date": TODAY - 4}),
     "mixes_later", 0),
    # Nothing is shown of the bulk in it; the pack names no run.
    (of_mix(loads={"weighing_before": None}), "dryness_not_shown", True),
    (of_mix(loads={"weighing_before": None}), "dryness_of_loads", "origin not named"),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_pack_of_a_mix(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("packs", name, "pack")
    assert told(found, value), found


def test_a_use_of_a_pack_tells_how_dry_its_mix_is() -> None:
    for loads, verdict in ({}, "dry"), ({"weighing_before": None}, "not shown"):
        found = Figures(**tables(**of_mix(loads=loads)))
        assert found("uses", "pack_dryness") == verdict
        assert found("packs", "dryness_of_loads", "pack") == "origin not named"
