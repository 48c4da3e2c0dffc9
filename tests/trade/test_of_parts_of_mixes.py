"""Parts of mixes, figure by figure, with a pencil: what they weigh and cost, how long they keep,
how dry they are, and what is wrong with them. A mix of bulk, and one that holds it, packs of it,
packs of a run, packs left from last season, and the bulk of another product."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SECOND, TODAY, mixed, tables
from trade.test_of_a_pack import told
from trade.test_of_draws import UNSHOWN
from trade.test_of_packs_and_mixes import MOIST, OLD_SEEDS, SEEDS, YEAR

Changed = dict[str, Any]

INTO = {"into": "mix-2"}
JAR = {"key": "jar", "product": "food", "date": TODAY - 4, "container": "tin", "count": 3,
       "net": 0.04}  # fmt: skip
OLD = {"key": "old", "product": "food", "date": TODAY - 99, "container": "tin", "count": 5,
       "net": 0.2, "carried_running": 3.0, "carried_full": 4.0,
       "carried_best_by": TODAY + 9}  # fmt: skip

# Part 1 is bulk in the first mix; 2 is that mix in the second, 3 a jar of it, 4 a pack of a run, 5
# packs of last season, 6 the bulk of another product.
SIX: Changed = SECOND | {
    "mixes": SECOND["mixes"] | {"out": 0.4},
    "also_products": {"key": "other", "best_by": 1.0},
    "also_packs": JAR,
    "also_packs_2": OLD,
    "also_draws": {"pack": "jar", "mix": "mix"},
    "also_mix_parts_2": INTO | {"pack": "jar"},
    "also_mix_parts_3": INTO | {"pack": "pack"},
    "also_mix_parts_4": INTO | {"pack": "old", "count": 3},
    "also_mix_parts_5": INTO | {"product": "other", "weight": 0.05},
    "uses": {"count": 1},
    "counts": None,
}
RUNNING, FULL = 25 / 1.3, 35 / 1.3
"""By weight of bulk: 22 of produce and 3 of energy; with 10 of wear."""
MIX_RUNNING, MIX_FULL = 0.5 * RUNNING / 0.4, 0.5 * FULL / 0.4
"""0.5 went into the mix, of which 0.4 came out."""
ALIKE = 0.1 + 0.04 + 0.3 + 3 * 0.2
"""All of the food that went into the second mix, mixed before or not. Where no count is written,
there was one of them."""

OF_SIX: dict[str, tuple[object, ...]] = {
    "opened": (0, 0, 1, 1, 3, 0),
    "weight_in": (0.5, 0.1, 0.04, 0.3, 3 * 0.2, 0.05),
    "weight_alike": (0.5, ALIKE, ALIKE, ALIKE, ALIKE, 0.05),
    "in_mix": ("mix/food", *4 * ("mix-2/food",), "mix-2/other"),
    # Nothing was dried of the other product.
    "first_running": (0.5 * RUNNING, 0, 0, 0.3 * RUNNING, 3 * 3, None),
    "first_full": (0.5 * FULL, 0, 0, 0.3 * FULL, 3 * 4, None),
    "running_cost": (
        0.5 * RUNNING, 0.1 * MIX_RUNNING, 0.04 * MIX_RUNNING, 0.3 * RUNNING, 9, None,
    ),
    "full_cost": (0.5 * FULL, 0.1 * MIX_FULL, 0.04 * MIX_FULL, 0.3 * FULL, 12, None),
    "mixes_within": (0, 0, 0, 0, 0, 0),
    "not_one_part": (False, False, False, False, False, False),
    "opened_before_packed": (False, False, False, False, False, False),
}  # fmt: skip


@pytest.mark.parametrize("name", OF_SIX)
def test_a_figure_of_each_of_six_parts(name: str) -> None:
    found = Figures(**tables(**SIX)).numbers.cells["mix_parts"][name]
    assert len(found) == len(OF_SIX[name])
    assert all(told(each, value) for each, value in zip(found, OF_SIX[name], strict=True)), found


NO_DAY: Changed = mixed(mixes={"date": None})
PACK = {"product": None, "weight": None, "pack": "pack"}
NO_SUCH_PACK = mixed(mix_parts=PACK | {"pack": "nothing"})
LATE_MIX: Changed = SECOND | {"also_mixes": SECOND["also_mixes"] | {"date": TODAY - 6}}
"""The mix that holds the other was made the day before it."""
NO_NET: Changed = SECOND | {"also_packs": JAR | {"net": None},
                            "also_mix_parts_2": INTO | {"pack": "jar"}}  # fmt: skip


def of_two_mixes(seeds: Changed) -> Changed:
    """A part that is a jar of the mix, which keeps 360 days, and of one of seeds."""
    return SIX | YEAR | {
        "also_products": {"key": "other"},
        "also_mixes_2": {"key": "seeds", "product": "food", "date": TODAY - 4},
        "also_bought_parts": seeds | {"into": "seeds"},
        "also_draws_2": {"pack": "jar", "mix": "seeds"},
    }  # fmt: skip


# (season, part, figure, value)
OF_ONE: list[tuple[Changed, str, str, object]] = [
    # What is of another mix does not matter here.
    (NO_NET, "1", "weight_alike", 0.5),
    (NO_NET, "2", "weight_alike", None),
    # It names one thing, two, or nothing.
    (mixed(mix_parts={"product": None}), "1", "not_one_part", True),
    (mixed(mix_parts={"mix": "mix"}), "1", "not_one_part", True),
    (mixed(mix_parts=PACK | {"mix": "mix"}), "1", "not_one_part", True),
    (mixed(mix_parts=PACK), "1", "not_one_part", False),
    # A pack that nobody wrote down is one thing all the same.
    (NO_SUCH_PACK, "1", "not_one_part", False),
    # A jar of the second mix, which holds the first, is one too many.
    (SIX | {"also_draws": {"pack": "jar", "mix": "mix-2"}, "also_mixes_2": {"key": "mix-3"},
            "also_mix_parts_2": {"into": "mix-3", "pack": "jar"}}, "3", "mixes_within", 1),
    # What went in was made a day after the mix.
    (LATE_MIX, "2", "opened_before_packed", True),
    (LATE_MIX, "1", "opened_before_packed", False),
    # Where the day of a mix is not known, nothing went in too late for it.
    (NO_DAY | {"mix_parts": {"into": "mix", "pack": "pack"}}, "1", "opened_before_packed", False),
    (SECOND | {"also_mixes": {"key": "mix-2", "product": "food"}}, "2", "opened_before_packed",
     False),
    # Nor is it known how long bulk keeps that went into it, a year from then; a pack keeps on.
    (NO_DAY | YEAR, "1", "own_best_by", None),
    (mixed(**YEAR), "1", "own_best_by", TODAY - 5 + 365),
    (NO_DAY | YEAR | {"mix_parts": {"into": "mix", "pack": "pack"}}, "1", "own_best_by",
     TODAY - 7 + 365),
    # The jar keeps as long as the seeds in it; of seeds without a day it is not known how long.
    (of_two_mixes(SEEDS), "3", "mixed_days", 100),
    (of_two_mixes(OLD_SEEDS), "3", "mixed_days", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "part", "name", "value"), OF_ONE)
def test_a_figure_of_a_part(changed: Changed, part: str, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("mix_parts", name, part)
    assert told(found, value), found


def test_a_mix_keeps_as_long_as_the_first_of_its_own_parts() -> None:
    """Bulk keeps 360 days from now, the old pack 9; the mean of the two is nobody's."""
    old = {"also_packs": OLD, "also_mix_parts": {"into": "mix", "pack": "old"}}
    for name in ("own_earliest", "first_days", "days_left"):
        assert told(Figures(**tables(**mixed(**YEAR, **old)))("mixes", name), 9), name


# --- how dry a part is ---------------------------------------------------------------------------

RUN_DAY: Changed = mixed(mixes={"date": TODAY - 7}, packs=None, uses=None, counts=None, draws=None)
"""Mixed on the day on which the run ended, at six in the evening."""
DAY_BEFORE = RUN_DAY | {"mixes": RUN_DAY["mixes"] | {"date": TODAY - 8}}
OF_OTHER = {
    "also_products": {"key": "other"},
    "also_lots": {"key": "of-other", "product": "other", "date": TODAY - 9, "weighed": 5.0},
}
OTHER_LOAD = {"id": "of-other", "run": "run", "lot": "of-other", "wet": 4.0, "dry": 0.6}
OTHER_UNSHOWN = OF_OTHER | {"also_loads": OTHER_LOAD}
OTHER_DRY = OF_OTHER | {"also_loads": OTHER_LOAD | {"weighing_before": 0.6, "weighing_last": 0.6}}
LATE = {
    "also_runs": {"key": "late", "dryer": "dryer", "started": TODAY - 4, "duration": 30.0},
    "also_loads": {"id": "late", "run": "late", "lot": "lot", "wet": 8.0, "dry": 1.3},
}
"""A load that is not shown to be dry and came out after the mix was made."""
ALSO_UNSHOWN = {"also_loads": {"id": "more", "run": "run", "lot": "lot", "wet": 1.0, "dry": 0.2}}
CARRIED = {"carried_over": {"product": "food", "dried": 0.5, "running": 1.0, "full": 2.0}}
DRY_LAST_YEAR = mixed(
    mix_parts=PACK, draws=None,
    packs={"carried_running": 3.0, "carried_full": 4.0, "carried_dryness": "dry"},
)  # fmt: skip

HOW_DRY: list[tuple[Changed, str, object]] = [
    # What came out in the evening may be in the mix of that day, not in one of the day before.
    (RUN_DAY | MOIST, "doubtful_loads", 1),
    (RUN_DAY | UNSHOWN, "unshown_loads", 1),
    (RUN_DAY, "dry_loads", 1),
    (DAY_BEFORE | MOIST, "doubtful_loads", 0),
    (DAY_BEFORE | UNSHOWN, "unshown_loads", 0),
    (DAY_BEFORE, "dry_loads", 0),
    (DAY_BEFORE, "bulk_dry", False),
    (RUN_DAY | UNSHOWN, "dry_loads", 0),
    # Loads of another product are in no bulk of this.
    (mixed(**OTHER_UNSHOWN), "unshown_loads", 0),
    (mixed(**OTHER_DRY), "dry_loads", 1),
    (mixed(**OTHER_UNSHOWN), "bulk_dry", True),
    (mixed(**LATE), "bulk_dry", True),
    # One that is shown beside one that is not, and some that is of nobody knows which.
    (mixed(**ALSO_UNSHOWN), "bulk_dry", False),
    (mixed(**UNSHOWN), "bulk_dry", False),
    (mixed(**CARRIED), "bulk_dry", False),
    (mixed(**CARRIED), "bulk_dryness", "not shown"),
    # On which day is not known: then neither is which loads.
    (NO_DAY, "day_over", None),
    (NO_DAY, "dry_loads", None),
    (NO_DAY, "bulk_dry", False),
    (NO_DAY, "bulk_dryness", "not shown"),
    # As last season; no run is named of this one.
    (DRY_LAST_YEAR, "own_dryness", "dry"),
    (DRY_LAST_YEAR, "dryness", "dry"),
    # What may not be dry is not said to be not shown as well.
    (mixed(**MOIST), "own_doubtful", True),
    (mixed(**MOIST), "own_unshown", False),
    (mixed(**MOIST), "doubtful", True),
    (mixed(**MOIST), "unshown", False),
    (mixed(**UNSHOWN), "own_unshown", True),
    (mixed(**UNSHOWN), "unshown", True),
    # Of a pack that nobody wrote down, nothing is shown.
    (NO_SUCH_PACK, "own_unshown", True),
    (NO_SUCH_PACK, "unshown", True),
]


@pytest.mark.parametrize(("changed", "name", "value"), HOW_DRY)
def test_how_dry_a_part_is(changed: Changed, name: str, value: object) -> None:
    found = Figures(**tables(**changed))("mix_parts", name)
    assert told(found, value), found


def test_a_day_is_over_a_minute_before_the_next() -> None:
    found = Figures(**tables(**mixed()))("mix_parts", "day_over")
    assert found == pytest.approx(TODAY - 5 + 1439 / 1440, rel=0, abs=1e-6)
