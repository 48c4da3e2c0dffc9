"""Who may import whom: the design's sentences, kept true."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import reportgen

ROOT = Path(reportgen.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))

ALONE = {"yaml": "read", "openpyxl": "write", "jinja2": "write", "pint": "units", "click": "cli",
         "segno": "labels", "defusedxml": "returned"}  # fmt: skip
"""Packages from outside, and the one folder that knows each."""

MAY_IMPORT = {
    "units": set(),
    "read": {"units", "marks"},
    "model": {"read", "units", "algebra"},
    "algebra": {"units"},
    "trade": {"algebra", "model", "units"},
    "layout": {"algebra", "units"},
    "pen": {"read"},
    "returned": {"read", "units"},
    "edits": {"pen", "returned", "read", "model", "layout", "algebra", "units"},
    "costing_home.py": {"edits", "handout", "returned", "read", "model", "trade", "algebra"},
    "homecoming.py": {
        "costing_home",
        "program",
        "edits",
        "returned",
        "read",
        "model",
        "trade",
        "algebra",
    },
    "write": {"layout", "algebra", "clock", "marks"},
    "sheets": {"trade", "algebra", "layout"},
    "report": {"trade", "algebra", "model", "units", "read", "layout"},
    "handout": {"report", "sheets", "trade", "algebra", "model", "units", "texts", "layout"},
    "labels": {"report", "algebra", "model", "units", "read", "write", "marks"},
    "next": {"edits", "pen", "report", "trade", "read", "model", "algebra", "units"},
    "past": {"sheets", "trade", "algebra", "model", "units", "read", "layout"},
    "texts.py": {"algebra", "read"},
    "program.py": {
        "units",
        "read",
        "model",
        "algebra",
        "trade",
        "sheets",
        "past",
        "texts",
        "layout",
        "write",
        "clock",
        "edits",
    },
    "cli": {
        "homecoming",
        "costing_home",
        "edits",
        "program",
        "past",
        "report",
        "handout",
        "labels",
        "next",
        "model",
        "read",
        "sheets",
        "write",
        "algebra",
        "stop",
        "marks",
    },
    "__main__.py": {"cli", "stop"},
    "stop.py": set(),
    "clock.py": set(),
    "marks.py": set(),
    "__init__.py": set(),
}
"""Folders in the order of the data, and what of the package each may import."""

ONLY = {
    ("program.py", "units"): {"reportgen.units.days"},
    ("write", "algebra"): {"reportgen.algebra.places"},
    ("write", "layout"): {
        "reportgen.layout.page",
        "reportgen.layout.look",
        "reportgen.layout.heights",
        "reportgen.layout.paging",
    },
    ("model", "algebra"): {"reportgen.algebra.inputs"},
    ("labels", "write"): {"reportgen.write.html"},
    ("report", "read"): {"reportgen.read.problem"},
    ("past", "read"): {"reportgen.read.problem"},
    ("texts.py", "read"): {"reportgen.read.files", "reportgen.read.nodes"},
    ("report", "layout"): {"reportgen.layout.formats"},
    ("next", "edits"): {"reportgen.edits.written"},
    ("next", "report"): {"reportgen.report.basis"},
    ("cli", "sheets"): {"reportgen.sheets.headings"},
    ("sheets", "layout"): {
        "reportgen.layout.blocks",
        "reportgen.layout.lists",
        "reportgen.layout.page",
    },
}
"""Where a folder may import some modules of another, and no more."""


def imports(path: Path) -> Iterator[str]:
    """Every module that a file imports, inside functions too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert not node.level, f"{path}: imports are absolute"
            assert node.module is not None
            folder = ROOT.parent / node.module.replace(".", "/")
            names = [f"{node.module}.{alias.name}" for alias in node.names]
            yield from (names if folder.is_dir() else [node.module])
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def home(path: Path) -> str:
    return path.relative_to(ROOT).parts[0]


def faults(path: Path) -> Iterator[str]:
    """What a module imports and may not."""
    here = home(path)
    for module in imports(path):
        top, *rest = module.split(".")
        if top in ALONE and here != ALONE[top]:
            yield f"only {ALONE[top]} knows {top}"
        if top == "reportgen" and rest and rest[0] != here:
            some = ONLY.get((here, rest[0]))
            if rest[0] not in MAY_IMPORT[here] or (some is not None and module not in some):
                yield f"{here} may not import {module}"


def test_each_module_imports_only_what_its_folder_may() -> None:
    found = {str(path.relative_to(ROOT)): list(faults(path)) for path in MODULES}
    assert {path: said for path, said in found.items() if said} == {}


def test_the_rules_are_about_what_is_there() -> None:
    used = {module.split(".")[0] for path in MODULES for module in imports(path)}
    assert {"yaml", "openpyxl", "pint", "click"} <= used
    folders = {home(path) for path in MODULES}
    assert folders == set(MAY_IMPORT)


FOOD = ("lots", "packs", "water", "freeze-dr", "dryer", "recipe", "product", "container")


def test_the_engine_knows_nothing_of_food_and_the_trade_nothing_of_cells() -> None:
    for folder, words in (
        *((each, FOOD) for each in ("algebra", "layout", "write", "units")),
        ("trade", ("INDEX(", "SUMIFS", "COUNT(", "openpyxl", "MATCH(")),
    ):
        for path in (ROOT / folder).rglob("*.py"):
            code = _without_docstrings(path)
            found = [word for word in words if re.search(rf"\b{re.escape(word)}", code)]
            assert found == [], f"{path.name} speaks of {found}"


def _without_docstrings(path: Path) -> str:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list):
            node.body = [  # type: ignore[attr-defined]
                each
                for each in body
                if not (isinstance(each, ast.Expr) and isinstance(each.value, ast.Constant))
            ] or [ast.Pass()]
    return ast.unparse(tree)
