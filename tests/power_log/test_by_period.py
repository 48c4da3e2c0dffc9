"""Runs and their logs: which part of a log is a run's, and what is filled in from it."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest
from model.made import BASE, origin, problems_of, row, season_of

from reportgen.model.season import Season

TARIFF = """rates:
  electricity:
    - {from: "16:00", to: "21:00", price: 0.31 USD/kWh}
    - {price: 0.12 USD/kWh}
"""


def steady(start: str, minutes: int, watt: float = 600, step: int = 5) -> str:
    first = datetime.fromisoformat(start)
    stamps = (first + timedelta(minutes=n) for n in range(0, minutes + 1, step))
    return "time,W\n" + "".join(f"{each.isoformat(sep=' ')},{watt}\n" for each in stamps)


def files(run: str, log: str, head: str = BASE + TARIFF) -> dict[str, str]:
    return {"season.yaml": head, "batches/a.yaml": f"runs: [{run}]\n", "batches/a.csv": log}


def shares(season: Season, *names: str) -> list[tuple[object, ...]]:
    columns = season.tables["run_energy"].values
    return list(zip(*(columns[name] for name in names), strict=True))


def test_a_log_is_split_at_the_bounds_of_periods(tmp_path: Path) -> None:
    # 14:30 to 22:30, at 600 W: 1.5 h and 1.5 h outside, 5 h inside 16:00 to 21:00.
    run = "{id: r, started: 2026-09-05 14:30, duration: 8 h, meter: a.csv}"
    season = season_of(tmp_path, files(run, steady("2026-09-05T14:30", 480)))
    assert shares(season, "run", "period") == [("r", "period-2"), ("r", "period-1")]
    for name, expected in {"hours": [3, 5], "kwh": [1.8, 3.0], "unlogged": [0, 0]}.items():
        assert [each for (each,) in shares(season, name)] == pytest.approx(expected, abs=1e-9)
    found = origin(season, "run_energy", "energy-1", "kwh")
    assert (found.kind, found.text) == ("given", "97 readings in W")
    assert found.place is not None and (found.place.file, found.place.line) == ("batches/a.csv", 2)


def test_a_run_takes_its_own_part_of_a_long_log(tmp_path: Path) -> None:
    runs = (
        "{id: a, started: 2026-09-05 10:00, duration: 2 h, meter: a.csv}, "
        "{id: b, started: 2026-09-06 10:00, ended: 2026-09-06 15:00, meter: a.csv}"
    )
    season = season_of(tmp_path, files(runs, steady("2026-09-05T00:00", 48 * 60), BASE))
    assert shares(season, "run", "period") == [("a", None), ("b", None)]
    assert [each for (each,) in shares(season, "kwh")] == pytest.approx([1.2, 3.0])


def test_a_log_says_when_the_run_was(tmp_path: Path) -> None:
    season = season_of(tmp_path, files("{id: r, meter: a.csv}", steady("2026-09-05T14:30", 480)))
    run = row(season, "runs", "r")
    assert run["duration"] == 8
    assert run["started"] == pytest.approx(46270 + 14.5 / 24, abs=1e-9)
    # A spreadsheet's day 46270 is 2026-09-05: days from 1899-12-30, by Python's calendar.
    assert (datetime(2026, 9, 5) - datetime(1899, 12, 30)).days == 46270
    assert origin(season, "runs", "r", "duration").kind == "default"


def test_a_run_without_a_log_has_no_rows(tmp_path: Path) -> None:
    # Its hours follow from its start, in the workbook as well.
    runs = "{id: a, started: 2026-09-05 10:00, duration: 8 h}, {id: b, started: 2026-09-05}"
    assert shares(season_of(tmp_path, files(runs, "")), "run") == []


def test_midnight_is_told_from_a_day_alone(tmp_path: Path) -> None:
    runs = "{id: a, started: 2026-09-05 00:00}, {id: b, started: 2026-09-05}"
    season = season_of(tmp_path, files(runs, ""))
    assert [row(season, "runs", each)["at_midnight"] for each in "ab"] == [True, None]


def test_at_one_price_only_logs_are_told_apart(tmp_path: Path) -> None:
    season = season_of(
        tmp_path, files("{id: a, started: 2026-09-05 10:00, duration: 8 h}", "", BASE)
    )
    assert shares(season, "run") == []


def test_hours_over_a_clock_change(tmp_path: Path) -> None:
    # From 20:00 to 08:00 the clock shows 12 h; back by one on 2026-11-01, so it was 13.
    run = "{id: r, started: 2026-10-31 20:00, ended: 2026-11-01 08:00}"
    head = BASE + TARIFF
    season = season_of(tmp_path, files(run, "", head + "timezone: America/Chicago\n"))
    assert row(season, "runs", "r")["duration"] == 13
    assert shares(season, "period", "clock_change") == []  # 13 h from 20:00 end in one period
    season = season_of(tmp_path, files(run, "", head))
    assert row(season, "runs", "r")["duration"] is None


def test_what_a_clock_change_adds_and_takes(tmp_path: Path) -> None:
    # From Saturday 20:00, 21 h: to 17:00 by the hours, to 16:00 by the clock that was put back.
    run = "{id: r, started: 2026-10-31 20:00, duration: 21 h}"
    season = season_of(tmp_path, files(run, "", BASE + TARIFF + "timezone: America/Chicago\n"))
    assert dict(shares(season, "period", "clock_change")) == {"period-1": -1, "period-2": 1}
    # 2026-11-01 is day 46327; the clock showed 1:59, then 1:00 again.
    expected = pytest.approx(46327 + 2 / 24, abs=1e-9)
    assert [each for (each,) in shares(season, "changed")] == [expected, expected]


def test_a_duration_may_be_an_hour_off_the_clock_where_it_was_changed(tmp_path: Path) -> None:
    run = "{id: r, started: 2026-10-31 20:00, ended: 2026-11-01 08:00, duration: 13 h}"
    assert problems_of(tmp_path, files(run, "", BASE + "timezone: America/Chicago\n")) == []
    assert "duration says 13 h" in problems_of(tmp_path, files(run, "", BASE))[0].what


def test_the_picture_is_the_mean_of_short_whiles(tmp_path: Path) -> None:
    log = steady("2026-09-05T10:00", 60, 600) + steady("2026-09-05T11:05", 60, 300)[7:]
    run = "{id: r, started: 2026-09-05 10:00, duration: 2 h 5 min, meter: a.csv}"
    points = season_of(tmp_path, files(run, log, BASE)).tables["power"].values
    assert set(points["run"]) == {"r"} and len(points["watt"]) == 25
    since = [float(str(each)) for each in points["since"]]
    assert since == sorted(since) and 0 < since[0] < since[-1] < 125 / 60
    assert [points["watt"][0], points["watt"][12], points["watt"][-1]] == [600, 450, 300]
    # A mean each: together they are the energy, 0.6 + 0.0375 + 0.3 kWh.
    mean = sum(float(str(each)) for each in points["watt"]) / 25
    assert mean / 1000 * 125 / 60 == pytest.approx(0.9375, rel=1e-4)


def test_long_logs_make_small_pictures(tmp_path: Path) -> None:
    log = steady("2026-09-05T10:00", 36 * 60, 600, 1)
    season = season_of(tmp_path, files("{id: r, meter: a.csv}", log, BASE))
    assert len(season.tables["power"].keys) == 120


SAID = {
    "a gap": (
        "{id: r, started: 2026-09-05 10:00, duration: 4 h, meter: a.csv}",
        steady("2026-09-05T10:00", 60) + steady("2026-09-05T13:00", 60)[7:],
        ("batches/a.csv", 14, "a gap of more than 15 min after this line, the longest of 2 h; "
         "power is taken to go straight from one reading to the next"),
    ),
    "another time": (
        "{id: r, started: 2026-09-07 10:00, duration: 4 h, meter: a.csv}",
        steady("2026-09-05T10:00", 60),
        ("batches/a.yaml", 1, "batches/a.csv has no readings of the time of this run"),
    ),
    "two runs, no times": (
        "{id: r, meter: a.csv}, {id: s, started: 2026-09-05 10:00, duration: 1 h, meter: a.csv}",
        steady("2026-09-05T10:00", 60),
        ("batches/a.yaml", 1, "2 runs have this log, and this one does not say when it ran"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", SAID)
def test_what_is_odd_about_a_runs_log_is_said(tmp_path: Path, case: str) -> None:
    run, log, expected = SAID[case]
    problems = problems_of(tmp_path, files(run, log))
    assert [(p.place.file, p.place.line, p.what) for p in problems] == [expected]


def test_gaps_and_what_the_log_leaves_out_are_counted(tmp_path: Path) -> None:
    # Run 9:00 to 15:00; the log has 10:00 to 11:00 and 13:00 to 14:00.
    log = steady("2026-09-05T10:00", 60) + steady("2026-09-05T13:00", 60)[7:]
    run = "{id: r, started: 2026-09-05 9:00, duration: 6 h, meter: a.csv}"
    columns = season_of(tmp_path, files(run, log, BASE)).tables["run_energy"].values
    assert columns["unlogged"] == [pytest.approx(4)]
    assert columns["kwh"] == [pytest.approx(0.6 * 4)]  # bridged, but not made up outside


def test_what_was_put_right_is_read_in_the_workbook_as_well(tmp_path: Path) -> None:
    """Beside the run's first period; a log in which nothing was odd leaves it empty."""
    log = steady("2026-09-05T14:30", 480).replace(
        "15:00:00,600", "15:00:00,600\n2026-09-05 15:00,600"
    )
    run = "{id: r, started: 2026-09-05 14:30, duration: 8 h, meter: a.csv}"
    first, second = (each for (each,) in shares(season_of(tmp_path, files(run, log)), "remark"))
    assert first == "line 9: a stamp is there twice, first here; the later line counts"
    assert second is None
    gap = steady("2026-09-05T10:00", 60) + steady("2026-09-05T13:00", 60)[7:]
    run = "{id: r, started: 2026-09-05 10:00, duration: 4 h, meter: a.csv}"
    ((remark,),) = shares(season_of(tmp_path, files(run, gap, BASE)), "remark")
    assert str(remark).startswith("line 14: a gap of more than 15 min")
    whole = steady("2026-09-05T10:00", 240)
    assert shares(season_of(tmp_path, files(run, whole, BASE)), "remark") == [(None,)]


def test_a_zone_that_is_none(tmp_path: Path) -> None:
    problems = problems_of(tmp_path, {"season.yaml": BASE + "timezone: Paris\n"})
    assert [(p.place.line, p.what) for p in problems] == [(6, "'Paris' is no time zone")]
