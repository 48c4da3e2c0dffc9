"""The entry point, and ``python -m reportgen``: listens to signals before all else."""

from __future__ import annotations

import contextlib
import sys

from reportgen.stop import Stopped, listen, stopped_by


def main() -> None:
    """Run the command line; ends with 130, 143 or 129 where it was told to stop."""
    try:
        listen()
        from reportgen.cli import main as command_line

        command_line()
    except BaseException as end:
        stopped = stopped_by(end)
        if stopped is None:
            raise
        _leave(stopped)


def _leave(stopped: Stopped) -> None:
    """End with its code; what cannot be said any more is not."""
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(Exception):
            stream.flush()
    sys.exit(stopped.code)


if __name__ == "__main__":
    main()
