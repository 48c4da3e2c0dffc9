"""What the list of checks counts of the workbook's own sums, and what it says above a list."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import tables
from trade.test_of_a_pack import told

Changed = dict[str, Any]

OLD: Changed = {
    f"also_offers_{n}": {"key": name, "product": "food", "date": 40000.0}
    for n, name in enumerate(("old", "older"))
}
NOWHERE: Changed = {"lots": {"product": "nothing"}}
"""The produce of a lot whose product nobody has a row of: no product carries its cost."""

CASES: list[tuple[Changed, str, str, object]] = [
    ({"notebook": {"weighed": 3.0}}, "season-notebook-waits", "failing", 1),
    ({}, "season-notebook-waits", "failing", 0),
    (NOWHERE, "season-produce-not-conserved", "failing", 1),
    ({}, "season-produce-not-conserved", "failing", 0),
    (OLD, "offers-stale", "said",
     "Of offers 2 not in this list as they are now, the first old: build again."),
    ({}, "offers-stale", "said", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "check", "name", "value"), CASES)
def test_a_figure_of_a_check(changed: Changed, check: str, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("checks", name, check)
    assert told(found, value), found
