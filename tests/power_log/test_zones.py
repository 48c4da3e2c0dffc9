"""Clock time and elapsed time, against the calendar of Python and the rules of law.

Clocks in the European Union go forward at 01:00 UTC on the last Sunday of March and back at 01:00
UTC on the last Sunday of October (Directive 2000/84/EC); in the United States at 2 a.m. local time
on the second Sunday of March and the first of November (Energy Policy Act of 2005, section 110).
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from power_log.logs import HOUR, hours, kwh, log, read, said
from reportgen.read.problem import Refusal
from reportgen.read.zones import Zone

pytestmark = pytest.mark.slow

ZONES = ("America/Chicago", "Europe/Paris", "Australia/Lord_Howe", "Asia/Kolkata", "UTC")


def wall(text: str) -> float:
    return datetime.fromisoformat(text + "+00:00").timestamp()


def test_the_changes_of_2026() -> None:
    paris, chicago = Zone("Europe/Paris"), Zone("America/Chicago")
    day = [zone.moment(wall(b)) - zone.moment(wall(a)) for zone, a, b in (
        (paris, "2026-03-29T00:00", "2026-03-30T00:00"),
        (paris, "2026-10-25T00:00", "2026-10-26T00:00"),
        (chicago, "2026-03-08T00:00", "2026-03-09T00:00"),
        (chicago, "2026-11-01T00:00", "2026-11-02T00:00"),
        (Zone(), "2026-03-29T00:00", "2026-03-30T00:00"),
    )]  # fmt: skip
    assert day == [23 * HOUR, 25 * HOUR, 23 * HOUR, 25 * HOUR, 24 * HOUR]


moments = st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)).map(
    lambda each: each.replace(microsecond=0, tzinfo=UTC)
)


@settings(max_examples=300)
@given(st.sampled_from(ZONES), moments)
def test_a_moment_and_its_clock_time(name: str, at: datetime) -> None:
    zone, local = Zone(name), at.astimezone(ZoneInfo(name))
    shown = local.replace(tzinfo=UTC, fold=0).timestamp()
    assert zone.wall(at.timestamp()) == shown
    assert zone.moment(shown, second=bool(local.fold)) == at.timestamp()


def test_a_name_that_is_none() -> None:
    for name in ("Europe/Pariss", "Paris", "CET+1", "../etc/passwd", "America"):
        with pytest.raises(Refusal) as refused:
            Zone(name)
        assert "no time zone" in refused.value.what
    with pytest.raises(Refusal) as refused:
        Zone("america/chicgo")
    assert refused.value.do == "did you mean America/Chicago?"


def steady(start: datetime, minutes: int, form: str, zone: str = "Europe/Paris") -> str:
    """500 W every 10 minutes from a moment on, with the stamps of a local clock."""
    local = [
        (start + timedelta(minutes=n)).astimezone(ZoneInfo(zone)) for n in range(0, minutes + 1, 10)
    ]
    return "time,W\n" + "".join(f"{each.strftime(form)},500\n" for each in local)


NAIVE, AWARE = "%Y-%m-%d %H:%M", "%Y-%m-%d %H:%M%z"
NIGHTS = [datetime(2026, 3, 28, 20, tzinfo=UTC), datetime(2026, 10, 24, 20, tzinfo=UTC)]


@pytest.mark.parametrize("start", NIGHTS)
@pytest.mark.parametrize("form", [NAIVE, AWARE])
def test_a_night_of_change_is_as_long_as_it_was(tmp_path: Path, start: datetime, form: str) -> None:
    found = log(tmp_path, steady(start, 600, form), "Europe/Paris")
    assert (hours(found), kwh(found)) == (10, pytest.approx(5, rel=1e-12))
    assert found.gaps(600) == []


def test_without_a_zone_an_hour_that_comes_twice_is_said(tmp_path: Path) -> None:
    found, problems = read(tmp_path, steady(NIGHTS[1], 600, NAIVE))
    assert found is not None and hours(found) == 9
    assert [each.severity for each in problems] == ["caution", "caution"]
    assert "timezone:" in problems[0].do
    assert said(problems)[1][2].startswith("6 stamps are there twice")


def test_with_a_zone_a_clock_that_is_never_changed_is_told_of(tmp_path: Path) -> None:
    # In Paris no clock shows 02:30 on 2026-03-29; this one does.
    stamps = (f"2026-03-29 0{hour}:{ten}0,500" for hour in range(1, 5) for ten in range(6))
    _, problems = read(tmp_path, "time,W\n" + "\n".join(stamps), "Europe/Paris")
    assert "with their offset (+01:00)" in problems[0].do


def test_without_a_zone_an_hour_that_is_left_out_shows_as_a_gap(tmp_path: Path) -> None:
    found = log(tmp_path, steady(NIGHTS[0], 600, NAIVE))
    ((first, last, _),) = found.gaps(900)
    assert last - first == 70 * 60


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(ZONES), moments, st.integers(1, 400))
def test_stamps_with_their_offset_gain_and_lose_nothing(
    zone: str, start: datetime, tens: int
) -> None:
    with TemporaryDirectory() as folder:
        found = log(Path(folder), steady(start, tens * 10, "%Y-%m-%dT%H:%M:%S%z", zone), zone)
    assert hours(found) == pytest.approx(tens / 6, abs=1e-9)
    assert found.times[0] == start.timestamp()


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(ZONES), moments, st.integers(1, 400))
def test_stamps_of_the_local_clock_gain_and_lose_nothing(
    zone: str, start: datetime, tens: int
) -> None:
    # An hour that the clock shows twice is told apart by what stands before it; where the log
    # begins within it, it may begin in either.
    if start.astimezone(ZoneInfo(zone)).fold:
        return
    form = "%Y-%m-%d %H:%M:%S"
    with TemporaryDirectory() as folder:
        found = log(Path(folder), steady(start, tens * 10, form, zone), zone)
    assert hours(found) == pytest.approx(tens / 6, abs=1e-9)
