"""What was bought by the box and weighed later: the line ``bought`` has no room for a weight."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import SHORT_FILE, Desk, desk
from reportgen.edits.rewrite import Rewriter

pytestmark = pytest.mark.slow
LOT = "apples-2025-09-12"
BOUGHT = "bought: 2 box at 15 USD\n"


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


def typed(at: Desk, **values: object) -> None:
    at.type({at.at.cell("lots", LOT, name): value for name, value in values.items()})  # type: ignore[misc]


@pytest.mark.parametrize(
    ("values", "lines"),
    [
        ({"weighed": 22.1}, [BOUGHT, "weighed: 22.1 lb\n"]),
        ({"weighed": "10 kg"}, [BOUGHT, "weighed: 10 kg\n"]),
        ({"weighed": 22.1, "count": 3}, ["bought: 3 box at 15 USD\n", "weighed: 22.1 lb\n"]),
        ({"weighed": 22.1, "price_each": 16.5},
         ["bought: 2 box at 16.5 USD\n", "weighed: 22.1 lb\n"]),
        ({"weighed": 22.1, "prepped_weighed": 21},
         [BOUGHT, "weighed: 22.1 lb\n", "prepped: 21 lb\n"]),
        ({"weighed": 22.1, "price_each": None, "price_by_weight": 1.25},
         ["weighed: 22.1 lb\n", "at 1.25 USD/lb"]),
        ({"grown": 1, "price_each": None}, ["grown: true\n"]),
    ],
)  # fmt: skip
def test_a_weight_gets_a_line_of_its_own(
    at: Desk, values: dict[str, object], lines: list[str]
) -> None:
    typed(at, **values)
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 0, done.output
    text = at.texts()[SHORT_FILE]
    assert [line for line in lines if line not in text] == []
    assert {name for name, each in at.texts().items() if each != before[name]} == {SHORT_FILE}
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."
    taken = at.texts()
    assert at.run("take").exit_code == 0 and at.texts() == taken


@pytest.mark.parametrize("bought", ["31 lb at 1.10 USD/lb", "31 lb for 34 USD", "31 lb"])
def test_what_was_bought_by_weight_keeps_it_where_a_container_is_named(
    tmp_path: Path, bought: str
) -> None:
    at = desk(tmp_path)
    at.write(SHORT_FILE, BOUGHT, f"bought: {bought}\n")
    season = at.folder.rename(tmp_path / "by-weight")
    at = desk(tmp_path / "again", season)
    typed(at, count=1, container="box")
    done = at.run("take")
    assert done.exit_code == 0, done.output
    text = at.texts()[SHORT_FILE]
    assert "bought: 1 box" in text and "weighed: 31 lb\n" in text
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


@pytest.mark.parametrize(
    ("bought", "values", "lines"),
    [
        ("grown", {"weighed": 22.1}, ["bought: grown\n", "weighed: 22.1 lb\n"]),
        ("grown", {"price_total": 4}, ["bought: grown\n", "price: 4 USD\n"]),
        ("grown", {"container": "box", "weighed": 31}, ["grown: true\n", "bought: 1 box"]),
        ("grown", {"grown": None, "weighed": 31}, ["bought: 31 lb"]),
        ("31 lb for 34 USD", {"grown": 1},
         ["bought: grown", "weighed: 31 lb\n", "price: 34 USD\n"]),
    ],
)  # fmt: skip
def test_what_was_grown_stays_so(
    tmp_path: Path, bought: str, values: dict[str, object], lines: list[str]
) -> None:
    at = desk(tmp_path)
    at.write(SHORT_FILE, BOUGHT, f"bought: {bought}\n")
    at = desk(tmp_path / "again", at.folder)
    typed(at, **values)
    done = at.run("take")
    assert done.exit_code == 0, done.output
    text = at.texts()[SHORT_FILE]
    assert [line for line in lines if line not in text] == []
    assert at.run("compare").stdout.splitlines()[-1] == "Nothing is left to take."


def test_nothing_is_written_where_a_number_would_be_lost(
    at: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a writer with a fault would lose it."""
    monkeypatch.setattr(Rewriter, "_key", lambda *_: None)
    typed(at, weighed=22.1, count=3)
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1 and at.texts() == before
    assert "weighed: it could not be written into the files" in done.output
