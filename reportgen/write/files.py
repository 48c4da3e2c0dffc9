"""Bytes to a file, whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path


def save(path: Path, data: bytes) -> None:
    """Write the file beside its place, then move it there; a crash leaves the old file whole.

    Raises :class:`OSError` whose text names the file and says what to do.
    """
    path = Path(path)
    try:
        _save(path, data)
    except FileNotFoundError:
        raise FileNotFoundError(
            f"{path}: there is no folder {path.parent}; make it first"
        ) from None
    except IsADirectoryError:
        raise IsADirectoryError(f"{path}: this is a folder; name a file in it") from None
    except PermissionError:
        raise PermissionError(
            f"{path}: not allowed to write here; close the file where it is open, "
            "or choose another place"
        ) from None
    except OSError as wrong:
        raise OSError(f"{path}: could not be written ({wrong.strerror or wrong})") from wrong


def _save(path: Path, data: bytes) -> None:
    if path.is_dir():
        raise IsADirectoryError
    target = path.resolve() if path.is_symlink() else path
    handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(beside, _mode(target))
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise
    _settle(target.parent)


def _mode(target: Path) -> int:
    """The rights of the file that is replaced, else those that a new file gets."""
    with contextlib.suppress(FileNotFoundError):
        return target.stat().st_mode & 0o7777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _settle(folder: Path) -> None:
    """Make the move itself last through a power cut, where the system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
