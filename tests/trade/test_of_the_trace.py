"""The trace and the packs of each lot, row by row, with a pencil: through a mix of bulk, of a pack
left from last season, and of what was bought; what is gone, and what is missing."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import LATER, STEP, TODAY, at_market, of_mix, tables
from trade.test_of_packs_and_mixes import SEEDS, YEAR

Changed = dict[str, Any]

NAMED: Changed = {"products": {"name": "Roots"}, "lots": {"source": "farm"}}
THREE_PARTS: Changed = NAMED | of_mix(
    also_products={"key": "leaf", "name": "Leaves"},
    also_packs={"key": "old", "product": "leaf", "date": TODAY - 400, "container": "tin",
                "net": 0.1, "carried_running": 1.0, "carried_full": 1.0, "carried_from": "2024"},
    also_mix_parts={"into": "mix", "pack": "old", "note": "the last of it"},
    also_bought_parts=SEEDS | {"into": "mix", "allergens": "sesame"},
)  # fmt: skip
"""A pack of a mix of bulk, of a pack of leaves from last season, and of seeds."""
RUN_AND_LAST: Changed = NAMED | {"packs": {"carried_from": "2024"}}
"""A pack that names a run, and last season as well."""
MARKET: Changed = at_market({"date": TODAY - 6})

# The old pack itself has the last row: nothing of this season is behind it.
ROWS: list[tuple[Changed, str, str, list[object]]] = [
    (THREE_PARTS, "trace", "source", ["farm", "2024", None, "2024"]),
    (THREE_PARTS, "trace", "mix", ["mix", "mix", "mix", None]),
    (THREE_PARTS, "trace", "part_called", ["Roots", "Leaves", "seeds", None]),
    (THREE_PARTS, "trace", "of_part", [True, True, True, False]),
    # Of what this season dried, the lot tells where it came from.
    (RUN_AND_LAST, "trace", "source", ["farm", "2024"]),
    # It is another pack than the one that names the run; the load is of its product all the same.
    ({"trace": STEP | {"pack": "later"}, "also_packs": LATER}, "trace", "traced_otherwise", [True]),
    # How dry a pack is, not the loads of a run: a pack of a mix names none.
    (of_mix(), "trace", "pack_dryness", ["dry"]),
    (of_mix(), "recall", "pack_dryness", ["dry"]),
    (of_mix(absorbers={"key": "size"}), "absorber_needs", "pack_dryness", ["dry"]),
    (of_mix(**YEAR), "eat_first", "pack_dryness", ["dry"]),
    # Two were sold, and of two taken to a market one came back; of all these three are taken.
    (MARKET, "recall", "gone_at_markets", [1]),
    (MARKET, "recall", "taken", [2 + 1]),
    # Of two that were left one was found.
    ({"counts": {"counted": 1}}, "recall", "missing", [1]),
]


@pytest.mark.parametrize(("changed", "table", "name", "values"), ROWS)
def test_a_column_of_the_trace(
    changed: Changed, table: str, name: str, values: list[object]
) -> None:
    assert Figures(**tables(**changed)).numbers.cells[table][name] == values
