"""Energy over time: against scipy's trapezoid rule, and published worked examples."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import cumulative_trapezoid, trapezoid

from power_log.logs import HOUR, kwh, log, read

START = datetime(2026, 3, 2)


def written(hours: list[float], values: list[float], unit: str = "W") -> str:
    stamps = [START + timedelta(seconds=round(each * 3600)) for each in hours]
    rows = zip(stamps, values, strict=True)
    return f"time,{unit}\n" + "".join(f"{at.isoformat()},{value!r}\n" for at, value in rows)


def test_logged_power_by_hand(tmp_path: Path) -> None:
    # Points (0 h, 0.3 kW), (1, 1.4), (6, 1.2), (20, 0.9), (30, 0.8):
    # 0.85 + 6.5 + 14.7 + 8.5 = 30.55 kWh, worked by hand with E = Σ (P + P') (t' - t) / 2.
    found = log(tmp_path, written([0, 1, 6, 20, 30], [0.3, 1.4, 1.2, 0.9, 0.8], "kW"))
    first = found.times[0]
    assert kwh(found) == pytest.approx(30.55, rel=1e-12)
    steps = [found.until(first + each * HOUR) for each in (1, 6, 20)]
    assert steps == pytest.approx([0.85, 7.35, 22.05], rel=1e-12)


def test_an_appliance(tmp_path: Path) -> None:
    # US Department of Energy, Estimating Appliance and Home Electronic Energy Use: 120 W + 150 W,
    # 4 h a day, 365 days make 394 kWh (394.2): here the 4 h of a day, 1.08 kWh.
    found = log(tmp_path, written([0, 4], [270.0, 270.0]))
    assert kwh(found) * 365 == pytest.approx(394.2, rel=1e-12)


logs = st.lists(
    st.tuples(st.integers(1, 5000), st.floats(0, 3000)), min_size=2, max_size=60
)  # seconds after the one before, and W


@settings(max_examples=100, deadline=None)
@given(logs, st.floats(0, 1))
def test_any_power_is_integrated_as_scipy_does(steps: list[tuple[int, float]], part: float) -> None:
    seconds = np.cumsum([step for step, _ in steps]).astype(float)
    watts = np.array([value for _, value in steps])
    with TemporaryDirectory() as folder:
        found = log(Path(folder), written([s / 3600 for s in seconds], watts.tolist()))
    assert kwh(found) == pytest.approx(trapezoid(watts, seconds) / 3.6e6, rel=1e-9, abs=1e-12)
    assert list(found.energy) == pytest.approx(
        list(cumulative_trapezoid(watts, seconds, initial=0) / 3.6e6), rel=1e-9, abs=1e-12
    )
    # Up to any moment: with the power there put in between.
    at = seconds[0] + part * (seconds[-1] - seconds[0])
    inside = seconds < at
    x = np.append(seconds[inside], at)
    y = np.append(watts[inside], np.interp(at, seconds, watts))
    expected = trapezoid(y, x) / 3.6e6
    moment = found.times[0] + (at - seconds[0])
    assert found.until(moment) == pytest.approx(expected, rel=1e-6, abs=1e-7)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.integers(0, 50), min_size=2, max_size=40), st.data())
def test_a_count_that_is_set_back_gives_what_it_would_have(rises: list[int], data: object) -> None:
    # Steps of 0.01 kWh each 10 minutes; set back to zero just after one of the readings.
    counts = np.cumsum(rises).tolist()
    at = data.draw(st.integers(1, len(rises) - 1))  # type: ignore[attr-defined]
    shown = [*counts[:at], *(each - counts[at - 1] for each in counts[at:])]
    hours = [n / 6 for n in range(len(rises))]
    with TemporaryDirectory() as folder:
        text = written(hours, [each / 100 for each in shown], "kWh")
        found, problems = read(Path(folder), text)
    assert found is not None and all(each.severity == "caution" for each in problems)
    seen = counts[at] - counts[at - 1] < counts[at - 1]  # else the count did not fall
    expected = counts[-1] - counts[0] if seen else shown[-1] - shown[0]
    assert kwh(found) == pytest.approx(expected / 100, abs=1e-9)


def test_nothing_before_the_first_and_after_the_last_reading(tmp_path: Path) -> None:
    found = log(tmp_path, written([0, 2], [500.0, 500.0]))
    first, last = found.times[0], found.times[-1]
    shown = [found.until(each) for each in (first - 99, first, last, last + 99)]
    assert shown == pytest.approx([0, 0, 1, 1], rel=1e-12)
