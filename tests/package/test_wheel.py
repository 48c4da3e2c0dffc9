"""The wheel holds all that the program needs, and works from any folder."""

from __future__ import annotations

import sys
import sysconfig
import venv
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from package.wheels import run
from reportgen.program import build

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def reportgen(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command as installed from the wheel, in an environment of its own.

    Its dependencies are read from the environment of the tests, by a line in a .pth file, after
    the environment's own packages.
    """
    folder = tmp_path_factory.mktemp("environment")
    venv.create(folder, with_pip=False)
    python = folder / "bin" / "python"
    scheme = {"base": str(folder), "platbase": str(folder)}
    packages = Path(sysconfig.get_path("purelib", "venv", scheme))
    here = sysconfig.get_path("purelib")
    done = run(
        sys.executable, "-m", "pip", "--python", python, "install", "--no-deps", "--no-index",
        "--disable-pip-version-check", wheel, cwd=folder,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    (packages / "dependencies.pth").write_text(f"{here}\n", encoding="utf-8")
    where = run(python, "-c", "import reportgen; print(reportgen.__file__)", cwd=folder)
    assert where.stdout.startswith(str(packages)), where.stdout + where.stderr
    return folder / "bin" / "reportgen"


def shipped(kind: str) -> Iterator[str]:
    """What the repository keeps in a folder of data, as paths in the wheel."""
    for path in sorted((ROOT / kind).rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts:
            yield f"reportgen/data/{path.relative_to(ROOT)}"


def test_templates_and_recipes_are_inside(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    expected = {*shipped("templates"), *shipped("recipes")}
    assert len(expected) > 20
    assert expected <= names
    assert not {name for name in names if name.startswith(("tests/", "samples/", "templates/"))}


def test_every_module_is_inside(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    modules = {str(path.relative_to(ROOT)) for path in (ROOT / "reportgen").rglob("*.py")}
    assert modules == {name for name in names if name.endswith(".py")}


def test_it_works_from_any_folder(reportgen: Path, tmp_path: Path) -> None:
    made = run(reportgen, "new", "my season", cwd=tmp_path)
    assert (made.returncode, made.stderr) == (0, "")
    checked = run(reportgen, "check", "my season", cwd=tmp_path)
    assert (checked.returncode, checked.stderr) == (0, "")
    assert "lots" in checked.stdout.splitlines()[0] and "Errors" not in checked.stdout
    built = run(reportgen, "build", "my season", "-o", "out.xlsx", cwd=tmp_path)
    assert built.returncode == 0, built.stderr
    assert (tmp_path / "out.xlsx").read_bytes().startswith(b"PK")


@pytest.mark.parametrize("name", ["windrow-lane", "colline"])
def test_it_builds_a_sample_byte_for_byte_as_the_tree_does(
    reportgen: Path, tmp_path: Path, name: str
) -> None:
    built = run(reportgen, "build", ROOT / "samples" / name, "-o", "out.xlsx", cwd=tmp_path)
    assert built.returncode == 0, built.stderr
    made, problems = build(ROOT / "samples" / name)
    assert made is not None, problems
    assert (tmp_path / "out.xlsx").read_bytes() == made
