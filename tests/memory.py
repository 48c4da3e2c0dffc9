"""How much memory a process took: its own, which ``ru_maxrss`` does not tell.

A process begins with the ``ru_maxrss`` of the one that it was made from.
"""

from __future__ import annotations

import re
from pathlib import Path

PEAK = r"""
def peak():
    import re
    with open("/proc/self/status") as status:
        return int(re.search(r"VmHWM:\s*(\d+) kB", status.read())[1]) // 1024
"""
"""A function for the text of a program that runs by itself: megabytes at the most, since it was
started or since they were last :func:`forgotten`."""


def peak() -> int:
    """Megabytes that this process had at the most since they were last forgotten."""
    found = re.search(r"VmHWM:\s*(\d+) kB", Path("/proc/self/status").read_text("ascii"))
    assert found is not None
    return int(found[1]) // 1024


def forget() -> int:
    """Count anew from what this process has now; that, in megabytes."""
    Path("/proc/self/clear_refs").write_text("5", "ascii")
    return peak()
