"""Market days in the workbook: a pack of a day is an entry in several mappings of its record."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import LIST_FILE, Desk, desk, write_season

pytestmark = pytest.mark.slow

MARKETS = """\
markets:
  - id: green
    date: 2025-10-11
    channel: stall
    fee: 9 USD                    # for the corner place
    took: {P-1: 3, P-3: 2}        # in the blue crate
    back: {P-1: 1}
    samples:
      P-3: 1                      # to taste
    takings: {cash: 20 USD, card: 11 USD}
  - {id: mill, date: 2025-10-18, channel: stall, took: {P-1: 1}}
"""
FILE = "batches/days.yaml"
MORE = """\
packs:
  - {id: P-3, product: pear-slices, date: 2025-09-10, container: jar, count: 4, net: 2 oz}
asked:
  - {product: pear-slices, container: jar, net: 2 oz, price: 9 USD}
"""


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    season = write_season(tmp_path / "written")
    (season / FILE).write_text(MORE + MARKETS, "utf-8")
    return desk(tmp_path, season)


def taken(at: Desk, typed: dict[tuple[str, str], object], *options: str) -> str:
    """The lines of the markets after what was typed came home; a second take changes no byte."""
    at.type(typed)  # type: ignore[arg-type]
    done = at.run("take", *options)
    assert done.exit_code == 0, done.output
    after = at.texts()
    assert at.run("take", *options).exit_code == 0 and at.texts() == after
    return after[FILE].removeprefix(MORE)


def test_a_number_changes_its_own_entry_and_nothing_else(at: Desk) -> None:
    cell = at.at.cell
    text = taken(at, {
        cell("market_packs", "green/P-1", "back"): 2,
        cell("market_packs", "green/P-1", "price_written"): 8.5,
        cell("market_packs", "mill/P-1", "samples"): 1,
        cell("markets", "green", "labor"): 4,
        cell("market_takings", 1, "amount"): 22.5,
    })  # fmt: skip
    assert text == (
        MARKETS.replace("back: {P-1: 1}", "back: {P-1: 2}")
        .replace("cash: 20 USD", "cash: 22.5 USD")
        .replace("took: {P-1: 1}}", "took: {P-1: 1}, samples: {P-1: 1}}")
        .replace("card: 11 USD}\n", "card: 11 USD}\n    labor: 4 h\n    prices: {P-1: 8.5 USD}\n")
    )


def test_a_cell_that_is_emptied_takes_its_entry_away(at: Desk) -> None:
    text = taken(at, {
        at.at.cell("market_packs", "green/P-1", "back"): None,
        at.at.cell("market_packs", "green/P-3", "samples"): None,
    })  # fmt: skip
    assert "back:" not in text and "samples:" not in text and "took: {P-1: 3, P-3: 2}" in text


def test_a_pack_added_to_a_day_and_another_sum(at: Desk) -> None:
    new = at.at.new
    text = taken(at, {
        new("market_packs", "market"): "mill", new("market_packs", "pack"): "P-3",
        new("market_packs", "took"): 2, new("market_packs", "back"): 1,
        new("market_takings", "key"): "sum-9",
        new("market_takings", "market"): "mill", new("market_takings", "kind"): "cash",
        new("market_takings", "amount"): 7,
    })  # fmt: skip
    assert text == MARKETS.replace(
        "took: {P-1: 1}}", "took: {P-1: 1, P-3: 2}, back: {P-3: 1}, takings: {cash: 7 USD}}"
    )


def test_a_day_added_with_its_packs(at: Desk) -> None:
    new = at.at.new
    text = taken(at, {
        new("markets", "key"): "hill", new("markets", "date"): 45962.0,
        new("markets", "channel"): "co-op", new("markets", "fee"): 5,
        new("market_packs", "market"): "hill", new("market_packs", "pack"): "P-1",
        new("market_packs", "took"): 1, new("market_packs", "price_written"): 8,
    })  # fmt: skip
    whole = "".join(at.texts().values())
    assert "{id: hill, date: 2025-11-01, channel: co-op, fee: 5 USD, took: {P-1: 1}, " in whole
    assert "prices: {P-1: 8 USD}" in whole and text.startswith("markets:")


def test_packs_taken_out_of_a_day(at: Desk) -> None:
    """Both of one day: the mappings go with them; and the day itself."""
    names = ("market", "pack", "took", "back", "samples")
    rows = ("green/P-1", "green/P-3")
    gone = {at.at.cell("market_packs", row, name): None for row in rows for name in names}
    text = taken(at, {**gone}, "--removals")
    assert "P-1: 3" not in text and "P-3" not in text and "took: {P-1: 1}" in text
    assert "takings: {cash: 20 USD, card: 11 USD}" in text


def test_a_day_taken_away_whole(at: Desk) -> None:
    names = ("key", "date", "channel")
    gone: dict[tuple[str, str], object] = {at.at.cell("markets", "mill", n): None for n in names}
    row = ("market", "pack", "took")
    gone |= {at.at.cell("market_packs", "mill/P-1", name): None for name in row}
    text = taken(at, gone, "--removals")
    assert text == MARKETS.replace(
        "  - {id: mill, date: 2025-10-18, channel: stall, took: {P-1: 1}}\n", ""
    )


def test_a_pack_under_another_id_is_followed(at: Desk) -> None:
    text = taken(at, {at.at.cell("packs", "P-1", "key"): "P-9"})
    assert text == MARKETS.replace("P-1", "P-9")
    assert "pack: P-9" in at.texts()[LIST_FILE]


def test_a_pack_moved_to_another_day_and_one_that_was_another(at: Desk) -> None:
    text = taken(at, {
        at.at.cell("market_packs", "green/P-3", "market"): "mill",
        at.at.cell("market_takings", 2, "kind"): "cards",
    })  # fmt: skip
    assert "took: {P-1: 3}" in text and "samples:" not in text.partition("- {id: mill")[0]
    assert "took: {P-1: 1, P-3: 2}, samples: {P-3: 1}" in text
    assert "cards: 11 USD" in text


def test_what_cannot_be_is_refused_with_its_cell(at: Desk) -> None:
    before = at.texts()
    sheet, cell = at.at.cell("market_packs", "green/P-1", "back")
    at.type({(sheet, cell): 4})
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    assert f"{sheet}!{cell}" in done.output
    assert "more of P-1 came back than were taken there" in done.output
