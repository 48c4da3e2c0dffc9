"""How long LibreOffice takes to open a season's workbook, and to work everything out again.

    python benchmarks/recalculate.py [--runs 2500 10000] [--rounds 3] [--limit 1800]

To reach: opening 2,500 runs with a forced hard recalculation takes at most twice the opening
without. 10,000 runs may take longer than anyone waits; where the limit of seconds is reached, that
is said. Both are timed in turn, round by round; ratios are medians.
"""

from __future__ import annotations

import argparse
import os
import resource
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
sys.path.insert(0, str(Path(__file__).parents[1]))

from engines import libreoffice

from benchmarks import large
from reportgen import program

TRUST, RECALCULATE = 1, 0
"""What the profile says of the values in a file."""


class Taken(NamedTuple):
    """Seconds by the clock, and of the processors: a busy machine changes these less."""

    clock: float
    processor: float


class Late(Exception):
    """The limit of seconds was reached."""


def workbook(folder: Path, runs: int) -> Path:
    """The workbook of a season of so many runs."""
    content, problems = program.build(large.write(folder / str(runs), runs))
    assert content is not None, problems
    path = folder / f"{runs}.xlsx"
    path.write_bytes(content)
    return path


def opening(path: Path, out: Path, mode: int, limit: float) -> Taken:
    """How long it takes to open a workbook.

    What is written is its first sheet as text: next to nothing beside the opening.
    """
    command = libreoffice.program()
    assert command is not None, "LibreOffice Calc is not installed"
    profile = libreoffice._profile(0, mode).as_uri()
    begun, before = time.perf_counter(), _processor()
    process = subprocess.Popen(
        [command, f"-env:UserInstallation={profile}", "--headless", "--norestore",
         "--convert-to", "csv", "--outdir", str(out), str(path)],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip
    try:
        process.wait(limit)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        raise Late(f"not open within {limit:,.0f} s") from None
    assert (out / f"{path.stem}.csv").exists(), f"LibreOffice could not read {path}"
    return Taken(time.perf_counter() - begun, _processor() - before)


def _processor() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def measure(path: Path, out: Path, rounds: int, limit: float) -> tuple[list[Taken], list[Taken]]:
    """What each opening took, without and with recalculation."""
    bare, forced = [], []
    for _ in range(rounds):
        bare.append(opening(path, out, TRUST, limit))
        forced.append(opening(path, out, RECALCULATE, limit))
    return bare, forced


def show(runs: int, bare: list[Taken], forced: list[Taken]) -> float:
    """Print the medians; the seconds of an opening with recalculation."""
    print(f"{runs:,} runs")
    for name in Taken._fields:
        one, other = ([getattr(taken, name) for taken in each] for each in (bare, forced))
        ratio = statistics.median(f / b for b, f in zip(one, other, strict=True))
        print(
            f"  {name}: {statistics.median(one):.1f} s to open, {statistics.median(other):.1f} s "
            f"with everything worked out, ratio {ratio:.2f}"
        )
    return statistics.median(taken.clock for taken in forced)


def main() -> None:
    """Print times and ratios for each number of runs."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--runs", type=int, nargs="+", default=[2500], metavar="RUNS")
    words.add_argument("--rounds", type=int, default=3)
    words.add_argument("--limit", type=float, default=1800, help="seconds for one opening")
    asked = words.parse_args()
    before: tuple[int, float] | None = None
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "out"
        # The first start of a profile makes its folders; it is not timed.
        measure(workbook(Path(folder), 1), out, 1, asked.limit)
        for runs in asked.runs:
            path = workbook(Path(folder), runs)
            try:
                seconds = show(runs, *measure(path, out, asked.rounds, asked.limit))
            except Late as late:
                print(f"{runs:,} runs: {late}")
                continue
            if before is not None:
                print(f"  {seconds / before[1]:.1f} times the seconds of {before[0]:,} runs")
            before = (runs, seconds)


if __name__ == "__main__":
    main()
