"""Opening what a season holds: plain files only, inside it, and no more than so much."""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import BinaryIO

from reportgen.read.problem import Refusal

_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
    (lambda mode: True, "a device"),
)
_FLAGS = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""Opening does not wait, whatever was put in the file's place meanwhile."""


def opened(path: Path, root: Path | None = None) -> BinaryIO:
    """A plain file, opened; with ``root``, one that does not lead out of that folder.

    Raises :class:`Refusal`.
    """
    if root is not None:
        stay_inside(path, root)
    try:
        _plain(os.stat(path))  # to open a device can do something by itself
        handle = os.open(path, _FLAGS)
        try:
            _plain(os.fstat(handle))
            return os.fdopen(handle, "rb")
        except BaseException:
            os.close(handle)
            raise
    except OSError as error:
        raise _unreadable(error) from None
    except ValueError:
        raise Refusal(
            "no file can have this name", "a file's name", "take the zero character out"
        ) from None


def contents(path: Path, most: int, root: Path | None = None) -> bytes | None:
    """A plain file's bytes; None where it holds more than ``most``, of which no more is read.

    Raises :class:`Refusal`.
    """
    with opened(path, root) as file:
        try:
            data = file.read(most + 1)
        except OSError as error:
            raise _unreadable(error) from None
    return None if len(data) > most else data


def stay_inside(path: Path, root: Path) -> None:
    """Refuse a path that leads out of a folder, by links in it too."""
    if not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(root)):
        raise Refusal(
            "this is a link that leads out of the season's folder",
            "the file itself",
            "copy the file to this place",
        )


def _plain(found: os.stat_result) -> None:
    if not stat.S_ISREG(found.st_mode):
        kind = next(name for test, name in _KINDS if test(found.st_mode))
        raise Refusal(
            f"this is {kind}, not a file", "a plain file", "move it out of the season's folder"
        )


def _unreadable(error: OSError) -> Refusal:
    return Refusal(
        f"the file cannot be read ({(error.strerror or 'unknown reason').lower()})",
        "a file that you may open",
        "check that it is there and that you have the right to read it",
    )
