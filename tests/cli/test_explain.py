"""``explain``: down to the file and line of each input."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.seasons import BATCH, run, season

pytestmark = pytest.mark.slow

SAMPLE = Path(__file__).parents[2] / "samples" / "windrow-lane"
_LINES = (SAMPLE / "season.yaml").read_text(encoding="utf-8").splitlines()
_PLAN = next(n for n, line in enumerate(_LINES, 1) if line.startswith("plan:"))
PLANNED = f"season.yaml:{_PLAN + 1}, written"
"""The first line of the plan."""
FILE = "batches/2025-09-05.yaml"


def lines(*words: object) -> list[str]:
    done = run("explain", *words)
    assert done.exit_code == 0, done.output
    return [line.strip() for line in done.stdout.splitlines()]


def test_value_rule_numbers_and_the_line_of_each_input(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "runs.energy_cost", "run-1")
    assert found[0] == "energy cost of run run-1 = 4 USD"
    assert "Rule: energy used × rates: electricity; else cost by period" in found
    assert "Source: definition" in found
    assert f"The run stands at {FILE}:9." in found
    assert "= 20 kWh × 0.2 USD/kWh" in found
    assert f'{FILE}:12, written "20 kWh"' in found
    assert 'season.yaml:4, written "0.20 USD/kWh"' in found


def test_every_given_input_of_a_cost_is_reached(tmp_path: Path) -> None:
    text = "\n".join(lines(season(tmp_path), "products.running_bulk", "pear-slices"))
    for line, written in (
        (5, "30 USD"),
        (7, "30 lb"),
        (12, "20 kWh"),
        (13, "10 lb"),
        (13, "26 oz"),
    ):
        assert f'{FILE}:{line}, written "{written}"' in text
    assert 'season.yaml:4, written "0.20 USD/kWh"' in text


def test_only_the_branch_that_was_taken_is_told(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "runs.energy_used", "run-2")
    assert found[0] == "energy used of run run-2 = 21 kWh   (rests on estimates)"
    assert "= 700 W × 30 h" in found
    assert not any("metered of run" in line for line in found)


def test_what_is_assumed_names_the_product_data_and_its_source(tmp_path: Path) -> None:
    text = "\n".join(lines(season(tmp_path), "loads.water_at_start", "run-1/pears-1"))
    assert "- water of product pear-slices = 83.96 %" in text
    assert "product data, product-data/pear-slices.yaml:" in text
    assert "Standard Reference, Release 28" in text


def test_constants_have_their_source(tmp_path: Path) -> None:
    text = "\n".join(lines(season(tmp_path), "runs.energy_below_floor", "run-1"))
    assert "= 0.788242 kWh/kg" in text
    assert "IAPWS R14-08(2011)" in text


def test_each_input_is_gone_into_once(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "loads.run_share", "run-1/pears-1")
    wet = [line for line in found if line.startswith("- wet of load run-1/pears-1")]
    assert sum(not line.endswith("(as above)") for line in wet) == 1
    assert any(line.endswith("(as above)") for line in found)


def test_an_unknown_value_leads_to_what_is_missing(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "packs.dried_content", "P-2")
    assert found[0] == "dried content of pack P-2 = unknown"
    assert "- net weight of pack P-2 = unknown" in found
    assert f"not written (the pack stands at {FILE}:20)" in found


def test_an_input_left_out_says_what_it_counts_as(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "lots.used_up", "pears-1")
    assert f"not written (the lot stands at {FILE}:2): counts as 0" in found


def test_what_the_short_form_implies_is_told(tmp_path: Path) -> None:
    place = season(tmp_path)
    flat = "product: apple-rings\nwet: 12 lb\nprepped: 13 lb\n"
    (place / "batches" / "2025-09-10-apples.yaml").write_text(flat)
    found = lines(place, "lots.finished", "apples-2025-09-10")
    assert found[-1] == (
        "batches/2025-09-10-apples.yaml:2, implied: the short form holds all of the lot"
    )


def test_long_sums_are_cut_unless_all_are_asked_for(tmp_path: Path) -> None:
    lot = "  - {{id: lot-{0}, product: pear-slices, weighed: {0} lb}}\n"
    many = BATCH.replace("runs:\n", "".join(lot.format(n) for n in range(1, 21)) + "runs:\n")
    place = season(tmp_path, many)
    cut = lines(place, "season.as_purchased")
    assert "- and 9 more lots (--all goes into them)" in cut
    assert not any("lot-20" in line for line in cut)
    assert any(
        "as purchased of lot lot-20 = 20 lb" in line
        for line in lines(place, "season.as_purchased", "--all")
    )


def test_depth_cuts_the_tree(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "runs.energy_cost", "run-1", "--depth", 1)
    assert "- energy used of run run-1 = 20 kWh" in found
    assert "- metered of run run-1 = 20 kWh ..." in found
    assert not any('written "20 kWh"' in line for line in found)


def test_without_a_row_every_row_is_shown(tmp_path: Path) -> None:
    found = lines(season(tmp_path), "runs.energy_cost")
    assert "run-1 = 4.00 USD" in found and "run-2 = 4.20 USD" in found


def test_ids_that_differ_in_case_are_the_same(tmp_path: Path) -> None:
    assert lines(season(tmp_path), "packs.on_hand", "p-1")[0] == "on hand of pack P-1 = 4"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("products.running_bulc", "pear-slices"), "did you mean running_bulk?"),
        (("product.running_bulk", "pear-slices"), "did you mean products?"),
        (("products.running_bulk", "pear-slice"), "did you mean pear-slices?"),
        (("running_bulk",), "a table and a quantity with a point between"),
        (("trips.purchases", "t-1"), "none is recorded yet"),
        ((), "Missing argument 'TABLE.QUANTITY'"),
    ],
)
def test_what_does_not_exist_ends_with_2(tmp_path: Path, words: tuple[str, ...], told: str) -> None:
    done = run("explain", season(tmp_path), *words)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert told in " ".join(done.stderr.split())


def test_every_quantity_of_every_row_can_be_explained(tmp_path: Path) -> None:
    from reportgen import program
    from reportgen.report.explain import Explainer
    from reportgen.report.figures import keys
    from reportgen.report.reads import Cell

    place = season(tmp_path)
    (place / "batches" / "2025-09-10-apples.yaml").write_text("product: apple-rings\nwet: 2 lb\n")
    done = program.read(place)
    assert done.season is not None and done.numbers is not None
    for table in done.numbers.book.tables.values():
        for name in [*table.inputs, *table.definitions]:
            for row, _ in enumerate(keys(done.numbers, table)):
                told = list(Explainer(done.season, done.numbers).cell(Cell(table, name, row)))
                assert len(told) > 1, (table.name, name)


@pytest.mark.parametrize(
    ("asked", "reached"),
    [
        # Through the rows above, down to what their hours rest on.
        (("plan.time_before", "2"), PLANNED),
        # Through the row that was found, to the weights that were ranked.
        (("ranking.driver", "1"), "- weight of driver driver-1"),
        # Through the place of the first load of its product in its run.
        (("loads.run_first", "run-02/peas-1"), "- run of load run-02/peas-1"),
        # Through the first row that is marked.
        (("season.plan_next",), PLANNED),
        # From a count to what was counted.
        (("season.runs_open",), "- done of run run-01 = yes"),
    ],
)
def test_no_kind_of_rule_ends_the_way_down(asked: tuple[str, ...], reached: str) -> None:
    found = "\n".join(lines(SAMPLE, *asked))
    assert reached in found, found


def test_a_heading_is_understood_as_people_see_it(tmp_path: Path) -> None:
    place = season(tmp_path)
    by_name = lines(place, "products.running_bulk", "pear-slices")
    for heading in (
        "running cost in bulk",
        "Running cost  in bulk",
        "products: running cost in bulk",
    ):
        assert lines(place, heading, "pear-slices") == by_name
    # Produce is a part of the cost of loads, products and the season: the row tells which.
    assert lines(place, "produce", "run-1/pears-1") == lines(
        place, "loads.cost_ingredients", "run-1/pears-1"
    )
    told = run("explain", place, "produce")
    assert told.exit_code == 2
    assert "is the heading of several; write one of " in told.output
    assert "products.cost_ingredients" in told.output


def test_a_heading_in_the_language_of_the_season(tmp_path: Path) -> None:
    place = season(tmp_path)
    settings = place / "season.yaml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("units:", "locale: fr-FR\nunits:"), encoding="utf-8")
    by_name = lines(place, "products.saving_taken", "pear-slices")
    assert lines(place, "épargné jusqu'ici", "pear-slices") == by_name
