"""The text of a power log, in whatever encoding the meter's program saved it."""

from __future__ import annotations

import os
from codecs import getincrementaldecoder
from io import TextIOWrapper
from pathlib import Path
from typing import TextIO

from reportgen.read.opened import opened
from reportgen.read.problem import Place, Problem, Refusal

LARGEST = 400_000_000
"""Bytes of one log; a reading a second for two months takes as much."""

_BOMS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


def open_log(path: Path, name: str) -> tuple[TextIO | None, Problem | None]:
    """The log opened for reading, or why it cannot be."""
    try:
        file = opened(path)
    except Refusal as refusal:
        return None, Problem(Place(name), refusal.what, refusal.expected, refusal.do)
    if os.fstat(file.fileno()).st_size > LARGEST:
        file.close()
        return None, Problem(
            Place(name),
            f"the log is larger than {LARGEST // 1_000_000} MB",
            "the readings of a season at most",
            "cut it into one file a run",
        )
    encoding = _encoding(file.read(4096))
    file.seek(0)
    if encoding is None:
        file.close()
        return None, Problem(
            Place(name),
            "this is a spreadsheet or another file that is no text",
            "a CSV file, with a line for each reading",
            "open it in a spreadsheet and save it as CSV",
        )
    # Only the header's words and numbers matter: a letter that does not decode does no harm.
    return TextIOWrapper(file, encoding=encoding, errors="replace", newline=""), None


def _encoding(head: bytes) -> str | None:
    for mark, encoding in _BOMS:
        if head.startswith(mark):
            return encoding
    if b"\x00" not in head:
        if head.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
            return None
        try:
            getincrementaldecoder("utf-8")().decode(head)  # the last letter may be cut
        except UnicodeDecodeError:
            return "cp1252"
        return "utf-8"
    # UTF-16 without its mark: every other byte of plain letters and digits is zero.
    for first, encoding in ((0, "utf-16-be"), (1, "utf-16-le")):
        if set(head[first::2]) == {0} and 0 not in head[1 - first :: 2]:
            return encoding
    return None
