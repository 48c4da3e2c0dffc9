"""How long a power log of a million readings takes, against a plain reader of the same file.

    python benchmarks/meter.py

The plain reader is the csv module, ``datetime.fromisoformat`` and ``float`` in a loop, and a loop
over the trapezoids. To reach: at most 3 times its time, and less than 300 MB at the peak. Each is
measured in a process of its own, in turn, so that a busy machine slows both.
"""

from __future__ import annotations

import csv
import json
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import datetime, timedelta
from pathlib import Path

READINGS = 1_000_000
ROUNDS = 3
LIMIT, LIMIT_MB = 3.0, 300


def write(path: Path) -> None:
    """A reading every 10 s, with power that goes up and down."""
    start = datetime(2026, 1, 1)
    with path.open("w") as file:
        file.write("time,W\n")
        for n in range(READINGS):
            stamp = (start + timedelta(seconds=10 * n)).isoformat(sep=" ")
            file.write(f"{stamp},{600 + n * 37 % 1000 / 10}\n")


def plain(path: Path) -> float:
    """kWh by the plainest reader there is."""
    times, powers = [], []
    with path.open(newline="") as file:
        rows = csv.reader(file)
        next(rows)
        for row in rows:
            times.append(datetime.fromisoformat(row[0]))
            powers.append(float(row[1]))
    joules = 0.0
    for at in range(1, len(times)):
        seconds = (times[at] - times[at - 1]).total_seconds()
        joules += (powers[at - 1] + powers[at]) / 2 * seconds
    return joules / 3.6e6


def ours(path: Path) -> float:
    """kWh by the program's reader."""
    from reportgen.model.power_log.reading import read_log
    from reportgen.read.zones import Zone

    log, problems = read_log(path, path.name, Zone())
    assert log is not None and not problems
    return log.energy[-1]


def measured(which: str, path: Path) -> tuple[float, float, float]:
    """Seconds, MB at the peak and kWh, in a process of its own."""
    out = subprocess.run(
        [sys.executable, __file__, which, str(path)], check=True, capture_output=True, text=True
    )
    seconds, peak, kwh = json.loads(out.stdout)
    return seconds, peak, kwh


def main() -> None:
    """Print both times, their ratio, and the peak of memory."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "log.csv"
        write(path)
        rounds = [(measured("plain", path), measured("ours", path)) for _ in range(ROUNDS)]
    for (a, _, there), (b, _, here) in rounds:
        assert abs(here - there) < 1e-6 * there
        print(f"plain {a:.2f} s, ours {b:.2f} s")
    ratio = statistics.median(b[0] / a[0] for a, b in rounds)
    peak = max(b[1] for _, b in rounds)
    print(
        f"{READINGS:,} readings: ratio {ratio:.2f} (to reach: at most {LIMIT}), "
        f"peak {peak:.0f} MB (to reach: under {LIMIT_MB})"
    )


if __name__ == "__main__":
    if len(sys.argv) > 1:
        begun = time.perf_counter()
        found = {"plain": plain, "ours": ours}[sys.argv[1]](Path(sys.argv[2]))
        taken = time.perf_counter() - begun
        print(json.dumps([taken, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, found]))
    else:
        main()
