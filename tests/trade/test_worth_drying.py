"""What is worth drying, worked by hand: hours by shares of runs, and the order that follows."""

from __future__ import annotations

from pathlib import Path

from trade.small import HEAD, season
from trade.test_by_hand_in_progress import close

# Run r-1 is shared: 9 lb of water from turnips, 7 lb from beets; 29 h and 3 h of turnaround make
# 32 h, 18 and 14 of them. r-2 is turnips alone, 21 + 3 = 24 h. Energy 4 USD each, upkeep 2.
MADE = """
lots:
  - {id: t-1, product: turnip-cubes, date: 2026-09-01, prepped: 20 lb, price: 20 USD, labor: 2 h}
  - {id: b-1, product: beet-cubes, date: 2026-09-01, prepped: 8 lb, price: 4 USD}
runs:
  - {id: r-1, started: 2026-09-02, duration: 29 h, energy: 16 kWh, labor: 1 h,
     loads: [{lot: t-1, wet: 10 lb, dry: 16 oz}, {lot: b-1, wet: 8 lb, dry: 16 oz}]}
  - {id: r-2, started: 2026-09-05, duration: 21 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 10 lb, dry: 16 oz}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2026-09-08, container: tin, count: 4, net: 8 oz,
     from: [r-1, r-2], labor: 30 min}
  - {id: P-2, product: beet-cubes, date: 2026-09-08, container: tin, count: 2, net: 8 oz,
     from: [r-1]}
uses:
  - {date: 2026-09-10, pack: P-1, count: 1, for: stall, price: 50 USD}
  - {date: 2026-09-10, pack: P-2, count: 1, for: household}
offers:
  - {id: o-1, product: turnip-cubes, date: 2026-09-01, net: 8 oz, price: 24 USD}
"""
HELD = HEAD.replace("life: 600 run,", "life: 600 run, turnaround: 3 h,")
BEETS = "  - {id: o-2, product: beet-cubes, date: 2026-09-01, net: 8 oz, price: 40 USD}\n"


def test_what_is_not_ranked_is_counted(tmp_path: Path) -> None:
    """A tin of beets was kept, and no shop asks anything for beets."""
    assert season(tmp_path, MADE, HELD)("season", "worth_unranked") == 1
    assert season(tmp_path, MADE + BEETS, HELD)("season", "worth_unranked") == 0


def test_hours_and_earnings_by_hand(tmp_path: Path) -> None:
    found = season(tmp_path, MADE + BEETS, HELD)
    assert found.of("products", "turnip-cubes", "machine_hours", "runs_taken") == [
        close(18 + 24),
        close(9 / 16 + 1),
    ]
    assert found("products", "machine_hours", "beet-cubes") == close(14)
    # Turnips: 20 + 6 × 25/16 for their shares of the runs + 4 tins of 2 = 37.375 USD of running
    # cost for 32 oz. One tin sold for 50 less 10 %: 45; three on the shelf, 24 oz at half of 3 USD.
    turnips = 45 + 36 - 37.375
    # Beets: 4 + 6 × 7/16 + 2 tins = 10.625 USD for 16 oz, all kept, at half of 5 USD an ounce.
    beets = 40 - 10.625
    assert found("products", "earned", "turnip-cubes") == close(turnips)
    assert found("products", "earned", "beet-cubes") == close(beets)
    assert found("products", "earned_per_machine_hour", "turnip-cubes") == close(turnips / 42)
    assert found("products", "earned_per_run", "turnip-cubes") == close(turnips / (25 / 16))
    # 2 h of the lot, 9/16 h of the run, half an hour of packing; the beets had 7/16 h of the run.
    assert found("products", "earned_per_hour", "turnip-cubes") == close(turnips / (2.5 + 9 / 16))
    assert found("products", "earned_per_hour", "beet-cubes") == close(beets / (7 / 16))
    # 2.10 USD an hour before 1.04, though the turnips earned more in all.
    assert [found("worth_drying", "called", f"worth-{n}") for n in (1, 2)] == [
        "Beet cubes",
        "Turnip cubes",
    ]
    assert found("worth_drying", "earned_per_machine_hour", "worth-1") == close(beets / 14)


def test_what_is_not_known_comes_not_into_the_order(tmp_path: Path) -> None:
    """Beets that nobody sold and no shop has; turnips on which nobody wrote an hour."""
    text = (
        MADE.replace(", labor: 2 h", "").replace(", labor: 30 min", "").replace(", labor: 1 h", "")
    )
    found = season(tmp_path, text, HELD)
    assert found("products", "earned", "beet-cubes") is None
    assert [found("worth_drying", "called", f"worth-{n}") for n in (1, 2)] == [
        "Turnip cubes",
        None,
    ]
    row = found.of("worth_drying", "worth-1", "earned_per_hour", "hours_said")
    assert row == [None, "none written"]
