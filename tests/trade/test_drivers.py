"""What the season's running cost hangs on, by hand: each driver changed by a share, sorted."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from reportgen.trade.drivers import DRIVERS
from reportgen.trade.tables import drivers
from trade.small import season
from trade.test_scenarios import MORE, SEASON

# Produce 15 and the way 2.50, energy 4, upkeep 2, packaging 10: 33.50, of which 23.50 in bulk.
TENTH = [1.5, 0.25, 0.4, 0.2, 1.0, 23.5 * 0.1 / 0.9]
BACK = [-1.5, -0.25, -0.4, -0.2, -1.0, -23.5 * 0.1 / 1.1]


def test_each_changed_by_a_tenth(tmp_path: Path) -> None:
    found = season(tmp_path, SEASON, MORE)
    assert found("season", "cost_produce") == pytest.approx(15)
    assert found("season", "cost_travel") == pytest.approx(2.5)
    cells = found.numbers.cells["drivers"]
    assert cells["what"] == list(DRIVERS)
    assert cells["change"] == [0.1] * 6
    assert cells["effect"] == pytest.approx(TENTH)
    assert cells["effect_back"] == pytest.approx(BACK)
    assert cells["effect_share"] == pytest.approx([each / 33.5 for each in TENTH])
    assert cells["weight"] == cells["effect"]
    # From the greatest: the yield, produce, packaging, electricity, driving, upkeep.
    assert cells["weighs"] == [2, 5, 4, 6, 3, 1]


def test_the_ranking_reads_from_most_to_least(tmp_path: Path) -> None:
    cells = season(tmp_path, SEASON, MORE).numbers.cells["ranking"]
    order = [5, 0, 4, 2, 1, 3]
    assert cells["driver"] == [f"driver-{each + 1}" for each in order]
    assert cells["what"] == [DRIVERS[each] for each in order]
    assert cells["change"] == [0.1] * 6
    assert cells["effect"] == pytest.approx([TENTH[each] for each in order])
    assert cells["effect_back"] == pytest.approx([BACK[each] for each in order])
    assert cells["effect_share"] == pytest.approx([TENTH[each] / 33.5 for each in order])


def test_ties_and_what_is_unknown_keep_their_order(tmp_path: Path) -> None:
    # Without a price of electricity its effect is unknown, and so is that of the dried weight.
    head = re.sub(r"electricity: [^,}]*, ", "", MORE)
    assert head != MORE
    found = season(tmp_path, SEASON, head)
    assert found.numbers.cells["drivers"]["effect"][2] is None
    assert found.numbers.cells["drivers"]["effect"][5] is None
    cells = found.numbers.cells["ranking"]
    assert cells["what"] == [DRIVERS[each] for each in (0, 4, 1, 3, 2, 5)]
    assert cells["effect"][4:] == [None, None]
    nothing = season(tmp_path, "").numbers.cells["ranking"]
    assert nothing["what"] == list(DRIVERS)


def test_a_tenth_less_weight_makes_each_ounce_a_ninth_dearer(tmp_path: Path) -> None:
    # The same bulk cost over 0.9 of the weight: 1 / 0.9 - 1.
    found = season(tmp_path, SEASON, MORE)
    less = season(tmp_path, SEASON.replace("dry: 32 oz", "dry: 28.8 oz"), MORE)
    before, after = found("products", "running_bulk"), less("products", "running_bulk")
    assert isinstance(before, float) and isinstance(after, float)
    assert after / before == pytest.approx(1 / 0.9)
    effect = found.numbers.cells["drivers"]["effect"][5]
    assert isinstance(effect, float)
    assert (after - before) * 32 == pytest.approx(effect)


@pytest.mark.parametrize(
    ("driver", "before", "after"),
    [
        # The same tenth, done in the season itself: what the running cost really becomes.
        ("price of produce", "price: 30 USD", "price: 33 USD"),
        ("price of driving", "10 mile", "11 mile"),
        ("price of electricity", "energy: 16 kWh", "energy: 17.6 kWh"),
    ],
)
def test_the_effect_is_what_the_change_does(
    tmp_path: Path, driver: str, before: str, after: str
) -> None:
    found = season(tmp_path, SEASON, MORE)
    changed = season(tmp_path, SEASON.replace(before, after), MORE)
    difference = changed("season", "running_cost") - found("season", "running_cost")  # type: ignore[operator]
    effect = found.numbers.cells["drivers"]["effect"][DRIVERS.index(driver)]
    assert effect == pytest.approx(difference)


def test_an_empty_season_hangs_on_nothing(tmp_path: Path) -> None:
    found = season(tmp_path, "")
    assert found.numbers.cells["drivers"]["effect"] == [0] * 6
    assert found.numbers.cells["drivers"]["effect_share"] == [None] * 6


def test_the_share_can_be_typed_over() -> None:
    change = drivers.inputs["change"]
    assert not change.fixed  # type: ignore[attr-defined]
    assert change.show == "share"
