"""Many journeys by hand: ``python tests/edits/by_hand.py COUNT [SEED]``; what became of them.
``python tests/edits/by_hand.py --suites COUNT [SEED]``: as many edited workbooks, saved
again by each suite in each format, as ``test_suites.py`` does with a dozen.

The same as ``test_round_trip.py`` does in the gate with some dozens: a made-up season is built,
somebody types into the workbook, it is taken home and built again; every quantity is held against
the edited workbook as Gnumeric works it out.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from engines import gnumeric, libreoffice  # noqa: E402
from seasons import sample_edits  # noqa: E402

from edits.test_round_trip import Journey, journey  # noqa: E402
from edits.test_suites import typed_into  # noqa: E402

NO_ROOM = "no spare row in"


def outcome(made: Journey) -> str:
    """What became of a journey, in a word."""
    if made.skipped:
        return "skipped"
    if made.refused:
        return "refused"
    if made.wrong:
        return "wrong"
    return "left over" if made.left or made.second else "home"


def main(count: int, seed: int = 77) -> int:
    """Print each that did not come home, and the counts; 1 where there is one."""
    found: Counter[str] = Counter()
    typed = 0
    for number, (season, edit) in enumerate(sample_edits(count, seed), 1):
        with tempfile.TemporaryDirectory() as folder:
            try:
                made = journey((season, edit, Path(folder) / "one"))
            except AssertionError as error:
                if NO_ROOM not in str(error):
                    raise
                made = Journey(str(edit), skipped="a table that follows has no room for it")
        result = outcome(made)
        found[result] += 1
        typed += made.typed
        if result not in ("home", "skipped"):
            why = made.refused or made.wrong or sorted(made.second)
            print(f"{number}: {made.words}: {result}: {why[:3]}", flush=True)
        if number % 50 == 0:
            print(f"{number}: {dict(found)}, {typed} cells typed", flush=True)
    print(f"{count} journeys: {dict(found)}, {typed} cells typed")
    return 0 if set(found) <= {"home", "skipped"} else 1


def suites(count: int, seed: int = 0) -> int:
    """Print what is found otherwise after saving again, and the counts; 1 where there is any."""
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        typed = typed_into(Path(folder), range(seed, seed + count))
        for suite in (libreoffice, gnumeric):
            for ending in ("xlsx", "ods"):
                name = f"{suite.__name__.rpartition('.')[2]} {ending}"
                found = typed.differing(suite, ending, Path(folder) / name.replace(" ", "-"))
                print("\n".join([*found, f"{name}: {count} saved again, {len(found)} otherwise"]))
                sys.stdout.flush()
                wrong += len(found)
    return 1 if wrong else 0


if __name__ == "__main__":
    words = sys.argv[1:]
    sys.exit(suites(*map(int, words[1:])) if words[0] == "--suites" else main(*map(int, words)))
