"""The mark by which a workbook tells that nobody has changed it since it was built.

A custom property holds a digest of all other parts of the file. Whoever saves the workbook again
writes other parts, and the digest no longer fits; a file without the mark was not built by us.
"""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

PROPERTY = "reportgen digest"
PART = "docProps/custom.xml"
BLANK = "0" * 64
"""What stands for the digest until all other parts are written."""
_LARGEST = 100_000
"""Bytes of the part with the properties; ours has a few hundred."""


def digest(parts: Iterable[zipfile.ZipInfo]) -> str:
    """One number for the content of all parts but the one that holds it."""
    found = sha256()
    for part in parts:
        if part.filename != PART:
            found.update(f"{part.filename}\0{part.CRC}\0{part.file_size}\n".encode())
    return found.hexdigest()


def untouched(path: Path) -> bool:
    """Whether the file is a workbook of ours, as it was built, or holds nothing at all."""
    try:
        if path.stat().st_size == 0:
            return True
        with zipfile.ZipFile(path) as archive:
            parts = archive.infolist()
            held = next((part for part in parts if part.filename == PART), None)
            if held is None or held.file_size > _LARGEST:
                return False
            return digest(parts).encode() in archive.read(held)
    except (OSError, ValueError, RuntimeError, zipfile.BadZipFile, zlib.error):
        return False
