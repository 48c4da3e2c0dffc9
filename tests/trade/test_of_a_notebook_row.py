"""A row of the notebook, with a pencil: what makes it wait, and what can be known of it before."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures


@pytest.mark.parametrize(
    "written",
    [
        {"date": 46300.0},
        {"weighed": 9.0},
        {"started": 46300.25},
        {"wet": 8.0},
    ],
)
def test_any_of_them_alone_makes_it_wait(written: dict[str, Any]) -> None:
    found = Figures(products=[{"key": "food"}], notebook=[written])
    assert found("notebook", "key") == "waits"
    assert found("season", "notebook_waits") is True


def test_ounces_out_of_pounds() -> None:
    """8 oz out of 2 lb: a quarter, one of four."""
    found = Figures("lb", "oz", notebook=[{"wet": 2.0, "dry": 8.0}])
    assert found("notebook", "dried_yield") == pytest.approx(0.25)
    assert found("notebook", "drying_ratio") == pytest.approx(4)
