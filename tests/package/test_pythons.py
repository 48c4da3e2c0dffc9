"""The same bytes on every Python that this machine has, from the source and from the wheel.

Other versions are fetched by ``tools/pythons.sh``, which says loudly what cannot be had; what is
found is tested, the one that runs this at least.
"""

from __future__ import annotations

import builtins
import math
import os
import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest
from cli.seasons import run
from thorough import every

ROOT = Path(__file__).parents[2]
FOUND = [Path(sys.executable), *sorted((ROOT / ".venv" / "pythons").glob("python3.*[0-9]"))]
pytestmark = pytest.mark.slow

MADE = """
import hashlib, os, sys
sys.path[:] = [each for each in sys.path if each]
import reportgen
from reportgen.cli import app
samples = os.environ["FOLDERS"].split(":")[0]
sys.stdout = open("said", "w", encoding="utf-8")
for words in (
    ["build", f"{samples}/windrow-lane", "-o", "a.xlsx"],
    ["page", f"{samples}/windrow-lane", "-o", "a.html"],
    ["build", f"{samples}/colline", "-o", "b.xlsx"],
    ["labels", f"{samples}/colline", "--doubtful", "-o", "b.html"],
    ["figures", f"{samples}/colline", "--json"],
):
    assert not app(words, standalone_mode=False), words
sys.stdout.close()
where = open("where", "w")
where.write(f"{os.path.dirname(reportgen.__file__)} {sys.version_info[0]}.{sys.version_info[1]}")
where.close()
"""


@pytest.fixture(scope="module")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def made(python: Path, package: Path, to: Path) -> tuple[dict[str, bytes], str]:
    """All that one Python makes of the samples, and where it found the package."""
    path = os.pathsep.join([str(package), sysconfig.get_path("purelib")])
    env = {**os.environ, "PYTHONPATH": path, "FOLDERS": f"{ROOT / 'samples'}:/usr/share/zoneinfo",
           "PYTHONDONTWRITEBYTECODE": "1"}  # fmt: skip
    done = subprocess.run(
        [python, "-c", MADE], env=env, cwd=to, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-3000:]
    where = (to / "where").read_text()
    return {p.name: p.read_bytes() for p in to.iterdir() if p.name != "where"}, where


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What the running Python makes of the source."""
    files, where = made(FOUND[0], ROOT, tmp_path_factory.mktemp("usual"))
    assert where.startswith(str(ROOT / "reportgen"))
    assert len(files) == 5
    return files


@pytest.mark.parametrize("python", every(3, FOUND), ids=lambda path: path.name)
def test_the_same_bytes_from_the_wheel_on(python, unpacked, usual, tmp_path) -> None:
    files, where = made(python, unpacked, tmp_path)
    place, _, version = where.partition(" ")
    assert place == str(unpacked / "reportgen")
    assert python == FOUND[0] or python.name == f"python{version}"
    assert {name for name in usual if files[name] != usual[name]} == set()


def test_no_sum_rests_on_how_python_adds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Since 3.12 ``sum`` makes up for what rounding loses; before, it does not."""
    season = ROOT / "samples" / "windrow-lane"
    assert run("build", season, "-o", tmp_path / "plain.xlsx").exit_code == 0
    plain = builtins.sum

    def compensated(values: object, /, start: object = 0) -> object:
        listed = list(values)  # type: ignore[call-overload]
        if any(isinstance(each, float) for each in listed):
            return math.fsum([start, *listed])  # type: ignore[list-item]
        return plain(listed, start)

    monkeypatch.setattr(builtins, "sum", compensated)
    assert run("build", season, "-o", tmp_path / "other.xlsx").exit_code == 0
    assert (tmp_path / "plain.xlsx").read_bytes() == (tmp_path / "other.xlsx").read_bytes()
