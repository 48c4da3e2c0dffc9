"""The sample seasons: they load, show what their heads promise, and hold together.

Plausible ranges are common practice, no source; the least energy is the heat of sublimation of ice,
2838 kJ/kg (Murphy and Koop 2005, eq. 5).
"""

from __future__ import annotations

import re

import pytest

from reportgen.trade import BOOK
from samples.season import NAMES, ROOT, column, numbers_of, sample

INTENDED = {
    "windrow-lane": {
        ("offers", "stale", "peaches-winter"),
        ("packs", "past_best_by", "P-0624"),
    },
    "colline": {
        ("offers", "stale", "tomates-hiver"),
        ("products", "shop_price_missing", "plum-halves"),
    },
}
"""Table, check and row of everything that ``check`` is meant to find."""

NOT_DRY_YET = {"run-04/peaches-1"}
"""Loads that went back in."""

IN_KG = {"windrow-lane": 0.45359237, "colline": 1.0}
"""The season's fresh unit in kilograms; the pound as defined (NIST Handbook 44, appendix C)."""

TO_FRESH = {"windrow-lane": 1 / 16, "colline": 1 / 1000}
"""The season's dried unit in its fresh one."""


def found(name: str) -> set[tuple[str, str, str]]:
    """Every check that fails, with its row."""
    return {
        (check.table.name, check.name, row)
        for check in BOOK.checks
        for row, failed in column(name, check.table.name, check.name).items()
        if failed is True
    }


@pytest.mark.parametrize("name", NAMES)
def test_it_reads_without_a_problem(name: str) -> None:
    assert sample(name).problems == []
    assert sample(name).numbers is not None


@pytest.mark.parametrize("name", NAMES)
def test_checks_find_what_is_intended_and_nothing_else(name: str) -> None:
    assert found(name) == INTENDED[name]
    severities = {c.severity for c in BOOK.checks if (c.table.name, c.name) in
                  {(table, check) for table, check, _ in INTENDED[name]}}  # fmt: skip
    assert severities == {"caution"}


@pytest.mark.parametrize("name", NAMES)
def test_head_and_table_of_the_samples_name_the_intended_cautions(name: str) -> None:
    head = (ROOT / "samples" / name / "season.yaml").read_text(encoding="utf-8").split("season:")[0]
    rows = re.findall(rf"^\| {name} \| (\w+) (\w+) \| ([\w-]+) \|", listed(), re.MULTILINE)
    assert set(rows) == INTENDED[name]
    for table, check, row in INTENDED[name]:
        assert re.search(rf"{table}\s+{check}: .*", head), check
        assert row in head


def listed() -> str:
    return (ROOT / "samples" / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_what_lots_cost_is_somewhere(name: str) -> None:
    """Added up here from the rows, apart from the season's own sums."""
    paid = sum(numbers_of(name, "lots", "purchase_cost").values())
    driven = sum(numbers_of(name, "lots", "travel_cost").values())
    by_weight = numbers_of(name, "lots", "cost_per_prepped")
    kept = sum(
        by_weight[lot] * (aside + numbers_of(name, "lots", "waiting")[lot])
        for lot, aside in numbers_of(name, "lots", "set_aside", blank=0).items()
    )
    loads = sum(numbers_of(name, "loads", "cost_ingredients").values())
    assert paid + driven == pytest.approx(kept + loads, rel=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_what_runs_cost_is_in_products(name: str) -> None:
    done = column(name, "runs", "done")
    for run, product in (
        ("energy_cost", "cost_energy"),
        ("upkeep_cost", "cost_upkeep"),
        ("wear_cost", "cost_wear"),
    ):
        spent = sum(
            float(str(value)) for key, value in column(name, "runs", run).items() if done[key]
        )
        assert spent == pytest.approx(
            sum(numbers_of(name, "products", product).values()), rel=1e-12
        )


@pytest.mark.parametrize("name", NAMES)
def test_dried_food_is_somewhere(name: str) -> None:
    """Dried and carried over = packed + used from bulk + still in bulk, product by product."""
    for product, dried in numbers_of(name, "products", "dried").items():
        at = {
            each: numbers_of(name, "products", each)[product]
            for each in ("carried", "packed", "bulk_used", "unpacked")
        }
        assert dried + at["carried"] == pytest.approx(
            at["packed"] + at["bulk_used"] + at["unpacked"], rel=1e-12
        )
        assert 0 <= at["unpacked"] < 0.2 * (dried + at["carried"])


@pytest.mark.parametrize("name", NAMES)
def test_lots_balance(name: str) -> None:
    for lot, prepped in numbers_of(name, "lots", "prepped").items():
        used = sum(numbers_of(name, "lots", each)[lot] for each in ("loaded", "waiting"))
        used += sum(numbers_of(name, "lots", each, blank=0)[lot] for each in ("set_aside", "lost"))
        assert prepped == pytest.approx(used, rel=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_water_left_is_that_of_dry_food(name: str) -> None:
    """1 to 4 % by the solids balance; about 8 % in the load that went back in."""
    for load, left in column(name, "loads", "moisture_left").items():
        if load in NOT_DRY_YET:
            assert left == pytest.approx(0.08, abs=0.005)
        elif left is not None:
            assert isinstance(left, float) and 0.01 <= left <= 0.04, load


@pytest.mark.parametrize("name", NAMES)
def test_energy_by_water_is_that_of_a_small_dryer(name: str) -> None:
    """Worked out here in kWh/kg, from the weights and hours alone."""
    wet, dry = column(name, "loads", "wet"), column(name, "loads", "weight_out")
    run_of = column(name, "loads", "run")
    for run, energy in column(name, "runs", "energy_used").items():
        loads = [load for load, of in run_of.items() if of == run]
        if any(dry[load] is None for load in loads):
            continue
        water = sum(
            float(str(wet[load])) - float(str(dry[load])) * TO_FRESH[name] for load in loads
        )
        by_water = float(str(energy)) / (water * IN_KG[name])
        assert 0.788 < 2.8 <= by_water <= 4.0, run
        assert 20 <= float(str(column(name, "runs", "hours")[run])) <= 40


def test_the_first_sample_is_in_progress_and_the_second_is_not() -> None:
    assert column("windrow-lane", "season", "runs_open") == {"season": 1}
    assert column("windrow-lane", "season", "lots_open") == {"season": 2}
    assert column("colline", "season", "runs_open") == {"season": 0}
    assert column("colline", "season", "lots_open") == {"season": 0}


def test_samples_name_no_excluded_food() -> None:
    for path in (ROOT / "samples").rglob("*.yaml"):
        text = path.read_text(encoding="utf-8").lower()
        assert not re.search(r"strawberr|blackberr|cherr|mango|fraise|cerise", text), path
