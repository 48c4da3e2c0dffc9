"""A day's work in the notebook, by pencil."""

from __future__ import annotations

import pytest
from published.figures import Figures


def test_what_can_be_known_of_a_row_before_it_counts() -> None:
    row = {"product": "food", "wet": 8.0, "dry": 1.0}
    found = Figures(products=[{"key": "food"}], notebook=[row])
    cells = found.numbers.cells["notebook"]
    assert cells["dried_yield"] == [pytest.approx(0.125)]
    assert cells["drying_ratio"] == [pytest.approx(8)]
    assert found("season", "notebook_waiting") == 1


def test_a_row_waits_as_soon_as_anything_is_written_in_it() -> None:
    rows = [{"product": "food"}, {"dry": 1.0}, {}]
    found = Figures(products=[{"key": "food"}], notebook=rows)
    assert found.numbers.cells["notebook"]["key"] == ["waits", "waits", None]
