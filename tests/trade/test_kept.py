"""Sold, kept, saved: by what became of each weight, by hand; nothing in two places."""

from __future__ import annotations

from pathlib import Path

import pytest

from trade.small import Figures, season

# 40 lb gave 40 oz in one run: 20 USD, 4 for 16 kWh, 2 of upkeep: 26, 0.65 an ounce. Ten tins of
# 4 oz at 2 each: 46 in all, 1.15 an ounce. Shops ask 4 an ounce, of which half would be bought: 2.
BATCH = """
lots: [{id: t, product: turnip-cubes, price: 20 USD, prepped: 40 lb, finished: true}]
runs: [{id: r, duration: 20 h, energy: 16 kWh, loads: [{lot: t, wet: 40 lb, dry: 42 oz}]}]
packs: [{id: P, product: turnip-cubes, container: tin, count: 10, net: 4 oz, from: [r]}]
offers: [{id: o, product: turnip-cubes, net: 1 oz, price: 4 USD}]
"""
USES = """
uses:
  - {pack: P, count: 3, for: stall, price: 9 USD}
  - {pack: P, count: 1, for: co-op, price: 8 USD}
  - {pack: P, count: 2, for: household}
  - {pack: P, count: 1, for: gift}
  - {product: turnip-cubes, weight: 1.5 oz, for: household}
  - {product: turnip-cubes, weight: 0.5 oz, for: sample}
"""
COST = (26 / 42 * 40 + 20) / 40


def close(value: float) -> object:
    return pytest.approx(value, rel=1e-12)


def of(found: Figures, *names: str) -> list[object]:
    return [found("products", name) for name in names]


def test_by_what_became_of_each_weight(tmp_path: Path) -> None:
    found = season(tmp_path, BATCH + USES)
    assert of(found, "running_per_packed") == [close(COST)]
    assert of(found, "sold_weight", "kept_taken", "kept_on_hand", "kept_weight") == [
        16, 13.5, 12, 25.5,
    ]  # fmt: skip
    assert found("products", "valued_weight") == 41.5
    assert found("packs", "weight_on_hand", "P") == 12
    flags = ("sold_of_season", "eaten_or_given", "kept")
    rows = [f"use-{n}" for n in (1, 3, 4, 5, 6)]
    assert [[found("uses", name, key) for key in rows] for name in flags] == [
        [True, False, False, False, False],
        [False, True, True, True, False],
        [False, True, True, True, False],
    ]
    # Two parts each: what a shop would have got, and what it cost us.
    assert of(found, "instead_taken", "instead_on_hand", "instead") == [27, 24, 51]
    assert of(found, "kept_cost_taken", "kept_cost_on_hand", "kept_cost") == [
        close(13.5 * COST),
        close(12 * COST),
        close(25.5 * COST),
    ]
    assert of(found, "saving_taken", "saving_on_hand", "saving") == [
        close(27 - 13.5 * COST),
        close(24 - 12 * COST),
        close(51 - 25.5 * COST),
    ]
    for name in ("instead", "kept_cost", "saving", "saving_taken", "saving_on_hand"):
        assert found("season", name) == close(float(str(found("products", name))))
    # 27 less a tenth, 8 of the co-op, which takes none, and 51: over 41.5 oz.
    assert of(found, "sales_got", "worth") == [close(32.3), close((32.3 + 51) / 41.5)]


def test_what_is_sold_is_in_the_sales_and_never_saved(tmp_path: Path) -> None:
    """All ten sold: the revenue is theirs, and nothing is saved."""
    use = "uses: [{pack: P, count: 10, for: stall, price: 9 USD}]"
    found = season(tmp_path, BATCH + use)
    assert of(found, "sold_weight", "kept_weight", "instead", "saving") == [40, 0, 0, 0]
    assert found("season", "saving") == 0
    assert found("season", "revenue") == 90
    assert of(found, "worth") == [close(81 / 40)]


def test_what_spoiled_or_was_carried_over_is_in_neither(tmp_path: Path) -> None:
    carried = "{id: Q, product: turnip-cubes, container: tin, count: 5, net: 4 oz, "
    carried += "carried: {running: 3 USD, full: 4 USD}}"
    batch = BATCH.replace("from: [r]}]", f"from: [r]}}, {carried}]")
    uses = """
uses:
  - {pack: P, count: 2, for: spoiled}
  - {pack: Q, count: 1, for: stall, price: 9 USD}
  - {pack: Q, count: 1, for: household}
"""
    found = season(tmp_path, batch + uses)
    assert of(found, "sold_weight", "kept_taken", "kept_on_hand", "sales_got") == [0, 0, 32, 0]
    # Sold, kept and spoiled are all that was packed.
    assert of(found, "packed", "spoiled", "packed_good") == [40, 8, 32]
    assert found("season", "revenue") == 9


def test_without_a_price_of_shops(tmp_path: Path) -> None:
    """What is kept is worth an unknown amount; what is none of is worth nothing."""
    found = season(tmp_path, BATCH.replace("price: 4 USD", "shipping: 4 USD") + USES)
    assert of(found, "instead", "saving", "worth") == [None, None, None]
    assert found("season", "saving_missing") == 1
    sold = "uses: [{pack: P, count: 10, for: stall, price: 9 USD}]"
    found = season(tmp_path, BATCH.replace("price: 4 USD", "shipping: 4 USD") + sold)
    assert of(found, "saving", "worth") == [0, close(81 / 40)]
    assert found("season", "saving_missing") == 0


def test_only_products_with_a_saving_are_added_up(tmp_path: Path) -> None:
    """What one product lacks is in none of the season's three sums."""
    batch = BATCH
    for old, new in (
        ("true}]", "true}, {id: b, product: beet-cubes, price: 9 USD, prepped: 9 lb}]"),
        ("dry: 42 oz}]}]", "dry: 42 oz}]}, {id: s, duration: 9 h, energy: 9 kWh, "
         "loads: [{lot: b, wet: 9 lb, dry: 18 oz}]}]"),
        ("from: [r]}]", "from: [r]}, {id: Q, product: beet-cubes, container: tin, count: 4, "
         "net: 4 oz, from: [s]}]"),
    ):  # fmt: skip
        assert old in batch
        batch = batch.replace(old, new)
    found = season(tmp_path, batch + USES)
    assert found("products", "instead_compared", "beet-cubes") is None
    assert found("products", "kept_cost", "beet-cubes") is not None
    names = ("instead", "kept_cost", "saving")
    own = [float(str(found("products", name, "turnip-cubes"))) for name in names]
    assert [found("season", name) for name in names] == [close(each) for each in own]
    assert found("season", "saving_missing") == 1
