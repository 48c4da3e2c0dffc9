"""How long ``reportgen --help`` takes, as a ratio to ``python -c "import click"``; and building the
starter season, as a ratio to importing the libraries that the program rests on.

    python benchmarks/startup.py

To reach: at most 2.5, and at most 3. Both of a pair are run in turn, so that a busy machine slows
both.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time

ROUNDS = 25


def seconds(*words: str) -> float:
    """The time of one Python process."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, *words], stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - begun


def compare(bare: tuple[str, ...], ours: tuple[str, ...], rounds: int, limit: float) -> None:
    """Print the times of both and their ratio, by the median and by the best round."""
    seconds(*ours)  # so that both find compiled files
    taken = [(seconds(*bare), seconds(*ours)) for _ in range(rounds)]
    for name, pick in (("median", statistics.median), ("best", min)):
        one, other = (pick(each) for each in zip(*taken, strict=True))
        print(f"{name}: {bare[-1]} {one:.3f} s, {' '.join(ours[1:3])} {other:.3f} s")
        ratio = other / one
        print(f"  ratio {ratio:.2f} ({rounds} rounds; to reach: at most {limit})")


def main() -> None:
    """Measure the shortest command, and the build of the starter season."""
    compare(("-c", "import click"), ("-m", "reportgen", "--help"), ROUNDS, 2.5)
    with tempfile.TemporaryDirectory() as folder:
        season, out = f"{folder}/season", f"{folder}/season.xlsx"
        seconds("-m", "reportgen", "new", season)
        libraries = "import openpyxl, pint, yaml, click, jinja2"
        build = ("-m", "reportgen", "build", season, "-o", out, "--force")
        compare(("-c", libraries), build, ROUNDS // 3, 3)


if __name__ == "__main__":
    main()
