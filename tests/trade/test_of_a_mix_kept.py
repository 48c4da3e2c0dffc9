"""How dry a mix is shown to be and how long it keeps, figure by figure, with a pencil: by the worst
of its own parts, of what was bought for it, and by its own reading."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SECOND, TODAY, mixed, tables
from trade.test_of_a_pack import told
from trade.test_of_a_season import OTHER
from trade.test_of_packs_and_mixes import MOIST, SEEDS, YEAR

Changed = dict[str, Any]

RAW: Changed = {"loads": {"weighing_before": None}}
"""Nobody weighed it twice: the bulk is not shown to be dry."""
RAW_SEEDS: Changed = {"water_activity": None}
WET_SEEDS: Changed = {"water_activity": 0.9}


def seeded(seeds: Changed | None = None, **changed: Any) -> Changed:
    """The mix has seeds in it that were bought: dry, of a hundred days."""
    return mixed(also_bought_parts=SEEDS | {"into": "mix"} | (seeds or {}), **changed)


def beside(
    weighings: Changed | None = None, seeds: Changed | None = None, **changed: Any
) -> Changed:
    """Another mix, of a second product and of other seeds; the first is as it was."""
    of = {"also_loads": OTHER["also_loads"] | (weighings or {})} | {
        "also_mixes": {"key": "mix-2", "product": "food", "date": TODAY - 4},
        "also_mix_parts": {"into": "mix-2", "product": "other", "weight": 0.1},
        "also_bought_parts": SEEDS | (seeds or {}),
    }
    return mixed(**OTHER | of | changed)


THEIRS_MOIST: Changed = {"weighing_before": 0.9, "weighing_last": 0.8}

# The mix is of 0.5 of bulk, which is shown to be dry: 1.3 at the last two weighings.
DRY: list[tuple[Changed, str, str, object]] = [
    (mixed(mixes={"moisture_meter": 0.05}), "has_reading", "mix", True),
    (mixed(mixes={"water_activity": 0.3}), "has_reading", "mix", True),
    (mixed(mixes={"moisture_meter": 0.1}), "metered_moist", "mix", False),
    (mixed(mixes={"moisture_meter": 0.101}), "metered_moist", "mix", True),
    # Its reading, the bulk, the seeds: each is enough to speak against it.
    (mixed(mixes={"water_activity": 0.9}), "first_against", "mix", True),
    (mixed(**MOIST), "first_against", "mix", True),
    (seeded(WET_SEEDS), "first_against", "mix", True),
    (seeded(RAW_SEEDS), "first_against", "mix", False),
    # Each is to be shown, or a reading shows it of all.
    (mixed(), "first_shown", "mix", True),
    (mixed(**RAW), "first_shown", "mix", False),
    (mixed(mixes={"water_activity": 0.3}, **RAW), "first_shown", "mix", True),
    (seeded(RAW_SEEDS), "first_shown", "mix", False),
    (seeded(), "first_shown", "mix", True),
    # What is in another mix says nothing of it.
    (beside(seeds=WET_SEEDS), "bought_doubtful", "mix", 0),
    (beside(seeds=WET_SEEDS), "bought_doubtful", "mix-2", 1),
    (beside(seeds=RAW_SEEDS), "bought_unshown", "mix", 0),
    (beside(seeds=RAW_SEEDS), "bought_unshown", "mix-2", 1),
    (beside(THEIRS_MOIST), "first_against", "mix", False),
    (beside(THEIRS_MOIST), "first_against", "mix-2", True),
    (beside(THEIRS_MOIST), "speaks_against", "mix", False),
    (beside(THEIRS_MOIST), "speaks_against", "mix-2", True),
    (beside(), "shown_dry", "mix", True),
    (beside(), "shown_dry", "mix-2", False),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "key", "value"), DRY)
def test_how_dry_a_mix_is(changed: Changed, name: str, key: str, value: object) -> None:
    found = Figures(**tables(**changed))("mixes", name, key)
    assert told(found, value), found


# Bulk keeps 365 days from the day of the mix, five days ago: 360 are left. Packs that were opened
# keep as long from the day they were packed, two days earlier.
OPENED: Changed = {"also_mix_parts": {"into": "mix", "pack": "pack", "count": 1}}
NUTS: Changed = {"also_bought_parts_2": SEEDS | {"into": "mix", "item": "nuts",
                                                 "best_by": TODAY + 300}}  # fmt: skip
LATE_SEEDS: Changed = {"best_by": TODAY + 400}
OLD_SEEDS: Changed = {"best_by": None}

KEEPS: list[tuple[Changed, str, str, object]] = [
    (seeded(**NUTS), "bought_days", "mix", 100),
    (mixed(), "bought_days", "mix", None),
    (beside(seeds=OLD_SEEDS), "bought_undated", "mix", 0),
    (beside(seeds=OLD_SEEDS), "bought_undated", "mix-2", 1),
    (mixed(), "own_earliest", "mix", None),
    (mixed(**YEAR, **OPENED), "own_earliest", "mix", 358),
    (mixed(), "parts_earliest", "mix", None),
    (SECOND | YEAR, "parts_earliest", "mix-2", 360),
    (beside(seeds=OLD_SEEDS, **YEAR), "days_left", "mix", 360),
    (beside(**YEAR), "days_left", "mix-2", None),
    # A mix of the next day keeps a day longer.
    (mixed(also_mixes={"key": "mix-2", "product": "food", "date": TODAY - 4},
           also_mix_parts={"into": "mix-2", "product": "food", "weight": 0.1}, **YEAR),
     "parts_earliest", "mix", 360),
]  # fmt: skip
# As none of its parts was mixed before, it is the same of a mix that may go into others.
EARLIEST: list[tuple[Changed, float | None, float | None]] = [
    # What keeps shortest counts; whatever is not known leaves the whole unknown.
    (mixed(), None, None),
    (mixed(**YEAR), 360, 360),
    (seeded(**YEAR), 100, 100),
    (seeded(LATE_SEEDS, **YEAR), 360, 360),
    (seeded(), 100, None),
    (seeded(OLD_SEEDS, **YEAR), 360, None),
    (seeded(OLD_SEEDS, **NUTS), 300, None),
]


@pytest.mark.parametrize(("changed", "name", "key", "value"), KEEPS)
def test_how_long_a_mix_keeps(changed: Changed, name: str, key: str, value: object) -> None:
    found = Figures(**tables(**changed))("mixes", name, key)
    assert told(found, value), found


@pytest.mark.parametrize(("changed", "known", "days"), EARLIEST)
def test_its_earliest_part(changed: Changed, known: float | None, days: float | None) -> None:
    found = Figures(**tables(**changed))
    for names in ("first_earliest", "first_days"), ("earliest_known", "days_left"):
        values = [found("mixes", name, "mix") for name in names]
        assert told(values[0], known) and told(values[1], days), (names, values)
