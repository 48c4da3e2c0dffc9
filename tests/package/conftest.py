"""The wheel, made once."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from package.wheels import run

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built with what is installed here, so without a download."""
    folder = tmp_path_factory.mktemp("wheel")
    done = run(
        sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--no-index",
        "--disable-pip-version-check", "--wheel-dir", folder, ROOT, cwd=folder,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    (found,) = folder.glob("*.whl")
    return found
