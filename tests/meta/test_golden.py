"""What a change does to the definitions is read in a diff."""

from __future__ import annotations

from meta.golden import PATH, golden


def test_definitions_are_those_that_are_written_down() -> None:
    # Read what differs, then: python tests/meta/golden.py (after a merge, too)
    assert golden() == PATH.read_text(encoding="utf-8")
