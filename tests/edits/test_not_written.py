"""What stands in no file of the season, or in a power log: taken where it can be, else refused in
words."""

from __future__ import annotations

from pathlib import Path

import pytest
from samples.season import ROOT

from edits.desk import Desk, desk
from reportgen.program import read


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path, ROOT / "samples" / "colline")


def test_energy_typed_over_in_a_period_becomes_the_runs_own(at: Desk) -> None:
    season = read(at.folder).season
    assert season is not None
    rows = season.tables["run_energy"]
    run = rows.values["run"][0]
    kept = sum(
        float(kwh or 0)
        for of, kwh in list(zip(rows.values["run"], rows.values["kwh"], strict=True))[1:]
        if of == run
    )
    at.type({at.at.cell("run_energy", 1, "kwh"): 9.5})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    after = read(at.folder).season
    assert after is not None
    runs = after.tables["runs"]
    energy = runs.values["energy"][runs.keys.index(str(run))]
    assert energy == pytest.approx(kept + 9.5, rel=1e-12)


def test_what_else_a_log_says_is_changed_in_the_log(at: Desk) -> None:
    before = at.texts()
    at.type({at.at.cell("run_energy", 1, "unlogged"): 3.0})
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    assert "it is read from the run's log; change it there" in done.output


def test_product_data_that_ship_are_refused_with_where_to_write_them(at: Desk) -> None:
    before = at.texts()
    season = read(at.folder).season
    assert season is not None
    shipped = [key for key in season.tables["products"].keys
               if not (at.folder / "recipes" / f"{key}.yaml").exists()]  # fmt: skip
    at.type({at.at.cell("products", shipped[0], "water"): 0.8})
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    assert "write it in a file of your own in recipes/" in done.output
