"""The fuzzer by hand: ``python tests/fuzz/by_hand.py SECONDS [SEED]``; counts at the end.

Inputs that ran through lines which no input before them had are kept and mutated further. Faults
are written to ``tests/fuzz/found``, each kind once, and stay there as tests.
"""

from __future__ import annotations

import hashlib
import sys
import time
from collections import Counter
from pathlib import Path
from random import Random
from types import CodeType, FrameType

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from memory import peak  # noqa: E402

from fuzz.corpus import corpus  # noqa: E402
from fuzz.judge import Fault, commands, judge  # noqa: E402
from fuzz.mutate import mutated  # noqa: E402

LEADING = ("read", "model", "cli")
"""Folders whose lines lead the search; what follows them is arithmetic."""


class Coverage:
    """The lines of the program that were reached, each noticed once."""

    def __init__(self) -> None:
        self.seen: set[tuple[CodeType, int]] = set()
        self._ours: dict[str, bool] = {}

    def __call__(self, frame: FrameType, event: str, arg: object) -> object:
        name = frame.f_code.co_filename
        if name not in self._ours:
            self._ours[name] = any(f"/reportgen/{each}/" in name for each in LEADING)
        if not self._ours[name]:
            return None
        self.seen.add((frame.f_code, frame.f_lineno))
        return self


def main(seconds: float, seed: int = 1) -> int:
    """Search for so long; 1 where something was found."""
    rng, reached = Random(seed), Coverage()
    kept, first = corpus(), corpus()
    codes: Counter[int] = Counter()
    faults: Counter[str] = Counter()
    longest, tried, until = 0.0, 0, time.monotonic() + seconds
    while time.monotonic() < until:
        whole = kept[:3] if rng.random() < 0.5 else kept
        text = mutated(rng.choice(whole), rng, first)
        before, begun = len(reached.seen), time.process_time()
        tried += 1
        traced = tried % 4 == 0
        try:
            sys.settrace(reached if traced else None)  # type: ignore[arg-type]
            codes.update(judge(text, commands(rng, built=tried % 6 == 0)))
        except Fault as fault:
            kind = f"{fault.__cause__!r}"[:80] if fault.__cause__ else str(fault)[-80:]
            faults[kind] += 1
            if faults[kind] == 1:
                _keep(text)
                print(f"{fault}\n", flush=True)
        finally:
            sys.settrace(None)
        longest = max(longest, 0.0 if traced else time.process_time() - begun)
        if len(reached.seen) > before:
            kept.append(text)
    print(
        f"{tried} inputs, {sum(codes.values())} commands, exit codes {dict(sorted(codes.items()))}"
    )
    print(f"{len(reached.seen)} lines reached, {len(kept) - len(first)} inputs kept")
    print(
        f"longest input {longest:.1f} s, peak {peak()} MB, {len(faults)} kinds of fault: {faults}"
    )
    return 1 if faults else 0


def _keep(text: str) -> None:
    folder = Path(__file__).parent / "found"
    folder.mkdir(exist_ok=True)
    name = hashlib.sha256(text.encode()).hexdigest()[:8]
    (folder / f"{name}.txt").write_text(text, "utf-8")


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]), *map(int, sys.argv[2:])))
