"""The text of a season's files."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from reportgen.read.nodes import Node
from reportgen.read.opened import contents
from reportgen.read.problem import Place, Problem, Refusal
from reportgen.read.yaml import parse

LARGEST = 5_000_000
"""Bytes of one file; 2,500 runs take about a megabyte."""


def read(path: Path, name: str, root: Path | None = None) -> tuple[Node | None, list[Problem]]:
    """A file's nodes; None with an error where it cannot be read, with a caution where it is
    empty.
    """
    text, problem = text_of(path, name, root)
    if problem is not None:
        return None, [problem]
    node, problems = parse(text, name)
    if node is None and not problems:
        problems = [
            Problem(
                Place(name),
                "the file holds nothing yet",
                "'key: value' lines",
                "fill it in, or delete it",
                "caution",
            )
        ]
    return node, problems


def text_of(path: Path, name: str, root: Path | None = None) -> tuple[str, Problem | None]:
    """A file's text, or why there is none; with ``root``, of a file inside that folder."""
    try:
        data = contents(path, LARGEST, root)
    except Refusal as refusal:
        return "", Problem(Place(name), refusal.what, refusal.expected, refusal.do)
    if data is None:
        return "", Problem(
            Place(name),
            f"the file is larger than {LARGEST // 1_000_000} MB",
            "batches in files of a few hundred runs at most",
            "split it into several files",
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "", Problem(
            Place(name),
            "the file is saved as UTF-16",
            "UTF-8",
            "save it again with the encoding UTF-8",
        )
    if b"\x00" in data:
        line = data.count(b"\n", 0, data.index(b"\x00")) + 1
        return "", Problem(
            Place(name),
            f"this is no text file (a zero byte on line {line})",
            "YAML, which is plain text",
            "move the file out of the season, or save it as plain text",
        )
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n"), None
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return "", Problem(
            Place(name),
            f"the file is not in UTF-8 (first seen on line {line})",
            "text in UTF-8",
            "save it again with the encoding UTF-8",
        )


def lines_of(*folders: Path) -> Callable[[str], list[str]]:
    """A function that gives the lines of a file that a problem names; none where it has gone.

    The name is looked for in each of the folders, the first that has it counts.
    """
    known: dict[str, list[str]] = {}

    def lines(name: str) -> list[str]:
        if name not in known:
            known[name] = []
            for folder in folders:
                if os.path.isfile(folder / name):
                    text, _ = text_of(folder / name, name)
                    known[name] = text.replace("\r", "\n").split("\n")
                    break
        return known[name]

    return lines
