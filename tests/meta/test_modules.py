"""Rooms are small, and every folder opens with its map."""

from __future__ import annotations

import ast
import re
import statistics
import tomllib
from pathlib import Path

import reportgen

ROOT = Path(reportgen.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))
LONGEST = 300
MEDIAN = 130


def lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def shown(path: Path) -> str:
    return str(path.relative_to(ROOT))


def test_each_module_is_read_in_one_sitting() -> None:
    # Past 300 lines, ask what second thing it is doing.
    assert {shown(path): lines(path) for path in MODULES if lines(path) > LONGEST} == {}


def test_most_are_much_shorter() -> None:
    assert statistics.median(map(lines, MODULES)) <= MEDIAN


def test_each_module_says_what_it_is() -> None:
    def said(path: Path) -> str:
        return ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""

    assert [shown(path) for path in MODULES if not re.match(r"[^.]+[.:]", said(path))] == []


def test_each_folder_opens_with_its_map() -> None:
    left_out: dict[str, set[str]] = {}
    for folder in {path.parent for path in MODULES} - {ROOT}:
        text = ast.get_docstring(ast.parse((folder / "__init__.py").read_text(encoding="utf-8")))
        assert text is not None and "Reading order" in text, folder.name
        files = {path.name for path in folder.glob("*.py")} - {"__init__.py"}
        named = set(re.findall(r"``(\w+\.py)``", text))
        assert named <= files, f"{folder.name} names files that are not there"
        # "then a file a sheet" names the rest by what they are.
        told = " ".join(text.split())
        if not re.search(r"then a file a \w+|the modules it calls in its order", told):
            left_out[folder.name] = files - named
    assert {name: files for name, files in left_out.items() if files} == {}


def test_the_guide_gives_each_dependency_its_reason_and_each_folder_its_line() -> None:
    guide = (ROOT.parent / "DEVELOPERS.md").read_text(encoding="utf-8").lower()
    project = tomllib.loads((ROOT.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = [re.split(r"[\s;<>=~\[]", each)[0].lower() for each in wanted]
    names += [path.name for path in ROOT.iterdir() if (path / "__init__.py").exists()]
    assert [name for name in names if not re.search(rf"\b{re.escape(name)}\b", guide)] == []
