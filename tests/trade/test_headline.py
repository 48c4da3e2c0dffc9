"""Each product in a sentence: what is known is said, what is not is left out."""

from __future__ import annotations

from pathlib import Path

from trade.small import season
from trade.test_scenarios import MORE, SEASON


def test_a_product_in_a_sentence(tmp_path: Path) -> None:
    # (23.50 × 20/32 + 10) / 20 = 1.234 an ounce, 49 % of the shops' 2.50; nothing is estimated.
    found = season(tmp_path, SEASON, MORE)
    assert found("products", "said_of_cost") == "running cost 1.23 USD/oz packed"
    assert found("products", "said_of_shops") == ", 49 % of the shops' median"
    assert found("products", "said_of_estimates") == "; 0 % of it rests on estimates"
    assert found("products", "headline") == (
        "Turnip cubes: running cost 1.23 USD/oz packed, 49 % of the shops' median; "
        "0 % of it rests on estimates"
    )


def test_a_low_cost_by_weight_is_told_more_finely(tmp_path: Path) -> None:
    """A gram costs a few cents: two places would tell most products alike."""
    grams = MORE.replace("units: {fresh: lb, dried: oz}", "units: {fresh: kg, dried: g}")
    # 1.234 an ounce of 28.349523125 g.
    found = season(tmp_path, SEASON, grams)
    assert found("products", "said_of_cost") == "running cost 0.0435 USD/g packed"


def test_what_is_not_known_is_not_said(tmp_path: Path) -> None:
    found = season(tmp_path, SEASON.replace("price: 30 USD,", ""), MORE)
    assert found("products", "headline") == "Turnip cubes: no cost by packed weight yet"
    text = SEASON[: SEASON.index("offers:")]
    assert "shops" not in str(season(tmp_path, text, MORE)("products", "headline"))
