"""The same input gives the same bytes."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from reportgen.write.workbook import render
from write.books import parts, whole

pytestmark = pytest.mark.slow

_ONCE = (
    "import hashlib; from write.books import whole; from reportgen.write.workbook import render; "
    "print(hashlib.sha256(render(whole())).hexdigest())"
)


def _digest(seed: str) -> str:
    tests = Path(__file__).parents[1]
    path = os.pathsep.join([str(tests), str(tests.parent)])
    environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": path, "TZ": f"UTC-{seed}"}
    done = subprocess.run(
        [sys.executable, "-c", _ONCE], env=environment, capture_output=True, text=True, check=True
    )
    return done.stdout


def test_bytes_are_the_same_in_every_process():
    assert len({_digest(seed) for seed in ("0", "1", "7")}) == 1


def test_bytes_are_the_same_twice_in_one_process():
    assert render(whole()) == render(whole())


def test_no_clock_and_no_system_in_the_file():
    with zipfile.ZipFile(BytesIO(render(whole()))) as archive:
        found = archive.infolist()
    assert {info.date_time for info in found} == {(1980, 1, 1, 0, 0, 0)}
    assert {info.create_system for info in found} == {0}
    names = [info.filename for info in found]
    assert names[0] == "[Content_Types].xml"
    # The strings are known when the sheets are written, the seal when all the rest is.
    assert names[-2:] == ["xl/sharedStrings.xml", "docProps/custom.xml"]
    assert names[1:-2] == sorted(names[1:-2])


def test_the_instant_is_taken_from_the_environment(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1790000000")
    core = parts(render(whole()))["docProps/core.xml"]
    assert core.count(b"2026-09-21T14:13:20Z") == 2  # date -u -d @1790000000
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert parts(render(whole()))["docProps/core.xml"].count(b"2000-01-01T00:00:00Z") == 2
