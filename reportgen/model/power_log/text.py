"""The text of a power log, in whatever encoding the meter's program saved it."""

from __future__ import annotations

from codecs import getincrementaldecoder
from pathlib import Path
from typing import TextIO

from reportgen.read.problem import Place, Problem

LARGEST = 400_000_000
"""Bytes of one log; a reading a second for two months takes as much."""

_BOMS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


def open_log(path: Path, name: str) -> tuple[TextIO | None, Problem | None]:
    """The log opened for reading, or why it cannot be."""
    try:
        if path.stat().st_size > LARGEST:
            return None, Problem(
                Place(name),
                f"the log is larger than {LARGEST // 1_000_000} MB",
                "the readings of a season at most",
                "cut it into one file a run",
            )
        with path.open("rb") as file:
            head = file.read(4096)
    except OSError as error:
        return None, Problem(
            Place(name),
            f"the log cannot be read ({(error.strerror or 'unknown reason').lower()})",
            "a file that you may open",
            "check that you have the right to read it",
        )
    encoding = _encoding(head)
    if encoding is None:
        return None, Problem(
            Place(name),
            "this is a spreadsheet or another file that is no text",
            "a CSV file, with a line for each reading",
            "open it in a spreadsheet and save it as CSV",
        )
    # Only the header's words and numbers matter: a letter that does not decode does no harm.
    return path.open(encoding=encoding, errors="replace", newline=""), None


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
