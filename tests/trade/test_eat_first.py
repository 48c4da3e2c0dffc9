"""Eat first, by hand: the shelf by its best-by day; the container's own keeping time."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from reportgen.report.verdicts import eat_first

DAY = 46_000.0
# A year of 365 days: the beans of day 0 keep to day 365, the peas to day 182.5.
FOODS = [
    {"key": "beans", "name": "Beans", "best_by": 12.0},
    {"key": "peas", "name": "Peas", "best_by": 6.0},
    {"key": "leeks", "name": "Leeks"},
]


def pack(key: str, product: str, day: float | None, count: int = 2) -> dict[str, Any]:
    made = {"key": key, "product": product, "container": "tin", "count": count, "net": 0.5}
    return made if day is None else made | {"date": DAY + day}


def figures(**tables: Any) -> Figures:
    made: dict[str, Any] = {
        "season": [{"as_of": DAY + 200}],
        "products": FOODS,
        "containers": [{"key": "tin", "volume": 900.0}],
        "packs": [
            pack("B", "beans", 0), pack("P", "peas", 0), pack("Q", "peas", 30),
            pack("U", "peas", None), pack("L", "leeks", 0), pack("G", "peas", -90, count=1),
        ],
        "uses": [{"pack": "G", "count": 1, "purpose": "household"},
                 {"pack": "P", "count": 1, "purpose": "household"}],
    }  # fmt: skip
    return Figures(**made | tables)


def column(found: Figures, name: str) -> list[object]:
    return [found("eat_first", name, f"eat-{n}") for n in range(1, 7)]


def test_what_is_on_the_shelf_by_its_day() -> None:
    """What is eaten, and what has no day, is not in the list; there are places for all packs."""
    found = figures()
    assert column(found, "pack") == ["P", "Q", "B", None, None, None]
    assert column(found, "what")[:3] == ["Peas", "Peas", "Beans"]
    assert column(found, "container")[:3] == ["tin", "tin", "tin"]
    assert column(found, "on_hand")[:3] == [1, 2, 2]
    assert column(found, "best_by")[:3] == [DAY + 182.5, DAY + 212.5, DAY + 365]
    assert column(found, "days_left")[:3] == [-17.5, 12.5, 165]
    assert column(found, "best_by_basis")[0] == "product data"
    assert column(found, "pack_dryness")[0] == "origin not named"
    turns = [found("packs", "eat_turn", key) for key in "PQBULG"]
    assert turns == [1, 2, 3, None, None, None]
    assert [found("packs", "shelf", key) for key in "PG"] == ["on the shelf", None]
    assert [found("packs", "no_best_by", key) for key in "PULG"] == [False, True, True, False]
    assert found("packs", "product_called", "P") == "Peas"
    totals = ("shelf_packs", "shelf_without_day", "shelf_not_listed")
    assert [found("season", name) for name in totals] == [5, 2, 0]


def test_what_the_list_has_no_place_for_is_counted() -> None:
    packs = [pack(f"P{n}", "peas", n) for n in range(14)]
    found = figures(packs=packs, uses=[])
    assert [found("eat_first", "pack", f"eat-{n}") for n in (1, 10)] == ["P0", "P9"]
    assert found("season", "shelf_not_listed") == 4


def test_what_may_be_moist_keeps_its_place_and_has_no_day() -> None:
    """The day presumes dry food. The beans' scale shows that they still lose water: 10 and 8."""
    found = figures(
        lots=[{"key": "l", "product": "beans", "prepped_weighed": 90.0}],
        runs=[{"key": "r"}],
        loads=[{"run": "r", "lot": "l", "wet": 90.0, "dry": 8.0, "weighing_before": 10.0,
                "weighing_last": 8.0}],
        draws=[{"pack": "B", "run": "r"}],
    )  # fmt: skip
    assert found("packs", "dryness", "B") == "doubtful"
    assert column(found, "pack")[:3] == ["P", "Q", "B"]
    assert column(found, "pack_dryness")[2] == "doubtful"
    for name in ("best_by", "days_left", "best_by_basis"):
        known = [value is not None for value in column(found, name)[:3]]
        assert known == [True, True, False], name
    assert found("season", "shelf_without_day") == 2  # as before: those without any figure
    assert eat_first(found.numbers)[2] == "B: 2 × Beans (tin), no best-by day, dryness: doubtful"


def test_the_makers_own_figure_counts_for_what_is_dry_and_well_sealed() -> None:
    """900 mL of tin hold less than 189 mL of oxygen; ten years of 365 days."""

    def of(absorber: float, **load: Any) -> Figures:
        return figures(
            products=[{"key": "beans", "best_by": 12.0, "skeletal_density": 1500.0}],
            containers=[{"key": "tin", "volume": 900.0, "absorber": absorber, "keeps": 10.0}],
            packs=[pack("B", "beans", 0)],
            uses=[],
            lots=[{"key": "l", "product": "beans", "prepped_weighed": 9.0}],
            runs=[{"key": "r"}],
            loads=[{"run": "r", "lot": "l", "wet": 9.0, "dry": 1.0, **load}],
            draws=[{"pack": "B", "run": "r"}],
        )

    dry = {"water_activity": 0.2}
    names = ("sealed_well", "keeps_by_maker", "best_by_basis")
    found = of(300.0, **dry)
    assert [found("packs", name) for name in names] == [True, 10, "the maker's own figure"]
    assert found("packs", "best_by") == pytest.approx(DAY + 3650)
    for other in (of(50.0, **dry), of(300.0)):
        assert [other("packs", name) for name in names] == [False, None, "product data"]
        assert other("packs", "keeps") == pytest.approx(1)
        assert other("packs", "best_by") == pytest.approx(DAY + 365)
