"""What happens where an engine is not installed.

A check that needs an engine is skipped with a loud reason on a machine that lacks it, and fails
where ``REPORTGEN_ENGINES=required`` says that none may be missing.
"""

from __future__ import annotations

import os
from typing import NoReturn

import pytest


def missing(engine: str, remedy: str) -> NoReturn:
    """Fail or skip the running test: ``engine`` is not here, ``remedy`` says how to get it."""
    reason = f"ENGINE MISSING: {engine} is not installed, so nothing was checked. {remedy}"
    if os.environ.get("REPORTGEN_ENGINES") == "required":
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)
