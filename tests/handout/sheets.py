"""Costing sheets to look at: of every product of the samples, and of made-up seasons."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.seasons import run
from samples.season import NAMES, ROOT

from handout.seasons import write

ALL = [
    (name, product)
    for name, products in {
        "windrow-lane": (
            "green-peas", "parsley", "peach-slices", "sweet-corn", "pear-slices", "apple-rings",
            "squash-lentil-soup",
        ),
        "colline": ("mushrooms", "chives", "apricot-halves", "tomatoes", "plum-halves"),
        "partial": ("peach-slices", "plum-halves", "apple-rings", "pear-slices", "kale"),
        "hostile": ("odd",),
        "secretive": ("pear-slices", "plum-halves"),
    }.items()
    for product in products
]  # fmt: skip
"""Every product of every season here; that none is left out is tested."""
LOCALES = {"colline": "fr-FR"}
"""The samples' sheets are looked at in English, and those of this one in French, too."""


@dataclass(frozen=True)
class Made:
    """What the command wrote, and what it said."""

    page: bytes
    workbook: bytes
    said: str


def place(name: str, folder: Path, locale: str = "") -> Path:
    """A season's files below a folder."""
    target = folder / name
    if name in NAMES:
        shutil.copytree(ROOT / "samples" / name, target)
    else:
        write(name, target)
    if locale:
        with (target / "season.yaml").open("a", encoding="utf-8") as file:
            file.write(f"\nlocale: {locale}\n")
    return target


@cache
def made(name: str, product: str, locale: str = "", *words: str) -> Made:
    """The costing sheet of a product."""
    with TemporaryDirectory() as folder:
        season = place(name, Path(folder), locale)
        out = Path(folder) / "out"
        out.mkdir()
        done = run("sheet", season, product, "-o", out, *words)
        assert done.exit_code == 0, done.output
        assert sorted(each.suffix for each in out.iterdir()) == [".html", ".xlsx"]
        page, workbook = (out / f"{product}{end}" for end in (".html", ".xlsx"))
        return Made(page.read_bytes(), workbook.read_bytes(), done.stdout)
