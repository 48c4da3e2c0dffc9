"""The short form gives the same season as the full form it stands for."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.made import origin, row, season_of
from reportgen.model.records import RECORDS, SHORT

FLAT = """product: pear-slices
bought: 3 lug at 28.50 USD
source: orchard stand
travel: 14 mile
wet: [4.0 lb, 3.9 lb, 3.9 lb, 3.9 lb, 3.9 lb]
run: {started: "18:30", duration: 34.5 h, energy: {from: 1042.3 kWh, to: 1064.1 kWh}, labor: 40 min}
dry: 52.1 oz
dryness: {water_activity: 0.24}
packed:
  - 4 can-10 of 11.0 oz
  - {container: can-10, net: 8 oz, date: 2026-09-08}
"""
LONG = """
lots:
  - {id: pears-2026-09-05, product: pear-slices, date: 2026-09-05, count: 3, container: lug,
     price: 28.50 USD/lug, source: orchard stand, travel: 14 mile, finished: true}
runs:
  - id: pears-2026-09-05-run
    started: 2026-09-05 18:30
    duration: 34.5 h
    energy: {from: 1042.3 kWh, to: 1064.1 kWh}
    labor: 40 min
    loads:
      - {lot: pears-2026-09-05, wet: [4.0 lb, 3.9 lb, 3.9 lb, 3.9 lb, 3.9 lb], dry: 52.1 oz,
         dryness: {water_activity: 0.24}}
packs:
  - {id: pears-2026-09-05-pack-1, product: pear-slices, container: can-10, count: 4, net: 11.0 oz,
     date: 2026-09-07, from: [pears-2026-09-05-run]}
  - {id: pears-2026-09-05-pack-2, product: pear-slices, container: can-10, net: 8 oz,
     date: 2026-09-08, from: [pears-2026-09-05-run]}
"""
FILE = "batches/2026-09-05-pears.yaml"
LOT = "pears-2026-09-05"


def test_it_expands_to_the_full_form(tmp_path: Path) -> None:
    flat = season_of(tmp_path / "a", {FILE: FLAT})
    full = season_of(tmp_path / "b", {FILE: LONG})
    for name, rows in flat.tables.items():
        assert (rows.keys, rows.values) == (full.tables[name].keys, full.tables[name].values)


def test_each_value_keeps_its_line_and_text(tmp_path: Path) -> None:
    season = season_of(tmp_path, {FILE: FLAT})
    count = origin(season, "lots", LOT, "count")
    price = origin(season, "lots", LOT, "price_each")
    started = origin(season, "runs", f"{LOT}-run", "started")
    assert (count.text, count.place) == ("3", (FILE, 2, 9, 1))
    assert (price.text, price.place) == ("28.50 USD", (FILE, 2, 18, 9))
    assert (started.text, started.place and started.place.line) == ("18:30", 6)
    date = origin(season, "lots", LOT, "date")
    assert (date.kind, date.text) == ("default", "the date in the file's name")


@pytest.mark.parametrize(
    ("bought", "given"),
    [
        ("3 lug at 28.50 USD", {"count": 3.0, "container": "lug", "price_each": 28.5}),
        ("3 lug at 28.50 USD/lug", {"count": 3.0, "container": "lug", "price_each": 28.5}),
        ("3 lug at 1.10 USD/lb", {"count": 3.0, "container": "lug", "price_by_weight": 1.1}),
        ("3 lug for 85 USD", {"count": 3.0, "container": "lug", "price_total": 85.0}),
        ("3 lug", {"count": 3.0, "container": "lug"}),
        ("72.4 lb at 1.10 USD/lb", {"count": 1.0, "weighed": 72.4, "price_by_weight": 1.1}),
        ("3 lb 4 oz for 5 USD", {"count": 1.0, "weighed": 3.25, "price_total": 5.0}),
        ("72.4 lb", {"count": 1.0, "weighed": 72.4}),
        ("grown", {"count": 1.0, "grown": True}),
    ],
)
def test_what_was_bought(tmp_path: Path, bought: str, given: dict[str, object]) -> None:
    season = season_of(tmp_path, {FILE: f"product: pear-slices\nbought: {bought}\n"})
    lot = row(season, "lots", LOT)
    known = {name: value for name, value in lot.items() if value is not None}
    assert known == {"product": "pear-slices", "date": 46270.0, **given}


def test_a_lot_that_waits_is_not_finished_and_has_no_run(tmp_path: Path) -> None:
    season = season_of(tmp_path, {FILE: "product: pear-slices\nbought: 3 lug\n"})
    assert row(season, "lots", LOT)["finished"] is None
    assert season.tables["runs"].keys == []


def test_two_files_of_one_name_are_told_apart_by_an_id(tmp_path: Path) -> None:
    season = season_of(
        tmp_path,
        {
            "batches/north/pears.yaml": "product: pear-slices\nwet: 9 lb\n",
            "batches/south/pears.yaml": "id: pears-south\nproduct: pear-slices\nwet: 8 lb\n",
        },
    )
    assert season.tables["lots"].keys == ["pears", "pears-south"]
    assert season.tables["runs"].keys == ["pears-run", "pears-south-run"]


@pytest.mark.parametrize("price", ["16 USD per lug", "16 USD each", "16 USD / lug", "1600 cents"])
def test_the_price_of_one_is_not_that_of_the_lot(tmp_path: Path, price: str) -> None:
    season = season_of(tmp_path, {FILE: f"product: pear-slices\nbought: 3 lug at {price}\n"})
    lot = row(season, "lots", LOT)
    assert (lot["price_each"], lot["price_total"]) == (16.0, None)
    if price != "1600 cents":
        full = f"lots: [{{product: pear-slices, count: 3, container: lug, price: {price}}}]\n"
        lot = row(season_of(tmp_path / "full", {FILE: full}), "lots", LOT)
        assert (lot["price_each"], lot["price_total"]) == (16.0, None)


def test_packs_are_of_the_day_the_run_ended(tmp_path: Path) -> None:
    text = (
        "product: pear-slices\nwet: 9 lb\nrun: {started: 8 pm, duration: 34 h}\ndry: 20 oz\n"
        "packed:\n  - 1 can-10 of 8 oz\n  - 1 can-10 of 7 oz on 2026-09-09\n"
    )
    season = season_of(tmp_path, {FILE: text})
    first, second = (origin(season, "packs", f"{LOT}-pack-{n}", "date") for n in (1, 2))
    assert season.tables["packs"].values["date"] == [46272.0, 46274.0]  # 7 and 9 September 2026
    assert (first.kind, first.text) == ("default", f"the day on which {LOT}-run ended")
    assert (second.kind, second.text, second.place.line) == ("given", "2026-09-09", 7)


def test_every_key_of_a_lot_and_of_a_load_may_stand_at_the_top(tmp_path: Path) -> None:
    keys = {each.name for each in RECORDS["lots"].fields + RECORDS["loads"].fields}
    assert {*SHORT.lot, *SHORT.load} == keys - {"lot", "again"}
