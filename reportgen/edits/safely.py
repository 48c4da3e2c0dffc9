"""Several files written, or none: a crash between two leaves a state from which the next call goes
on.

The new texts are written beside their files first; then a note is made of what is to be moved
where. With the note there, the moves are carried out, by this call or by the next one; without it,
what lies beside the files is swept away.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from reportgen.read.folder import NEW, OLD

NOTE = ".reportgen-take.json"


class Changed(OSError):
    """A file is not as it was read; the text names it and says what to do."""


def write_all(folder: Path, texts: Mapping[str, str], read: Mapping[str, bytes]) -> None:
    """Write all files, keeping what they replace as ``NAME.before``.

    ``read``: the bytes of the files as they were read; those that were not there are left out.
    Raises :class:`Changed` where one was changed since, :class:`OSError` where the system refuses;
    then nothing was written.
    """
    try:
        for name, text in texts.items():
            _unchanged(folder, name, read)
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            if path.exists() and not os.access(path, os.W_OK):
                raise PermissionError(13, "the file may not be written", str(path))
            _put(path.with_name(path.name + NEW), text.encode("utf-8"))
        for name in texts:
            _unchanged(folder, name, read)
        moves = {
            name: {
                "old": _digest(read[name]) if name in read else "",
                "new": _digest(text.encode()),
            }
            for name, text in texts.items()
        }
        _put(folder / (NOTE + NEW), json.dumps(moves).encode())
        os.replace(folder / (NOTE + NEW), folder / NOTE)
    except BaseException:
        _sweep(folder, texts)
        raise
    _settle(folder)
    _carry_out(folder, moves)


def go_on(folder: Path) -> str:
    """Finish what an earlier call began, or take its beginnings away; what was done, in a sentence.

    Raises :class:`Changed` where that cannot be, because a file is neither as it was nor as it was
    to be.
    """
    note = folder / NOTE
    try:
        moves = json.loads(note.read_bytes())
    except FileNotFoundError:
        left = [each for each in folder.rglob(f"*{NEW}") if each.is_file()]
        for each in left:
            each.unlink()
        return "what an earlier call had begun was taken back; no file had changed" if left else ""
    except ValueError:
        raise Changed(
            f"{note} cannot be read; delete it, and look at the files beside it"
        ) from None
    for name, digests in moves.items():
        path = folder / name
        now = _digest(path.read_bytes() if path.is_file() else None)
        if now not in (digests["old"], digests["new"]):
            raise Changed(
                f"{name} was changed after an earlier call had begun to write it; compare it with "
                f"{name}{NEW}, then delete that file and {NOTE}"
            )
    _carry_out(folder, moves)
    return "what an earlier call had begun was finished: " + ", ".join(sorted(moves))


def _carry_out(folder: Path, moves: Mapping[str, Mapping[str, str]]) -> None:
    for name in moves:
        path = folder / name
        new = path.with_name(path.name + NEW)
        if not new.is_file():
            continue
        if path.is_file():
            kept = path.with_name(path.name + OLD)
            _put(kept.with_name(kept.name + NEW), path.read_bytes())
            os.replace(kept.with_name(kept.name + NEW), kept)
            with suppress(OSError):
                os.chmod(new, path.stat().st_mode & 0o7777)
        os.replace(new, path)
    _settle(folder)
    (folder / NOTE).unlink(missing_ok=True)
    _settle(folder)


def _unchanged(folder: Path, name: str, read: Mapping[str, bytes]) -> None:
    path = folder / name
    now = path.read_bytes() if path.is_file() else None
    if now != read.get(name):
        raise Changed(f"{path} was changed while this was worked out; try again")


def _sweep(folder: Path, texts: Mapping[str, str]) -> None:
    for name in (*texts, NOTE):
        with suppress(OSError):
            (folder / (name + NEW)).unlink(missing_ok=True)


def _put(path: Path, data: bytes) -> None:
    with open(path, "wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _settle(folder: Path) -> None:
    """Have the names of files on disk, where a folder can be asked for that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _digest(data: bytes | None) -> str:
    """Of a file that is not there, nothing."""
    return "" if data is None else sha256(data).hexdigest()
