"""From files to a season: keys, defaults, references, origins, product data.

The expectations are those of the project's contract for season files; they are definitions.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from model.made import BASE, RECIPES, origin, problems_of, row, season_of, write
from reportgen.model import load
from reportgen.model.records import RECORDS

FULL = """
lots:
  - {id: pears-1, product: pear-slices, date: 2026-09-05, count: 3, container: lug,
     price: 28.50 USD/lug, weighed: 72.4 lb, labor: 3 h 20 min}
runs:
  - id: run-07
    started: 2026-09-06 18:30
    duration: 34.5 h
    energy: {from: 1042.3 kWh, to: 1064.1 kWh}
    loads:
      - {wet: [10 lb, 9.6 lb], dry: 52.1 oz, dryness: {weights: [53 oz, 52.6 oz, 52.1 oz]}}
      - {id: late, lot: pears-1, wet: 2 kg}
  - {id: run-08, loads: [{again: run-07/pears-1, wet: 3 lb}, {again: late, wet: 1 lb, id: x-1}]}
packs:
  - {id: P-1, product: pear-slices, container: can-10, net: 11 oz, from: [run-07, run-08],
     carried: {running: 18 USD, full: 22 USD}}
uses:
  - {pack: P-1, count: 1, for: stall, price: 21 USD}
"""


def test_every_table_is_there_and_of_one_length(tmp_path: Path) -> None:
    season = season_of(tmp_path, {"batches/a.yaml": FULL})
    assert set(season.tables) == set(RECORDS)
    for name, rows in season.tables.items():
        assert {each.name for each in RECORDS[name].inputs} <= set(rows.values)
        lengths = {len(each) for each in [*rows.values.values(), *rows.origins.values()]}
        assert lengths <= {len(rows.keys)} and len(rows.places) == len(rows.keys)


def test_keys(tmp_path: Path) -> None:
    season = season_of(tmp_path, {"batches/a.yaml": FULL})
    keys = {name: rows.keys for name, rows in season.tables.items()}
    assert keys["loads"] == ["run-07/pears-1", "late", "run-08/pears-1", "x-1"]
    assert keys["draws"] == ["draw-1", "draw-2"] and keys["uses"] == ["use-1"]
    assert keys["nominal_weights"] == ["pear-slices/lug", "pear-slices/bushel"]
    assert keys["rates"] == ["rates"] and keys["pricing"] == ["pricing"]
    assert set(row(season, "rates", "rates").values()) == {None}


def test_values(tmp_path: Path) -> None:
    season = season_of(tmp_path, {"batches/a.yaml": FULL})
    lot = row(season, "lots", "pears-1")
    assert (lot["price_each"], lot["price_by_weight"], lot["price_total"]) == (28.5, None, None)
    assert lot["date"] == 46270.0
    load = row(season, "loads", "run-07/pears-1")
    assert (load["run"], load["lot"], load["wet"]) == ("run-07", "pears-1", 19.6)
    assert (load["weighing_before"], load["weighing_last"]) == (52.6, 52.1)
    run = row(season, "runs", "run-07")
    assert (run["energy"], run["meter_from"], run["meter_to"]) == (None, 1042.3, 1064.1)
    assert run["started"] == 46271 + (18 * 60 + 30) / 1440
    pack = row(season, "packs", "P-1")
    assert (pack["count"], pack["carried_running"], pack["carried_full"]) == (1.0, 18.0, 22.0)
    assert row(season, "draws", "draw-2") == {"pack": "P-1", "run": "run-08", "mix": None}


def test_a_load_that_went_back_in_has_the_lot_of_the_first(tmp_path: Path) -> None:
    season = season_of(tmp_path, {"batches/a.yaml": FULL})
    assert row(season, "loads", "run-08/pears-1")["lot"] == "pears-1"
    assert row(season, "loads", "x-1")["lot"] == "pears-1"
    assert origin(season, "loads", "x-1", "lot")[:2] == ("default", "the lot of late")


def test_origins(tmp_path: Path) -> None:
    season = season_of(tmp_path, {"batches/a.yaml": FULL})
    weighed = origin(season, "lots", "pears-1", "weighed")
    assert weighed[:2] == ("given", "72.4 lb")
    assert weighed.place is not None
    assert weighed.place == ("batches/a.yaml", 4, 37, 7)
    assert origin(season, "runs", "run-07", "dryer")[:2] == ("default", "the only dryer")
    assert origin(season, "packs", "P-1", "count").kind == "default"
    water = origin(season, "products", "pear-slices", "water")
    assert (water.kind, water.text, water.source) == ("assumed", "84 %", "invented")


def test_sums_are_exact(tmp_path: Path) -> None:
    # 0.1 lb ten times is 1 lb; floats added one by one give 0.9999999999999999.
    trays = ", ".join(["0.1 lb"] * 10)
    season = season_of(tmp_path, {"batches/a.yaml": f"product: pear-slices\nwet: [{trays}]\n"})
    assert season.tables["loads"].values["wet"] == [1.0]


def test_weights_in_any_unit_are_shown_in_the_seasons(tmp_path: Path) -> None:
    kilograms = BASE.replace("fresh: lb, dried: oz", "fresh: kg, dried: g")
    season = season_of(tmp_path, {"season.yaml": kilograms, "batches/a.yaml": FULL})
    # The avoirdupois pound is 0.453 592 37 kg (NIST SP 811, App. B.8; from memory, not seen).
    assert row(season, "lots", "pears-1")["weighed"] == pytest.approx(72.4 * 0.45359237, rel=1e-15)
    assert row(season, "loads", "late")["wet"] == 2.0


def test_positions_follow_the_paths_of_the_files(tmp_path: Path) -> None:
    use = "uses: [{{product: pear-slices, weight: {} oz, for: sample}}]\n"
    season = season_of(
        tmp_path,
        {
            "season.yaml": BASE + use.format(4),
            "batches/b.yaml": use.format(3),
            "batches/a/z.yaml": use.format(2),
            "batches/a-1.yaml": use.format(1),
        },
    )
    assert season.tables["uses"].values["weight"] == [1.0, 2.0, 3.0, 4.0]


def test_products_in_the_order_of_first_naming(tmp_path: Path) -> None:
    text = "offers: [{id: o, product: apple-rings}]\nlots: [{product: pear-slices}]\n"
    season = season_of(tmp_path, {"batches/a.yaml": text})
    assert season.tables["products"].keys == ["pear-slices", "apple-rings"]


def test_an_empty_season_passes(tmp_path: Path) -> None:
    season = season_of(tmp_path, {})
    assert season.tables["lots"].keys == [] and season.tables["products"].keys == []


def test_a_single_file_holds_everything(tmp_path: Path) -> None:
    write(tmp_path, {"all.yaml": BASE + FULL})
    season, problems = load(tmp_path / "all.yaml", RECIPES)
    assert season is not None and not problems
    assert season.tables["lots"].keys == ["pears-1"]


def test_time_of_use(tmp_path: Path) -> None:
    rates = """rates:
  electricity:
    - {from: "16:00", to: "21:00", days: mon-fri, price: 0.31 USD/kWh}
    - {price: 0.12 USD/kWh}
"""
    season = season_of(tmp_path, {"season.yaml": BASE + rates})
    periods = season.tables["periods"]
    assert row(season, "rates", "rates")["electricity"] is None
    assert periods.values["price"] == [0.31, 0.12]
    assert periods.values["from_clock"] == ["16:00", None]
    assert periods.values["days"] == ["mon tue wed thu fri", None]


def test_parts_and_upkeep_name_their_owner(tmp_path: Path) -> None:
    text = BASE.replace(
        "{id: can-10}", "{id: jar, parts: {lid: 0.35 USD, jar: {cost: 1.80 USD, uses: 20}}}"
    ).replace("trays: 5", "trays: 5, upkeep: [{item: pump oil, cost: 18 USD, every: 20 run}]")
    season = season_of(tmp_path, {"season.yaml": text})
    assert row(season, "parts", "part-2") == {
        "container": "jar", "item": "jar", "cost": 1.8, "uses": 20.0, "note": None,
    }  # fmt: skip
    assert row(season, "parts", "part-1")["uses"] == 1.0
    assert row(season, "upkeep", "upkeep-1")["dryer"] == "shed"


def test_scenarios_are_factors_or_rates(tmp_path: Path) -> None:
    text = BASE + "scenarios: [{id: a, labor: 50 %}, {id: b, labor: 18 USD/h, wear: 120 %}]\n"
    season = season_of(tmp_path, {"season.yaml": text})
    a, b = row(season, "scenarios", "a"), row(season, "scenarios", "b")
    assert (a["labor_factor"], a["labor_rate"]) == (0.5, None)
    assert (b["labor_factor"], b["labor_rate"], b["wear_factor"]) == (None, 18.0, 1.2)


def test_a_seasons_recipe_replaces_key_by_key(tmp_path: Path) -> None:
    recipe = "water: 83 %\ncontainers: {crate: 30 lb}\nallergens: [celery]\n"
    season = season_of(
        tmp_path,
        {"batches/a.yaml": "product: pear-slices\n", "recipes/pear-slices.yaml": recipe},
    )
    product = row(season, "products", "pear-slices")
    assert (product["water"], product["water_low"], product["prep_yield"]) == (0.83, None, 0.78)
    assert origin(season, "products", "pear-slices", "water").kind == "given"
    assert origin(season, "products", "pear-slices", "prep_yield").kind == "assumed"
    assert season.tables["nominal_weights"].values["container"] == ["lug", "bushel", "crate"]
    assert season.allergens == {"pear-slices": ["celery"]}


def test_the_price_names_the_container(tmp_path: Path) -> None:
    season = season_of(
        tmp_path, {"batches/a.yaml": "lots: [{product: pear-slices, price: 28 USD/lug}]\n"}
    )
    assert row(season, "lots", "a")["container"] == "lug"


def test_one_broken_file_does_not_make_ids_unknown(tmp_path: Path) -> None:
    problems = problems_of(
        tmp_path, {"batches/a.yaml": "lots: [", "batches/b.yaml": "runs: [{loads: [{lot: x}]}]\n"}
    )
    assert [each.place.file for each in problems] == ["batches/a.yaml"]


def test_a_meter_file_is_found_beside_the_batch(tmp_path: Path) -> None:
    season = season_of(
        tmp_path,
        {"batches/a.yaml": "runs: [{meter: logs/a.csv}]\n", "batches/logs/a.csv": "time,W\n"},
    )
    assert season.tables["runs"].values["meter"] == ["batches/logs/a.csv"]


def test_the_seasons_file_stands_for_its_folder(tmp_path: Path) -> None:
    # Else the batches would be left out without a word.
    write(tmp_path, {"batches/a.yaml": FULL})
    season, _ = load(tmp_path / "season.yaml", RECIPES)
    assert season is not None and season.tables["lots"].keys == ["pears-1"]


def test_shipped_recipes_are_nobodys_own(tmp_path: Path) -> None:
    # A single file that lies beside the folder of shipped recipes.
    text = BASE + "offers: [{id: o, product: pear-slices}]\n"
    write(tmp_path, {"all.yaml": text, "recipes/pear-slices.yaml": "water: 83 %\n"})
    season, _ = load(tmp_path / "all.yaml", tmp_path / "recipes" / ".." / "recipes")
    assert season is not None
    assert origin(season, "products", "pear-slices", "water").kind == "assumed"
