"""A recipe's value has a low and a high of its own, in whatever order they are written."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from reportgen.model.kinds import Sourced
from reportgen.model.load import load
from reportgen.model.product_data import recipes

SHIPPED = Path(__file__).parents[2] / "recipes"
SEASON = """
season: Sieve Lane
currency: USD
lots: [{id: l-1, product: food, date: 2025-09-05, container: crate}]
"""
WRITTEN = {
    "water": ("84 %", "80 %", "88 %"),
    "prep_yield": ("90 %", "83 %", "99 %"),
    "target_moisture": ("2 %", "1 %", "3 %"),
    "skeletal_density": ("1.5 g/mL", "1.4 g/mL", "1.6 g/mL"),
    "run_time": ("30 h", "24 h", "40 h"),
    "tray_loading": ("5 kg/m2", "4 kg/m2", "7 kg/m2"),
    "best_by": ("12 month", "6 month", "24 month"),
}
READ = {
    "water": (0.84, 0.80, 0.88),
    "prep_yield": (0.90, 0.83, 0.99),
    "target_moisture": (0.02, 0.01, 0.03),
    "skeletal_density": (1500, 1400, 1600),
    "run_time": (30, 24, 40),
    "tray_loading": (5, 4, 7),
    "best_by": (12, 6, 24),
}


def one(text: tuple[str, str, str], order: tuple[int, ...]) -> str:
    names = ("value", "low", "high")
    return "{" + ", ".join(f"{names[n]}: {text[n]}" for n in order) + ", source: practice}"


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_value_low_and_high_are_three_inputs(tmp_path: Path, order: tuple[int, ...]) -> None:
    (tmp_path / "recipes").mkdir()
    lines = [f"{name}: {one(text, order)}" for name, text in WRITTEN.items()]
    crate = one(("20 lb", "18 lb", "25 lb"), order)
    own = "\n".join([*lines, f"containers: {{crate: {crate}, box: 9 lb}}"])
    (tmp_path / "recipes" / "food.yaml").write_text(own)
    (tmp_path / "season.yaml").write_text(SEASON)
    season, problems = load(tmp_path, SHIPPED)
    assert season is not None and problems == []
    values = season.tables["products"].values
    found = {name: tuple(values[name + end][0] for end in ("", "_low", "_high")) for name in READ}
    assert found == {name: pytest.approx(three) for name, three in READ.items()}
    weights = season.tables["nominal_weights"].values
    assert [weights[name] for name in ("weight", "weight_low", "weight_high")] == [
        [20, 9],
        [18, None],
        [25, None],
    ]


def test_every_sourced_value_is_tried() -> None:
    named = {each.name for each in recipes.fields if isinstance(each, Sourced)}
    assert named == set(WRITTEN)
