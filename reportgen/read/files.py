"""Which files make a season, and their text."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from reportgen.read.nodes import Node
from reportgen.read.problem import Place, Problem
from reportgen.read.yaml import parse

LARGEST = 5_000_000
"""Bytes of one file; 2,500 runs take about a megabyte."""

_ENDINGS = (".yaml", ".yml")


@dataclass
class Files:
    """The files of a season."""

    folder: Path
    season: Path | None = None
    batches: list[Path] = field(default_factory=list)
    recipes: Path | None = None
    """The season's own folder of recipes, where it has one."""

    def name(self, path: Path) -> str:
        """The path as messages show it."""
        return path.relative_to(self.folder).as_posix()


def find(path: Path) -> tuple[Files, list[Problem]]:
    """What belongs to the season at ``path``: a folder, or a single file that holds everything."""
    if _is_file(path):
        if path.name not in ("season.yaml", "season.yml"):
            return Files(path.parent, path, [], _recipes(path.parent)), []
        path = path.parent
    if not os.path.isdir(path):
        return Files(path), [
            Problem(
                Place(path.name or str(path)),
                "there is no such file or folder",
                "a season's folder, or its file",
                "check the name, or begin a season with: reportgen new " + (path.name or "DIR"),
            )
        ]
    found = [path / f"season{ending}" for ending in _ENDINGS]
    present = [each for each in found if each.is_file()]
    problems = []
    if not present:
        problems.append(
            Problem(
                Place("season.yaml"),
                "this folder has no season.yaml",
                "the season's name, currency, rates and dryers in it",
                "name the season's folder, or begin one with: reportgen new DIR",
            )
        )
    elif len(present) == 2:
        problems.append(
            Problem(
                Place("season.yml"),
                "the folder has both season.yaml and season.yml",
                "one of them",
                "delete or rename the one that does not count",
            )
        )
    problems += [
        Problem(
            Place(each.name),
            "this file is not read",
            "season.yaml here, and batches in the folder batches",
            "move it to batches, or out of the season",
            "caution",
        )
        for each in listed(path)
        if each not in found
    ]
    files = Files(path, present[0] if present else None, [], _recipes(path))
    files.batches = _below(path / "batches")
    return files, problems


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except OSError:  # a name longer than any file's
        return False


def _recipes(folder: Path) -> Path | None:
    return folder / "recipes" if (folder / "recipes").is_dir() else None


def _below(folder: Path) -> list[Path]:
    """Every YAML file below, hidden ones and editors' copies left out; links are not followed."""
    paths = []
    for where, folders, names in os.walk(folder):
        folders[:] = [each for each in folders if not each.startswith(".")]
        paths += [
            Path(where, name)
            for name in names
            if name.endswith(_ENDINGS) and not name.startswith((".", "#"))
        ]
    return paths


def listed(folder: Path) -> list[Path]:
    """The YAML files right in a folder, in name order."""
    return sorted(
        each
        for each in folder.iterdir()
        if each.name.endswith(_ENDINGS) and not each.name.startswith(".") and each.is_file()
    )


def read(path: Path, name: str) -> tuple[Node | None, list[Problem]]:
    """A file's nodes; None with an error where it cannot be read, with a caution where it is
    empty.
    """
    text, problem = text_of(path, name)
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


def text_of(path: Path, name: str) -> tuple[str, Problem | None]:
    """A file's text, or why there is none."""
    try:
        if path.stat().st_size > LARGEST:
            return "", Problem(
                Place(name),
                f"the file is larger than {LARGEST // 1_000_000} MB",
                "batches in files of a few hundred runs at most",
                "split it into several files",
            )
        data = path.read_bytes()
    except OSError as error:
        return "", Problem(
            Place(name),
            f"the file cannot be read ({(error.strerror or 'unknown reason').lower()})",
            "a file that you may open",
            "check that it is there and that you have the right to read it",
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
                if (folder / name).is_file():
                    text, _ = text_of(folder / name, name)
                    known[name] = text.replace("\r", "\n").split("\n")
                    break
        return known[name]

    return lines
