"""What is said of a dryer that stands beside another, has not run, or has more of a plan before it
than is written down."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade import small
from trade.test_checks import PLANNED, TODAY, tables
from trade.test_of_a_dryer import SAVED
from trade.test_of_a_load import UNPACKED
from trade.test_of_a_pack import told
from trade.test_of_a_season import OTHER

Changed = dict[str, Any]

SHED: Changed = {"also_dryers": {"key": "shed", "price": 50.0, "life": 10}}
"""A second dryer that has not run."""
BESIDE: Changed = SHED | OTHER | {
    "also_products": {"key": "other", "name": "Other", "water": 0.8},
    "products": {"name": "Food"},
    "also_runs": OTHER["also_runs"] | {"dryer": "shed"},
}  # fmt: skip
"""It dried the second product, of which nothing is packed."""
ALMOST: Changed = {"dryers": {"price": SAVED * (1 + 7e-10), "runs_per_year": 73}}
"""All but seven tenths of a billionth of its price was saved by the one run."""
ROW = PLANNED | {"start": TODAY}
OPEN_IN_SHED = ROW | {"dryer": "shed", "net": None}
OPEN_ROW = {"product": "food", "container": "tin", "dryer": "dryer"}
"""A row of the plan without a count and a net weight."""

OF_ONE: list[tuple[Changed, str, str, object]] = [
    # Of what never ran nobody can tell when it last did.
    (SHED, "idle", "shed", None),
    (SHED, "last_end", "shed", None),
    (SHED, "payback_word", "shed", "not known: no run is done this season"),
    (SHED, "idle", "dryer", 0),
    # A billionth of a run counts as none, in words as in hours.
    (ALMOST, "said_of_left", "dryer", "already paid for"),
    (ALMOST, "payback_time", "dryer", None),
    # No product lacks anything, and of each that this dryer dried some is packed.
    ({}, "lacking_first", "dryer", None),
    ({}, "unpacked_first", "dryer", None),
    ({"offers": None}, "lacking_first", "dryer", 1),
    (BESIDE | UNPACKED, "unpacked_first", "dryer", 1),
    (BESIDE | UNPACKED, "unpacked_first", "shed", 2),
    (BESIDE | UNPACKED, "payback_without", "dryer", "Food: none of it is packed yet"),
    (BESIDE | UNPACKED, "payback_without", "shed", "Other: none of it is packed yet"),
    (BESIDE, "payback_without", "dryer", None),
    # What the shed is to do is not known; that is no matter of the other's.
    (SHED | {"plan": ROW, "also_plan": OPEN_IN_SHED}, "rows_unknown", "dryer", 0),
    (SHED | {"plan": ROW, "also_plan": OPEN_IN_SHED}, "rows_unknown", "shed", 1),
    # 7 more of 0.3, less 0.1 in bulk, are 12.3 of fresh food: two runs of 8, of 30 h.
    ({"plan": PLANNED}, "hours_planned", "dryer", 2 * 30),
    ({"plan": PLANNED, "also_plan": OPEN_ROW}, "hours_planned", "dryer", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "key", "value"), OF_ONE)
def test_a_figure_of_a_dryer(changed: Changed, name: str, key: str, value: object) -> None:
    found = Figures(**tables(**changed))("dryers", name, key)
    assert told(found, value), found


def test_that_each_run_saved_as_much_is_an_estimate() -> None:
    """All weights are from a scale; how much other runs saved is not known."""
    found = small.Figures(Figures(**tables(dryers={"runs_before": 5})).numbers)
    assert found.mark("dryers", "saved", "dryer") is False
    assert found.mark("dryers", "saved_by_runs", "dryer") is True
