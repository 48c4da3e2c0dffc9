"""Prefixes of elements as most programs write them.

By the standard any prefix will do. Common readers look for ``xdr:wsDr`` all the same: without it
one of them fails on every workbook with a chart.
"""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree import ElementTree

_PREFIXES = {
    "xdr": "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "c": "http://schemas.openxmlformats.org/drawingml/2006/chart",
    "r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
}
for _prefix, _namespace in _PREFIXES.items():
    ElementTree.register_namespace(_prefix, _namespace)

_DRAWN = ("xl/drawings/drawing", "xl/charts/chart")
_HEAD = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'


def with_usual_prefixes(parts: Mapping[str, bytes]) -> dict[str, bytes]:
    """The parts, charts and where they stand with the prefixes that common readers expect."""
    return {
        name: _HEAD + ElementTree.tostring(ElementTree.fromstring(data))
        if name.startswith(_DRAWN)
        else data
        for name, data in parts.items()
    }
