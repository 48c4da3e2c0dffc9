"""Product data of one's own: against numpy, from the figures of the lots themselves."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import yaml
from cli.seasons import run

from reportgen.program import read

SEASON = """\
season: {name}
currency: USD
units: {{fresh: {fresh}, dried: oz}}
dryers:
  - {{id: porch, trays: 4, tray_area: 0.125 m2, mean_power: 700 W}}
containers:
  - {{id: jar, volume: 946 mL}}
"""
LB = 0.45359237  # kg, international pound (exact)
OZ = LB / 16
TARGET = 0.03  # what the pear slices that ship are dried to
YEARS: dict[str, tuple[str, list[tuple[float, ...]]]] = {
    "Larch Hollow 2024": (
        "lb",
        [(3, 68.5, 52.9, 21.0, 55.2, 30.5), (2, 44.1, 35.9, 18.4, 45.7, 29)],
    ),
    "Larch Hollow 2025": (
        "kg",
        [(4, 91.3, 72.6, 20.2, 52.0, 33.25), (1, 22.9, 17.5, 16.9, 44.6, 28)],
    ),
}
"""Of each lot: lugs, pounds bought, prepped, loaded, ounces that came out dry, hours."""


def written(folder: Path, name: str, fresh: str, lots: list[tuple[float, ...]]) -> Path:
    folder.mkdir()
    lines = [SEASON.format(name=name, fresh=fresh), "lots:"]
    for n, (count, bought, prepped, *_) in enumerate(lots, 1):
        lines.append(
            f"  - {{id: p-{n}, product: pear-slices, date: 2025-09-0{n}, count: {count}, "
            f"container: lug, price: 20 USD, weighed: {bought} lb, prepped: {prepped} lb}}"
        )
    lines.append("runs:")
    for n, (*_, wet, dry, hours) in enumerate(lots, 1):
        lines.append(
            f"  - {{id: r-{n}, started: 2025-09-0{n}, duration: {hours} h, loads: [{{lot: p-{n}, "
            f"wet: {wet} lb, dry: {dry} oz, dryness: {{water_activity: 0.2}}}}]}}"
        )
    (folder / "season.yaml").write_text("\n".join(lines) + "\n")
    return folder


@pytest.fixture
def years(tmp_path: Path) -> list[Path]:
    return [
        written(tmp_path / f"s{n}", name, *year) for n, (name, year) in enumerate(YEARS.items())
    ]


def number(text: str) -> float:
    value, _, unit = text.partition(" ")
    return float(value) * {"%": 0.01}.get(unit, 1)


def test_means_lows_and_highs_are_those_of_numpy(years: list[Path], tmp_path: Path) -> None:
    assert run("recipes", "--learn", *years, "-o", tmp_path / "out").exit_code == 0
    made = yaml.safe_load((tmp_path / "out" / "pear-slices.yaml").read_text("utf-8"))
    lots = np.array([lot for _, year in YEARS.values() for lot in year])
    count, bought, prepped, wet, dry, hours = lots.T
    expected = {
        "prep_yield": prepped / bought,
        "water": 1 - dry * OZ * (1 - TARGET) / (wet * LB),
        "run_time": hours,
        "tray_loading": wet * LB / 0.5,
        "lug": bought / count,
    }
    for key, values in expected.items():
        found = made["containers"]["lug"] if key == "lug" else made[key]
        said = [number(found[each]) for each in ("value", "low", "high")]
        np.testing.assert_allclose(said, [np.mean(values), np.min(values), np.max(values)], 1e-12)
        assert found["source"] == "own"
        assert found["note"] == (
            "mean of 4: p-1, p-2 of Larch Hollow 2024; p-1, p-2 of Larch Hollow 2025"
        )


def test_few_figures_say_so_and_one_has_no_spread(tmp_path: Path) -> None:
    lots = YEARS["Larch Hollow 2024"][1]
    two = run("recipes", "--learn", written(tmp_path / "two", "Two", "lb", lots)).stdout
    one = run("recipes", "--learn", written(tmp_path / "one", "One", "lb", lots[:1])).stdout
    assert two.count("mean of 2 only: p-1, p-2 of Two") == 5
    assert one.count("one figure only, its spread is not known: p-1 of One") == 5
    assert "low:" in two
    assert "low:" not in one


def test_the_next_season_uses_them_and_explain_leads_to_the_lots(
    years: list[Path], tmp_path: Path
) -> None:
    following = tmp_path / "next"
    assert run("new", following, "--after", years[0]).exit_code == 0
    assert run("recipes", "--learn", *years, "-o", following / "recipes").exit_code == 0
    text = (following / "season.yaml").read_text("utf-8")
    plan = "plan: [{product: pear-slices, container: jar, count: 10, net: 5 oz, start: 2026-09-01}]"
    (following / "season.yaml").write_text(text.replace("plan: []", plan))
    lots = [lot for _, year in YEARS.values() for lot in year]
    hours = float(np.mean([lot[5] for lot in lots]))
    done = run("explain", following, "products.run_time_used", "pear-slices").stdout
    assert f"{hours:.4g}"[:4] in done
    assert "source: own, mean of 4: p-1, p-2 of Larch Hollow 2024" in " ".join(done.split())
    assert run("check", following).exit_code == 0


def test_what_is_there_is_not_replaced(years: list[Path], tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "pear-slices.yaml").write_text("name: Mine\n")
    done = run("recipes", "--learn", years[0], "-o", tmp_path / "out")
    assert done.exit_code == 2
    assert "has pear-slices.yaml already" in done.stderr
    assert (tmp_path / "out" / "pear-slices.yaml").read_text() == "name: Mine\n"


def test_the_command_line(tmp_path: Path) -> None:
    assert run("recipes", "--learn").exit_code == 2
    assert run("recipes", "pear-slices", "apple-rings").exit_code == 2


def test_what_each_lot_and_load_tells(years: list[Path]) -> None:
    numbers = read(years[0]).numbers
    assert numbers is not None
    count, bought, prepped, wet, dry, _ = YEARS["Larch Hollow 2024"][1][0]
    solids = dry * (1 - TARGET)
    expected = {
        ("lots", "yield_weighed"): prepped / bought,
        ("lots", "container_held"): bought / count,
        ("loads", "tells_water"): True,
        ("loads", "solids_out"): solids,
        ("loads", "run_loading"): wet * LB / 0.5,
        ("lots", "wet_told"): wet,
        ("lots", "water_by_loads"): 1 - solids / 16 / wet,
        ("lots", "water_found"): 1 - solids / 16 / wet,
    }
    found = {place: numbers.value(*place) for place in expected}
    assert found == pytest.approx(expected, rel=1e-12)


def test_a_load_that_is_not_shown_dry_tells_nothing_of_water(tmp_path: Path) -> None:
    place = written(tmp_path / "moist", "Moist", *YEARS["Larch Hollow 2024"])
    text = (
        (place / "season.yaml").read_text().replace("water_activity: 0.2}", "water_activity: 0.8}")
    )
    (place / "season.yaml").write_text(text)
    numbers = read(place).numbers
    assert numbers is not None
    assert numbers.cells["lots"]["water_found"] == [None, None]
