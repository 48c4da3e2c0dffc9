"""For every subset of unknown inputs, Python and three spreadsheet engines agree on every cell."""

from __future__ import annotations

from pathlib import Path

import pytest

from algebra.ferries import sailings
from algebra.random_trees import random_numbers
from algebra.toy_workbook import disagreements


@pytest.mark.parametrize(("fee", "slow"), [(1.25, True), (None, False)])
def test_every_subset_of_unknown_inputs(tmp_path: Path, fee: float | None, slow: bool) -> None:
    assert disagreements(sailings(fee, None if fee is None else 45900.0), tmp_path, slow=slow) == []


@pytest.mark.parametrize("seed", range(8))
def test_expressions_made_up_at_random(tmp_path: Path, seed: int) -> None:
    made = random_numbers(seed, 60)
    assert len(made.book.order) > 30, "too many were refused"
    assert disagreements(made, tmp_path, slow=not seed) == []
