"""All that was left in bulk: worked out with a pencil, and held against a plain walk over the days.

That what is left is what came in less what went out is the book-keeping of a perpetual inventory.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from trade.small import season

RECORDS = """
lots:
  - {id: t, product: turnip-cubes, date: 2025-06-01, price: 12 USD, prepped: 30 lb}
runs:
  - {id: r1, started: 2025-06-02 08:00, duration: 20 h, energy: 8 kWh,
     loads: [{lot: t, wet: 10 lb, dry: 20 oz}]}
  - {id: r2, started: 2025-06-12 08:00, duration: 20 h, energy: 8 kWh,
     loads: [{lot: t, wet: 10 lb, dry: 18 oz}]}
packs:
  - {id: P, product: turnip-cubes, date: 2025-06-04, container: tin, count: 3, net: 5 oz,
     from: [r1]}
uses:
  - {date: 2025-06-04, product: turnip-cubes, weight: 2 oz, for: crumbs}
  - {date: 2025-06-05, product: turnip-cubes, weight: rest, for: household}
  - {date: 2025-06-13, product: turnip-cubes, weight: rest, for: household}
"""


def test_all_that_was_left(tmp_path: Path) -> None:
    found = season(tmp_path, RECORDS)
    # 20 - 3 × 5 - 2 = 3 oz on the fifth; the second run's 18 oz on the thirteenth.
    names = ("balance", "taken_before", "weight_left", "bulk_weight", "content")
    assert found.of("uses", "use-2", *names) == [3, 0, 3, 3, 3]
    assert found.of("uses", "use-3", *names) == [21, 3, 18, 18, 18]
    assert found.of("uses", "use-1", *names) == [None, 0, None, 2, 2]
    assert found.of("products", "turnip-cubes", "bulk_used", "unpacked") == [23, 0]
    # Bulk of 38 oz less 2 of crumbs bears the cost; what was left does, too.
    bulk = found("products", "full_bulk", "turnip-cubes")
    assert found("uses", "cost_out", "use-3") == pytest.approx(18 * bulk)


def test_nobody_weighed_it(tmp_path: Path) -> None:
    found = season(tmp_path, RECORDS)
    assert found.mark("uses", "content", "use-2") and not found.mark("uses", "content", "use-1")


def test_it_counts_what_was_carried_over_and_is_never_below_nothing(tmp_path: Path) -> None:
    carried = RECORDS + "carried_over: [{product: turnip-cubes, dried: 7 oz, running: 1 USD/oz}]\n"
    found = season(tmp_path, carried)
    assert [found("uses", "weight_left", f"use-{n}") for n in (2, 3)] == [10, 18]
    # More was packed by then than there was: what came later makes up for it.
    found = season(tmp_path, RECORDS.replace("count: 3, net: 5 oz", "count: 5, net: 5 oz"))
    assert [found("uses", "weight_left", f"use-{n}") for n in (2, 3)] == [0, 11]
    assert "uses-rest-of-nothing" in found.failing()


@pytest.mark.parametrize(
    "without",
    [", date: 2025-06-04, container", "started: 2025-06-12 08:00, ", "{date: 2025-06-04, "],
)
def test_it_needs_the_days_of_all(tmp_path: Path, without: str) -> None:
    found = season(tmp_path, RECORDS.replace(without, "{" if "{" in without else ", container"
                                             if "container" in without else ""))  # fmt: skip
    assert found.of("uses", "use-3", "weight_left", "content") == [None, None]
    assert "uses-rest-unknown" in found.failing()
    assert found("products", "unpacked", "turnip-cubes") is None


def test_what_is_still_in_the_dryer_needs_no_day(tmp_path: Path) -> None:
    found = season(
        tmp_path, RECORDS.replace("started: 2025-06-12 08:00, ", "").replace(", dry: 18 oz", "")
    )
    assert [found("uses", "weight_left", f"use-{n}") for n in (2, 3)] == [3, 0]


@pytest.mark.parametrize("seed", range(6))
def test_it_is_what_a_walk_over_the_days_finds(tmp_path: Path, seed: int) -> None:
    rng = random.Random(seed)
    days = range(1, 29)
    dried = [(rng.choice(days), rng.randint(10, 40)) for _ in range(6)]
    packed = [(rng.choice(days), rng.randint(1, 30)) for _ in range(5)]
    used = [(rng.choice(days), rng.randint(1, 9)) for _ in range(4)]
    rests = rng.sample(days, 5)
    left: dict[int, int] = {}
    bulk = 0
    for day in days:
        bulk += sum(w for d, w in dried if d == day)
        bulk -= sum(w for d, w in [*packed, *used] if d == day)
        if day in rests:
            left[day] = max(bulk, 0)
            bulk -= left[day]
    text = ["lots: [{id: t, product: turnip-cubes, prepped: 900 lb}]", "runs:"]
    text += [
        f"  - {{id: r{n}, ended: 2025-06-{d:02} 11:00, duration: 9 h, "
        f"loads: [{{lot: t, wet: 20 lb, dry: {w} oz}}]}}"
        for n, (d, w) in enumerate(dried)
    ]
    text += ["packs:"]
    text += [
        f"  - {{id: p{n}, product: turnip-cubes, date: 2025-06-{d:02}, net: {w} oz}}"
        for n, (d, w) in enumerate(packed)
    ]
    text += ["uses:"]
    text += [
        f"  - {{date: 2025-06-{d:02}, product: turnip-cubes, weight: {w} oz, for: sample}}"
        for d, w in used
    ]
    text += [
        f"  - {{date: 2025-06-{d:02}, product: turnip-cubes, weight: rest, for: household}}"
        for d in rests
    ]
    found = season(tmp_path, "\n".join(text) + "\n")
    for n, day in enumerate(rests, 1 + len(used)):
        assert found("uses", "weight_left", f"use-{n}") == left[day]
