"""A command run as on a machine that knows nothing of the repository."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path


def run(*command: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run a command as on a machine that knows nothing of this folder."""
    clean = {name: text for name, text in os.environ.items() if not name.startswith("PYTHON")}
    return subprocess.run(
        [str(each) for each in command], cwd=cwd, env=clean, capture_output=True, text=True
    )
