"""Water, solids and yields: composition tables, textbook mass balances, trimming tests."""

from __future__ import annotations

import pytest
from recipes.sr28 import SR28

from published.case import Case, each
from published.figures import Figures, dried

TABLE = (
    "USDA National Nutrient Database for Standard Reference, Release 28 (2016): water in 100 g; "
    "what is left of 100 g when the solids are 98 % of it, as those of freeze-dried chives (11615) "
    "and parsley (11625), 2.00 g water in 100 g"
)


def left(wet: float, dry: float, water: float) -> object:
    return dried(wet, dry, water)("loads", "moisture_left")


def from_dry_basis(moisture: float) -> float:
    """Water over solids, as engineers state it, as water over all of it: M = m / (1 + m)."""
    return moisture / (1 + moisture)


# NDB number, water in 100 g fresh; the weight that 100 g dry down to at 2.00 % water is
# (100 - water) / 0.98, to the digits given. Fresh parsley 87.71, chives 90.65: (100 - 87.71)/0.98.
TO_TWO_PERCENT = [
    ("parsley, fresh", "11297", 87.71, 12.5408),
    ("chives, raw", "11156", 90.65, 9.5408),
    ("pears, raw", "09252", 83.96, 16.3673),
    ("apples, raw, with skin", "09003", 85.56, 14.7347),
    ("sweet corn, yellow, raw", "11167", 76.05, 24.4388),
    ("peas, green, raw", "11304", 78.86, 21.5714),
    ("raspberries, raw", "09302", 85.75, 14.5408),
    ("mushrooms, white, raw", "11260", 92.45, 7.7041),
]


@pytest.mark.parametrize(("food", "ndb", "water", "dry"), TO_TWO_PERCENT)
def test_the_solids_balance_ends_at_the_published_water(
    food: str, ndb: str, water: float, dry: float
) -> None:
    assert SR28[ndb].water == water, f"two readings of the table differ on {food}"
    found = dried(100, dry, water / 100)
    assert found("loads", "moisture_left") == pytest.approx(0.02, abs=5e-6), TABLE
    assert found("loads", "dried_yield") == pytest.approx(dry / 100, rel=1e-12)
    assert found("loads", "drying_ratio") == pytest.approx(98 / (100 - water), rel=5e-6)


EARLE = "Earle, Unit Operations in Food Processing (NZIFST web edition)"
PROBLEMS = "food process engineering problem set (wet and dry basis)"

BALANCES = [
    Case(
        "10 kg at 320 % dry basis, dried to 50 % wet basis: water removed, kg",
        # water 10 × 3.2/4.2 = 7.619, solids 2.381, so 4.762 kg at 50 %: 10 - 4.762
        PROBLEMS, "worked",
        lambda: dried(10, 10 / 4.2 / 0.5, 0.8)("loads", "water_removed"), 5.2381, 1e-5,
    ),
    Case(
        "the same: moisture left is the 50 % it was dried to",
        PROBLEMS, "worked",
        lambda: left(10, 4.7619, from_dry_basis(3.2)), 0.50, 1e-5,
    ),
    Case(
        "5 kg at 150 % dry basis, dried to 20 % wet basis: water removed, kg",
        PROBLEMS, "worked",  # solids 2 kg, product 2.5 kg
        lambda: dried(5, 2.5, from_dry_basis(1.5))("loads", "water_removed"), 2.5,
    ),
    Case(
        "the same: moisture left is the 20 % it was dried to",
        PROBLEMS, "worked",
        lambda: left(5, 2.5, from_dry_basis(1.5)), 0.20,
    ),
    Case(
        "100 kg cassava from 70 % to 12 %: 34.09 kg are left, so 12 % is",
        PROBLEMS, "worked",
        lambda: left(100, 34.0909, 0.70), 0.12, 1e-5,
    ),
    Case(
        "200 kg mushrooms from 90 % to 12 %: 22.73 kg are left, so 12 % is",
        PROBLEMS, "worked",
        lambda: left(200, 22.7273, 0.90), 0.12, 1e-5,
    ),
    Case(
        "10 kg puree at 85 % water, freeze-dried to 2.5 kg: final moisture, wet basis",
        PROBLEMS, "worked",  # 1.5 kg solids in 2.5 kg: not dry at all
        lambda: left(10, 2.5, 0.85), 0.40,
    ),
    Case(
        "potatoes of 14 % solids, 8 % lost in peeling, dried to 93 % solids: yield of raw",
        EARLE + ", example 2.8 (the title was seen)", "from memory, not seen",
        lambda: dried(920, 128.8 / 0.93, 0.86, weighed=1000, prepped_weighed=920)(
            "products", "overall_yield"), 0.1385, 1e-4,
    ),
    Case(
        "the same: water evaporated from 1000 kg raw, kg",
        EARLE + ", example 2.8", "from memory, not seen",
        lambda: dried(920, 128.8 / 0.93, 0.86)("loads", "water_removed"), 781.5, 1e-4,
    ),
    Case(
        "food of 80 % water dried to 10 %: water removed by 1 kg, kg",
        EARLE + ", examples 7.1 to 7.3", "from memory, not seen",
        lambda: dried(1, 0.2 / 0.9, 0.8)("loads", "water_removed"), 0.778, 1e-3,
    ),
    Case(
        "a 24 lb lug of apricots, 7 % refuse, 86.35 % water, dried to 3 %: dried weight, g",
        # 24 × 453.59237 = 10886.2 g; × 0.93 = 10124.2 prepared; × 0.1365 / 0.97 = 1424.7
        "SR28 apricots (09021): water 86.35, refuse 7; a lug of 24 lb: Washington State "
        "Department of Agriculture, Standard Pack Size chart", "worked",
        lambda: _apricots("dried"), 1424.7, 1e-4,
    ),
    Case(
        "the same: the 3 % it was dried to",
        "SR28 apricots (09021)", "worked", lambda: _apricots("moisture_left"), 0.03, 1e-4,
    ),
    Case(
        "the same: dried from purchased, 13.09 %",
        "SR28 apricots (09021)", "worked", lambda: _apricots("overall_yield"), 0.1309, 5e-4,
    ),
]  # fmt: skip


def _apricots(name: str) -> object:
    grams = 24 * 453.59237
    found = dried(
        grams * 0.93, 1424.69, 0.8635, fresh="g", dried="g", weighed=grams,
        prepped_weighed=grams * 0.93,
    )  # fmt: skip
    return found("loads" if name == "moisture_left" else "products", name)


@each(BALANCES)
def test_a_mass_balance(case: Case) -> None:
    case.check()


BAKERY = "Bakery and Business Math (open textbook), ch. 25, Yield Percents"


def prepared(as_purchased: float, prep_yield: float) -> Figures:
    """A lot that was weighed as it was bought; the rest comes from the recipe."""
    return Figures(
        products=[{"key": "food", "prep_yield": prep_yield}],
        lots=[{"key": "lot", "product": "food", "weighed": as_purchased}],
    )


def trimmed(as_purchased: float, usable: float) -> object:
    """The yield of a lot that was weighed before and after trimming."""
    lot = {"key": "lot", "weighed": as_purchased, "prepped_weighed": usable}
    return Figures(lots=[lot])("lots", "prep_yield")


TRIMMING = [
    Case(
        "3 lb zucchini at 95 %: usable, lb",
        BAKERY, "seen", lambda: prepared(3, 0.95)("lots", "prepped"), 2.85,
    ),
    Case(
        "41.03 oz pears at 78 %: the 32 oz that were wanted",
        BAKERY, "seen", lambda: prepared(41.03, 0.78)("lots", "prepped"), 32, 2e-4,
    ),
    Case(
        "1 lb apples, cored and unpeeled: 0.91 lb ready to use",
        "USDA Food Buying Guide for Child Nutrition Programs, Fruits", "seen",
        lambda: prepared(1, 0.91)("lots", "prepped"), 0.91,
    ),
    Case(
        "80 oz carrots, 8.8 oz of it trimmed off: yield",
        "Culinary Institute of America, guide to recipe calculation, ch. on yields", "seen",
        lambda: trimmed(80, 80 - 8.8), 0.89,
    ),
    Case(
        "10 lb Brussels sprouts at 80 %: ready to cook, lb",
        "a professional cooking textbook (2014), section on trimming loss", "seen",
        lambda: prepared(10, 0.80)("lots", "prepped"), 8,
    ),
]  # fmt: skip


@each(TRIMMING)
def test_a_trimming_yield(case: Case) -> None:
    case.check()
