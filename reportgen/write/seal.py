"""The mark by which a file tells that nobody has changed it since it was written.

A workbook holds a digest of all its bytes in a custom property, a page in a comment at its end;
where the digest itself stands, and in the checksums that follow from it, zeros are counted. So
whatever is changed anywhere in the file, or put around it, no longer fits; a file without the mark
was not written by us.
"""

from __future__ import annotations

import os
import re
import zlib
from hashlib import sha256
from typing import BinaryIO

PROPERTY = "reportgen digest"
PART = "docProps/custom.xml"
"""The part of a workbook that holds the mark: the last of all, and not compressed."""
BLANK = "0" * 64
"""What stands for the digest until the rest is written."""

_COMMENT = f"\n<!-- {PROPERTY} {BLANK} -->\n"
_MARK = re.compile(PROPERTY.encode() + rb"[^\n]{1,200}?([0-9a-f]{64})")
_TAIL = 1 << 20
"""Bytes at a file's end in which its mark is looked for: more than a directory of parts takes."""
_PIECE = 1 << 20
"""Bytes that are read at once."""
_LOCAL, _ENTRY = b"PK\x03\x04", b"PK\x01\x02"
"""What a part of an archive begins with, and its entry in the directory."""


def page(data: bytes) -> bytes:
    """A page with its mark."""
    blank = data + _COMMENT.encode()
    return _marked(blank, sha256(blank).hexdigest(), archive=False)


def seal(file: BinaryIO) -> None:
    """Put its digest into an archive that holds the mark with ``BLANK``. It may be larger than
    memory: only its end is held."""
    start, end = _end_of(file)
    sealed = _marked(end, _digest(file, start, end), archive=True)
    file.seek(start)
    file.write(sealed)


def untouched(file: BinaryIO) -> bool:
    """Whether a file was written by us and is as it was written."""
    start, end = _end_of(file)
    file.seek(0)
    archive = file.read(len(_LOCAL)) == _LOCAL
    blank = _marked(end, BLANK, archive)
    return blank != end and _marked(end, _digest(file, start, blank), archive) == end


def _end_of(file: BinaryIO) -> tuple[int, bytes]:
    """Where a file's last bytes begin, and these."""
    start = max(0, file.seek(0, os.SEEK_END) - _TAIL)
    file.seek(start)
    return start, file.read()


def _digest(file: BinaryIO, start: int, end: bytes) -> str:
    """The digest of a file up to ``start`` and of what is taken for its end."""
    found = sha256()
    file.seek(0)
    while start > 0 and (piece := file.read(min(start, _PIECE))):
        found.update(piece)
        start -= len(piece)
    found.update(end)
    return found.hexdigest()


def _marked(end: bytes, digest: str, archive: bool) -> bytes:
    """The end of a file with this digest in the last mark; as it is where it has none."""
    found = _MARK.match(end, max(0, end.rfind(PROPERTY.encode())))
    if found is None:
        return end
    made = bytearray(end)
    made[found.start(1) : found.end(1)] = digest.encode()
    if archive:
        head, entry = end.rfind(_LOCAL, 0, found.start()), end.rfind(_ENTRY)
        size, name, extra = (
            int.from_bytes(end[head + at : head + at + width], "little")
            for at, width in ((18, 4), (26, 2), (28, 2))
        )
        begin = head + 30 + name + extra
        checksum = zlib.crc32(made[begin : begin + size]).to_bytes(4, "little")
        for at in (head + 14, entry + 16):
            made[at : at + 4] = checksum
    return bytes(made)
