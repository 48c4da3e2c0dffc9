"""Hours and energy by period: by hand, and what must hold on any day of any time zone."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.model.tariff import Period, Tariff
from reportgen.read.zones import Zone

H = 3600.0
WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
WORKDAYS = WEEK[:5]


def wall(text: str) -> float:
    return datetime.fromisoformat(text + "+00:00").timestamp()


def split(tariff: Tariff, begin: float, end: float) -> dict[str, float]:
    found: dict[str, float] = {}
    for first, last, key in tariff.spans(begin, end):
        found[key] = found.get(key, 0) + (last - first) / H
    return found


def tariff(*periods: tuple[str, float, float, tuple[str, ...]], zone: str = "") -> Tariff:
    return Tariff(
        [Period(key, a * H % 86400, b * H % 86400, d) for key, a, b, d in periods], Zone(zone)
    )


PEAK = tariff(("peak", 16, 20, ()), ("rest", 0, 0, ()))


def test_a_day_by_hand() -> None:
    # Saturday 2026-03-07 10:00, 30 h: 16:00 to 20:00 on the first day, nothing on the second.
    begin = wall("2026-03-07T10:00")
    assert split(PEAK, begin, begin + 30 * H) == {"rest": 26, "peak": 4}


def test_the_first_that_holds_counts() -> None:
    two = tariff(("a", 16, 21, ()), ("b", 12, 20, ()))
    begin = wall("2026-03-07T00:00")
    assert split(two, begin, begin + 24 * H) == {"": 15, "b": 4, "a": 5}


def test_a_night_wraps_and_its_day_is_that_of_the_hour() -> None:
    # 2026-09-04 is a Friday. From 22:00 to 06:00 on workdays: Friday's first six hours and last
    # two; Saturday's first six are Saturday's.
    night = tariff(("night", 22, 6, WORKDAYS), ("rest", 0, 0, ()))
    begin = wall("2026-09-04T00:00")
    assert split(night, begin, begin + 48 * H) == {"night": 8, "rest": 40}


def test_a_weekend() -> None:
    weekend = tariff(("weekend", 0, 0, ("sat", "sun")), ("week", 0, 0, ()))
    begin = wall("2026-09-04T18:30")
    assert split(weekend, begin, begin + 34.5 * H) == {"week": 5.5, "weekend": 29}


def test_a_period_may_end_at_midnight() -> None:
    late = tariff(("late", 21, 24, ()), ("rest", 0, 0, ()))
    begin = wall("2026-09-04T18:00")
    assert split(late, begin, begin + 24 * H) == {"rest": 21, "late": 3}


@pytest.mark.parametrize(
    ("day", "hours"), [("2026-03-29", 1), ("2026-10-25", 3), ("2026-10-26", 2)]
)
def test_two_to_four_in_the_nights_of_change(day: str, hours: float) -> None:
    # The European Union's clocks go from 02:00 to 03:00 in March and from 03:00 to 02:00 in
    # October, so the two hours are one, or three.
    zone = Zone("Europe/Paris")
    night = tariff(("night", 2, 4, ()), ("rest", 0, 0, ()), zone="Europe/Paris")
    begin, end = zone.moment(wall(f"{day}T00:00")), zone.moment(wall(f"{day}T12:00"))
    assert split(night, begin, end)["night"] == hours


def test_a_bound_within_the_hour_that_is_left_out() -> None:
    # 02:30 does not come on that night: what ends there ends, and what begins there begins, at 3.
    zone = Zone("Europe/Paris")
    both = tariff(("before", 0, 2.5, ()), ("after", 2.5, 24, ()), zone="Europe/Paris")
    begin, end = zone.moment(wall("2026-03-29T00:00")), zone.moment(wall("2026-03-30T00:00"))
    assert split(both, begin, end) == {"before": 2, "after": 21}


clocks = st.integers(0, 48).map(lambda each: each / 2)
days = st.one_of(st.just(()), st.sets(st.sampled_from(WEEK), min_size=1).map(tuple))
periods = st.lists(st.tuples(clocks, clocks, days), max_size=4)
zones = st.sampled_from(["", "America/Chicago", "Europe/Paris", "Australia/Lord_Howe"])
moments = st.datetimes(datetime(2024, 1, 1), datetime(2028, 1, 1)).map(
    lambda each: each.replace(microsecond=0, tzinfo=UTC)
)


@settings(max_examples=200, deadline=None)
@given(periods, zones, moments, st.integers(1, 72 * 60))
def test_hours_add_up_and_each_minute_is_where_it_belongs(
    made: list[tuple[float, float, tuple[str, ...]]], zone: str, start: datetime, minutes: int
) -> None:
    any_tariff = tariff(*((f"p{n}", *each) for n, each in enumerate(made)), zone=zone)
    begin = start.timestamp()
    end = begin + minutes * 60
    spans = list(any_tariff.spans(begin, end))
    assert (spans[0][0], spans[-1][1]) == (begin, end)
    assert all(a[1] == b[0] for a, b in pairwise(spans))
    local = ZoneInfo(zone) if zone else UTC
    for first, last, key in spans:
        # Judged here from the calendar alone, just after the beginning and just before the end.
        for moment in (first + 0.5, last - 0.5) if last - first > 1 else ():
            at = datetime.fromtimestamp(moment, UTC).astimezone(local)
            hour = at.hour + at.minute / 60 + at.second / 3600
            holds = [
                f"p{n}"
                for n, (a, b, on) in enumerate(made)
                if (not on or WEEK[at.weekday()] in on)
                and (
                    a % 24 == b % 24
                    or (a % 24 <= hour < (b % 24 or 24) if a % 24 < (b % 24 or 24)
                        else hour >= a % 24 or hour < b % 24)
                )
            ]  # fmt: skip
            assert key == (holds[0] if holds else "")


@settings(max_examples=100, deadline=None)
@given(periods, moments, st.integers(1, 72 * 60), st.integers(1, 9))
def test_a_week_later_nothing_is_different(
    made: list[tuple[float, float, tuple[str, ...]]], start: datetime, minutes: int, weeks: int
) -> None:
    any_tariff = tariff(*((f"p{n}", *each) for n, each in enumerate(made)))
    begin = start.timestamp()
    later = begin + weeks * 7 * 86400
    assert split(any_tariff, begin, begin + minutes * 60) == pytest.approx(
        split(any_tariff, later, later + minutes * 60)
    )
