"""What is reckoned of one count of the shelf, of packs or of bulk, figure by figure, with a pencil:
what was there by the end of its day, and what of it is not known."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, TOOK_ALL, at_market, mixed, of_mix, tables
from trade.test_of_a_load import AGAIN, UNWEIGHED
from trade.test_of_a_pack import BULK, FREE, told
from trade.test_of_a_season import LOST

Changed = dict[str, Any]

COUNTED: Changed = {"date": TODAY - 4, "counted": 1}
WEIGHED: Changed = {"date": TODAY - 4, "pack": None, "counted": None, "product": "food",
                    "weight": 0.1}  # fmt: skip
OF_PACKS: Changed = {"counts": COUNTED}
OF_BULK: Changed = {"counts": WEIGHED}
EATEN: Changed = BULK | FREE | {"purpose": "household"}
"""A tenth of the bulk."""


def ended(minutes_before_midnight: float) -> Changed:
    """A count of bulk on the third day of a run that ends so long before the day does."""
    return {
        "counts": WEIGHED | {"date": TODAY - 6},
        "runs": {"started": TODAY - 8, "duration": 72 - minutes_before_midnight / 60},
    }


# Four of 0.3 each, packed seven days ago of 1.3; two were sold the day after.
OF_ONE: list[tuple[Changed, str, object]] = [
    # A pack is of its product, which is not written beside it.
    ({}, "of_product", "food"),
    (OF_BULK, "of_product", "food"),
    # A pack of a mix is as dry as the mix; no run is named by it.
    (of_mix(), "pack_dryness", "dry"),
    # Where no count is written it is one: of a pack, of a use and of what went into a mix.
    ({"packs": {"count": None}, "uses": None, "counts": COUNTED}, "should_be", 1),
    ({"uses": {"count": None}, "counts": COUNTED}, "taken_by", 1),
    (mixed(mix_parts={"product": None, "pack": "pack", "weight": None}) | OF_PACKS, "opened_by",
     1),
    # One did not come back; of a market day without a date it had not from the first.
    (at_market() | OF_PACKS, "sold_by", 1),
    (at_market({"date": None}) | {"counts": COUNTED | {"date": TODAY - 6}}, "sold_by", 1),
    (at_market(took=None) | OF_PACKS, "sold_by", None),
    # The day is over a minute before midnight: what ends later is of the next day.
    (ended(1.5), "dried_by", 1.3),
    (ended(0.5), "dried_by", 0),
    # A load went back in that nobody had weighed.
    (LOST | {"also_loads": AGAIN | {"dry": None}, "loads": UNWEIGHED} | OF_BULK, "put_back_by",
     None),
    # What was taken on the day itself had been taken by its end.
    (OF_BULK | {"uses": EATEN | {"date": TODAY - 4}}, "bulk_used_by", 0.1),
    (OF_BULK | {"uses": EATEN | {"date": TODAY - 3}}, "bulk_used_by", 0),
    (OF_BULK | {"uses": EATEN | {"weight": None}}, "bulk_used_by", None),
    # All that was left of it: 1.3 less 1.2 packed. Nothing is there, nothing is missing.
    ({"counts": WEIGHED | {"weight": 0.0}, "uses": None, "also_uses": TOOK_ALL}, "bulk_used_by",
     0.1),
    ({"counts": WEIGHED | {"weight": 0.0}, "uses": None, "also_uses": TOOK_ALL}, "bulk_missing",
     0),
    # A use of a pack is none of bulk, whatever product somebody typed beside it.
    (OF_BULK | {"uses": {"product": "food"}}, "bulk_used_by", 0),
    (mixed() | OF_BULK, "mixed_by", 0.5),
    (mixed(mix_parts={"weight": None}) | OF_BULK, "mixed_by", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_count(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("counts", name)
    assert told(found, value), found
