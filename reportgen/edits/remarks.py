"""Comments that somebody put on cells of a workbook: they cannot be taken home, and a build would
lose them."""

from __future__ import annotations

from reportgen.edits.found import folded
from reportgen.returned.cells import Workbook


def remarks(edited: Workbook, anew: Workbook) -> list[tuple[str, str]]:
    """Cells with a comment that the workbook, built anew, has nowhere; and what it says."""
    notes = {folded(text) for _, _, text in anew.notes}
    return [
        (f"{sheet}!{cell}", text)
        for sheet, cell, text in edited.notes
        if text.strip() and folded(text) not in notes
    ]
