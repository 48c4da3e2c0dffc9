"""Which files make a season; what looks as if it were one of them and is not read is named."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass, field
from pathlib import Path

from reportgen.read.opened import stay_inside
from reportgen.read.problem import Place, Problem, Refusal

OLD, NEW = ".before", ".taking"
"""What a file's name ends with that keeps what was replaced, or that is on its way in."""
_ENDINGS = (".yaml", ".yml")
_LIKE = re.compile(r"\.ya?ml(\W|\Z)", re.I)
"""What a name has that was meant for YAML: ``x.YAML``, ``x.yaml.txt``, ``x.yml (copy)``."""
_READ = ("batches", "recipes")
"""The folders of a season that are read."""


@dataclass
class Files:
    """The files of a season."""

    folder: Path
    season: Path | None = None
    batches: list[Path] = field(default_factory=list)
    recipes: Path | None = None
    """The season's own folder of recipes, where it has one."""
    root: Path | None = None
    """The folder that the season's file must not lead out of; none where it was named itself."""

    def name(self, path: Path) -> str:
        """The path as messages show it."""
        return path.relative_to(self.folder).as_posix()


def find(path: Path) -> tuple[Files, list[Problem]]:
    """What belongs to the season at ``path``: a folder, or a single file that holds everything."""
    if os.path.exists(path) and not os.path.isdir(path):
        if path.name not in ("season.yaml", "season.yml"):
            found = Files(path.parent, path)
            return found, _recipes(found)
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
    files = Files(path, root=path)
    entries, problems = _listed(files, path)
    names = [each.name for each in entries]
    seasons = [name for name in names if name in ("season.yaml", "season.yml")]
    files.season = path / seasons[0] if seasons else None
    if len(seasons) == 2:
        problems.append(
            Problem(
                Place("season.yml"),
                "the folder has both season.yaml and season.yml",
                "one of them",
                "delete or rename the one that does not count",
            )
        )
    elif not seasons and not problems:
        problems.append(
            Problem(
                Place("season.yaml"),
                "this folder has no season.yaml",
                "the season's name, currency, rates and dryers in it",
                "name the season's folder, or begin one with: reportgen new DIR",
            )
        )
    for entry in entries:
        if entry.is_dir() and entry.name not in (*_READ, *seasons):
            problems += _unread_folder(files, path / entry.name)
        elif _LIKE.search(entry.name) and entry.name not in seasons:
            wanted = "season.yaml here, and batches in the folder batches"
            problems.append(_unread(entry.name, wanted, "move it to batches, or out of the season"))
    problems += _batches(files) + _recipes(files)
    return files, problems


def listed(folder: Path) -> list[Path]:
    """The YAML files right in a folder, in name order; none where it cannot be listed."""
    try:
        entries = [each for each in _entries(folder) if each.name.endswith(_ENDINGS)]
    except OSError:
        return []
    return [folder / each.name for each in entries if not each.is_dir()]


def _batches(files: Files) -> list[Problem]:
    """Find every YAML file below ``batches``; links to folders are not followed."""
    inside, problems = _folder(files, "batches")
    waiting = [inside] if inside else []
    while waiting:
        folder = waiting.pop()
        entries, wrong = _listed(files, folder)
        problems += wrong
        for entry in entries:
            here = folder / entry.name
            if entry.is_dir(follow_symlinks=False):
                waiting.append(here)
            elif entry.is_dir():
                problems.append(_unread(files.name(here), "a folder, not a link to one",
                                        "move the folder itself here"))  # fmt: skip
            elif entry.name.endswith(_ENDINGS):
                files.batches.append(here)
            elif _LIKE.search(entry.name):
                problems.append(_ending(files.name(here)))
    return problems


def _recipes(files: Files) -> list[Problem]:
    """Find the season's own recipes, all right in their folder."""
    files.recipes, problems = _folder(files, "recipes")
    if files.recipes:
        entries, wrong = _listed(files, files.recipes)
        problems += wrong
        for entry in entries:
            here = files.recipes / entry.name
            if entry.is_dir():
                problems += _unread_folder(files, here)
            elif _LIKE.search(entry.name) and not entry.name.endswith(_ENDINGS):
                problems.append(_ending(files.name(here)))
    return problems


def _folder(files: Files, name: str) -> tuple[Path | None, list[Problem]]:
    """A folder of the season, where it has one."""
    folder = files.folder / name
    if not os.path.lexists(folder):
        return None, []
    if not os.path.isdir(folder):
        return None, [
            Problem(
                Place(name),
                "this is no folder",
                f"a folder {name} with YAML files in it",
                f"make a folder {name}, and move the file into it under another name",
            )
        ]
    try:
        stay_inside(folder, files.folder)
    except Refusal as refusal:
        return None, [Problem(Place(name), refusal.what, "the folder itself", refusal.do)]
    return folder, []


def _listed(files: Files, folder: Path) -> tuple[list[os.DirEntry[str]], list[Problem]]:
    """What a folder holds, in name order; hidden files and editors' copies left out."""
    try:
        return _entries(folder), []
    except OSError as error:
        here = folder == files.folder
        name = os.path.basename(os.path.realpath(folder)) if here else files.name(folder)
        return [], [
            Problem(
                Place(name),
                f"the folder cannot be listed ({(error.strerror or 'unknown reason').lower()})",
                "a folder that you may open",
                "check that you have the right to read it",
            )
        ]


def _entries(folder: Path) -> list[os.DirEntry[str]]:
    with os.scandir(folder) as found:
        kept = [
            each
            for each in found
            if not each.name.startswith((".", "#")) and not each.name.endswith(("~", OLD, NEW))
        ]
    return sorted(kept, key=lambda each: each.name)


def _unread_folder(files: Files, folder: Path) -> list[Problem]:
    """A folder that is not read, where YAML files stand in it."""
    try:
        held = any(_LIKE.search(each.name) for each in _entries(folder))
    except OSError:
        return []
    wanted = "YAML files in the folders batches and recipes"
    do = "move them to batches, or out of the season"
    return [_unread(files.name(folder), wanted, do, "the files in this folder are")] if held else []


def _ending(name: str) -> Problem:
    return _unread(name, "a name that ends in .yaml", "rename it, as 2026-09-05-pears.yaml")


def _unread(name: str, expected: str, do: str, what: str = "this file is") -> Problem:
    return Problem(Place(name), f"{what} not read", expected, do, "caution")
