"""Faults written by hand, in any file of the program: each is put into a copy of the tree, the
tests that should notice are run, and it is taken out again.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from mutants.by_hand import FAULTS, Fault

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("reportgen", "recipes", "templates", "samples", "tests", "pyproject.toml", "README.md")


def try_by_hand(words: list[str]) -> bool:
    """Try the faults whose names hold all the words; print who caught each. Whether all were."""
    chosen = [fault for fault in FAULTS if all(word in fault.name for word in words)]
    missed = 0
    with tempfile.TemporaryDirectory(prefix="mutations-") as folder:
        tree = Path(folder)
        for name in COPIED:
            _copy(ROOT / name, tree / name)
        found = _python(["-c", "import reportgen; print(reportgen.__file__)"], tree)
        assert Path(found.strip()).is_relative_to(tree), f"not the copy is tested but {found}"
        for fault in chosen:
            caught = _try(fault, tree)
            missed += caught is None
            print(f"{'NOT CAUGHT' if caught is None else 'caught    '}  {fault.name}", flush=True)
            if caught:
                print(f"            by {caught}", flush=True)
    print(f"{len(chosen) - missed} of {len(chosen)} caught")
    return not missed


def _copy(source: Path, target: Path) -> None:
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__", ".*"))
    elif source.exists():
        shutil.copyfile(source, target)


def _try(fault: Fault, tree: Path) -> str | None:
    """The first test that fails with the fault in place; None where all pass."""
    path = tree / fault.file
    sound = path.read_text(encoding="utf-8")
    if sound.count(fault.old) != 1:
        raise SystemExit(
            f"{fault.name}: {fault.old!r} stands {sound.count(fault.old)} times in "
            f"{fault.file}; correct this list"
        )
    path.write_text(sound.replace(fault.old, fault.new), encoding="utf-8")
    try:
        targets = [each for each in fault.tests.split() if (tree / each).exists()]
        said = _pytest(targets, tree)
    finally:
        path.write_text(sound, encoding="utf-8")
    found = re.search(r"^(FAILED|ERROR) (\S+::\S+)", said, re.MULTILINE)
    if found is None and " passed" not in said:
        # A file that does not load catches whatever is wrong in it: that says nothing of the tests.
        print(f"DOES NOT LOAD  {fault.name}:\n{said[-1500:]}")
    return found[2] if found else None


def _pytest(targets: list[str], tree: Path) -> str:
    return _python(["-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *targets], tree)


def _python(arguments: list[str], tree: Path) -> str:
    # The copy comes first on the path, before the package that is installed. The same moment in
    # each file's time would let Python take the old bytecode for the new, so none is written.
    environment = os.environ | {"PYTHONPATH": str(tree), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [sys.executable, *arguments],
        cwd=tree, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.stdout + done.stderr
