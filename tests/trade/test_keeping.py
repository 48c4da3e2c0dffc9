"""The pack on the shelf, by hand: oxygen, absorbers, altitude, water to add, best by, the trace."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from engines.cells import cells
from published.figures import Figures

from reportgen.program import build
from trade.small import season
from trade.test_dryness import CAN, SEALED

pytestmark = pytest.mark.seasons

# A litre of tin with 300 g of food whose solid weighs 1.5 kg a litre: 1000 - 200 = 800 mL of air,
# in the pores of the food and around it, 20.95 % of it oxygen: 167.6 mL.
FOOD = {"key": "food", "skeletal_density": 1500.0, "best_by": 24.0}
PACK = {"key": "P", "product": "food", "container": "tin", "count": 4, "net": 0.3, "date": 46000.0}


def figures(**tables: Any) -> Figures:
    made: dict[str, Any] = {
        "products": [FOOD],
        "containers": [{"key": "tin", "volume": 1000.0, "absorber": 200.0}],
        "packs": [PACK],
    }
    return Figures(**made | tables)


def test_oxygen_is_that_of_the_void_over_the_solid() -> None:
    found = figures()
    assert found("packs", "void") == pytest.approx(800)
    assert found("packs", "oxygen") == pytest.approx(167.6)
    assert found("packs", "absorber_share") == pytest.approx(200 / 167.6)


@pytest.mark.parametrize("left_out", ["volume", "skeletal_density"])
def test_without_volume_or_density_the_oxygen_is_unknown(left_out: str) -> None:
    tin = {"key": "tin", "volume": 1000.0, "absorber": 200.0}
    found = figures(
        containers=[{k: v for k, v in tin.items() if k != left_out}],
        products=[{k: v for k, v in FOOD.items() if k != left_out}],
    )
    names = ("oxygen", "oxygen_here", "absorber_share")
    assert [found("packs", name) for name in names] == [None] * 3
    assert found("packs", "oxygen_missing") is True


def test_at_a_height_there_is_less_of_it() -> None:
    # 1 - 0.0065 × 1500 / 288.15 = 0.96616; to the power 5.25588: 0.83453.
    found = figures(place=[{"altitude": 1500.0}])
    assert found("place", "air_at_height") == found("place", "air") == pytest.approx(0.83453, 1e-4)
    assert found("packs", "oxygen") == pytest.approx(167.6), "at sea level all the same"
    assert found("packs", "oxygen_here") == pytest.approx(139.87, 1e-3)
    low = figures()
    assert low("place", "air_at_height") is None and low("place", "air") == 1
    assert low("packs", "oxygen_here") == low("packs", "oxygen")


def test_absorbers_needed_are_rounded_up() -> None:
    sizes = [
        {"key": "s-100", "oxygen": 100.0, "cost": 0.12},
        {"key": "s-50", "oxygen": 50.0, "cost": 0.08},
        {"key": "s-200", "oxygen": 200.0},
    ]
    needs = [f"need-{number}" for number in (1, 2, 3)]
    found = figures(absorbers=sizes)
    # 167.6 mL: two of 100, four of 50, one of 200.
    assert [found("absorber_needs", "count_needed", key) for key in needs] == [2, 4, 1]
    costs = [found("absorber_needs", "cost_each", key) for key in needs]
    assert costs == [pytest.approx(0.24), pytest.approx(0.32), None]
    # Three of 50 will do at 1500 m, where 139.9 mL are left.
    found = figures(absorbers=sizes, place=[{"altitude": 1500.0}])
    assert [found("absorber_needs", "count_needed", key) for key in needs] == [2, 3, 1]


def test_what_just_suffices_is_not_short() -> None:
    def short(absorber: float, **more: Any) -> object:
        tin = {"key": "tin", "volume": 1000.0, "absorber": absorber}
        return figures(containers=[tin], **more)("packs", "absorber_short")

    assert short(167.6) is False
    assert short(167.5) is True
    assert short(140.0) is True
    assert short(140.0, place=[{"altitude": 1500.0}]) is False


def test_water_brings_it_back() -> None:
    # 8 kg gave 1 kg: 300 g stand for 2.4 kg of prepared food, so 2.1 kg of water.
    found = figures(
        lots=[{"key": "lot", "product": "food"}],
        runs=[{"key": "run"}],
        loads=[{"run": "run", "lot": "lot", "wet": 8.0, "dry": 1.0}],
    )
    assert found("packs", "fresh_equivalent") == pytest.approx(2.4)
    assert found("packs", "water_to_add") == pytest.approx(2.1)


def test_best_by_counts_from_the_day_of_packing() -> None:
    # Two years of 365 days, a month being a twelfth of one.
    assert figures()("packs", "best_by") == pytest.approx(46000 + 730)
    assert figures(products=[{"key": "food"}])("packs", "best_by") is None
    undated = {k: v for k, v in PACK.items() if k != "date"}
    assert figures(packs=[undated])("packs", "best_by") is None


# --- the trace ----------------------------------------------------------------------------------

TWO = """
lots:
  - {id: t-1, product: turnip-cubes, date: 2025-09-01, source: stand, weighed: 20 lb, price: 9 USD}
  - {id: t-2, product: turnip-cubes, date: 2025-09-03, source: farm, weighed: 20 lb, price: 9 USD}
  - {id: b-1, product: beet-cubes, date: 2025-09-01, source: garden, weighed: 9 lb, grown: true}
runs:
  - {id: r-1, started: 2025-09-02, duration: 30 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 8 lb, dry: 13 oz}, {lot: b-1, wet: 5 lb, dry: 11 oz}]}
  - {id: r-2, started: 2025-09-04, duration: 30 h, energy: 16 kWh,
     loads: [{lot: t-1, wet: 6 lb, dry: 10 oz}, {lot: t-2, id: second, wet: 8 lb, dry: 13 oz}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2025-09-05, container: tin, count: 2, net: 4 oz,
     from: [r-1]}
  - {id: P-2, product: turnip-cubes, date: 2025-09-06, container: tin, count: 5, net: 4 oz,
     from: [r-1, r-2]}
  - {id: P-3, product: beet-cubes, date: 2025-09-06, container: tin, count: 2, net: 5 oz,
     from: [r-1]}
uses:
  - {date: 2025-09-09, pack: P-2, count: 1, for: gift}
"""


def test_the_trace_goes_both_ways(tmp_path: Path) -> None:
    found = season(tmp_path, TWO)
    cells = found.numbers.cells["trace"]
    columns = ("pack", "load", "run", "lot", "source")
    rows = [*zip(*(cells[name] for name in columns), strict=True)]
    assert rows == [
        ("P-1", "r-1/t-1", "r-1", "t-1", "stand"),
        ("P-2", "r-1/t-1", "r-1", "t-1", "stand"),
        ("P-2", "r-2/t-1", "r-2", "t-1", "stand"),
        ("P-2", "second", "r-2", "t-2", "farm"),
        ("P-3", "r-1/b-1", "r-1", "b-1", "garden"),
    ]
    # From a pack to its sources, and from a lot to the packs that would have to come back.
    assert {row[4] for row in rows if row[0] == "P-2"} == {"stand", "farm"}
    assert {row[0] for row in rows if row[3] == "t-1"} == {"P-1", "P-2"}
    assert {row[0] for row in rows if row[3] == "t-2"} == {"P-2"}
    back = found.numbers.cells["recall"]
    columns = ("key", "source", "filled", "taken", "on_hand", "pack_dryness")
    assert [*zip(*(back[name] for name in columns), strict=True)] == [
        ("t-1/P-1", "stand", 2, 0, 2, "not shown"),
        ("t-1/P-2", "stand", 5, 1, 4, "not shown"),
        ("t-2/P-2", "farm", 5, 1, 4, "not shown"),
        ("b-1/P-3", "garden", 2, 0, 2, "not shown"),
    ]
    assert back["bought"] == [cells["bought"][n] for n in (0, 1, 3, 4)]
    assert back["packed"] == [cells["packed"][n] for n in (0, 1, 3, 4)]
    assert [cells["on_hand"][n] for n in (0, 1)] == [2, 4]
    assert cells["bought"][3] - cells["bought"][0] == 2  # type: ignore[operator]
    assert cells["packed"][1] - cells["packed"][0] == 1  # type: ignore[operator]


# --- the cautions -------------------------------------------------------------------------------


def test_too_small_an_absorber_is_said(tmp_path: Path) -> None:
    # A No. 10 can with 4 oz and 300 mL of absorber: 3236 - 113.4 / 1.5 = 3160 mL, 662 of oxygen.
    found = season(
        tmp_path,
        SEALED.replace("34 oz, 32 oz", "32 oz, 32 oz"),
        CAN + "place: {altitude: 0 m}\n",
    )
    assert found("packs", "oxygen") is None, "the turnips have no density"
    recipe = tmp_path / "recipes" / "turnip-cubes.yaml"
    recipe.write_text(
        recipe.read_text()
        + "skeletal_density: {value: 1500 kg/m3, source: practice}\n"
        + "best_by: {value: 300 month, source: practice}\n"
    )
    content, _ = build(tmp_path)
    assert content is not None
    (tmp_path / "s.xlsx").write_bytes(content)
    found_cells = cells(tmp_path / "s.xlsx")
    numbers = [c.value for (s, _), c in found_cells.items() if s == "Packs"]
    oxygen = (3236 - 4 * 28.349523125 / 1.5) * 0.2095
    assert any(isinstance(v, float) and math.isclose(v, oxygen) for v in numbers)
    said = " ".join(str(c.value) for (s, _), c in found_cells.items() if s == "Checks")
    assert "Put in more absorbers, or larger ones" in said
    packs = " ".join(str(c.value) for (s, _), c in found_cells.items() if s == "Packs")
    assert "Best by" in packs


def test_best_by_says_what_it_presumes() -> None:
    found = figures().numbers.book.definition("packs", "best_by").doc
    assert "presumes that the food is dry and stays sealed" in found
