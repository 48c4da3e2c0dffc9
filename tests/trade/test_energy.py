"""Energy by time of use: by hand, its share of estimates, and both engines."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from engines.audit import faults
from published.figures import Figures
from seasons import Season, sample_seasons
from thorough import some

from reportgen.program import build, read, workbook
from reportgen.report.basis import Bases

PERIODS = [
    {"key": "high", "from_clock": "16:00", "to_clock": "20:00", "price": 0.32},
    {"key": "low", "price": 0.12},
]
RUN = {"key": "run", "dryer": "dryer"}


def figures(run: dict[str, Any], *energy: dict[str, Any], **more: Any) -> Figures:
    rows = [{"run": "run", **each} for each in energy]
    return Figures(
        runs=[RUN | run], run_energy=rows, periods=PERIODS, dryers=[{"key": "dryer", **more}]
    )


# 6 h at 1.2 kW and 20 h at 0.9 kW at 0.12 USD/kWh, 4 h at 1.2 kW at 0.32 USD/kWh, worked by hand.
DAY = ({"period": "low", "hours": 26, "kwh": 25.2}, {"period": "high", "hours": 4, "kwh": 4.8})


@pytest.mark.slow
def test_a_tariff_day_by_hand() -> None:
    # 0.864 + 1.536 + 2.160 = 4.56 for 30.0 kWh.
    found = figures({"duration": 30}, *DAY)
    assert found("runs", "log_energy") == found("runs", "energy_used") == pytest.approx(30.0)
    assert found("runs", "hours_split") == 30
    assert [found("run_energy", "cost", key) for key in "12"] == pytest.approx(
        [0.864 + 2.160, 1.536]
    )
    assert found("runs", "energy_cost") == found("runs", "cost_by_period") == pytest.approx(4.56)
    assert found("rates", "electricity_paid") == pytest.approx(4.56 / 30)


def test_the_meter_counts_and_the_log_shares_it_out() -> None:
    # A meter that shows a tenth more than the log: every period a tenth more.
    found = figures({"duration": 30, "energy": 33.0}, *DAY)
    assert [found("run_energy", "share", key) for key in "12"] == pytest.approx([0.84, 0.16])
    assert found("runs", "energy_cost") == pytest.approx(4.56 * 1.1)


def test_without_a_log_hours_share_it_out() -> None:
    # 30 h from 2026-03-07 10:00 at a mean of 1 kW: 26/30 at 0.12 and 4/30 at 0.32.
    found = figures({"duration": 30, "started": 46088 + 10 / 24}, mean_power=1000)
    assert found("runs", "log_energy") is None
    assert found("runs", "energy_cost") == pytest.approx(26 * 0.12 + 4 * 0.32)


def test_hours_that_no_period_holds_make_the_cost_unknown() -> None:
    found = figures({"duration": 30}, *DAY, {"hours": 1.0, "kwh": 0.5})
    assert found("runs", "energy_used") == pytest.approx(30.5)
    assert found("runs", "energy_cost") is None


def test_one_price_comes_first() -> None:
    found = Figures(
        rates=[{"electricity": 0.5}], runs=[RUN], run_energy=[{"run": "run", "kwh": 8, "hours": 9}]
    )
    assert found("runs", "energy_cost") == 4
    assert found("rates", "electricity_paid") == 0.5


def test_hours_without_a_reading_are_added_up() -> None:
    found = figures({}, *({**each, "unlogged": 0.5} for each in DAY), {"hours": 0})
    assert found("runs", "hours_unlogged") == 1


def test_products_of_one_run_share_its_energy_by_water() -> None:
    # 7 kg of the one gave up 6 kg of water, 3 kg of the other 2: of 10 kWh 7.5 and 2.5.
    found = Figures(
        products=[{"key": "one"}, {"key": "other"}],
        lots=[{"key": "a", "product": "one"}, {"key": "b", "product": "other"}],
        runs=[{"key": "run", "energy": 10.0}],
        loads=[
            {"id": "x", "run": "run", "lot": "a", "wet": 7.0, "dry": 1.0},
            {"id": "y", "run": "run", "lot": "b", "wet": 3.0, "dry": 1.0},
        ],
    )
    assert [found("loads", "energy_share", key) for key in "xy"] == pytest.approx([7.5, 2.5])
    names = ("energy_used", "water_removed", "specific_energy")
    assert [found("products", name, "one") for name in names] == pytest.approx([7.5, 6, 1.25])
    assert [found("products", name, "other") for name in names] == pytest.approx([2.5, 2, 1.25])


def written(folder: Path) -> Path:
    """A season with a tariff: a run with a log, one with a meter, one without, one open."""
    (folder / "batches").mkdir(parents=True)
    (folder / "season.yaml").write_text(
        """season: Tariff Lane
currency: USD
units: {fresh: lb, dried: oz}
timezone: America/Chicago
rates:
  electricity:
    - {from: "16:00", to: "21:00", days: mon-fri, price: 0.31 USD/kWh}
    - {from: "22:00", to: "06:00", price: 0.09 USD/kWh}
    - {price: 0.12 USD/kWh}
dryers: [{id: shed, trays: 5, tray_area: 0.18 m2, mean_power: 640 W}]
"""
    )
    first = datetime(2026, 9, 4, 18, 30)
    rows = [f"{first + timedelta(minutes=7 * n)},{600 + n % 40}" for n in range(250)]
    (folder / "batches" / "one.csv").write_text("time,W\n" + "\n".join(rows) + "\n")
    (folder / "batches" / "a.yaml").write_text(
        """lots: [{id: p, product: pear-slices, weighed: 90 lb, price: 30 USD}]
runs:
  - {id: logged, started: 2026-09-04 18:30, duration: 29 h, meter: one.csv,
     loads: [{lot: p, wet: 19 lb, dry: 52 oz}]}
  - {id: metered, started: 2026-10-31 18:30, ended: 2026-11-02 05:00, energy: 21 kWh,
     loads: [{lot: p, wet: 19 lb, dry: 52 oz}]}
  - {id: neither, started: 2026-11-05 09:00, duration: 31 h,
     loads: [{lot: p, wet: 19 lb, dry: 52 oz}]}
  - {id: unclocked, started: 2026-11-09, duration: 31 h, loads: [{lot: p, wet: 19 lb}]}
"""
    )
    return folder


def test_what_rests_on_estimates(tmp_path: Path) -> None:
    done = read(written(tmp_path / "s"))
    assert done.numbers is not None and done.problems == []
    bases, runs = Bases(done.numbers), done.numbers.book.tables["runs"]
    assert [bases.of(runs, "energy_used", row) for row in range(3)] == [
        "measured", "measured", "estimated",
    ]  # fmt: skip
    # A metered run's hours in each period are known from its times: all of it is measured.
    assert [bases.of(runs, "energy_cost", row) for row in range(3)] == [
        "measured", "measured", "mixed",
    ]  # fmt: skip
    assert done.numbers.cells["runs"]["energy_cost"][3] is None
    hours = done.numbers.cells["runs"]["hours_held"]
    assert hours[:3] == pytest.approx([29, 35.5, 31])  # an hour more where the clock went back
    assert hours[3] is None


def test_both_engines_agree(tmp_path: Path) -> None:
    data, problems = build(written(tmp_path / "s"))
    assert data is not None and problems == []
    book = tmp_path / "tariff.xlsx"
    book.write_bytes(data)
    assert faults([book], tmp_path / "out") == {}


def with_tariff_and_logs(season: Season, folder: Path) -> Path:
    """A made-up season on a tariff, one long log for all its runs that say when they ran."""
    copy = season.copied()
    money = copy.head["currency"]
    copy.head["rates"]["electricity"] = [
        {"from": "16:00", "to": "21:00", "days": "mon-fri", "price": f"0.31 {money}/kWh"},
        {"days": "sat sun", "price": f"0.20 {money}/kWh"},
        {"from": "22:00", "to": "06:00", "price": f"0.09 {money}/kWh"},
        {"price": f"0.12 {money}/kWh"},
    ]
    runs = [row.record for row in copy.rows() if row.table == "runs"]
    for run in runs[::2]:
        if "started" in run and ("ended" in run or "duration" in run):
            run["meter"] = "log.csv"
    copy.write(folder)
    first = datetime(2025, 4, 1)
    rows = [f"{first + timedelta(minutes=10 * n)},{500 + n * 7 % 400}" for n in range(40_000)]
    (folder / "log.csv").write_text("time,W\n" + "\n".join(rows) + "\n")
    return folder


def test_made_up_seasons_with_logs_through_both_engines(tmp_path: Path) -> None:
    books, logged = [], 0
    for n, season in enumerate(sample_seasons(some(of=2, at_every_change=1), 11, "medium")):
        done = read(with_tariff_and_logs(season, tmp_path / str(n)))
        assert done.season is not None and done.numbers is not None, done.problems
        cells = done.numbers.cells
        for row, run in enumerate(cells["runs"]["key"]):
            parts = [at for at, each in enumerate(cells["run_energy"]["run"]) if each == run]
            if not parts:
                continue
            for name, whole in (("hours", "hours"), ("share", None), ("cost", "energy_cost")):
                values = [cells["run_energy"][name][at] for at in parts]
                expected = 1.0 if whole is None else cells["runs"][whole][row]
                if None not in values and expected is not None:
                    total = sum(float(str(each)) for each in values)
                    assert total == pytest.approx(expected, rel=1e-9), (run, name)
            logged += cells["runs"]["log_energy"][row] is not None
        books.append(tmp_path / f"{n}.xlsx")
        books[-1].write_bytes(workbook(done.season, done.numbers))
    assert logged > 1
    assert faults(books, tmp_path / "out") == {}
