"""The seasons that are rendered: the samples, one that asks every question, two made up."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from cli.seasons import run
from samples.season import NAMES, ROOT
from seasons import sample_seasons
from trade import rich

from reportgen.algebra.numbers import Numbers
from reportgen.model.season import Season
from reportgen.program import read

LOCALES = {"windrow-lane": "en-US", "colline": "fr-FR", "every question": "en-GB",
           "made up 0": "de-CH", "made up 1": "en-US"}  # fmt: skip
"""Each season, and the place whose way of writing it is shown in."""


@dataclass(frozen=True)
class Rendered:
    """A season, and what the commands made of it."""

    season: Season
    numbers: Numbers
    locale: str
    page: str
    sheets: dict[str, str]
    """By product."""
    labels: str
    """Empty where no pack is on hand."""
    figures: list[str]
    data: dict[str, Any]
    check: list[str]
    workbook: bytes


@cache
def of(name: str) -> Rendered:
    """A season by its name."""
    with TemporaryDirectory() as folder:
        place = Path(folder) / "season"
        if name in NAMES:
            shutil.copytree(ROOT / "samples" / name, place)
        elif name.startswith("made up"):
            sample_seasons(2, 41, "medium")[int(name[-1])].write(place)
        else:
            rich.reading(place)
        with (place / "season.yaml").open("a", encoding="utf-8") as file:
            file.write(f"\nlocale: {LOCALES[name]}\n")
        return _rendered(place, Path(folder), LOCALES[name])


def _rendered(place: Path, out: Path, locale: str) -> Rendered:
    done = read(place)
    assert done.season is not None and done.numbers is not None, done.problems
    assert run("page", place, "-o", out / "page.html").exit_code == 0
    assert run("build", place, "-o", out / "season.xlsx").exit_code == 0
    products = [str(each) for each in done.numbers.cells["products"]["key"]]
    for each in products:
        assert run("sheet", place, each, "-o", out).exit_code == 0
    labels = out / "labels.html"
    run("labels", place, "--doubtful", "--least", "6", "-o", labels)
    return Rendered(
        done.season,
        done.numbers,
        locale,
        (out / "page.html").read_text("utf-8"),
        {each: (out / f"{each}.html").read_text("utf-8") for each in products},
        labels.read_text("utf-8") if labels.exists() else "",
        run("figures", place).stdout.splitlines(),
        json.loads(run("figures", place, "--json").stdout),
        run("check", place, "--all").stdout.splitlines(),
        (out / "season.xlsx").read_bytes(),
    )
