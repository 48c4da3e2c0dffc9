"""Small workbooks whose caches are what a test wants them to be, wrong ones included."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from pathlib import Path

import xlsxwriter

from engines.cells import Fault, Value

Content = Value | tuple[str, Value]
"""A constant, or a formula (without ``=``) with the value to cache."""


def write(path: Path, contents: Mapping[str, Content], sheet: str = "Sheet") -> Path:
    """A workbook of one sheet, its cells by their address."""
    book = xlsxwriter.Workbook(path)
    page = book.add_worksheet(sheet)
    for ref, content in contents.items():
        if isinstance(content, tuple):
            formula, value = content
            cached = str(value) if isinstance(value, Fault) else value
            page.write_formula(ref, f"={formula}", None, cached)
        else:
            page.write(ref, content)
    book.close()
    return path


def rewritten(path: Path, old: bytes, new: bytes) -> Path:
    """A copy of the workbook beside it, with ``old`` replaced in all its parts."""
    copy = path.with_stem(f"{path.stem}-rewritten")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(copy, "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(old, new))
    return copy
