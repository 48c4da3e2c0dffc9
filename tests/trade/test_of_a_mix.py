"""What is reckoned of a mix, figure by figure, with a pencil: what it weighs and costs, alone and
where another mix holds it, and what it brings."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SECOND, mixed, of_mix, tables
from trade.test_of_a_pack import told
from trade.test_of_a_season import UNPRICED

Changed = dict[str, Any]

# A weight of bulk costs 25 ÷ 1.3 to run, 22 of produce and 3 of energy; in full 10 of wear more.
BULK, IN_FULL = 25 / 1.3, 35 / 1.3
TIME: Changed = {"rates": {"labor": 10.0}}
"""Nobody wrote hours of anything else."""
DEEP: Changed = SECOND | TIME | {
    "mixes": SECOND["mixes"] | {"labor": 0.5},
    "also_mixes": SECOND["also_mixes"] | {"labor": 0.2},
    "also_bought_parts": {"into": "mix", "item": "seeds", "weight": 0.2, "price": 3.0},
    "also_bought_parts_2": {"into": "mix-2", "item": "salt", "weight": 0.3, "price": 1.0},
    "also_bought_parts_3": {"into": "mix-2", "item": "oil", "weight": 0.1, "price": 2.0},
}  # fmt: skip
"""Half of bulk with seeds, half an hour of work. A second one holds a tenth of that, with salt and
oil."""
FIRST, FIRST_FULL = 0.5 * BULK + 3, 0.5 * IN_FULL + 3 + 5


def opened(**changed: Any) -> Changed:
    """The second mix holds a tenth of the mix, and two of its four packs of a tenth that were
    opened; the other two were sold."""
    held = {
        "also_mixes": SECOND["also_mixes"],
        "also_mix_parts": SECOND["also_mix_parts"],
        "also_mix_parts_2": {"into": "mix-2", "pack": "pack", "count": 2},
    }
    return of_mix(**held | changed)


def packed(net: float) -> Changed:
    """Four packs of what came out, 0.5."""
    return of_mix(packs={"net": net})


OF_ONE: list[tuple[Changed, str, str, object]] = [
    # What had been mixed before is in no first cost, and what holds it may go into no third.
    (DEEP, "first_running_cost", "mix", FIRST),
    (DEEP, "first_running_cost", "mix-2", 1 + 2),
    (DEEP, "first_full_cost", "mix", FIRST_FULL),
    (DEEP, "first_full_cost", "mix-2", 1 + 2 + 2),
    (DEEP, "first_running_alone", "mix", FIRST),
    (DEEP, "first_running_alone", "mix-2", None),
    (DEEP, "first_full_alone", "mix", FIRST_FULL),
    (DEEP, "first_full_alone", "mix-2", None),
    # Nobody weighed what came out: 0.7 went in.
    (DEEP, "first_running_by_weight", "mix", FIRST / 0.7),
    (DEEP, "first_full_by_weight", "mix", FIRST_FULL / 0.7),
    (DEEP, "parts_named", "mix", 1 + 1),
    (DEEP, "parts_named", "mix-2", 1 + 2),
    # What went into another one, of which the scale may not have told.
    (opened(), "passed_on", "mix", 0.1),
    (SECOND | {"also_mix_parts": {"into": "mix-2", "mix": "mix"}}, "passed_on", "mix", None),
    # Two packs are named beside it, which a check tells: what they hold is not of the mix's bulk.
    (of_mix(also_mixes=SECOND["also_mixes"],
            also_mix_parts=SECOND["also_mix_parts"] | {"pack": "pack", "count": 2}),
     "passed_on", "mix", 0.1),
    # 2 % of 0.5 are forgiven, 0.01, whichever way.
    (packed(0.49 / 4), "some_left", "mix", False),
    (packed(0.485 / 4), "some_left", "mix", True),
    (packed(0.51 / 4), "taken_above_out", "mix", False),
    (mixed(mixes={"out": 0.51}), "out_above_in", "mix", False),
    # Of what went in, not of what came out: that would be 0.0102.
    (mixed(mixes={"out": 0.5101}), "out_above_in", "mix", True),
    # What an hour costs is not known; what its parts cost is.
    (mixed(mixes={"labor": 1.0}, rates={"labor": None}), "cost_missing", "mix", False),
    # In bulk and in packs, a tenth of it and two, to another: packaging is for nothing here.
    (opened(), "packs_handed_on", "mix", 2 * 0.1 * BULK),
    (opened(), "handed_on", "mix", 0.1 * BULK + 2 * 0.1 * BULK),
    (opened(**UNPRICED), "packs_handed_on", "mix", None),
    (opened(also_mix_parts={"into": "mix-2", "mix": "mix"}), "handed_on", "mix", None),
    (mixed(), "ranked", "mix", "what mixes bring"),
    (mixed(**UNPRICED), "ranked", "mix", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "key", "value"), OF_ONE)
def test_a_figure_of_a_mix(changed: Changed, name: str, key: str, value: object) -> None:
    found = Figures(**tables(**changed))("mixes", name, key)
    assert told(found, value), found
