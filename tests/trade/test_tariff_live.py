"""Time of use against a count of every minute: random weeks and tariffs, clock changes included; in
Python, and in the engines with runs moved and added by typing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from tempfile import mkdtemp
from zoneinfo import ZoneInfo

import pytest
from engines import gnumeric, iron
from engines.edit import typed
from engines.need import missing
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from workbook import forms, places

from reportgen.program import Read, read, workbook
from reportgen.sheets.all import SHEETS

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
ENERGY, PER_WEEK = 24.0, 7 * 24 * 60
EPOCH = datetime(1899, 12, 30)

Made = tuple[int, int, tuple[str, ...]]
"""A period: the half hours of the day at which it begins and ends, and its days."""


def price(number: int) -> float:
    return 0.1 + 0.07 * number


def clock(half_hours: int) -> str:
    return f"{half_hours // 2:02}:{half_hours % 2 * 30:02}"


def season(folder: Path, periods: Sequence[Made], runs: Sequence[tuple[datetime, int]],
           zone: str = "") -> Read:  # fmt: skip
    """A season of such runs, each of so many minutes, read from its files."""
    lines = [f"season: Clocks\ncurrency: USD\ntimezone: {zone}\nrates:\n  electricity:" if zone else
             "season: Clocks\ncurrency: USD\nrates:\n  electricity:"]  # fmt: skip
    for number, (begin, end, days) in enumerate(periods):
        on = f"days: {' '.join(days)}, " if days else ""
        lines.append(
            f'    - {{from: "{clock(begin)}", to: "{clock(end)}", {on}'
            f"price: {price(number)} USD/kWh}}"
        )
    lines.append("dryers: [{id: shed, trays: 5, tray_area: 0.18 m2}]\nruns:")
    lines += [
        f"  - {{id: run-{n}, dryer: shed, started: {start:%Y-%m-%d %H:%M}, "
        f"duration: {minutes} min, energy: {ENERGY} kWh}}"
        for n, (start, minutes) in enumerate(runs)
    ]
    path = folder / "season.yaml"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    done = read(path)
    assert done.numbers is not None, done.problems
    return done


def counted(periods: Sequence[Made], start: datetime, minutes: int, zone: str = "") -> float | None:
    """What the energy cost, each minute looked up in the calendar; None where one has no price."""
    local = ZoneInfo(zone) if zone else UTC
    begin = start.replace(tzinfo=local).astimezone(UTC)
    paid = 0.0
    for minute in range(minutes):
        at = (begin + timedelta(minutes=minute, seconds=30)).astimezone(local)
        now, day = at.hour * 60 + at.minute, WEEK[at.weekday()]
        for number, (first, last, days) in enumerate(periods):
            a, b = first * 30 % 1440, last * 30 % 1440
            inside = a == b or (a <= now < b if a < b else now >= a or now < b)
            if inside and (not days or day in days):
                paid += price(number)
                break
        else:
            return None
    return ENERGY * paid / minutes


clocks = st.integers(0, 47)
days = st.one_of(st.just(()), st.sets(st.sampled_from(WEEK), min_size=1).map(lambda d: tuple(
    each for each in WEEK if each in d)))  # fmt: skip
tariffs = st.lists(st.tuples(clocks, clocks, days), max_size=3).flatmap(
    # Most with a rest that holds what they leave.
    lambda made: st.sampled_from([[*made, (0, 0, ())]] * 3 + ([made] if made else []))
)
zones = st.sampled_from(["", "America/Chicago", "Europe/Paris", "Australia/Lord_Howe"])
anytime = st.datetimes(datetime(2024, 1, 1), datetime(2027, 12, 31))
# The weekends on which clocks are changed in one of the zones.
changes = st.sampled_from(
    [datetime(2025, 3, 8), datetime(2025, 3, 29), datetime(2025, 10, 25), datetime(2025, 11, 1),
     datetime(2025, 4, 5), datetime(2025, 10, 4)]
).flatmap(
    lambda day: st.integers(0, 2 * 1440).map(lambda minute: day + timedelta(minutes=minute))
)  # fmt: skip
starts = st.one_of(anytime, changes).map(lambda at: at.replace(second=0, microsecond=0))


def exists(start: datetime, zone: str) -> bool:
    """Whether the clock ever showed it."""
    if not zone:
        return True
    there = start.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC).astimezone(ZoneInfo(zone))
    return there.replace(tzinfo=None) == start


@pytest.mark.slow
@settings(max_examples=80, deadline=None)
@given(tariffs, zones, starts, st.one_of(st.integers(30, 2 * 1440), st.integers(30, 2 * PER_WEEK)))
def test_each_minute_is_paid_at_its_price(
    periods: list[Made], zone: str, start: datetime, minutes: int
) -> None:
    assume(exists(start, zone))
    done = season(Path(mkdtemp()), periods, [(start, minutes)], zone)
    assert done.numbers is not None
    expected = counted(periods, start, minutes, zone)
    found = done.numbers.cells["runs"]["energy_cost"][0]
    assert found == (None if expected is None else pytest.approx(expected, rel=1e-8))


def moved(engine: str, path: Path, folder: Path) -> dict[tuple[str, str], object]:
    if engine == "iron":
        return dict(iron.recalculate(path))
    if gnumeric.program() is None:
        missing("Gnumeric", "Install the package gnumeric.")
    return dict(next(iter(gnumeric.recalculate([path], folder).values())))


@pytest.mark.parametrize("engine", ["iron", "gnumeric"])
def test_a_run_moved_or_added_in_the_workbook_finds_its_hours(engine: str, tmp_path: Path) -> None:
    random = Random(5)
    periods: list[Made] = [
        (44, 12, WEEK[:5]), (32, 42, WEEK[:5]), (16, 40, ("sat",)), (0, 0, WEEK[:6]),
        (9, 47, ("sun",)),
    ]  # fmt: skip
    first = datetime(2025, 5, 2)

    def made() -> tuple[datetime, int]:
        return first + timedelta(minutes=random.randrange(1, 90 * 1440)), random.randrange(30, 4000)

    runs = [made() for _ in range(12)]
    done = season(tmp_path, periods, runs)
    assert done.season is not None and done.numbers is not None
    grid = places.grids(forms.layout(done.numbers, SHEETS), done.numbers)["runs"]
    book = tmp_path / "season.xlsx"
    book.write_bytes(workbook(done.season, done.numbers))
    # Two runs more are added in spare rows, one of them longer than a week.
    new = [made() for _ in range(12)] + [(datetime(2025, 5, 3, 0, 1), 12_000), made()]
    cells: dict[tuple[str, str], object] = {}
    for row, (start, minutes) in enumerate(new):
        day = (start - EPOCH) / timedelta(days=1)
        values = {"key": f"run-{row}", "dryer": "shed", "started": day, "duration": minutes / 60,
                  "energy": ENERGY}  # fmt: skip
        cells |= {grid.columns[name].cell(row): value for name, value in values.items()}
    found = moved(engine, typed(book, cells, tmp_path / "moved.xlsx"), tmp_path)  # type: ignore[arg-type]
    expected = [counted(periods, *each) for each in new]
    for row, cost in enumerate(expected):
        value = found.get(grid.columns["energy_cost"].cell(row))
        if cost is None:
            assert value in (None, ""), new[row]
        else:
            assert value == pytest.approx(cost, rel=1e-8), new[row]
    assert None in expected and len([each for each in expected if each is not None]) > 5
