"""Records that stand under their names: ``channels: {stall: {fees: 3 %}}``; edits of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import LIST_FILE, SEASON_FILE, SETTINGS, Desk, desk, write_season

pytestmark = pytest.mark.slow

BLOCK = "channels:\n  stall: {fees: 3 %}   # the card reader\n  cafe:\n    tax: 10 %\n"
FLOW = "channels: {stall: {fees: 3 %}, cafe: {tax: 10 %}}\n"


def at_desk(tmp_path: Path, channels: str) -> Desk:
    made = write_season(tmp_path / "made")
    (made / SEASON_FILE).write_text(SETTINGS + channels, "utf-8")
    return desk(tmp_path / "desk", made)


def taken(at: Desk, *options: str) -> str:
    done = at.run("take", *options)
    assert done.exit_code == 0, done.output
    left = {change["kind"] for change in at.compare()}
    assert left <= {"home"}, left
    return at.texts()[SEASON_FILE].removeprefix(SETTINGS)


def typed(at: Desk, table: str, values: dict[str, object], row: str | int | None = None) -> None:
    at.type(
        {
            at.at.new(table, name) if row is None else at.at.cell(table, row, name): value
            for name, value in values.items()
        }  # type: ignore[arg-type]
    )


@pytest.mark.parametrize(
    ("channels", "row", "values", "after"),
    [
        (BLOCK, "cafe", {"tax": 0.12}, BLOCK.replace("10 %", "12 %")),
        (FLOW, "cafe", {"fees": 0.2}, FLOW.replace("10 %}", "10 %, fees: 20 %}")),
        ("", "co-op", {"fees": 0.05}, "channels: {co-op: {fees: 5 %}}\n"),
        (BLOCK, "co-op", {"fees": 0.05}, BLOCK + "  co-op: {fees: 5 %}\n"),
        (FLOW, "co-op", {"tax": 0.1}, FLOW.replace("10 %}}", "10 %}, co-op: {tax: 10 %}}")),
        (
            BLOCK,
            None,
            {"key": "porch", "discount": 0.1},
            BLOCK + "  porch: {discount: 10 %}\n",
        ),
        ("", None, {"key": "porch", "tax": 0.1}, "channels: {porch: {tax: 10 %}}\n"),
        (BLOCK, "cafe", {"key": "tearoom"}, BLOCK.replace("cafe", "tearoom")),
    ],
)
def test_what_is_typed_comes_home(
    tmp_path: Path, channels: str, row: str | None, values: dict[str, object], after: str
) -> None:
    at = at_desk(tmp_path, channels)
    typed(at, "channels", values, row)
    assert taken(at) == after


@pytest.mark.parametrize(("channels", "after"), [
    (BLOCK, BLOCK.replace("  cafe:\n    tax: 10 %\n", "")),
    (FLOW, FLOW.replace(", cafe: {tax: 10 %}", "")),
])  # fmt: skip
def test_one_that_is_taken_away(tmp_path: Path, channels: str, after: str) -> None:
    at = at_desk(tmp_path, channels)
    at.clear("channels", "cafe")
    assert taken(at, "--removals") == after


def test_one_that_a_sale_names_stays(tmp_path: Path) -> None:
    at = at_desk(tmp_path, BLOCK)
    at.clear("channels", "stall")
    done = at.run("take", "--removals")
    assert done.exit_code == 1 and "the use use-1 names it" in done.output


@pytest.mark.parametrize(("values", "word"), [
    ({"channel": "cafe"}, "cafe"), ({"channel": None, "purpose": "gift"}, "gift"),
])  # fmt: skip
def test_a_use_goes_from_one_column_to_the_other(
    tmp_path: Path, values: dict[str, object], word: str
) -> None:
    at = at_desk(tmp_path, BLOCK)
    before = at.texts()[LIST_FILE]
    typed(at, "uses", values, 1)
    taken(at)
    assert at.texts()[LIST_FILE] == before.replace("for: stall", f"for: {word}")


ASKED = "asked:\n  - {product: pear-slices, container: jar, net: 2 oz, price: 9 USD}   # always\n"


def test_an_asked_price_comes_home(tmp_path: Path) -> None:
    at = at_desk(tmp_path, ASKED)
    typed(at, "asking", {"price": 9.5}, 1)
    assert taken(at) == ASKED.replace("9 USD", "9.5 USD")


def test_a_new_price_from_a_day_on_comes_home(tmp_path: Path) -> None:
    at = at_desk(tmp_path, ASKED)
    values = {"product": "pear-slices", "container": "jar", "net": 2.0, "price": 11.0}
    typed(at, "asking", {"key": "asked-9", **values, "since": 45_931.0})
    assert taken(at) == ASKED
    text = at.texts()["batches/2025-10-01.yaml"]
    assert "asked:" in text and "from: 2025-10-01" in text and "price: 11 USD" in text
