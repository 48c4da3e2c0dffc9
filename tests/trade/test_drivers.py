"""What the season's cash cost hangs on, by hand: each driver changed by a share, sorted."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.trade.drivers import DRIVERS
from reportgen.trade.tables import drivers
from trade.small import season
from trade.test_scenarios import MORE, SEASON

# Produce and the way 17.50, energy 4, upkeep 2, packaging 10: 33.50, of which 23.50 in bulk.
TENTH = [1.75, 0.4, 0.2, 1.0, 23.5 * 0.1 / 0.9]


def test_each_changed_by_a_tenth(tmp_path: Path) -> None:
    found = season(tmp_path, SEASON, MORE)
    cells = found.numbers.cells["drivers"]
    assert cells["name"] == list(DRIVERS)
    assert cells["change"] == [0.1] * 5
    assert cells["effect"] == pytest.approx(TENTH)
    assert cells["effect_share"] == pytest.approx([each / 33.5 for each in TENTH])
    # From the smallest: upkeep, electricity, packaging, produce, and most of all the yield.
    assert cells["place_up"] == [4, 2, 1, 3, 5]


def test_a_tenth_less_weight_makes_each_ounce_a_ninth_dearer(tmp_path: Path) -> None:
    # The same bulk cost over 0.9 of the weight: 1 / 0.9 - 1.
    found = season(tmp_path, SEASON, MORE)
    less = season(tmp_path, SEASON.replace("dry: 32 oz", "dry: 28.8 oz"), MORE)
    before, after = found("products", "cash_bulk"), less("products", "cash_bulk")
    assert isinstance(before, float) and isinstance(after, float)
    assert after / before == pytest.approx(1 / 0.9)
    effect = found.numbers.cells["drivers"]["effect"][4]
    assert isinstance(effect, float)
    assert (after - before) * 32 == pytest.approx(effect)


@pytest.mark.parametrize(
    ("driver", "before", "after"),
    [
        # The same tenth, done in the season itself: what the cash cost really becomes.
        (0, "price: 30 USD", "price: 33 USD"),
        (1, "energy: 16 kWh", "energy: 17.6 kWh"),
    ],
)
def test_the_effect_is_what_the_change_does(
    tmp_path: Path, driver: int, before: str, after: str
) -> None:
    found = season(tmp_path, SEASON, MORE)
    changed = season(tmp_path, SEASON.replace(before, after).replace("10 mile", "11 mile")
                     if driver == 0 else SEASON.replace(before, after), MORE)  # fmt: skip
    difference = changed("season", "cash_cost") - found("season", "cash_cost")  # type: ignore[operator]
    assert found.numbers.cells["drivers"]["effect"][driver] == pytest.approx(difference)


def test_an_empty_season_hangs_on_nothing(tmp_path: Path) -> None:
    found = season(tmp_path, "")
    assert found.numbers.cells["drivers"]["effect"] == [0] * 5
    assert found.numbers.cells["drivers"]["effect_share"] == [None] * 5


def test_the_share_can_be_typed_over() -> None:
    change = drivers.inputs["change"]
    assert not change.fixed  # type: ignore[attr-defined]
    assert change.show == "share"
