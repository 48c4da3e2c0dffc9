"""The price list and shelf tickets: which sizes, prices, units and cautions."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from lxml import html
from trade.small import HEAD, RECIPES

from reportgen.cli import app
from reportgen.labels import tickets

pytestmark = pytest.mark.seasons

# One avoirdupois ounce is 28.349523125 g and a pound 16 ounces (NIST Handbook 44, Appendix C; from
# memory). A unit price is the final price, all taxes in it, for one kilogram or another single
# quantity that is customary: Directive 98/6/EC, article 2 (b), read in a quotation. Uniform Unit
# Pricing Regulation, NIST Handbook 130 (2014), section 2 (a), read in a quotation: by weight it is
# per kilogram or 100 g, or per pound or ounce. ISO 21041 is located, not read.
BY_WEIGHT = {"kg", "100g", "lb", "oz"}
OUNCE = Fraction("28.349523125")
BATCH = """
channels: {cafe: {discount: 25 %, tax: 10 %}}
asked:
  - {product: turnip-cubes, container: tin, net: 4 oz, price: 11.50 USD}
  - {product: beet-cubes, container: tin, net: 2 oz, price: 7 USD}
lots: [{id: t, product: turnip-cubes, price: 20 USD, prepped: 40 lb}]
runs: [{id: r, duration: 20 h, energy: 16 kWh,
        loads: [{lot: t, wet: 30 lb, dry: 42 oz, dryness: {water_activity: WET}}]}]
packs: [{id: P, product: turnip-cubes, container: tin, count: 9, net: 4 oz, from: [r]},
        {id: Q, product: turnip-cubes, container: tin, count: 2, net: 3 oz, from: [r]}]
uses: [{date: 2025-09-09, pack: Q, count: 2, for: gift}]
"""


def run(
    tmp_path: Path,
    *options: str,
    wet: str = "0.24",
    head: str = HEAD,
    change: tuple[str, str] = ("", ""),
    batch: str = BATCH,
) -> Result:
    folder = tmp_path / "hill"
    (folder / "recipes").mkdir(parents=True, exist_ok=True)
    for name, recipe in RECIPES.items():
        (folder / "recipes" / f"{name}.yaml").write_text(recipe)
    batch = batch.replace("WET", wet).replace(*change, 1)
    (folder / "season.yaml").write_text(head + batch)
    into = tmp_path / "prices.html"
    return CliRunner().invoke(app, ["prices", str(folder), "-o", str(into), "--force", *options])


def cells(tmp_path: Path) -> list[list[str]]:
    page = html.fromstring((tmp_path / "prices.html").read_bytes().decode())
    return [
        [" ".join(each.text_content().split()) for each in row.xpath("td[contains(@class, 'n')]")]
        for row in page.xpath("//tbody/tr")
    ]


@pytest.mark.parametrize(
    ("unit", "ounces"),
    [("lb", Fraction(16)), ("oz", Fraction(1)), ("kg", 1000 / OUNCE), ("100g", 100 / OUNCE)],
)
def test_the_unit_price_is_price_over_net_quantity(
    tmp_path: Path, unit: str, ounces: Fraction
) -> None:
    assert run(tmp_path, "--unit", unit).exit_code == 0
    ((price, by_unit),) = cells(tmp_path)
    assert price == "$11.50"
    said = re.fullmatch(r"\$([\d.]+) per (.+)", by_unit)
    assert said is not None and said[2].replace(" ", "") == unit
    assert float(said[1]) == pytest.approx(float(Fraction("11.5") / 4 * ounces), abs=0.005)


def test_the_units_are_those_of_the_uniform_regulation(tmp_path: Path) -> None:
    assert {*tickets.UNITS} == BY_WEIGHT
    assert run(tmp_path, "--unit", "stone").exit_code == 2


def test_a_channel_has_its_discount_and_says_its_tax(tmp_path: Path) -> None:
    assert run(tmp_path, "--channel", "cafe").exit_code == 0
    assert cells(tmp_path) == [["$8.63", "$34.50 per lb"]], "a quarter off 11.50, tax in both"
    text = (tmp_path / "prices.html").read_text()
    assert "10 % tax is in the price" in text and "cafe" in text


def test_only_what_is_on_the_shelf_and_once_on_each(tmp_path: Path) -> None:
    """Beets are asked for and not packed; of the small tins none is left."""
    assert run(tmp_path).exit_code == 0
    page = html.fromstring((tmp_path / "prices.html").read_bytes().decode())
    assert len(page.xpath("//tbody/tr")) == len(page.xpath("//article")) == 1
    (ticket,) = page.xpath("//article")
    text = " ".join(ticket.text_content().split())
    assert "$11.50" in text and "Net wt 4 oz (113 g)" in text and "Allergens" in text


def test_cautions_stand_as_on_labels(tmp_path: Path) -> None:
    assert "Dryness" not in _ticket(tmp_path, "0.24")
    done = run(tmp_path, wet="0.7")
    assert done.exit_code == 1 and "may not be dry" in done.output
    assert not cells(tmp_path) or "No price list was made" in done.output
    text = " ".join((tmp_path / "prices.html").read_text().split())
    assert "licensed authority has the last word" in text


def test_what_is_past_its_day_is_not_offered(tmp_path: Path) -> None:
    """A size that is all past it is on neither; of one that is not, the others are offered."""
    left = "net: 4 oz, from: [r]}"
    old = "net: 4 oz, carried: {running: 3 USD, full: 4 USD, best_by: 2025-01-01, dryness: dry}}"
    done = run(tmp_path, change=(left, old))
    assert done.exit_code == 1 and "pack P (turnip-cubes/tin/4) is past its best-by" in done.output
    assert "No price list was made" in done.output and not (tmp_path / "prices.html").exists()
    both = f"{left},\n  {{id: O, product: turnip-cubes, container: tin, count: 1, {old}"
    done = run(tmp_path, change=(left, both))
    assert done.exit_code == 0 and "pack O (turnip-cubes/tin/4) is past" in done.output
    assert cells(tmp_path) == [["$11.50", "$46.00 per lb"]]
    assert "BEST-BY" not in (tmp_path / "prices.html").read_text()


def test_what_may_not_be_dry_is_not_offered_beside_what_is(tmp_path: Path) -> None:
    wet = """{id: moist, duration: 20 h, energy: 1 kWh,
        loads: [{lot: t, wet: 5 lb, dry: 9 oz, dryness: {water_activity: 0.7}}]}, {id: r,"""
    more = (
        "net: 3 oz, from: [r]}",
        "net: 3 oz, from: [r]},\n"
        "  {id: W, product: turnip-cubes, container: tin, count: 2, net: 4 oz, from: [moist]}",
    )
    text = BATCH.replace("{id: r,", wet, 1)
    done = run(tmp_path, change=more, batch=text)
    assert done.exit_code == 1 and "pack W (turnip-cubes/tin/4) may not be dry" in done.output
    assert cells(tmp_path) == [["$11.50", "$46.00 per lb"]]


def _ticket(tmp_path: Path, wet: str) -> str:
    assert run(tmp_path, wet=wet).exit_code == 0
    page = html.fromstring((tmp_path / "prices.html").read_bytes().decode())
    return str(page.xpath("//article")[0].text_content())


def test_a_channel_that_is_not_there(tmp_path: Path) -> None:
    done = run(tmp_path, "--channel", "cafee")
    assert done.exit_code == 2 and "did you mean cafe?" in done.output


def test_it_is_in_the_seasons_language(tmp_path: Path) -> None:
    assert run(tmp_path, head=HEAD + "locale: fr-FR\n").exit_code == 0
    page = html.fromstring((tmp_path / "prices.html").read_bytes().decode())
    assert page.get("lang") == "fr" and page.xpath("string(//h1)") == "Prix"
    assert cells(tmp_path)[0][0].startswith("11,50")
