"""Every scalar of ``season.yaml`` has a cell that is named by its path and holds its value."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import yaml

from reportgen.program import build

pytestmark = pytest.mark.slow

SAMPLES = Path(__file__).parent.parent.parent / "samples"
NO_CELL = re.compile(r"season|currency|timezone|paper|locale|language|units_(fresh|dried)|.*_id")
"""What says how the workbook is made, and the ids, which are keys."""


def scalars(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """All that is written, with its path; items of a list by their id, else by position."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from scalars(each, (*path, str(key)))
    elif isinstance(value, list) and path[-1] != "days":
        for position, each in enumerate(value, 1):
            yield from scalars(each, (*path, str(each.get("id", position))))
    else:
        yield path, value


def number(text: str) -> float | None:
    """The leading number of what was written; None for a text, a day or a clock time."""
    found = re.match(r"\d+(\.\d+)?(?![\d:-])", text)
    return float(found[0]) if found else None


@pytest.mark.parametrize("sample", ["windrow-lane", "colline"])
def test_each_scalar_of_a_sample(sample: str) -> None:
    data, _ = build(SAMPLES / sample)
    assert data is not None
    book = openpyxl.load_workbook(io.BytesIO(data), data_only=True)
    text = (SAMPLES / sample / "season.yaml").read_text(encoding="utf-8")
    written = list(scalars(yaml.load(text, yaml.BaseLoader)))
    numbers = same = 0
    for path, value in written:
        name = "_".join(re.sub(r"\W", "_", part) for part in path)
        if NO_CELL.fullmatch(name):
            continue
        assert name in book.defined_names, name
        ((sheet, cell),) = book.defined_names[name].destinations
        held = book[sheet][cell.replace("$", "")].value
        assert held is not None, name
        if isinstance(held, str):
            assert held == value, name
        wanted = number(value)
        if wanted is not None and isinstance(held, int | float):
            # Units may differ between file and cell; most are written as they are shown.
            numbers += 1
            same += held == pytest.approx(wanted) or held == pytest.approx(wanted / 100)
    assert same > 0.9 * numbers > 80


def test_periods_of_the_tariff_go_by_position() -> None:
    data, _ = build(SAMPLES / "colline")
    assert data is not None
    book = openpyxl.load_workbook(io.BytesIO(data), data_only=True)

    def held(name: str) -> object:
        ((sheet, cell),) = book.defined_names[name].destinations
        return book[sheet][cell.replace("$", "")].value

    assert held("rates_electricity_1_price") == 0.181
    assert held("rates_electricity_1_from") == "22:30"
    assert held("rates_electricity_1_to") == "06:30"
    assert held("rates_electricity_2_price") == 0.231
    assert held("scenarios_unpaid_labor") == 0
    assert held("scenarios_dear_fruit_ingredients") == 1.25
