"""What stands in no file of the season, or in a power log: taken where it can be, else refused in
words."""

from __future__ import annotations

from pathlib import Path

import pytest
from samples.season import ROOT

from edits.desk import Desk, desk
from reportgen.program import read

pytestmark = pytest.mark.slow


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


SHIPPED = "pear-slices"


def typed(at: Desk, *names: str) -> dict[str, object]:
    season = read(at.folder).season
    assert season is not None
    rows = season.tables["products"]
    row = rows.keys.index(SHIPPED)
    return {name: rows.values[name][row] for name in names}


@pytest.fixture
def pears(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def test_product_data_that_ship_become_the_seasons_own_that_key_alone(pears: Desk) -> None:
    at, before = pears, pears.texts()
    was = typed(at, "water_low", "water_high", "prep_yield")
    at.type({at.at.cell("products", SHIPPED, "water"): 0.835,
             at.at.cell("products", SHIPPED, "run_time"): "31 h 30 min"})  # fmt: skip
    done = at.run("take")
    assert done.exit_code == 0, done.output
    own = at.texts()[f"recipes/{SHIPPED}.yaml"]
    assert at.texts() == {**before, f"recipes/{SHIPPED}.yaml": own}
    assert [line.partition(":")[0] for line in own.splitlines()] == ["water", "run_time"]
    assert "value: 83.5 %" in own and own.count("source: own") == 2 and "value: 31 h 30 min" in own
    # Beside the value, what the workbook says of it stays; what was not typed is as it shipped.
    assert typed(at, "water", "run_time", *was) == {"water": 0.835, "run_time": 31.5, **was}
    assert set(at.kinds()) == {"home"}
    after = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == after


def test_the_seasons_own_product_data_are_changed_where_they_stand(pears: Desk) -> None:
    file = f"recipes/{SHIPPED}.yaml"
    (pears.folder / "recipes").mkdir()
    (pears.folder / file).write_text(
        "# ours\nprep_yield: {value: 80 %, source: practice, note: peeled}   # by hand\n"
        "target_moisture: 3 %\n"
    )
    at = desk(pears.folder.parent / "again", pears.folder)
    at.type({at.at.cell("products", SHIPPED, "prep_yield"): 0.77,
             at.at.cell("products", SHIPPED, "target_moisture"): 0.025,
             at.at.cell("products", SHIPPED, "name"): "Our pears"})  # fmt: skip
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts()[file] == (
        "# ours\nprep_yield: {value: 77 %, source: own, note: peeled}   # by hand\n"
        "target_moisture: 2.5 %\nname: Our pears\n"
    )
    assert set(at.kinds()) == {"home"}


def test_what_a_container_weighs_becomes_the_seasons_own(pears: Desk) -> None:
    at = pears
    season = read(at.folder).season
    assert season is not None
    weights = season.tables["nominal_weights"]
    key = next(key for key in weights.keys if key.startswith(SHIPPED))
    at.type({at.at.cell("nominal_weights", key, "weight"): 41.5})
    done = at.run("take")
    assert done.exit_code == 0, done.output
    name = key.partition("/")[2]
    assert at.texts()[f"recipes/{SHIPPED}.yaml"] == (
        f"containers: {{{name}: {{value: 41.5 lb, source: own}}}}\n"
    )
    assert set(at.kinds()) == {"home"}


@pytest.mark.parametrize(("typed_in", "said"), [(None, "cannot be emptied"), (0.99, "between")])
def test_product_data_that_cannot_be_are_refused(
    pears: Desk, typed_in: float | None, said: str
) -> None:
    before = pears.texts()
    pears.type({pears.at.cell("products", SHIPPED, "water"): typed_in})
    done = pears.run("take")
    assert done.exit_code == 1 and pears.texts() == before
    assert said in done.output, done.output


def test_a_number_that_counts_as_one_where_it_is_left_out_is_home_once_it_is_emptied(
    pears: Desk,
) -> None:
    """The lid is used once and says nothing of it, the jar twenty times."""
    at = pears
    at.type({at.at.cell("parts", 1, "uses"): None})
    assert at.compare() == []
    at.type({at.at.cell("parts", 2, "uses"): None})
    assert at.kinds() == ["change"]
    assert at.run("take").exit_code == 0
    assert "jar: 1.80 USD}}  # was {cost: 1.80 USD, uses: 20}" in at.texts()["season.yaml"]
    assert at.kinds() == ["home"]
    after = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == after


def test_what_is_written_nowhere_and_counts_all_the_same_cannot_be_emptied(pears: Desk) -> None:
    """Emptied it would be unknown in the workbook, and as it was in a build."""
    at, before = pears, pears.texts()
    cell = at.at.cell("dryers", "porch", "mean_power_spread")
    at.type({cell: None})
    (change,) = at.compare(exit_code=1)
    assert (change["kind"], change["sheet"], change["cell"]) == ("refused", *cell)
    assert "it cannot be emptied" in at.run("take").output
    assert at.texts() == before
