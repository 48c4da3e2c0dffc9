"""Sums of a product: unknown while one of their rows is, and of no rows but their own."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import at_market, mixed, of_mix, tables
from trade.test_of_a_pack import FREE, WELL, told
from trade.test_of_a_season import OTHER

NO_SHOPS: dict[str, Any] = {"offers": None}
OPENED: dict[str, Any] = mixed(mix_parts={"product": None, "weight": None, "pack": "pack"})
EATEN: dict[str, Any] = {"uses": FREE | {"purpose": "household"}}
IN_JARS: dict[str, Any] = WELL | {
    "also_packs": {"key": "jars", "product": "food", "container": "jar", "count": 1, "net": 0.05},
    "also_containers": {"key": "jar"},
}
"""A pack in a jar beside four in tins of 1200 mL; nobody knows how much a jar takes."""
LEFT = {"price_total": None, "trip": None, "carried_running": 3.0, "carried_full": 9.0}
"""A lot of last season, whose time cost 6 then: all of it was dried."""

# (what is changed so that all rows are known, the sum, its value; what is changed beside that)
UNKNOWN: list[tuple[dict[str, Any], str, float, dict[str, Any]]] = [
    (at_market(), "got_at_markets", 9 * 0.9, at_market(price_written=None)),
    (at_market(), "sold_at_markets", 0.3, at_market(took=None)),
    (OPENED, "opened", 0.3, OPENED | {"packs": {"net": None}}),
    (mixed(), "bulk_mixed", 0.5, mixed(mix_parts={"weight": None})),
    (mixed(), "mixes_out", 0.5, mixed(mix_parts={"weight": None})),
    # A mix's packs of 0.1, two of them eaten and two on the shelf: each 3 at a shop's price, less
    # what 0.1 of the bulk's 25 ÷ 1.3 cost.
    (of_mix(**EATEN), "mixed_saving_taken", 2 * (3 - 2.5 / 1.3), of_mix(**EATEN, **NO_SHOPS)),
    (of_mix(), "mixed_saving_on_hand", 2 * (3 - 2.5 / 1.3), of_mix(**NO_SHOPS)),
    (of_mix(), "mixed_instead", 6, of_mix(**NO_SHOPS)),
    ({"lots": LEFT}, "labor_carried", 6, {"lots": LEFT | {"carried_full": None}}),
    (WELL, "packed_volume", 4 * 1200, IN_JARS),
    # A load that came out heavier than it went in has no share of its run.
    ({}, "runs_taken", 1, {"loads": {"dry": 9.0}}),
]  # fmt: skip


@pytest.mark.parametrize(("sound", "name", "value", "changed"), UNKNOWN)
def test_a_sum_of_a_product_is_unknown_while_one_of_its_rows_is(
    sound: dict[str, Any], name: str, value: float, changed: dict[str, Any]
) -> None:
    assert Figures(**tables(**sound))("products", name) == pytest.approx(value)
    assert Figures(**tables(**changed))("products", name) is None


THEIRS_LEFT: dict[str, Any] = OTHER | {
    "also_lots": OTHER["also_lots"] | {"carried_running": 1.0, "carried_full": 3.0},
}
"""The other's lot of 4 is of last season, too: 3 of it were dried, of a time of 2 then."""

# Food and another product: of each only its own.
OWN: list[tuple[dict[str, Any], str, float, float]] = [
    (THEIRS_LEFT, "labor_carried", 0, 2 * 3 / 4),
    (THEIRS_LEFT | {"lots": LEFT}, "labor_carried", 6, 2 * 3 / 4),
    # Lost in a run that failed, nothing of it is carried into what was dried.
    (THEIRS_LEFT | {"lots": LEFT, "runs": {"failed": True}}, "labor_carried", 0, 2 * 3 / 4),
    (OTHER, "water_removed", 6.7, 2.2),
]


@pytest.mark.parametrize(("changed", "name", "food", "other"), OWN)
def test_a_sum_of_a_product_is_of_its_own_rows(
    changed: dict[str, Any], name: str, food: float, other: float
) -> None:
    found = Figures(**tables(**changed))
    assert told(found("products", name, "food"), food)
    assert told(found("products", name, "other"), other)
