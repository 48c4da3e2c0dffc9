"""Shared by all tests: ``tests/`` is on the path, and time and chance are the same every run."""

from __future__ import annotations

import os

import garbage
import hypothesis
import pytest
from engines.reach import needs_engine

garbage.seldom()

# As for users, who have no lxml: with it openpyxl writes the same XML in other bytes.
os.environ["OPENPYXL_LXML"] = "False"

# What gives no day of its own is judged on this one, in every process that a test starts.
os.environ["SOURCE_DATE_EPOCH"] = "1798675200"  # 2026-12-31

# A failure on one machine is a failure on all: examples come from the test's name, not from chance.
hypothesis.settings.register_profile(
    "repeatable",
    derandomize=True,
    deadline=None,
    print_blob=True,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
hypothesis.settings.load_profile("repeatable")

LONGEST = ("workbook", "meta", "edits")
"""The folders with files that take minutes."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the tests that need an engine or a browser, and those that are quick: that neither need
    one nor take long (``slow`` and ``seasons`` are said in the file). Files with others come first,
    and before them those of LONGEST: several processes that take a file at a time then end with
    short ones, and none is left alone with a long one."""
    for item in items:
        if isinstance(item, pytest.Function) and needs_engine(item):
            item.add_marker(pytest.mark.engine)
        elif not (item.get_closest_marker("slow") or item.get_closest_marker("seasons")):
            item.add_marker(pytest.mark.quick)
    long = {item.path for item in items if not item.get_closest_marker("quick")}
    items.sort(key=lambda item: (item.path not in long, item.path.parent.name not in LONGEST))
