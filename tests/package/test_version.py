"""The version is said alike wherever it is said, and what it changed is written down."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from owed import owed

ROOT = Path(__file__).parents[2]
HEADING = re.compile(r"^## (\d+\.\d+\.\d+) \((not released|\d{4}-\d{2}-\d{2})\)$", re.MULTILINE)


def test_the_first_of_the_changes_is_this_version_and_has_its_day() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    changes = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert len(HEADING.findall(changes)) == changes.count("\n## ")
    version, day = HEADING.findall(changes)[0]
    assert version == project["version"]
    if day == "not released":
        owed(f"CHANGELOG.md: the day of {version}")


def test_versions_go_down_the_page_and_each_tells_of_numbers_that_moved() -> None:
    changes = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    versions = [tuple(map(int, each.split("."))) for each, _ in HEADING.findall(changes)]
    assert versions == sorted(set(versions), reverse=True)
    first = re.split(r"^## ", changes, flags=re.MULTILINE)[1]
    moved = first.partition("Numbers that moved:\n")[2].partition("Other changes:")[0]
    if not moved.strip():
        owed("CHANGELOG.md: the numbers that moved, or 'none'")
