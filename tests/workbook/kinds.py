"""Every kind of workbook that the program makes, as files: for tests that read all their cells."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.seasons import BATCH, SEASON, run
from handout.sheets import made as costing
from past.test_past import write as past_season
from samples.season import NAMES, ROOT
from seasons import sample_seasons
from texts.asked import kinds as in_language
from texts.asked import made as translated
from thorough import BEFORE_A_RELEASE, every

from reportgen.program import build

LANGUAGE = "fr-FR"
EMPTY = "season: Nothing yet\ncurrency: USD\nunits: {fresh: lb, dried: oz}\n"
_FOLDER = TemporaryDirectory(prefix="workbooks-")


def _fresh(name: str) -> Path:
    return Path(_FOLDER.name) / "seasons" / name


def _built(season: Path) -> bytes:
    data, problems = build(season)
    assert data is not None, problems
    return data


def _written(name: str, text: str) -> bytes:
    folder = _fresh(name)
    folder.mkdir(parents=True)
    (folder / "season.yaml").write_text(text, encoding="utf-8")
    return _built(folder if name == "empty" else folder / "season.yaml")


def _started() -> bytes:
    assert run("new", _fresh("starter")).exit_code == 0
    return _built(_fresh("starter"))


def _compared() -> bytes:
    seasons = [past_season(_fresh(f"past-{year}"), year) for year in (2025, 2024, 2023)]
    path = Path(_FOLDER.name) / "several.xlsx"
    assert run("build", *seasons, "-o", path).exit_code == 0
    return path.read_bytes()


def _large(runs: int) -> bytes:
    spec = importlib.util.spec_from_file_location("large", ROOT / "benchmarks" / "large.py")
    assert spec is not None and spec.loader is not None
    large = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(large)
    return _built(large.write(_fresh(f"of-{runs}"), runs))


def _made_up(number: int) -> bytes:
    size = "medium" if number else "small"
    return _built(sample_seasons(1, 50 + number, size)[0].write(_fresh(f"made-up-{number}")))


_MAKERS: dict[str, Callable[[], bytes]] = {
    "empty": lambda: _written("empty", EMPTY),
    "single file": lambda: _written("single", SEASON + BATCH),
    "starter": _started,
    **{name: lambda name=name: _built(ROOT / "samples" / name) for name in (*NAMES, "nine-gates")},
    "compared": _compared,
    "costing": lambda: costing("windrow-lane", "pear-slices").workbook,
    "costing with all": lambda: costing("colline", "chives", "", "--all").workbook,
    **{f"made up {n}": lambda n=n: _made_up(n) for n in range(4)},
    **{
        f"{kind.name} in {LANGUAGE}": lambda kind=kind: translated(kind, LANGUAGE)
        for kind in in_language(LANGUAGE)
    },
    "large": lambda: _large(250),
    "very large": lambda: _large(2500),
}  # type: ignore[misc]
LARGE, VERY_LARGE = "large", "very large"
_MANY = tuple(name for name in _MAKERS if name.startswith("made up") or " in " in name)
KINDS = tuple(
    name
    for name in _MAKERS
    if BEFORE_A_RELEASE or (name != VERY_LARGE and (name not in _MANY or name in every(3, _MANY)))
)
"""Those that are looked at in every change; the last takes a minute, and of those that are alike
some do."""


@cache
def workbook(name: str) -> Path:
    """The file of a kind, made once."""
    path = Path(_FOLDER.name) / f"{name}.xlsx"
    path.write_bytes(_MAKERS[name]())
    return path
