"""Many journeys by hand, and what became of them: ``python tests/edits/by_hand.py COUNT [SEED]``.
``python tests/edits/by_hand.py --suites COUNT [SEED [SUITE ENDING]]``: as many edited workbooks,
saved again by each suite in each format, or by one in one (``gnumeric ods``), as ``test_suites.py``
does with a few.
``python tests/edits/by_hand.py --blanks COUNT [SEED]``: as many journeys of what is typed into
empty cells, as ``test_blanks.py`` takes a few, with each reason for which something was refused,
and the columns that nothing was typed into.

The same as ``test_round_trip.py`` does in the gate with some dozens: a made-up season is built,
somebody types into the workbook, it is taken home and built again; every quantity is held against
the edited workbook as Gnumeric works it out. Each season is edited several times.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from engines import gnumeric, libreoffice  # noqa: E402
from seasons import edited_often  # noqa: E402
from workbook.typing_in import WRITTEN  # noqa: E402

from edits import test_blanks as blanks  # noqa: E402
from edits.test_round_trip import Journey, journeys  # noqa: E402
from edits.test_suites import typed_into  # noqa: E402
from reportgen.model.records import RECORDS  # noqa: E402

EACH = 3
"""Edits of each season."""
SUITES = {"libreoffice": libreoffice, "gnumeric": gnumeric}
READ_AS = {written: table for table, written in WRITTEN.items()}
ENDINGS = ("xlsx", "ods")


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
    typed = number = 0
    for season, wanted in edited_often(-(-count // EACH), seed, EACH):
        with tempfile.TemporaryDirectory() as folder:
            done = journeys((season, wanted, Path(folder) / "one"))
        for made in done:
            number += 1
            result = outcome(made)
            found[result] += 1
            typed += made.typed
            if result not in ("home", "skipped"):
                why = made.refused or made.wrong or sorted(made.second)
                print(f"{number}: {made.words}: {result}: {why[:3]}", flush=True)
        if number % (20 * EACH) == 0:
            print(f"{number}: {dict(found)}, {typed} cells typed", flush=True)
    print(f"{number} journeys: {dict(found)}, {typed} cells typed")
    return 0 if set(found) <= {"home", "skipped"} else 1


def into_blanks(count: int, seed: int = 0) -> int:
    """Print what did not come home, why cells were refused, and the counts; 1 where a thing was
    lost."""
    into: Counter[tuple[str, str]] = Counter()
    whys: Counter[str] = Counter()
    found: Counter[str] = Counter()
    number = 0
    while found.total() < count:
        with tempfile.TemporaryDirectory() as folder:
            done = blanks.journeys((seed, number, EACH, Path(folder) / "one"))
        number += 1
        for made in done:
            lost = blanks.faults([made])
            found["refused" if made.refused else "lost" if lost else "home"] += 1
            into += Counter() if made.refused else made.into
            whys.update(re.sub(r"'[^']*'|[0-9]\S*", "...", why) for why in made.refused)
            for said in lost:
                print(said, flush=True)
        if number % 20 == 0:
            print(f"{found.total()}: {dict(found)}, {into.total()} cells typed", flush=True)
    for why, times in whys.most_common():
        print(f"{times:5} refused: {why}")
    never = sorted(
        f"{table}.{column.name}"
        for table, record in RECORDS.items()
        for column in record.inputs
        if (READ_AS.get(table, table), column.name) not in into
    )
    print(f"never typed into: {', '.join(never)}")
    print(f"{dict(found)}, {into.total()} cells in {len(into)} columns came home")
    return 1 if found["lost"] else 0


def suites(count: int, seed: int = 0, suite: str = "", ending: str = "") -> int:
    """Print what is found otherwise after saving again, and the counts; 1 where there is any."""
    wrong = 0
    asked = [
        (each, form)
        for each in ([suite] if suite else SUITES)
        for form in ([ending] if ending else ENDINGS)
    ]
    with tempfile.TemporaryDirectory() as folder:
        typed = typed_into(Path(folder), range(seed, seed + count))
        for each, form in asked:
            found = typed.differing(SUITES[each], form, Path(folder) / f"{each}-{form}")
            said = f"{each} {form}: {count} saved again, {len(found)} otherwise"
            print("\n".join([*found, said]), flush=True)
            wrong += len(found)
    return 1 if wrong else 0


if __name__ == "__main__":
    words = sys.argv[1:]
    if words[0] == "--suites":
        sys.exit(suites(*map(int, words[1:3]), *words[3:]))
    if words[0] == "--blanks":
        sys.exit(into_blanks(*map(int, words[1:])))
    sys.exit(main(*map(int, words)))
