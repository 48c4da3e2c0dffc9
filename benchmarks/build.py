"""How long a build takes, as a ratio to plainer writers of the same cells; its memory; its growth.

    python benchmarks/build.py [--sizes 25 250 2500] [--rounds 5]

To reach, at 2,500 runs: the whole build (read, calculate, compose, write) no slower than
XlsxWriter merely writing the same cells, formulas and values; at most 11 times the time for ten
times the runs; under 400 MB. Within a round each is timed in turn, so that a busy machine slows all
of them; ratios are medians over the rounds.
"""

from __future__ import annotations

import argparse
import gc
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from benchmarks import against, large
from reportgen import program
from reportgen.layout.compose import compose
from reportgen.sheets.all import SHEETS, contents

OURS = "reportgen, whole build"
WRITERS: dict[str, Callable[[list[against.Sheet]], bytes]] = {
    "XlsxWriter": against.with_xlsxwriter,
    "XlsxWriter, constant memory": lambda b: against.with_xlsxwriter(b, constant_memory=True),
    "XlsxWriter, bare": lambda b: against.with_xlsxwriter(b, bare=True),
    "XlsxWriter, bare, constant memory": lambda b: against.with_xlsxwriter(
        b, bare=True, constant_memory=True
    ),
    "openpyxl, unstyled": against.with_openpyxl,
}
MEGABYTE = 1024
"""In kilobytes, the unit of ``ru_maxrss`` on Linux."""


class Stages:
    """Seconds of each stage of a build; called as each begins."""

    def __init__(self) -> None:
        self._begun: list[tuple[str, float]] = []

    def __call__(self, stage: str) -> None:
        self._begun.append((stage, time.perf_counter()))

    def seconds(self) -> dict[str, float]:
        """Each stage until the next began, the last until now."""
        ends = [at for _, at in self._begun[1:]] + [time.perf_counter()]
        return {name: end - at for (name, at), end in zip(self._begun, ends, strict=True)}


def build(season: Path) -> dict[str, float]:
    """Seconds of each stage of one build."""
    stages = Stages()
    gc.disable()  # as the command does
    content, problems = program.build(season, stages)
    took = stages.seconds()
    gc.enable()
    assert content is not None, problems
    return took


def sheets(season: Path) -> list[against.Sheet]:
    """The cells of a season's workbook."""
    read = program.read(season)
    assert read.season is not None and read.numbers is not None, read.problems
    made = compose(
        contents(SHEETS, read.numbers),
        read.numbers,
        read.season.name,
        "en",
        "a4",
    )
    return against.sheets(made)


def clocked(write: Callable[[list[against.Sheet]], bytes], cells: list[against.Sheet]) -> float:
    """Seconds of one writing."""
    gc.collect()
    begun = time.perf_counter()
    write(cells)
    return time.perf_counter() - begun


def measure(season: Path, rounds: int) -> tuple[dict[str, list[float]], list[dict[str, float]]]:
    """Seconds of each in each round, and the stages of our builds."""
    cells = sheets(season)
    formulas = sum(formula is not None for sheet in cells for *_, formula, _ in sheet.cells)
    print(f"  {sum(len(s.cells) for s in cells):,} cells, {formulas:,} of them formulas")
    taken: dict[str, list[float]] = {name: [] for name in (OURS, *WRITERS)}
    stages = []
    for _ in range(rounds):
        gc.collect()
        stages.append(build(season))
        taken[OURS].append(sum(stages[-1].values()))
        for name, write in WRITERS.items():
            taken[name].append(clocked(write, cells))
    return taken, stages


def show(taken: dict[str, list[float]], stages: list[dict[str, float]]) -> None:
    """Print one size's medians, stages and ratios."""
    whole = statistics.median(taken[OURS])
    shares = (
        f"{name} {statistics.median(s[name] / sum(s.values()) for s in stages):.0%}"
        for name in stages[0]
    )
    print(f"  {OURS}: {whole:.2f} s ({', '.join(shares)})")
    for name in WRITERS:
        ratio = statistics.median(a / b for a, b in zip(taken[OURS], taken[name], strict=True))
        print(f"  {name}: {statistics.median(taken[name]):.2f} s, ours is {ratio:.2f} of it")


def peak(season: Path) -> tuple[float, float]:
    """Megabytes at most, and seconds, of ``reportgen build`` in a process of its own."""
    with tempfile.TemporaryDirectory() as folder:
        words = [sys.executable, "-m", "reportgen", "build", str(season), "-o", f"{folder}/b.xlsx"]
        begun = time.perf_counter()
        process = subprocess.Popen(
            words,
            cwd=Path(__file__).parents[1],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        assert process.returncode == 0, "the build failed"
        return usage.ru_maxrss / MEGABYTE, time.perf_counter() - begun


def main() -> None:
    """Build seasons of each size and print what it took."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--sizes", type=int, nargs="+", default=[25, 250, 2500], metavar="RUNS")
    words.add_argument("--rounds", type=int, default=5)
    asked = words.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        seasons = {runs: large.write(Path(folder) / str(runs), runs) for runs in asked.sizes}
        most = max(seasons)
        # First, while this process is small: a child's peak begins with its parent's.
        megabytes, seconds = peak(seasons[most])
        print(f"{most:,} runs as a command: {seconds:.1f} s, at most {megabytes:.0f} MB")
        before = None
        for runs, season in seasons.items():
            print(f"{runs:,} runs")
            taken, stages = measure(season, asked.rounds)
            show(taken, stages)
            whole = statistics.median(taken[OURS])
            if before is not None:
                print(f"  {whole / before[1]:.1f} times the time of {before[0]:,} runs")
            before = (runs, whole)


if __name__ == "__main__":
    main()
