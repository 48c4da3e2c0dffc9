"""A workbook from outside, in either of the two open formats."""

from __future__ import annotations

from pathlib import Path

from reportgen.returned import ods, xlsx
from reportgen.returned.archive import Archive, refuse
from reportgen.returned.cells import Workbook


def read(path: Path, notes: bool = False) -> Workbook:
    """The sheets with their cells, of an Office file with the comments on these, where ``notes``
    are asked for. Raises :class:`~reportgen.read.place.Refusal` for what is no
    workbook, or one that is not read; ``OSError`` for what the system refuses."""
    with Archive(path) as archive:
        if "[Content_Types].xml" in archive:
            return xlsx.read(archive, notes)
        if "content.xml" in archive:
            return ods.read(archive)
    raise refuse("this is no workbook in a format that is read here (.xlsx or .ods)")
