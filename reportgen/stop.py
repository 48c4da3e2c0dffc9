"""Being told to stop: Ctrl-C, a closed terminal, the end of the session.

A signal becomes an exception, so that every file half written is taken away on the way out.
"""

from __future__ import annotations

import signal
from types import FrameType

_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP")


class Stopped(BaseException):
    """The program was told to stop; ``code`` is its exit code, 128 and the signal's number."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.code = 128 + number


def listen() -> None:
    """From now on a signal raises :class:`Stopped`; one that was to be ignored still is."""
    for number in _known():
        if signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, _stop)


def stopped_by(error: BaseException | None) -> Stopped | None:
    """The signal behind an error: what is cut short can fail on its way out."""
    while error is not None and not isinstance(error, Stopped):
        error = error.__context__
    return error


def _known() -> list[signal.Signals]:
    return [getattr(signal, each) for each in _SIGNALS if hasattr(signal, each)]


def _stop(number: int, frame: FrameType | None) -> None:
    for each in _known():
        signal.signal(each, signal.SIG_IGN)  # one is enough: the way out is not cut short
    raise Stopped(number)
