"""What ``check`` lists as assumed: each kind once, the figure worked out with a pencil, and nothing
where all was weighed."""

from __future__ import annotations

import random
from pathlib import Path
from textwrap import dedent

import pytest
from seasons.make import make
from trade.small import HEAD, RECIPES

from cli.seasons import run
from reportgen.program import read
from reportgen.report.assumed import assumed, share_said

pytestmark = pytest.mark.seasons

WEIGHED = """
lots:
  - {id: t, product: turnip-cubes, price: 12 USD, weighed: 30 lb, prepped: 20 lb}
runs:
  - {id: r, started: 2025-06-02 08:00, duration: 20 h, energy: 8 kWh,
     loads: [{lot: t, wet: 10 lb, dry: 16 oz}]}
packs:
  - {id: P, product: turnip-cubes, date: 2025-06-04, container: tin, count: 2, net: 6 oz, from: [r]}
"""
GUESSED = """
lots:
  - {id: t, product: turnip-cubes, price: 12 USD, container: crate, count: 2}
  - {id: b, product: beet-cubes, price: 6 USD, weighed: 20 lb, prepped: ~12 lb}
runs:
  - {id: r, started: 2025-06-02 08:00, duration: 20 h, dry: 24 oz,
     loads: [{lot: t, wet: 5 lb}, {lot: b, wet: 4 lb}]}
packs:
  - {id: P, product: turnip-cubes, date: 2025-06-04, container: tin, net: about 6 oz, from: [r]}
uses:
  - {date: 2025-06-05, product: turnip-cubes, weight: rest, for: household}
"""


def write(folder: Path, text: str) -> Path:
    (folder / "recipes").mkdir(parents=True)
    for name, recipe in RECIPES.items():
        (folder / "recipes" / f"{name}.yaml").write_text(dedent(recipe))
    (folder / "season.yaml").write_text(dedent(HEAD) + text)
    return folder


def listed(folder: Path, text: str) -> list[str]:
    said = run("check", write(folder, text)).stdout
    _, found, tail = said.partition("\nAssumed")
    lines = tail.partition("\n\n")[0].splitlines()
    return [lines[0], *(each.partition(": ")[2] for each in lines[1:])] if found else []


def test_nothing_is_assumed_where_all_was_weighed(tmp_path: Path) -> None:
    assert listed(tmp_path / "s", WEIGHED) == []


def test_each_assumption_with_its_figure(tmp_path: Path) -> None:
    # Two crates of 20 lb; four fifths of 40 lb; 800 W for 20 h; 24 oz shared evenly, for 5 lb of
    # turnips hold 8 oz of solids and 4 lb of beets as much; 12 - 6 oz are left. Of produce 1.875
    # and 2, energy 4, upkeep 2 and a tin for 2 all but the tin.
    assert listed(tmp_path / "s", GUESSED) == [
        ": 83.2 % of the running cost rests on estimates",
        "lot t: 40.0 lb: weight by the containers' nominal weight",
        "lot t: 32.0 lb: prepped weight by the recipe's yield, and not less than what is accounted "
        "for",
        "lot b: 12.0 lb: prepped, weighed, written as about",
        "run r: 16.0 kWh: energy by the dryer's mean power",
        "load r/t: 12.0 oz: its share of what is left of the run's dry weight, by solids",
        "load r/b: 12.0 oz: its share of what is left of the run's dry weight, by solids",
        "pack P: 6.0 oz: net weight, written as about",
        "use use-1: 6.0 oz: all that was left, by the books: nobody weighed it",
    ]


def test_a_day_that_follows_from_another_record(tmp_path: Path) -> None:
    folder = write(tmp_path / "s", "")
    (folder / "batches").mkdir()
    (folder / "batches" / "2025-06-02-turnips.yaml").write_text(
        "product: turnip-cubes\nbought: 30 lb at 1 USD/lb\nprepped: 20 lb\nwet: 20 lb\ndry: 30 oz\n"
        'run: {started: "20:00", duration: 30 h, energy: 9 kWh}\npacked: 4 tin of 7 oz\n'
    )
    lines = run("check", folder).stdout.partition("\nAssumed\n")[2].splitlines()
    assert lines[0] == (
        "  batches/2025-06-02-turnips.yaml:7: pack turnips-2025-06-02-pack-1: 2025-06-04: "
        "the day on which turnips-2025-06-02-run ended"
    )
    assert lines[1] == ""


def test_whenever_a_share_rests_on_estimates_it_is_said_on_which(tmp_path: Path) -> None:
    some = 0
    for seed in range(30):
        folder = make(random.Random(seed), "small").write(tmp_path / str(seed))
        done = read(folder)
        assert done.season is not None and done.numbers is not None
        if share_said(done.numbers):
            some += 1
            assert assumed(done.season, done.numbers)
    assert some >= 3
