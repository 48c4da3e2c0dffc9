"""What is reckoned of one run, figure by figure, with a pencil."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from reportgen.trade.constants import SUBLIMATION_FLOOR
from trade.test_checks import BACK, TODAY, UNWEIGHED, tables
from trade.test_of_a_load import NEXT

LOW = {"key": "low", "from_clock": "20:00", "to_clock": "16:00", "price": 0.12}
HIGH = {"key": "high", "from_clock": "16:00", "to_clock": "19:00", "price": 0.32}
DAY = 46088.0
NIGHT = {"key": "run", "dryer": "dryer", "started": DAY + 20 / 24, "duration": 24.0, "energy": 24.0}
OTHER = {"key": "other", "dryer": "dryer", "started": DAY + 0.5, "duration": 24.0}
CLOCK = {"clock_change": 1.0, "changed": DAY + 1 + 3 / 24}
"""The clocks are put back in the second night, at 3:00."""


def beside_another(*rows: dict[str, Any], run: dict[str, Any] = NIGHT) -> Figures:
    """The run and its rows of energy; another run is logged and has a change of its clocks."""
    theirs = {"run": "other", "period": "low", "hours": 5.0, "kwh": 7.0} | CLOCK
    return Figures(
        runs=[run, OTHER], run_energy=[*({"run": "run"} | row for row in rows), theirs],
        periods=[LOW, HIGH], dryers=[{"key": "dryer"}],
    )  # fmt: skip


def test_a_log_is_of_its_own_run() -> None:
    """21 h at 0.12 for 19.2 kWh and 3 h at 0.32 for 4.8; what has no energy was not logged."""
    found = beside_another(
        {"period": "low", "hours": 21.0, "kwh": 19.2}, {"period": "high", "hours": 3.0, "kwh": 4.8},
        {"period": "low", "hours": 2.0}, run=NIGHT | {"energy": None},
    )  # fmt: skip
    assert found("runs", "periods_logged", "run") == 2
    assert found("runs", "log_energy", "run") == pytest.approx(24)
    assert found("runs", "cost_logged", "run") == pytest.approx(19.2 * 0.12 + 4.8 * 0.32)
    assert found("runs", "hours_split", "run") == 24
    assert found("runs", "log_priced", "run") == pytest.approx(21 * 0.12 + 3 * 0.32)


def test_of_hours_in_no_period_the_price_is_not_known() -> None:
    found = beside_another({"period": "low", "hours": 21.0, "kwh": 9.0}, {"hours": 3.0, "kwh": 9.0})
    assert found("runs", "hours_split", "run") == 24
    assert found("runs", "log_priced", "run") is None


def test_hours_without_a_reading_are_of_its_own_log() -> None:
    found = Figures(**tables(
        run_energy={"run": "run", "unlogged": 0.5}, also_run_energy={"run": "run", "unlogged": 1.0},
        also_run_energy_2={"run": "other", "unlogged": 4.0}, also_runs={"key": "other"},
    ))  # fmt: skip
    assert found("runs", "hours_unlogged", "run") == 1.5


def test_the_hour_that_the_clocks_give_has_its_price() -> None:
    """24 h from 20:00 end at 19:00, for the clocks were put back: 21 h at 0.12 and 3 at 0.32. By
    the clock alone it would have run till 20:00, and the last hour has no price."""
    names = ("clock_hours", "clock_hours_priced", "hours_held", "hours_priced", "cost_by_hours")
    found = beside_another({"period": "low"} | CLOCK)
    paid = 21 * 0.12 + 3 * 0.32
    assert [found("runs", name, "run") for name in names] == pytest.approx(
        [1, 0.12, 24, paid, paid]
    )
    plain = beside_another()
    assert [plain("runs", name, "run") for name in names[:4]] == pytest.approx(
        [0, 0, 23, paid - 0.12]
    )
    assert plain("runs", "cost_by_hours", "run") is None
    unsaid = beside_another({"period": "low"} | CLOCK | {"clock_change": None})
    assert [unsaid("runs", name, "run") for name in names] == [None] * 5


@pytest.mark.parametrize(("seconds", "known"), [(0.9, True), (1.0, False), (1.9, False)])
def test_hours_without_a_price_leave_the_cost_unknown(seconds: float, known: bool) -> None:
    """From 16:00 for so long past 20:00, when no period holds any more: 4 h at 0.32."""
    found = Figures(
        runs=[{"key": "run", "dryer": "dryer", "started": 46088 + 16 / 24,
               "duration": 4 + seconds / 3600, "energy": 8.0}],
        periods=[{"key": "high", "from_clock": "16:00", "to_clock": "20:00", "price": 0.32}],
        dryers=[{"key": "dryer"}],
    )  # fmt: skip
    assert found("runs", "hours_held") == pytest.approx(4)
    cost = found("runs", "cost_by_hours")
    assert cost == pytest.approx(8 * 0.32) if known else cost is None


def test_one_price_comes_before_one_by_the_hour() -> None:
    found = Figures(
        rates=[{"electricity": 0.5}], runs=[{"key": "run", "energy": 8.0}],
        periods=[{"key": "all", "price": 0.1}],
        run_energy=[{"run": "run", "period": "all", "kwh": 8.0, "hours": 9.0}],
    )  # fmt: skip
    assert found("runs", "cost_by_period") == pytest.approx(0.8)
    assert found("runs", "energy_cost") == 4


@pytest.mark.parametrize(
    ("started", "midnight", "timed"),
    [(TODAY, None, False), (TODAY, True, True), (TODAY + 0.25, None, True)],
)
def test_midnight_is_a_time_where_it_is_written(
    started: float, midnight: bool | None, timed: bool
) -> None:
    run = {"started": started, "at_midnight": midnight, "dry_about": not timed}
    assert Figures(**tables(runs=run))("runs", "start_timed") is timed


def test_of_solids_together_one_that_is_not_known() -> None:
    """The load beside it has no wet weight of its own: nobody knows how to share."""
    found = Figures(**tables(
        runs={"dry": 2.0}, loads=UNWEIGHED,
        also_loads={"id": "more", "run": "run", "lot": "lot"},
    ))  # fmt: skip
    assert found("loads", "solids", "load") == pytest.approx(1.2)
    assert found("runs", "solids_together") is None
    assert found("loads", "dry_shared", "load") is None


def at_one_price(hours: float) -> dict[str, Any]:
    """The run of 30 h from 6:00, and a log of so many hours, at the one price of 1."""
    return {
        "runs": {"started": TODAY - 7.75},
        "periods": {"key": "all", "price": 1.0},
        "run_energy": {"run": "run", "period": "all", "hours": hours, "kwh": 12.0},
    }


OF_ONE: list[tuple[dict[str, Any], str, object]] = [
    # No time spent needs no rate.
    ({"rates": {"labor": None}}, "labor_cost", 0),
    ({"rates": {"labor": None}, "runs": {"labor": 1.0}}, "labor_cost", None),
    # It took no water out, it took some up: its cost goes by none.
    ({"loads": UNWEIGHED | {"dry": 9.0}}, "cost_by_water", None),
    ({"loads": UNWEIGHED | {"dry": 2.0}}, "cost_by_water", 12 * 0.25 / 6),
    ({"loads": UNWEIGHED | {"dry": 9.0}}, "specific_energy", None),
    # What a lot without a price was worth in a run that failed, and time without a rate.
    ({"runs": {"failed": True}}, "failed_running", 22 + 12 * 0.25),
    ({"runs": {"failed": True}, "lots": {"price_total": None}}, "failed_running", None),
    ({"runs": {"failed": True}, "lots": {"labor": 1.0}, "rates": {"labor": None}},
     "failed_cost", None),
    ({}, "drawn", 1.2),
    ({"packs": {"net": None}}, "drawn", None),
    # As much as the ice takes is enough, ten times as much not too much: of 6.7 of water.
    ({"runs": {"energy": 6.7 * SUBLIMATION_FLOOR.value}}, "energy_below_floor", False),
    ({"runs": {"energy": 67 * SUBLIMATION_FLOOR.value}}, "energy_above_all", False),
    # Energy by the mean power is energy.
    ({"runs": {"energy": None}, "dryers": {"mean_power": 400.0}, "rates": {"electricity": None}},
     "energy_without_price", True),
    # Meter and log may be 2 % apart, 0.24 of 12; hours a quarter of an hour.
    ({"run_energy": {"run": "run", "hours": 30.0, "kwh": 12.24}}, "log_differs", False),
    ({"run_energy": {"run": "run", "hours": 30.0, "kwh": 11.75}}, "log_differs", True),
    ({"run_energy": {"run": "run", "hours": 29.7, "kwh": 12.0}}, "hours_not_split", True),
    ({"run_energy": {"run": "run", "hours": 29.8, "kwh": 12.0}}, "hours_not_split", False),
    # 30 h at 1; a log of as many at that price, of 2 % more or less, and of less than that.
    (at_one_price(30.6), "log_of_other_hours", False),
    (at_one_price(30.7), "log_of_other_hours", True),
    (at_one_price(29.3), "log_of_other_hours", True),
    # Packs may hold 2 % more than came out: 1.326 of 1.3.
    ({"packs": {"net": 1.31, "count": 1}}, "packs_above_run", False),
    ({"packs": {"net": 1.3262, "count": 1}}, "packs_above_run", True),
    ({"packs": {"net": 1.34, "count": 1}}, "packs_above_run", True),
    # The run's dry weight may be 2 % off those of its loads, either way.
    ({"runs": {"dry": 1.0}, "loads": UNWEIGHED | {"dry": 0.98}}, "dry_differs", False),
    ({"runs": {"dry": 1.0}, "loads": UNWEIGHED | {"dry": 0.97}}, "dry_differs", True),
    ({"runs": {"dry": 1.0}, "loads": UNWEIGHED | {"dry": 1.03}}, "dry_differs", True),
    ({"runs": {"dry": 1.3}, "also_loads": {"id": "b", "run": "run", "lot": "lot", "wet": 1.0}},
     "dry_below_loads", True),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "value"), OF_ONE)
def test_a_figure_of_a_run(changed: dict[str, Any], name: str, value: object) -> None:
    found = Figures(**tables(**changed))("runs", name, "run")
    if value is None or isinstance(value, bool):
        assert found is value
    else:
        assert found == pytest.approx(value)


def test_a_run_of_what_went_back_in_has_little_ice_to_take_out() -> None:
    """0.2 of water for 4 kWh, or for 0.1: too little it may well be, too much no chart shows."""
    again = {"also_runs": NEXT, "also_loads": BACK | {"run": "next", "wet": 1.2}}
    found = Figures(**tables(**again))
    assert [found("runs", "with_fresh", key) for key in ("run", "next")] == [True, False]
    assert found("runs", "specific_energy", "next") == pytest.approx(4 / 0.2)
    assert found("runs", "energy_drawn", "run") == pytest.approx(12 / 6.7)
    assert found("runs", "energy_drawn", "next") is None
    assert found("runs", "energy_above_all", "next") is not True
    assert found("runs", "energy_below_floor", "next") is False
    found = Figures(**tables(**again | {"also_runs": NEXT | {"energy": 0.1}}))
    assert found("runs", "energy_below_floor", "next") is True


def test_a_load_without_a_dry_weight_is_of_its_own_run() -> None:
    found = Figures(**tables(
        also_runs=NEXT,
        also_loads={"id": "open", "run": "next", "lot": "lot", "wet": 1.0},
    ))  # fmt: skip
    assert [found("runs", "loads_open", key) for key in ("run", "next")] == [0, 1]


@pytest.mark.parametrize(("minutes", "both"), [(0, False), (1, False), (1.5, True), (3, True)])
def test_a_minute_is_no_overlap(minutes: float, both: bool) -> None:
    """The run of 30 h began eight days ago; times are written to the minute."""
    began = TODAY - 8 + 30 / 24 - minutes / 1440
    found = Figures(**tables(also_runs={"key": "next", "dryer": "dryer", "started": began}))
    assert found("runs", "two_at_once", "next") is both
