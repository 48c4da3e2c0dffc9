"""What the gate's tools are pinned by: each package exactly, those that others bring included."""

from __future__ import annotations

import json
import re
from pathlib import Path

TOOLS = Path(__file__).parents[2] / "tools"


def test_what_npm_installs_is_known_by_version_and_digest_and_not_by_its_registry() -> None:
    wanted = json.loads((TOOLS / "npm" / "package.json").read_text(encoding="utf-8"))
    text = (TOOLS / "npm" / "package-lock.json").read_text(encoding="utf-8")
    root, *packages = json.loads(text)["packages"].items()
    assert root[0] == "" and len(packages) > 100
    for name, each in packages:
        assert re.fullmatch(r"sha512-[\w+/]+=*", each["integrity"]), name
        assert re.fullmatch(r"\d+\.\d+\.\d+(-[\w.]+)?", each["version"]), name
        assert "resolved" not in each, name
    locked = dict(packages)
    for kind in ("dependencies", "optionalDependencies"):
        assert root[1][kind] == wanted[kind]
        for name, version in wanted[kind].items():
            assert locked[f"node_modules/{name}"]["version"] == version


def test_what_pip_installs_is_known_by_version() -> None:
    lines = (TOOLS / "pinned.txt").read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("#") and len(lines) > 50
    assert [line for line in lines[1:] if not re.fullmatch(r"[\w.-]+==[\w.+!-]+", line)] == []
