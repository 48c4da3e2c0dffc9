"""Bytes to a file: whole or not at all, and never over somebody's work."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import stat
from collections.abc import Callable, Iterator
from hashlib import file_digest, sha256
from pathlib import Path
from typing import BinaryIO, NamedTuple

from reportgen.write import seal

try:
    import fcntl
except ImportError:  # a system that keeps open files from being deleted instead
    fcntl = None  # type: ignore[assignment]

_LARGEST = 1_000_000_000
"""Bytes; nothing that we write comes near, so what is larger is not read to find out."""
_BEGIN, _END = ".reportgen-", ".part"
"""Names of files half written, which a later run may delete."""


class Unwelcome(OSError):
    """A file may not be put in this place; the text names it and says what to do."""


class _Seen(NamedTuple):
    """A file as it was found: which, of what content, and whether it is ours as we wrote it."""

    identity: tuple[int, ...]
    digest: bytes
    ours: bool


class Target:
    """The place of a file that will be written, looked at before the work and right before the
    file is moved there.

    Replaced is what we wrote ourselves, and an empty file; what somebody changed or made only with
    ``force``, and only as it stood before the work. Raises :class:`OSError` with the file's name.
    """

    def __init__(self, path: Path, force: bool = False) -> None:
        self.path = path
        with self._named():
            self._real = Path(os.path.realpath(path))
            self._before = self._look()
        if self._before is None and not self._real.parent.is_dir():
            raise Unwelcome(f"{path}: there is no folder {path.parent}; make it first")
        if self._before is not None and not (self._before.ours or force):
            raise Unwelcome(
                f"{path}: this file was changed since reportgen wrote it, or reportgen did not "
                "write it; choose another name with -o, or overwrite it with --force"
            )

    def save(self, data: bytes) -> None:
        """Put a file that is there already, as :meth:`fill` does."""
        self.fill(lambda out: out.write(data))

    def fill(self, write: Callable[[BinaryIO], object]) -> None:
        """Write the file beside its place, then move it there; a crash leaves the old one whole."""
        with self._named(), _beside(self._real.parent) as (beside, stream):
            write(stream)
            stream.flush()
            os.fsync(stream.fileno())
            if fcntl is None:
                stream.close()  # such a system moves no open file
            os.chmod(beside, _rights(self._real))
            self._move(beside)
            _settle(self._real.parent)

    def _move(self, beside: Path) -> None:
        now = self._may_replace()
        if now is None:
            try:
                os.link(beside, self._real)  # unlike a move, it takes no file's place
                return
            except FileExistsError:
                now = self._may_replace()
            except (OSError, AttributeError):  # no hard links here
                now = self._may_replace()
        if now is not None and now.identity != _identity(os.stat(self._real)):
            raise self._meanwhile()
        os.replace(beside, self._real)

    def _may_replace(self) -> _Seen | None:
        """What stands in the place now."""
        now = self._look()
        if now is not None and not now.ours and now != self._before:
            raise self._meanwhile()
        return now

    def _meanwhile(self) -> Unwelcome:
        return Unwelcome(
            f"{self.path}: this file was saved while reportgen was at work, and is left as it is; "
            "choose another name with -o, or run the command again"
        )

    def _look(self) -> _Seen | None:
        try:
            found = os.stat(self.path)
        except FileNotFoundError:
            return None
        if stat.S_ISDIR(found.st_mode):
            raise Unwelcome(f"{self.path}: this is a folder; name a file in it")
        if not stat.S_ISREG(found.st_mode):
            raise Unwelcome(f"{self.path}: this is no plain file; choose another name")
        if not found.st_mode & 0o222 or not os.access(self.path, os.W_OK):
            raise Unwelcome(
                f"{self.path}: this file may only be read; choose another name, or allow writing it"
            )
        if found.st_size > _LARGEST:
            return _Seen(_identity(found), b"", False)
        with self.path.open("rb") as file:
            digest = file_digest(file, sha256).digest()
            return _Seen(_identity(found), digest, not found.st_size or seal.untouched(file))

    @contextlib.contextmanager
    def _named(self) -> Iterator[None]:
        """What the system refuses carries the name that the user gave."""
        try:
            yield
        except Unwelcome:
            raise
        except OSError as wrong:
            raise OSError(
                wrong.errno or errno.EIO, wrong.strerror or str(wrong), str(self.path)
            ) from wrong


def _identity(found: os.stat_result) -> tuple[int, ...]:
    return found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns


@contextlib.contextmanager
def _beside(folder: Path) -> Iterator[tuple[Path, BinaryIO]]:
    """A file to write into, gone at the end unless it was moved; what a crash left goes first."""
    _sweep(folder)
    beside = folder / f"{_BEGIN}{secrets.token_hex(6)}{_END}"
    try:
        with _held(beside) as stream:
            yield beside, stream
    finally:
        with contextlib.suppress(OSError):
            os.unlink(beside)


def _held(beside: Path) -> BinaryIO:
    """A new file that is locked, where the system has locks, to say that it is being written."""
    while True:
        stream = beside.open("x+b")
        if fcntl is not None:
            with contextlib.suppress(OSError):
                fcntl.flock(stream, fcntl.LOCK_EX)
        if os.fstat(stream.fileno()).st_nlink:
            return stream
        stream.close()  # swept by another run before it was locked


def _sweep(folder: Path) -> None:
    """Delete files half written whose writer is gone: nobody holds their lock."""
    with contextlib.suppress(OSError):
        left = [each for each in os.listdir(folder) if each.startswith(_BEGIN)]
        for beside in (folder / each for each in left if each.endswith(_END)):
            with contextlib.suppress(OSError), beside.open("rb") as stream:
                if fcntl is not None:
                    fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
                beside.unlink()


def _rights(target: Path) -> int:
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
