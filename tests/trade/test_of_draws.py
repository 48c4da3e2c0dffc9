"""What stands behind a pack, row by row of what it names: a run, two of them, a mix, two of them, a
mix that is not there. Figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SECOND, TODAY, TWO_RUNS, of_mix, tables
from trade.test_of_a_pack import NONE_SHOPS, told
from trade.test_of_packs_and_mixes import BOTH_RUN_AND_MIX, MOIST, SEEDS, WET_SEEDS, two_mixes

Changed = dict[str, Any]

UNSHOWN: Changed = {"loads": {"weighing_before": None}}
LEFT_OVER: Changed = {"packs": {"net": 0.1, "carried_running": 3.0}}
NO_SUCH_MIX = of_mix(draws={"run": None, "mix": "nothing"})
ONE_ROW = of_mix(draws={"mix": "mix"})
"""One row names the run and the mix: an error of its own. What is of a mix is not of the run."""
DEEP = SECOND | {"draws": {"run": None, "mix": "mix-2"}, "packs": {"net": 0.01}}
"""The pack is of the mix that holds another."""
OPEN_END: Changed = {"runs": {"duration": None}}
MIDNIGHT: Changed = {"runs": {"duration": 24.0}}
"""The run that began eight days ago ended as the seventh began."""

NOTHING_OF_A_MIX: dict[str, object] = {
    "mix_out": 0, "mix_drawn": 0, "mix_share": 0, "brought": 0, "handed_on": 0, "packing": 0,
    "mix_first_running": 0, "mix_first_full": 0, "mix_running": 0, "mix_full": 0,
    "first_unshown": False, "mix_unshown": False, "of_deep_mix": False, "filled_early": False,
}  # fmt: skip


@pytest.mark.parametrize("name", NOTHING_OF_A_MIX)
def test_nothing_of_a_run_is_of_a_mix(name: str) -> None:
    """Not even an unknown: what a pack of a mix brought is a total with these."""
    found = Figures(**tables(**UNSHOWN))("draws", name)
    assert told(found, NOTHING_OF_A_MIX[name]), found


# The run of 30 hours began eight days ago and gave 1.3; the pack was filled the day after.
OF_ONE: list[tuple[Changed, str, object]] = [
    (of_mix(), "run_gave", 0),
    ({}, "run_gave", 1.3),
    # What the mix is of does not count as loads of a run, even where the row names one as well.
    (ONE_ROW | MOIST, "doubtful_loads", 0),
    (ONE_ROW | UNSHOWN, "unshown_loads", 0),
    (ONE_ROW, "dry_loads", 0),
    (MOIST, "doubtful_loads", 1),
    (UNSHOWN, "unshown_loads", 1),
    ({}, "dry_loads", 1),
    # Bulk and seeds are two parts to trace; the loads of its product in the run are one.
    (of_mix(also_bought_parts=SEEDS | {"into": "mix"}), "loads_behind", 2),
    ({}, "loads_behind", 1),
    # Without the end of the run, or the day of the pack, it says nothing of what the run gave.
    ({}, "tells_nothing", False),
    (OPEN_END, "tells_nothing", True),
    ({"packs": {"date": None}}, "tells_nothing", True),
    (TWO_RUNS, "tells_nothing", True),
    (OPEN_END, "packed_after", False),
    ({"packs": {"date": None}}, "packed_after", False),
    ({}, "packed_after", True),
    # No run ended after the pack was filled from a mix.
    (of_mix(), "packed_early", False),
    (MIDNIGHT | {"packs": {"date": TODAY - 8}}, "packed_early", True),
    (MIDNIGHT | {"packs": {"date": TODAY - 7}}, "packed_early", False),
    # The mix holds another mix: that is one; the first holds bulk alone, however moist.
    (DEEP, "of_deep_mix", True),
    (DEEP | MOIST, "of_deep_mix", True),
    (of_mix(**MOIST), "of_deep_mix", False),
    (of_mix(also_bought_parts=WET_SEEDS | {"into": "mix"}), "of_deep_mix", False),
    # It may not be dry, even with two runs named beside it.
    (of_mix(**MOIST), "first_doubtful", True),
    (of_mix(**MOIST) | {"also_draws": {"pack": "pack", "run": "run"},
                        "also_draws_2": {"pack": "pack", "run": "other"}}, "first_doubtful", True),
    (of_mix(), "first_doubtful", False),
    # What may not be dry is not said to be not shown as well.
    (of_mix(**MOIST), "first_unshown", False),
    (of_mix(**MOIST), "mix_unshown", False),
    (of_mix(**UNSHOWN), "first_unshown", True),
    (of_mix(**UNSHOWN), "mix_unshown", True),
    # Of a mix that nobody wrote down, nothing is shown, and nothing speaks against it.
    (NO_SUCH_MIX, "first_doubtful", False),
    (NO_SUCH_MIX, "mix_doubtful", False),
    (NO_SUCH_MIX, "first_unshown", True),
    (NO_SUCH_MIX, "mix_unshown", True),
    # As dry as the mix, not as the loads of the runs, of which the pack names none.
    (of_mix(), "pack_dryness", "dry"),
    (of_mix(**UNSHOWN), "pack_dryness", "not shown"),
    # Last season's mix has the same name: the pack is not of this one.
    (of_mix(), "mix_share", 1),
    (of_mix(**LEFT_OVER), "mix_share", 0),
    # What a use brought is not known, so the mix's part of it is not; a run has no part in it.
    ({"uses": {"price": None}}, "brought", 0),
    (of_mix(uses={"price": None}), "brought", None),
    # Two for 9 less a tenth, and the other two at a shop's 30 by weight.
    (of_mix(), "brought", 2 * 9 * 0.9 + 2 * 0.1 * 30),
    (of_mix(**NONE_SHOPS), "brought", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_what_a_pack_names(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("draws", name, "1")
    assert told(found, value), found


def test_a_run_named_beside_a_mix_without_a_weight_has_no_share() -> None:
    """Not known is only the mix's share, which is all of it or not."""
    found = Figures(
        **tables(**BOTH_RUN_AND_MIX | {"mix_parts": {"into": "mix", "product": "food"}})
    )
    assert found.numbers.cells["draws"]["mix_share"] == [None, 0]


def opened(**changed: Any) -> Changed:
    """Three of the four packs were opened for a third mix."""
    third = {
        "also_mixes_3": {"key": "mix-3", "product": "food", "date": TODAY - 3},
        "also_mix_parts_3": {"into": "mix-3", "pack": "pack", "count": 3},
        "uses": None,
        "counts": None,
    }
    return third | changed


def test_packs_opened_for_another_mix_are_handed_on_by_what_came_out() -> None:
    """0.5 of bulk at 25 ÷ 1.3, and 0.2 of seeds for 1.40: the pack is 5 and 2 sevenths of them."""
    found = Figures(**tables(**two_mixes(SEEDS | {"price": 1.4}, **opened())))
    each = 0.1 * (0.5 * 25 / 1.3 + 1.4) / 0.7
    handed = [5 / 7 * 3 * each, 2 / 7 * 3 * each]
    assert found.numbers.cells["draws"]["handed_on"] == pytest.approx(handed)


def test_packs_of_a_run_hand_nothing_on_whatever_they_cost() -> None:
    """What the lot cost is not known, nor what the pack did."""
    found = Figures(**tables(lots={"price_total": None}, **opened()))
    assert found("packs", "running_each", "pack") is None
    assert told(found("draws", "handed_on", "1"), 0)
