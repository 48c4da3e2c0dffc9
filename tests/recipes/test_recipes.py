"""The shipped product data: whole, sourced, and equal to the publications it names.

The recipes are read here with plain PyYAML, so that nothing of the package is needed to judge them.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from recipes.sr28 import KALE, MEMORY, SR28, Food

FOLDER = Path(__file__).parents[2] / "recipes"
SOURCES: dict[str, dict[str, str]] = yaml.safe_load((FOLDER / "sources.yaml").read_text("utf-8"))
RECIPES: dict[str, dict[str, Any]] = {
    path.stem: yaml.safe_load(path.read_text("utf-8"))
    for path in sorted(FOLDER.glob("*.yaml"))
    if path.stem != "sources"
}

KINDS = {"fruit", "vegetable", "herb", "cooked dish", "dairy", "egg", "meat", "mushroom"}
SHARE, WEIGHT = r"%", r"(?:lb|oz|kg|g)"
UNITS = {
    "water": SHARE,
    "prep_yield": SHARE,
    "target_moisture": SHARE,
    "skeletal_density": r"kg/m3",
    "run_time": r"h",
    "tray_loading": r"kg/m2",
    "best_by": r"month",
}
KEYS = {
    *UNITS, "name", "kind", "containers", "ingredients", "allergens", "cook_before_eating",
    "rehydrate", "storage", "cautions",
}  # fmt: skip
WANTED = """pear-slices apple-rings peach-slices raspberries blueberries sweet-corn green-peas
carrots onions zucchini tomatoes mushrooms parsley chives vegetable-soup plum-halves
apricot-halves red-peppers scrambled-egg"""

every_recipe = pytest.mark.parametrize("product", RECIPES)


def number(text: str, unit: str) -> float:
    """The number of ``"83.96 %"``; fails where the text is not a number and that unit."""
    found = re.fullmatch(rf"(\d+(?:\.\d+)?) {unit}", text)
    assert found, f"{text!r} is not a number and {unit}"
    return float(found[1])


def leaves(recipe: dict[str, Any]) -> dict[str, tuple[dict[str, str], str]]:
    """Every value with a source, and the unit it must have."""
    values = {key: (recipe[key], unit) for key, unit in UNITS.items()}
    for name, weight in recipe["containers"].items():
        values[f"containers.{name}"] = (weight, WEIGHT)
    return values


def ndb(source: str) -> str | None:
    """The NDB number of a source that is one row of SR28."""
    found = re.fullmatch(r"usda-sr28-(\d{5})", source)
    return found[1] if found else None


# ------------------------------------------------------------------ whole


def test_there_are_enough_products_of_every_kind() -> None:
    kinds = Counter(recipe["kind"] for recipe in RECIPES.values())
    assert len(RECIPES) >= 44
    assert set(kinds) == KINDS
    assert kinds["fruit"] >= 16 and kinds["vegetable"] >= 16 and kinds["herb"] >= 5
    assert set(WANTED.split()) <= set(RECIPES)


@every_recipe
def test_a_recipe_has_every_key_and_no_other(product: str) -> None:
    recipe = RECIPES[product]
    assert set(recipe) == KEYS
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", product)
    assert recipe["name"] and recipe["ingredients"] and recipe["rehydrate"] and recipe["storage"]
    assert isinstance(recipe["cook_before_eating"], bool)
    assert recipe["containers"], "a product is bought in something"
    assert recipe["best_by"]["basis"], "a best-by date says what it rests on"


@every_recipe
def test_a_value_is_a_number_with_its_unit_and_a_listed_source(product: str) -> None:
    for where, (value, unit) in leaves(RECIPES[product]).items():
        assert number(value["value"], unit) > 0, where
        assert value["source"] in SOURCES, where
        extra = {"low", "high"} if where == "water" else set()
        assert set(value) - {"note", "basis"} == {"value", "source"} | extra, where
        if unit == SHARE:
            assert number(value["value"], unit) <= 100, where


@every_recipe
def test_water_lies_between_its_low_and_high_and_above_the_target(product: str) -> None:
    recipe = RECIPES[product]
    low, value, high = (number(recipe["water"][key], SHARE) for key in ("low", "value", "high"))
    assert number(recipe["target_moisture"]["value"], SHARE) < low < value < high < 100
    assert recipe["water"]["note"], "a spread says whose it is"


def test_pears_are_bought_by_the_lug_the_bushel_and_the_peck() -> None:
    assert {"lug", "bushel", "peck"} <= set(RECIPES["pear-slices"]["containers"])


# ---------------------------------------------------------------- sources


def test_every_source_is_complete_and_used() -> None:
    named = {
        value["source"] for recipe in RECIPES.values() for value, _ in leaves(recipe).values()
    } | {caution["source"] for recipe in RECIPES.values() for caution in recipe["cautions"]}
    told = " ".join(recipe["best_by"]["basis"] for recipe in RECIPES.values())
    for key, source in SOURCES.items():
        assert set(source) - {"note"} == {"title", "publisher", "year", "where", "seen"}, key
        assert source["seen"] in ("yes", "memory", "practice"), key
        assert key in named or key in told, f"{key} is named by no recipe"


# ----------------------------------------------- equal to the publications


@every_recipe
def test_water_is_that_of_sr28(product: str) -> None:
    """SR28, ABBREV file: water in 100 g of the edible portion."""
    water = RECIPES[product]["water"]
    key = ndb(water["source"])
    if key is None:
        assert water["source"] in ("fdc-168421", "soup-own")
        return
    assert number(water["value"], SHARE) == SR28[key].water


@every_recipe
def test_a_prep_yield_from_sr28_is_what_refuse_leaves(product: str) -> None:
    """SR28, ABBREV file: refuse as a share of the weight as purchased."""
    prep_yield = RECIPES[product]["prep_yield"]
    key = ndb(prep_yield["source"])
    if key is None:
        return
    refuse = KALE.refuse if key == "11233" else SR28[key].refuse
    assert number(prep_yield["value"], SHARE) == 100 - refuse


def test_prep_yields_of_the_open_textbook() -> None:
    """Bakery and Business Math, chapter 25, table of yield percentages."""
    published = {
        "apple-slices-peeled": 76, "apricot-halves": 94, "asparagus": 56, "banana-slices": 68,
        "green-beans": 88, "beets-boiled": 76, "blackberries": 92, "blueberries": 92,
        "broccoli": 61, "cantaloupe-cubes": 50, "carrots": 82, "cauliflower": 45,
        "pear-slices": 78, "strawberries": 87, "zucchini": 95,
    }  # fmt: skip
    for product, percent in published.items():
        assert number(RECIPES[product]["prep_yield"]["value"], SHARE) == percent, product


def test_container_weights_of_the_georgia_table() -> None:
    """University of Georgia Extension, Weights and Processed Yields, Table 2: pounds net, a range
    or one figure; the recipe holds the middle."""
    published = {
        ("apple-rings", "bushel"): (42, 48), ("apple-rings", "half-bushel"): (24, 24),
        ("apple-rings", "peck"): (10, 14), ("blackberries", "tray-6qt"): (10, 12),
        ("blackberries", "quart-box"): (1.25, 1.5), ("blueberries", "tray-6qt"): (9, 12),
        ("blueberries", "pint-box"): (0.75, 1), ("cherries-sweet", "lug"): (15, 16),
        ("cherries-sweet", "quart-box"): (1.5, 1.75), ("grapes-seedless", "bushel"): (44, 50),
        ("grapes-seedless", "lug"): (24, 28), ("grapes-seedless", "basket-2qt"): (2.5, 3),
        ("peach-slices", "bushel"): (48, 52), ("peach-slices", "half-bushel"): (24, 24),
        ("peach-slices", "lug"): (19, 22), ("peach-slices", "peck"): (12, 14),
        ("pear-slices", "bushel"): (48, 50), ("pear-slices", "lug"): (21, 24),
        ("pear-slices", "peck"): (12, 14), ("plum-halves", "bushel"): (50, 56),
        ("plum-halves", "peck"): (13, 15), ("raspberries", "tray-6qt"): (8, 10),
        ("raspberries", "tray-3qt"): (4, 4), ("raspberries", "quart-box"): (1.25, 1.5),
        ("raspberries", "pint-box"): (0.75, 0.75), ("strawberries", "flat"): (12, 12),
        ("strawberries", "crate"): (36, 36), ("strawberries", "quart-box"): (1.25, 1.5),
    }  # fmt: skip
    for (product, container), (low, high) in published.items():
        weight = RECIPES[product]["containers"][container]
        text = weight["value"]
        lb = number(text, "lb") if text.endswith("lb") else number(text, "oz") / 16
        assert lb == pytest.approx((low + high) / 2), (product, container)
        assert weight["source"] == "uga-table-2"
        assert low == high or "middle" in weight["note"], (product, container)


def test_other_container_weights_that_were_seen() -> None:
    """Pounds net, each from the publication that the recipe names."""
    published = {
        "wsda-2010": {("apple-rings", "box"): 40, ("apricot-halves", "lug"): 24},
        "gda-weights": {("tomatoes", "bushel"): 53, ("tomatoes", "lug"): 32},
        "gfb-bushels": {("sweet-corn", "bushel"): 35, ("onions", "bushel"): 57},
        "msu-1996": {("asparagus", "bushel"): 45, ("beets-boiled", "bushel"): 52},
        "iowa-210-10": {("carrots", "bushel"): 50},
    }
    for source, weights in published.items():
        for (product, container), lb in weights.items():
            weight = RECIPES[product]["containers"][container]
            assert number(weight["value"], "lb") == lb, (product, container)
            assert weight["source"] == source, (product, container)


def test_published_spreads_of_water() -> None:
    """SR28, kinds of one food: five apple cultivars (Fuji to Golden Delicious), navel and Florida
    oranges, crimini and portabella mushrooms, 80/20 and 90/10 beef crumbles, Scotch and frozen kale
    (11622, 11235); for onions the high is sweet onions (11294)."""
    published = {
        "apple-rings": (84.16, 85.81),
        "orange-slices": (85.97, 87.14),
        "mushrooms": (92.12, 92.82),
        "ground-beef-cooked": (54.54, 58.58),
        "kale": (87.00, 91.12),
        "onions": (None, 91.24),
    }
    for product, (low, high) in published.items():
        water = RECIPES[product]["water"]
        assert low is None or number(water["low"], SHARE) == low, product
        assert number(water["high"], SHARE) == high, product


def test_freeze_dried_herbs_and_peppers_aim_at_what_sr28_lists() -> None:
    """SR28 11615, 11625, 11634: freeze-dried chives, parsley, sweet green peppers: 2.00 g water."""
    for product in ("chives", "parsley", "red-peppers", "green-peppers"):
        assert number(RECIPES[product]["target_moisture"]["value"], SHARE) == 2.00


# ------------------------------------------------------- skeletal density


def mixed_density(food: Food, residual: float = 0.02, celsius: float = 20.0) -> float:
    """Density of the dry solid with its residual water, kg/m3: 1 / sum(share / density).

    Choi and Okos (1986), densities of the components by temperature; coefficients from memory, not
    seen. Fibre is taken out of the carbohydrate by difference. Shares are of what the row lists.
    """
    solids = {
        1599.1 - 0.31046 * celsius: food.carbohydrate - food.fibre,
        1329.9 - 0.5184 * celsius: food.protein,
        925.59 - 0.41757 * celsius: food.fat,
        1311.5 - 0.36589 * celsius: food.fibre,
        2423.8 - 0.28063 * celsius: food.ash,
    }
    water = 997.18 + 0.0031439 * celsius - 0.0037574 * celsius**2
    dry = sum(share / density for density, share in solids.items()) / sum(solids.values())
    return 1 / (residual / water + (1 - residual) * dry)


@every_recipe
def test_skeletal_density_is_the_mixing_rule_on_the_published_composition(product: str) -> None:
    recipe = RECIPES[product]
    if product == "vegetable-soup":
        food = cooked_together(soup_table())
    elif product == "kale":
        food = KALE
    else:
        food = SR28[ndb(recipe["water"]["source"]) or ""]
    found = number(recipe["skeletal_density"]["value"], "kg/m3")
    assert found == pytest.approx(mixed_density(food), rel=0.01)


def test_rows_from_memory_are_marked_so_in_the_sources() -> None:
    for key in MEMORY:
        assert "memory" in SOURCES[f"usda-sr28-{key}"]["note"]


# ----------------------------------------------------------------- the soup

SOUP = {
    "tomatoes": "11529", "carrots": "11124", "potatoes, boiled": "11367", "onions": "11282",
    "celery": "11143", "green beans": "11052", "parsley": "11297", "salt": "02047",
}  # fmt: skip


def soup_table() -> dict[str, tuple[float, float, float]]:
    """The table at the head of the recipe: ingredient → grams, water in 100 g, water."""
    text = (FOLDER / "vegetable-soup.yaml").read_text("utf-8")
    rows = re.findall(r"^#   (\S.*?) +([\d.]+) +([\d.]+) +([\d.]+)$", text, re.MULTILINE)
    return {name: (float(a), float(b), float(c)) for name, a, b, c in rows}


def cooked_together(rows: dict[str, tuple[float, float, float]]) -> Food:
    """The composition of the pot, by weight of its ingredients."""
    sums = [0.0] * 7
    for name, (grams, _, _) in rows.items():
        food = Food(100, 0, 0, 0, 0, 0, 0) if name == "water" else SR28[SOUP[name]]
        sums = [total + grams / 100 * part for total, part in zip(sums, food, strict=True)]
    return Food(*sums)


def test_the_water_of_the_soup_is_the_sum_of_its_ingredients() -> None:
    rows = soup_table()
    assert set(rows) == {*SOUP, "water"}
    assert sum(grams for grams, _, _ in rows.values()) == pytest.approx(100)
    for name, (grams, per_100, water) in rows.items():
        assert per_100 == (100 if name == "water" else SR28[SOUP[name]].water)
        assert water == pytest.approx(grams * per_100 / 100, abs=0.006)
    stated = number(RECIPES["vegetable-soup"]["water"]["value"], SHARE)
    assert stated == pytest.approx(cooked_together(rows).water, abs=0.06)


def test_the_label_of_the_soup_names_its_ingredients_by_falling_weight() -> None:
    """Descending order of weight, as label law asks (21 CFR 101.4; from memory, not seen)."""
    rows = soup_table()
    by_weight = sorted(rows, key=lambda name: -rows[name][0])
    listed = RECIPES["vegetable-soup"]["ingredients"].split(", ")
    assert listed == [name.partition(",")[0] for name in by_weight]


# ---------------------------------------------------------------- cautions


def said(product: str) -> str:
    return " ".join(caution["text"] for caution in RECIPES[product]["cautions"])


@every_recipe
def test_cautions_stand_where_the_food_can_hurt(product: str) -> None:
    """Extension services: Kansas State 2021, Idaho 2023, Utah State 2019, Nebraska-Lincoln."""
    recipe, text = RECIPES[product], said(product)
    for caution in recipe["cautions"]:
        assert set(caution) == {"text", "source"} and caution["source"] in SOURCES
    assert "wet pockets" in text and "does not kill" in text
    if recipe["kind"] in ("vegetable", "herb", "mushroom", "meat", "egg", "dairy"):
        assert "botulism" in text or product == "rhubarb"  # the one acid vegetable
    if recipe["kind"] in ("meat", "egg"):
        assert "safe inner temperature" in text
    assert recipe["cook_before_eating"] == ("It stays raw" in text)


def test_fatty_food_says_that_fat_turns_rancid() -> None:
    """More than a fifth of the dry matter fat, by SR28."""
    for product, recipe in RECIPES.items():
        key = ndb(recipe["water"]["source"])
        if key and SR28[key].fat / (100 - SR28[key].water) > 0.2:
            assert "rancid" in said(product), product


def test_allergens_are_named_where_the_food_is_one() -> None:
    for product, recipe in RECIPES.items():
        expected = {"dairy": ["milk"], "egg": ["egg"]}.get(recipe["kind"], [])
        assert recipe["allergens"][: len(expected)] == expected, product
    assert RECIPES["scrambled-egg"]["allergens"] == ["egg", "milk"]


@every_recipe
def test_no_product_bears_a_brand(product: str) -> None:
    """A brand is a proper name: beyond its first letter a name has no capital and no mark."""
    recipe = RECIPES[product]
    for text in (recipe["name"][1:], recipe["ingredients"], recipe["kind"]):
        assert text == text.lower() and not set(text) & set("®™©"), text
