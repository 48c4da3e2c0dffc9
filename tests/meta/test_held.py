"""Each quantity is held against something that does not come from its definition.

Every definition in turn is given another value, and a test that knows the right one from elsewhere
(by hand, from a publication, from a plain reckoning of the contract) must fail. A comparison with
the workbook does not count: both come from one tree. How it is done: ``tests/mutants``. Here one
of 120 of them, always the same; ``tools/release`` tries them all.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parents[1]

pytestmark = pytest.mark.slow


def test_a_test_with_a_value_of_its_own_holds_each_quantity() -> None:
    command = [sys.executable, str(TESTS / "mutations.py"), "--values", "--part", "1/120"]
    done = subprocess.run(command, cwd=TESTS.parent, capture_output=True, text=True, check=False)
    left = re.findall(r"^left +(\S+) ", done.stdout, re.MULTILINE)
    assert left == [], "write a test in tests/trade with the value worked out by hand"
    tried = re.search(r"^all +(\d+)", done.stdout, re.MULTILINE)
    assert done.returncode == 0 and tried and int(tried[1]) > 8, done.stdout[-3000:] + done.stderr
