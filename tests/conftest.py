"""Shared by all tests: ``tests/`` is on the path, and time and chance are the same every run."""

from __future__ import annotations

import hypothesis

# A failure on one machine is a failure on all: examples come from the test's name, not from chance.
hypothesis.settings.register_profile(
    "repeatable",
    derandomize=True,
    deadline=None,
    print_blob=True,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
hypothesis.settings.load_profile("repeatable")
