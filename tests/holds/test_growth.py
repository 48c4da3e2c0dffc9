"""Time and memory grow with the input, not with its square."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from cli.seasons import ROOT, SEASON, run, season
from memory import PEAK

from reportgen.cli.reading import MOST

pytestmark = pytest.mark.slow

MANY = 5_000


def records(count: int, more: str) -> str:
    listed = (f'{{"id":"lot-{n}","product":"pear-slices",{more}}}' for n in range(count))
    return '{"lots":[' + ",".join(listed) + "]}"


def lines(count: int, line: str) -> str:
    return "".join(line.replace("#", str(number)) for number in range(count))


SHAPES = {
    "faulty records on one line": records(MANY, '"weighed":"4 stones"'),
    "unknown keys on one line": records(MANY, '"wieghed":"4 lb"'),
    "items that are no records": "lots: [" + "a," * 100 * MANY + "a]",
    "items on lines of their own": "lots:\n" + "- a\n" * 50 * MANY,
    "unknown lots": "runs:\n"
    + lines(MANY, "- {id: run-#, duration: 9 h, loads: [{lot: pear-#, wet: 1 lb}]}\n"),
    "ids given twice": "lots:\n" + lines(MANY, "- {id: a, product: pear-slices}\n"),
    "keys given twice": lines(MANY, "lots: []\n"),
    "unknown products": "lots:\n" + lines(MANY, "- {id: lot-#, product: pear-slice-#}\n"),
    "unknown packs": "uses:\n" + lines(MANY, "- {pack: P-#, count: 1, for: household}\n"),
    "one long text": "lots: [{id: a, product: pear-slices, source: " + "x" * 200 * MANY + "}]",
    "brackets": "lots: " + "[" * 40 * MANY,
    "quotes": "lots: [" + '"a" ' * 40 * MANY + "]",
}
"""Inputs of about a megabyte each."""

_MEASURED = (
    PEAK
    + """
import sys, time
sys.argv[0] = "reportgen"
before = time.process_time()
from reportgen.cli import main

try:
    sys.exit(main())
finally:
    print(f"{time.process_time() - before:.2f} {peak()}", file=sys.stderr)
"""
)


def measured(place: Path) -> tuple[float, int, str]:
    """Seconds of work and megabytes that a check takes, and what it says."""
    line = [sys.executable, "-c", _MEASURED, "check", str(place)]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=False, timeout=300)
    assert done.returncode in (0, 1), done.stderr
    *said, used = done.stderr.strip().split("\n")
    seconds, megabytes = used.split()
    return float(seconds), int(megabytes), "\n".join(said)


@pytest.mark.parametrize("shape", SHAPES)
def test_time_and_memory_grow_with_the_input(tmp_path: Path, shape: str) -> None:
    place = season(tmp_path, SHAPES[shape])
    seconds, megabytes, said = measured(place)
    assert seconds < 5 and megabytes < 500, (seconds, megabytes)
    assert len(said) < 100_000


def test_the_first_hundred_are_said_and_the_rest_counted(tmp_path: Path) -> None:
    batch = "lots:\n" + "- {id: 1, product: pear-slices}\n" * 150 + "zzz: 1\n"
    place = season(tmp_path, batch)
    done = run("check", place)
    assert done.stderr.count("2025-09-05.yaml:") == MOST
    assert f"and 51 more (reportgen check {place} --all lists them)" in done.stderr
    assert "151 errors" in done.stderr
    assert run("check", place, "--all").stderr.count("2025-09-05.yaml:") == 151


def test_errors_are_said_before_cautions(tmp_path: Path) -> None:
    place = season(tmp_path, settings=SEASON + "dryer: 1\n")
    for number in range(150):
        (place / "batches" / f"a{number}.YAML").touch()
    done = run("check", place)
    assert "season.yaml:9: " in done.stderr and "and 51 more" in done.stderr
