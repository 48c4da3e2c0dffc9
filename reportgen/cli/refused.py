"""The one place that turns what the system refuses into a message with a name in it."""

from __future__ import annotations

import errno
import os

_MEANINGS = {
    errno.ENOENT: "there is no such file or folder; check the name",
    errno.ENOTDIR: "a part of this path is no folder; check the name",
    errno.EISDIR: "this is a folder; name a file in it",
    errno.EEXIST: "there is a file of this name already; choose another name",
    errno.EACCES: "you have no right to this; change its rights, or choose another place",
    errno.EPERM: "you have no right to this; change its rights, or choose another place",
    errno.EROFS: "this disk can only be read; choose another place",
    errno.ENAMETOOLONG: "the name is longer than the system takes; choose a shorter one",
    errno.ELOOP: "links lead in a circle here; delete one of them",
    errno.ENOSPC: "the disk is full; make room, then run the command again",
    errno.EDQUOT: "your share of the disk is full; make room, then run the command again",
    errno.EFBIG: "the file would be larger than the system allows; choose another place",
    errno.EMFILE: "too many files are open; close some programs",
    errno.ENFILE: "too many files are open; close some programs",
    errno.EBADF: "it is closed; open it, or send the output elsewhere",
    errno.EINVAL: "the system does not take this; check it",
}


def message(error: OSError | MemoryError | ValueError) -> str:
    """``name: what is refused; what to do``."""
    if isinstance(error, MemoryError):
        return "the memory is full; close some programs, or split the season into several"
    if not isinstance(error, OSError):  # a name that no file can have
        return f"{error}; check the names in the command"
    if error.errno is None:
        return str(error)
    if error.filename is None and "temporary directory" in (error.strerror or ""):
        return "no folder takes temporary files; make room, or name one in TMPDIR"
    if error.filename is None and error.errno == errno.ENOENT and _nowhere():
        return "the folder you are in is gone; go to another, then run the command again"
    if error.errno == errno.EINVAL and error.strerror and ";" in error.strerror:
        return f"{error.filename}: {error.strerror}"  # our own word for it
    name = os.fsdecode(error.filename) if error.filename is not None else "the output"
    said = (error.strerror or "the system refuses it").lower().lstrip(". ")
    return f"{name}: {_MEANINGS.get(error.errno, f'{said}; check it')}"


def _nowhere() -> bool:
    try:
        os.getcwd()
    except OSError:
        return True
    return False
