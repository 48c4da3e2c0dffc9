"""Readers and a validator as programs: they are started, and what they say is read."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

from engines.need import missing

MODULES = Path(sys.prefix) / "node" / "node_modules"
_READ = Path(__file__).with_name("read.cjs")
_VALIDATOR = MODULES / "@xarsh" / "ooxml-validator-linux-x64" / "ooxml-validator"
_SECONDS = 600
_FOR_A_MOMENT = {
    "DOTNET_TieredPGO": "0",
    "DOTNET_gcConcurrent": "0",
    "DOTNET_GCgen0size": "0x10000000",
}
"""The validator is started anew for each workbook: what prepares it for a long run, and looks for
garbage in the meantime, takes more than half of its time."""


def _said(*command: str | Path) -> tuple[str, str]:
    environment = {**os.environ, **_FOR_A_MOMENT, "NODE_PATH": str(MODULES)}
    done = subprocess.run(
        command, env=environment, capture_output=True, text=True, timeout=_SECONDS, check=False
    )
    return done.stdout, done.stderr


def read(path: Path) -> dict[str, list[dict[str, Any]]]:
    """What each reader finds: its sheets in order."""
    node = shutil.which("node")
    if node is None or not MODULES.exists():
        missing("Node.js with the readers", "apt-get install npm, then run ./test again.")
    out, wrong = _said(node, _READ, path)
    assert out, wrong[-2000:]
    return json.loads(out)  # type: ignore[no-any-return]


def complaints(path: Path) -> list[str]:
    """What the validator finds wrong."""
    if not _VALIDATOR.exists():
        missing(
            "The validator of the file format (a program for Linux on x86-64)",
            "apt-get install npm, then run ./test again.",
        )
    out, wrong = _said(_VALIDATOR, path)
    assert out, wrong[-2000:]
    told = json.loads(out)
    found = [f"{each['path']}: {each['description']}" for each in told["errors"]]
    assert told["ok"] == (not found)
    return found
