"""A bar that shows how far a build has come, where it takes long and someone is looking."""

from __future__ import annotations

import sys
import threading
from types import TracebackType
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

STAGES = ("reading", "calculating", "composing", "writing")
PATIENCE = 1.0
"""Seconds before the bar appears."""


class Progress:
    """Called with the name of each stage as it begins."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._begun = 0
        self._bar: ProgressBar[str] | None = None
        self._timer = threading.Timer(PATIENCE, self._show)
        self._timer.daemon = True

    def __enter__(self) -> Progress:
        if sys.stderr.isatty():
            self._timer.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._timer.cancel()
        with self._lock:
            if self._bar is not None:
                if error is None:
                    self._move(len(STAGES))
                self._bar.render_finish()
                self._bar = None
            self._begun = len(STAGES) + 1

    def __call__(self, stage: str) -> None:
        """A stage begins."""
        with self._lock:
            self._begun = STAGES.index(stage) + 1
            if self._bar is not None:
                self._move(self._begun - 1)

    def _show(self) -> None:
        with self._lock:
            if self._begun > len(STAGES):
                return
            self._bar = click.progressbar(
                length=len(STAGES), label="Building", file=sys.stderr, show_eta=False,
                show_percent=False, item_show_func=self._stage,
            )  # fmt: skip
            self._bar.render_progress()
            self._move(self._begun - 1)

    def _move(self, done: int) -> None:
        assert self._bar is not None
        self._bar.update(done - self._bar.pos)

    def _stage(self, item: str | None) -> str:
        return STAGES[min(self._begun, len(STAGES)) - 1] if self._begun else ""
