"""Whatever weights are written: no weight and no cost is negative where figures can be used.

Made-up seasons with weights and counts that are wrong by anything up to a hundred times. What is
refused is not looked at; of the others, either a check that is an error fails, or every weight and
every cost is unknown or not below zero.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from seasons import Season, leaves, make
from seasons.numbers import scaled

from reportgen.algebra.numbers import Numbers
from reportgen.program import read

pytestmark = pytest.mark.slow

MANY = 150
WEIGHTS = {"fresh", "little", "wet", "dry", "net", "count"}
COSTS = {
    "lots": "as_purchased prepped purchase_cost travel_cost labor_cost cost_per_prepped loaded",
    "runs": "energy_used energy_cost upkeep_cost wear_cost water_removed",
    "loads": "water_removed as_purchased_share cost_ingredients cost_energy cost_upkeep cost_wear "
             "cost_labor",
    "products": "loaded dried in_process cost_ingredients cost_energy cost_upkeep cost_wear "
                "cost_labor cost_overhead cost_packaging cost_pack_labor packed packed_good "
                "running_cost full_cost running_bulk full_bulk running_per_packed full_per_packed",
    "packs": "dried_content running_each full_each on_hand fresh_equivalent",
    "prices": "running_each full_each price_asked price_floor",
    "scenarios": "running_per_packed full_per_packed",
    "plan": "count_left dried_needed prepped_needed buy_weight buy_count runs_needed "
            "running_needed",
    "season": "as_purchased prepped loaded dried packed purchase_cost cost_ingredients "
              "running_cost full_cost in_process_cost",
}  # fmt: skip
"""All but what is waiting and in bulk: scales may disagree about these by a little, and more than
that waiting is a caution of its own."""


def odd(rng: Random, season: Season) -> Season:
    """The season with a few of its weights and counts wrong, some by a little, some by far."""
    chosen = [leaf for leaf in leaves.optional(season) if leaf.kind in WEIGHTS]
    result = season.copied()
    for leaf in rng.sample(chosen, min(len(chosen), rng.randint(1, 5))):
        factor = rng.choice((0.01, 0.3, 0.9, 1.1, 3, 100))
        value = leaf.value
        if leaf.kind == "count":
            value = str(max(1, round(int(value.split()[0]) * factor)))
        elif isinstance(value, list):
            value = [scaled(each, factor) for each in value]
        elif isinstance(value, str):
            value = scaled(value, factor)
        result.at(leaf.row.file, leaf.row.route)[leaf.name] = value
    return result


def below_zero(numbers: Numbers) -> list[tuple[str, str, object]]:
    return [
        (table, name, value)
        for table, names in COSTS.items()
        for name in names.split()
        for value in numbers.cells[table][name]
        if isinstance(value, int | float) and value < -1e-9
    ]


def test_no_weight_and_no_cost_below_zero_can_be_used(tmp_path: Path) -> None:
    usable, wrong = 0, 0
    for n in range(MANY):
        rng = Random(f"odd {n}")
        season = odd(rng, make(rng, "small"))
        done = read(season.write(tmp_path / str(n)))
        if done.numbers is None:
            continue
        if done.numbers.value("season", "errors"):
            wrong += 1
            continue
        usable += 1
        assert below_zero(done.numbers) == [], (n, done.numbers.value("season", "verdict_of_all"))
    assert usable > 20 and wrong > 20
