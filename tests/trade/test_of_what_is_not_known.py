"""What is not known, or left out, is told as nothing else: figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import mixed, of_mix, tables
from trade.test_of_a_pack import FREE, told

Changed = dict[str, Any]

ONE_EATEN: Changed = {
    "uses": FREE | {"purpose": "household", "count": None},
    "counts": None,
}
"""A use of a pack that does not say of how many."""
MOIST_MIX: Changed = of_mix(mixes={"water_activity": 0.7})

CASES: list[tuple[Changed, str, str, object]] = [
    # Whoever does not say how dry it is to be is not told that all of it was water.
    ({}, "lots", "water_by_loads", None),
    ({}, "lots", "water_found", None),
    (ONE_EATEN, "packs", "taken", 1),
    (ONE_EATEN, "packs", "eaten_or_given", 1),
    # What may be moist is not among what is only not shown to be dry.
    (MOIST_MIX, "draws", "mix_doubtful", True),
    (MOIST_MIX, "draws", "mix_unshown", False),
    (MOIST_MIX, "draws", "first_unshown", False),
    (mixed(loads={"weighing_before": 1.4}), "mix_parts", "own_unshown", False),
    (mixed(loads={"weighing_before": None}), "mix_parts", "own_unshown", True),
]


@pytest.mark.parametrize(("changed", "table", "name", "value"), CASES)
def test_a_figure_of_what_is_not_known(
    changed: Changed, table: str, name: str, value: object
) -> None:
    found = Figures(**tables(**changed))(table, name)
    assert told(found, value), found
