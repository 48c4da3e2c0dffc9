"""The entry point, and ``python -m reportgen``: listens to signals before all else.

A command is short and makes millions of small objects with hardly a cycle among them. So nobody
looks for garbage, and at the end the process is gone at once, without taking down each of them:
together a fifth of the time of a small build. Nor does it load what libraries take along where it
is installed, and nothing here is reckoned with: together another tenth of one.
"""

from __future__ import annotations

import contextlib
import gc
import os
import sys
from typing import NoReturn

from reportgen.stop import listen, stopped_by

_UNUSED = ("lxml", "numpy", "scipy", "uncertainties")
"""What openpyxl and pint would load: each goes without where there is none."""


def main() -> NoReturn:
    """Run the command line; ends with 130, 143 or 129 where it was told to stop."""
    gc.disable()
    try:
        listen()
        for each in _UNUSED:  # whoever asks for one is told that there is none
            sys.modules.setdefault(each, None)  # type: ignore[arg-type]
        from reportgen.cli import main as command_line

        os._exit(command_line())
    except BaseException as end:
        stopped = stopped_by(end)
        if stopped is None:
            raise
        for stream in (sys.stdout, sys.stderr):  # what cannot be said any more is not
            with contextlib.suppress(Exception):
                stream.flush()
        os._exit(stopped.code)


if __name__ == "__main__":
    main()
