"""How long ``reportgen --help`` takes, as a ratio to ``python -c "import click"``.

    python benchmarks/startup.py

To reach: at most 2.5. The two are run in turn, so that a busy machine slows both.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time

ROUNDS = 25
LIMIT = 2.5


def seconds(*words: str) -> float:
    """The time of one Python process."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, *words], stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - begun


def main() -> None:
    """Print both times and their ratio, by the median and by the best round."""
    seconds("-m", "reportgen", "--help")  # so that both find compiled files
    rounds = [
        (seconds("-c", "import click"), seconds("-m", "reportgen", "--help")) for _ in range(ROUNDS)
    ]
    bare, ours = zip(*rounds, strict=True)
    for name, pick in (("median", statistics.median), ("best", min)):
        print(f"{name}: import click {pick(bare):.3f} s, reportgen --help {pick(ours):.3f} s")
    ratio = statistics.median(b / a for a, b in rounds)
    print(f"ratio {ratio:.2f} (median of {ROUNDS} rounds; to reach: at most {LIMIT})")


if __name__ == "__main__":
    main()
