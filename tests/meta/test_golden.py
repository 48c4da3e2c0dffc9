"""What a change does to the definitions is read in a diff."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from meta.golden import PATH

TESTS = Path(__file__).resolve().parents[1]
_SAY = f"""\
import sys
sys.path[:0] = {[str(TESTS), str(TESTS.parent)]}
from meta.golden import golden
print(golden(), end="")
"""


def test_definitions_are_those_that_are_written_down() -> None:
    # Read what differs, then: python tests/meta/golden.py (after a merge, too)
    # In a process of its own: the algebra makes some definitions when they are asked for, and who
    # asked for what in this one depends on the tests that ran before.
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-c", _SAY],
        capture_output=True, text=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert done.stdout == PATH.read_text(encoding="utf-8")
