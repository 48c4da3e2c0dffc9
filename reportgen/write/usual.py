"""Names of parts and prefixes of elements as most programs write them.

By the standard a reader follows the relations between parts, and any prefix will do. Common readers
look for ``xl/comments1.xml`` and ``xdr:wsDr`` all the same: without them one of them fails on every
workbook with a chart, another on every one with notes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from xml.etree import ElementTree

_PREFIXES = {
    "xdr": "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "c": "http://schemas.openxmlformats.org/drawingml/2006/chart",
    "r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
    "v": "urn:schemas-microsoft-com:vml",
    "o": "urn:schemas-microsoft-com:office:office",
    "x": "urn:schemas-microsoft-com:office:excel",
}
for _prefix, _namespace in _PREFIXES.items():
    ElementTree.register_namespace(_prefix, _namespace)

_DRAWN = ("xl/drawings/", "xl/charts/")
_REFERRING = ("[Content_Types].xml", "xl/worksheets/_rels/")
_RENAMED = (
    (re.compile(r"comments/comment(\d+)\.xml"), r"comments\1.xml"),
    (re.compile(r"drawings/commentsDrawing(\d+)\.vml"), r"drawings/vmlDrawing\1.vml"),
)
_HEAD = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'


def with_usual_names(parts: Mapping[str, bytes]) -> dict[str, bytes]:
    """The parts under the names, and with the prefixes, that common readers expect."""
    return {_renamed(name): _rewritten(name, data) for name, data in parts.items()}


def _rewritten(name: str, data: bytes) -> bytes:
    if name.startswith(_REFERRING):
        return _renamed(data.decode()).encode()
    if name.startswith(_DRAWN) and not name.endswith(".rels"):
        return _prefixed(data)
    return data


@lru_cache(maxsize=8)
def _prefixed(data: bytes) -> bytes:
    """The comments of all sheets are drawn alike at first (``comments.py``)."""
    return _HEAD + ElementTree.tostring(ElementTree.fromstring(data))


def _renamed(text: str) -> str:
    for pattern, usual in _RENAMED:
        text = pattern.sub(usual, text)
    return text
