"""Asked prices: which holds on which day, what a sale without a price took, and a list of sizes."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pytest
from published.figures import Figures

from trade.small import season

pytestmark = pytest.mark.seasons

DAY = 46_000.0
PACK = {"key": "P", "product": "food", "container": "tin", "count": 90, "net": 10.0,
        "carried_running": 6.0, "carried_full": 9.0}  # fmt: skip
SIZE = {"product": "food", "container": "tin", "net": 10.0}


def figures(asking: list[dict[str, Any]], **more: Any) -> Figures:
    made: dict[str, Any] = {
        "season": [{"as_of": DAY}],
        "products": [{"key": "food"}],
        "containers": [{"key": "tin"}],
        "packs": [PACK],
        "asking": asking,
        "offers": [{"product": "food", "net": 1.0, "price": 2.5}],
        "pricing": [{"margin": 0.0, "fees": 0.1, "price_step": 0.25}],
    }
    return Figures("lb", "oz", **made | more)


def test_the_last_whose_day_has_come_holds() -> None:
    """Against a plain search, over prices written in any order, some for always, some alike."""
    rng = Random("asked")
    for _ in range(40):
        rows = [
            SIZE | {"price": float(price), "since": rng.choice((None, DAY + rng.randint(-6, 3)))}
            for price in rng.sample(range(5, 60), rng.randint(0, 6))
        ]
        other = [SIZE | {"net": 4.0, "price": 99.0, "since": None}]
        uses = [
            {"pack": "P", "channel": "stall", "date": DAY + rng.randint(-8, 0)} for _ in range(3)
        ]
        found = figures(rows + other, uses=uses)
        for day, shown in [
            (DAY, found("prices", "asked", "food/tin/10")),
            *((use["date"], found("uses", "asked", f"{n}")) for n, use in enumerate(uses, 1)),
        ]:
            came = [row for row in rows if (row["since"] or 0) <= day]
            came.sort(key=lambda row: row["since"] or 0)
            assert shown == (came[-1]["price"] if came else None), (day, rows)


def test_against_floor_and_shops() -> None:
    # Full cost 9 over 0.9 is a floor of 10; shops ask 2.50 an ounce, so 25 for ten.
    found = figures([SIZE | {"price": 12.0}])
    names = ("asked", "asked_by_weight", "asked_to_floor", "asked_to_retail")
    assert [found("prices", name) for name in names] == pytest.approx([12, 1.2, 1.2, 0.48])
    assert found("price_list", "below_floor") is False
    assert figures([SIZE | {"price": 9.99}])("price_list", "below_floor") is True


BATCH = """
channels: {cafe: {discount: 25 %, tax: 10 %}}
asked:
  - {product: turnip-cubes, container: tin, net: 4 oz, price: 11 USD, from: 2025-09-10}
  - {product: turnip-cubes, container: tin, net: 2 oz, price: 7 USD}
lots: [{id: t, product: turnip-cubes, price: 20 USD, prepped: 40 lb}]
runs: [{id: r, duration: 20 h, energy: 16 kWh, loads: [{lot: t, wet: 30 lb, dry: 42 oz}]}]
packs: [{id: P, product: turnip-cubes, container: tin, count: 9, net: 4 oz, from: [r]}]
uses:
  - {date: 2025-09-09, pack: P, for: stall}
  - {date: 2025-09-10, pack: P, count: 2, for: stall}
  - {date: 2025-09-11, pack: P, count: 2, for: cafe}
  - {date: 2025-09-12, pack: P, count: 3, for: stall, total: 25 USD}
  - {date: 2025-09-12, pack: P, count: 1, for: gift}
"""


def test_a_sale_without_a_price_took_what_was_asked(tmp_path: Path) -> None:
    found = season(tmp_path, BATCH)
    paid = [found("uses", "paid", f"use-{n}") for n in range(1, 6)]
    assert paid[0] is None, "nothing was asked yet"
    assert paid[1:] == pytest.approx([22, 16.5, 25, 0])
    assert found("uses", "revenue", "use-3") == pytest.approx(15)
    assert found("uses", "price_each", "use-4") == pytest.approx(25 / 3)
    missing = [found("uses", "price_missing", f"use-{n}") for n in range(1, 6)]
    assert missing == [True, False, False, False, False]


def test_a_size_that_is_not_packed_is_priced_from_bulk_and_container(tmp_path: Path) -> None:
    found = season(tmp_path, BATCH)
    rows = ("turnip-cubes/tin/4", "turnip-cubes/tin/2")
    assert found.numbers.cells["prices"]["key"] == [*rows]
    bulk, full = (found("products", name) for name in ("running_bulk", "full_bulk"))
    each = found("containers", "packaging_each", "tin")
    assert isinstance(bulk, float) and isinstance(full, float) and isinstance(each, float)
    assert found.of("prices", rows[1], "packed", "running_each", "full_each") == pytest.approx(
        [0, 2 * bulk + each, 2 * full + each]
    )
    assert found("prices", "running_each", rows[0]) == pytest.approx(4 * bulk + each)
    plan = "plan: [{product: turnip-cubes, container: tin, count: 5, net: 3 oz}]\n"
    found = season(tmp_path, BATCH + plan)
    assert found.numbers.cells["prices"]["key"][-1] == "turnip-cubes/tin/3"
