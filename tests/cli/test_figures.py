"""``figures``: the JSON that other programs read, and the tables that people do."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from cli.seasons import BATCH, SEASON, run, season

pytestmark = pytest.mark.seasons

FLAT = """\
product: apple-rings
bought: 2 bushel at 20 USD
wet: 12 lb
run: {started: "18:30", duration: 30 h}
dry: 30 oz
"""


@pytest.fixture
def made(tmp_path: Path) -> dict[str, Any]:
    place = season(tmp_path)
    (place / "batches" / "2025-09-10-apples.yaml").write_text(FLAT)
    done = run("figures", place, "--json")
    assert done.exit_code == 0
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_the_head_says_what_the_season_says(made: dict[str, Any]) -> None:
    assert list(made) == ["season", "currency", "units", "tables"]
    assert (made["season"], made["currency"]) == ("Larch Hollow 2025", "USD")
    assert made["units"] == {"fresh": "lb", "dried": "oz"}


def test_every_figure_has_value_unit_and_basis(made: dict[str, Any]) -> None:
    number = 0
    for rows in made["tables"].values():
        for row in rows.values():
            for figure in row.values():
                number += 1
                assert list(figure) == ["value", "unit", "basis"]
                assert figure["basis"] in ("measured", "estimated", "mixed")
                assert isinstance(figure["unit"], str)
    assert number > 200


def test_rows_go_by_their_keys(made: dict[str, Any]) -> None:
    tables = made["tables"]
    assert list(tables["lots"]) == ["pears-1", "apples-2025-09-10"]
    assert list(tables["loads"])[:2] == ["run-1/pears-1", "run-2/pears-1"]
    assert list(tables["products"]) == ["pear-slices", "apple-rings"]
    assert list(tables["uses"]) == ["use-1"]
    assert list(tables["season"]) == ["season"]


def test_values_by_hand(made: dict[str, Any]) -> None:
    """Worked out by hand from the season's text and the design's definitions."""
    tables = made["tables"]
    run_1 = tables["runs"]["run-1"]
    assert run_1["energy_cost"] == {"value": pytest.approx(4.0), "unit": "USD", "basis": "measured"}
    # 20 kWh / ((10 lb - 26 oz) in kg); 1 lb = 0.45359237 kg (NIST SP 811, appendix B)
    assert run_1["specific_energy"]["value"] == pytest.approx(20 / ((10 - 26 / 16) * 0.45359237))
    assert run_1["specific_energy"]["unit"] == "kWh/kg"
    assert run_1["done"]["value"] is True and tables["runs"]["run-2"]["done"]["value"] is False
    load = tables["loads"]["run-1/pears-1"]
    assert load["dried_yield"]["value"] == pytest.approx(26 / 160), "a share is a fraction"
    assert load["dried_yield"]["unit"] == ""
    assert load["cost_ingredients"]["value"] == pytest.approx(30 / 30 * 10)
    season = tables["season"]["season"]
    assert season["last_use"]["value"] == "2025-09-20"
    assert season["last_run"]["value"] == "2025-09-10T18:30"


def test_what_is_not_known_is_null(made: dict[str, Any]) -> None:
    tables = made["tables"]
    assert tables["runs"]["run-2"]["water_removed"]["value"] is None
    assert tables["packs"]["P-2"]["dried_content"]["value"] is None
    assert tables["packs"]["P-2"]["dried_content"]["unit"] == "oz"


def test_what_goes_through_the_rows_above_rests_on_what_they_rest_on() -> None:
    sample = Path(__file__).parents[2] / "samples" / "windrow-lane"
    plan = json.loads(run("figures", sample, "--json").stdout)["tables"]["plan"]
    # The rows above rest on weighed runs and on a recipe's yield; the first has none above it.
    assert plan["plan-1"]["time_before"]["basis"] == "measured"
    assert plan["plan-2"]["time_before"]["basis"] == "mixed"


def test_basis_is_measured_estimated_or_mixed(made: dict[str, Any]) -> None:
    tables = made["tables"]
    assert tables["lots"]["pears-1"]["as_purchased"]["basis"] == "measured"
    assert tables["lots"]["apples-2025-09-10"]["as_purchased"]["basis"] == "estimated"
    # the container's weight is an estimate, what was loaded was weighed
    assert tables["lots"]["apples-2025-09-10"]["prep_yield"]["basis"] == "mixed"
    assert tables["runs"]["run-1"]["energy_used"]["basis"] == "measured"
    assert tables["runs"]["run-2"]["energy_used"]["basis"] == "estimated"
    # estimated energy at the price that was given
    assert tables["runs"]["run-2"]["energy_cost"]["basis"] == "mixed"


def test_the_tables_show_units_and_marks(tmp_path: Path) -> None:
    done = run("figures", season(tmp_path))
    assert done.exit_code == 0
    lines = done.stdout.splitlines()
    assert lines[0] == "Larch Hollow 2025: USD, lb before drying, oz after"
    start = next(n for n, line in enumerate(lines) if line.startswith("RUNS "))
    assert lines[start].split() == ["RUNS", "run-1", "run-2"]
    runs = {" ".join(line.split()) for line in lines[start : lines.index("", start)]}
    # 700 W x 30 h = 21 kWh, by mean power: an estimate; its cost in part
    assert "energy used kWh 20.0 21.0≈" in runs
    assert "energy cost USD 4.00 4.20~" in runs
    assert "water removed lb 8.4 -" in runs
    assert "done yes no" in runs
    assert max(map(len, lines)) <= 100


def test_many_rows_go_on_below(tmp_path: Path) -> None:
    lot = "  - {{id: lot-{0}, product: pear-slices, weighed: {0} lb}}\n"
    many = BATCH.replace("runs:\n", "".join(lot.format(n) for n in range(1, 31)) + "runs:\n")
    done = run("figures", season(tmp_path, many))
    heads = [line.split()[1:] for line in done.stdout.splitlines() if line.startswith("LOTS ")]
    assert len(heads) > 1
    assert [key for head in heads for key in head] == [
        "pears-1",
        *(f"lot-{n}" for n in range(1, 31)),
    ]


def test_an_empty_season_has_figures(tmp_path: Path) -> None:
    place = season(tmp_path, batch="")
    assert run("figures", place).exit_code == 0
    found = json.loads(run("figures", place, "--json").stdout)
    assert found["tables"]["lots"] == {}
    assert found["tables"]["season"]["season"]["running_cost"]["value"] == 0
    assert found["tables"]["season"]["season"]["estimated_share"]["value"] is None


@pytest.mark.slow
def test_asking_changes_no_later_build(tmp_path: Path) -> None:
    from reportgen import program

    place = season(tmp_path)
    before, _ = program.build(place)
    run("figures", place, "--json")
    run("explain", place, "season.full_cost")
    after, _ = program.build(place)
    assert before == after


def test_wrong_input_ends_with_1_and_no_output(tmp_path: Path) -> None:
    done = run("figures", season(tmp_path, settings=SEASON + "rats: 3\n"), "--json")
    assert done.exit_code == 1
    assert done.stdout == ""
    assert "season.yaml:9: 'rats' is not a key" in done.stderr
