"""Deliberate faults, one at a time, and which test catches each. Not part of the test run.

``python tests/mutations.py`` tries every fault that the machine makes of the definitions' trees,
prints each, and by table how many were caught; ``--sample 100`` that many of them, ``--part 1/2``
half of them, told apart by their names, so that a new one moves no other; ``--only plan.finish``
those whose description holds the text. ``--values`` gives each quantity another value, as
``tools/release`` does. ``--by-hand`` tries the faults written by hand in other parts of the
program. It ends with 1 where a fault went unnoticed that is not said to be equal
(``mutants/equal.yaml``).
"""

from __future__ import annotations

import argparse
import random
import sys
from zlib import crc32

from mutants.copied import try_by_hand
from mutants.made import every_fault, other_values
from mutants.report import Report
from mutants.tried import try_all

from reportgen.trade import BOOK


def main() -> int:
    """Try the faults that are asked for."""
    wanted = argparse.ArgumentParser(description=__doc__)
    wanted.add_argument("--by-hand", action="store_true")
    wanted.add_argument("--values", action="store_true")
    wanted.add_argument("--sample", type=int)
    wanted.add_argument("--part")
    wanted.add_argument("--only", default=[], nargs="*")
    asked = wanted.parse_args()
    if asked.by_hand:
        return 0 if try_by_hand(asked.only) else 1
    made, refused = every_fault(BOOK)
    values = other_values(BOOK)
    of = values if asked.values else made
    faults = [each for each in of if all(text in each.id for text in asked.only)]
    if asked.part:
        part, parts = map(int, asked.part.split("/"))
        faults = [each for each in faults if crc32(each.id.encode()) % parts == part - 1]
    if asked.sample:
        faults = random.Random(1).sample(faults, min(asked.sample, len(faults)))
    print(f"{len(faults)} of {len(of)} faults; {refused} more are refused by their units")
    report = Report([*made, *values])
    try_all(BOOK, faults, report.tell)
    return 0 if report.end() else 1


if __name__ == "__main__":
    sys.exit(main())
