"""A costing sheet comes back from a partner: it is compared, and never taken."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from cli.seasons import run

from edits.desk import LIST_FILE, SEASON_FILE, Desk, _places, desk

pytestmark = pytest.mark.slow


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return costing(desk(tmp_path), tmp_path)


def costing(home: Desk, folder: Path, *options: str) -> Desk:
    """The costing sheet of pears, beside the season that it was made from."""
    done = run("sheet", home.folder, "pear-slices", "-o", folder, *options)
    assert done.exit_code == 0, done.output
    book = folder / "pear-slices.xlsx"
    return Desk(home.folder, book, _places(book.read_bytes()))


def said(at: Desk) -> dict[str, dict[str, object]]:
    done = at.run("compare", "--json")
    assert done.exit_code == 0, done.output
    found = json.loads(done.stdout)
    assert isinstance(found["left"], int)
    return {f"{each['table']}.{each['quantity']}": each for each in found["effects"]}


@pytest.mark.parametrize("options", [(), ("--all",)])
def test_as_it_was_made_it_says_nothing(tmp_path: Path, options: tuple[str, ...]) -> None:
    at = costing(desk(tmp_path), tmp_path, *options)
    assert at.compare() == [] and said(at) == {}


def test_what_a_partner_changed_and_what_it_does(at: Desk) -> None:
    at.type({at.at.cell("loads", "run-1/pears-1", "dry"): 24.0,
             at.at.cell("pricing", "pricing", "margin"): 0.25})  # fmt: skip
    changes = at.compare()
    assert [
        (each["table"], each["field"], each["built"], each["edited"], each["now"], each["kind"])
        for each in changes
    ] == [
        ("loads", "dry", 26.0, 24.0, 26.0, "change"),
        ("pricing", "margin", None, 0.25, None, "change"),
    ]
    assert str(changes[0]["file"]) == LIST_FILE and changes[0]["line"]
    effects = said(at)
    # Less came out for the same money, and 1.5 oz of it were crumbs in either case: what is not
    # packaging costs 24.5/22.5 as much by weight.
    cost = effects["products.running_per_packed"]
    packaging = (0.40 + 1.80 / 20) / 2
    before, after = float(str(cost["before"])), float(str(cost["after"]))
    assert (after - packaging) / (before - packaging) == pytest.approx(24.5 / 22.5)
    # A pack of 2 oz without fees: the floor is what it costs in full.
    floor = effects["prices.price_floor"]
    rise = float(str(floor["after"])) - float(str(floor["before"]))
    assert rise == pytest.approx(
        2 * (float(str(effects["products.full_per_packed"]["after"]))
             - float(str(effects["products.full_per_packed"]["before"])))
    )  # fmt: skip


def test_the_files_have_moved_on_meanwhile(at: Desk) -> None:
    at.type({at.at.cell("loads", "run-1/pears-1", "dry"): 24.0})
    at.write(LIST_FILE, "dry: 26 oz", "dry: 25 oz")
    assert at.kinds() == ["conflict"]
    at.write(LIST_FILE, "dry: 25 oz", "dry: 24 oz")
    assert at.kinds() == ["home"]


def test_an_offer_that_was_added_and_one_taken_away(at: Desk) -> None:
    new = {"key": "o-2", "product": "pear-slices", "net": 4.0, "price": 8.0}
    at.type({at.at.new("offers", name): value for name, value in new.items()})
    at.clear("offers", "o-1")
    assert sorted(at.kinds()) == ["added", "removed"]
    ratio = said(at)["products.running_to_retail"]
    assert float(str(ratio["after"])) / float(str(ratio["before"])) == pytest.approx(10 / 8)


def test_take_refuses_it_by_name(at: Desk) -> None:
    before = at.texts()
    at.type({at.at.cell("loads", "run-1/pears-1", "dry"): 24.0})
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    assert "the costing sheet of pear-slices" in done.output and "compare" in done.output


def test_a_season_without_the_product_says_so(at: Desk) -> None:
    for each in (at.folder / "batches").iterdir():
        each.unlink()
    at.write(SEASON_FILE, "product: pear-slices", "product: apple-rings")
    done = at.run("compare")
    assert done.exit_code == 1 and "pear-slices, which the season does not have" in done.output
