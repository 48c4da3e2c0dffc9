"""The mark by which a file tells that nobody has changed it since it was written.

A workbook holds a digest of all its bytes in a custom property, a page in a comment at its end;
where the digest itself stands, and in the checksums that follow from it, zeros are counted. So
whatever is changed anywhere in the file, or put around it, no longer fits; a file without the mark
was not written by us.
"""

from __future__ import annotations

import re
import zlib
from hashlib import sha256

PROPERTY = "reportgen digest"
PART = "docProps/custom.xml"
"""The part of a workbook that holds the mark: the last of all, and not compressed."""
BLANK = "0" * 64
"""What stands for the digest until the rest is written."""

_COMMENT = f"\n<!-- {PROPERTY} {BLANK} -->\n"
_MARK = re.compile(PROPERTY.encode() + rb"[^\n]{1,200}?([0-9a-f]{64})")
_LOCAL, _ENTRY = b"PK\x03\x04", b"PK\x01\x02"
"""What a part of an archive begins with, and its entry in the directory."""


def page(data: bytes) -> bytes:
    """A page with its mark."""
    return sealed(data + _COMMENT.encode())


def sealed(data: bytes) -> bytes:
    """The file, which holds the mark with ``BLANK``, with its digest."""
    return _marked(data, sha256(data).hexdigest())


def untouched(data: bytes) -> bool:
    """Whether a file was written by us and is as it was written."""
    blank = _marked(data, BLANK)
    return blank != data and sealed(blank) == data


def _marked(data: bytes, digest: str) -> bytes:
    """The file with this digest in the last mark, as it is where it has none."""
    found = _MARK.match(data, max(0, data.rfind(PROPERTY.encode())))
    if found is None:
        return data
    made = bytearray(data)
    made[found.start(1) : found.end(1)] = digest.encode()
    if data.startswith(_LOCAL):
        head, entry = data.rfind(_LOCAL, 0, found.start()), data.rfind(_ENTRY)
        size, name, extra = (
            int.from_bytes(data[head + at : head + at + width], "little")
            for at, width in ((18, 4), (26, 2), (28, 2))
        )
        begin = head + 30 + name + extra
        checksum = zlib.crc32(made[begin : begin + size]).to_bytes(4, "little")
        for at in (head + 14, entry + 16):
            made[at : at + 4] = checksum
    return bytes(made)
