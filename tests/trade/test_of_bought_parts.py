"""What was bought for a mix, figure by figure, with a pencil: how dry it is by its own reading, and
how long it keeps beside what else was bought."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import TODAY, mixed, tables
from trade.test_of_a_mix_kept import RAW_SEEDS, WET_SEEDS, seeded
from trade.test_of_a_pack import told

# By a reading of 0.6 of activity no microbes grow; a tenth of water is not too much.
AT_LIMIT = {"water_activity": 0.6}
METERED = RAW_SEEDS | {"moisture_meter": 0.15}
METERED_AT_LIMIT = RAW_SEEDS | {"moisture_meter": 0.1}

OF_SEEDS: list[tuple[dict[str, Any], str, object]] = [
    (AT_LIMIT, "active", False),
    (AT_LIMIT, "dryness", "dry"),
    (METERED_AT_LIMIT, "metered_moist", False),
    (METERED_AT_LIMIT, "dryness", "dry"),
    # Nobody used the meter.
    ({}, "metered_moist", False),
    (METERED, "metered_moist", True),
    (METERED, "has_reading", True),
    (RAW_SEEDS, "has_reading", False),
    # One that is too high is enough, whatever the other says.
    (METERED, "read_moist", True),
    ({"moisture_meter": 0.15}, "read_moist", True),
    (METERED, "dryness", "doubtful"),
    # What may be moist is not what nothing is shown of.
    (WET_SEEDS, "unshown", False),
    (METERED, "unshown", False),
]


@pytest.mark.parametrize(("changed", "name", "value"), OF_SEEDS)
def test_a_figure_of_what_was_bought(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**seeded(changed)))("bought_parts", name)
    assert told(found, value), found


def test_what_was_bought_stands_in_the_order_of_its_days_within_its_mix() -> None:
    """A hundred days are left to the seeds and fifty to the salt; to what is in another mix ten."""
    salt = {"into": "mix", "item": "salt", "weight": 0.1}
    more = mixed(
        also_mixes={"key": "mix-2", "product": "food", "date": TODAY - 4},
        also_bought_parts={**salt, "item": "seeds", "best_by": TODAY + 100},
        also_bought_parts_2={**salt, "best_by": TODAY + 50},
        also_bought_parts_3={**salt, "into": "mix-2", "best_by": TODAY + 10},
    )
    found = Figures(**tables(**more)).numbers.cells["bought_parts"]
    assert found["days_left"] == [100, 50, 10]
    assert found["days_left_rank"] == [2, 1, 1]
    assert found["days_left_lowest"] == [False, True, True]
