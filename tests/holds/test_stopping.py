"""Told to stop, or killed: no half a file, no traceback; what a kill left is swept later.

``python tests/holds/kills.py`` does the same hundreds of times, with the counts.
"""

from __future__ import annotations

import signal
from pathlib import Path

import pytest
from cli.seasons import run, season

from holds.kills import COMMANDS, SIGNALS, Killing, prepared

pytestmark = pytest.mark.slow

CODES = {signal.SIGINT: 130, signal.SIGTERM: 143, signal.SIGHUP: 129, signal.SIGKILL: -9}


@pytest.mark.parametrize("command", COMMANDS)
def test_stopped_at_any_moment(tmp_path: Path, command: str) -> None:
    killing = Killing(prepared(tmp_path), command)
    for number, share in zip(SIGNALS, (0.1, 0.6, 0.97), strict=True):
        killing.try_one(number, share)
    assert killing.faults == []


def test_stopped_while_it_writes(tmp_path: Path) -> None:
    """At the one moment when half a file is there."""
    killing = Killing(prepared(tmp_path), "page")
    for number in (*SIGNALS, signal.SIGKILL):
        code, said, left = killing.while_writing(number)
        assert code == CODES[number], said
        assert "Traceback" not in said
        assert bool(left) == (number == signal.SIGKILL)
        assert killing.whole()
    assert run("page", killing.season, "-o", killing.target).exit_code == 0
    assert killing.left() == []


def test_a_signal_that_was_to_be_ignored_still_is(tmp_path: Path) -> None:
    killing = Killing(prepared(tmp_path), "page")
    code, said, _ = killing.while_writing(signal.SIGHUP, before="trap '' HUP; ")
    assert (code, said) == (0, "")
    assert killing.whole()


def test_a_save_raced_against_a_build_is_never_lost(tmp_path: Path) -> None:
    assert Killing(season(tmp_path), "page").races(4) == []
