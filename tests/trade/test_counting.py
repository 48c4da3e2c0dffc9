"""Counting the shelf, worked by hand: the books on a day, what was there, and what that changes."""

from __future__ import annotations

from pathlib import Path

from trade.small import season
from trade.test_by_hand_in_progress import close

# One run of one load: 12 lb wet, 24 oz dry. 16 oz packed in 4 pouches of 4 oz; 24 oz of bulk cost
# 12 lb × 1 USD + 8 kWh × 0.25 = 14 USD.
MADE = """
lots: [{id: t-1, product: turnip-cubes, date: 2026-09-01, prepped: 12 lb, weighed: 12 lb,
        price: 12 USD}]
runs: [{id: r-1, started: 2026-09-02 08:00, duration: 30 h, energy: 8 kWh,
        loads: [{lot: t-1, wet: 12 lb, dry: 24 oz}]}]
packs: [{id: P-1, product: turnip-cubes, date: 2026-09-05, container: tin, count: 4, net: 4 oz,
         from: [r-1]}]
"""
USES = """
uses:
  - {date: 2026-09-10, pack: P-1, count: 1, for: household}
  - {pack: P-1, count: 1, for: gift}
  - {date: 2026-09-08, product: turnip-cubes, weight: 1 oz, for: sample}
"""


def test_what_is_missing_is_off_the_shelf_and_in_no_cost(tmp_path: Path) -> None:
    before = season(tmp_path, MADE + USES)
    found = season(
        tmp_path,
        MADE
        + USES
        + """
counts:
  - {date: 2026-09-10, pack: P-1, counted: 1}
  - {date: 2026-09-10, product: turnip-cubes, weight: 5 oz}
""",
    )
    # 4 filled, the gift without a day and the one of that day taken: 2 should be there, 1 was.
    assert found.of("counts", "count-1", "missing", "missing_weight") == [1, 4]
    # 24 - 16 packed - 1 used: 7 should be there, 5 were.
    assert found.of("counts", "count-2", "missing", "missing_weight") == [None, 2]
    assert found("packs", "on_hand") == 1 and before("packs", "on_hand") == 2
    assert found("products", "unpacked") == 5 and before("products", "unpacked") == 7
    full = before("packs", "full_each"), before("products", "full_bulk")
    assert found("season", "shrinkage") == close(full[0] + 2 * full[1])
    for name in ("running_bulk", "full_bulk", "running_per_packed", "full_per_packed",
                 "running_cost", "full_cost", "packed", "packed_good"):  # fmt: skip
        assert found("products", name) == before("products", name), name
    # What is missing was not kept: one pouch of 4 oz less, and the household's bulk as it was.
    assert found("products", "kept_weight") == before("products", "kept_weight") - 4


def test_a_count_holds_from_its_day_on(tmp_path: Path) -> None:
    """The count before is taken off what is missing; what turns up again is found."""
    found = season(
        tmp_path,
        MADE
        + USES
        + """
counts:
  - {date: 2026-09-20, pack: P-1, counted: 2}
  - {date: 2026-09-09, pack: P-1, counted: 2}
  - {date: 2026-09-09, pack: P-1, counted: 1}
  - {date: 2026-09-12, pack: P-1, counted: 0}
""",
    )
    # By the 9th one was given away: 3 - 2 = 1 missing; counted again that day: one more. By the
    # 12th one more was eaten, and none is missing anew. On the 20th two have turned up.
    assert [found("counts", "missing", f"count-{n}") for n in (2, 3, 4, 1)] == [1, 1, 0, -2]
    assert found("packs", "on_hand") == 2


def test_bulk_by_day_follows_what_went_back_in(tmp_path: Path) -> None:
    """What a run has not given yet is not there; what was put back is gone while it runs."""
    found = season(
        tmp_path,
        """
lots: [{id: t-1, product: turnip-cubes, date: 2026-09-01, prepped: 12 lb, price: 12 USD}]
runs:
  - {id: r-1, started: 2026-09-02 08:00, duration: 30 h, energy: 8 kWh,
     loads: [{lot: t-1, wet: 12 lb, dry: 24 oz}]}
  - {id: r-2, started: 2026-09-05 08:00, duration: 30 h, energy: 8 kWh,
     loads: [{again: r-1/t-1, wet: 24.5 oz, dry: 21 oz}]}
  - {id: r-3, started: 2026-09-05 08:00, energy: 1 kWh, loads: [{again: r-1/t-1, id: x}]}
counts:
  - {date: 2026-09-02, product: turnip-cubes, weight: 0 oz}
  - {date: 2026-09-03, product: turnip-cubes, weight: 24 oz}
  - {date: 2026-09-05, product: turnip-cubes, weight: 0 oz}
  - {date: 2026-09-06, product: turnip-cubes, weight: 20 oz}
""",
    )
    # 0; the run ended on the 3rd at 14:00: 24; 24 - 24.5 = -0.5; 21 - 0.5 = 20.5. Each less what
    # the counts before had found: 0, 0, -0.5 and then 20.5 - 20 - (-0.5) = 1.
    found_missing = [found("counts", "missing_weight", f"count-{n}") for n in (1, 2, 3, 4)]
    assert found_missing == [close(each) for each in (0, 0, -0.5, 1)]
    assert found("products", "unpacked") == close(20)
