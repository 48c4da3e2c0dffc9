"""Weights as people write them: what they come to, what stays of how they were written.

The expected figures are pencil work; a pound is 16 ounces (agreement of 1959).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from model.made import origin, row, season_of

HEAD = """season: Test
currency: USD
units: {fresh: lb, dried: oz}
dryers:
  - {id: shed, trays: 5, tray_weight: 0.5 lb}
containers: [{id: can-10}]
"""
FILE = "batches/2026-09-05-pears.yaml"
KEY = "pears-2026-09-05-run/pears-2026-09-05"


def load_of(folder: Path, wet: str, dry: str = "20 oz") -> dict[str, object]:
    text = f"product: pear-slices\nwet: {wet}\ndry: {dry}\nrun: {{duration: 30 h}}\n"
    season = season_of(folder, {"season.yaml": HEAD, FILE: text})
    found = row(season, "loads", KEY)
    return {**found, "text": origin(season, "loads", KEY, "wet").text}


@pytest.mark.parametrize(
    ("wet", "value", "about", "weighings", "text"),
    [
        ("9 lb", 9.0, None, None, "9 lb"),
        ("~9 lb", 9.0, True, None, "~9 lb"),
        ("about 9 lb", 9.0, True, None, "about 9 lb"),
        ("ca. 9 lb 8 oz", 9.5, True, None, "ca. 9 lb 8 oz"),
        ("{gross: 9.8 lb, tare: 2.1 lb}", 7.7, None, 2.0, "9.8 lb - 2.1 lb"),
        ("{gross: 9.8 lb, tare: ~2 lb}", 7.8, True, 2.0, "9.8 lb - ~2 lb"),
        ("[4 lb, 3.5 lb]", 7.5, None, 2.0, "4 lb + 3.5 lb"),
        ("[4 lb, ~3.5 lb]", 7.5, True, 2.0, "4 lb + ~3.5 lb"),
        ("[{gross: 4 lb, tare: 8 oz}, 3 lb]", 6.5, None, 3.0, "4 lb - 8 oz + 3 lb"),
        (
            "{gross: [4 lb, 3 lb], tare: [8 oz, 4 oz]}", 6.25, None, 4.0,
            "4 lb - 8 oz + 3 lb - 4 oz",
        ),
        # Two trays of half a pound: the one weighing of a tray is taken off twice, 2 + 2 × 2.
        ("{gross: [4 lb, 3 lb]}", 6.0, None, 6.0, "4 lb + 3 lb - 2 × 0.5 lb"),
    ],
)  # fmt: skip
def test_a_weight(
    tmp_path: Path, wet: str, value: float, about: bool | None, weighings: float | None, text: str
) -> None:
    found = load_of(tmp_path, wet)
    assert found["wet"] == pytest.approx(value, rel=1e-15)
    assert (found["wet_about"], found["wet_weighings"], found["text"]) == (about, weighings, text)


def test_a_dry_weight_takes_off_trays_in_its_own_unit(tmp_path: Path) -> None:
    found = load_of(tmp_path, "9 lb", "{gross: [20 oz, 19 oz]}")
    assert found["dry"] == pytest.approx(20 + 19 - 16)


def test_every_weight_of_a_record(tmp_path: Path) -> None:
    text = """
lots: [{id: l, product: pear-slices, weighed: {gross: 30 lb, tare: 4 lb}, prepped: ~24 lb,
        set_aside: ~1 lb, lost: about 8 oz}]
runs: [{id: r, dry: {gross: [20 oz, 20 oz]}, loads: [{wet: 9 lb}, {id: b, wet: 8 lb}]}]
packs: [{id: P, product: pear-slices, net: ~8 oz}]
uses: [{product: pear-slices, weight: ~2 oz, for: crumbs}]
"""
    season = season_of(tmp_path, {"season.yaml": HEAD, FILE: text})
    lot, pack = row(season, "lots", "l"), row(season, "packs", "P")
    assert (lot["weighed"], lot["weighed_about"], lot["weighed_weighings"]) == (26.0, None, 2.0)
    assert (lot["prepped_weighed"], lot["prepped_about"]) == (24.0, True)
    assert (lot["set_aside_about"], lot["lost"], lot["lost_about"]) == (True, 0.5, True)
    assert (pack["net"], pack["net_about"]) == (8.0, True)
    assert season.tables["runs"].values["dry"] == [24.0]
    assert season.tables["uses"].values["weight_about"] == [True]


@pytest.mark.parametrize("bought", ["~70 lb at 1.10 USD/lb", "about 70 lb at 1.10 USD/lb"])
def test_bought_about(tmp_path: Path, bought: str) -> None:
    season = season_of(tmp_path, {FILE: f"product: pear-slices\nbought: {bought}\n"})
    lot = row(season, "lots", "pears-2026-09-05")
    assert (lot["weighed"], lot["weighed_about"], lot["price_by_weight"]) == (70.0, True, 1.1)


@pytest.mark.parametrize(
    ("weighings", "step"),
    [
        ("[52.6 oz, 52.1 oz]", 0.1), ("[53 oz, 52.1 oz]", 1.0), ("[3 lb 4.5 oz, 52.12 oz]", 0.1),
        ("[1 lb, 1.00 lb]", 16.0), ("[60 oz, 53.15 oz, 53.10 oz]", 0.01), ("[52.1 oz]", None),
    ],
)  # fmt: skip
def test_the_last_digit_that_was_written(
    tmp_path: Path, weighings: str, step: float | None
) -> None:
    found = load_of(tmp_path, "9 lb", f"20 oz\ndryness: {{weights: {weighings}}}")
    assert found["weighing_step"] == (None if step is None else pytest.approx(step))
